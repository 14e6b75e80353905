"""The page as text: one question with its boxes, and beside it how the job stands."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from parts.asking.boxes import Box, as_typed, boxes_of
from parts.asking.desk import END, MAKE, was
from parts.asking.drawn import picture
from parts.asking.lacking import lacking
from parts.asking.moving import moving
from parts.asking.places import at
from parts.asking.questions import WAYS_UP
from parts.asking.standing import plan
from parts.job import toml
from parts.job.unknown import UNKNOWN
from parts.judging.matters import by_matter
from parts.register import PARTS
from parts.sheets.page.words import Words, pretty

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from jinja2 import Template

    from parts.asking.desk import Desk, Sight
    from parts.asking.questions import Question
    from parts.judging.finding import Finding
    from parts.unknowns.unknown import Unknown

HERE = Path(__file__).parent / "page"
BAD = ("stop", "caution")
TITLES = {MAKE: "What do you want made?", END: "That is all that is asked"}


@lru_cache(1)
def template() -> Template:
    """The page's template."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(HERE), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters["pretty"] = pretty
    return environment.get_template("ask.html.j2")


def screen(desk: Desk, sight: Sight, key: str, told: Sequence[str] = ()) -> str:
    """Return the page at a question, with what is to be told beside its box; nothing is asked of an unread file."""
    now = desk.now()
    key = key if key in TITLES or sight.question(key) else sight.open
    question = sight.question(key)
    return template().render(
        title=question.asks if question else TITLES[key],
        file=desk.path.name,
        path=str(desk.path),
        into=str(desk.into),
        now=now,
        key=key,
        was=was(now, key),
        told=told,
        question=question,
        ways=WAYS_UP,
        boxes=boxes_of(question, sight.raw) if question else None,
        drawing=picture(question, sight.standing.sound) if question and question.picture else "",
        unknown=question is not None and at(now.raw, question.key) == UNKNOWN,
        parts=_parts(now),
        number=sight.order.index(key) if key in sight.order else 0,
        last=len(sight.order) - 2,
        before=sight.beside(key, -1),
        beside=_beside(sight),
        wrong=[(fault, sight.question(fault.key)) for fault in now.standing.wrong if fault in sight.standing.faults],
        work=desk.work,
        advised=desk.advised,
        advice=_advice(desk, sight) if desk.advised == "done" else None,
    )


def _advice(desk: Desk, sight: Sight) -> dict[str, Any]:
    """The design that advice found: each change with its question, and how many stops and cautions it leaves."""
    outcome = (desk.advice.outcome if desk.advice else None) or {}
    design = outcome.get("design", {"changes": [], "before": {}, "after": {}})
    rows = [
        (c["key"], sight.question(c["key"]), _typed(c["from"]), _typed(c["to"]), c["why"]) for c in design["changes"]
    ]
    return {**design, "rows": rows, "wrong": outcome.get("wrong", [])}


def _typed(value: object) -> str:
    """A value as it would stand in the file."""
    return "not given" if value is None else value if isinstance(value, str) else toml(value)


def _parts(sight: Sight) -> list[Box]:
    """A box to tick for every part."""
    return [Box(MAKE, part.title, stem, stem in sight.standing.make) for stem, part in PARTS.items()]


def _beside(sight: Sight) -> dict[str, Any]:
    """How the job stands: plan, faults, what is lacking, findings, what topend designs, every answer."""
    standing = sight.standing
    found = list(standing.done.now.findings) if standing.done else []
    lacks = lacking(standing.known, standing.make)
    return {
        "make": standing.make,
        "plan": plan(sight.raw),
        "lacks": [(PARTS[stem].title, [_asked(sight, key) for key in keys]) for stem, keys in lacks.items() if keys],
        "complete": bool(standing.make) and not standing.faults and not any(lacks.values()),
        "findings": [(kind, _told(sight, [f for f in found if f.verdict == kind])) for kind in BAD],
        "pending": not standing.ranged,
        "unknown": _unknown(sight),
        "fine": [f for f in found if f.verdict == "ok"],
        "designed": [(q, _designed(sight, q)) for q in sight.asked if q.designed and at(sight.raw, q.key) is None],
        "answers": [(q, at(sight.raw, q.key), as_typed(at(sight.raw, q.key))) for q in sight.asked],
    }


def _asked(sight: Sight, key: str) -> tuple[str, Question | None]:
    return key, sight.question(key)


def _told(sight: Sight, found: list[Finding]) -> list[tuple[str, list[tuple[Finding, list[Question]]]]]:
    """Findings by what they are about, each with the questions that move it."""
    return [(matter, [(f, moving(sight, f.name)) for f in some]) for matter, some in by_matter(found)]


def _unknown(sight: Sight) -> list[tuple[str, Question | None, str, str]]:
    """What is not known, what decides most first: key, its question, between what it lies, how it is measured."""
    done = sight.standing.done
    if done is None:
        return []
    show = Words(done.book, done.job).show
    told = [(one.key, sight.question(one.key), _lies(one, show), one.measure) for one in done.now.unknowns]
    return told + [(key, sight.question(key), "", how) for key, how in done.job.absent.items()]


def _lies(one: Unknown, show: Callable[..., str]) -> str:
    """Between what an unknown lies, what is taken, and what goes by it."""
    low, high, taken = (show(value, one.unit) for value in (one.low, one.high, one.taken))
    turns = f"; it decides {len(one.decides)}" if one.decides else "; it decides nothing"
    at_what = f", the first at {show(one.turns_at, one.unit)}" if one.turns_at is not None else ""
    return f"{low} to {high}, taken as {taken}{turns}{at_what}"


def _designed(sight: Sight, question: Question) -> str:
    """What topend takes for a key that is left out; empty where that is not known yet."""
    done, name = sight.standing.done, f"job.{question.key}"
    return Words(done.book, done.job).size(name) if done and name in done.book else ""

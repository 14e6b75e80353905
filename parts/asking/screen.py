"""The page as text: one question with its boxes, and beside it how the job stands."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from parts.asking.boxes import Box, Boxes, as_typed, boxes_of
from parts.asking.desk import MAKE, was
from parts.asking.drawn import letters, picture
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
    from parts.asking.questions import Question, Screen
    from parts.judging.finding import Finding
    from parts.unknowns.unknown import Unknown

HERE = Path(__file__).parent / "page"
BAD = ("stop", "caution")


@lru_cache(1)
def template() -> Template:
    """The page's template."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(HERE), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters["pretty"] = pretty
    return environment.get_template("ask.html.j2")


@dataclass(frozen=True)
class Block:
    """One question on its screen."""

    question: Question
    boxes: Boxes
    drawing: str
    """that it shares with others: with the first of them"""
    letter: str
    """on that drawing"""
    unknown: bool
    wrong: bool
    """its answer is refused"""
    first: bool
    """where one begins to type"""


def screen(desk: Desk, sight: Sight, key: str, told: Sequence[tuple[str, str]] = ()) -> str:
    """Return the page at a question, with what is to be told beside its box; nothing is asked of an unread file."""
    now = desk.now()
    shown = sight.screen(key)
    keys = [one.key for one in sight.screens]
    return template().render(
        title=shown.title,
        file=desk.path.name,
        path=str(desk.path),
        into=str(desk.into),
        now=now,
        key=shown.key,
        was=was(now, shown),
        told=told,
        ways=WAYS_UP,
        blocks=_blocks(shown, sight, key, [key for key, _ in told]),
        parts=_parts(now),
        number=keys.index(shown.key) if shown.key in keys else 0,
        last=len(keys) - 2,
        before=sight.beside(shown.key, -1),
        beside=_beside(sight),
        wrong=[(fault, sight.question(fault.key)) for fault in now.standing.wrong if fault in sight.standing.faults],
        work=desk.work,
        advised=desk.advised,
        advice=_advice(desk, sight) if desk.advised == "done" else None,
    )


def _blocks(shown: Screen, sight: Sight, key: str, wrong: Sequence[str]) -> list[Block]:
    """The questions of a screen, each with its boxes."""
    raw, sound, found = sight.raw, sight.standing.sound, list[Block]()
    families: dict[str, list[Question]] = {}
    for one in shown.asked:
        families.setdefault(one.picture.partition(" ")[0], []).append(one)
    for one in shown.asked:
        some = families[one.picture.partition(" ")[0]]
        drawing = picture(some, sound) if one.picture and one is some[0] else ""
        letter = letters(some)[some.index(one)] if one.picture else ""
        refused = any(f"{told}.".startswith(f"{one.key}.") for told in wrong)
        unknown = at(raw, one.key) == UNKNOWN
        found.append(Block(one, boxes_of(one, raw), drawing, letter, unknown, refused, first=one.key == key))
    return found


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
    stands = [q for q in sight.asked if q.stands(sight.raw)]
    lacks = lacking(standing.known, standing.make)
    ready = () if standing.wrong else standing.ready
    return {
        "make": standing.make,
        "plan": plan(sight.raw),
        "lacks": [(PARTS[stem].title, [_asked(sight, key) for key in keys]) for stem, keys in lacks.items() if keys],
        "complete": bool(standing.make) and not standing.faults and not any(lacks.values()),
        "ready": [PARTS[stem].title for stem in ready],
        "findings": [(kind, _told(sight, [f for f in found if f.verdict == kind])) for kind in BAD],
        "pending": not standing.ranged,
        "unknown": _unknown(sight),
        "fine": [f for f in found if f.verdict == "ok"],
        "designed": [(q, _designed(sight, q)) for q in sight.asked if q.designed and at(sight.raw, q.key) is None],
        "answers": [(q, at(sight.raw, q.key), as_typed(at(sight.raw, q.key))) for q in stands],
        "more": [q for q in sight.asked if q.more and q not in stands],
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

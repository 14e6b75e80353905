"""The page as text: one question with its boxes, and beside it how the job stands."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from parts.asking.boxes import FORMS, Box, Boxes, as_typed, boxes_of
from parts.asking.desk import MAKE, was
from parts.asking.drawn import picture
from parts.asking.given import in_boxes
from parts.asking.lacking import lacking
from parts.asking.moving import moving
from parts.asking.places import at
from parts.asking.questions import WAYS_UP
from parts.asking.standing import plan
from parts.fixtures import FIXTURES
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
    beyond: bool
    """what stands in the file is more than the boxes can show"""
    told: tuple[str, ...]
    """why its answer is refused"""
    first: bool
    """where one begins to type"""


def screen(desk: Desk, sight: Sight, key: str, told: Sequence[tuple[str, str]] = ()) -> str:
    """Return the page at a question, with what is to be told of its answer; nothing is asked of an unread file."""
    now = desk.now()
    shown = sight.screen(key)
    keys = [one.key for one in sight.screens]
    blocks = _blocks(shown, sight, key, told)
    return template().render(
        title=shown.title,
        file=desk.path.name,
        path=str(desk.path),
        into=str(desk.into),
        now=now,
        key=shown.key,
        was=was(now, now.screen(shown.key)),
        told=[says for _, says in told if not any(says in block.told for block in blocks)],
        ways=WAYS_UP,
        blocks=blocks,
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


def _blocks(shown: Screen, sight: Sight, key: str, told: Sequence[tuple[str, str]]) -> list[Block]:
    """The questions of a screen, each with its boxes."""
    raw, sound, found = sight.raw, sight.standing.sound, list[Block]()
    families: dict[str, list[tuple[Question, str]]] = {}
    pictured = [one for one in shown.asked if one.picture]
    letter = {one: chr(ord("A") + n) for n, one in enumerate(pictured) if len(pictured) > 1}
    for one in pictured:
        families.setdefault(one.picture.partition(" ")[0], []).append((one, letter.get(one, "")))
    for one in shown.asked:
        some = families.get(one.picture.partition(" ")[0], [])
        drawing = picture(some, sound) if some and one is some[0][0] else ""
        refused = tuple(says for at_key, says in told if f"{at_key}.".startswith(f"{one.key}."))
        there = at(raw, one.key)
        beyond = isinstance(there, dict | list) and one.kind in (*FORMS, "readings") and in_boxes(one, raw) != there
        found.append(
            Block(
                one,
                boxes_of(one, raw),
                drawing,
                letter.get(one, ""),
                there == UNKNOWN,
                beyond,
                refused,
                first=one.key == key,
            )
        )
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


def _parts(sight: Sight) -> list[tuple[str, list[Box]]]:
    """A box to tick for every part, what is of the engine first."""
    boxes = {stem: Box(MAKE, part.title, stem, stem in sight.standing.make) for stem, part in PARTS.items()}
    holds = [box for stem, box in boxes.items() if PARTS[stem].table in FIXTURES]
    return [("Parts", [box for box in boxes.values() if box not in holds]), ("What holds the work, or tries it", holds)]


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
        "complete": bool(standing.make) and not any(lacks.values()) and not standing.faults and ready == standing.make,
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
    """A key and its question; of a table the first that lies in it."""
    return key, sight.question(key) or next((q for q in sight.asked if q.key.startswith(f"{key}.")), None)


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

"""The boxes of a question on the page: each with the name of the key that it fills, and what stands in the file so far."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from parts.asking.answers import units_for
from parts.asking.places import at
from parts.job.instances import LISTS
from parts.job.unknown import UNKNOWN

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from parts.asking.questions import Question

FEW = 4  # choices that stand side by side; more are a list to pull down
ROWS = 4  # of points that are shown at first
HEIGHTS, WAYS = ("near the top", "half way down", "near the bottom"), ("along the crankshaft", "across it")
FORMS = {  # kind of question -> form of its table -> what it is called, boxes by what follows the key
    "pattern": {
        "circle": ("on a circle", {"circle": "diameter of the circle", "count": "how many holes", "first": "angle of hole 1, anticlockwise from +X"}),
        "rectangle": ("at the corners of a rectangle", {"rectangle.0": "between centres along X", "rectangle.1": "between centres along Y", "turned": "turned by, anticlockwise"}),
        "points": ("each by its place", {}),
    },
    "outline": {
        "circle": ("round", {"circle": "diameter"}),
        "rectangle": ("a rectangle", {"rectangle.0": "side along X", "rectangle.1": "side along Y", "corner": "radius of its corners"}),
        "points": ("by its corners", {}),
    },
}  # fmt: skip


@dataclass(frozen=True)
class Box:
    """One box, or one choice of several."""

    name: str
    label: str
    value: str = ""
    """what stands in it; of a choice, what it stands for"""
    ticked: bool = False


@dataclass(frozen=True)
class Group:
    """Boxes that stand together: of one form of a pattern, or one row of a grid."""

    form: str
    title: str
    boxes: tuple[Box, ...]
    shown: bool = True


@dataclass(frozen=True)
class Boxes:
    """All boxes of one question."""

    kind: str
    """text, few, list, forms or grid"""
    groups: tuple[Group, ...]
    units: tuple[str, ...] = ()
    """that may be chosen for a number that is typed alone"""
    offers: tuple[str, ...] = ()
    """what may stand in a text box, among others"""
    several: bool = False
    """several readings may be given"""


def boxes_of(question: Question, raw: Mapping[str, Any]) -> Boxes:
    """Return the boxes of a question, filled with what the file has."""
    value, system = at(raw, question.key), str(at(raw, "job.print_units"))
    if question.kind in FORMS:
        return Boxes("forms", tuple(_forms(question, value)), units_for(f"{question.key}.circle", system))
    if question.kind == "yes":
        return Boxes("few", (_yes_or_no(question, value),))
    if question.kind == "choice":
        chosen = [Box(question.key, choice, choice, choice == value) for choice in question.choices]
        return Boxes("few" if len(chosen) <= FEW else "list", (Group("", "", tuple(chosen)),))
    if question.kind == "readings" and (shape := _shape(question)):
        rows = tuple(_grid(question.key, shape, value))
        return Boxes("grid", rows, units_for(rows[0].boxes[0].name, system))
    text = Box(question.key, "", as_typed(value))
    units, several = units_for(question.key, system), question.kind == "quantity"
    return Boxes("text", (Group("", "", (text,)),), units, question.choices, several)


def as_typed(value: Any) -> str:  # noqa: ANN401
    """A value of the file as it would be typed; empty for what is not there or not known.

    >>> as_typed("57.20 mm"), as_typed([1, 2]), as_typed({"name": "copper, annealed"}), as_typed("unknown")
    ('57.20 mm', '1, 2', 'copper, annealed', '')
    """
    if isinstance(value, list):
        return ", ".join(map(as_typed, value))
    if isinstance(value, dict):
        return as_typed(value.get("name"))
    return "" if value is None or value == UNKNOWN else str(value).lower() if isinstance(value, bool) else str(value)


def _yes_or_no(question: Question, value: Any) -> Group:  # noqa: ANN401
    """Yes and no; for a list of tables also one more of them."""
    there = isinstance(value, list) if question.key in LISTS else value not in (None, UNKNOWN, False)
    boxes = [
        Box(question.key, "yes", "yes", there),
        Box(question.key, "no", "no", value == (question.no or False)),
    ]
    if isinstance(value, list) and question.key not in LISTS:
        boxes.insert(1, Box(question.key, f"yes, and one more than these {len(value)}", "more"))
    return Group("", "", tuple(boxes))


def _forms(question: Question, value: Any) -> Iterator[Group]:  # noqa: ANN401
    """One group for each form that a pattern or an outline may have, the one in the file shown; a diameter is round."""
    now = value if isinstance(value, dict) else {"circle": value}
    usual = next((form for form in FORMS[question.kind] if form in now), "circle")
    for form, (title, labels) in FORMS[question.kind].items():
        boxes = [Box(f"{question.key}.{name}", label, as_typed(at(now, name))) for name, label in labels.items()]
        if form == "points":
            boxes = list(_points(f"{question.key}.points", now.get("points") or []))
        yield Group(form, title, tuple(boxes), form == usual)


def _points(key: str, points: list[Any]) -> Iterator[Box]:
    for number in range(max(ROWS, len(points) + 1)):
        for place, axis in enumerate("XY"):
            yield Box(f"{key}.{number}.{place}", f"{axis} of {number + 1}", as_typed(at(points, f"{number}.{place}")))


def _shape(question: Question) -> tuple[int, int] | None:
    """Rows and columns of what is asked in a grid; None where it is a list of any length, asked in one box."""
    example = tomllib.loads(f"key = {question.example}")["key"]
    if isinstance(example[0], list):
        return len(example), len(example[0])
    return (1, len(example)) if question.key.endswith(".at") else None


def _grid(key: str, shape: tuple[int, int], value: Any) -> Iterator[Group]:  # noqa: ANN401
    rows, columns = shape
    for row in range(rows):
        names = [f"{key}.{row}.{n}" if rows > 1 else f"{key}.{n}" for n in range(columns)]
        labels = WAYS if rows > 1 else ("X", "Y")
        found = [as_typed(at(value, name.removeprefix(f"{key}."))) for name in names]
        boxes = [Box(*box) for box in zip(names, labels, found, strict=True)]
        yield Group("", HEIGHTS[row] if rows > 1 else "", tuple(boxes))

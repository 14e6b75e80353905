"""The boxes of one question on paper: what stands beside each, what is known filled in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from parts.asking.places import UNKNOWN, at
from parts.asking.sheet import SMALL, TEXT, TICK

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from parts.asking.questions import Question
    from parts.asking.sheet import Sheet

GAP = 1.5  # mm
BOX = 9.0  # mm, height of a box for a pencil
ROW = TICK + 1.6  # mm, of boxes to tick
ACROSS = 3  # boxes side by side
LEAST_WORDS = 30  # letters of choices that stand in one row


Box = tuple[str, str, str]
"""label, unit and what is known"""


@dataclass(frozen=True)
class Cells:
    """Boxes to write in, each with its label, unit and value; and words to tick."""

    boxes: Sequence[Box]
    ticks: Sequence[tuple[str, bool]] = ()


def cells(one: Question, raw: Mapping[str, Any]) -> Cells:
    """The boxes of a question."""
    value = at(raw, one.key)
    if one.kind == "yes":
        return Cells((), [("yes", value is True or isinstance(value, dict)), ("no", value in (False, []))])
    if one.kind == "choice":
        return Cells((), [(choice, choice == value) for choice in one.choices])
    if one.kind == "pattern":
        return Cells(_pattern(value), [(way, False) for way in one.choices])
    if one.kind == "outline":
        return Cells(_outline(value))
    if one.kind == "readings":
        return Cells(_readings(value, one))
    return Cells([("", one.unit, _told(value.get("name") if isinstance(value, dict) else value))])


def _told(value: Any) -> str:  # noqa: ANN401 - TOML data
    """A value as it stands in a box: nothing where it is not known."""
    if isinstance(value, list):
        return ", ".join(map(_told, value))
    return "" if value in (None, UNKNOWN) else str(value)


def _pattern(value: Any) -> list[Box]:  # noqa: ANN401
    """Boxes of a pattern: of the form that it has, else of a circle and of three places."""
    given = value if isinstance(value, dict) else {}
    if "rectangle" in given:
        return [*_sides(given, "along X"), ("turned", "", _told(given.get("turned")))]
    if isinstance(given.get("points"), list):
        return [(f"X, Y of {n}", "", _told(point)) for n, point in enumerate(given["points"], 1)]
    labels = (("circle", "on a circle of"), ("count", "how many"), ("first", "hole 1 at, deg"))
    found = [(label, "", _told(given.get(key))) for key, label in labels]
    return found if given else [*found, *((f"or X, Y of {n}", "", "") for n in (1, 2, 3))]


def _outline(value: Any) -> list[Box]:  # noqa: ANN401
    """Boxes of an outline; a diameter alone is a round one."""
    given = value if isinstance(value, dict) else {"circle": value}
    return [("round", "", _told(given.get("circle"))), *_sides(given, "or along X")]


def _sides(given: Mapping[str, Any], first: str) -> list[Box]:
    return [(label, "", _nth(given.get("rectangle"), n)) for n, label in enumerate((first, "along Y"))]


def _readings(value: Any, one: Question) -> list[Box]:  # noqa: ANN401
    """Boxes of several readings: X and Y of a place, or along and across at three heights; else one for all."""
    if one.key.endswith(".at"):
        return [(axis, one.unit, _nth(value, n)) for n, axis in enumerate("XY")]
    if not one.key.endswith(".bore_readings"):
        return [("", one.unit, _told(value))]
    rows = value if isinstance(value, list) else []
    return [
        (f"{height}, {way}", "", _nth(rows[row] if row < len(rows) else None, n))
        for n, way in enumerate(("along", "across"))
        for row, height in enumerate(("top", "half way", "bottom"))
    ]


def _nth(value: Any, number: int) -> str:  # noqa: ANN401
    return _told(value[number]) if isinstance(value, list) and number < len(value) else ""


def height_of(some: Cells) -> float:
    """Paper that the boxes take [mm]."""
    label = SMALL + 1.0 if any(label for label, _, _ in some.boxes) else 0.0
    return len(_rows(some.boxes)) * (BOX + label + 0.8) + len(_tick_rows(some.ticks)) * ROW


def _rows(boxes: Sequence[Box]) -> list[Sequence[Box]]:
    return [boxes[n : n + ACROSS] for n in range(0, len(boxes), ACROSS)]


def _tick_rows(ticks: Sequence[tuple[str, bool]]) -> list[Sequence[tuple[str, bool]]]:
    """Words to tick in one row, or where they are long two in each."""
    if sum(len(word) + 6 for word, _ in ticks) <= LEAST_WORDS:
        return [ticks] if ticks else []
    return [ticks[n : n + 2] for n in range(0, len(ticks), 2)]


def draw_cells(sheet: Sheet, some: Cells, x: float, top: float, room: float) -> None:
    """Draw the boxes of a question from a point downwards."""
    for row in _rows(some.boxes):
        if any(label for label, _, _ in row):
            top -= SMALL + 1.0
        wide = room / min(len(some.boxes), ACROSS)
        for n, (label, unit, value) in enumerate(row):
            left = x + n * wide
            sheet.text(label, left, top + 0.8, SMALL - 0.2, wide - 2.0)
            sheet.box(left, top - BOX, wide - 1.5, BOX)
            sheet.text(value, left + 1.5, top - BOX + 3.0, TEXT + 0.3, wide - 5.0)
            sheet.text("" if value else unit, left + wide - 9.0, top - BOX + 1.2, SMALL - 0.2)
        top -= BOX + 0.8
    for few in _tick_rows(some.ticks):
        at_x = x
        for word, on in few:
            at_x = max(sheet.tick(word, at_x, top - TICK - 0.6, on=on), x + room / 2 if few[0][0] == word else 0.0)
        top -= ROW

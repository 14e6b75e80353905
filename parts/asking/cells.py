"""The boxes of one question on paper: what stands beside each, what is known filled in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from parts.asking.places import at
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


@dataclass(frozen=True)
class Cells:
    """Boxes to write in, each with its label, unit and value; and words to tick."""

    boxes: Sequence[tuple[str, str, str]]
    ticks: Sequence[tuple[str, bool]] = ()


def cells(one: Question, raw: Mapping[str, Any]) -> Cells:
    """The boxes of a question."""
    value = at(raw, one.key)
    if one.kind == "yes":
        return Cells((), [("yes", bool(value) or isinstance(value, dict)), ("no", value in (False, []))])
    if one.kind == "choice":
        return Cells((), [(choice, choice == value) for choice in one.choices])
    if one.kind == "pattern":
        return Cells(_circle(value), [(way, False) for way in one.choices])
    if one.kind == "outline":
        return Cells(_outline(value))
    if one.kind == "readings":
        return Cells(_grid(value, one))
    if isinstance(value, dict):
        value = value.get("name", "")
    return Cells([("", one.unit, "" if value is None else str(value))])


def _circle(value: Any) -> list[tuple[str, str, str]]:  # noqa: ANN401 - TOML data
    """Boxes of a pattern: of a circle, or of the form that it has."""
    value = value if isinstance(value, dict) else {}
    if "rectangle" in value:
        return [*_outline(value)[1:3], ("turned", "", str(value.get("turned", "")))]
    if "points" in value:
        return [(f"X, Y of {n}", "", ", ".join(map(str, point))) for n, point in enumerate(value["points"], 1)]
    labels = (("circle", "on a circle of"), ("count", "how many"), ("first", "hole 1 at, deg"))
    found = [(label, "", str(value.get(key, ""))) for key, label in labels]
    return found if value else [*found, *((f"or X, Y of {n}", "", "") for n in (1, 2, 3))]


def _outline(value: Any) -> list[tuple[str, str, str]]:  # noqa: ANN401
    """Boxes of an outline."""
    value = value if isinstance(value, dict) else {}
    sides = value.get("rectangle", ["", ""])
    sides = sides if isinstance(sides, list) and len(sides) == 2 else ["", ""]  # noqa: PLR2004
    return [
        ("round", "", str(value.get("circle", ""))),
        ("or along X", "", str(sides[0])),
        ("along Y", "", str(sides[1])),
    ]


def _grid(value: Any, one: Question) -> list[tuple[str, str, str]]:  # noqa: ANN401
    """Boxes of several readings: X and Y of a place, or along and across at three heights."""
    given = value if isinstance(value, list) else []
    if one.key.endswith(".at"):
        return [(axis, one.unit, str(given[n]) if n < len(given) else "") for n, axis in enumerate("XY")]
    rows = [*given, *[["", ""]] * 3][:3]
    labels = ("top", "half way", "bottom")
    return [(f"{label}, {way}", "", str(v)) for way, n in (("along", 0), ("across", 1))
            for label, v in zip(labels, (row[n] for row in rows), strict=True)]  # fmt: skip


def height_of(some: Cells) -> float:
    """Paper that the boxes take [mm]."""
    label = SMALL + 1.0 if any(label for label, _, _ in some.boxes) else 0.0
    return len(_rows(some.boxes)) * (BOX + label + 0.8) + len(_tick_rows(some.ticks)) * ROW


def _rows(boxes: Sequence[tuple[str, str, str]]) -> list[Sequence[tuple[str, str, str]]]:
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

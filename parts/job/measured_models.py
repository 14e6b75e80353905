"""The job file's table about what was measured at the bench: hole patterns, and where the machine's zero is."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, model_validator

from parts.job.fields import MOST_HOLES, Feature, Length, Measure, Reads, Table, key, quantity
from parts.job.models import Pattern
from parts.job.shaped import Pair
from parts.units import shown

CALLIPER = ("over", "between", "centres", "wall")
ANGLE = quantity("angle", -360.0, 360.0)
AS_READ = "as read"


def _hole(value: object) -> int | str:
    if value == "bore" or (isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= MOST_HOLES):
        return value
    raise ValueError(f'wants the number of a hole from 1 to {MOST_HOLES}, or "bore", not {shown(value)}')


def _turn(value: object) -> Measure | str:
    return AS_READ if value == AS_READ else ANGLE.parse(value)


HoleName: TypeAlias = Annotated[
    int | str, Reads(_hole, {"anyOf": [{"type": "integer", "minimum": 1, "maximum": MOST_HOLES}, {"const": "bore"}]})
]
Turn: TypeAlias = Annotated[Measure | str, Reads(_turn, {"type": "string", "examples": ["45 deg", AS_READ]})]
HoleNumber: TypeAlias = Annotated[int, Field(ge=1, le=MOST_HOLES)]
TwoHoles: TypeAlias = Annotated[list[HoleNumber], Field(min_length=2, max_length=2)]


class Reading(Table):
    """One reading of a pattern."""

    over: TwoHoles | None = key(
        "across the outsides of two pins, or the far edges of two holes: centres plus the diameter",
        [1, 2],
        default=None,
    )
    between: TwoHoles | None = key(
        "between the insides of two pins, or the near edges of two holes: centres less the diameter",
        [2, 3],
        default=None,
    )
    centres: TwoHoles | None = key("from centre to centre of two holes, however it was had", [1, 3], default=None)
    wall: HoleNumber | None = key("from the round wall to the nearest side of this pin or hole", 1, default=None)
    hole: HoleName | None = key(
        'X and Y of this hole, or of the "bore", off the machine\'s scales, all in one setting', 2, default=None
    )
    reads: Length | None = key("what the calliper reads", "68.31 mm ± 0.05 mm", default=None)
    at: Pair | None = key("what the scales read, X and Y", ["112.40 mm", "85.06 mm"], default=None)

    @property
    def kind(self) -> str:
        """Which of its keys says what was measured."""
        return next(k for k in (*CALLIPER, "hole") if getattr(self, k) is not None)

    @property
    def names(self) -> tuple[int | str, int | str]:
        """Between which two it goes: holes by number, or the bore."""
        found = getattr(self, self.kind)
        return (found[0], found[1]) if isinstance(found, list) else ("bore", found)

    @model_validator(mode="after")
    def _one_kind(self) -> Reading:
        kinds = [k for k in (*CALLIPER, "hole") if getattr(self, k) is not None]
        if len(kinds) != 1:
            raise ValueError(
                'wants just one of over, between, centres, wall and hole, like { over = [1, 2], reads = "68.31 mm" }'
            )
        wants, other = ("at", "reads") if kinds[0] == "hole" else ("reads", "at")
        if getattr(self, wants) is None or getattr(self, other) is not None:
            example = (
                'hole = 1, at = ["112.40 mm", "85.06 mm"]' if wants == "at" else 'over = [1, 2], reads = "68.31 mm"'
            )
            raise ValueError(f"wants {wants} and no {other} with {kinds[0]}, like {{ {example} }}")
        return self


class MeasuredPattern(Table):
    """[measured.old], the barrel's holes, and [measured.new], the head's."""

    form: Literal["circle", "rectangle", "points"] = key('"circle", "rectangle" or "points"', "points")
    count: Annotated[int, Field(ge=2, le=MOST_HOLES)] | None = key(
        "holes of a circle or of points; numbered anticlockwise from above, a rectangle from its +X+Y corner",
        4,
        default=None,
    )
    diameter: Length | None = key("of the pins or holes that over, between and wall go to", "8.50 mm", default=None)
    round_wall: Length | None = key(
        "diameter of the wall that wall goes to, where it is not the bore: a spigot, a recess", "57.20 mm", default=None
    )
    turned: Turn | None = key(
        'turn of a rectangle, or angle of hole 1, from +X; or "as read", the part set square to the machine',
        "44 deg",
        default=None,
    )
    seen: Literal["from above", "from beneath"] = key(
        'the scales\' X and Y, "from above" the deck or "from beneath": a head that lies joint face up',
        "from above",
        default="from above",
    )
    roughly: Annotated[list[Pair], Field(min_length=2, max_length=MOST_HOLES)] | None = key(
        "for points without X and Y of each: where they are as sketched, from the centre of the bore",
        [["30 mm", "29 mm"], ["-30 mm", "29 mm"], ["-30 mm", "-29 mm"], ["30 mm", "-29 mm"]],
        default=None,
    )
    readings: Annotated[list[Reading], Field(min_length=1, max_length=100)] = key(
        "any number of these, in any order",
        [
            {"over": [1, 2], "reads": "68.51 mm ± 0.05 mm"},
            {"between": [2, 3], "reads": "49.48 mm"},
            {"centres": [1, 3], "reads": "83.45 mm"},
            {"wall": 1, "reads": "8.86 mm"},
            {"hole": 2, "at": ["112.40 mm", "85.06 mm"]},
        ],
    )

    @property
    def holes(self) -> int:
        """How many."""
        return 4 if self.form == "rectangle" else self.count or 0

    @model_validator(mode="after")
    def _fits_its_form(self) -> MeasuredPattern:
        if self.form == "rectangle" and self.count not in (None, 4):
            raise ValueError(f"has a count of {self.count}, and a rectangle has 4 holes")
        if self.form != "rectangle" and self.count is None:
            raise ValueError(f'as {self.form} wants a count, like form = "{self.form}", count = 3')
        if self.form != "points" and self.roughly is not None:
            raise ValueError(f"takes no roughly with {self.form}")
        if self.roughly is not None and len(self.roughly) != self.count:
            raise ValueError(f"has {len(self.roughly)} places in roughly, and a count of {self.count}")
        return self


class Touched(Table):
    """One feature of the barrel as it lies on the machine."""

    hole: Feature = key('"bore", or a hole by pattern and number: "old 1", "new 2"', "old 1")
    at: Pair = key("what the scales read over it, X and Y", ["212.40 mm", "85.06 mm"])


class MachineZero(Table):
    """[measured.machine]: the barrel as it lies on the machine."""

    readings: Annotated[list[Touched], Field(min_length=2, max_length=100)] = key(
        "two holes or more, or the bore and holes",
        [
            {"hole": "bore", "at": ["182.40 mm", "56.06 mm"]},
            {"hole": "old 1", "at": ["212.40 mm", "85.06 mm"]},
        ],
    )


class Measured(Table):
    """[measured]."""

    old: MeasuredPattern | None = key("the barrel's old holes", {}, default=None)
    new: MeasuredPattern | None = key("the head's holes", {}, default=None)
    machine: MachineZero | None = key("the barrel on the machine's table", {}, default=None)


class FittedPattern(Pattern):
    """A pattern that readings gave, where the job file gives none."""


__all__ = ["AS_READ", "FittedPattern", "MachineZero", "Measured", "MeasuredPattern", "Reading", "Touched"]

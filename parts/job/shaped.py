"""A closed outline as a job file gives it: by its sizes, by corners and lobes, or drawn in a DXF file."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from math import dist, inf
from typing import TYPE_CHECKING, Annotated, Any, Self, TypeAlias

from pydantic import Field, PrivateAttr, ValidationInfo, model_validator

from parts.drawn import Drawing, drawing
from parts.errors import JobError
from parts.geometry import forms, outline
from parts.geometry.lands import within
from parts.geometry.outline import Loop
from parts.job.fields import (
    MOST_MM,
    Feature,
    Length,
    Measure,
    Position,
    Reads,
    Table,
    Words,
    key,
    quantity,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    Value: TypeAlias = Callable[[str], float]
    """a number of the table by its key, like `points.3.2`"""

LEAST_EDGE = 0.001  # mm: of a shorter one the kernel makes no solid, and nobody cuts it
ROUNDING = quantity("length", 0.0, MOST_MM)
PLACE = quantity("length", -MOST_MM, MOST_MM)
CORNERS = [["50 mm", "40 mm", "R8 mm"], ["-50 mm", "40 mm", "R8 mm"], ["0 mm", "-60 mm", "R12 mm"]]
LOBES = [["40 mm", "38 mm", "14 mm"], ["-40 mm", "38 mm", "14 mm"], ["0 mm", "-44 mm", "16 mm"]]


class Rounding(Measure):
    """The radius at a corner, as it stands behind its X and Y."""


def _of_corner(value: object) -> Measure | str:
    if value == forms.THROUGH:
        return forms.THROUGH
    if isinstance(value, str) and value.lstrip()[:1] in ("R", "r"):
        read = ROUNDING.parse(value.lstrip()[1:])
        return Rounding(read, read.unit, read.spread, value)
    return PLACE.parse(value)  # type: ignore[no-any-return]


OfCorner: TypeAlias = Annotated[
    Measure | str, Reads(_of_corner, {"type": "string", "examples": ["50 mm", "40 mm"], "minLength": 1})
]
Corner: TypeAlias = Annotated[list[OfCorner], Field(min_length=2, max_length=3)]
Corners: TypeAlias = Annotated[list[Corner], Field(min_length=3, max_length=200)]
Lobe: TypeAlias = Annotated[list[Position], Field(min_length=3, max_length=3)]
Lobes: TypeAlias = Annotated[list[Lobe], Field(min_length=2, max_length=50)]
Pair: TypeAlias = Annotated[list[Position], Field(min_length=2, max_length=2)]
Sides: TypeAlias = Annotated[list[Length], Field(min_length=2, max_length=2)]
File: TypeAlias = Annotated[Words, Field(pattern=r"^[^/\\:]+\.[dD][xX][fF]$", max_length=100)]
TwoPlaces: TypeAlias = Annotated[list[Feature], Field(min_length=2, max_length=2)]

UNITS = 'unit of the file, where it does not say or says it wrong: "mm" or "in"'
AT_HOLES = "two holes of the job that two circles of the file are put on; else its circle on layer BORE is the bore"
POINTS = key(
    'corners in order: X, Y and maybe the radius there; "through" behind X and Y: no corner, an arc goes through it',
    CORNERS,
    default=None,
)
DRAWN = key("drawn in this file, which stands beside the job file", "deck.dxf", default=None)
OUTLINE_LAYER = "OUTLINE"
PART_OF = {
    "corner": ("rectangle",),
    "turned": ("slot", "rectangle"),
    "at": ("diameter", "slot", "rectangle", "dxf"),
    **dict.fromkeys(("layer", "dxf_units", "at_holes"), ("dxf",)),
}
"""key -> the forms that it may stand with"""


@cache  # the models' library takes long to tell them
def _fields(model: type[Table]) -> frozenset[str]:
    return frozenset(model.model_fields)


class Shaped(Table):
    """A closed outline in one of several forms; a plain number of it is named by its key, like `points.3.2`."""

    _drawing: Drawing | None = PrivateAttr(default=None)
    _placed: tuple[Loop, ...] | None = PrivateAttr(default=None)
    _put: tuple[float, tuple[str, ...]] | None = PrivateAttr(default=None)

    @property
    def form(self) -> str:
        """Key of the form that it is given in."""
        return next(n for n in self.forms() if getattr(self, n) is not None)

    @classmethod
    def forms(cls) -> list[str]:
        """Keys of the forms that it may be given in."""
        return [n for n in SHAPES if n in _fields(cls)]

    @property
    def drawing(self) -> Drawing | None:
        """The file that it is drawn in, as read."""
        return self._drawing

    def numbers(self) -> list[str]:
        """Keys of the numbers that its loops are made of."""
        keys = (self.form, *(key for key in PART_OF if key in _fields(type(self))))
        return list(_numbers((key, getattr(self, key)) for key in keys))

    def loops(self, value: Value | None = None) -> tuple[Loop, ...]:
        """Return its closed loops about the centre of the bore [mm], of its own numbers or of others by their keys.

        JobError where it can't be drawn.
        """
        if self._placed is not None:
            return self._placed
        return SHAPES[self.form](self, value or self._own)

    def loop(self, value: Value | None = None) -> Loop:
        """Return the one loop of an outline."""
        return self.loops(value)[0]

    @property
    def waits(self) -> bool:
        """Whether it is drawn and not yet put on the holes that it names."""
        return self._drawing is not None and self._placed is None and getattr(self, "at_holes", None) is not None

    @property
    def put(self) -> tuple[float, tuple[str, ...]] | None:
        """Where it was put on holes: how far the worst lies from its circle [mm], and which no circle judges."""
        return self._put

    def placed(self, loops: tuple[Loop, ...], off: float, unjudged: tuple[str, ...]) -> Self:
        """Return it with the loops of its file where they belong."""
        other = self.model_copy()
        other._placed, other._put = loops, (off, unjudged)  # noqa: SLF001 - its own
        return other

    def on_layer(self) -> tuple[Loop, ...]:
        """Return the loops of its layer as they lie in the file; JobError where there is none."""
        if self._drawing is None:
            raise forms.refused(f"can't be read: {getattr(self, 'dxf', '')} does not stand beside the job file")
        return self._drawing.on(getattr(self, "layer", None) or OUTLINE_LAYER)

    def __repr_args__(self) -> Iterator[tuple[str | None, Any]]:
        """Tell two drawings apart that stand under one name."""
        yield from super().__repr_args__()
        if self._drawing is not None:
            yield "drawn", self._placed or self._drawing.layers

    def _own(self, name: str) -> float:
        step, *rest = name.split(".")
        value: Any = getattr(self, step)
        for one in rest:
            value = value[int(one)]
        return float(value)

    @model_validator(mode="after")
    def _one_form(self, info: ValidationInfo) -> Self:
        names = self.forms()
        given = [n for n in names if getattr(self, n) is not None]
        if len(given) != 1:
            example = '{ circle = "112 mm" }' if "circle" in names else 'diameter = "8.50 mm"'
            raise ValueError(f"wants just one of {', '.join(names[:-1])} and {names[-1]}, like {example}")
        for extra in sorted(self.model_fields_set & PART_OF.keys()):
            if given[0] not in PART_OF[extra]:
                raise ValueError(f"takes no {extra} with {given[0]}")
        self._refuse_small()
        name, data = getattr(self, "dxf", None), (info.context or {}).get(getattr(self, "dxf", None))
        if name and data is not None:
            try:
                self._drawing = drawing(data, name, getattr(self, "dxf_units", None))
            except JobError as error:
                raise ValueError(error.faults[0].says) from None
        return self

    def _refuse_small(self) -> None:
        """Refuse sides and roundings that nobody can cut, and corners that do not fit."""
        corner, sides = getattr(self, "corner", None) or 0.0, getattr(self, "rectangle", None) or ()
        if sides and 2 * corner > min(sides):
            raise ValueError(
                f"has a corner radius of {corner:g} mm, more than half the shorter side of {min(sides):g} mm"
            )
        for n, corner_point in enumerate(getattr(self, "points", None) or ()):
            _refuse_corner(n, corner_point)
        if (side := self._shortest(sides, corner)) < LEAST_EDGE:
            raise ValueError(f"has a side or a rounding of {side:.2g} mm: none may be under {LEAST_EDGE:g} mm")

    def _shortest(self, sides: Any, corner: float) -> float:  # noqa: ANN401 - two lengths, or none
        """Length of the shortest side, or radius of its corners if that is less [mm]."""
        points = [(float(p[0]), float(p[1])) for p in getattr(self, "points", None) or ()]
        if points:
            return min(dist(a, b) for a, b in pairwise([*points, points[0]]))
        return min((side for side in [corner, *(side - 2 * corner for side in sides)] if side > 0), default=inf)


def _refuse_corner(number: int, corner: list[Measure | str]) -> None:
    """Refuse a corner that is not X, Y and a radius."""
    places, more = corner[:2], corner[2:]
    if any(isinstance(one, Rounding) and 0 < one < LEAST_EDGE for one in more):
        raise ValueError(
            f"has a rounding of {more[0]:.2g} mm at corner {number + 1}: none may be under {LEAST_EDGE:g} mm"
        )
    if any(isinstance(one, Rounding | str) for one in places):
        raise ValueError(f'wants X and Y first at corner {number + 1}, like ["50 mm", "40 mm", "R8 mm"]')
    if any(not isinstance(one, Rounding | str) for one in more):
        raise ValueError(f'wants R before the radius of corner {number + 1}, like "R8 mm", not {more[0].written!r}')  # type: ignore[union-attr]


def _numbers(values: Any) -> Iterator[str]:  # noqa: ANN401 - keys with what stands under them
    for name, value in values:
        if isinstance(value, list):
            yield from _numbers((f"{name}.{n}", one) for n, one in enumerate(value))
        elif isinstance(value, Measure):
            yield name


def _corners(shape: Any, value: Value) -> tuple[Loop, ...]:  # noqa: ANN401 - an outline or a passage
    def third(n: int, corner: list[Measure | str]) -> float | str:
        if len(corner) < 3:  # noqa: PLR2004 - X and Y alone
            return 0.0
        return value(f"points.{n}.2") if isinstance(corner[2], Measure) else forms.THROUGH

    places = [(value(f"points.{n}.0"), value(f"points.{n}.1"), third(n, c)) for n, c in enumerate(shape.points)]
    return (forms.outlined(tuple(places)),)


def _lobes(shape: Any, value: Value) -> tuple[Loop, ...]:  # noqa: ANN401
    found = [tuple(value(f"lobes.{n}.{k}") for k in range(3)) for n in range(len(shape.lobes))]
    return (forms.lobed(tuple(found)),)


def _rectangle(shape: Any, value: Value) -> tuple[Loop, ...]:  # noqa: ANN401
    corner = value("corner") if shape.corner is not None else 0.0
    return (_about(shape, value, outline.rectangle(value("rectangle.0"), value("rectangle.1"), corner)),)


def _slot(shape: Any, value: Value) -> tuple[Loop, ...]:  # noqa: ANN401
    return (_about(shape, value, forms.slot(value("slot.0"), value("slot.1"))),)


def _about(shape: Any, value: Value, loop: Loop) -> Loop:  # noqa: ANN401
    """Turn a loop and put it on the passage's centre; an outline lies about the bore."""
    if getattr(shape, "at", None) is None:
        return loop
    turned = value("turned") if shape.turned is not None else 0.0
    return outline.transformed(loop, value("at.0"), value("at.1"), turned)


def _drawn(shape: Any, _: Value) -> tuple[Loop, ...]:  # noqa: ANN401
    """Loops of the file's layer; of a passage that has a place, the one round it."""
    found = shape.on_layer()
    if not hasattr(shape, "at"):
        if len(found) > 1:
            raise forms.refused(
                f"wants one outline, and {shape.dxf} has {len(found)} on layer {shape.layer or OUTLINE_LAYER}"
            )
        return found  # type: ignore[no-any-return]
    return found if shape.at_holes else around(shape, found)


def around(passage: Any, found: tuple[Loop, ...]) -> tuple[Loop, ...]:  # noqa: ANN401
    """Of loops where they belong, that round the place of a passage; all where it gives none."""
    if passage.at is None:
        return found
    x, y = map(float, passage.at)
    here = tuple(loop for loop in found if within(loop, x, y) > 0)
    if not here:
        raise forms.refused(
            f"has nothing drawn round ({x:g}, {y:g}) mm on layer {passage.layer or OUTLINE_LAYER} of {passage.dxf}"
        )
    return here[:1]


SHAPES: dict[str, Callable[[Any, Value], tuple[Loop, ...]]] = {
    "circle": lambda _, value: (outline.circle(0.0, 0.0, value("circle") / 2),),
    "diameter": lambda _, value: (outline.circle(value("at.0"), value("at.1"), value("diameter") / 2),),
    "slot": _slot,
    "rectangle": _rectangle,
    "points": _corners,
    "lobes": _lobes,
    "dxf": _drawn,
}

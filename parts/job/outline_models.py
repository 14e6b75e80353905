"""Outlines and passages of the job file: the forms that each may have."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from parts.geometry.lands import middle
from parts.job.fields import Allowance, Angle, Length, Words, key
from parts.job.shaped import (
    AT_HOLES,
    DRAWN,
    LOBES,
    OUTLINE_LAYER,
    POINTS,
    UNITS,
    Corners,
    File,
    Lobes,
    Pair,
    Shaped,
    Sides,
    TwoPlaces,
)


class Outline(Shaped):
    """A plane outline about the centre of the bore."""

    circle: Length | None = key("diameter", "112 mm", default=None)
    rectangle: Sides | None = key("sides along X and Y", ["100 mm", "90 mm"], default=None)
    corner: Allowance | None = key("radius of the rectangle's corners", "8 mm", default=None)
    points: Corners | None = POINTS
    lobes: Lobes | None = key(
        "X, Y and radius of circles in order, each joined to the next by their outer tangent", LOBES, default=None
    )
    dxf: File | None = DRAWN
    layer: Words | None = key("its layer in the file", OUTLINE_LAYER, default=None)
    dxf_units: Literal["mm", "in"] | None = key(UNITS, "mm", default=None)
    at_holes: TwoPlaces | None = key(AT_HOLES, ["new 1", "new 3"], default=None)


class Passage(Shaped):
    """One of [[barrel.passages]]."""

    name: Annotated[Words, Field(min_length=1, max_length=60)] = key("what it is", "breather")
    at: Pair | None = key(
        "X and Y of its centre; of one that is drawn, a place inside it", ["0.0 mm", "42.0 mm"], default=None
    )
    diameter: Length | None = key("diameter at the deck", "8.50 mm", default=None)
    slot: Sides | None = key(
        "in the place of a diameter: width, and length over its round ends along X", ["8 mm", "22 mm"], default=None
    )
    rectangle: Sides | None = key("or sides along X and Y", ["12 mm", "20 mm"], default=None)
    corner: Allowance | None = key("radius of the rectangle's corners", "3 mm", default=None)
    turned: Angle | None = key("turn of slot or rectangle, anticlockwise", "30 deg", default=None)
    points: Corners | None = key(
        "or its corners as of an outline, from the centre of the bore",
        [["30 mm", "10 mm", "R2 mm"], ["42 mm", "0 mm", "R2 mm"], ["30 mm", "-10 mm", "R2 mm"]],
        default=None,
    )
    lobes: Lobes | None = key(
        "or circles joined by their tangents, as of an outline",
        [["36 mm", "8 mm", "3 mm"], ["40 mm", "-6 mm", "4 mm"]],
        default=None,
    )
    dxf: File | None = DRAWN
    layer: Words | None = key("its layer in the file", "OPENINGS", default=None)
    dxf_units: Literal["mm", "in"] | None = key(UNITS, "mm", default=None)
    at_holes: TwoPlaces | None = key(AT_HOLES, ["new 1", "new 3"], default=None)
    depth: Length | None = key("depth", "18 mm", default=None)
    blank: bool = key("the new head does not use it: it gets a plug", True, default=False)

    @property
    def centre(self) -> tuple[float, float]:
        """Where its label stands: its own place, else the middle of what is drawn [mm]."""
        return middle(tuple(v for loop in self.loops() for v in loop)) if self.at is None else (self.at[0], self.at[1])

    @model_validator(mode="after")
    def _has_a_place(self) -> Passage:
        if self.at is None and self.form in ("diameter", "slot", "rectangle"):
            raise ValueError('wants at, X and Y of its centre, like at = ["0.0 mm", "42.0 mm"]')
        if self.slot and self.slot[0] > self.slot[1]:
            raise ValueError(
                f"has a slot of {self.slot[0]:g} x {self.slot[1]:g} mm: width first, and no more than its length"
            )
        return self

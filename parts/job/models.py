"""The job file's tables about the engine: what is there and was measured."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal, TypeAlias

from pydantic import Discriminator, Field, Tag, create_model, model_validator

from parts.job.fields import (
    ANY,
    Allowance,
    Angle,
    HoleSize,
    Length,
    Measure,
    Pressure,
    Table,
    Temperature,
    ThreadName,
    Volume,
    Words,
    key,
    quantity,
)
from parts.job.material_models import BarrelMaterial, HeadMaterial
from parts.job.outline_models import Outline, Passage
from parts.job.shaped import Pair, Sides
from parts.tables import PRACTICE

WIDEST_PORT = 180  # deg
WITHIN = 0.1  # mm that a drilled hole may lie from its place, along X and along Y
PLACED = f"{WITHIN:.2f} mm"
ONE, MANY = "one table", "list of tables"
DIAMETER, SHAPE = "a diameter", "an outline"
TAGS = (ONE, MANY, DIAMETER, SHAPE)
"""where a key may hold one of two things: what stands in the place of a fault beside its keys"""


Heights: TypeAlias = Annotated[list[Sides], Field(min_length=3, max_length=3)]


class Pattern(Table):
    """A hole pattern: on a circle, a rectangle, or by points, about the centre of the bore."""

    circle: Length | None = key("diameter of the hole circle", "78 mm", default=None)
    count: Annotated[int, Field(ge=1, le=36)] | None = key("holes on the circle", 3, default=None)
    first: Angle | None = key("angle of hole 1 from +X, anticlockwise", "45 deg", default=None, free="turns")
    rectangle: Sides | None = key("distances between hole centres along X and Y", ["60.0 mm", "58.0 mm"], default=None)
    turned: Angle | None = key("turn of the rectangle, anticlockwise", "0 deg", default=None, free="turns")
    points: Annotated[list[Pair], Field(min_length=1, max_length=36)] | None = key(
        "X and Y of each hole", [["30.0 mm", "29.0 mm"]], default=None
    )

    @property
    def holes(self) -> int:
        """How many."""
        return len(self.points) if self.points else 4 if self.rectangle else self.count or 0

    @model_validator(mode="after")
    def _one_form(self) -> Pattern:
        forms = [n for n in ("circle", "rectangle", "points") if getattr(self, n) is not None]
        if len(forms) != 1:
            raise ValueError(
                'wants just one of circle, rectangle and points, like { circle = "78 mm", count = 3, first = "45 deg" }'
            )
        takes = {"circle": {"circle", "count", "first"}, "rectangle": {"rectangle", "turned"}, "points": {"points"}}[
            forms[0]
        ]
        if extra := self.model_fields_set - takes:
            raise ValueError(f"takes no {min(extra)} with {forms[0]}")
        if forms[0] == "circle" and self.count is None:
            raise ValueError('on a circle wants a count, like { circle = "78 mm", count = 3, first = "45 deg" }')
        return self


class JobHead(Table):
    """[job]."""

    title: Words = key(
        "what the job is, for the sheets", "Four-stud head on a three-stud barrel", default="untitled job"
    )
    print_units: Literal["metric", "inch"] = key(
        'how sheets print, and which drills are listed: "metric" or "inch"', "metric", default="metric"
    )
    page: Literal["A4", "Letter"] = key('paper of drawings and templates: "A4" or "Letter"', "A4", default="A4")


class Hot(Table):
    """Working temperatures of the top end."""

    stud: Temperature = key("studs", "145 degC")
    head: Temperature = key("cylinder head", "170 degC")
    barrel: Temperature = key("barrel at the deck", "160 degC")
    ring: Temperature | None = key("piston rings", "200 degC", default=None)
    bore_wall: Temperature | None = key("bore wall where the rings run", "160 degC", default=None)


class PortPlace(Table):
    """One of [[engine.ports]], but for where it begins: `from` is a word of the language."""

    name: Annotated[Words, Field(min_length=1, max_length=60)] = key("what it is", "exhaust")
    to: Angle = key("angle where it ends, anticlockwise from its beginning", "30 deg")
    top: Length = key("its upper edge below the deck, before any skim", "38 mm")
    bottom: Length = key("its lower edge below the deck, before any skim", "60 mm")
    bridge: Length | None = key("width of the bar that divides it, where there is one", "4 mm", default=None)

    @property
    def span(self) -> float:
        """Angle that it takes up [deg]."""
        return float((self.to - getattr(self, "from")) % 360)

    @model_validator(mode="after")
    def _is_open(self) -> PortPlace:
        if not 0 < self.span <= WIDEST_PORT:
            raise ValueError(f"wants to run anticlockwise over at most {WIDEST_PORT} deg, not {self.span:g} deg")
        if self.bottom <= self.top:
            raise ValueError(f"wants its bottom below its top of {self.top:g} mm, not {self.bottom.written!r}")
        return self


if TYPE_CHECKING:
    Port: TypeAlias = PortPlace
else:
    BEGINS = {"from": (Angle, key("angle from +X where it begins", "-30 deg"))}
    Port = create_model("Port", __base__=PortPlace, __doc__="One of [[engine.ports]].", __module__=__name__, **BEGINS)


HEATS = ("hot", "run_up", "hot_stop")
"""keys of an engine's states of heat"""


class Engine(Table):
    """[engine]."""

    cycle: Literal["four-stroke", "two-stroke"] | None = key(
        '"four-stroke" or "two-stroke"', "four-stroke", default=None
    )
    bore: Annotated[Measure, quantity("length", 10.0, 300.0)] = key("bore of the barrel, as honed", "57.20 mm")
    bore_readings: Heights | None = key(
        "bore as measured: near the top, half way, near the bottom, each along the crankshaft and across it",
        [["57.20 mm", "57.21 mm"], ["57.19 mm", "57.20 mm"], ["57.20 mm", "57.22 mm"]],
        default=None,
    )
    stroke: Length | None = key("stroke", "63.5 mm", default=None)
    clearance_volume: Volume | None = key(
        "volume above the piston at top dead centre, old head and old gasket, by burette", "31.0 cm^3", default=None
    )
    old_chamber_volume: Volume | None = key("chamber of the old head alone", "26.5 cm^3", default=None)
    peak_pressure: Pressure | None = key("greatest gas pressure", "38 bar", default=None)
    squish: Length | None = key("piston crown to head face at top dead centre, old gasket", "1.60 mm", default=None)
    hot: Hot | None = key("working temperatures, run in", {}, default=None)
    run_up: Hot | None = key("first minutes under load: the head hot, the studs not yet", {}, default=None)
    hot_stop: Hot | None = key("just after a hot stop", {}, default=None)
    ports: Annotated[list[Port], Field(max_length=36)] = key("ports of a two-stroke barrel", [], default=[])


BRAZED, SCREWED = "bronze braze", "screwed iron plug"


class OldHoles(Table):
    """[barrel.old_holes]."""

    pattern: Pattern | None = key(
        "where the old holes are; needed without [measured.old]",
        {"circle": "78 mm", "count": 3, "first": "45 deg"},
        default=None,
    )
    diameter: HoleSize = key("as drilled out to clean metal; or the thread that is in them, drilled out", "9.6 mm")
    depth: Length | None = key("as drilled out", "22 mm", default=None)
    fill: Literal["bronze braze", "screwed iron plug"] = key(
        f'"{BRAZED}" or "{SCREWED}"', BRAZED, default=BRAZED, free=ANY
    )
    thread: ThreadName | None = key(
        "thread of the screwed plugs, larger than the hole; else the next screw plug's", "M12x1.5", default=None
    )
    pinned: bool = key(
        "screwed plugs are pinned against turning, each by a pin in the joint", True, default=False, free=ANY
    )


class Liner(Table):
    """[barrel.liner]."""

    outside: Length = key("outside diameter at the deck", "64 mm")
    material: BarrelMaterial | None = key("material of the liner", "EN-GJL-250", default=None)
    interference: Allowance | None = key("tightness in the barrel, on diameter, cold", "0.10 mm", default=None)


class Barrel(Table):
    """[barrel]."""

    material: BarrelMaterial | None = key("material of the barrel", "EN-GJL-250", default=None)
    outline: Outline | None = key("the deck face", {"circle": "112 mm"}, default=None)
    deck_depth: Length | None = key("metal below the deck at the new stud bosses", "32 mm", default=None)
    skim: Allowance = key(
        "to come off the deck after the old holes are filled", "0.12 mm", default="0 mm", assumed="no skim given"
    )
    drilled_within: Allowance = key(
        "how far a new tapped hole may come out from its place, along X and along Y each",
        PLACED,
        default=PLACED,
        assumed=PRACTICE,
    )
    old_holes: (
        Annotated[
            Annotated[OldHoles, Tag(ONE)] | Annotated[list[OldHoles], Field(min_length=1, max_length=36), Tag(MANY)],
            Discriminator(lambda value: MANY if isinstance(value, list) else ONE),
        ]
        | None
    ) = key("holes to be filled before the new pattern is drilled; a list where they differ", {}, default=None)
    liner: Liner | None = key("a liner in the barrel: the metal to the bore is that of the casting", {}, default=None)
    passages: Annotated[list[Passage], Field(max_length=36)] = key("other openings in the deck", [], default=[])


class Head(Table):
    """[head]."""

    material: HeadMaterial | None = key("material of the head", "AlSi7Mg0.3 T6", default=None)
    thickness: Length | None = key("through the head at the stud bosses", "46 mm", default=None)
    boss: Length | None = key("diameter of the metal round each stud", "24 mm", default=None)
    hole_diameter: Length | None = key("stud holes of the head", "9.0 mm", default=None)
    holes: Pattern | None = key(
        "the new stud pattern; or measure it, [measured.new]",
        {"rectangle": ["60.0 mm", "58.0 mm"], "turned": "0 deg"},
        default=None,
    )
    holes_within: Allowance = key(
        "how far a stud hole of the head may lie from where the pattern puts it, along X and along Y each",
        PLACED,
        default=PLACED,
        assumed=PRACTICE,
    )
    joint_face: (
        Annotated[
            Annotated[Length, Tag(DIAMETER)] | Annotated[Outline, Tag(SHAPE)],
            Discriminator(lambda value: SHAPE if isinstance(value, dict | Outline) else DIAMETER),
        ]
        | None
    ) = key(
        "outside diameter of the raised face that presses on the gasket, or its outline as of the deck",
        "66 mm",
        default=None,
    )
    outline: Outline | None = key("edge of the head at its joint face", {"circle": "110 mm"}, default=None)
    spigot: Length | None = key("round wall inside the studs that washers must clear", "60 mm", default=None)
    chamber_volume: Volume | None = key("chamber of the new head", "24.8 cm^3", default=None)
    chamber_mouth: Length | None = key("diameter of the chamber where it meets the gasket", "56 mm", default=None)
    plug_reach: Length | None = key("length of the spark plug's thread in the head", "12.7 mm", default=None)
    valves: Allowance | None = key(
        "least room from a valve to the piston, new head on the old gasket before the skim, by clay",
        "2.0 mm",
        default=None,
    )
    valve_gear: Literal["push rods", "chain", "side valves"] | None = key(
        'what drives the valves: "push rods", "chain" or "side valves"', "push rods", default=None
    )
    located_by: Literal["spigot", "dowels", "studs"] | None = key(
        '"spigot", "dowels" or "studs"', "dowels", default=None, free="dowels"
    )
    may_turn: bool = key("the head may stand turned on the barrel: pipes and fins allow it", False, default=False)

"""The job file's tables about the parts to be made."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, Field, model_validator

from parts.job.fields import (
    ANY,
    Allowance,
    Angle,
    Length,
    Measure,
    Sheet,
    Stress,
    Table,
    Temperature,
    ThreadName,
    Time,
    Words,
    key,
    multiple,
    number,
    quantity,
)
from parts.job.material_models import BarMaterial, RingMaterial, SheetMaterial, by_name
from parts.tables import PRACTICE

SET_FRACTION, SOAK = 0.95, 60.0  # share of the opening, min at heat
RING_IRON = "ring iron, grey"
PARTING, FACING = 2.0, 1.0  # mm: the tool, and what comes off an end
INSERTS = "1 d,1.5 d,2 d,2.5 d,3 d"
"""nominal lengths of wire thread inserts: DIN 8140 (memory)"""
NO_TRIAL = f"no trial ring measured yet: typical after {SOAK / 60:g} h near 600 degC"


Name = Annotated[Words, Field(min_length=1, max_length=60)]


class Insert(Table):
    """[stud.insert]: a wire thread insert in the barrel."""

    length: Annotated[Measure, multiple("1.5 d", 4.0, 100.0)] | None = key(
        "nominal length",
        "1.5 d",
        designed="what the barrel's metal carries hot, as far as its depth allows",
        free=INSERTS,
    )
    tap: Literal["bottoming", "plug"] = key(
        'tap that finishes the hole: "bottoming" or "plug"', "bottoming", default="bottoming", free=ANY
    )
    depth_rule: Literal["ASME B18.29", "DIN 8140"] = key(
        "whose set-down below the deck: 1 P of ASME B18.29, or the half turn of DIN 8140",
        "ASME B18.29",
        default="ASME B18.29",
    )


class Nut(Table):
    """A nut by its standard, or with the sizes the user has."""

    name: Words = key("standard and class", "ISO 4032 class 10")
    height: Length | None = key("greatest height", "6.8 mm", default=None)
    least_height: Length | None = key("least height", "6.44 mm", default=None)
    across_flats: Length | None = key("across flats", "13 mm", default=None)
    bearing: Length | None = key("least diameter of the bearing face", "11.6 mm", default=None)


class Washer(Table):
    """A washer by its standard, or with the sizes the user has."""

    name: Words = key("standard and hardness", "ISO 7089 300 HV")
    thickness: Length | None = key("thickness", "1.6 mm", default=None)
    outside: Length | None = key("outside diameter", "16 mm", default=None)
    inside: Length | None = key("inside diameter", "8.4 mm", default=None)


class Stud(Table):
    """[stud]."""

    tap_end: ThreadName = key("thread into the barrel", "M10x1.5")
    nut_end: ThreadName = key("thread through the head", "M8x1.25")
    material: BarMaterial | None = key(
        "bar the studs are turned from", "42CrMo4 +QT", default=None, free="C45,C45 +QT,42CrMo4 +QT"
    )
    shank: Length | None = key(
        "diameter between the threads", "6.2 mm", designed="a waist under the core of the smaller thread", free="shanks"
    )
    preload_share: Annotated[Measure, number(0.05, 1.0)] | None = key(
        "share of the proof load of the weakest section",
        0.4,
        designed="the middle between what the joint asks for and what stud, head and threads allow, cold and hot",
        free="0.20..0.75/0.01",
    )
    insert: Insert | None = key("wire thread insert in the barrel", {}, default=None, free="inserts")
    engagement: Annotated[Measure, multiple("2 d", 4.0, 100.0)] | None = key(
        "thread in the barrel where there is no insert",
        "2 d",
        designed="what the barrel's metal carries hot, as far as its depth allows",
        free="1.00..3.00d/0.25",
    )
    tap: Literal["bottoming", "plug"] = key(
        'tap that finishes a hole without insert: "bottoming" or "plug"', "bottoming", default="bottoming", free=ANY
    )
    held_by: Literal["compound", "interference", "bottomed"] | None = key(
        'what holds the tap end: "compound", "interference" or "bottomed"', "compound", default=None, free="compound"
    )
    compound_rated: Temperature | None = key(
        "temperature that the retaining compound stands", "200 degC", default=None, free="150 degC,200 degC,230 degC"
    )
    friction: Annotated[Measure, number(0.03, 0.6)] = key(
        "friction in thread and under the nut", 0.14, default=0.14, assumed="VDI 2230, lightly oiled steel"
    )
    tightened_by: Literal["torque", "angle", "stretch"] = key(
        'how the nut is tightened: "torque", "angle" from snug, or "stretch" of the stud',
        "torque",
        default="torque",
        free="torque,angle",
    )
    washer: Annotated[Washer, BeforeValidator(by_name)] | None = key(
        'washer under the nut; "turned": that of [turned_washer]',
        "ISO 7089 300 HV",
        designed="the thin standard washer of the thread",
        free="washers",
    )
    nut: Annotated[Nut, BeforeValidator(by_name)] | None = key("nut", "ISO 4032 class 10", default=None, free="nuts")
    step_depth: Allowance | None = key(
        "how far below the deck the larger tap end stops",
        "1.0 mm",
        default=None,
        free="0.5..3.0mm/0.5|0.02..0.12in/0.02",
    )
    nut_end_length: Annotated[Measure, multiple("2.75 d", 20.0, 300.0)] | None = key(
        "thread at the nut end",
        "22 mm",
        designed="DIN 938 by the stud's length, as far as the shank leaves room",
        free="1.50..4.00d/0.25",
    )
    thread_relief: Literal["run-out", "undercut"] = key(
        'how a thread ends at a shank thicker than its core: "run-out" or "undercut"',
        "run-out",
        default="run-out",
        free=ANY,
    )


class NamedStud(Stud):
    """One of [[stud]]."""

    name: Name = key("what it is called", "front")
    holes: Annotated[list[Annotated[int, Field(ge=1, le=36)]], Field(min_length=1, max_length=36)] = key(
        "holes of the head's pattern that it stands in, by their numbers", [1, 2]
    )
    head_thickness: Length | None = key("through the head at these bosses, where it differs", "46 mm", default=None)


class Gasket(Table):
    """[gasket]."""

    material: SheetMaterial | None = key(
        "sheet", "copper, annealed", default=None, free='"copper, annealed","aluminium, annealed"'
    )
    thickness: Annotated[Measure, quantity("length", 0.05, 20.0)] | None = key(
        "of the new gasket",
        "1.20 mm",
        designed="the sheet sold that comes nearest to wanted_squish or wanted_ratio",
        free="sheets",
    )
    wanted_squish: Length | None = key(
        "squish that the gasket is to give, in the place of its thickness", "1.2 mm", default=None
    )
    wanted_ratio: Annotated[Measure, number(2.0, 25.0)] | None = key(
        "compression ratio that the gasket is to give, in the place of its thickness", 6.5, default=None
    )
    old_thickness: Allowance | None = key("of the old gasket", "1.60 mm", default=None)
    old_bore: Length | None = key("bore of the old gasket", "58.0 mm", default=None)
    bore_clearance: Allowance = key(
        "on diameter, over the bore",
        "1.0 mm",
        default="1.0 mm",
        assumed=PRACTICE,
        free="0.50..3.00mm/0.25|0.02..0.12in/0.01",
    )
    hole_clearance: Allowance = key(
        "on diameter, over the nut-end thread",
        "0.5 mm",
        default="0.5 mm",
        assumed=PRACTICE,
        free="0.2..2.0mm/0.1|0.01..0.08in/0.005",
    )
    hole: Length | None = key("stud holes, where no stud is given", "8.5 mm", default=None)
    passage_clearance: Allowance | None = key(
        "on diameter, over a passage that stays in use", "0.5 mm", default=None, free="0.2..2.0mm/0.2|0.01..0.08in/0.01"
    )
    outline: Literal["deck", "bosses"] = key(
        '"deck" (the deck face) or "bosses" (a tight band round the holes)',
        "deck",
        default="deck",
        designed="the deck face where that is given, else a band round the holes",
        free=ANY,
    )
    land: Length = key(
        "metal outside each hole of a bosses outline",
        "6 mm",
        default="6 mm",
        assumed=PRACTICE,
        free="3..12mm/1|1/8..1/2in/1/16",
    )
    cutter: Allowance = key(
        "width of cut to allow for; 0 leaves the outline on size", "0.0 mm", default="0.0 mm", assumed="no cutter given"
    )
    sheet: Sheet | None = key(
        "sheet that several are cut from: as many as it holds, on one drawing", "300 x 200 mm", default=None
    )

    @model_validator(mode="after")
    def _one_aim(self) -> Gasket:
        given = [n for n in ("thickness", "wanted_squish", "wanted_ratio") if getattr(self, n) is not None]
        if len(given) != 1:
            raise ValueError(
                f"wants just one of thickness, wanted_squish and wanted_ratio, not {' and '.join(given) or 'none'}"
            )
        return self


class Shoulder(Table):
    """[plug.shoulder]: a flange under the deck face, in a counterbore."""

    diameter: Length = key("diameter", "12 mm")
    thickness: Length = key("below the deck face", "3 mm")


class Plug(Table):
    """[plug]."""

    passage: Words | None = key("name of the passage it blanks", "breather", default=None)
    hole: Length | None = key("diameter of the hole, where no passage is named", "8.50 mm", default=None)
    material: BarMaterial | None = key(
        "material of the plug", "11SMn30", default=None, free="11SMn30,C45,EN-GJL-250,CuZn39Pb3"
    )
    fit: Literal["bonded", "press"] = key(
        '"bonded" or "press"',
        "bonded",
        default="bonded",
        designed="pressed where the hole is measured as finely as its own tolerance, IT7, else bonded",
        free=ANY,
    )
    bond_clearance: Allowance | None = key(
        "on diameter", "0.04 mm", default=None, free="0.02..0.10mm/0.01|0.001..0.004in/0.0005"
    )
    bond_strength: Stress | None = key(
        "shear strength from the data sheet of the compound, hot", "12 MPa", default=None
    )
    safety_heat: Annotated[Measure, number(1.0, 10.0)] = key(
        "bond: safety for heat beyond what the strength is for", 1.5, default=1.5, assumed=PRACTICE
    )
    safety_gap: Annotated[Measure, number(1.0, 10.0)] = key(
        "bond: safety for a gap other than the data sheet's", 1.25, default=1.25, assumed=PRACTICE
    )
    safety_surface: Annotated[Measure, number(1.0, 10.0)] = key(
        "bond: safety for a surface that is not clean, bare and fine", 1.5, default=1.5, assumed=PRACTICE
    )
    friction: Annotated[Measure, number(0.02, 0.6)] = key(
        "friction of a press fit", 0.12, default=0.12, assumed="DIN 7190-1, steel in iron (memory)"
    )
    tolerance: Annotated[str, Field(pattern=r"^[gkmnprs][5-9]$")] | None = key(
        "shaft of a press fit by ISO 286, in an H7 hole",
        "p6",
        designed="the loosest letter that is tight in the widest hole, hot too",
        free="n6,p6,r6,s6",
    )
    roughness: Allowance = key(
        "Rz of the plug as turned or ground",
        "6.3 um",
        default="6.3 um",
        assumed="fine turned: common practice, no source",
        free="1.6 um,3.2 um,6.3 um",
    )
    hole_roughness: Allowance = key(
        "Rz of its hole as reamed or honed",
        "6.3 um",
        default="6.3 um",
        assumed="reamed: common practice, no source",
        free="1.6 um,3.2 um,6.3 um",
    )
    length: Length | None = key(
        "below the deck",
        "12 mm",
        designed="by the hole's diameter and what a bond has to hold, no deeper than the passage",
        free="4..40mm/2|3/16..1 1/2in/1/8",
    )
    stands_proud: Allowance = key(
        "faced off with the deck in one setting", "0.30 mm", default="0.30 mm", assumed=PRACTICE
    )
    chamfer: Allowance = key("driving chamfer at the lower end", "0.5 mm", default="0.5 mm", assumed=PRACTICE)
    extraction_thread: ThreadName | None = key("tapped hole in the top, to draw it out again", "M4", default=None)
    shoulder: Shoulder | None = key("a flange that can't be pushed through", {}, default=None, free="shoulders")

    @model_validator(mode="after")
    def _one_hole(self) -> Plug:
        if (self.passage is None) == (self.hole is None):
            raise ValueError('wants one of passage (a name) and hole (a diameter), like passage = "breather"')
        return self


class Groove(Table):
    """[ring.groove]."""

    width: Length = key("height of the groove", "2.42 mm")
    root_diameter: Length = key("diameter at the root of the groove", "51.40 mm")


class HeatSet(Table):
    """[ring.heat_set]."""

    temperature: Annotated[Measure, quantity("temperature", 100.0, 900.0)] = key(
        "of the oven", "600 degC", free="540..620degC/10|1000..1140degF/20"
    )
    soak: Time = key("time at temperature", "1 hour", free="30 min,45 min,1 hour,1 1/2 hour,2 hour")
    set_fraction: Annotated[Measure, number(0.3, 1.0)] = key(
        "share of the opening that remains after the heat",
        SET_FRACTION,
        default=SET_FRACTION,
        assumed=NO_TRIAL,
    )


class Ring(Table):
    """[ring]."""

    count: Annotated[int, Field(ge=1, le=50)] = key("rings to make, with one for trial", 3, default=1)
    axial_width: Length | None = key(
        "height in the groove", "2.38 mm", designed="the groove less the middle of its play", free="ring widths"
    )
    radial_thickness: Length | None = key(
        "outside to inside",
        "2.40 mm",
        designed="IS 8422-2 by the bore, with room behind it in the groove",
        free="ring thicknesses",
    )
    material: RingMaterial = key(
        "ring iron", RING_IRON, default=RING_IRON, designed="the iron that small engines' rings are cast of"
    )
    free_gap: Length | None = key(
        "total free gap on the mean line",
        "8.58 mm",
        designed="the pressure on the wall aimed at, as far as the iron's strength allows",
        free="ring openings",
    )
    closed_gap: Length | None = key(
        "gap wanted in the bore, cold",
        "0.20 mm",
        designed="the saw's width, by the bore and what heat takes of the gap",
        free="ring gaps",
    )
    slit: Length | None = key(
        "width of the saw that splits it", "0.50 mm", designed="the saw at hand, no wider than the gap", free="saws"
    )
    groove: Groove | None = key("the piston's groove", {}, default=None)
    peg: Angle | None = key("angle from +X of the peg that holds its gap, in a two-stroke", "90 deg", default=None)
    piston_diameter: Length | None = key("piston over the lands", "57.10 mm", default=None)
    heat_set: HeatSet | None = key("how the opening is set", {}, default=None)
    parting_tool: Length = key("width of the parting tool", f"{PARTING} mm", default=f"{PARTING} mm", assumed=PRACTICE)
    facing: Allowance = key("to face the end of the stock", f"{FACING} mm", default=f"{FACING} mm", assumed=PRACTICE)

    @model_validator(mode="after")
    def _can_be_designed(self) -> Ring:
        if self.groove is None and None in (self.axial_width, self.radial_thickness):
            raise ValueError("wants its groove, or axial_width and radial_thickness: it is made to one of them")
        return self


class NamedRing(Ring):
    """One of [[ring]]."""

    name: Name = key("what it is called", "top")


class Mandrel(Table):
    """[mandrel]."""

    form: Literal["contoured", "pin", "round"] = key(
        '"contoured", "pin" or "round"',
        "contoured",
        default="pin",
        designed="contoured with a rotary table or a mill that follows a file, else a pin",
        free=ANY,
    )
    rings: Annotated[int, Field(ge=1, le=20)] = key("rings on it at a time", 3, default=1)
    material: BarMaterial | None = key("what it is made of", "C45", default=None, free="C45,EN-GJL-250")
    disc: Length | None = key("disc of the pin form, where one is at hand", "53.5 mm", default=None)
    seat_within: Allowance = key(
        "by which its seat may be out of true either way, in waves round it",
        "0.01 mm",
        default="0.01 mm",
        assumed=PRACTICE,
        free="0.005 mm,0.01 mm,0.02 mm|0.0002 in,0.0004 in,0.0008 in",
    )
    purpose: Literal["heat set", "fit check"] = key(
        '"heat set", or "fit check" (printed, never heated)', "heat set", default="heat set"
    )
    print_clearance: Allowance = key(
        "taken off a printed seat, all round", "0.15 mm", default="0.15 mm", assumed=PRACTICE
    )


class NamedMandrel(Mandrel):
    """One of [[mandrel]]."""

    ring: Name = key("name of the ring that it is made for", "top")


class PartTables(BaseModel):
    """The tables about parts: a part is asked for where its table stands."""

    stud: Stud | None = None
    gasket: Gasket | None = None
    plug: Plug | None = None
    ring: Ring | None = None
    mandrel: Mandrel | None = None

"""The job file's table about the joint of the barrel on the crankcase."""

from __future__ import annotations

from parts.job.fields import Allowance, Length, Pressure, Table, Temperature, ThreadName, key
from parts.job.material_models import HeadMaterial, SheetMaterial
from parts.job.models import Pattern
from parts.job.outline_models import Outline
from parts.job.part_models import Stud
from parts.tables import PRACTICE

CRANKCASE = "0.5 bar"


class BaseStud(Stud):
    """[base.stud]: in the crankcase, with its nut on the barrel's flange, or a bolt; keys as in [stud]."""

    tap_end: ThreadName = key("thread into the crankcase", "M8x1.25")
    nut_end: ThreadName = key("thread of the nut on the flange", "M8x1.25")
    bolt: bool = key("a bolt, turned by its head: nut_end is the thread of tap_end", False, default=False)


class BaseGasket(Table):
    """[base.gasket]."""

    material: SheetMaterial | None = key("sheet", "copper, annealed", default=None)
    thickness: Length = key("of the gasket under the barrel", "0.40 mm")
    bore: Length | None = key("inside diameter", "65 mm", default=None)
    outside: Length | None = key("outside diameter of the face that is pressed", "84 mm", default=None)


class BaseHeat(Table):
    """[base.hot], [base.run_up] and [base.hot_stop]."""

    flange: Temperature = key("barrel and crankcase at their joint", "95 degC")
    stud: Temperature = key("studs of that joint", "95 degC")


class Base(Table):
    """[base]."""

    through: bool = key("the head's studs reach the crankcase", False, default=False)
    into: HeadMaterial = key("what the studs screw into: the crankcase", "AlSi7Mg0.3 T6")
    depth: Length | None = key("metal of the crankcase below the joint at the studs", "28 mm", default=None)
    outline: Outline | None = key("edge of the crankcase's face under the barrel", {"circle": "120 mm"}, default=None)
    mouth: Length | None = key("opening of the crankcase that the barrel's skirt goes into", "64 mm", default=None)
    holes: Pattern | None = key(
        "where the studs are; needed without through",
        {"rectangle": ["68.0 mm", "68.0 mm"], "turned": "0 deg"},
        default=None,
    )
    flange_thickness: Length | None = key("barrel's flange at its foot", "12 mm", default=None)
    flange_hole: Length | None = key("holes of the flange", "9.0 mm", default=None)
    boss: Length | None = key("metal of the flange round each stud", "20 mm", default=None)
    wall: Length | None = key("outside of the barrel's round wall under the fins", "70 mm", default=None)
    length: Length | None = key("barrel from its foot to the deck; needed with through", "92 mm", default=None)
    crankcase_pressure: Pressure = key(
        "greatest gas pressure in the crankcase", CRANKCASE, default=CRANKCASE, assumed=PRACTICE
    )
    face_skim: Allowance = key(
        "to come off the crankcase's face", "0 mm", default="0 mm", assumed="the face is left as it is"
    )
    stud: BaseStud | None = key("what holds the barrel down; not with through", {}, default=None)
    gasket: BaseGasket | None = key("between barrel and crankcase; without it metal bears on metal", {}, default=None)
    hot: BaseHeat | None = key("working temperatures there, run in", {}, default=None)
    run_up: BaseHeat | None = key("in the first minutes under load", {}, default=None)
    hot_stop: BaseHeat | None = key("just after a hot stop", {}, default=None)

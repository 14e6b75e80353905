"""An independent second model of the mechanics of a stud, plug, ring, gasket and mandrel job.

Written by another hand from the definitions of the sizes, the mechanics and the reference tables alone, without sight of
the code in parts/. Where those leave something open it says so in `.doubt`, and `choices.py` names what was taken. Units: mm, N, MPa, degC, deg, mm^3; torque in N m.

    read(toml_text) -> job          plain numbers
    sizes(job) -> {name: value}     (a dict with .formula, .left, .doubt beside it)
    verdicts(job) -> {name: (verdict, reason)}
    draw(seed) -> toml_text         a valid job file
"""

from .quantities import instances, read
from .model import sizes, left_out, with_designed, compare
from .verdicts import verdicts
from .choices import CHOICES, OPT, effects
from .draw import draw

__all__ = [
    "instances",
    "read",
    "sizes",
    "left_out",
    "with_designed",
    "compare",
    "verdicts",
    "draw",
    "CHOICES",
    "OPT",
    "effects",
]

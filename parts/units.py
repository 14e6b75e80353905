"""The strict reader of quantities, and how they are printed. The unit library stands only here."""

from __future__ import annotations

import re
from datetime import date, time
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pint import UnitRegistry

NUMBER = r"[-+]?(?:[0-9]+[ ]+[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+\.[0-9]+|[0-9]+)"
UNIT = r"(?:1/K|[A-Za-z°\"'″'µμ][^±]*?)"
QUANTITY = re.compile(rf"({NUMBER})\s*({UNIT})?(?:\s*(?:±|\+/-)\s*({NUMBER})\s*({UNIT}))?")

LONGEST = 100  # characters; no quantity and no thread is written longer

KINDS = {  # kind -> the project's unit, a right example, units that may stand
    "length": ("mm", "57.20 mm", "mm um cm m in thou"),
    "angle": ("deg", "45 deg", "deg rad"),
    "temperature": ("degC", "145 degC", "degC degF K"),
    "pressure": ("MPa", "38 bar", "bar MPa N/mm^2 kPa GPa psi"),
    "stress": ("MPa", "12 MPa", "MPa N/mm^2 GPa kPa bar psi"),
    "volume": ("mm^3", "31.0 cm^3", "cm^3 cc ml mm^3 in^3"),
    "force": ("N", "1200 N", "N kN lbf"),
    "torque": ("N m", "24 N m", "N m, lbf ft, lbf in"),
    "expansion": ("1/K", "11.5 um/m/K", "um/m/K 1/K"),
    "mass": ("g", "120 g", "g kg"),
    "time": ("min", "1 hour", "s min hour"),
}

SPELLINGS = {  # what people type -> what it means
    "Nm": "N m", "N.m": "N m", "N·m": "N m", "N*m": "N m", "inch": "in", "inches": "in", '"': "in", "″": "in",
    "ft lb": "lbf ft", "ft lbf": "lbf ft", "lb ft": "lbf ft", "ft-lb": "lbf ft", "lb-ft": "lbf ft", "ft.lb": "lbf ft",
    "in lb": "lbf in", "in lbf": "lbf in", "lb in": "lbf in", "lbf/in^2": "psi", "lb/in^2": "psi", "lbf/sq in": "psi",
    "N/mm2": "N/mm^2", "N/mm²": "N/mm^2", "mm3": "mm^3", "mm³": "mm^3", "cm3": "cm^3", "cm³": "cm^3", "ccm": "cm^3",
    "in3": "in^3", "in³": "in^3", "°": "deg", "degrees": "deg", "°C": "degC", "deg C": "degC", "°F": "degF",
    "deg F": "degF", "μm": "um", "µm": "um", "micron": "um", "hours": "hour", "h": "hour", "mins": "min",
    "minutes": "min", "e-6/K": "um/m/K", "um/(m K)": "um/m/K", "um/m K": "um/m/K",
}  # fmt: skip

MEANT = {  # what is refused -> what to write
    "tonf/in^2": 'write it in MPa (1 long ton-force a square inch is 15.444 MPa), like "540 MPa"',
    "ton/in^2": 'write it in MPa (1 long ton-force a square inch is 15.444 MPa), like "540 MPa"',
    "C": 'write degC, like "145 degC"',
    "F": 'write degF, like "290 degF"',
    "kgf": 'write it in N (1 kgf is 9.807 N), like "1200 N"',
    "kg/cm^2": 'write it in bar (1 kgf a square centimetre is 0.981 bar), like "38 bar"',
    "'": 'a foot is not a workshop unit: write inches or millimetres, like "2 1/2 in"',
}

EXACT = {  # times and over: exact factors to the project's unit; the unit library, slow to load, knows the others
    ("um", "mm"): (1, 1000), ("cm", "mm"): (10, 1), ("m", "mm"): (1000, 1), ("in", "mm"): (25.4, 1),
    ("thou", "mm"): (25.4, 1000), ("cm^3", "mm^3"): (1000, 1), ("cc", "mm^3"): (1000, 1), ("ml", "mm^3"): (1000, 1),
    ("bar", "MPa"): (1, 10), ("kPa", "MPa"): (1, 1000), ("N/mm^2", "MPa"): (1, 1), ("GPa", "MPa"): (1000, 1),
    ("kN", "N"): (1000, 1), ("um/m/K", "1/K"): (1, 1_000_000), ("kg", "g"): (1000, 1), ("hour", "min"): (60, 1),
}  # fmt: skip

IN_PINT = {"lbf ft": "lbf*ft", "lbf in": "lbf*in", "N m": "N*m", "um/m/K": "um/m/K"}


KEPT = 1024  # texts of quantities: the variants of a job have most of them in common


@lru_cache(None)
def registry() -> UnitRegistry[float]:
    """Return a unit registry that knows only our units."""
    from pint import UnitRegistry

    return UnitRegistry(str(Path(__file__).with_name("units.txt")))


def number(text: str) -> float:
    """Read a whole number, a decimal, a fraction or a mixed number.

    >>> number("-1 1/4"), number("5/16"), number("57.20")
    (-1.25, 0.3125, 57.2)
    """
    whole, _, rest = text.rpartition(" ")
    sign = -1 if text.startswith("-") else 1
    if whole and Fraction(rest) >= 1:
        raise ValueError(f"{rest} is no part of one")
    return int(whole) + sign * float(Fraction(rest)) if whole else float(Fraction(rest))


def read(text: object, kind: str) -> tuple[float, float]:
    """Read `"NUMBER UNIT"` or `"NUMBER UNIT ± NUMBER UNIT"`.

    Parameters
    ----------
    text : object
        What the job file holds
    kind : str
        One of KINDS

    Returns
    -------
    value, spread : float
        In the project's unit of this kind; spread is the half width of the tolerance, 0 without one

    Raises
    ------
    ValueError
        One sentence with the rule, the value and a right example.

    Examples
    --------
    >>> read("2 1/2 in", "length"), read("57.20 mm ± 0.01 mm", "length"), read("145 degC ± 9 degF", "temperature")
    ((63.5, 0.0), (57.2, 0.01), (145.0, 5.0))
    """
    return _read(text, kind) if isinstance(text, str) else _read.__wrapped__(text, kind)


@lru_cache(KEPT)
def _read(text: object, kind: str) -> tuple[float, float]:
    _, example, _ = KINDS[kind]
    wanted = f'wants one number and a unit, like "{example}", not {shown(text)}'
    found = QUANTITY.fullmatch(stripped(text))
    if found is None and re.match(r"[-+]?[0-9]+,[0-9]", stripped(text)):
        raise ValueError(f'wants a decimal point, not a comma, like "{example}", not {shown(text)}')
    if found is None:
        raise ValueError(wanted)
    try:
        value, spread = number(found[1]), number(found[3] or "0")
    except (ValueError, ArithmeticError):  # x/0, or more digits than a number can have
        raise ValueError(wanted) from None
    unit = found[2] or found[4]
    if unit is None:
        raise ValueError(f'has no unit: write it like "{example}", not {shown(text)}')
    if spread < 0:
        raise ValueError(f"has a tolerance below zero: {shown(text)}")
    return convert(value, unit, kind, text), difference(spread, found[4] or unit, kind, text)


def stripped(text: object) -> str:
    """Return a text without the blanks at its ends; nothing where it is none, or longer than what can be meant."""
    return text.strip() if isinstance(text, str) and len(text) <= LONGEST else ""


def convert(value: float, unit: str, kind: str, text: object = "") -> float:
    """Turn a value into the project's unit of this kind, or say what unit is wanted."""
    base, example, units = KINDS[kind]
    unit = SPELLINGS.get(" ".join(unit.split()), " ".join(unit.split()))
    if unit in MEANT:
        raise ValueError(f"{MEANT[unit]}, not {shown(text)}")
    if unit not in units.replace(",", "").split() and unit not in units.split(", "):
        raise ValueError(f'is {article(kind)} (in {units}), like "{example}", not {shown(text)}')
    if unit == base:
        return value  # no arithmetic: 12.7 stays 12.7
    if (unit, base) in EXACT:
        times, over = EXACT[unit, base]
        return value * times / over
    u = registry()
    return float(u.Quantity(value, IN_PINT.get(unit, unit).replace("^", "**")).m_as(pint_name(base)))


def difference(value: float, unit: str, kind: str, text: object) -> float:
    """Turn a tolerance into the project's unit: the tolerance of a temperature is a difference."""
    return convert(value, unit, kind, text) - (convert(0.0, unit, kind, text) if kind == "temperature" else 0.0)


def pint_name(unit: str) -> str:
    """Spell one of our units as the unit library does."""
    return IN_PINT.get(unit, unit).replace("^", "**")


def article(kind: str) -> str:
    """Put a or an before a kind of quantity."""
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"


def shown(text: object) -> str:
    """Quote what the user wrote, cut to a line."""
    if isinstance(text, bool | date | time):
        return str(text).lower()
    try:
        quoted = repr(text)
    except RecursionError:
        return "what is nested too deep"
    return quoted if len(quoted) <= 60 else quoted[:57] + "..."  # noqa: PLR2004


INCH = 25.4
IN_INCHES = {  # unit -> factor, name, places
    "mm": (1 / INCH, "in", 4),
    "mm^2": (1 / INCH**2, "in^2", 4),
    "mm^3": (1 / INCH**3, "in^3", 3),
    "MPa": (145.0377377, "psi", 0),
    "N": (0.2248089431, "lbf", 1),
    "N m": (0.7375621493, "lbf ft", 2),
}


def printed(value: float | str, unit: str, system: str = "metric") -> str:
    """Print a value for the bench: metric as it is kept, or in the inch units of a lathe's dial; a name as it is.

    >>> printed(9.968, "mm"), printed(9.968, "mm", "inch"), printed(0.34, "1"), printed("pin", "1")
    ('9.968 mm', '0.3924 in', '0.3400', 'pin')
    """
    if isinstance(value, str):
        return value
    factor, zero, places, name = _form(value, unit, system)
    return f"{value * factor + zero:.{places}f} {name}".rstrip()


def with_spread(value: float, spread: float, unit: str, system: str = "metric") -> str:
    """Print a value with its half width, to the same decimals; one too small for them is told by the last of them.

    >>> with_spread(283.41, 0.2251, "MPa"), with_spread(150.0, 5.0, "degC", "inch"), with_spread(0.5, 0.0, "1")
    ('283.4 MPa ± 0.2 MPa', '302 degF ± 9 degF', '0.5000')
    >>> with_spread(0.10326, 0.00002, "rad")
    '0.1033 rad ± under 0.0001 rad'
    """
    if not spread:
        return printed(value, unit, system)
    factor, _, places, name = _form(value, unit, system)
    half, least = spread * factor, 10.0**-places
    shown = f"{half:.{places}f}" if half >= least / 2 else f"under {least:.{places}f}"
    return f"{printed(value, unit, system)} ± {shown} {name}".rstrip()


def _form(value: float, unit: str, system: str) -> tuple[float, float, int, str]:
    """How a value is printed: times what, plus what, how many decimals, the unit's name."""
    if unit == "1/K":
        return 1e6, 0.0, 1, "um/m/K"
    if unit == "mm^3" and system == "metric":
        return 1e-3, 0.0, 2, "cm^3"
    if system == "inch" and unit in IN_INCHES:
        factor, name, places = IN_INCHES[unit]
        return factor, 0.0, places, name
    if system == "inch" and unit == "degC":
        return 9 / 5, 32.0, 0, "degF"
    places = 3 if unit == "mm" else 4 if abs(value) < 1 else 3 if abs(value) < 100 else 1  # noqa: PLR2004
    places = 0 if abs(value) >= 10_000 or unit == "N/mm" else places  # noqa: PLR2004
    return 1.0, 0.0, places, "" if unit == "1" else unit

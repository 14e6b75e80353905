"""What can be bought or turned for the job at hand: values of free keys that hang on its other sizes."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import TYPE_CHECKING, Any

from parts import tables
from parts.thread import Thread, read_thread
from parts.units import INCH, read

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.job.lines import Path

GRADES = ("200 HV", "300 HV")
"""hardness of washers that are sold: ISO 7089"""
CLASSES = ("class 8", "class 10", "class 12")
"""of nuts that are sold: ISO 898-2"""
WASHERS = {False: ((2, 3, 4), 2), True: ((3 / 32, 1 / 8, 5 / 32), 1 / 16)}
"""inch shop or not -> thicknesses of turned washers, step of their outsides [in, mm]: common practice, no source"""
TURNED = {False: 0.1, True: 0.005}
"""steps of a turned diameter"""
FINE = {False: 0.01, True: 0.0005}
"""steps of a lapped one"""
SIXTEENTHS = (2, 4, 8, 16, 32, 64)
"""parts of an inch"""
GAUGES = ("0.016", "0.020", "0.025", "0.032", "0.040", "0.051", "0.064", "0.080", "0.102")
"""soft sheet of an inch shop, every other wire gauge [in]: memory"""
INCH_SAWS = ("0.008", "0.010", "0.012", "0.016", "0.020", "0.025", "0.032", "0.040")
"""widths of slitting saws of inch makers [in]: common practice, no source"""
GAPS = {False: 0.05, True: 0.002}
"""steps of a gap or a thickness of the ring"""


@dataclass(frozen=True)
class Around:
    """Where a key stands: the data of the job, its path, and what stands in its table."""

    raw: dict[str, Any]
    path: Path
    held: dict[str, Any]

    @property
    def inch(self) -> bool:
        """Whether the shop works in inches."""
        return bool(self.raw.get("job", {}).get("print_units") == "inch")

    def length(self, *keys: str) -> float | None:
        """A length of the job [mm]; None where it is not given."""
        found: Any = self.raw
        for key in keys:
            found = found.get(key) if isinstance(found, dict) else None
        return read(found, "length")[0] if isinstance(found, str) else None

    def thread(self, key: str) -> Thread:
        """A thread of the same table."""
        return read_thread(self.held[key])

    def steps(self, low: float, high: float, step: dict[bool, float]) -> list[str]:
        """Lengths from low to high [mm], in whole steps of the shop's own unit."""
        size, unit = step[self.inch], INCH if self.inch else 1.0
        first, last = ceil(low / unit / size - 1e-9), floor(high / unit / size + 1e-9)
        return [self._written(n * Fraction(size).limit_denominator(10_000)) for n in range(max(first, 1), last + 1)]

    def _written(self, value: Fraction) -> str:
        """A length in the shop's unit: in sixteenths and the like as the trade writes them, else in decimals."""
        whole, rest = divmod(value, 1)
        if self.inch and rest and value.denominator in SIXTEENTHS:
            return f"{whole} {rest} in" if whole else f"{rest} in"
        return f"{float(value):g} {'in' if self.inch else 'mm'}"


def dowels(around: Around) -> list[str]:
    """Dowels, where nothing but the studs locates the head."""
    return ["dowels"] if around.held.get("located_by") in (None, "studs") else []


def turns(around: Around) -> list[str]:
    """Turns of the head, where the job says that it may; a rectangle lies on itself after half of one."""
    if around.path[0] != "head" or not around.raw["head"].get("may_turn"):
        return []
    return [f"{turn} deg" for turn in range(0, 180 if "rectangle" in around.held else 360, 5)]


def shanks(around: Around) -> list[str]:
    """Diameters between the threads, from a slim waist to the smaller thread's own."""
    ends = [around.thread(end).nominal for end in ("tap_end", "nut_end")]
    return around.steps(0.6 * min(ends), min(ends), TURNED)


def inserts(around: Around) -> list[dict[str, str]]:
    """Wire thread inserts, where there is none."""
    del around
    return [{"length": f"{multiple} d"} for multiple in ("1", "1.5", "2", "2.5", "3")]


def sheets(around: Around) -> list[str]:
    """Sheet that is sold in the gasket's metal; in an inch shop every other wire gauge."""
    if around.inch:
        return [f"{thick} in" for thick in GAUGES]
    name = around.held.get("material")
    family = tables.family_of(name) if isinstance(name, str) else None
    return [f"{thick:g} mm" for thick in tables.gasket_sheets(family or "")]


def saws(around: Around) -> list[str]:
    """Slitting saws at hand, or where none are told of those that are sold."""
    own = around.raw.get("workshop", {}).get("saws")
    sold = [f"{width} in" for width in INCH_SAWS] if around.inch else [f"{w:g} mm" for w in tables.saw_widths()]
    return own or sold


def washers(around: Around) -> list[Any]:
    """Standard washers, and turned ones that are thicker and larger: from the same hole to three diameters outside."""
    thread = around.thread("nut_end")
    standard = tables.usual_washer(thread.family)
    names = [f"{standard} {grade}" for grade in GRADES] if standard == "ISO 7089" else [standard]
    try:
        bought = tables.washer(standard, thread.nominal)
    except ValueError:
        return []
    thicknesses, step = WASHERS[around.inch]
    unit = INCH if around.inch else 1.0
    outsides = around.steps(bought.outside + 0.5 * step * unit, 3 * thread.nominal, {around.inch: step})
    thick = [around.steps(t * unit, t * unit, {around.inch: t})[0] for t in thicknesses if t * unit > bought.thickness]
    inside = around.steps(bought.inside, bought.inside + FINE[around.inch] * unit, FINE)[0]
    turned = [
        {"name": f"turned, {GRADES[0]}", "inside": inside, "outside": out, "thickness": t}
        for out in outsides
        for t in thick
    ]
    return [*names, *turned]


def nuts(around: Around) -> list[str]:
    """Nuts of the standard that goes on the thread, in the classes that are sold."""
    standard = tables.usual_nut(around.thread("nut_end").family)
    return [f"{standard} {grade}" for grade in CLASSES] if standard == "ISO 4032" else []


def shoulders(around: Around) -> list[dict[str, str]]:
    """Flanges under the deck face, from a quarter to two thirds wider than the plug's hole."""
    hole = around.length("plug", "hole") or next(
        (read(one["diameter"], "length")[0] for one in around.raw.get("barrel", {}).get("passages", ())
         if one["name"] == around.held.get("passage") and "diameter" in one), None,
    )  # fmt: skip
    if hole is None:
        return []
    step = {False: 1.0, True: 1 / 16}
    outsides = around.steps(1.25 * hole, 1.7 * hole, step)
    thick = around.steps(2.0, 5.0, step)
    return [{"diameter": outside, "thickness": t} for t in thick for outside in outsides]


def ring_widths(around: Around) -> list[str]:
    """Heights of the ring that leave it play in its groove."""
    groove = around.held.get("groove", {}).get("width")
    width = read(groove, "length")[0] if groove else None
    return around.steps(width - 0.10, width - 0.01, FINE) if width else []


def ring_thicknesses(around: Around) -> list[str]:
    """Radial thicknesses, a thirtieth to a seventeenth of the bore."""
    return _of_bore(around, 1 / 30, 1 / 17)


def ring_openings(around: Around) -> list[str]:
    """Total free gaps, a twelfth to a fifth of the bore."""
    return _of_bore(around, 1 / 12, 1 / 5, {False: 0.2, True: 0.01})


def ring_gaps(around: Around) -> list[str]:
    """Closed gaps, two to eight thousandths of the bore."""
    return _of_bore(around, 0.002, 0.008)


def _of_bore(around: Around, low: float, high: float, step: dict[bool, float] = GAPS) -> list[str]:
    bore = around.length("engine", "bore")
    return around.steps(low * bore, high * bore, step) if bore else []


NAMED: dict[str, Callable[[Around], list[Any]]] = {
    "dowels": dowels,
    "turns": turns,
    "shanks": shanks,
    "inserts": inserts,
    "sheets": sheets,
    "saws": saws,
    "washers": washers,
    "nuts": nuts,
    "shoulders": shoulders,
    "ring widths": ring_widths,
    "ring thicknesses": ring_thicknesses,
    "ring openings": ring_openings,
    "ring gaps": ring_gaps,
}
"""what a key's `free` may name"""

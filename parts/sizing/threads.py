"""Sizes of a threaded end and of a tapped hole, for every family of threads, put into the book."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts import tables
from parts.relations import british_tolerances as british
from parts.relations import unified_tolerances as unified
from parts.relations.thread_forms import (
    blank_diameter,
    internal_limit,
    lead_in,
    lower_limit,
    minor_diameter,
    pitch_diameter,
    upper_limit,
)
from parts.relations.thread_measures import best_wire, mean_diameter_area, over_wires, stress_area, unified_stress_area
from parts.sizing.drills import enter_tapping_drill
from parts.units import INCH

if TYPE_CHECKING:
    from parts.book import Book
    from parts.tables import Figure
    from parts.thread import Thread


@dataclass(frozen=True, slots=True)
class Form:
    """A family's profile, in pitches."""

    pitch: float
    """nominal less basic pitch diameter"""
    root: float
    """nominal less the diameter at a bolt's root"""
    hole: float
    """nominal less the hole's basic minor diameter"""
    full: float
    """twice the depth that the trade calls all of the thread"""
    status: str
    source: str


FORMS = {
    "metric": Form(0.649519053, 1.226869322, 1.082531755, 1.299038, "published", "ISO 68-1, root as in ISO 965-1"),
    "unified": Form(0.649519053, 1.190785, 1.082531755, 1.299038, "published", "ASME B1.1, UNR at the root"),
    "whitworth": Form(0.640327, 1.280654, 1.280654, 1.280654, "published", "BS 84"),
    "ba": Form(0.6, 1.2, 1.2, 1.2, "published", "BS 93"),
    "cycle": Form(0.5327, 1.0654, 1.0654, 1.0654, "memory", "BS 811"),
}
BY_ANALOGY = "formula of BS 84, medium class, by analogy: the limits of BS 811 were not at hand"
BA_ALLOWANCE = 0.025  # [mm] BS 93, 0 to 10 BA
QUARTER = 0.25 * INCH
WHITWORTH_MINOR = ((26.0, 0.004), (22.0, 0.005), (0.0, 0.007))  # from this many threads per inch: addition [in]


def size_thread(book: Book, prefix: str, thread: Thread) -> None:
    """Put the sizes of an external thread into the book: 6g, 2A, or the family's medium or normal class.

    Parameters
    ----------
    book : Book
        The job's sizes
    prefix : str
        Dotted name of the end, "stud.tap_end"
    thread : Thread
        The thread; names are prefix_nominal, prefix_major_max and so on
    """
    _profile(book, prefix, thread)
    _TOLERANCES[thread.family](book, prefix, thread)
    d, p = f"{prefix}_nominal", f"{prefix}_pitch"
    for size, basic in (("major", d), ("pitch_diameter", f"{prefix}_pitch_diameter_basic")):
        gap, tolerance = f"{prefix}_allowance", f"{prefix}_{size}_tolerance"
        book.add(f"{prefix}_{size}_max", upper_limit, basic=basic, allowance=gap)
        book.add(f"{prefix}_{size}_min", lower_limit, basic=basic, allowance=gap, tolerance=tolerance)
    book.add(f"{prefix}_blank_diameter", blank_diameter, nominal=d, pitch=p)
    book.add(f"{prefix}_lead_in", lead_in, nominal=d, minor_diameter=f"{prefix}_root_diameter")
    _wires(book, prefix)


def add_stress_area(book: Book, name: str, prefix: str, thread: Thread) -> None:
    """Add the stress area of a thread that size_thread has sized under prefix."""
    if thread.family == "unified":
        book.add(name, unified_stress_area, nominal=f"{prefix}_nominal", pitch=f"{prefix}_pitch")
        return
    relation = stress_area if thread.family == "metric" else mean_diameter_area
    book.add(name, relation, pitch_diameter=f"{prefix}_pitch_diameter_basic", minor_diameter=f"{prefix}_root_diameter")


def size_tapped_hole(
    book: Book, prefix: str, thread: Thread, system: str, *, soft: bool = True, deep: bool = False
) -> None:
    """Put the sizes of a tapped hole into the book: 6H, 2B, or the family's medium class.

    Parameters
    ----------
    book : Book
        The job's sizes
    prefix : str
        Dotted name of the hole; names are prefix.tapped_major, .tapped_pitch_diameter, .tapped_minor (the least
        diameters), .tapped_pitch_diameter_max, .tapped_minor_max, .tap_drill, .thread_share
    thread : Thread
        The thread
    system : str
        List of drills, "metric" or "inch"
    soft, deep : bool
        Metal softer than steel; a hole that is deep to tap
    """
    form = FORMS[thread.family]
    book.enter(f"{prefix}.tapped_major", thread.nominal, "mm", listed_status(thread), thread_source(thread))
    book.enter(f"{prefix}.pitch", thread.pitch, "mm", listed_status(thread), thread_source(thread))
    major, pitch = f"{prefix}.tapped_major", f"{prefix}.pitch"
    for size, relation, value in (
        ("pitch_diameter", pitch_diameter, form.pitch),
        ("minor", minor_diameter, form.hole),
    ):
        factor = f"{prefix}.{size}_factor"
        book.enter(factor, value, "1", form.status, form.source)
        book.add(f"{prefix}.tapped_{size}", relation, nominal=major, pitch=pitch, factor=factor)
    add_hole_pitch_tolerance(book, f"{prefix}.pitch_diameter_tolerance", thread)
    add_hole_minor_tolerance(book, f"{prefix}.minor_tolerance", thread)
    for size in ("pitch_diameter", "minor"):
        least, tolerance = f"{prefix}.tapped_{size}", f"{prefix}.{size}_tolerance"
        book.add(f"{prefix}.tapped_{size}_max", internal_limit, least=least, tolerance=tolerance)
    full = f"{prefix}.full_thread_factor"
    book.enter(full, form.full, "1", form.status, f"{form.source}: depth that is called 100 %")
    enter_tapping_drill(book, prefix, system, soft=soft, deep=deep)


def add_hole_minor_tolerance(book: Book, name: str, thread: Thread, *, grade: int = 6) -> None:
    """Add the minor diameter tolerance of a hole with this thread's pitch: 6H or 5H, 2B or the family's only class."""
    pitch = thread.pitch
    if thread.family == "metric":
        _figure(book, name, tables.iso_965(pitch, f"td1_{grade}"))
    elif thread.family == "unified" and thread.nominal < QUARTER:
        book.add(name, unified.small_unified_hole_minor_tolerance, nominal=thread.nominal, pitch=pitch)
    elif thread.family == "unified":
        book.add(name, unified.unified_hole_minor_tolerance, pitch=pitch)
    elif thread.family == "ba":
        book.add(name, british.ba_hole_minor_tolerance, pitch=pitch)
    elif thread.family == "whitworth":
        book.add(name, british.whitworth_hole_minor_tolerance, pitch=pitch, addition=_whitworth_addition(pitch))
    else:
        _assumed(book, name, british.whitworth_hole_minor_tolerance(pitch, _whitworth_addition(pitch)))


def add_hole_pitch_tolerance(book: Book, name: str, thread: Thread) -> None:
    """Add the pitch diameter tolerance of a hole with this thread: 6H, 2B or the family's medium class."""
    d, p = thread.nominal, thread.pitch
    if thread.family == "metric":
        _figure(book, name, tables.iso_965_pitch_diameter(d, p, "internal_6"))
    elif thread.family == "unified":
        bolt = unified.unified_pitch_tolerance(d, p, d)
        book.add(name, unified.unified_hole_pitch_tolerance, pitch_tolerance=bolt)
    elif thread.family == "ba":
        book.add(name, british.ba_hole_pitch_tolerance, pitch=p)
    elif thread.family == "whitworth":
        book.add(name, british.whitworth_pitch_tolerance, nominal=d, pitch=p, engagement=d)
    else:
        _assumed(book, name, british.whitworth_pitch_tolerance(d, p, d))


def thread_source(thread: Thread) -> str:
    """Where a thread's nominal sizes come from."""
    return f"{thread.standard}, {thread.label}"


def listed_status(thread: Thread) -> str:
    """Tell whether a thread's sizes were seen in print."""
    if thread.family == "metric":
        return tables.metric_status(thread.nominal, thread.pitch)
    if thread.family == "ba":
        return "published"
    size, series = thread.label.removesuffix(" LH").rsplit(" ", 1)
    return tables.inch_threads(series)[size.split("-")[0]][2]


def _profile(book: Book, prefix: str, thread: Thread) -> None:
    form = FORMS[thread.family]
    d, p = f"{prefix}_nominal", f"{prefix}_pitch"
    book.enter(d, thread.nominal, "mm", listed_status(thread), thread_source(thread))
    book.enter(p, thread.pitch, "mm", listed_status(thread), thread_source(thread))
    book.enter(f"{prefix}_half_angle", thread.half_angle, "deg", form.status, form.source)
    book.enter(f"{prefix}_pitch_diameter_factor", form.pitch, "1", form.status, form.source)
    book.enter(f"{prefix}_root_factor", form.root, "1", form.status, form.source)
    basic = f"{prefix}_pitch_diameter_basic"
    book.add(basic, pitch_diameter, nominal=d, pitch=p, factor=f"{prefix}_pitch_diameter_factor")
    book.add(f"{prefix}_root_diameter", minor_diameter, nominal=d, pitch=p, factor=f"{prefix}_root_factor")


def _wires(book: Book, prefix: str) -> None:
    pitch, angle, wire = f"{prefix}_pitch", f"{prefix}_half_angle", f"{prefix}_wire_diameter"
    book.add(wire, best_wire, pitch=pitch, half_angle=angle)
    for end in ("max", "min"):
        diameter = f"{prefix}_pitch_diameter_{end}"
        name = f"{prefix}_over_wires_{end}"
        book.add(name, over_wires, pitch_diameter=diameter, pitch=pitch, wire=wire, half_angle=angle)


def _metric(book: Book, prefix: str, thread: Thread) -> None:
    gap = tables.iso_965(thread.pitch, "es_g")
    book.enter(f"{prefix}_allowance", -gap.value, "mm", gap.status, f"{gap.source}: below nominal, class 6g")
    _figure(book, f"{prefix}_major_tolerance", tables.iso_965(thread.pitch, "td6"))
    figure = tables.iso_965_pitch_diameter(thread.nominal, thread.pitch, "td2_6")
    _figure(book, f"{prefix}_pitch_diameter_tolerance", figure)


def _unified(book: Book, prefix: str, _: Thread) -> None:
    d, p, tolerance = f"{prefix}_nominal", f"{prefix}_pitch", f"{prefix}_pitch_diameter_tolerance"
    book.add(tolerance, unified.unified_pitch_tolerance, nominal=d, pitch=p, engagement=d)
    book.add(f"{prefix}_allowance", unified.unified_allowance, pitch_tolerance=tolerance)
    book.add(f"{prefix}_major_tolerance", unified.unified_major_tolerance, pitch=p)


def _whitworth(book: Book, prefix: str, thread: Thread) -> None:
    d, p, tolerance = f"{prefix}_nominal", f"{prefix}_pitch", f"{prefix}_pitch_diameter_tolerance"
    book.add(tolerance, british.whitworth_pitch_tolerance, nominal=d, pitch=p, engagement=d)
    book.add(f"{prefix}_major_tolerance", british.whitworth_major_tolerance, pitch_tolerance=tolerance, pitch=p)
    small = thread.nominal < QUARTER
    basis = _quarter_inch_tolerance(thread) if small else tolerance
    book.add(f"{prefix}_allowance", british.whitworth_allowance, pitch_tolerance=basis)


def _ba(book: Book, prefix: str, _: Thread) -> None:
    pitch = f"{prefix}_pitch"
    book.enter(f"{prefix}_allowance", BA_ALLOWANCE, "mm", "published", "BS 93, normal class, 0 to 10 BA")
    book.add(f"{prefix}_major_tolerance", british.ba_major_tolerance, pitch=pitch)
    book.add(f"{prefix}_pitch_diameter_tolerance", british.ba_pitch_tolerance, pitch=pitch)


def _cycle(book: Book, prefix: str, thread: Thread) -> None:
    tolerance = british.whitworth_pitch_tolerance(thread.nominal, thread.pitch, thread.nominal)
    basis = _quarter_inch_tolerance(thread) if thread.nominal < QUARTER else tolerance
    major = british.whitworth_major_tolerance(tolerance, thread.pitch)
    _assumed(book, f"{prefix}_pitch_diameter_tolerance", tolerance)
    _assumed(book, f"{prefix}_major_tolerance", major)
    _assumed(book, f"{prefix}_allowance", british.whitworth_allowance(basis))


_TOLERANCES = {"metric": _metric, "unified": _unified, "whitworth": _whitworth, "ba": _ba, "cycle": _cycle}


def _quarter_inch_tolerance(thread: Thread) -> float:
    """T of the 1/4 in thread of the same series, whose allowance the smaller sizes take."""
    series = thread.label.removesuffix(" LH").rsplit(" ", 1)[1]
    nominal, per_inch, _ = tables.inch_threads(series)["1/4"]
    d = nominal * INCH
    return british.whitworth_pitch_tolerance(d, INCH / per_inch, d)


def _whitworth_addition(pitch: float) -> float:
    """Constant part of a hole's minor diameter tolerance [mm]."""
    per_inch = round(INCH / pitch, 6)
    return INCH * next(addition for threads, addition in WHITWORTH_MINOR if per_inch >= threads)


def _figure(book: Book, name: str, figure: Figure) -> None:
    book.enter(name, figure.value, figure.unit, figure.status, figure.source)


def _assumed(book: Book, name: str, value: float) -> None:
    book.enter(name, value, "mm", "assumed", BY_ANALOGY)

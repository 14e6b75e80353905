"""Published tables, read from the files beside this one. Each figure says where it comes from and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from parts.tables.family import bends, families_like, family_figure, family_names, family_of, pair
from parts.tables.fixture import drill_bush, o_ring_grooves
from parts.tables.hot import hot_between, hot_metal, thread_wants
from parts.tables.material import Material, material, material_names
from parts.tables.read import SAME_PITCH, SAME_SIZE, Figure, lengths, listed, plain, row_at, status_of, table
from parts.tables.workshop import Meant, meant, meant_range, usual_at, words_at
from parts.units import INCH

__all__ = [
    "Figure",
    "Material",
    "Meant",
    "bends",
    "drill_bush",
    "families_like",
    "family_figure",
    "family_names",
    "family_of",
    "hot_between",
    "hot_metal",
    "material",
    "material_names",
    "meant",
    "meant_range",
    "o_ring_grooves",
    "pair",
    "thread_wants",
    "usual_at",
    "words_at",
]

PRACTICE = "common practice, no source"
"""whose a figure is that stands in no table and no standard"""
SHORT_STUD, LONG_STUD = 125, 200  # [mm] where DIN 938 lengthens the nut end
NUTS = {
    "ISO 4032": "nuts_iso_4032",
    "ASME B18.2.2": "nuts_asme_b18_2_2",
    "BS 1083": "nuts_bs_1083",
    "BS 57": "nuts_bs_57",
}
WASHERS = {"ISO 7089": "washers_iso_7089", "ASME B18.21.1": "washers_asme_b18_21_1"}
USUAL = {  # family of the thread -> nut, washer
    "metric": ("ISO 4032", "ISO 7089"),
    "unified": ("ASME B18.2.2", "ASME B18.21.1 type A narrow"),
    "whitworth": ("BS 1083", "ASME B18.21.1 type A narrow"),
    "cycle": ("BS 1083", "ASME B18.21.1 type A narrow"),
    "ba": ("BS 57", "ISO 7089"),
}


@dataclass(frozen=True, slots=True)
class Nut:
    """A hexagon nut [mm]."""

    designation: str
    nominal: float
    across_flats: float
    """greatest"""
    height: float
    """greatest"""
    height_min: float
    bearing: float
    """least diameter of the bearing face"""
    status: str
    source: str


@dataclass(frozen=True, slots=True)
class Washer:
    """A plain washer [mm]."""

    designation: str
    nominal: float
    inside: float
    outside: float
    thickness: float
    status: str
    source: str


@dataclass(frozen=True, slots=True)
class Undercut:
    """The groove that lets a threading tool run out [mm]."""

    diameter: float
    least_width: float
    """thread run-out to shoulder, least straight width"""
    greatest_width: float
    radius: float
    status: str
    source: str


@lru_cache(None)
def metric_pitches() -> dict[float, tuple[float, ...]]:
    """Nominal diameter -> its pitches [mm], the coarse one first."""
    found: dict[float, list[float]] = {}
    for row in table("metric_pitches").rows:
        found.setdefault(float(row["nominal"]), []).append(float(row["pitch"]))
    return {nominal: tuple(pitches) for nominal, pitches in found.items()}


def metric_status(nominal: float, pitch: float) -> str:
    """Tell whether a metric size was seen in print."""
    rows = table("metric_pitches").rows
    return next(status_of(r) for r in rows if float(r["nominal"]) == nominal and float(r["pitch"]) == pitch)


@lru_cache(None)
def inch_threads(series: str) -> dict[str, tuple[float, float, str]]:
    """Size as written -> nominal diameter [in], threads per inch, status; for UNC, UNF, BSW, BSF or BSC."""
    rows = (row for row in table("inch_threads").rows if row["series"] == series)
    return {row["size"]: (float(row["nominal"]), float(row["per_inch"]), status_of(row)) for row in rows}


@lru_cache(None)
def ba_threads() -> dict[int, tuple[float, float]]:
    """BA number -> nominal diameter, pitch [mm]."""
    return {int(row["number"]): (float(row["nominal"]), float(row["pitch"])) for row in table("ba_threads").rows}


@lru_cache(None)
def iso_965(pitch: float, column: str) -> Figure:
    """Look up a deviation or tolerance that goes by the pitch [mm]: es_g, td6, td1_6 or td1_5."""
    found = table("iso_965_by_pitch")
    row = row_at(found, "pitch", pitch)
    status = "memory" if column == "td1_5" else status_of(row)
    return Figure(float(row[column]) / 1000, "mm", status, f"ISO 965-1, {column} at pitch {pitch:g} mm")


@lru_cache(None)
def iso_965_pitch_diameter(nominal: float, pitch: float, column: str) -> Figure:
    """Look up the pitch diameter tolerance [mm]: td2_6 of a bolt, internal_6 of a nut."""
    for row in table("iso_965_pitch_diameter").rows:
        if float(row["over"]) < nominal <= float(row["to"]) and float(row["pitch"]) == pitch:
            source = f"ISO 965-1, {column} at pitch {pitch:g} mm, over {row['over']} to {row['to']} mm"
            return Figure(float(row[column]) / 1000, "mm", status_of(row), source)
    raise ValueError(f"ISO 965-1 lists no pitch diameter tolerance for M{nominal:g}x{pitch:g}")


@lru_cache(None)
def clearance_hole(nominal: float, fit: str = "medium") -> Figure:
    """Look up a clearance hole for a bolt: fine, medium or coarse."""
    row = row_at(table("iso_273"), "nominal", nominal)
    return Figure(float(row[fit]), "mm", status_of(row), f"ISO 273, {fit}")


@lru_cache(None)
def drills(system: str) -> list[tuple[str, float]]:
    """List the drills of a system, "metric" or "inch": label, diameter [mm], rising."""
    found = plain(f"drills_{system}")
    scale = INCH if found.unit == "in" else 1.0
    return [(label, round(float(diameter) * scale, 6)) for label, diameter in found.cells]


@lru_cache(None)
def plug_reaches() -> tuple[Figure, ...]:
    """List the reaches of spark plugs, rising [mm]."""
    found = table("plug_reaches")
    return tuple(Figure(float(row["reach"]), "mm", status_of(row), found.source) for row in found.rows)


@lru_cache(None)
def saw_widths() -> tuple[float, ...]:
    """List the widths of slitting saws, rising [mm]."""
    return tuple(float(row["width"]) for row in table("slitting_saws").rows)


@lru_cache(None)
def gasket_sheets(family: str) -> tuple[float, ...]:
    """List the thicknesses of sheet of a metal, rising [mm]; of one that is not listed those of any."""
    rows = {row["family"]: row["thicknesses"] for row in table("gasket_sheets").rows}
    return tuple(map(float, rows.get(family, rows["other"]).split()))


def usual_nut(family: str) -> str:
    """Name the standard of nut that usually goes on a family of threads."""
    return USUAL[family][0]


def usual_washer(family: str) -> str:
    """Name the standard of washer that usually goes with a family of threads."""
    return USUAL[family][1]


def nut(designation: str, nominal: float) -> Nut:
    """Look up a nut by its standard, as in "ISO 4032 class 10", and the thread's nominal diameter [mm].

    Raises
    ------
    ValueError
        One sentence with what is listed.
    """
    found = table(_file(NUTS, designation, "nut"))
    row = row_at(found, "nominal", nominal)
    flats, height, least, bearing = lengths(found, row, "flats_max", "height_max", "height_min", "bearing")
    return Nut(designation, nominal, flats, height, least, bearing, status_of(row), f"{found.source}, {row['size']}")


def washer(designation: str, nominal: float) -> Washer:
    """Look up a washer by its standard, as in "ISO 7089 300 HV": the smallest made for this diameter [mm] or more.

    Raises
    ------
    ValueError
        One sentence with what is listed.
    """
    found = table(_file(WASHERS, designation, "washer"))
    for row in found.rows:
        (size,) = lengths(found, row, "nominal")
        if nominal - SAME_SIZE <= size <= 1.25 * nominal:
            inside, outside, thickness = lengths(found, row, "inside", "outside", "thickness")
            source = f"{found.source}, {row['size']}"
            return Washer(designation, nominal, inside, outside, thickness, status_of(row), source)
    raise ValueError(f"{designation} lists no washer for {nominal:g} mm, only {listed(found)}")


def nut_end_length(nominal: float, stud_length: float) -> Figure:
    """Thread length b2 of a stud's nut end [mm] after DIN 938 and DIN 939, by the stud's length."""
    column, more = ("nut_end_125", 6) if stud_length <= SHORT_STUD else ("nut_end_200", 12)
    row = next((row for row in table("din_938").rows if float(row["nominal"]) == nominal), None)
    if row is not None and stud_length <= LONG_STUD:
        return Figure(float(row[column]), "mm", "published", "DIN 938:1995, DIN 939: b2")
    more = more if stud_length <= LONG_STUD else 25
    return Figure(2 * nominal + more, "mm", "computed", f"DIN 938:1995, DIN 939 continued: b2 = 2 d + {more} mm")


def run_out(pitch: float) -> Figure:
    """Greatest incomplete thread x1 after the last full one [mm]."""
    try:
        row = row_at(table("din_76_run_outs"), "pitch", pitch)
    except ValueError:
        return Figure(2.5 * pitch, "mm", "computed", "DIN 76-1 by analogy: x1 = 2.5 P")
    return Figure(float(row["normal"]), "mm", status_of(row), "DIN 76-1, x1")


def undercut(pitch: float, nominal: float, *, short: bool = False) -> Undercut:
    """Groove behind an external thread: the row of this pitch [mm], or of the next coarser one that is listed."""
    rows = table("din_76_undercuts").rows
    row = next((row for row in rows if pitch <= float(row["pitch"]) + SAME_PITCH), rows[-1])
    analogy = "" if abs(float(row["pitch"]) - pitch) < SAME_PITCH else f" by analogy, row of {row['pitch']} mm"
    least, greatest = ("short_least", "short_greatest") if short else ("least", "greatest")
    source = f"DIN 76-1, form {'B' if short else 'A'}{analogy}"
    below = nominal - float(row["below_nominal"])
    return Undercut(below, float(row[least]), float(row[greatest]), float(row["radius"]), "memory", source)


def it_grade(diameter: float, grade: int) -> Figure:
    """Width of a standard tolerance IT5 to IT11 [mm]."""
    row = _step("iso_286_grades", diameter)
    if str(grade) not in row:
        raise ValueError(f"wants a tolerance grade from 5 to 11, like H7, not {grade}")
    status = "memory" if grade == 5 else status_of(row)  # noqa: PLR2004
    source = f"ISO 286-1, IT{grade} over {row['over']} to {row['to']} mm"
    return Figure(float(row[str(grade)]) / 1000, "mm", status, source)


def shaft_deviation(diameter: float, letter: str) -> Figure:
    """Fundamental deviation of a shaft [mm]: es for f, g, h; ei for k, m, n, p, r, s."""
    row = _step("iso_286_shafts", diameter)
    if letter not in row or letter in ("over", "to"):
        raise ValueError(f'wants a shaft letter of f, g, h, k, m, n, p, r, s, like "p6", not {letter!r}')
    source = f"ISO 286-1, {letter} over {row['over']} to {row['to']} mm"
    return Figure(float(row[letter]) / 1000, "mm", "memory", source)


def _file(files: dict[str, str], designation: str, kind: str) -> str:
    for standard, name in files.items():
        if designation.upper().startswith(standard):
            return name
    raise ValueError(f"wants a {kind} of {', '.join(files)}, like {next(iter(files))!r}, not {designation!r}")


def _step(name: str, diameter: float) -> dict[str, str]:
    for row in table(name).rows:
        if float(row["over"]) < diameter <= float(row["to"]):
            return row
    raise ValueError(f"ISO 286-1 is listed here up to 120 mm, not for {diameter:g} mm")

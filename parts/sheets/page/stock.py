"""What to have on the bench before the first cut: bar and sheet with their lengths, drills, taps, dies, inserts, nuts."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from parts import tables
from parts.geometry import outline
from parts.shapes.assembly import holes
from parts.sheets.page.words import counted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words

BARS = (6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 100, 110, 120)
INCH_BARS = 1 / 8  # in: usual steps up
FACING = 1.0  # mm off each end
PARTING = 2.0  # mm, where the job names no parting tool
GRIP = 30.0  # mm that stay in the chuck
SKIN = 1.0  # mm on diameter, to come off a bar
MARGIN = 10.0  # mm of sheet round the gasket


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the list."""

    what: str
    size: str
    note: str = ""


def stock(words: Words) -> list[Item]:
    """Bar and sheet, with parting, facing and what the chuck holds."""
    return [*_studs(words), *_plug(words), *_ring(words), *_mandrel(words), *_gasket(words), *_filler(words)]


def bar(words: Words, least: float) -> str:
    """Name the next usual bar that is at least this diameter [mm]."""
    if words.system == "inch":
        eighths = ceil(least / tables.INCH / INCH_BARS - 1e-9)
        whole, part = divmod(eighths, 8)
        fractions = ("", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8")
        return f"Ø {' '.join(str(p) for p in (whole or '', fractions[part]) if p)} in"
    return f"Ø {next((b for b in BARS if b >= least), ceil(least / 10) * 10)} mm"


def _material(words: Words, table: str) -> str:
    spec = getattr(getattr(words.job, table, None), "material", None)
    return spec.name if spec else "material not given"


def _length(words: Words, pieces: int, each: float, grip: float = GRIP) -> str:
    """Length of bar for pieces parted off one after the other."""
    parting = words.value("job.ring.parting_tool") if words.has("job.ring.parting_tool") else PARTING
    return words.stock(pieces * (each + 2 * FACING + parting) + grip)


def _studs(words: Words) -> Iterator[Item]:
    if not words.has("stud.length", "stud.tap_end_nominal", "stud.nut_end_nominal", "stud.shank_diameter"):
        return
    pieces = max(1, len(holes(words.book, "deck.hole")))
    widest = max(words.value(f"stud.{n}") for n in ("tap_end_nominal", "nut_end_nominal", "shank_diameter"))
    size = f"{bar(words, widest + SKIN)} × {_length(words, pieces, words.value('stud.length'))}"
    note = f"{counted(pieces, 'stud')} of {words.size('stud.length')}, each with parting and facing; {words.stock(GRIP)} to hold"
    yield Item(f"bar, {_material(words, 'stud')}", size, note)


def _plug(words: Words) -> Iterator[Item]:
    if words.has("plug.diameter", "plug.whole_length"):
        wide = words.value("plug.diameter")
        if words.has("job.plug.shoulder.diameter"):
            wide = words.value("job.plug.shoulder.diameter")
        size = f"{bar(words, wide + SKIN)} × {_length(words, 1, words.value('plug.whole_length'))}"
        yield Item(f"bar, {_material(words, 'plug')}", size, "the blanking plug, with parting, facing and grip")


def _ring(words: Words) -> Iterator[Item]:
    if not words.has("ring.outside_diameter", "ring.inside_diameter", "ring.stock_length"):
        return
    outside = words.stock(words.value("ring.outside_diameter") + 2 * SKIN)
    inside = words.stock(words.value("ring.inside_diameter") - 3 * SKIN)
    long = words.stock(words.value("ring.stock_length") + GRIP)
    note = (
        f"{counted(int(words.value('job.ring.count')), 'ring')}: {words.size('ring.stock_length')} with parting and "
        f"facing, {words.stock(GRIP)} to hold; or a sleeve with a bore under {inside}"
    )
    yield Item(f"bar or sleeve, {_material(words, 'ring')}", f"Ø {outside} or more × {long}", note)


def _mandrel(words: Words) -> Iterator[Item]:
    names = ("mandrel.flange_diameter", "mandrel.flange_thickness", "mandrel.seat_height", "mandrel.lead_in")
    if words.has(*names) and words.job.mandrel is not None:
        wide, *heights = (words.value(n) for n in names)
        if words.job.mandrel.purpose == "fit check":
            yield Item(
                "printed part", f"Ø {words.stock(wide)} × {words.stock(sum(heights))}", "a fit check, never heated"
            )
            return
        size = f"{bar(words, wide + SKIN)} × {_length(words, 1, sum(heights))}"
        yield Item(f"bar, {_material(words, 'mandrel')}", size, "the expander mandrel, with facing and grip")
    if words.job.mandrel is not None and words.job.mandrel.form == "pin" and words.has("mandrel.pin_diameter"):
        long = words.stock(sum(words.value(n) for n in names[1:3]) + 5.0)
        yield Item(
            f"pin, {_material(words, 'mandrel')}", f"Ø {words.size('mandrel.pin_diameter')} × {long}", "turned to size"
        )


def _gasket(words: Words) -> Iterator[Item]:
    if words.has("gasket.area", "job.gasket.thickness") and words.job.gasket is not None:
        from parts.sizing.gasket import gasket_sheet

        sheet = gasket_sheet(words.book, words.job)
        if sheet is not None:
            left, low, right, high = outline.bounds(sheet.outer)
            sides = (right - left + 2 * MARGIN, high - low + 2 * MARGIN)
            size = f"{words.plain('job.gasket.thickness')} × {words.stock(sides[0])} × {words.stock(sides[1])}"
            yield Item(f"sheet, {_material(words, 'gasket')}", size, "for one gasket; cut two, the first is practice")


def _filler(words: Words) -> Iterator[Item]:
    old = words.job.barrel.old_holes if words.job.barrel else None
    if old is not None:
        count = len(holes(words.book, "deck.old"))
        what = "brazing rod and flux" if old.fill == "bronze braze" else "iron bar for screwed plugs"
        deep = f" × {words.stock(float(old.depth))}" if old.depth is not None else ""
        yield Item(what, f"{count} × Ø {words.plain('job.barrel.old_holes.diameter')}{deep}", "what the old holes take")


# tools ----------------------------------------------------------------------------------------------------------------


def tools(words: Words) -> list[Item]:
    """Drills, taps, dies, inserts, nuts and washers, and what else the order of work asks for."""
    return [*_threads(words), *_fasteners(words), *_plug_tools(words), *_ring_tools(words)]


def _threads(words: Words) -> Iterator[Item]:
    stud = words.job.stud
    if stud is None:
        return
    hole = "insert" if "insert.tap_drill" in words.book else "tapped"
    if words.has(f"{hole}.tap_drill"):
        yield Item("tap drill", words.drill(f"{hole}.tap_drill"), "and a centre drill; a starting drill well under it")
        filler = [n for n in words.book if n.endswith(".in_filler") and words.value(n) > 0]
        if filler:
            yield Item(
                "centre-cutting end mill",
                f"just under {words.plain(f'{hole}.tap_drill')}",
                "for holes that are part filler",
            )
    tap = stud.insert.tap if stud.insert else stud.tap
    if stud.insert is not None:
        yield Item("tap for wire inserts", f"{stud.tap_end.label} STI", f"{tap}, and a plug tap to start it")
        count, long = len(holes(words.book, "deck.hole")), words.plain("insert.nominal_length")
        yield Item("wire inserts", f"{count + 1} of {stud.tap_end.label} × {long}", "one spare; tool to wind them in")
    else:
        yield Item("tap", stud.tap_end.label, f"taper, second and {tap}")
    ends = dict.fromkeys((stud.tap_end.label, stud.nut_end.label))
    yield Item("dies", " and ".join(ends), "or screwcut; three wires to measure over")


def _fasteners(words: Words) -> Iterator[Item]:
    stud, count = words.job.stud, len(holes(words.book, "deck.hole"))
    if stud is None or not count:
        return
    flats = f", {words.plain('stud.nut_across_flats')} across flats" if words.has("stud.nut_across_flats") else ""
    nut = stud.nut.name if stud.nut else tables.usual_nut(stud.nut_end.family)
    washer = stud.washer.name if stud.washer else tables.usual_washer(stud.nut_end.family)
    yield Item("nuts", f"{count} of {stud.nut_end.label}", f"{nut}{flats}")
    if words.has("stud.washer_inside", "stud.washer_outside", "stud.washer_thickness"):
        sizes = " × ".join(words.length(words.value(f"stud.washer_{n}"), 2) for n in ("inside", "outside", "thickness"))
        yield Item("washers", f"{count} of {sizes} {words.unit}", washer)


def _plug_tools(words: Words) -> Iterator[Item]:
    plug = words.job.plug
    if plug is None:
        return
    names = [p.name for p in words.job.barrel.passages] if words.job.barrel else []
    hole = f"job.barrel.passages.{names.index(plug.passage)}.diameter" if plug.passage else "job.plug.hole"
    yield Item("reamer", words.plain(hole), "or a boring head, for the passage")
    if plug.fit == "bonded":
        yield Item("retaining compound", "rated for the barrel's heat", "its data sheet at hand: gap, primer, cure")


def _ring_tools(words: Words) -> Iterator[Item]:
    ring = words.job.ring
    if ring is None:
        return
    yield Item("slitting saw", words.plain("job.ring.slit"), "for the ring's gap")
    yield Item("parting tool", words.plain("job.ring.parting_tool"))
    if words.job.mandrel is not None or ring.heat_set is not None:
        heat = "job.ring.heat_set.temperature"
        yield Item("oven", words.size(heat) if words.has(heat) else "", "that holds its heat; a second thermometer")
    yield Item("surface plate and fine abrasive paper", "", "to lap the ring's sides")

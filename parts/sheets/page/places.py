"""Coordinates for the mill: from the bore, on a rotary table, from other zeros, and over two pins to check them."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from math import hypot
from typing import TYPE_CHECKING

from parts.geometry import outline
from parts.job.models import SCREWED
from parts.relations.seat_arcs import sizes_across
from parts.sheets.coordinates import counterbores, on_machine, rows
from parts.sheets.page.marks import marked, old_holes
from parts.sheets.page.words import hole_list, listed, minutes

if TYPE_CHECKING:
    from parts.job.part_models import Ring
    from parts.sheets.coordinates import Row
    from parts.sheets.page.words import Words

MARKS = {"bore": "", "old": "O", "new": "", "passage": "P"}
ALL_PAIRS = 6  # holes up to which every pair is listed


@dataclass(frozen=True, slots=True)
class PageTable:
    """A table of the page, ready to print."""

    title: str
    note: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def hole_names(table: list[Row]) -> list[str]:
    """Names as they stand on plan and tables: 1, 2 for new holes, O1 for old ones, P1 for passages."""
    names, seen = [], dict[str, int]()
    for row in table:
        seen[row.kind] = seen.get(row.kind, 0) + 1
        names.append("bore" if row.kind == "bore" else f"{MARKS[row.kind]}{seen[row.kind]}")
    return names


def coordinates(words: Words) -> PageTable | None:
    """Every hole from the centre of the bore, Cartesian, polar and for a rotary table."""
    table = rows(words.book, words.job)
    if len(table) < 2:  # noqa: PLR2004 - the bore alone
        return None
    u = words.unit
    head = ("hole", "what", f"X {u}", f"Y {u}", f"radius {u}", "angle °", "rotary table", f"Ø {u}", f"deep {u}")
    what = _what(words, table)
    body = [_row(words, name, row, what.get(name)) for name, row in zip(hole_names(table), table, strict=True)]
    body += [_row(words, "", row, None) for row in counterbores(words.book, words.job)]
    note = "Zero at the centre of the bore, X to the right, Y up, seen from above; angles anticlockwise from +X."
    return PageTable("From the centre of the bore", note, head, tuple(body))


def _what(words: Words, table: list[Row]) -> dict[str, str]:
    """What each hole is, where there are several of its kind."""
    olds = [(own, own.job.old) for own in words.each("old") if own.name]
    filled = {name: f"old, {old.fill}" for own, old in olds if old for name in old_holes(own)}
    for own in words.each("old"):
        if own.has("screwed.tap_drill"):
            drill = f"old, {SCREWED}: tapping drill {own.plain('screwed.tap_drill')}"
            filled |= dict.fromkeys(old_holes(own), drill)
    says = {"stud": "new, tap drill, {0} {1}", "plug": "{2}, plug {0}"}
    found, names = marked(words), dict(zip(hole_names(table), table, strict=True))
    return filled | {n: says[m.kind].format(m.letter, m.name, names[n].hole) for n, m in found.items()}


def _row(words: Words, name: str, row: Row, what: str | None) -> tuple[str, ...]:
    diameter, depth = ("" if v is None else words.length(v) for v in (row.diameter, row.depth))
    new = "stud hole" if row.diameter is None else "new, tap drill"
    what = what or {"bore": "bore", "old": "old, filled", "new": new}.get(row.kind, row.hole)
    if row.kind == "bore":
        return name, what, words.length(0.0), words.length(0.0), "", "", "", diameter, depth
    place = (words.length(v) for v in (row.x, row.y, row.radius))
    return name, what, *place, f"{row.angle:.3f}", minutes(row.angle), diameter, depth


def other_zeros(words: Words) -> list[PageTable]:
    """The same holes from hole 1, and from the left and the front edge of the deck."""
    table = rows(words.book, words.job)
    new = [row for row in table if row.kind == "new"]
    if not new:
        return []
    found = [_shifted(words, table, (new[0].x, new[0].y), "From hole 1", "Zero at hole 1, axes as before.")]
    barrel = words.job.barrel
    if barrel is not None and barrel.outline is not None:
        left, front, _, _ = outline.bounds(barrel.outline.loop())
        note = "Zero where a stop touches the left edge and one the front edge of the deck: everything is positive."
        found.append(_shifted(words, table, (left, front), "From left and front edge", note))
    return found


def _shifted(words: Words, table: list[Row], zero: tuple[float, float], title: str, note: str) -> PageTable:
    body = tuple(
        (name, words.length(row.x - zero[0]), words.length(row.y - zero[1]))
        for name, row in zip(hole_names(table), table, strict=True)
    )
    return PageTable(title, note, ("hole", f"X {words.unit}", f"Y {words.unit}"), body)


def machine_scales(words: Words) -> PageTable | None:
    """The same holes as the machine's scales read them, where two were touched off."""
    table = rows(words.book, words.job)
    found = [on_machine(words.book, row.x, row.y) for row in table]
    places = [place for place in found if place is not None]
    if not places or len(places) < len(table):
        return None
    body = tuple((name, *map(words.length, place)) for name, place in zip(hole_names(table), places, strict=True))
    turn = f"{words.book['measured.machine.turn'].value:.3f}"
    note = f"By the holes that were touched off: the deck lies turned {turn}° on the table, anticlockwise. Check one hole again before you drill."
    return PageTable("On the machine's scales", note, ("hole", f"X {words.unit}", f"Y {words.unit}"), body)


def over_pins(words: Words) -> PageTable | None:
    """Distances over two pins in the new holes: what callipers read if the holes are where they should be."""
    new = [row for row in rows(words.book, words.job) if row.kind == "new" and row.diameter is not None]
    if len(new) < 2:  # noqa: PLR2004 - a pair
        return None
    body = tuple(_pair(words, a, b) for a, b in combinations(new, 2) if _listed(new, a, b))
    note = f"Pins of {_pins(words, new)}, a good fit in the drilled holes: measure over them with callipers before you tap."
    return PageTable("Over two pins", note, ("holes", f"centres {words.unit}", f"over pins {words.unit}"), body)


def _pins(words: Words, new: list[Row]) -> str:
    """Diameters of the pins, and where there are several the holes of each."""
    found: dict[str, list[str]] = {}
    for row in new:
        found.setdefault(f"{words.length(row.diameter or 0.0)} {words.unit}", []).append(row.hole)
    return listed([pin if len(found) == 1 else f"{pin} ({hole_list(some)})" for pin, some in found.items()])


def _listed(new: list[Row], a: Row, b: Row) -> bool:
    """Few holes: all pairs; many: neighbours and, from the first hole, all."""
    i, j = new.index(a), new.index(b)
    return len(new) <= ALL_PAIRS or j - i in (1, len(new) - 1) or i == 0


def _pair(words: Words, a: Row, b: Row) -> tuple[str, ...]:
    apart = hypot(a.x - b.x, a.y - b.y)
    return (
        f"{a.hole} and {b.hole}",
        words.length(apart),
        words.length(apart + ((a.diameter or 0.0) + (b.diameter or 0.0)) / 2),
    )


def seats(words: Words) -> list[PageTable]:
    """The contoured seats for making without a CNC: sizes across to file to, and arcs to swing."""
    found: list[PageTable] = []
    for own in words.each("ring"):
        mandrel = own.job.mandrel
        if mandrel is not None and mandrel.form == "contoured" and own.has("mandrel.profile"):
            found += [_across(own), *_arcs(own)]
    return found


def _across(own: Words) -> PageTable:
    u = own.unit
    body = tuple((f"{a:g} and {180 - a:g}", own.length(v)) for a, v in sizes_across(own.book["mandrel.profile"].value))
    note = (
        "Through the axis, angles from the back: to measure the seat by, and where the step of making it offers that, to file it to. "
        "A micrometer does not see three or five lobes: turn the mandrel against an indicator too, and hold it to the radii."
    )
    return PageTable(own.named("Seat of the mandrel, across"), note, ("angles °", f"across {u}"), body)


def _arcs(own: Words) -> list[PageTable]:
    if not own.has("mandrel.arc_table", "mandrel.arcs"):
        return []
    u, count = own.unit, int(own.value("mandrel.arcs"))
    head = ("arc", "ends at °", f"radius {u}", f"its centre, X {u}", f"to either side, Y {u}")
    rows = own.book["mandrel.arc_table"].value
    body = tuple((str(n), f"{a:.1f}", *map(own.length, sizes)) for n, (a, *sizes) in enumerate(rows, 1))
    note = (
        f"{count} arcs, the first over the back, the others on both sides alike; each runs smoothly into the next. Swing each "
        "about its centre on a rotary table, or set it over by that in a four-jaw chuck; X from the axis towards the gap."
    )
    return [PageTable(own.named("Seat of the mandrel, by arcs"), note, head, body)]


def grooves(words: Words) -> PageTable | None:
    """Which ring goes into which groove, where there are several."""
    rings = [(own, own.job.ring) for own in words.each("ring") if own.name]
    if not rings:
        return None
    u = words.unit
    head = ("ring", f"groove {u}", f"its root Ø {u}", f"ring, height {u}", f"thickness {u}", "to make", "mandrel")
    body = tuple(_groove(own, ring) for own, ring in rings if ring)
    return PageTable("Rings by their grooves", "The grooves of the piston, which the plan does not show.", head, body)


def _groove(own: Words, ring: Ring) -> tuple[str, ...]:
    names = ("groove.width", "groove.root_diameter", "axial_width", "radial_thickness")
    sizes = (own.length(own.value(f"job.ring.{n}")) if own.has(f"job.ring.{n}") else "" for n in names)
    return own.name, *sizes, str(ring.count), own.job.mandrel.form if own.job.mandrel else "none"

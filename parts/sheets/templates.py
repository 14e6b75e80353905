"""Paper templates at 1:1: the gasket, to glue on and cut; the deck, to mark out and to check."""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING

from parts.geometry import outline
from parts.geometry.lands import middle
from parts.sheets.coordinates import Row, rows
from parts.sheets.drawing.words import figures
from parts.sheets.labels import Labels
from parts.sheets.page.words import listed
from parts.sheets.tiles import Template, write_template
from parts.sizing.scenes import by_hole
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.shapes.pieces import Flat
    from parts.sheets.drawing.sheet import Sheet
    from parts.sheets.drawing.words import Figures

Named = tuple[str, str, "Point", float, "tuple[Loop, ...]"]
"""label, kind, centre and radius of a hole, or its loops where it is not round"""
OVER = 3.0  # mm that a centre line goes on past what it belongs to
BARE = 2.0  # mm, half of the cross of a hole whose diameter is not given
PRINT = "Print at 100 %, not fitted to the page, then lay a rule on all four bars."


def gasket_template(shape: Flat, book: Book, job: Job, folder: Path) -> list[tuple[Path, str]]:
    """Write the gasket's template: on size, no cutter allowed for."""
    numbers = count(1)
    named: list[Named] = [
        (
            str(next(numbers)) if hole.layer == "STUD HOLES" else "",
            hole.layer.lower(),
            (hole.x, hole.y),
            hole.diameter / 2,
            (),
        )
        for hole in shape.sheet.holes
    ]
    named += [("", o.layer.lower(), middle(o.loop), 0.0, (o.loop,)) for o in shape.sheet.openings]
    size = _gasket_size(shape, book, job)

    def draw(sheet: Sheet, origin: Point) -> None:
        _draw(sheet, origin, shape.sheet.outer, named)

    template = Template(
        f"{job.job.title}: head gasket", [size, f"Finished size, no cutter allowed for. {PRINT}"],
        outline.bounds(shape.sheet.outer), draw,
    )  # fmt: skip
    return write_template(template, folder / "head-gasket", job.job.page)


def _gasket_size(shape: Flat, book: Book, job: Job) -> str:
    say = figures(job)
    material = job.gasket.material.label if job.gasket and job.gasket.material else "sheet"
    thick, bore = (say.diameter(book[name].value) for name in ("job.gasket.thickness", "gasket.bore_diameter"))
    studs, open_ = (
        [f"Ø{say.diameter(hole.diameter)}" for hole in shape.sheet.holes if hole.layer == layer]
        for layer in ("STUD HOLES", "PASSAGES")
    )
    count = f"{len(studs)} stud hole{'s' * (len(studs) > 1)}" if len({*studs}) == 1 else "stud holes"
    holes = [f"bore Ø{bore}", f"{count} {alike(enumerate(studs, 1), ', ')}"]
    holes += [f"open passages {', '.join(open_)}"] * bool(open_)
    drawn = f", openings as drawn: {len(shape.sheet.openings)}" * bool(shape.sheet.openings)
    return (
        f"{material[:1].upper()}{material[1:]}, {thick} {say.unit} thick; {', '.join(holes)} {say.unit}{drawn}. "
        "Seen from above."
    )


def alike(holes: Iterable[tuple[int, str]], between: str) -> str:
    """What is said of holes by their numbers, once for those of which the same is said.

    >>> alike([(1, "Ø9"), (2, "Ø9")], ", "), alike([(1, "Ø9"), (2, "Ø11"), (3, "Ø11"), (4, "Ø9")], ", ")
    ('Ø9', '1 and 4 Ø9, 2 and 3 Ø11')
    """
    said: dict[str, list[str]] = {}
    for number, says in holes:
        said.setdefault(says, []).append(str(number))
    if len(said) == 1:
        return next(iter(said))
    return between.join(f"{listed(numbers)} {says}" for says, numbers in said.items())


def deck_template(book: Book, job: Job, _found: Sequence[Finding], folder: Path) -> list[tuple[Path, str]]:
    """Write the deck's template, where the job says anything about the deck besides the new holes."""
    if job.barrel is None or not (job.barrel.outline or job.barrel.old_holes or job.barrel.passages):
        return []
    edge = job.barrel.outline.loop() if job.barrel.outline else None
    holes = [_named(row) for row in rows(book, job)]

    def draw(sheet: Sheet, origin: Point) -> None:
        _draw(sheet, origin, edge, holes)

    title = f"{job.job.title}: deck, for marking out"
    template = Template(title, _deck_notes(book, job), _around(edge, holes), draw)
    return write_template(template, folder / "parts" / "deck-template", job.job.page)


def _named(row: Row) -> Named:
    label = {"bore": "", "old": f"old {row.hole}", "new": row.hole, "passage": row.hole}[row.kind]
    return label, row.kind, (row.x, row.y), row.diameter / 2 if row.diameter else 0.0, row.loops


def _around(edge: Loop | None, holes: list[Named]) -> tuple[float, float, float, float]:
    """Return left, low, right, high of all that is drawn [mm]."""
    boxes = [outline.bounds(edge)] if edge else []
    for _, _, (x, y), radius, loops in holes:
        reach = max(radius, BARE) + OVER
        boxes += [(x - reach, y - reach, x + reach, y + reach), *map(outline.bounds, loops)]
    lefts, lows, rights, highs = zip(*boxes, strict=True)
    return min(lefts), min(lows), max(rights), max(highs)


def _draw(sheet: Sheet, origin: Point, edge: Loop | None, holes: list[Named]) -> None:
    """Draw edge, holes, centre lines, and the labels where there is room."""
    labels = Labels()
    if edge:
        sheet.loop(outline.transformed(edge, *origin), "CUT")
        labels.keep_off_loop(edge)
    _cross(sheet, origin, labels, (0.0, 0.0), _around(edge, holes))
    for _, kind, (x, y), radius, loops in holes:
        for loop in loops:
            sheet.loop(outline.transformed(loop, *origin), "CUT")
            labels.keep_off_loop(loop)
        if radius:
            sheet.circle(origin[0] + x, origin[1] + y, radius, "HIDDEN" if kind == "old" else "CUT")
            labels.keep_off_loop(outline.circle(x, y, radius))
        if kind != "bore":
            reach = max(radius, BARE) + OVER
            _cross(sheet, origin, labels, (x, y), (x - reach, y - reach, x + reach, y + reach), "CUT")
    for label, _, centre, radius, _ in holes:
        if label:
            labels.put(sheet, origin, label, centre, max(radius, BARE))


def _cross(
    sheet: Sheet,
    origin: Point,
    labels: Labels,
    centre: Point,
    box: tuple[float, float, float, float],
    layer: str = "CENTRE",
) -> None:
    """Draw a level and an upright line through a point, as far as a box."""
    x, y = centre
    for start, end in (((box[0], y), (box[2], y)), ((x, box[1]), (x, box[3]))):
        sheet.line(origin[0] + start[0], origin[1] + start[1], origin[0] + end[0], origin[1] + end[1], layer)
        labels.keep_off([start, end])


def _deck_notes(book: Book, job: Job) -> list[str]:
    say = figures(job)
    words = "Seen from above the deck, origin at the centre of the bore. "
    drilled = [(n, says) for n, view, _ in by_hole(book, job) if (says := _drilled(view, say))]
    if drilled:
        words += f"New holes are numbered, drawn as drilled: {alike(drilled, '; ')}. "
    if job.barrel and job.barrel.old_holes:
        words += "Old holes, dashed, are filled first. "
    return [words + "Centre-punch and check by this sheet, drill by the coordinates: paper stretches.", PRINT]


def _drilled(book: Book, say: Figures) -> str:
    hole = hole_of(book)
    if f"{hole}.tap_drill" not in book:
        return ""
    drill, depth = f"Ø{say.diameter(book[f'{hole}.tap_drill'].value)}", f"{hole}.drill_depth"
    deep = f", {say.length(book[depth].value)} {say.unit} deep" if depth in book else ""
    return f"{drill}{deep}{f' ({book.suffix[1:]})' if book.suffix else ''}"

"""Coordinates of every hole of the deck, for drilling and for a spreadsheet."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from io import StringIO
from typing import TYPE_CHECKING

from parts.geometry.lands import middle
from parts.geometry.outline import as_circle
from parts.relations.deck import angle, radius
from parts.relations.measured import machine_x, machine_y
from parts.sizing.scenes import by_hole, by_old_hole, scenes
from parts.sizing.stud import hole_of
from parts.units import INCH
from parts.writers.cells import words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from parts.book import Book
    from parts.geometry.outline import Loop
    from parts.job import Job
    from parts.job.outline_models import Passage

MACHINE_HEAD = "hole,kind,machine_x_mm,machine_y_mm"
MACHINE_INCHES = ",machine_x_in,machine_y_in"
HEAD = "hole,kind,x_mm,y_mm,radius_mm,angle_deg,diameter_mm,depth_mm"
INCHES = ",x_in,y_in,radius_in,diameter_in,depth_in"
"""of a job whose sheets print inches, after the others"""


@dataclass(frozen=True, slots=True)
class Row:
    """One hole [mm, deg]."""

    hole: str
    kind: str
    """bore, old, new or passage"""
    x: float
    y: float
    diameter: float | None
    """as drilled"""
    depth: float | None
    """of the full diameter; None is through, or not given"""
    loops: tuple[Loop, ...] = ()
    """of one that is not round"""

    @property
    def radius(self) -> float:
        """From the centre of the bore."""
        return radius(self.x, self.y)

    @property
    def angle(self) -> float:
        """From +X, anticlockwise."""
        return angle(self.x, self.y)


def rows(book: Book, job: Job) -> list[Row]:
    """Return the bore, the old holes, the new ones and the passages, in this order."""
    out: list[Row] = []
    if "job.engine.bore" in book:
        out.append(Row("bore", "bore", 0.0, 0.0, book["job.engine.bore"].value, None))
    old = [f"job.barrel.old_holes.{key}" for key in ("diameter", "depth")]
    out += [_row(view, "old", f"deck.old.{n}", old) for n, view, _ in by_old_hole(book, job)]
    for n, view, _ in by_hole(book, job):
        hole = hole_of(view)
        out.append(_row(view, "new", f"deck.hole.{n}", (f"{hole}.tap_drill", f"{hole}.drill_depth")))
    for passage in job.barrel.passages if job.barrel else []:
        depth = None if passage.depth is None else float(passage.depth)
        out += _openings(passage, depth)
    return out


def _openings(passage: Passage, depth: float | None) -> Iterator[Row]:
    """Every opening of a passage, round ones by their diameter; numbered where it has several."""
    loops = passage.loops()
    for number, loop in enumerate(loops, 1):
        name = passage.name if len(loops) == 1 else f"{passage.name} {number}"
        if passage.form == "diameter":
            yield Row(name, "passage", *passage.centre, passage.diameter, depth)
        elif one := as_circle(loop):
            yield Row(name, "passage", one[0], one[1], 2 * one[2], depth)
        else:
            yield Row(name, "passage", *(passage.centre if len(loops) == 1 else middle(loop)), None, depth, (loop,))


def counterbores(book: Book, job: Job) -> list[Row]:
    """What the shoulders of plugs drop into, by their passages; depths from the deck before its skim."""
    passages = {passage.name: passage for passage in (job.barrel.passages if job.barrel else [])}
    names = ("plug.counterbore_diameter", "plug.counterbore_depth")
    found = []
    for view, own, _ in scenes(book, job, "plug"):
        passage = passages.get(own.plug.passage or "") if own.plug else None
        if passage and view.has(*names):
            wide, deep = (view[n].value for n in names)
            found.append(Row(f"{passage.name} counterbore", "passage", *passage.centre, wide, deep))
    return found


def _row(book: Book, kind: str, name: str, sizes: Iterable[str]) -> Row:
    """One hole of a pattern; `sizes`: names of its diameter and depth."""
    diameter, depth = (book[n].value if n in book else None for n in sizes)
    return Row(name.rpartition(".")[2], kind, book[f"{name}.x"].value, book[f"{name}.y"].value, diameter, depth)


def coordinates_csv(table: list[Row], *, inch: bool = False) -> str:
    """Return the text of coordinates.csv; an empty depth is a hole right through, or one whose depth is not given."""
    lines = [(HEAD + INCHES * inch).split(",")]
    for row in table:
        lengths = (row.x, row.y, row.radius, row.diameter, row.depth)
        x, y, away, across, deep = map(_fixed, lengths)
        inches = [_fixed(_inches(n)) for n in lengths] if inch else []
        lines.append([words(row.hole), row.kind, x, y, away, _fixed(row.angle), across, deep, *inches])
    return _text(lines)


def on_machine(book: Book, x: float, y: float) -> tuple[float, float] | None:
    """What the machine's scales read over a place of the deck; None where nothing was touched off."""
    names = ("x0", "y0", "turn")
    if not book.has(*(f"measured.machine.{n}" for n in names)):
        return None
    x0, y0, turn = (book[f"measured.machine.{n}"].value for n in names)
    return machine_x(x, y, x0, turn), machine_y(x, y, y0, turn)


def machine_csv(book: Book, table: list[Row], *, inch: bool = False) -> str | None:
    """Return the text of machine-coordinates.csv, every hole as the scales read; None where that can't be told."""
    lines = [(MACHINE_HEAD + MACHINE_INCHES * inch).split(",")]
    for row in table:
        place = on_machine(book, row.x, row.y)
        if place is None:
            return None
        inches = [_fixed(_inches(v)) for v in place] if inch else []
        lines.append([words(row.hole), row.kind, *map(_fixed, place), *inches])
    return _text(lines)


def _inches(length: float | None) -> float | None:
    return None if length is None else length / INCH


def _fixed(value: float | None) -> str:
    """Write a number to six places, never as less than nothing where it is nothing."""
    return "" if value is None else f"{round(value, 6) + 0.0:.6f}"


def _text(lines: Iterable[Iterable[str]]) -> str:
    text = StringIO()
    csv.writer(text, lineterminator="\n").writerows(lines)
    return text.getvalue()

"""Coordinates of every hole of the deck, for drilling and for a spreadsheet."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from io import StringIO
from typing import TYPE_CHECKING

from parts.relations.deck import angle, radius
from parts.relations.measured import machine_x, machine_y
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

MACHINE_HEAD = "hole,kind,machine_x_mm,machine_y_mm"
HEAD = "hole,kind,x_mm,y_mm,radius_mm,angle_deg,diameter_mm,depth_mm"


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
    hole = hole_of(book)
    out += _pattern(book, "old", "deck.old", "job.barrel.old_holes.diameter", "job.barrel.old_holes.depth")
    out += _pattern(book, "new", "deck.hole", f"{hole}.tap_drill", f"{hole}.drill_depth")
    for passage in job.barrel.passages if job.barrel else []:
        depth = None if passage.depth is None else float(passage.depth)
        out.append(Row(passage.name, "passage", passage.at[0], passage.at[1], passage.diameter, depth))
    return out


def _pattern(book: Book, kind: str, prefix: str, diameter: str, depth: str) -> list[Row]:
    out: list[Row] = []
    while (name := f"{prefix}.{len(out) + 1}") + ".x" in book:
        x, y = book[f"{name}.x"].value, book[f"{name}.y"].value
        sizes = (book[n].value if n in book else None for n in (diameter, depth))
        out.append(Row(str(len(out) + 1), kind, x, y, *sizes))
    return out


def coordinates_csv(table: list[Row]) -> str:
    """Return the text of coordinates.csv; an empty depth is a hole right through, or one whose depth is not given."""
    text = StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEAD.split(","))
    for row in table:
        numbers = (row.x, row.y, row.radius, row.angle, row.diameter, row.depth)
        writer.writerow([_plain(row.hole), row.kind, *("" if n is None else f"{n + 0.0:.6f}" for n in numbers)])
    return text.getvalue()


def on_machine(book: Book, x: float, y: float) -> tuple[float, float] | None:
    """What the machine's scales read over a place of the deck; None where nothing was touched off."""
    names = ("x0", "y0", "turn")
    if not book.has(*(f"measured.machine.{n}" for n in names)):
        return None
    x0, y0, turn = (book[f"measured.machine.{n}"].value for n in names)
    return machine_x(x, y, x0, turn), machine_y(x, y, y0, turn)


def machine_csv(book: Book, table: list[Row]) -> str | None:
    """Return the text of machine-coordinates.csv, every hole as the scales read; None where that can't be told."""
    text = StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(MACHINE_HEAD.split(","))
    for row in table:
        place = on_machine(book, row.x, row.y)
        if place is None:
            return None
        writer.writerow([_plain(row.hole), row.kind, *(f"{round(v, 6) + 0.0:.6f}" for v in place)])
    return text.getvalue()


def _plain(text: str) -> str:
    """Keep a spreadsheet from taking a name for a formula."""
    return f"'{text}" if text[:1] in "=+-@\t\r" else text

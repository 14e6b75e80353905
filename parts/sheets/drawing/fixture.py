"""What the drawings of fixtures have in common: the sheet, sizes as they are held, a turned body cut, a round face."""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING

from parts.fixtures import stem_of
from parts.judging.fixture_choices import PRINTED
from parts.judging.limits import EDGES
from parts.register import PARTS
from parts.sheets.drawing import turned
from parts.sheets.drawing.compose import Content
from parts.sheets.drawing.items import Item, Length
from parts.sheets.drawing.view import View
from parts.sheets.drawing.words import TURNED, Figures, cautions, figures, material_name, named
from parts.sizing.materials import is_plastic

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.book import Book
    from parts.geometry.profile import Profile
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.sheets.drawing.furniture import Grid
    from parts.sheets.drawing.pen import Pen

COARSE = 0.1  # mm either way, from which a size is printed to the places of a length
OVER = 3.0  # mm that a centre line goes on past a face


def content(
    table: str,
    book: Book,
    job: Job,
    found: list[Finding],
    views: Sequence[View],
    notes: Sequence[str],
    tables: Sequence[Grid] = (),
    but: str = "",
) -> Content:
    """Return the sheet of a fixture: its own notes, then those that all have; `but`: an edge that is not broken."""
    say, stem = figures(job), stem_of(table)
    printed = [f"{PRINTED[0].upper()}{PRINTED[1:]}."] if is_plastic(book, table) else []
    edges = f"Turned all over, {say.rough(TURNED)}; break sharp edges {say.length(EDGES)} {say.unit}{but}."
    every = [*printed, *notes, edges, *cautions(found)]
    title = named(PARTS[stem].title.capitalize(), book)
    return Content(title, stem + book.suffix, material_name(getattr(job, table)), "1", views, every, tables)


def size(book: Book, say: Figures, name: str, sign: str = "") -> str:
    """Print a size of the book with what it is held to."""
    value, off = book[name].value, book.spread(name)
    figure = say.limit(value) if 0 < off < COARSE else say.length(value)
    return f"{sign}{figure}{say.off(off, -off) if off else ''}"


def across(book: Book, say: Figures, z: float, name: str) -> Item:
    """Return a diameter beside the view, where the axis lies level."""
    radius = book[name].value / 2
    return Length((z, -radius), (z, radius), size(book, say, name, "Ø"))


def section(
    profile: Profile,
    book: Book,
    say: Figures,
    along: Sequence[tuple[float, float, str]],
    left: Sequence[str] = (),
    right: Sequence[str] = (),
    caption: str = "Section",
) -> View:
    """Return a turned body cut along its axis: lengths (from, to, size) below, diameters at its left and right end."""
    low, bottom, high, top = turned.box(profile)
    below = [Length((a, bottom), (b, bottom), size(book, say, name)) for a, b, name in along]
    at_left, at_right = ([across(book, say, z, n) for n in names] for z, names in ((low, left), (high, right)))
    box = (low, bottom, high, top)
    return View(box, lambda pen: turned.cut(pen, profile), (), below, at_left, at_right, caption)


def face(
    radii: Sequence[float],
    slot: tuple[float, float] | None = None,
    items: Sequence[Item] = (),
    caption: str = "From the open end",
) -> View:
    """Return a round face: its circles, and a slot (width, from this radius outwards) on the right."""
    most = max(radii)

    def drawn(pen: Pen) -> None:
        for radius in radii:
            pen.circle((0.0, 0.0), radius)
        for start, end in (((-most, 0.0), (most, 0.0)), ((0.0, -most), (0.0, most))):
            pen.axis(start, end, OVER)
        if slot is not None:
            wide, inner = slot
            for side in (-wide / 2, wide / 2):
                pen.line((inner, side), ((most**2 - side**2) ** 0.5, side))

    return View((-most, -most, most, most), drawn, below=items, caption=caption)


def on_circle(radius: float, angle: float) -> tuple[float, float]:
    """Return a point of a circle about the middle [mm, deg]."""
    return radius * cos(radians(angle)), radius * sin(radians(angle))

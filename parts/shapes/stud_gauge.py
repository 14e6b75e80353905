"""Shapes of the stud gauge, its foot on the deck at Z = 0, the lower step on +X; and of the split holder."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from parts.geometry import outline
from parts.geometry.outline import Region
from parts.geometry.profile import Profile, volume
from parts.shapes.pieces import Flat, Piece, Pieces
from parts.shapes.slots import CLEAR, slotted, stepped

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def tube(book: Book) -> Profile:
    """Return the gauge's body before its step is cut."""
    high, outside, bore = (book[f"stud_gauge.{n}"].value for n in ("high_step", "outside_diameter", "bore"))
    return stepped(0.0, high, outside, ((high, bore),))


def stud_gauge(book: Book, _: Job) -> Pieces:
    """Return the gauge: half of its top lower by the stud's limits."""
    body, low, high = tube(book), book["stud_gauge.low_step"].value, book["stud_gauge.high_step"].value
    radius, bore = (book[f"stud_gauge.{n}"].value / 2 for n in ("outside_diameter", "bore"))
    reach = radius + CLEAR
    half = Flat(
        Region(outline.polygon(((0.0, -reach), (reach, -reach), (reach, reach), (0.0, reach)))), high - low + CLEAR
    )
    cut = pi / 2 * (radius**2 - bore**2) * (high - low)
    return Pieces((Piece(body),), (Piece(half, z=low),), volume(body) - cut)


def holder(book: Book) -> Profile:
    """Return the holder's body before it is slit, its thread as its core."""
    long, outside, core = (book[f"stud_gauge.holder_{n}"].value for n in ("length", "outside", "core"))
    return stepped(0.0, long, outside, ((long, core),))


def stud_holder(book: Book, _: Job) -> Pieces:
    """Return the split holder."""
    body = holder(book)
    return slotted(body, book["stud_gauge.slit"].value, 0.0, body.points[-1][0])

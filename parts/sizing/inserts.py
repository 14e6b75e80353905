"""Holes for helically coiled wire thread inserts, and how deep they go, put into the book."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations.inserts import (
    drill_depth,
    full_thread_depth,
    installed_length,
    set_down,
    tapped_major,
    tapped_minor,
    tapped_pitch_diameter,
)
from parts.relations.thread_forms import internal_limit
from parts.sizing.drills import enter_drill
from parts.sizing.threads import add_hole_minor_tolerance, listed_status, thread_source

if TYPE_CHECKING:
    from parts.book import Book
    from parts.thread import Thread

SET_DOWN = {  # standard -> pitches below the surface, least and most that it allows, its words
    "ASME B18.29.2M": (1.0, (0.75, 1.5), "ASME B18.29.2M-2005: 0.75 P to 1.5 P below the surface, 1 P taken"),
    "DIN 8140": (0.5, (0.25, 0.5), "DIN 8140: 1/4 to 1/2 turn below the surface, 1/2 taken"),
}
TAPS = {  # tap -> pitches drilled beyond the nominal length
    "bottoming": (
        4.0,
        "ASME B18.29.2M-2005, bottoming tap: chamfer 2 P, end clearance 1 P, countersink and set-down 1 P",
    ),
    "plug": (6.0, "ASME B18.29.2M-2005, plug tap: chamfer 4 P, end clearance 1 P, countersink and set-down 1 P"),
}


def size_insert(book: Book, thread: Thread, system: str, tap: str, *, standard: str = "ASME B18.29.2M") -> None:
    """Put the hole for a wire thread insert into the book; `insert.nominal_length` stands there before.

    Parameters
    ----------
    book : Book
        The job's sizes
    thread : Thread
        The thread inside the insert
    system : str
        List of drills, "metric" or "inch"
    tap : str
        "bottoming" or "plug"
    standard : str, optional
        Whose set-down: "ASME B18.29.2M" or "DIN 8140"
    """
    add_tapped(book, thread)
    add_hole_minor_tolerance(book, "insert.minor_tolerance", thread, grade=5)
    book.add("insert.tapped_minor_max", internal_limit, least="insert.tapped_minor", tolerance="insert.minor_tolerance")
    enter_drill(book, "insert", system)
    _lengths(book, tap, standard)


def add_tapped(book: Book, thread: Thread) -> None:
    """Add the diameters of the hole that is tapped for the insert."""
    book.enter("insert.nominal", thread.nominal, "mm", listed_status(thread), thread_source(thread))
    book.enter("insert.pitch", thread.pitch, "mm", listed_status(thread), thread_source(thread))
    for name, relation in (
        ("major", tapped_major),
        ("pitch_diameter", tapped_pitch_diameter),
        ("minor", tapped_minor),
    ):
        book.add(f"insert.tapped_{name}", relation, nominal="insert.nominal", pitch="insert.pitch")


def _lengths(book: Book, tap: str, standard: str) -> None:
    (turns, _, set_down_source), (beyond, tap_source) = SET_DOWN[standard], TAPS[tap]
    book.enter("insert.set_down_turns", turns, "1", "published", set_down_source)
    book.enter("insert.drill_turns", beyond, "1", "published", tap_source)
    length, pitch = "insert.nominal_length", "insert.pitch"
    book.add("insert.set_down", set_down, pitch=pitch, turns="insert.set_down_turns")
    book.add("insert.installed_length", installed_length, nominal_length=length, pitch=pitch)
    book.add("insert.full_thread_depth", full_thread_depth, nominal_length=length, pitch=pitch)
    book.add("insert.drill_depth", drill_depth, nominal_length=length, pitch=pitch, turns="insert.drill_turns")

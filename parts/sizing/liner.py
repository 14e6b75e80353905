"""A liner in the barrel: its wall and how tight it stays, hot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import liner as relation
from parts.relations.press import least_growth
from parts.sizing.materials import enter_material
from parts.sizing.press import hot_states

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

OUTSIDE = "job.barrel.liner.outside"


def size_liner(book: Book, job: Job) -> None:
    """Add the liner's sizes."""
    if job.barrel is None or job.barrel.liner is None:
        return
    enter_material(book, "liner", job.barrel.liner.material, table="barrel.liner")
    book.add("liner.wall", relation.wall, outside=OUTSIDE, bore="job.engine.bore")
    both = {"outside": OUTSIDE, "liner": "liner.expansion", "barrel": "barrel.expansion"}
    states = hot_states(book) or ["hot"]
    for state in states:
        book.add(f"liner.growth_{state}", relation.growth, **both, temperature=f"job.engine.{state}.barrel")
    book.add("liner.growth_least", least_growth, **{state: f"liner.growth_{state}" for state in states})
    cold = "job.barrel.liner.interference"
    book.add("liner.interference_hot", relation.interference_hot, cold=cold, growth="liner.growth_least")

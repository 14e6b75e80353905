"""The old holes themselves: what metal lies between them and bore, edge, each other and passages, and below them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import deck as relation
from parts.relations import fills
from parts.sizing.deck import bore_in, old_diameters, others, to_edge, to_nearest
from parts.sizing.scenes import by_old_hole

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def size_old_holes(book: Book, job: Job) -> None:
    """Add the metal round each old hole."""
    olds = old_diameters(book, job)
    near = others(job, 0, 0, olds)
    for number, wide in enumerate(olds, 1):
        name = f"deck.old.{number}"
        book.add(f"{name}.to_bore", relation.metal_to_bore, radius=f"{name}.radius", bore=bore_in(book), diameter=wide)
        to_edge(book, job, name, wide)
        to_nearest(book, name, "next", [c for n, c in enumerate(near["old"], 1) if n != number], wide)
        to_nearest(book, name, "passage", near["passage"], wide)
    _below(book, job)


def _below(book: Book, job: Job) -> None:
    """Add the metal below each old hole, by the depth of its own table."""
    depths = {"deck_depth": "job.barrel.deck_depth", "skim": "job.barrel.skim"}
    for number, view, _ in by_old_hole(book, job):
        deep = view.real("job.barrel.old_holes.depth")
        book.add(f"deck.old.{number}.floor", fills.below_old_hole, **depths, depth=deep)

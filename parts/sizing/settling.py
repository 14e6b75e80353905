"""What is left of the preload after the first run, and after the cold re-torque: embedding, creep, heat and frost."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import settling as relation
from parts.relations.stud import least_of
from parts.sizing.stud import hole_of
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

LATER = 0.25  # of embedding and creep, that comes after the re-torque: common practice, no source
THREADS, BEARINGS = 2.0, 2.0  # nut and tap end; under the nut and under the washer
CREEPS = {  # part -> words in the name of its material -> least and greatest share of its load that creep takes
    "gasket": ((("copper",), 0.02, 0.05), (("alumin",), 0.05, 0.15), ((), 0.1, 0.3)),
    "head": ((("GJL", "GJS", "iron", "steel"), 0.0, 0.02), ((), 0.02, 0.05)),
}
"""the last of each is what is not known as another: the worst that it could be"""
SOURCE = f"first run, at 150 to 200 degC: {PRACTICE}"


def size_losses(book: Book, job: Job) -> None:
    """Add what embedding and creep take, and the least preload of any state."""
    _embedding(book)
    for part, table in (("gasket", job.gasket), ("head", job.head)):
        if part == "gasket" and table is None:
            book.enter("gasket.creep_most", 0.0, "1", "assumed", "no gasket given")
            continue
        _creep(book, part, table.material.name if table and table.material else "")
    least, creep = {"least": "joint.least_preload"}, {"gasket": "gasket.creep_most", "head": "head.creep_most"}
    book.add("joint.creep_loss", relation.creep_loss, **creep, preload="joint.least_preload", rise="hot.run_in.rise")
    book.add("hot.least_with_frost", least_of, first="hot.least_rise", second="hot.cold_start.rise")
    book.enter("joint.loss_to_come", LATER, "1", "assumed", f"part that comes after the cold re-torque: {PRACTICE}")
    losses = {"embedding": "joint.embedding_loss", "creep": "joint.creep_loss"}
    later = {}
    for loss, name in losses.items():
        later[loss] = f"{name}_later"
        book.add(later[loss], relation.still_to_come, loss=name, share="joint.loss_to_come")
    book.add("joint.first_run_preload", relation.preload_left, **least, **losses, rise="hot.least_rise")
    book.add("joint.later_preload", relation.preload_left, **least, **later, rise="hot.least_with_frost")
    book.add("joint.lowest_preload", relation.lower, first="joint.first_run_preload", later="joint.later_preload")


def _embedding(book: Book) -> None:
    threads = THREADS + (hole_of(book) == "insert")
    layers = "job.gasket.thickness"
    inner = 1.0 + (book[layers].value > 0) if layers in book else 2.0
    book.add("joint.embedded", relation.embedded, threads=threads, bearings=BEARINGS, inner=inner)
    springs = {"stud_stiffness": "stud.stiffness", "clamped_stiffness": "joint.clamped_stiffness"}
    book.add("joint.embedding_loss", relation.embedding_loss, depth="joint.embedded", **springs)


def _creep(book: Book, part: str, material: str) -> None:
    words, least, most = next(row for row in CREEPS[part] if not row[0] or any(w in material for w in row[0]))
    told = f"{words[0] if words else 'the worst that it could be'}, {SOURCE}"
    for name, share in (("least", least), ("most", most)):
        book.enter(f"{part}.creep_{name}", share, "1", "memory", told)

"""What is left of the preload after the first run, and after the cold re-torque: embedding, creep, heat and frost."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.relations import settling as relation
from parts.relations.stud import least_of
from parts.sizing.materials import metals, unnamed
from parts.sizing.stud import hole_of
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.material_models import MaterialSpec

LATER = 0.25  # of embedding and creep, that comes after the re-torque: common practice, no source
THREADS, BEARINGS = 2.0, 2.0  # nut and tap end; under the nut and under the washer
SOURCE = f"first run, at 150 to 200 degC: {PRACTICE}"


def size_losses(book: Book, job: Job) -> None:
    """Add what embedding and creep take, and the least preload of any state."""
    _embedding(book)
    for part, table in (("gasket", job.gasket), ("head", job.head)):
        if part == "gasket" and table is None:
            book.enter("gasket.creep_most", 0.0, "1", "assumed", "no gasket given")
            continue
        _creep(book, part, table.material if table else None)
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


def _creep(book: Book, part: str, spec: MaterialSpec | None) -> None:
    """Enter what creep takes of the load of gasket or head: of all metals that it could be the one that creeps most."""
    most = max(metals(spec), key=lambda family: tables.family_figure(family, f"{part}_creep_most"))
    which, status = ("the worst that it could be", "assumed") if unnamed(spec) else (most, "memory")
    for end in ("least", "most"):
        share = tables.family_figure(most, f"{part}_creep_{end}")
        book.enter(f"{part}.creep_{end}", share, "1", status, f"{which}, {SOURCE}")

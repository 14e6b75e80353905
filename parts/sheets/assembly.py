"""The assembly: everything in its place on the deck, as STEP, and exploded as a picture."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.shapes.assembly import assembly_shape

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from parts.book import Book
    from parts.findings import Finding
    from parts.job import Job

    Written = list[tuple[Path, str]]


def assembly_sheets(
    book: Book, job: Job, _found: Sequence[Finding], shapes: Mapping[str, Any], _solids: object, folder: Path
) -> Written:
    """Write assembly.step and assembly.preview.png; nothing where there is no deck to put the parts on."""
    bodies = assembly_shape(book, job, shapes)
    if not bodies:
        return []
    from parts.builders.assembly import build
    from parts.pictures import write_exploded
    from parts.writers import step
    from parts.writers.step_assembly import Placed, write_assembly

    built = build(bodies)
    placed = [
        Placed(body.name, body.name.partition(" ")[0], solid, getattr(step, body.color), body.place)
        for body, solid in built
    ]
    path, picture = folder / "assembly.step", folder / "assembly.preview.png"
    write_assembly(placed, f"assembly, {job.job.title}", path)
    write_exploded(built, picture)
    return [(path, "assembly"), (picture, "picture")]

"""The parts that topend makes. A part is one row here: verbs, `--only`, files and the job's tables come from it."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING, Any

from parts.errors import Fault, JobError
from parts.shapes.gasket import gasket_shape
from parts.shapes.mandrel import mandrel_shape
from parts.shapes.plug import plug_shape
from parts.shapes.ring import blank_shape, split_shape
from parts.shapes.stud import stud_shape
from parts.shapes.threaded_stud import threaded_stud

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from parts.book import Book
    from parts.job import Job


@dataclass(frozen=True, slots=True)
class Part:
    """One part."""

    stem: str
    """of its files, and its name on the command line"""
    title: str
    table: str
    """of the job file: the part is asked for where it stands"""
    needs: tuple[str, ...]
    """sizes without which it can't be made"""
    shape: Callable[[Book, Job], Any]
    """refuses with JobError what can't be made"""
    build: str
    """module:function that turns the shape into a solid"""
    color: str
    """name of a colour of the STEP writer"""
    outlines: str | None = None
    """module:function that writes the part's flat outlines, beside STEP and STL"""
    drawing: str | None = None
    """module:function that writes the part's drawing, as DXF, SVG and PDF"""
    detailed: tuple[Callable[[Any], Any], str] | None = None
    """of a part with threads: what gives it true ones, refusing with JobError what can't have them, and module:function
    that builds that"""
    shows: tuple[str, ...] = ()
    """what its files show besides its own table: other tables of the job, or beginnings of sizes' names"""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet about the whole job, as far as it is made without the kernel."""

    stem: str
    write: str
    """module:function, called as f(book, job, findings, folder); it writes nothing where the job has no use for it"""
    part: str
    """under which the manifest lists it"""
    shows: tuple[str, ...]
    """what it shows, as of a part"""


THREADS = ("simplified", "detailed")
ALSO = {"stud": ("turning",)}
"""other tables of the book that are about a part"""

PARTS = {
    part.stem: part
    for part in (
        Part(
            "stepped-stud",
            "stepped stud",
            "stud",
            ("stud.length", "stud.shank_length", "stud.shank_diameter", "stud.nut_end_lead_in", "stud.tap_end_lead_in"),
            stud_shape,
            "parts.builders.turned:turned",
            "STEEL",
            drawing="parts.sheets.drawing.stud:stud_drawing",
            detailed=(threaded_stud, "parts.builders.threads:threaded"),
            shows=("deck.hole", "lathe"),
        ),
        Part(
            "blanking-plug",
            "blanking plug",
            "plug",
            ("plug.diameter", "plug.length"),
            plug_shape,
            "parts.builders.turned:turned",
            "STEEL",
            drawing="parts.sheets.drawing.plug:plug_drawing",
        ),
        Part(
            "ring-blank",
            "ring blank",
            "ring",
            ("ring.outside_diameter", "ring.inside_diameter"),
            blank_shape,
            "parts.builders.turned:turned",
            "IRON",
            drawing="parts.sheets.drawing.ring:ring_drawing",
            shows=("engine.bore",),
        ),
        Part(
            "ring-split",
            "split ring, closed",
            "ring",
            ("ring.closed_gap", "ring.outside_diameter"),
            split_shape,
            "parts.builders.flat:flat",
            "IRON",
        ),
        Part(
            "head-gasket",
            "head gasket",
            "gasket",
            ("gasket.area",),
            gasket_shape,
            "parts.builders.flat:flat",
            "COPPER",
            "parts.sheets.outlines:gasket_outlines",
            shows=("deck.hole", "barrel"),
        ),
        Part(
            "expander-mandrel",
            "expander mandrel",
            "mandrel",
            ("mandrel.open_gap", "mandrel.flange_diameter", "ring.free_gap"),
            mandrel_shape,
            "parts.builders.mandrel:build",
            "STEEL",
            "parts.sheets.outlines:mandrel_outlines",
            "parts.sheets.drawing.mandrel:mandrel_drawing",
        ),
    )
}

SHEETS = (
    Sheet(
        "deck-template",
        "parts.sheets.templates:deck_template",
        "job",
        ("barrel", "deck", "insert", "tapped", "engine.bore"),
    ),
    Sheet(
        "ring-pressure",
        "parts.sheets.ring_plot:ring_pressure",
        "ring-pressure",
        ("ring", "mandrel", "engine.bore"),
    ),
)


def load(place: str) -> Callable[..., Any]:
    """Import `module:function`, only when it is called for."""
    module, _, name = place.partition(":")
    return getattr(import_module(module), name)  # type: ignore[no-any-return]


def asked_for(job: Job, only: Iterable[str] = (), flag: str = "--only") -> list[Part]:
    """Parts whose table the job has; of those, the ones named, if any are.

    JobError where a name is no part, or its table is missing.
    """
    names = list(only)
    for name in names:
        if name not in PARTS:
            raise JobError(Fault(flag, f"{name!r} is no part; the parts are {', '.join(PARTS)}"))
        if getattr(job, PARTS[name].table) is None:
            raise JobError(Fault(flag, f"{name!r} is not in this job: it has no [{PARTS[name].table}]"))
    return [p for p in PARTS.values() if getattr(job, p.table) is not None and (not names or p.stem in names)]


def shapes(parts: Iterable[Part], book: Book, job: Job) -> dict[str, Any]:
    """Shape of each part by its stem; every refusal told at once.

    JobError for sizes that are missing and for shapes that can't be.
    """
    found: dict[str, Any] = {}
    faults: list[Fault] = []
    for part in parts:
        lacking = lacks(part, book)
        if lacking:
            faults.append(Fault(part.table, f"the {part.title} can't be made without {', '.join(lacking)}"))
            continue
        try:
            found[part.stem] = part.shape(book, job)
        except JobError as error:
            faults += [Fault(f.key or part.table, f.says, f.line) for f in error.faults]
    if faults:
        raise JobError(*dict.fromkeys(faults))
    return found


def to_build(parts: Iterable[Part], shaped: dict[str, Any], threads: str) -> dict[str, tuple[Any, str]]:
    """What each part's solid is built from, and module:function that builds it, by its stem.

    JobError for threads that can't be made in full, every one told at once.
    """
    if threads not in THREADS:
        raise JobError(Fault("--threads", f"wants {' or '.join(THREADS)}, not {threads!r}"))
    found: dict[str, tuple[Any, str]] = {}
    faults: list[Fault] = []
    for part in parts:
        found[part.stem] = (shaped[part.stem], part.build)
        if threads == "detailed" and part.detailed:
            detail, build = part.detailed
            try:
                found[part.stem] = (detail(shaped[part.stem]), build)
            except JobError as error:
                faults += error.faults
    if faults:
        raise JobError(*faults)
    return found


def lacks(part: Part, book: Book) -> list[str]:
    """What the user would have to give so that a part can be made, as keys of the job file."""
    roots = (root for need in part.needs if need not in book for root in (book.needs(need) or [need]))
    return list(dict.fromkeys(root.removeprefix("job.") for root in roots))


def about(part: Part, name: str) -> bool:
    """Tell whether a size or a finding, by its name, is about a part."""
    return name.removeprefix("job.").partition(".")[0] in (part.table, *ALSO.get(part.table, ()))

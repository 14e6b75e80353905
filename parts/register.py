"""The parts that topend makes: a name and a row each. Verbs, `--only`, files, sheets and tests read them from here.

A part's modules bear the name of its table in the job file, `parts/sizing/clamp_plate.py` for `[clamp_plate]`, and so
in relations, shapes, sheets/drawing and sheets/page; its shape is a function named for its files' stem. They are
loaded when they are called for.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from importlib import import_module
from typing import TYPE_CHECKING, Any

from parts.errors import Fault, JobError
from parts.fixtures import FIXTURES, RING, stem_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from parts.book import Book
    from parts.job import Job
    from parts.job.instances import Instance


@dataclass(frozen=True, slots=True)
class Verb:
    """How a part is made from flags alone."""

    example: str
    keys: Mapping[str, tuple[str, ...]]
    """other tables than the part's own -> keys of them that become flags; none: all"""


@dataclass(frozen=True, slots=True)
class Part:
    """One part."""

    stem: str
    """of its files, and its name behind `--only`"""
    title: str
    table: str
    """of the job file: the part is asked for where it stands; the name of its modules"""
    color: str
    """name of a colour of the STEP writer"""
    needs: tuple[str, ...]
    """sizes without which it can't be made"""
    kind: str = ""
    """of instance that there may be several of, each with this part of its own; empty: there is one"""
    verb: Verb | None = None
    """None: made with the part of the same table that has one"""
    drawn: bool = True
    """has a dimensioned drawing, as DXF, SVG and PDF"""
    outlined: bool = False
    """has flat outlines to cut by, beside STEP and STL"""
    threaded: bool = False
    """can be built with true threads, by shapes/threaded_<table>.py, which refuses with JobError those that can't be"""
    also: tuple[str, ...] = ()
    """other tables of the book that are about it"""
    shows: tuple[str, ...] = ()
    """what its files show besides its own table: other tables of the job, or beginnings of sizes' names; * is any"""

    def shape(self, book: Book, job: Job) -> Any:  # noqa: ANN401 - of the part's own kind
        """Return the part as plain numbers; JobError for what can't be made."""
        return load(f"parts.shapes.{self.table}:{self.stem.replace('-', '_')}")(book, job)

    def detailed(self, shape: Any) -> Any:  # noqa: ANN401
        """Return its shape with true threads."""
        name = f"threaded_{self.table}"
        return load(f"parts.shapes.{name}:{name}")(shape)

    @property
    def drawing(self) -> str | None:
        """module:function that says what stands on the part's drawing."""
        return f"parts.sheets.drawing.{self.table}:{self.table}_content" if self.drawn else None

    @property
    def outlines(self) -> str | None:
        """module:function that writes the part's flat outlines."""
        return f"parts.sheets.outlines:{self.table}_outlines" if self.outlined else None


@dataclass(frozen=True, slots=True)
class Overview:
    """One sheet about the whole job, as far as it is made without the kernel."""

    stem: str
    write: str
    """module:function, called as f(book, job, findings, folder); it writes nothing where the job has no use for it"""
    part: str
    """under which the manifest lists it"""
    shows: tuple[str, ...]
    """what it shows, as of a part"""
    kind: str = ""
    """of instance that each has one of; empty: there is one"""


def fixture(table: str) -> Part:
    """Row of a fixture, by its record."""
    one = FIXTURES[table]
    needs = tuple(f"{table}.{need}" for need in one.needs)
    title, verb = table.replace("_", " "), Verb(one.example, one.keys)
    shows = (*one.beside, "deck.hole.*.x", "deck.hole.*.y")
    return Part(stem_of(table), title, table, "STEEL", needs, one.kind, verb, shows=shows)


THREADS = ("simplified", "detailed")
ASSEMBLY = "assembly"  # its name among the parts

PARTS = {
    part.stem: part
    for part in (
        Part(
            "stepped-stud",
            "stepped stud",
            "stud",
            "STEEL",
            ("stud.length", "stud.shank_length", "stud.shank_diameter", "stud.nut_end_lead_in", "stud.tap_end_lead_in"),
            kind="stud",
            verb=Verb(
                '--tap-end M10x1.5 --nut-end M8x1.25 --insert-length "1.5 d" --head-thickness "46 mm" '
                '--gasket-thickness "1.2 mm"',
                {
                    "head": ("thickness", "hole_diameter"),
                    "gasket": ("thickness", "hole_clearance"),
                    "barrel": ("material",),
                },
            ),
            threaded=True,
            also=("turning",),
            shows=("deck.hole.*.x", "lathe"),
        ),
        Part(
            "blanking-plug",
            "blanking plug",
            "plug",
            "STEEL",
            ("plug.diameter", "plug.length"),
            kind="plug",
            verb=Verb('--hole "8.50 mm" --fit bonded --length "12 mm"', {"engine": ("bore", "peak_pressure")}),
        ),
        Part(
            "ring-blank",
            "ring blank",
            "ring",
            "IRON",
            ("ring.outside_diameter", "ring.inside_diameter"),
            kind="ring",
            verb=Verb(
                '--engine-bore "57.20 mm" --axial-width "2.38 mm" --radial-thickness "2.40 mm" '
                '--material "ring iron, grey" --free-gap "8.58 mm" --closed-gap "0.20 mm" --slit "0.50 mm"',
                {"engine": ("bore",)},
            ),
            shows=("engine.bore",),
        ),
        Part(
            "ring-split",
            "split ring, closed",
            "ring",
            "IRON",
            ("ring.closed_gap", "ring.outside_diameter"),
            kind="ring",
            drawn=False,  # on the blank's drawing
        ),
        Part(
            "head-gasket",
            "head gasket",
            "gasket",
            "COPPER",
            ("gasket.area", "job.gasket.thickness"),
            verb=Verb(
                '--thickness "1.2 mm" --engine-bore "57.2 mm" --hole "8.5 mm" --outline bosses --land "8 mm" '
                '--head-holes \'{ rectangle = ["60 mm", "58 mm"] }\'',
                {
                    "engine": ("bore",),
                    "stud": ("tap_end", "nut_end"),
                    "head": ("holes",),
                    "barrel": ("material", "outline"),
                },
            ),
            drawn=False,  # its DXF is the cutter's
            outlined=True,
            shows=("deck.hole.*.x", "deck.hole.*.y", "barrel"),
        ),
        Part(
            "expander-mandrel",
            "expander mandrel",
            "mandrel",
            "STEEL",
            ("mandrel.open_gap", "mandrel.flange_diameter", "ring.free_gap"),
            kind="ring",
            verb=Verb(
                f"--form pin {RING}",
                {"ring": (), "engine": ("bore",)},
            ),
            outlined=True,
        ),
        *map(fixture, FIXTURES),
        Part(
            "stud-holder",
            "split holder for a stud",
            "stud_gauge",
            "STEEL",
            ("stud_gauge.holder_outside", "stud_gauge.holder_length"),
            kind="stud",
            drawn=False,  # on the gauge's drawing
        ),
    )
}

SHEETS = (
    Overview(
        "deck-template",
        "parts.sheets.templates:deck_template",
        "job",
        ("barrel", "deck", "insert", "tapped", "engine.bore"),
    ),
    Overview(
        "ring-pressure",
        "parts.sheets.ring_plot:ring_pressure",
        "ring-pressure",
        ("ring", "mandrel", "engine.bore"),
        kind="ring",
    ),
)


def load(place: str) -> Callable[..., Any]:
    """Import `module:function`, only when it is called for."""
    module, _, name = place.partition(":")
    return getattr(import_module(module), name)  # type: ignore[no-any-return]


def verbs() -> dict[str, Part]:
    """Verb of the command line -> the part whose row it stands in."""
    return {part.table.replace("_", "-"): part for part in PARTS.values() if part.verb}


def tables() -> list[str]:
    """Tables of the job file about parts, in the order of the register."""
    return list(dict.fromkeys(part.table for part in PARTS.values()))


def wanted(raw: Mapping[str, Any]) -> tuple[str, ...]:
    """Stems of the parts that the data of a job file asks for, whether they are complete or not."""
    return tuple(stem for stem, part in PARTS.items() if part.table in raw)


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a job: the one of its kind, or one of several, by its name."""

    part: Part
    instance: Instance | None = None

    @property
    def stem(self) -> str:
        """Of its files."""
        return self.part.stem + (self.instance.suffix if self.instance else "")

    @property
    def title(self) -> str:
        """In words."""
        return f"{self.part.title}, {self.instance.name}" if self.instance and self.instance.name else self.part.title

    def book(self, book: Book) -> Book:
        """The book as this piece sees it."""
        return book.at(self.instance) if self.instance else book

    def job(self, job: Job) -> Job:
        """The job as this piece sees it."""
        return job.at(self.instance) if self.instance else job

    def about(self, name: str) -> bool:
        """Tell whether a size or a finding, by its name in the whole book, is about this piece."""
        local = self.instance.local(name) if self.instance else name
        mine = not self.instance or not self.instance.name or local != name
        return mine and local.removeprefix("job.").partition(".")[0] in (self.part.table, *self.part.also)


def pieces(job: Job) -> list[Piece]:
    """Every part that the job asks for, each as often as it stands there."""
    found: list[Piece] = []
    for part in PARTS.values():
        if part.kind:
            found += [Piece(part, one) for one in job.instances(part.kind) if part.table in one.tables]
        elif getattr(job, part.table) is not None:
            found.append(Piece(part))
    return found


def asked_for(job: Job, only: Iterable[str] = (), flag: str = "--only") -> list[Piece]:
    """Parts that the job asks for; of those, the ones named by a stem, if any are.

    JobError where a name is no part, or its table is missing.
    """
    names, there = list(only), pieces(job)
    stems = {piece.stem for piece in there}
    for name in names:
        if name in PARTS and not any(piece.part.stem == name for piece in there):
            raise JobError(Fault(flag, f"{name!r} is not in this job: it has no [{PARTS[name].table}]"))
        if name not in PARTS and name not in stems:
            raise JobError(
                Fault(flag, f"{name!r} is no part; the parts are {', '.join(dict.fromkeys((*PARTS, *stems)))}")
            )
    return [piece for piece in there if not names or not {piece.stem, piece.part.stem}.isdisjoint(names)]


def shapes(wanted: Iterable[Piece], book: Book, job: Job) -> dict[str, Any]:
    """Shape of each part by its stem; every refusal told at once.

    JobError for sizes that are missing and for shapes that can't be.
    """
    from parts.job.schema import in_workshop_words

    found: dict[str, Any] = {}
    faults: list[Fault] = []
    for piece in wanted:
        own, table = piece.book(book), _key(piece, (piece.part.table,))
        lacking = lacks(piece.part, own)
        if lacking:
            faults.append(
                Fault(table, f"the {piece.title} can't be made without {', '.join(map(in_workshop_words, lacking))}")
            )
            continue
        try:
            step = partial(piece.part.shape, own, own.watch(piece.job(job)))
            found[piece.stem] = own.work(("shape", piece.stem), step)
        except JobError as error:
            faults += [
                Fault(_key(piece, tuple(f.key.split("."))) if f.key else table, f.says, f.line) for f in error.faults
            ]
    if faults:
        raise JobError(*dict.fromkeys(faults))
    return found


def _key(piece: Piece, path: tuple[str | int, ...]) -> str:
    """A key by its place in the file."""
    return ".".join(map(str, piece.instance.path(path) if piece.instance else path))


def to_build(wanted: Iterable[Piece], shaped: dict[str, Any], threads: str) -> dict[str, Any]:
    """What each part's solid is built from, by its stem.

    JobError for threads that can't be made in full, every one told at once.
    """
    if threads not in THREADS:
        raise JobError(Fault("--threads", f"wants {' or '.join(THREADS)}, not {threads!r}"))
    found: dict[str, Any] = {}
    faults: list[Fault] = []
    for piece in wanted:
        try:
            found[piece.stem] = detailed(piece.part, shaped[piece.stem], threads)
        except JobError as error:
            faults += [Fault(_key(piece, tuple(f.key.split("."))), f.says, f.line) for f in error.faults]
    if faults:
        raise JobError(*faults)
    return found


def detailed(part: Part, shape: Any, threads: str) -> Any:  # noqa: ANN401
    """Return a part's shape, with true threads where they are asked for and it has any."""
    return part.detailed(shape) if threads == "detailed" and part.threaded else shape


def lacks(part: Part, book: Book) -> list[str]:
    """What the user would have to give so that a part can be made, as keys of the job file."""
    roots = (root for need in part.needs if need not in book for root in (book.needs(need) or [need]))
    return list(dict.fromkeys(root.removeprefix("job.") for root in roots))

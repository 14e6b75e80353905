"""The job sheet: one page for the bench, in one file, with no request to anywhere.

Everything it shows stands in the file itself, its scripts and styles are named by their hashes in its own policy, and
it works from a disk without a network. What the user wrote is text: the template escapes it.
"""

from __future__ import annotations

import hashlib
import json
from base64 import b64encode
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from parts import __version__, register
from parts.job.part_models import FACING
from parts.judging.lacking import lacking
from parts.judging.matters import by_matter
from parts.sheets.page.marks import KINDS
from parts.sheets.page.places import coordinates, grooves, machine_scales, other_zeros, over_pins, seats
from parts.sheets.page.plan import deck_plan, legend, mark_legend
from parts.sheets.page.step import of_one
from parts.sheets.page.stock import GRIP, SHELVES, for_these, together
from parts.sheets.page.story import not_covered, story
from parts.sheets.page.tighten import tightening
from parts.sheets.page.words import Words, pretty
from parts.unknowns.words import told

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from parts.book import Book, Entry
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.sheets.page.places import PageTable
    from parts.sheets.page.step import Step
    from parts.sheets.page.stock import Item
    from parts.unknowns.unknown import Unknown

    Written = list[tuple[Path, str]]
    Made = list[tuple[Words, list[Any]]]

HERE = Path(__file__).parent
ORDER = ("stop", "caution", "ok")
PRESSURES = {
    "ring.contact_pressure": "mean pressure on the wall",
    "ring.pressure_ratio_back": "pressure at the back, over the mean",
    "ring.pressure_ratio_least": "least pressure over 10 degrees, over the mean",
    "ring.tip_force": "force of each tip",
    "ring.light_gap": "widest light gap in a true bore",
}
GUESSED = ("designed", "assumed", "memory")


def job_page(
    book: Book,
    job: Job,
    found: Sequence[Finding],
    shapes: Mapping[str, Any],
    data: dict[str, Any],
    folder: Path,
    unknowns: Sequence[Unknown] = (),
) -> Written:
    """Write index.html; it shows the models and pictures, and lists the files that stand in the folder so far."""
    words = Words(book.plan or book, job)  # what is wanted stands beside what was measured
    path = folder / "index.html"
    text = page(words, found, shapes, data, folder, unknowns)
    path.write_bytes(text.encode("utf-8"))
    return [(path, "job sheet")]


def steps(words: Words) -> list[Step]:
    """The whole order of work."""
    found = [of_one(step, own) for _, made in _all("steps", words) for own, some in made for step in some if step]
    return sorted(found, key=lambda step: step.turn)


def stock(words: Words) -> list[Item]:
    """Bar and sheet, with parting, facing and what the chuck holds."""
    found = [
        for_these(item, kind, own.name) for kind, made in _all("stock", words) for own, some in made for item in some
    ]
    return sorted(found, key=lambda item: SHELVES.index(item.shelf))


def tools(words: Words) -> list[Item]:
    """What the steps take beside the stock, each once; fasteners first named where they are screwed on."""
    needs: dict[str, Made] = {}
    for kind, made in _all("steps", words):
        needs.setdefault(kind, []).extend((own, [i for step in some if step for i in step.needs]) for own, some in made)
    for kind, made in _all("tools", words):
        needs.setdefault(kind, []).extend(made)
    return list(dict.fromkeys(item for kind, made in needs.items() for item in together(made, kind)))


def _all(what: str, words: Words) -> Iterator[tuple[str, Made]]:
    """Steps, stock or fasteners of castings, parts and joint: kind of each, and what it gives for each of its kind."""
    kinds = {part.table: part.kind for part in register.PARTS.values()}
    for name in ("deck", *register.tables(), "joint"):
        make, kind = getattr(import_module(f"{__name__}.{name}"), what, None), kinds.get(name, "")
        if make is not None:
            yield kind, [(own, list(make(own))) for own in words.each(kind)]


def cared(work: Sequence[Step]) -> dict[tuple[str, str], str]:
    """What stands of each caution at each step, by their keys: in full where it first binds, then a reminder of it."""
    found, first = dict[tuple[str, str], str](), dict[str, int]()
    for number, step in enumerate(work, 1):
        for caution in step.cautions:
            known = first.setdefault(caution.about, number)
            short = f"{caution.again} In full at step {known}."
            found[step.key, caution.about] = caution.says if known == number else short
    return found


def page(
    words: Words,
    found: Sequence[Finding],
    shapes: Mapping[str, Any],
    data: dict[str, Any],
    folder: Path,
    unknowns: Sequence[Unknown] = (),
) -> str:
    """Return the page's text."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    styles, script, viewer = (
        (HERE / name).read_text(encoding="utf-8") for name in ("page.css", "page.js", "viewer.js")
    )
    if any(map(words.job.listed, KINDS)):
        styles += (HERE / "several.css").read_text(encoding="utf-8")
    environment = Environment(
        loader=FileSystemLoader(HERE), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters["pretty"] = pretty
    environment.filters["dotted"] = lambda name: Markup(".<wbr>").join(name.split("."))
    return environment.get_template("page.html.j2").render(
        version=__version__,
        words=words,
        title=words.job.job.title,
        keep="topend " + hashlib.sha256(words.job.job.title.encode()).hexdigest()[:12],
        policy=_policy(styles, script, viewer),
        styles=Markup(styles),  # noqa: S704 - our own files
        scripts=(Markup(viewer), Markup(script)),  # noqa: S704
        models=Markup(_inside_script(data)),  # noqa: S704 - every < is written as an escape
        story=story(words),
        not_covered=not_covered(words),
        findings={verdict: list(by_matter(f for f in found if f.verdict == verdict)) for verdict in ORDER},
        unknowns=told(words.job, unknowns),
        plan=deck_plan(words, shapes.get("head-gasket")),
        legend=legend(words, shapes),
        marks=mark_legend(words),
        tables=_tables(words),
        tightening=tightening(words),
        stock=(bought := stock(words)),
        bars=any(item.what.startswith("bar") for item in bought),
        facing=FACING,
        grip=GRIP,
        tools=tools(words),
        steps=(work := steps(words)),
        cared=cared(work),
        pressed=_pressures(words, folder),
        views=[{**view, "picture": _preview(folder, view["id"])} for view in data["views"]],
        guessed={s: _of_status(words.book, s) for s in GUESSED},
        lacking=lacking({name: words.book.needs(name) for name in words.book.left_out}),
        sources=_sources(words),
        files=_files(folder, words.book),
    )


def _tables(words: Words) -> list[PageTable]:
    found = (
        coordinates(words),
        grooves(words),
        machine_scales(words),
        *other_zeros(words),
        over_pins(words),
        *seats(words),
    )
    return [table for table in found if table]


def _pressures(words: Words, folder: Path) -> list[tuple[Words, str, list[tuple[str, str]]]]:
    """Of each ring, how it presses: a picture, and sizes with what they are."""
    found = []
    for own in words.each("ring"):
        picture = _picture(folder / "parts" / f"ring-pressure{own.book.suffix}.svg", "image/svg+xml")
        found.append((own, picture, [(says, name) for name, says in PRESSURES.items() if own.has(name)]))
    return [one for one in found if one[1] or one[2]]


def _policy(styles: str, *scripts: str) -> str:
    """Content policy: nothing from anywhere, but these very styles and scripts, and notes to where the page came from."""
    run = " ".join(_hash(script) for script in scripts)
    return (
        f"default-src 'none'; script-src {run}; style-src {_hash(styles)}; img-src data:; connect-src 'self'; "
        "base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def _inside_script(data: object) -> str:
    """JSON that can't end the element it stands in."""
    return json.dumps(data, separators=(",", ":"), allow_nan=False).replace("<", "\\u003c").replace("&", "\\u0026")


def _preview(folder: Path, name: str) -> str:
    place = folder if name == "assembly" else folder / "parts"
    return _picture(place / f"{name}.preview.png", "image/png")


def _picture(path: Path, kind: str) -> str:
    """A picture as part of the page, empty where it was not made."""
    return f"data:{kind};base64,{b64encode(path.read_bytes()).decode()}" if path.is_file() else ""


def _sources(words: Words) -> list[tuple[str, int]]:
    """Every source once, with how many sizes lean on it, the most used first."""
    counts: dict[str, int] = {}
    for name, entry in words.book.items():
        if not name.startswith("job."):
            counts[entry.source] = counts.get(entry.source, 0) + 1
    return sorted(counts.items(), key=lambda item: (-item[1], item[0]))


def _of_status(book: Book, status: str) -> list[tuple[str, Entry]]:
    """Entries of a status; of what was designed the keys alone."""
    return [(n, e) for n, e in book.items() if e.status == status and (status != "designed" or n.startswith("job."))]


def _files(folder: Path, book: Book) -> list[str]:
    made = [p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file() and p.suffix != ".png"]
    machine = {"machine-coordinates.csv"} if "measured.machine.turn" in book else set[str]()
    return sorted({*made, *machine, "coordinates.csv", "findings.json", "sizes.json", "job.toml"})

"""The stepped stud's drawing: tap end on the left, the deck face as the datum it is set to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.limits import EDGES
from parts.sheets.drawing import turned
from parts.sheets.drawing.compose import Content
from parts.sheets.drawing.furniture import Grid
from parts.sheets.drawing.items import Across, Item, Plane, Pointer
from parts.sheets.drawing.view import View
from parts.sheets.drawing.words import TURNED, Figures, cautions, figures, material_name, named, thread_name
from parts.sheets.page.facts import middle
from parts.sheets.page.stud import TRIAL
from parts.sheets.page.words import listed

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.profile import Profile
    from parts.job import Job
    from parts.job.part_models import Stud
    from parts.judging.finding import Finding
    from parts.sheets.drawing.pen import Pen

ENDS = ("tap_end", "nut_end")
CENTRES = (1.0, 1.6, 2.0, 2.5, 3.15, 4.0)
"""mm, of centre holes: ISO 6411, type A (memory)"""


def stud_content(shape: Profile, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    if job.stud is None:
        raise AssertionError("asked for a stud that was not sized")
    say, count = figures(job), len(book.numbers("deck.hole"))
    return Content(
        named("Stepped stud", book),
        f"stepped-stud{book.suffix}",
        material_name(job.stud),
        f"{count}, and {TRIAL} to try" if count else "as needed",
        [_view(shape, book, job.stud, say)],
        [*_notes(book, job, say), *cautions(found)],
        [_threads(book, job.stud, say)],
        wide=True,
    )


def _places(book: Book) -> dict[str, float]:
    """Heights over the deck face [mm]."""
    top, bottom = book["stud.projection"].value, -book["stud.tap_end_reach"].value
    return {
        "bottom": bottom,
        "step": -book["stud.step_depth"].value,
        "collar": top - book["stud.nut_end_length"].value,
        "top": top,
    }


def _view(shape: Profile, book: Book, stud: Stud, say: Figures) -> View:
    at = _places(book)
    tap, nut, shank = (book[f"stud.{n}"].value / 2 for n in ("tap_end_nominal", "nut_end_nominal", "shank_diameter"))
    below: list[Item] = [
        say.between((at["bottom"], -tap), (at["step"], -tap)),
        say.between((at["step"], -shank), (at["collar"], -shank), "(<>)"),
        say.between((at["collar"], -nut), (at["top"], -nut)),
        *_grooves(book, at, say),
    ]
    if at["step"]:
        below.append(say.between((at["step"], -tap), (0.0, -tap), "(<>)"))
    below.append(say.between((0.0, -tap), (at["top"], -nut), "(<>) above the deck"))
    below.append(say.between((at["bottom"], -tap), (at["top"], -nut)))
    return View(
        turned.box(shape),
        lambda pen: _draw(pen, shape, book, at),
        above=_above(shape, book, stud, at, say),
        below=below,
    )


def _grooves(book: Book, at: dict[str, float], say: Figures) -> list[Item]:
    """Widths of the undercuts."""
    out: list[Item] = []
    for end, place, way in (("tap_end", at["step"], 1), ("nut_end", at["collar"], -1)):
        if f"stud.{end}_undercut_width" in book:
            width, r = book[f"stud.{end}_undercut_width"].value, book[f"stud.{end}_undercut_diameter"].value / 2
            ends = sorted((place, place + way * width))
            out.append(say.between((ends[0], -r), (ends[1], -r)))
    return out


def _draw(pen: Pen, shape: Profile, book: Book, at: dict[str, float]) -> None:
    turned.outside(pen, shape)
    shank = book["stud.shank_diameter"].value / 2
    for end, first, last, way in (("tap_end", "bottom", "step", 1), ("nut_end", "top", "collar", -1)):
        root = book[f"stud.{end}_root_diameter"].value / 2
        turned.threaded(pen, at[first], at[last], root)
        if f"stud.{end}_run_out" in book and f"stud.{end}_undercut_width" not in book:
            turned.run_out(pen, at[last], at[last] + way * book[f"stud.{end}_run_out"].value, root, shank)
        if shape.points:
            pen.line((at[last], -root), (at[last], root))


def _above(shape: Profile, book: Book, stud: Stud, at: dict[str, float], say: Figures) -> list[Item]:
    """Threads, diameters, chamfers, the deck face."""
    shank = book["stud.shank_diameter"].value
    waist = (at["step"] + at["collar"]) / 2
    tap, nut = book["stud.tap_end_nominal"].value / 2, book["stud.nut_end_nominal"].value / 2
    off = say.held(book, "stud.shank_diameter")
    waisted = say.limit(shank) if say.system == "inch" else say.diameter(shank)
    items: list[Item] = [
        Across(at["bottom"] + 0.55 * (at["step"] - at["bottom"]), -tap, tap, thread_name(stud.tap_end)),
        Plane(0.0, -tap, tap, "Deck face"),
        Across(waist, -shank / 2, shank / 2, f"Ø{waisted}{off}"),
        Pointer((waist + 0.25 * (at["collar"] - at["step"]), shank / 2), say.rough(TURNED), texture=True),
        Across((at["collar"] + at["top"]) / 2, -nut, nut, thread_name(stud.nut_end)),
    ]
    z, r = shape.points[1]
    chamfer = shape.points[2][0] - z
    items.insert(0, Pointer((z + chamfer / 2, r + chamfer / 2), f"{say.length(chamfer)} × 45°"))
    z, r = shape.points[-3]
    chamfer = shape.points[-2][0] - z
    items.append(Pointer((z + chamfer / 2, r - chamfer / 2), f"{say.length(chamfer)} × 45°"))
    return items


def _threads(book: Book, stud: Stud, say: Figures) -> Grid:
    """Everything that is measured while a thread is cut."""
    rows = [("", "Tap end", "Nut end"), ("Thread", *(thread_name(t) for t in (stud.tap_end, stud.nut_end)))]
    for name, high, low in (
        ("Major Ø, max / min", "major_max", "major_min"),
        ("Pitch Ø, max / min", "pitch_diameter_max", "pitch_diameter_min"),
        ("Over three wires, max / min", "over_wires_max", "over_wires_min"),
    ):
        cells = (say.both(*(book[f"stud.{end}_{n}"].value for n in (high, low))) for end in ENDS)
        rows.append((name, *cells))
    for place, name, size in (
        (2, "Before threading Ø", "blank_diameter"),
        (5, "Wires Ø", "wire_diameter"),
        (7, "Root Ø", "root_diameter"),
    ):
        rows.insert(place, (name, *(say.limit(book[f"stud.{end}_{size}"].value) for end in ENDS)))
    rows.append(("Thread ends in", *(_ends_in(book, end, say) for end in ENDS)))
    return Grid(rows, (50.0, 42.0, 42.0))


def _ends_in(book: Book, end: str, say: Figures) -> str:
    if f"stud.{end}_undercut_width" in book:
        width, diameter, radius = (book[f"stud.{end}_undercut_{n}"].value for n in ("width", "diameter", "radius"))
        return f"undercut Ø{say.diameter(diameter)} × {say.length(width)}, R{say.length(radius)}"
    if f"stud.{end}_run_out" in book:
        return f"run-out, {say.length(book[f'stud.{end}_run_out'].value)} at most"
    return "the waist, open"


def _notes(book: Book, job: Job, say: Figures) -> list[str]:
    unit, stands = say.unit, say.length(book["stud.projection"].value)
    corners, waist = "stud.corner_radius" in book, middle(book)
    round_them = f"Both corners of the {waist} R{say.length(book['stud.corner_radius'].value)}: " if corners else ""
    notes = [
        f"Fitted, the stud stands {stands} {unit} above the deck face: set it by that. What is in brackets follows.",
        f"{round_them}{'no' if corners else 'No'} tool mark round the {waist}; polish it lengthways.",
        f"Break sharp edges {say.length(EDGES)} {unit}.",
        _centres(book, job, say),
    ]
    mine = [str(n) for n in book.numbers("deck.hole")]
    if book.suffix and mine:
        notes.insert(0, f"For hole{'s' * (len(mine) > 1)} {listed(mine)} of the new pattern.")
    if job.lathe:
        taper = say.limit(job.lathe.taper_limit)
        notes.insert(-3, f"{waist.capitalize()} without taper: within {taper} {unit} on diameter from end to end.")
    return notes


def _centres(book: Book, job: Job, say: Figures) -> str:
    """Centre holes that may stay: no wider than a quarter of the smaller thread."""
    fitting = [size for size in CENTRES if size <= book["stud.smaller_thread"].value / 4]
    if job.lathe is None or not job.lathe.tailstock or not fitting:
        return "No centre holes in the ends."
    return (
        f"Centre holes A {fitting[-1]:g} of ISO 6411 (memory) may stay in the ends."
        if say.system == "metric"
        else (f"Centre holes of {say.diameter(fitting[-1])} {say.unit}, 60°, may stay in the ends.")
    )

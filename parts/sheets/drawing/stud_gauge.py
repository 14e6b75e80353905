"""The drawing of the stud gauge, and of the split holder."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from parts.shapes.stud_gauge import holder, tube
from parts.sheets.drawing import fixture, turned
from parts.sheets.drawing.items import Length
from parts.sheets.drawing.view import View
from parts.sheets.drawing.words import figures, thread_name

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.shapes.pieces import Pieces
    from parts.sheets.drawing.compose import Content
    from parts.sheets.drawing.pen import Pen
    from parts.sheets.drawing.words import Figures

HOLDER = "Split holder"


def stud_gauge_content(_: Pieces, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    say, own = figures(job), "stud_gauge."
    thread = thread_name(job.stud.nut_end, hole=True) if job.stud else ""
    views = [_gauge(book, say), _holder(book, say, thread)]
    slit = fixture.size(book, say, f"{own}slit")
    notes = [
        "Foot and both steps square to the hole, the steps in one setting with the foot as datum.",
        "Over a stud, its foot on the deck: the stud's end stands above the low step and not above the high one.",
        f"Holder: slit {slit} {say.unit} through one side, between two jaws.",
    ]
    return fixture.content("stud_gauge", book, job, found, views, notes)


def _holder(book: Book, say: Figures, thread: str) -> View:
    """The holder cut along its axis, its thread by its name."""
    own, long = "stud_gauge.", book["stud_gauge.holder_length"].value
    along = [(0.0, long, f"{own}holder_length")]
    view = fixture.section(holder(book), book, say, along, [f"{own}holder_outside"], caption=HOLDER)
    half = book["stud.nut_end_nominal"].value / 2

    def drawn(pen: Pen) -> None:
        view.draw(pen)
        turned.threaded(pen, 0.0, long, half)

    return replace(view, draw=drawn, right=[Length((long, -half), (long, half), thread)])


def _gauge(book: Book, say: Figures) -> View:
    """The gauge cut along its axis: its lower step on the lower side."""
    own, body = "stud_gauge.", tube(book)
    high, low, radius, bore = (book[f"{own}{n}"].value for n in ("high_step", "low_step", "outside_diameter", "bore"))
    radius, bore = radius / 2, bore / 2
    areas = [
        [(0.0, bore), (0.0, radius), (high, radius), (high, bore)],
        [(0.0, -bore), (0.0, -radius), (low, -radius), (low, -bore)],
    ]

    def drawn(pen: Pen) -> None:
        for area in areas:
            pen.path(area, close=True)
        pen.hatch(areas)
        pen.path([(low, -radius), (low, 0.0), (high, 0.0), (high, bore)])
        pen.line((0.0, -bore), (0.0, bore))
        pen.axis((0.0, 0.0), (high, 0.0))

    above = [Length((0.0, radius), (high, radius), fixture.size(book, say, f"{own}high_step"))]
    below = [Length((0.0, -radius), (low, -radius), fixture.size(book, say, f"{own}low_step"))]
    left = [fixture.across(book, say, 0.0, f"{own}{n}") for n in ("bore", "outside_diameter")]
    return View(turned.box(body), drawn, above, below, left, caption="Gauge")

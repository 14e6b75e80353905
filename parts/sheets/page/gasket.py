"""The head gasket on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.geometry import outline
from parts.sheets.page import bench, cautions, facts
from parts.sheets.page.step import Step, Steps, by_kind, lines, said
from parts.sheets.page.stock import MARGIN, Item, material_of
from parts.sheets.page.words import Words
from parts.sizing.gasket import gasket_sheet
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words


ANNEALED = {
    facts.COPPER: "Anneal it just before it goes on: dull red by torch in a dim corner, no more, then let it cool or quench it.",
    facts.ALUMINIUM: "Anneal it just before it goes on: rub it with hand soap, warm it evenly by torch until the soap turns brown, some 350 to "
    f"400 °C (660 to 750 °F; {PRACTICE}), no more: it gives no glow before it melts.",
}
"""metal of the gasket -> how it is made soft again: common practice, no source"""


def steps(words: Words) -> Steps:
    """Cut it to both castings."""
    return (_cut(words),)


def annealed(words: Words) -> str | None:
    """Say how the gasket is made soft again, where its metal is told and can be."""
    return next((says for metal, says in ANNEALED.items() if facts.surely(words, "gasket", metal)), None)


def _cut(words: Words) -> Step | None:
    gasket = words.job.gasket
    if gasket is None or not words.has("gasket.area"):
        return None
    anneal = annealed(words)
    do = said(
        "Glue the printed template on, punch or bore the holes first, cut the outline by shears or fretsaw, deburr both faces with a fine file, "
        "flatten it between plates.",
        "Offer it up to both castings: nothing may hang over the edge of the bore.",
        anneal,
    )
    asked = (
        *lines(words, ("job.gasket.thickness", "sheet"), ("gasket.bore_diameter", "bore")),
        *by_kind(words, "stud", ("gasket.hole_diameter", "stud holes")),
        *lines(words, ("gasket.narrowest_land", "narrowest land", "by calculation")),
    )
    care = (cautions.GASKET, *((cautions.ANNEALING,) if anneal else ()))
    needs = (
        Item("template", "from this folder", "printed at full size, measured, and glue"),
        Item(
            "punches or a boring head",
            words.size("gasket.hole_diameter") if words.has("gasket.hole_diameter") else "",
            "for the gasket's holes",
        ),
        Item("shears or fretsaw", "", "for its outline"),
        bench.FILE,
        *((bench.TORCH,) if anneal else ()),
    )
    return Step("gasket", "Cut the gasket", do, asked, care, needs=needs)


def stock(words: Words) -> Iterator[Item]:
    """Its sheet."""
    if words.has("gasket.area", "job.gasket.thickness") and words.job.gasket is not None:
        sheet = gasket_sheet(words.book, words.job)
        if sheet is not None:
            left, low, right, high = outline.bounds(sheet.outer)
            sides = (right - left + 2 * MARGIN, high - low + 2 * MARGIN)
            size = f"{words.plain('job.gasket.thickness')} × {words.stock(sides[0])} × {words.stock(sides[1])}"
            yield Item(
                f"sheet, {material_of(words, 'gasket')}",
                size,
                "for one gasket; cut two, the first is practice",
                "sheet",
            )

"""The head gasket on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.geometry import outline
from parts.sheets.page import cautions
from parts.sheets.page.step import Step, Steps, by_kind, lines, said
from parts.sheets.page.stock import MARGIN, Item, material_of
from parts.sheets.page.words import Words
from parts.sizing.gasket import gasket_sheet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words


def steps(words: Words) -> Steps:
    """Cut it to both castings."""
    return (_cut(words),)


def _cut(words: Words) -> Step | None:
    gasket = words.job.gasket
    if gasket is None or not words.has("gasket.area"):
        return None
    copper = gasket.material is not None and "copper" in gasket.material.name
    do = said(
        "Glue the paper template on, punch or bore the holes first, cut the outline, deburr both faces, flatten.",
        "Offer it up to both castings: nothing may hang over the edge of the bore.",
        "Anneal it just before it goes on: dull red, then air or water." if copper else None,
    )
    asked = (
        *lines(words, ("job.gasket.thickness", "sheet"), ("gasket.bore_diameter", "bore")),
        *by_kind(words, "stud", ("gasket.hole_diameter", "stud holes")),
        *lines(words, ("gasket.narrowest_land", "narrowest land", "by calculation")),
    )
    return Step("gasket", "Cut the gasket", do, asked, (cautions.GASKET,))


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

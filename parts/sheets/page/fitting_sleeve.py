"""The fitting sleeve on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions
from parts.sheets.page.step import fixture, said
from parts.sheets.page.stock import Item, fixture_bar

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.step import Needs, Steps
    from parts.sheets.page.words import Words

SIZES = (
    ("fitting_sleeve.bore_diameter", "bore, to the piston over its lands"),
    ("fitting_sleeve.skirt_diameter", "skirt"),
    ("fitting_sleeve.small_end", "small end of the cone"),
)


def steps(words: Words) -> Steps:
    """What a ring slides down on to the piston, opened once and evenly."""
    return fixture(words, "fitting_sleeve", "fit", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    do = said(
        "Bore it, turn skirt and cone on a mandrel in that bore, polish the cone: a score on it scores the ring.",
        "Over the crown, its shoulder down on it, the skirt's end just above the groove. For a groove further up lay a disc on the crown. Oil, ring "
        "on the cone, gap first, push it down with both thumbs until it drops in: no further open than the skirt.",
        f"The ring has {words.size('fitting_sleeve.stress')} on it." if words.has("fitting_sleeve.stress") else None,
    )
    return do, ((cautions.TURNING, cautions.BRITTLE), (bench.MICROMETER,))


def stock(words: Words) -> Iterator[Item]:
    """Bar for it."""
    sizes = ("fitting_sleeve.skirt_diameter", "fitting_sleeve.reach", "fitting_sleeve.cone_length")
    yield from fixture_bar(words, "fitting_sleeve", *sizes)

"""The stud gauge on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions
from parts.sheets.page.step import fixture, said
from parts.sheets.page.stock import Item, bar_for, fixture_bar

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.step import Needs, Steps
    from parts.sheets.page.words import Words

SIZES = (
    ("stud_gauge.high_step", "high step, over its foot"),
    ("stud_gauge.low_step", "low step, over its foot"),
)


def steps(words: Words) -> Steps:
    """What sets every stud to one height, and holds it by a thread that is finished."""
    return fixture(words, "stud_gauge", "studs", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    thread = words.job.stud.nut_end.label if words.job.stud else "the thread"
    do = said(
        "Face the foot, bore the hole, part off; face the high step to its height, mill one side of it down to the low one.",
        "Over a stud with its foot on the clean deck: the end of the stud lies between the two steps, felt by a straight-edge.",
        f"Split holder: drill, tap {thread}, turn the outside true to the thread on a screwed stub, slit it. In the chuck, the slit between two "
        "jaws, it holds a stud by its first thread while the other end is cut.",
    )
    return do, ((cautions.TURNING, cautions.TAPPING), (bench.STRAIGHT_EDGE, bench.DEPTH_GAUGE))


def stock(words: Words) -> Iterator[Item]:
    """Bar for both."""
    yield from fixture_bar(words, "stud_gauge", "stud_gauge.outside_diameter", "stud_gauge.high_step")
    if words.job.stud_gauge is not None and words.has("stud_gauge.holder_outside", "stud_gauge.holder_length"):
        wide, long = (words.value(f"stud_gauge.holder_{n}") for n in ("outside", "length"))
        yield bar_for(words, "stud_gauge", "split holder", wide, long)

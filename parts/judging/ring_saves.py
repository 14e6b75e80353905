"""What to do at the bench about a ring, its bore or its mandrel that was missed: all of them in RING_ANSWERS."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.limits import SAVED, SCRAP, STANDS
from parts.sizing.ring_shape import EVENLY
from parts.sizing.scenes import scenes

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job.instances import Instance
    from parts.judging.miss import Answer, Miss

VISIBLE = 0.0005  # mm


def blank_outside(miss: Miss) -> Answer:
    """A blank under size gapes, and its tips leave the wall; one over size still has metal."""
    if miss.by >= 0 or "ring.closed_gap" not in miss.book:
        return None
    grown, now = miss.show(miss.moved("ring.closed_gap")), miss.size("ring.closed_gap")
    gap = f"the gap grows by pi times the miss, {grown}, to {now}"
    if miss.stopped:
        return SCRAP, f"{gap}: turn another blank"
    light = max(
        (miss.book[n].value for n in ("ring.light_gap", "ring.under_size_light") if n in miss.book), default=0.0
    )
    tips = (
        f"its tips leave the wall by up to {1000 * light:.1f} um" if light >= VISIBLE else "no light shows at its tips"
    )
    return STANDS, f"{gap}; {tips}: split it and feel the gap in the bore; the lower groove stands a wider gap best"


def closed_gap(miss: Miss) -> Answer:
    """A gap too small is filed; one too wide stands while its findings do."""
    if miss.by < 0:
        return (
            SAVED,
            f"file {miss.show(-miss.by)} off the ends, square, a stroke at a time, and try it in the bore again",
        )
    if miss.stopped:
        return SCRAP, "turn another blank: gas blows through a gap this wide"
    return STANDS, "fit it in the lower groove, and turn the next blank larger by the excess over pi"


def wide_slit(miss: Miss) -> Answer:
    """A saw that cut wider than planned."""
    if miss.by <= 0:
        return None
    return (
        SAVED,
        (
            f"rings not yet turned are turned to {miss.size('ring.outside_diameter')}, which gives the planned gap again; "
            "one that is split already gapes by the excess"
        ),
    )


def larger_bore(miss: Miss) -> Answer:
    """The bore cleaned up larger."""
    if miss.by <= 0:
        return None
    rings = [_in_the_bore(miss, view, one) for view, _, one in scenes(miss.book, miss.job, "ring")]
    return (
        (SCRAP if miss.stopped else SAVED),
        f"{'; '.join(rings)}: write the bore into [engine] and make the sheets again",
    )


def _in_the_bore(miss: Miss, ring: Book, one: Instance | None) -> str:
    """What becomes of a ring in a larger bore."""

    def size(name: str) -> str:
        return miss.show(ring[name].value)

    which = f" {one.name}" if one and one.name else ""
    if "ring.outside_diameter" in ring.made and "ring.closed_gap" in ring:
        says = f"the rings{which} that were turned close to {size('ring.closed_gap')} in it"
    elif ring.has("ring.outside_diameter", "ring.closed_gap"):
        says = f"turn the rings{which} to it: blanks of {size('ring.outside_diameter')}, gap {size('ring.closed_gap')}"
    else:
        says = f"make the rings{which} to it"
    play = f"; the piston has {size('ring.piston_play')} of play" if "ring.piston_play" in ring else ""
    return f"{says}{play}"


def trial_ring(miss: Miss) -> Answer:
    """What a trial ring kept of its opening sizes the next mandrel."""
    share, gap = "job.ring.heat_set.set_fraction", "mandrel.open_gap"
    if not miss.book.has(share, gap) or miss.book[share].status != "computed":
        return None
    form = {
        "round": ("mandrel.diameter", "seat"),
        "pin": ("mandrel.pin_width", "gap over the pin"),
        "contoured": (gap, "gap of the ring on it"),
    }[miss.job.mandrel.form if miss.job.mandrel else "contoured"]
    shape = ""
    if "ring.shape_number" in miss.book and "ring.free_width" in miss.book.made:
        number = miss.book["ring.shape_number"].value
        shape = f"; its shape number is {number:.3f}, where {EVENLY:g} presses evenly"
    return (
        SAVED,
        (
            f"the heat set {miss.book[share].value:.3f} of the opening{shape}; the next mandrel, for the free gap that is "
            f"wanted: {form[1]} {miss.size(form[0])} (make it with --as-made expander-mandrel)"
        ),
    )


def ring_width(miss: Miss) -> Answer:
    """The free width tells the shape that the ring took."""
    if not miss.by:
        return None
    if miss.by > 0:
        return (
            STANDS,
            "the back is too sharp: the ring bears on back and tips; look whether it sprang off its seat in the oven",
        )
    return (
        STANDS,
        "it has a plain round mandrel's shape, bare between back and tips: bind its ends down, or use the contoured form",
    )


RING_ANSWERS: list[tuple[str, Callable[[Miss], Answer]]] = [
    ("ring.outside_diameter", blank_outside),
    ("ring.closed_gap", closed_gap),
    ("job.ring.slit", wide_slit),
    ("job.engine.bore", larger_bore),
    ("ring.free_gap", trial_ring),
    ("ring.free_gap_inside", trial_ring),
    ("ring.free_width", ring_width),
]

"""The joint on the job sheet: try the head, assemble, tighten, turn over, test, run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.limits import WRENCH_HELD
from parts.judging.rules import caution_of, stop_of
from parts.shapes.assembly import holes
from parts.sheets.page import cautions
from parts.sheets.page.step import Asked, Step, Steps, lines, said
from parts.sheets.page.tighten import STAGES, TORQUE, crosswise, tightening, torque_shown
from parts.sheets.page.words import Words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.tighten import Tightening
    from parts.sheets.page.words import Words


def steps(words: Words) -> Steps:
    """From loose parts to a cold re-torque."""
    stand = [own for own in words.each("stud") if own.job.stud and own.has("stud.projection", "deck.hole.1.x")]
    if not stand or words.job.head is None:
        return _crankcase(words), _drop(words)
    return _crankcase(words), _drop(words), _tighten(words), _turn_over(words), _first_run(words)


def _drop(words: Words) -> Step | None:
    if not words.has("compression.squish") and not words.has("compression.head_drop"):
        return None
    drop = (
        f"The head comes down by {words.size('compression.head_drop')}: look at push rods, rocker geometry or chain."
        if words.has("compression.head_drop")
        else None
    )
    do = said(
        drop,
        "Modelling clay on the piston at four places, head on with its gasket and all nuts snug, over by hand once, off again: cut "
        "the clay and measure it.",
        "Valves too: clay on the crown under each.",
    )
    squish = "compression.squish"
    asked = lines(
        words,
        (
            squish,
            "squish, thinnest of four",
            f"at least {words.bare(stop_of(squish, least=True))}; {words.bare(caution_of(squish, least=True))} is usual",
        ),
        ("compression.head_drop", "head's drop"),
        ("compression.ratio_after", "compression ratio", "by calculation"),
    )
    return Step("drop", "Try the head: drop and squish", do, asked, (cautions.BY_HAND,))


def _tighten(words: Words) -> Step:
    plan = tightening(words)
    order = " – ".join(map(str, plan.order)) if plan else "crosswise"
    known = {own.name: own for own in plan.kinds} if plan else {}
    do = said(
        "Faces clean and dry, gasket on, head down evenly by hand. Washers, nuts, all snug.",
        *map(_oil, known.values()),
        f"Tighten in this order: {order}. In three stages, the whole round at each; then once more round at the last.",
        *(_unknown(own) for own in words.each("stud") if own.name not in known),
    )
    asked = tuple(_stages(plan)) if plan else ()
    return Step("tighten", "Assemble and tighten", do, asked, (cautions.TIGHTENING, cautions.STUD_HOLD))


def _oil(own: Words) -> str | None:
    if not own.has("job.stud.friction"):
        return None
    where = f" of the {own.name} studs" if own.name else ""
    return f"Oil thread and face{where}: the torque is for a friction of {own.value('job.stud.friction'):g}."


def _unknown(own: Words) -> str:
    torque = f"torque of the {own.name} studs" if own.name else "torque"
    return f"The {torque} is not worked out: the job file lacks what it needs. Don't guess it from the thread alone."


def _stages(plan: Tightening) -> Iterator[Asked]:
    """Lines for the torque of each stage, one for each kind of stud."""
    held = f"± {100 * WRENCH_HELD:g} % of the wrench"
    for name, *torques in plan.stages:
        for own, torque in zip(plan.kinds, torques, strict=True):
            real, says = own.book.real(TORQUE), own.named(f"stage {name}")
            yield Asked(real, says, torque, held, name, own.written_in(TORQUE))


def _turn_over(words: Words) -> Step:
    expected = ("compression.cranking_low", "compression.cranking_high")
    test = (
        f"Turn it over fast, throttle open, oil in the bore: a gauge should show {words.gauge(*map(words.value, expected))}. A range, not a "
        "promise: it takes in leaks, cold walls and a late inlet valve."
        if words.has(*expected)
        else "Test the compression, throttle open, and write it down: the next test is judged by it."
    )
    do = said(
        "Over by hand twice, plug out: free all the way round, nothing touches.",
        test,
        "Soapy water round the head joint and the plug: no bubbles.",
    )
    asked: tuple[Asked, ...] = ()
    if words.has(*expected):
        shown, unit = words.gauge(*map(words.value, expected)), "bar" if words.system == "metric" else "psi"
        expect = "what one of its kind is expected to show"
        asked = (Asked("compression.cranking", "compression, by gauge", shown, expect, unit=unit),)
    return Step("test", "Turn over by hand, test the compression", do, asked, (cautions.BY_HAND, cautions.COMPRESSION))


def _crankcase(words: Words) -> Step | None:
    """The joint under the barrel, where it has studs of its own that are known."""
    for own in words.each("base"):
        order = crosswise(holes(own.book, "deck.hole"))
        if not own.has(TORQUE) or not order:
            continue
        torque = own.book.real(TORQUE)
        gasket = "Faces clean and dry, base gasket on" if own.job.gasket else "Faces clean, sealed as the crankcase was"
        do = said(
            f"{gasket}, barrel down over the rings, no ring caught. Washers, nuts, all snug.",
            _oil(own),
            f"Tighten in this order: {' – '.join(map(str, order))}. In three stages, the whole round at each; then once more.",
        )
        held = f"± {100 * WRENCH_HELD:g} % of the wrench"
        asked = tuple(
            Asked(
                torque,
                f"stage {name}",
                torque_shown(own, share * own.value(TORQUE)),
                held,
                name,
                own.written_in(TORQUE),
            )
            for share, name in STAGES
        )
        return Step(
            "base", "Fit the barrel, tighten its joint on the crankcase", do, asked, (cautions.TIGHTENING,), "fit"
        )
    return None


def _first_run(words: Words) -> Step:
    last = "its own last stage" if words.job.listed("stud") else "the last stage"
    unseen = "" if words.job.base else " and is not checked here"
    do = said(
        "Ten minutes at light load, then stop and let it go cold, overnight.",
        f"Re-torque cold: each nut back an eighth of a turn and up to {last} again, in the same order, one at a time.",
        f"Look for blow-by at the joint, at the plug and at the crankcase joint, which carries the same gas force{unseen}.",
        "Re-torque again after the first hour under load.",
    )
    return Step("run", "First run, and re-torque cold", do, (), (cautions.FIRST_RUN, cautions.TIGHTENING))

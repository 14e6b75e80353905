"""Order of work, the end: assemble, tighten, turn over, test, run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import cautions
from parts.sheets.page.step import Line, Step, said
from parts.sheets.page.tighten import tightening

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words


def joint_steps(words: Words) -> Iterator[Step]:
    """Every step from loose parts to a cold re-torque."""
    if words.job.stud is None or words.job.head is None or not words.has("stud.projection", "deck.hole.1.x"):
        return
    yield _tighten(words)
    yield _turn_over(words)
    yield _first_run()


def _tighten(words: Words) -> Step:
    plan = tightening(words)
    order = " – ".join(map(str, plan.order)) if plan else "crosswise"
    oil = (
        f"Oil thread and face: the torque is for a friction of {words.value('job.stud.friction'):g}."
        if words.has("job.stud.friction")
        else None
    )
    known = plan is not None and bool(plan.stages)
    do = said(
        "Faces clean and dry, gasket on, head down evenly by hand. Washers, nuts, all snug.",
        oil if known else None,
        f"Tighten in this order: {order}. In three stages, the whole round at each; then once more round at the last.",
        None
        if known
        else "The torque is not worked out: the job file lacks what it needs. Don't guess it from the thread alone.",
    )
    asked: tuple[Line, ...] = ()
    if plan is not None:
        asked = tuple(
            Line("joint.torque", f"stage {name}", torque, "± 5 % of the wrench", name, words.written_in("joint.torque"))
            for name, torque in plan.stages
        )
    return Step("tighten", "Assemble and tighten", do, asked, (cautions.TIGHTENING, cautions.STUD_HOLD))


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
    asked: tuple[Line, ...] = ()
    if words.has(*expected):
        shown, unit = words.gauge(*map(words.value, expected)), "bar" if words.system == "metric" else "psi"
        expect = "what one of its kind is expected to show"
        asked = (Line("compression.cranking", "compression, by gauge", shown, expect, unit=unit),)
    return Step("test", "Turn over by hand, test the compression", do, asked, (cautions.BY_HAND, cautions.COMPRESSION))


def _first_run() -> Step:
    do = said(
        "Ten minutes at light load, then stop and let it go cold, overnight.",
        "Re-torque cold: each nut back an eighth of a turn and up to the last stage again, in the same order, one at a time.",
        "Look for blow-by at the joint, at the plug and at the crankcase joint, which carries the same gas force and is not checked here.",
        "Re-torque again after the first hour under load.",
    )
    return Step("run", "First run, and re-torque cold", do, (), (cautions.FIRST_RUN, cautions.TIGHTENING))

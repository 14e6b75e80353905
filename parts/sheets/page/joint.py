"""The joint on the job sheet: try the head, assemble, tighten, turn over, test, run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.limits import WRENCH_HELD
from parts.judging.rules import caution_of, stop_of
from parts.shapes.assembly import holes
from parts.sheets.page import bench, cautions, facts
from parts.sheets.page.gasket import annealed
from parts.sheets.page.step import Asked, Step, Steps, lines, said
from parts.sheets.page.stock import Item
from parts.sheets.page.tighten import STAGES, TORQUE, crosswise, tightening, torque_shown
from parts.sheets.page.words import Words, listed
from parts.tables import PRACTICE

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
    overhead, lower, squish = facts.valves_in_head(words), _lower(words), "compression.squish"
    least = f"at least {words.bare(stop_of(squish, least=True))}; {words.bare(caution_of(squish, least=True))} is usual"
    do = said(
        lower,
        "The clay tells the truth only on the whole stack: piston without new rings and barrel back on the crankcase, base gasket under it, "
        "the barrel's joint drawn up.",
        "Modelling clay on the piston at four places, head on with its gasket and all nuts snug, over by hand once, off again: cut "
        "the clay and measure it by callipers.",
        None if words.has(squish) else f"Its thinnest is the squish: {least}.",
        "Valves too: clay on the crown under each." if overhead else None,
    )
    asked = lines(
        words,
        (squish, "squish, thinnest of four", least),
        *((("compression.head_drop", "head's drop"),) if lower else ()),
        ("compression.ratio_after", "compression ratio", "by calculation"),
    )
    needs = (bench.CLAY, bench.MICROMETER)
    return Step("drop", "Try the head: drop and squish", do, asked, (cautions.BY_HAND,), needs=needs)


DRIVES = {
    "push rods": "look at the push rods' length and the rockers' angle",
    "chain": "look at the chain's tensioner and the valve timing",
    "side valves": "look at the room over the open valves",
    None: "look at what drives the valves: push rods, rockers or chain",
    "two-stroke": "look at the ports' timing on the findings, and at cowling and exhaust",
}
"""what drives the valves, or that nothing does -> what a lower head asks of it"""


def _lower(words: Words) -> str | None:
    if not words.has("compression.head_drop") or words.value("compression.head_drop") == 0:
        return None
    drop = words.value("compression.head_drop")
    way = f"The head comes {'down' if drop > 0 else 'up'} by {words.show(abs(drop))}"
    gear = words.job.head.valve_gear if words.job.head else None
    return f"{way}: {DRIVES[gear if facts.four_stroke(words) else 'two-stroke']}."


def _tighten(words: Words) -> Step:
    plan = tightening(words)
    order = " – ".join(map(str, plan.order)) if plan else "crosswise"
    known = {own.name: own for own in plan.kinds} if plan else {}
    rings = any(own.job.ring for own in words.each("ring"))
    do = said(
        _barrel_on(rings=rings) if not words.job.base else None,
        f"Faces clean and dry, {_gasket(words)}head down evenly by hand. Washers, nuts, all snug.",
        *map(_oil, known.values()),
        *map(_way, known.values()),
        f"Tighten in this order by torque wrench: {order}. In three stages, the whole round at each; then once more round at the last.",
        *(_unknown(own) for own in words.each("stud") if own.name not in known),
    )
    asked = tuple(_stages(plan)) if plan else ()
    care = (cautions.TIGHTENING, cautions.STUD_HOLD, *((cautions.BRITTLE,) if rings and not words.job.base else ()))
    needs = (*(_squeezed() if rings and not words.job.base else ()), bench.TORQUE_WRENCH, *_clocked(words))
    return Step("tighten", "Assemble and tighten", do, asked, care, needs=needs)


def _gasket(words: Words) -> str:
    return "" if not words.job.gasket else "gasket on, freshly annealed, " if annealed(words) else "gasket on, "


def _barrel_on(*, rings: bool) -> str:
    return f"Base gasket on. {_over(rings=rings)} Draw its joint on the crankcase up as that engine asks."


def _over(*, rings: bool) -> str:
    if rings:
        return "Oil bore and rings, barrel down over them with a ring compressor, no ring caught."
    return "Barrel down on the crankcase."


def _squeezed() -> tuple[Item, ...]:
    return (Item("ring compressor", "", "or a split band of thin sheet", shared=True),)


def _oil(own: Words) -> str | None:
    if not own.has("job.stud.friction"):
        return None
    where = f" of the {own.name} studs" if own.name else ""
    return f"Oil thread and face{where}: the torque is for a friction of {own.value('job.stud.friction'):g}."


def _way(own: Words) -> str | None:
    """How angle or stretch is measured, where that and not the torque decides."""
    way = own.job.stud.tightened_by if own.job.stud else TORQUE
    whose = f" of the {own.name} studs" if own.name else ""
    if way == "angle" and own.has("joint.nut_angle"):
        turn = own.size("joint.nut_angle")
        return f"The angle{whose} decides: snug, mark nut and washer, then on by {turn} in all; the torque is a check."
    if way == "stretch" and own.has("joint.stretch"):
        more = own.size("joint.stretch")
        return (
            f"The stretch{whose} decides: a dial indicator on the stud's end, its stand on the barrel and never on the head, set to nought "
            f"with the nut slack; tighten until it shows {more}, the torque is a check. The end below can't be reached and "
            "needn't be: it measures from the barrel."
        )
    return None


def _clocked(words: Words) -> tuple[Item, ...]:
    stretched = any(own.job.stud and own.job.stud.tightened_by == "stretch" for own in words.each("stud"))
    return (bench.INDICATOR,) if stretched else ()


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
    expected, valves = ("compression.cranking_low", "compression.cranking_high"), facts.four_stroke(words)
    late = "a late inlet valve" if valves else "the pressure in the crankcase"
    test = (
        f"Turn it over fast, throttle open, oil in the bore: a compression gauge should show {words.gauge(*map(words.value, expected))}. A range, "
        f"not a promise: it takes in leaks, cold walls and {late}."
        if words.has(*expected)
        else "Test the compression by gauge, throttle open, and write it down: the next test is judged by it."
    )
    plugs = facts.blanking(words)
    do = said(
        "Over by hand twice, spark plug out: free all the way round, nothing touches.",
        test,
        f"Soapy water round the head joint{f' and {plugs}' if plugs else ''}: no bubbles.",
    )
    asked: tuple[Asked, ...] = ()
    if words.has(*expected):
        shown, unit = words.gauge(*map(words.value, expected)), "bar" if words.system == "metric" else "psi"
        expect = "what one of its kind is expected to show"
        asked = (Asked("compression.cranking", "compression, by gauge", shown, expect, unit=unit),)
    care = (cautions.BY_HAND, cautions.COMPRESSION)
    return Step("test", "Turn over by hand, test the compression", do, asked, care, needs=(bench.GAUGE, bench.SOAP))


def _crankcase(words: Words) -> Step | None:
    """The joint under the barrel, where it has studs of its own that are known."""
    for own in words.each("base"):
        order = crosswise(holes(own.book, "deck.hole"))
        if not own.has(TORQUE) or not order:
            continue
        torque = own.book.real(TORQUE)
        rings = any(ring.job.ring for ring in words.each("ring"))
        gasket = "Faces clean and dry, base gasket on" if own.job.gasket else "Faces clean, sealed as the crankcase was"
        do = said(
            f"{gasket}. {_over(rings=rings)} Washers, nuts, all snug.",
            _oil(own),
            f"Tighten in this order by torque wrench: {' – '.join(map(str, order))}. In three stages, the whole round at each; then once "
            "more.",
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
        title = "Fit the barrel, tighten its joint on the crankcase"
        care = (cautions.TIGHTENING, *((cautions.BRITTLE,) if rings else ()))
        return Step("base", title, do, asked, care, "fit", (*(_squeezed() if rings else ()), bench.TORQUE_WRENCH))
    return None


def _first_run(words: Words) -> Step:
    last = "its own last stage" if words.job.listed("stud") else "the last stage"
    unseen = "" if words.job.base else " and is not checked here"
    plugs, valves = facts.blanking(words), facts.four_stroke(words)
    sealed = listed(["the head joint", *([plugs] if plugs else [])])
    rings = any(own.job.ring for own in words.each("ring"))
    do = said(
        f"Ten minutes at light load ({PRACTICE}), then stop and let it go cold, overnight."
        if not rings
        else f"New rings bed in under changing load, not by idling: ten minutes at light load ({PRACTICE}), the throttle opened and shut, then stop "
        "and let it go cold, overnight.",
        f"Re-torque cold by torque wrench: each nut back an eighth of a turn ({PRACTICE}) and up to {last} again, in the same order, one at a time.",
        f"Look for blow-by at {sealed}, and at the crankcase joint, which carries the same gas force{unseen}.",
        ("Change the oil now: what bedding-in wears off is in it." if rings else "Change the oil after that hour. ")
        if valves
        else None,
        "Re-torque again, cold, after the first hour under load"
        + (", and look at the valve clearances: the head has settled." if valves else "."),
    )
    return Step(
        "run",
        "First run, and re-torque cold",
        do,
        (),
        (cautions.FIRST_RUN, cautions.TIGHTENING),
        needs=(bench.TORQUE_WRENCH,),
    )

"""What to do at the bench about a size that was missed: one small function a story, all of them in ANSWERS."""

from __future__ import annotations

from fnmatch import fnmatchcase
from typing import TYPE_CHECKING

from parts.judging.limits import SAVED, SCRAP, STANDS
from parts.judging.ring_saves import RING_ANSWERS
from parts.judging.rules import stop_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.judging.miss import Answer, Miss

TOLD = {"joint.torque": "torque", "joint.stretch": "stretch", "joint.nut_angle": "angle"}
FILLED = 0.5  # mm, the deepest pocket to fill; common practice, no source


def answer(miss: Miss) -> Answer:
    """Return the size's own verdict and what to do next; None where the usual ones do."""
    return next((told for pattern, rule in ANSWERS if fnmatchcase(miss.name, pattern) and (told := rule(miss))), None)


def thin_thread(miss: Miss) -> Answer:
    """A thread under its limit: what it still holds."""
    end = "nut_end" if "nut_end" in miss.name else "tap_end"
    force, greatest = f"joint.{end}_strip_force", "joint.greatest_preload"
    if miss.by > 0 or force not in miss.book:
        return None
    if miss.stopped:
        return SCRAP, f"it strips at {miss.size(force)}, too little: cut a new one, this one lets go without warning"
    over = ""
    if greatest in miss.book:
        over = f", {miss.book[force].value / miss.book[greatest].value:.1f} times the greatest load on a stud"
    return (
        STANDS,
        (
            f"the thread strips at {miss.size(force)}{over}: use it if the nut runs on without rock, with the full torque "
            "put on once, cold, as a trial; cut the next one fuller"
        ),
    )


def slack_hole(miss: Miss) -> Answer:
    """A hole for the plug that came out too wide: the plug is turned to it."""
    if miss.by <= 0 or "plug.diameter" not in miss.book or not miss.book.rests_on("plug.gas_force", [miss.name]):
        return None
    if "plug.diameter" in miss.book.made:
        play = miss.value - miss.book["plug.diameter"].value
        return SAVED, f"the plug that was turned has {miss.show(play)} of play in it: turn another one to the hole"
    ends = [n for n in ("plug.diameter_min", "plug.diameter_max") if n in miss.book]
    size = " to ".join(miss.size(n) for n in ends) or miss.size("plug.diameter")
    return SAVED, f"turn the plug to the hole as it is, {size}: make it with --as-made blanking-plug"


def loose_plug(miss: Miss) -> Answer:
    """A plug turned under size."""
    if miss.by >= 0:
        return None
    if miss.job.plug is not None and miss.job.plug.fit == "press":
        return SCRAP, "turn another: a press fit that is slack holds nothing, and a plug that lets go is a shot"
    play = miss.book["assembly.plug.passage"].value if "assembly.plug.passage" in miss.book else 0.0
    if play > stop_of("job.plug.bond_clearance"):
        return SCRAP, f"its gap of {miss.show(play)} is more than a bond bridges: turn another"
    return (
        STANDS,
        (
            f"the bond's gap is {miss.show(play)} on diameter: take a compound whose data sheet fills that, and give its "
            "strength; else turn another"
        ),
    )


def plug_below(miss: Miss) -> Answer:
    """A plug that ended below the deck face."""
    if miss.by <= 0:
        return None
    deep, under = miss.value, "plug.under_face"
    pressed = under in miss.book and miss.book[under].value > 0
    skim = miss.plan["job.barrel.skim"].value if "job.barrel.skim" in miss.plan else 0.0
    pocket = f"a pocket of {miss.size('plug.pocket_volume')}" if "plug.pocket_volume" in miss.book else "the pocket"
    if deep <= skim:
        return SAVED, f"the skim of {miss.show(skim)} that is still to come takes it off, if the deck is not faced yet"
    if pressed:
        return (
            SCRAP,
            (
                "it lies under the face that the head presses on, where a filler is squeezed out and gas gets under the "
                "gasket: draw it, counterbore the hole and make a new one with a shoulder"
            ),
        )
    if under not in miss.book:
        return (
            STANDS,
            (
                "give head.joint_face: only clear of the face that the head presses on may it be filled; under it, make a "
                "new one with a shoulder"
            ),
        )
    if deep <= FILLED:
        clear = miss.show(-miss.book[under].value)
        return (
            SAVED,
            (
                f"it lies {clear} clear of the face that is pressed, so it seals nothing: fill {pocket} with a heat-proof "
                "metal filler over the degreased plug and face it flush (common practice, no source); the hold is the same"
            ),
        )
    return (
        SCRAP,
        (
            f"deeper than {miss.show(FILLED)} no filler stays in (common practice, no source): draw it and make a new one "
            "with a shoulder"
        ),
    )


def hole_off(miss: Miss) -> Answer:
    """A hole drilled off its place: does the head still go on, and which hole to open."""
    rooms = {n: e.value for n, e in miss.book.items() if n.startswith("drop.hole.") and n.endswith(".room")}
    opened = {n: e.value for n, e in miss.book.items() if n.endswith(".open_to")}
    if not rooms:
        return None
    other = [f for f in miss.worse if f.verdict == "stop" and not f.name.startswith("drop.")]
    if other or miss.book.cannot:
        why = other[0].says if other else str(miss.book.cannot[0])
        return SCRAP, f"{why}; else fill the hole and drill it again in its place"
    if miss.name.endswith(".y") and miss.name[:-1] + "x" in miss.book.made:
        return (SAVED if opened else STANDS), f"as said of {miss.name[:-1]}x"
    if not opened:
        tight = min(rooms, key=rooms.__getitem__)
        return (
            STANDS,
            (
                f"the head goes on, with {miss.show(rooms[tight])} left to each side of stud {tight.split('.')[2]}, the "
                "tightest; cut the gasket to the holes as they are (--as-made head-gasket)"
            ),
        )
    which = ", ".join(f"hole {n.split('.')[2]} of the head to {miss.show(v)}" for n, v in opened.items())
    return (
        SAVED,
        (
            f"the head does not go on as it is: open {which}, towards where the stud stands, and see that the washer still "
            "bears all round; cut the gasket to the holes as they are (--as-made head-gasket)"
        ),
    )


def shallow(miss: Miss) -> Answer:
    """A hole tapped less deep than the stud needs."""
    hole = miss.name.partition(".")[0]
    length = "insert.nominal_length" if hole == "insert" else "tapped.engagement"
    drill = f"{hole}.drill_depth"
    if miss.by >= 0 or length not in miss.book:
        return None
    deeper = "tap on down with a bottoming tap"
    if drill in miss.book and miss.limits and miss.limits.low is not None:
        deeper += f" to {miss.show(miss.limits.low)}: the hole is drilled to {miss.size(drill)}"
    if not miss.book.has("joint.tap_end_strip_force", "stud.tap_end_length"):
        return SAVED, deeper
    what = "an insert" if hole == "insert" else "an engagement"
    return (
        SAVED,
        (
            f"{deeper}; left as it is, {what} of {miss.size(length)} has room, the tap end must be "
            f"{miss.show(abs(miss.moved('stud.tap_end_length')))} shorter, and it strips at "
            f"{miss.size('joint.tap_end_strip_force')}{', too little' if miss.stopped else ''}"
        ),
    )


def stud_set_again(miss: Miss) -> Answer:
    """A stud that stands too low or too high over the deck is set again."""
    return SAVED, f"set it again, {miss.show(abs(miss.by))} {'further out' if miss.by < 0 else 'further in'}"


def insert_set_again(miss: Miss) -> Answer:
    """An insert that lies too shallow is wound on; one that lies too deep can't be wound back by its tang."""
    if miss.by < 0:
        return SAVED, f"wind it {miss.show(-miss.by)} further in, before its tang is broken off"
    return SAVED, f"draw it and wind in a new one, {miss.show(miss.by)} further out"


def cranking(miss: Miss) -> Answer:
    """A compression test outside the range that one of its kind shows."""
    if miss.by < 0:
        return (
            STANDS,
            (
                "a spoonful of oil in the bore, and test again: if it rises the rings leak, else valves, plug or head joint; soapy "
                "water shows which (common practice, no source)"
            ),
        )
    return STANDS, "look at the gauge and the chamber volumes first, then at the squish (common practice, no source)"


def skimmed(miss: Miss) -> Answer:
    """More came off the deck than was meant, or less."""
    if miss.by <= 0:
        return (SAVED, f"skim on, {miss.show(-miss.by)} or a little more") if miss.by < 0 else None
    ways = []
    for size, what in (("squish", "the squish"), ("ratio", "the compression")):
        name = f"compression.gasket_for_{size}"
        if name in miss.book:
            ways.append(f"a gasket of {miss.size(name)} gives {what} as planned")
    if not ways:
        return None
    return SAVED, f"{', '.join(ways)}; set gasket.thickness, and the studs' projection follows it"


def squish_measured(miss: Miss) -> Answer:
    """The clay tells another squish than was worked out."""
    name = "compression.gasket_for_squish"
    if name not in miss.book or not miss.by:
        return None
    return (
        SAVED,
        f"a gasket of {miss.size(name)} gives the planned squish; look first that the head was drawn down all round",
    )


def not_as_tight(miss: Miss) -> Answer:
    """More or less torque, stretch or angle than was meant."""
    if "joint.preload" not in miss.book:
        return None
    if miss.by < 0:
        return SAVED, "tighten up to the last stage, cold, one nut at a time"
    if miss.stopped:
        return SCRAP, "the studs may have stretched for good: take them out, measure their length, and put in new ones"
    return SAVED, f"slacken each nut and tighten it to the right {TOLD[miss.name]}, one at a time, the engine cold"


def deep_hole(miss: Miss) -> Answer:
    """A hole drilled less deep has to go on down; the floor is judged by its own finding."""
    return (SAVED, f"drill on, {miss.show(-miss.by)} deeper, before it is tapped") if miss.by < 0 else None


ANSWERS: list[tuple[str, Callable[[Miss], Answer]]] = [
    ("stud.*_end_over_wires", thin_thread),
    ("stud.*_end_pitch_diameter", thin_thread),
    ("stud.*_end_major", thin_thread),
    ("job.barrel.passages.*.diameter", slack_hole),
    ("job.plug.hole", slack_hole),
    ("plug.diameter", loose_plug),
    ("plug.below_deck", plug_below),
    ("deck.hole.*.x", hole_off),
    ("deck.hole.*.y", hole_off),
    ("*.full_thread_depth", shallow),
    ("*.drill_depth", deep_hole),
    ("job.barrel.skim", skimmed),
    ("compression.squish", squish_measured),
    ("stud.projection", stud_set_again),
    ("insert.set_down", insert_set_again),
    ("compression.cranking", cranking),
    *((name, not_as_tight) for name in TOLD),
    *RING_ANSWERS,
]

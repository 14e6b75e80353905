"""The rules on choices rather than numbers: one small function each, all of them in CHOICES."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.job.models import BRAZED, HEATS
from parts.judging.compression_choices import COMPRESSION_CHOICES
from parts.judging.drawing_choices import DRAWING_CHOICES
from parts.judging.finding import ASSUMED, NOT_JUDGED, Finding
from parts.judging.fixture_choices import FIXTURE_CHOICES
from parts.judging.measured_choices import MEASURED_CHOICES
from parts.judging.metal_choices import METAL_CHOICES
from parts.judging.pair_choices import PAIR_CHOICES
from parts.judging.plug_choices import PLUG_CHOICES
from parts.judging.preload_choices import PRELOAD_CHOICES
from parts.judging.ring_choices import RING_CHOICES
from parts.judging.rules import WEAKENS, caution_of, stop_of
from parts.judging.two_stroke_choices import TWO_STROKE_CHOICES
from parts.judging.usual import USUAL_CHOICES
from parts.sizing.scenes import scenes
from parts.sizing.seal import face_of
from parts.sizing.stud import STEP
from parts.tables import PRACTICE
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from parts.book import Book
    from parts.job import Job

SMALL_TAP = 8.0  # mm


def length(value: float, job: Job) -> str:
    """Print a length as the job's sheets do."""
    return printed(value, "mm", job.job.print_units)


def heats(low: float, high: float, job: Job) -> str:
    """Print a range of heat as the job's sheets do, in whole degrees."""
    if job.job.print_units == "metric":
        return f"{low:g} to {high:g} degC"
    return " to ".join(printed(heat, "degC", "inch") for heat in (low, high)).replace(" degF", "", 1)


def step_below_deck(book: Book, job: Job) -> Iterator[Finding]:
    """A tap end larger than the holes above it must end below the deck face, or it holds the head off."""
    holes = [book[n].value for n in ("job.head.hole_diameter", "gasket.hole_diameter") if n in book]
    if job.stud is None or not holes or "stud.step_depth" not in book or job.stud.tap_end.nominal <= min(holes):
        return
    step, nominal = book["stud.step_depth"].value, job.stud.tap_end.nominal
    why = f"the tap end of {length(nominal, job)} does not go through a hole of {length(min(holes), job)}"
    if step > 0:
        yield Finding(
            "stud.step_depth",
            "ok",
            step,
            0.0,
            "mm",
            f"The step lies {length(step, job)} below the deck face: {why}",
            "geometry",
        )
    else:
        usual = f"give a step_depth, {length(STEP, job)} is usual"
        says = f"The step is not below the deck face and holds the head off: {why}; {usual}"
        yield Finding("stud.step_depth", "stop", step, 0.0, "mm", says, "geometry")


def head_location(book: Book, job: Job) -> Iterator[Finding]:
    """Something must hold the head over the bore."""
    if job.head is None or not job.instances("stud"):
        return
    shift = book["joint.head_float"].value if "joint.head_float" in book else None
    by = " by their clearance" if shift is None else f" by {printed(shift, 'mm', job.job.print_units)} to any side"
    verdict, says = {
        None: ("caution", f"Nothing is given that locates the head: on its studs it can shift{by}; give located_by"),
        "studs": ("caution", f"Only the studs locate the head: it can shift{by}; fit two dowels, or a spigot"),
        "dowels": ("ok", f"Dowels locate the head; on its studs alone it could shift{by}"),
        "spigot": ("ok", f"A spigot locates the head; on its studs alone it could shift{by}"),
    }[job.head.located_by]
    yield Finding("head.located_by", verdict, shift, None, "mm" if shift is not None else "1", says, PRACTICE)


def stud_held(book: Book, job: Job) -> Iterator[Finding]:
    """A stud is set to its projection and held there, never by bottoming it."""
    stud, engine = job.stud, job.engine
    if stud is None:
        return
    rated = stud.compound_rated
    states = {name: getattr(engine, name) for name in HEATS} if engine else {}
    heats = {name: state.barrel for name, state in states.items() if state is not None and state.barrel is not None}
    heights = []
    if "stud.projection" in book:
        heights.append(f"to stand {printed(book['stud.projection'].value, 'mm', job.job.print_units)} over the deck")
    name, limit = "stud.held_by", max(heats.values(), default=None) if rated is not None else None
    if "stud.bottom_room" in book:
        room = printed(book["stud.bottom_room"].value, "mm", job.job.print_units)
        heights.append(f"with {room} of full thread free below it")
    tall = "".join(f", {height}" for height in heights)
    if stud.held_by == "bottomed":
        verdict, says = "stop", "A stud run down to the bottom splits its boss when it is tightened: set it by height"
    elif stud.held_by == "interference":
        verdict, says = "ok", f"A tight thread holds the stud; set it{tall}"
    elif stud.held_by is None:
        verdict, says = (
            "caution",
            (
                "Nothing is given that holds the stud in the barrel: screw it in by two nuts locked together on its "
                f"end, in a retaining compound rated hot{tall}; and give held_by"
            ),
        )
    else:
        verdict, says = _compound(rated, heats, tall)
    yield Finding(name, verdict, rated, limit, "degC" if rated is not None else "1", says, PRACTICE)


def _compound(rated: float | None, heats: Mapping[str, float], tall: str) -> tuple[str, str]:
    """Whether a retaining compound stands the barrel's heat in each state, and how high the stud is set."""
    if rated is None:
        return "caution", "Look up what heat the retaining compound stands, and give compound_rated"
    if any(rated < heat for heat in heats.values()):
        return "caution", "The retaining compound does not stand the barrel's heat: take one that does"
    if "hot" not in heats:
        return "caution", f"{NOT_JUDGED} whether the compound stands the barrel's heat; give engine.hot.barrel"
    return "ok", f"The retaining compound stands the barrel's heat; set the stud{tall}"


def run_up_given(book: Book, job: Job) -> Iterator[Finding]:
    """The studs carry most while the head is hot and they are not."""
    known = [view for view, _, _ in scenes(book, job, "stud") if "joint.greatest_preload" in view]
    if not known or job.engine is None:
        return
    if job.engine.run_up is None:
        says = (
            "not judged: the run-up; the studs carry most in the first minutes, head hot and studs not yet, "
            "and that is not in the greatest preload; give its temperatures"
        )
        yield Finding("joint.run_up", "caution", None, None, "1", says, "VDI 2230-1, growth of the parts")
    else:
        yield Finding(
            "joint.run_up", "ok", None, None, "1", "The run-up is looked at too", "VDI 2230-1, growth of the parts"
        )
    if job.engine.hot is None:
        says = (
            f"{NOT_JUDGED} the engine run in; its heat loads the studs and softens the head, the threads and the studs "
            "themselves, and that is not in what is said of them; give engine.hot"
        )
        yield Finding("joint.run_in", "caution", None, None, "1", says, "VDI 2230-1, growth of the parts")


def opens_first(book: Book, job: Job) -> Iterator[Finding]:
    """Of studs of several kinds the weakest is named: where the head lifts first, all of them holding it together."""
    listed = job.instances("stud") if job.listed("stud") else ()
    kinds = [one for one in listed if one.real("joint.separation_factor") in book]
    if len(kinds) < 2:  # noqa: PLR2004
        return
    weakest = min(kinds, key=lambda one: book[one.real("joint.separation_factor")].value)
    factor, share = (book[weakest.real(f"joint.{n}")].value for n in ("separation_factor", "gas_share"))
    sure = factor - book.spread(weakest.real("joint.separation_factor"))
    hole = max(book.at(weakest).numbers("deck.hole"), key=lambda n: round(book[f"joint.hole.{n}.gas_share"].value, 6))
    caution, stop = caution_of("joint.separation_factor", least=True), stop_of("joint.separation_factor", least=True)
    verdict = "stop" if sure < stop else "caution" if sure < caution else "ok"
    says = (
        f"The head lifts first at hole {hole}, on a {weakest.name} stud, which takes {share:.2f} of the gas force: its "
        f"preload is {factor:.2f} times what opens the joint there"
    )
    yield Finding("joint.opens_first", verdict, factor, caution, "1", says, SPRINGS)


SPRINGS = "statics of a stiff head on springs; Shigley, Mechanical Engineering Design, ch. 8"


def joint_face_given(book: Book, job: Job) -> Iterator[Finding]:
    """A head presses on its raised face, not on the whole gasket."""
    if job.head is None or not any(n in book for n in ("gasket.seating_stress", "joint.gas_force")):
        return
    if job.head.joint_face is None:
        says = (
            "not judged: what presses on the gasket, and how hard; without joint_face the whole of it is taken as "
            "pressed, and its stress comes out low; blue the head, see what presses, and give its outside diameter"
        )
        yield Finding("gasket.joint_face", "caution", None, None, "1", says, PRACTICE)
    else:
        face = book[face_of(book)].value if face_of(book) in book else None
        yield Finding("gasket.joint_face", "ok", face, None, "mm", "The head's raised face is given", "job file")


def boss_given(book: Book, job: Job) -> Iterator[Finding]:
    """The metal round each stud limits the cone of pressure."""
    if "joint.boss" in book and job.head is not None and job.head.boss is None:
        boss = book["joint.boss"].value
        wide = printed(boss, "mm", job.job.print_units)
        says = f"No boss is given: metal of {wide} round each stud is assumed; measure it, and give head.boss"
        yield Finding("joint.boss", "caution", boss, None, "mm", says, ASSUMED)


def drilling_order(book: Book, job: Job) -> Iterator[Finding]:
    """Fill and cool first, drill what is in sound metal, then what is part filler; no torch after the bond."""
    fills = {own.old.fill for _, own, _ in scenes(book, job, "old") if own.old}
    if not fills:
        return
    shares = {str(n): book.get(f"deck.hole.{n}.in_filler") for n in book.numbers("deck.hole")}
    shared = [hole for hole, share in shares.items() if share is not None and share.value > 0]
    braze = (
        "Braze the old holes full before anything else, heated slowly and evenly, cooled slowly under cover "
        "(zinc fume and flux: ventilate, keep a fire watch), and plug no passage with a bond until all is cold"
    )
    screw = "Fit the screwed plugs before anything else"
    first = f"{braze}; then fit the screwed plugs" if len(fills) > 1 else braze if BRAZED in fills else screw
    if shared:
        says = f"{first}; then drill the holes in sound metal, and hole {', '.join(shared)}, part filler, last"
        yield Finding("deck.order", "caution", float(len(shared)), 0.0, "1", says, PRACTICE)
    elif "deck.hole.1.x" in book:
        yield Finding("deck.order", "ok", 0.0, 0.0, "1", f"{first}; no new hole runs into an old one", PRACTICE)


JUDGED = ("separation_factor", "proof_use", "lowest_preload", "tap_end_strip_force")
"""of the joint on the crankcase: without one of these it can't be judged"""


def crankcase_joint(book: Book, job: Job) -> Iterator[Finding]:
    """The barrel's other end carries the same force."""
    force = book["joint.gas_force"].value if "joint.gas_force" in book else None
    if job.base is not None:
        yield _crankcase_given(book, job)
    elif force is not None:
        says = "Not checked: the barrel's joint on the crankcase carries the same gas force; look at its studs too"
        yield Finding("joint.crankcase", "caution", force, None, "N", says, "not in this program's reach")


def _crankcase_given(book: Book, job: Job) -> Finding:
    """What of the joint on the crankcase is judged, and what is not."""
    needs = dict.fromkeys(n for size in JUDGED if f"base.{size}" not in book for n in book.needs(f"base.{size}"))
    force = book["base.gas_force"].value if "base.gas_force" in book else None
    verdict, says = "ok", "The barrel's joint on the crankcase is judged too; the piston's side thrust is not in it"
    if any(f"base.{size}" not in book for size in JUDGED):
        keys = ", ".join(n.removeprefix("job.") for n in needs)
        verdict, says = "caution", f"not judged: the barrel's joint on the crankcase wants {keys}"
    elif job.base is not None and job.base.through:
        verdict, long = "caution", length(book["base.stud.length"].value, job)
        says = (
            f"The head's studs reach the crankcase: turn them {long} long and go by what is said of that joint; "
            "the drawing of [stud] and the head joint's own numbers are of a stud that ends in the barrel"
        )
    return Finding("joint.crankcase", verdict, force, None, "N" if force is not None else "1", says, PRACTICE)


def bond_alone(_: Book, job: Job) -> Iterator[Finding]:
    """A bond alone should not hold a hot plug against pressure."""
    if job.plug is None or job.plug.fit != "bonded" or job.plug.shoulder is not None:
        return
    low, high = WEAKENS, caution_of("job.engine.hot.barrel")
    says = (
        f"Only the bond holds the plug, and it weakens above {heats(low, high, job)}: "
        "a shoulder, a thread or three stakes hold it whatever the heat"
    )
    yield Finding("plug.bond_alone", "caution", None, None, "1", says, PRACTICE)


def male_centre(_: Book, job: Job) -> Iterator[Finding]:
    """A small plug tap has a male centre that wants depth."""
    stud = job.stud
    if stud is None or stud.insert is None or stud.insert.tap != "plug" or stud.tap_end.nominal > SMALL_TAP:
        return
    more = 0.5 * stud.tap_end.nominal
    says = (
        f"A plug tap up to {length(SMALL_TAP, job)} has a male centre: look whether yours has, "
        f"and if so drill {length(more, job)} deeper"
    )
    yield Finding("insert.male_centre", "caution", more, None, "mm", says, "ASME B18.29.2M notes")


CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [  # kind of instance that it is about, if any
    ("stud", step_below_deck),
    ("", drilling_order),
    ("", head_location),
    ("stud", stud_held),
    ("stud", boss_given),
    *METAL_CHOICES,
    ("", opens_first),
    ("", run_up_given),
    ("", joint_face_given),
    ("", crankcase_joint),
    *(("base", choice) for choice in (step_below_deck, stud_held, boss_given)),
    ("plug", bond_alone),
    *COMPRESSION_CHOICES,
    *RING_CHOICES,
    ("stud", male_centre),
    *MEASURED_CHOICES,
    *PAIR_CHOICES,
    *PLUG_CHOICES,
    *PRELOAD_CHOICES,
    *USUAL_CHOICES,
    *TWO_STROKE_CHOICES,
    *DRAWING_CHOICES,
    *FIXTURE_CHOICES,
]

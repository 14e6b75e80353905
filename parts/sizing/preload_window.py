"""The preload's share, designed: the middle of what the joint asks for and of what stud, head and threads allow.

Every limit is that of a rule on a size that rises or falls with the preload in a straight line, solved for the share.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from parts.relations import preload_window as relation
from parts.sizing.hot import states_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job

    Names = dict[str, str | float]
    Times = tuple[float | None, float | None]

SEPARATION, LOWEST = (2.0, 1.0), (1.5, 1.0)  # caution and stop, times what opens the joint: nominal, and in any state
LEAST_SHARE, MOST_SHARE = (0.2, 0.1), (0.75, 0.9)
STRETCH = (2.0, 1.0)  # times the gas force
TIGHTENING = (1.0, 1.1)  # of what the stud stands
PROOF = (0.902, 1.0)  # of the proof load left; the policy aims at 0.90, the rest is for the tolerance of the readings
WASHER, NUT = (1.0, 2.0), (1.0, 1.5)  # of what head and washer bear
STRIP = 1.25  # times the greatest preload
BENDING, LIFT = (0.5, 1.0), 0.01  # of the yield strength hot; mm
SQUEEZED = (1.0, 2.0)  # of the gasket's tensile strength
CAUTION, STOP = 0, 1
KEY, LEAST, MOST = "job.stud.preload_share", "joint.preload_share_least", "joint.preload_share_most"
NEEDS = (
    *("joint.proof_load", "joint.opening_force", "hot.greatest_rise", "hot.run_in.rise", "hot.least_with_frost"),
    *("joint.embedding_loss", "gasket.creep_most", "head.creep_most"),
)
PRESSED = "gasket.pressed_each"
WORDS = {
    "rule": "the rule on the share itself",
    "separation": "that the gas does not open the joint",
    "first_run": "what the first run leaves",
    "later": "what is left later, and in frost",
    "seating": "seating the gasket",
    "seating_low": "seating the gasket where the tightening comes out low",
    "working_first": "holding the gasket at peak pressure in the first run",
    "working_later": "holding the gasket at peak pressure later",
    "stretch": "that the gas does not stretch the stud for good",
    "tightening": "pull and twist while the nut is turned",
    "proof_cold": "the stud's proof load, cold",
    "proof_run_in": "the stud's proof load, run in",
    "proof_run_up": "the stud's proof load in the run-up",
    "proof_hot_stop": "the stud's proof load after a hot stop",
    "washer": "what the head bears under the washer, hot",
    "nut": "what the washer bears under the nut",
    "nut_class": "the nut's class",
    "tap_end": "the thread in the barrel",
    "sound": "the thread in the barrel outside the filler",
    "nut_end": "the thread of the nut",
    "bending": "the bending of the head over its raised face",
    "lift": "the lift of the raised face at the bore",
    "squeezed": "what the gasket bears",
}


class Bound(NamedTuple):
    """One limit of the share: names of what it is worked out from, and the rule's figures for caution and stop."""

    name: str
    inputs: Names
    times: Times


def design_share(book: Book, job: Job) -> None:
    """Design the share of the proof load where the job gives none; the window that it lies in stands beside it."""
    if job.stud is None or KEY in book:
        return
    lacking = [name for name in NEEDS if name not in book]
    if lacking:
        book.lacks(KEY, *lacking)
        return
    low = [_ends(book, LEAST_SHARE, _lower(book), relation.share_left)[end] for end in (CAUTION, STOP)]
    high = [_ends(book, MOST_SHARE, _upper(book), relation.share_at_load)[end] for end in (CAUTION, STOP)]
    ends = {LEAST: low[CAUTION], "joint.preload_share_opens": low[STOP]}
    for name, limits in ends.items():
        book.add(name, relation.least_allowed, **limits)
    ends = {MOST: high[CAUTION], "joint.preload_share_breaks": high[STOP]}
    for name, limits in ends.items():
        book.add(name, relation.most_allowed, **limits)
    between = {"opens": "joint.preload_share_opens", "breaks": "joint.preload_share_breaks"}
    book.design(KEY, relation.share_between, least=LEAST, most=MOST, low=LEAST_SHARE[CAUTION], **between)
    if KEY not in book.made:
        book.remark(KEY, relation.share_between, f"from {deciding(book, LEAST)} to {deciding(book, MOST)}")


def deciding(book: Book, end: str) -> str:
    """The limit that one end of the window is, in words."""
    limits = book[end].inputs
    name = next(name for name, size in limits.items() if book.number(size) == book[end].value)
    return WORDS[name]


def _ends(
    book: Book, rule: tuple[float, float], bounds: Iterator[Bound], solved: Callable[..., float]
) -> tuple[dict[str, str | float], Names]:
    """Add the share of each bound that is known; names by what they are, for caution and for stop."""
    found: tuple[Names, ...] = ({"rule": rule[CAUTION]}, {"rule": rule[STOP]})
    for name, inputs, times in bounds:
        if not book.has(*(n for n in inputs.values() if isinstance(n, str))):
            continue
        for end, factor in enumerate(times):
            if factor is not None:
                size = f"joint.window.{name}{'_stop' * end}"
                book.add(size, solved, **inputs, times=factor)
                found[end][name] = size
    return found[0], found[1]


def _lower(book: Book) -> Iterator[Bound]:
    """What asks for preload."""
    proof, scatter = {"proof_load": "joint.proof_load"}, {"scatter": "joint.scatter"}
    settles: Names = {"embedding": "joint.embedding_loss", "gasket": "gasket.creep_most", "head": "head.creep_most"}
    settles |= {"hot": "hot.run_in.rise"}
    still: Names = {**settles, **proof, "to_come": 0.0, "rise": 0.0}
    states: dict[str, Names] = {
        "first": {**settles, **proof, **scatter, "to_come": 1.0, "rise": "hot.least_rise"},
        "later": {**settles, **proof, **scatter, "to_come": "joint.loss_to_come", "rise": "hot.least_with_frost"},
    }
    opening = "joint.opening_force"
    yield Bound("separation", {**still, "scatter": 0.0, "wanted": opening}, SEPARATION)
    yield Bound("first_run", {**states["first"], "wanted": opening}, LOWEST)
    yield Bound("later", {**states["later"], "wanted": opening}, LOWEST)
    if PRESSED not in book:
        return
    loads = {"seating": "gasket.seating_limit", "working": "gasket.working_limit", "blowing": "gasket.blow_pressure"}
    book.add("joint.load_seating", relation.load_for_stress, stress=loads["seating"], area=PRESSED)
    for name in ("working", "blowing"):
        book.add(f"joint.load_{name}", relation.load_for_working, stress=loads[name], area=PRESSED, opening=opening)
    yield Bound("seating", {**still, "scatter": 0.0, "wanted": "joint.load_seating"}, (1.0, None))
    yield Bound("seating_low", {**still, **scatter, "wanted": "joint.load_seating"}, (1.0, None))
    for state, inputs in states.items():
        yield Bound(f"working_{state}", {**inputs, "wanted": "joint.load_working"}, (1.0, None))
        yield Bound(f"working_{state}", {**inputs, "wanted": "joint.load_blowing"}, (None, 1.0))


def _upper(book: Book) -> Iterator[Bound]:
    """What allows no more preload."""
    gas = {"stud_share": "joint.stiffness_share", "gas": "joint.gas_force_each", "proof_load": "joint.proof_load"}
    scatter = {"scatter": "joint.scatter"}
    cold: Names = {**gas, "rise": 0.0}
    stretch: Names = {**cold, "scatter": 0.0, "limit": "joint.proof_load"}
    yield Bound("stretch", {**stretch, "counted": STRETCH[CAUTION]}, (1.0, None))
    yield Bound("stretch", {**stretch, "counted": STRETCH[STOP]}, (None, 1.0))
    yield Bound("tightening", {**cold, **scatter, "limit": "joint.tightening_limit", "counted": 0.0}, TIGHTENING)
    for state, rise, _ in states_of(book):
        hot: Names = {"limit": f"hot.{state}.proof_load", "rise": rise, "counted": 1.0}
        yield Bound(f"proof_{state}", {**gas, **scatter, **hot}, PROOF)
    greatest: Names = {**gas, **scatter, "rise": "hot.greatest_rise", "counted": 1.0}
    for name, load, times in _loads(book):
        yield Bound(name, {**greatest, "limit": load}, times)


def _loads(book: Book) -> Iterator[tuple[str, str, Times]]:
    """What the greatest load may come to: name of the limit, of the load, and the rule's figures."""
    bears: tuple[tuple[str, str, str, Times], ...] = (
        ("washer", "head.bearing_hot", "joint.washer_area", WASHER),
        ("nut", "joint.washer_strength", "joint.nut_area", NUT),
        ("squeezed", "gasket.tensile_strength", PRESSED, SQUEEZED),
    )
    for name, stress, area, times in bears:
        if book.has(stress, area):
            book.add(f"joint.load_{name}", relation.load_for_stress, stress=stress, area=area)
            yield name, f"joint.load_{name}", times
    yield "nut_class", "joint.nut_proof_load", (1.0, 1.0)
    for name, force in (
        ("tap_end", "joint.tap_end_strip_force"),
        ("sound", "strip.sound_force"),
        ("nut_end", "joint.nut_end_strip_force"),
    ):
        yield name, force, (1 / STRIP, 1 / STRIP)
    if book.has("joint.lever", PRESSED) and book["joint.lever"].value > 0:
        yield from _bent(book)


def _bent(book: Book) -> Iterator[tuple[str, str, Times]]:
    """What bends the head over a raised face that ends inside the studs."""
    studs = round(book["gasket.pressed_area"].value / book[PRESSED].value)  # of all kinds together
    ring: Names = {"inside": "gasket.bore_diameter", "outside": "joint.head_outside"}
    ring |= {"thickness": "job.head.thickness", "count": studs, "lever": "joint.lever"}
    lifts: Names = {"lift": LIFT, "modulus": "head.modulus", "width": "gasket.pressed_width"}
    bent: tuple[tuple[str, Names, Callable[..., float], Times], ...] = (
        ("bending", {"stress": "head.yield_hot"}, relation.load_that_bends, BENDING),
        ("lift", lifts, relation.load_that_lifts, (1.0, None)),
    )
    for name, given, load, times in bent:
        inputs = {**given, **ring}
        if book.has(*(n for n in inputs.values() if isinstance(n, str))):
            book.add(f"joint.load_{name}", load, **inputs)
            yield name, f"joint.load_{name}", times

"""Between what limits a size may come out: what the sheets print, and what a measured size is held against."""

from __future__ import annotations

from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import TYPE_CHECKING, NamedTuple

from parts import tables
from parts.book import rounded
from parts.job.models import WITHIN
from parts.sizing.general import general
from parts.sizing.inserts import SET_DOWN
from parts.sizing.ring_held import OPEN_HELD, SLIT_UNDER
from parts.sizing.scenes import scene_of
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job

INSIDE, STANDS = "inside its limits", "outside and stands"
SAVED, SCRAP = "outside and can be saved", "scrap"
SHAFT, HOLE, NEITHER = 1, -1, 0
SHANK_HELD = 0.1  # mm below its figure: common practice, no source; more makes the stud weaker, not stiffer
BOND_HELD = 0.02  # mm below the figure, on diameter: common practice, no source
INSIDE_HELD = 0.05  # mm over the figure, of a ring's inside: common practice, no source
FREE_GAP_HELD = 0.03  # of the free gap: common practice, no source
WIDTH_HELD = 0.02  # mm below the figure: common practice, no source; the ring is lapped to its groove
SEAT_HELD = 0.05  # mm either way, of the pin form's disc and the pin's place: common practice, no source
PIN_HELD = 0.02  # mm over the figure of the pin's hole, and as much below it of the pin: common practice, no source
SHOULDER_HELD = 0.1  # mm below the figure, of a plug's shoulder: common practice, no source
WRENCH_HELD = 0.05  # of the torque: common practice, no source
STRETCH_HELD = 0.1  # of a stud's stretch, or of the angle that gives it: common practice, no source
TO_LAP = 0.05  # mm of a ring's height over its figure before it is lapped: common practice, no source
EDGES, RING_EDGES = 0.2, 0.1  # mm that sharp edges are broken by: common practice, no source
RING_FLAT = 0.01  # mm, of a ring's sides, flat and parallel: common practice, no source
PLATE_FLAT = 0.02  # mm, of the face that bears on the rings: common practice, no source
FLUSH = 0.05  # mm under the deck that a gasket bridges: common practice, no source
PREHEAT = 200.0  # degC, of a grey iron casting that is brazed, at least: common practice, no source
COOLING = 50.0  # degC an hour, at most, of a brazed casting: common practice, no source
SQUARE = 0.02  # mm that a bore may lean over its height while the deck is cut: common practice, no source
STUB = 15.0  # mm of a screwed plug over the deck, to turn it by: common practice, no source
PIN = 3.0  # mm, of what pins a screwed plug: common practice, no source


@dataclass(frozen=True, slots=True)
class Limits:
    """Lower and upper limit of a size, either of them open."""

    low: float | None
    high: float | None
    source: str
    metal: int = NEITHER
    """on which side there is metal left to take off: SHAFT above, HOLE below"""

    def miss(self, value: float) -> float:
        """How far a value lies beyond: below 0 under the lower limit, above 0 over the upper one."""
        if self.low is not None and value < self.low - EXACT:
            return value - self.low
        if self.high is not None and value > self.high + EXACT:
            return value - self.high
        return 0.0

    def saved(self, value: float) -> bool:
        """Tell whether what is wrong can still be taken off."""
        return self.miss(value) * self.metal > 0


EXACT = 1e-9


class Held(NamedTuple):
    """Between what limits sizes of such a name may come out."""

    pattern: str
    """of names"""
    between: Callable[[Book, str], tuple[float | None, float | None] | None]
    """lower and upper limit; None: the next one that fits"""
    metal: int
    source: str


def within(below: float, above: float) -> Callable[[Book, str], tuple[float | None, float | None]]:
    """Limits so far below and above the size."""
    return lambda book, name: (book[name].value - below, book[name].value + above)


def share(part: float) -> Callable[[Book, str], tuple[float | None, float | None]]:
    """Limits a share of the size to either side."""
    return lambda book, name: (book[name].value * (1 - part), book[name].value * (1 + part))


def at_least(book: Book, name: str) -> tuple[float | None, float | None]:
    """No less than the size."""
    return book[name].value, None


def of_length(book: Book, name: str) -> tuple[float | None, float | None]:
    """General tolerance of a length."""
    half = general(book[name].value)
    return book[name].value - half, book[name].value + half


def reamed(book: Book, name: str) -> tuple[float | None, float | None]:
    """A hole H7."""
    value = book[name].value
    try:
        return value, value + tables.it_grade(value, 7).value
    except ValueError:
        return of_length(book, name)


def drilled(book: Book, name: str) -> tuple[float | None, float | None] | None:
    """A tapping drill's hole, between the limits of the thread's minor diameter."""
    hole = name.partition(".")[0]
    names = f"{hole}.tapped_minor", f"{hole}.tapped_minor_max"
    return (book[names[0]].value, book[names[1]].value) if book.has(*names) else None


def placed(book: Book, name: str) -> tuple[float | None, float | None]:
    """A hole's coordinate: its place is held along X and along Y, each by itself."""
    half = book.number("job.barrel.drilled_within") if "job.barrel.drilled_within" in book else WITHIN
    return book[name].value - half, book[name].value + half


def sunk(book: Book, _: str) -> tuple[float | None, float | None]:
    """First coil of an insert, by the standard that was asked for."""
    pitch, turns = book["insert.pitch"].value, book["insert.set_down_turns"].value
    low, high = next(allowed for taken, allowed, _ in SET_DOWN.values() if taken == turns)
    return low * pitch, high * pitch


def bonded(book: Book, name: str) -> tuple[float | None, float | None] | None:
    """A plug that is bonded: the press fit has its own limits."""
    return None if "plug.diameter_min" in book else (book[name].value - BOND_HELD, book[name].value)


def of_seat(book: Book, name: str) -> tuple[float | None, float | None] | None:
    """A round seat, by what its error does to the open gap, where that was solved; a contoured one is no diameter."""
    if "mandrel.seat_held" not in book or "mandrel.profile" in book:
        return None
    half = book["mandrel.seat_held"].value
    return book[name].value - half, book[name].value + half


def of_shape(book: Book, _: str) -> tuple[float | None, float | None]:
    """Free width of a ring between a sharp back and a round mandrel's shape."""
    return book["ring.free_width_least"].value, book["ring.free_width_most"].value


ISO_2768 = "ISO 2768-m"
HELD: list[Held] = [  # the first that fits and has an answer
    Held("stud.shank_diameter", within(SHANK_HELD, 0.0), SHAFT, PRACTICE),
    Held("stud.step_depth", of_length, NEITHER, ISO_2768),
    Held("stud.projection", of_length, NEITHER, ISO_2768),
    Held("stud.*length", of_length, SHAFT, ISO_2768),
    Held("plug.diameter", bonded, SHAFT, PRACTICE),
    Held("job.plug.shoulder.diameter", within(SHOULDER_HELD, 0.0), SHAFT, PRACTICE),
    Held("plug.counterbore_diameter", within(SHOULDER_HELD, SHOULDER_HELD), HOLE, PRACTICE),
    Held("plug.counterbore_depth", within(SHOULDER_HELD, 0.0), HOLE, PRACTICE),
    Held("plug.whole_length", of_length, SHAFT, ISO_2768),
    Held("plug.below_deck", within(0.0, FLUSH), NEITHER, PRACTICE),
    Held("job.plug.hole", reamed, HOLE, "ISO 286, H7"),
    Held("job.barrel.passages.*.diameter", reamed, HOLE, "ISO 286, H7"),
    Held("*.tap_drill", drilled, HOLE, "limits of the thread's minor diameter"),
    Held("*.drill_depth", at_least, HOLE, "room for the tap"),
    Held("screwed.length", at_least, HOLE, "room for the plug"),
    Held("*.full_thread_depth", at_least, HOLE, "room for the insert or stud"),
    Held("insert.set_down", sunk, HOLE, "ASME B18.29.2M-2005 or DIN 8140, as the insert"),
    Held("deck.hole.*.x", placed, NEITHER, "drilled_within of the job file"),
    Held("deck.hole.*.y", placed, NEITHER, "drilled_within of the job file"),
    Held("ring.inside_diameter", within(0.0, INSIDE_HELD), HOLE, PRACTICE),
    Held("job.ring.axial_width", within(WIDTH_HELD, 0.0), SHAFT, PRACTICE),
    Held("job.ring.slit", within(SLIT_UNDER, 0.0), HOLE, PRACTICE),
    Held("ring.free_gap*", share(FREE_GAP_HELD), NEITHER, PRACTICE),
    Held("ring.free_width", of_shape, NEITHER, "free shape of the thin curved bar (derived)"),
    Held("mandrel.open_gap", share(OPEN_HELD), NEITHER, PRACTICE),
    Held("mandrel.flange_diameter", of_length, SHAFT, ISO_2768),
    Held("mandrel.flange_thickness", of_length, SHAFT, ISO_2768),
    Held("mandrel.seat_height", of_length, SHAFT, ISO_2768),
    Held("joint.proof_spacer", of_length, SHAFT, ISO_2768),
    Held("mandrel.pin_diameter", within(PIN_HELD, 0.0), SHAFT, PRACTICE),
    Held("mandrel.pin_position", within(SEAT_HELD, SEAT_HELD), NEITHER, PRACTICE),
    Held("mandrel.disc_turned", within(SEAT_HELD, SEAT_HELD), SHAFT, PRACTICE),
    Held("mandrel.hole_diameter", of_length, HOLE, ISO_2768),
    Held("mandrel.diameter", of_seat, SHAFT, "what moves the open gap by its own limits (derived)"),
    Held("mandrel.*diameter", within(SEAT_HELD, SEAT_HELD), NEITHER, PRACTICE),
    Held("gasket.bore_diameter", of_length, HOLE, ISO_2768),
    Held("gasket.hole_diameter", of_length, HOLE, ISO_2768),
    Held("job.gasket.thickness", within(0.05, 0.05), NEITHER, PRACTICE),
    Held("job.barrel.skim", within(0.05, 0.05), HOLE, PRACTICE),
    Held("job.barrel.old_holes.diameter", within(0.3, 0.3), HOLE, PRACTICE),
    Held("job.engine.bore", within(0.02, 0.02), HOLE, PRACTICE),
    Held("compression.squish", within(0.1, 0.1), NEITHER, PRACTICE),
    Held("joint.stretch", share(STRETCH_HELD), HOLE, PRACTICE),
    Held("joint.nut_angle", share(STRETCH_HELD), HOLE, PRACTICE),
    Held("joint.torque", share(WRENCH_HELD), HOLE, f"usual wrench, {100 * WRENCH_HELD:g} %: {PRACTICE}"),
]


def is_general(book: Book, name: str) -> bool:
    """Tell whether a size is held to the general tolerances alone: sheets print it as drawings do, to a tenth."""
    held = _held(book, name) if name in book else None
    return held is not None and held[0].between is of_length


def _held(book: Book, name: str) -> tuple[Held, tuple[float | None, float | None]] | None:
    """The first that fits a size and has an answer, and that."""
    fitting = (one for one in HELD if fnmatchcase(name, one.pattern))
    return next(((one, ends) for one in fitting if (ends := one.between(book, name))), None)


THREADS = ("_pitch_diameter", "_major", "_over_wires")
ENDS = (("_min", "_max"), ("_low", "_high"))


def limits_of(book: Book, name: str) -> Limits | None:
    """Look up the limits of a size.

    Parameters
    ----------
    book : Book
        As planned
    name : str
        Of the size; of one that is planned as two limits without their ending

    Returns
    -------
    limits : Limits or None
        In the size's own unit; None where nothing limits it
    """
    for low, high in ENDS:
        if book.has(name + low, name + high):
            metal = SHAFT if name.endswith(THREADS) or name == "plug.diameter" else NEITHER
            return Limits(book[name + low].value, book[name + high].value, book[name + low].source, metal)
    if name in book and (held := _held(book, name)):
        one, ends = held
        return Limits(*ends, one.source, one.metal)
    own = book.limits(name) if name in book else None
    return Limits(own[0], own[1], "what is held or was measured", CUT.get(name, NEITHER)) if own else None


CUT = {"ring.outside_diameter": SHAFT, "ring.closed_gap": HOLE}


def as_listed(book: Book, job: Job, name: str) -> list[float] | None:
    """Lower and upper limit of a size, by its name in the whole book, as files hold them; None without both."""
    view, _, _ = scene_of(book.plan or book, job, name)
    limits = limits_of(view, view.local(name))
    if limits is None or limits.low is None or limits.high is None:
        return None
    return [rounded(limits.low), rounded(limits.high)]

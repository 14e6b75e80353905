"""What was measured of the work, put in the place of what was planned, and what follows from it."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from parts import units
from parts.book import Book, Entry, docstring_record
from parts.errors import Fault, JobError
from parts.relations import as_made as relation
from parts.relations.stud import as_given
from parts.sizing.plug import hole_name

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.job import Job
    from parts.job.made import Made

PAIRS = (("_min", "_max"), ("_low", "_high"))
"""a size that is planned as two limits is measured as one"""
KINDS = {
    "mm": "length", "deg": "angle", "degC": "temperature", "MPa": "pressure", "mm^3": "volume", "N": "force",
    "N m": "torque", "min": "time",
}  # fmt: skip
FOLLOWED = ("stud", "ring", "base", "through")
"""kinds of instance that have sizes which move with measured ones"""
HINTS = 20  # names that are told the nearest one: looking for it takes a tenth of a second
AREAS = {"stud.nut_end": "stud.stress_area", "stud.tap_end": "stud.tap_end_stress_area"}


def ends(name: str, plan: Book) -> tuple[str, str] | None:
    """Names of the two limits that a size is planned as, or None where it is planned as itself."""
    return next(((name + low, name + high) for low, high in PAIRS if plan.has(name + low, name + high)), None)


def overrides(plan: Book, made: Made) -> dict[str, Entry]:
    """Entries that stand in the place of planned ones.

    Parameters
    ----------
    plan : Book
        The job as planned
    made : Made
        What was measured

    Returns
    -------
    entries : dict of Entry
        What was measured, and what moves with it, by their names

    Raises
    ------
    JobError
        Names that are no size of the job, values that are none of that size; all at once.
    """
    read, faults = dict[str, Entry](), list(made.faults)
    wrong = {fault.key for fault in faults}
    for name, text in made.values.items():
        if f"made.{name}" in wrong:
            continue
        try:
            read[name] = _read(plan, name, text, hints=len(faults) < HINTS)
        except ValueError as error:
            faults.append(Fault(f"made.{name}", str(error)))
    if faults:
        raise JobError(*faults)
    out = dict(read)
    for name, entry in read.items():
        out.update(dict.fromkeys(ends(name, plan) or (), entry))
    return out


def _read(plan: Book, name: str, text: str | float, *, hints: bool) -> Entry:
    _refuse_pitch(plan, name)
    unit = _unit(plan, name, hints=hints)
    if name in plan and isinstance(plan[name].value, str):
        raise ValueError(f"is chosen, not measured: give {name.removeprefix('job.')} in the job file")
    if unit == "1":
        if isinstance(text, str):
            raise ValueError(f"is a pure number, like {plan[name].value:.4g}, not {units.shown(text)}")
        return Entry(float(text), unit, "made", AT_THE_BENCH, "as measured")
    if unit not in KINDS:
        raise ValueError(f"can't be measured at the bench: it is worked out in {unit}")
    value, spread = units.read(text, KINDS[unit])
    return Entry(value, unit, "made", AT_THE_BENCH, "as measured", spread=spread)


def _refuse_pitch(plan: Book, name: str) -> None:
    """A thread's pitch is right or wrong: what is measured in hundredths over it is the pitch diameter."""
    if name not in plan or not name.endswith(PITCHES):
        return
    pitch = plan[name].value
    diameter = f"{name.removesuffix('.pitch')}.tapped_pitch_diameter" if name.endswith(".pitch") else f"{name}_diameter"
    raise ValueError(f"is the thread's pitch, {pitch:.4g} mm by its name: the pitch diameter is {diameter}")


PITCHES = ("_end_pitch", ".pitch", ".bolt_pitch")


def _unit(plan: Book, name: str, *, hints: bool) -> str:
    known = name if name in plan else (ends(name, plan) or ("",))[0]
    if known in plan and not isinstance(plan[known].value, list):
        return plan[known].unit
    if name in plan.left_out:
        needs = ", ".join(n.removeprefix("job.") for n in plan.needs(name))
        raise ValueError(f"can't be judged yet: it needs {needs}")
    names = [n for n in (*plan, *_wholes(plan)) if not n.endswith(LIMIT)] if hints else []
    near = difflib.get_close_matches(name, names, 2, 0.5)
    hint = f"; did you mean {' or '.join(near)}?" if near else "; topend check lists all sizes"
    raise ValueError(f"is not a size of this job{hint}")


AT_THE_BENCH = "measured at the bench"
LIMIT = tuple(end for pair in PAIRS for end in pair)


def _wholes(plan: Book) -> Iterator[str]:
    for low, high in PAIRS:
        yield from (n.removesuffix(low) for n in plan if n.endswith(low) and n.removesuffix(low) + high in plan)


def through_too(book: Book, job: Job) -> None:
    """Put in what was measured of the head's studs for the crankcase joint too, where they reach it."""
    plan = book.plan or book
    for joint in job.instances("through"):
        for name, entry in [*book.made.items()]:
            here = joint.real(name)
            if name.startswith(("stud.", "insert.", "tapped.", "joint.torque")) and (here in plan or ends(here, plan)):
                book.made.setdefault(here, entry._replace(status="computed", inputs={"size": name}))


def follow(book: Book) -> None:
    """Put in what moves with what was measured: each a size that the plan works out the other way round."""
    for end in AREAS:
        _threads(book, end)
    _shallow(book)
    _preload(book)
    _trial(book)


def _put(book: Book, name: str, rule: Callable[..., float], **inputs: str | float) -> None:
    """Work out an override; a name behind `planned.` is the planned size, any other what was measured."""
    plan = book.plan or book
    values: dict[str, float] = {}
    for argument, given in inputs.items():
        if not isinstance(given, str):
            values[argument] = given
        elif given.startswith("planned."):
            values[argument] = _planned(book, given)
        else:
            values[argument] = (book.made.get(given) or plan[given]).value
    equation, unit, source = docstring_record(rule)
    value = round(rule(**values), 9)
    book.made[name] = Entry(value, unit, "computed", source, equation, inputs, 0.0, rule)


def _planned(book: Book, name: str) -> float:
    """Value of a size as it was planned, noted under `planned.<name>`."""
    plan = book.plan or book
    was = plan[name.removeprefix("planned.")]
    if name not in book:
        book.enter(name, was.value, was.unit, "computed", "as planned")
    return float(was.value)


def _threads(book: Book, end: str) -> None:
    """A thread measured over wires gives its pitch diameter; one under its limit has less to pull on."""
    plan, wires, pitch = book.plan or book, f"{end}_over_wires", f"{end}_pitch_diameter"
    if wires in book.made and f"{pitch}_min" not in book.made:
        moved = {"planned": f"planned.{pitch}_max", "made": wires, "was": f"planned.{wires}_max"}
        for limit in ("_min", "_max"):
            _put(book, pitch + limit, relation.moved_with, **moved)
    area = AREAS[end]
    if f"{pitch}_min" in book.made and area in plan:
        miss = plan[f"{pitch}_min"].value - book.made[f"{pitch}_min"].value
        if miss > 0:
            _put(book, area, relation.area_of_thin_thread, planned=f"planned.{area}", miss=miss)


def _shallow(book: Book) -> None:
    """A hole tapped less deep has room for less thread."""
    for hole, length in (("insert", "insert.nominal_length"), ("tapped", "tapped.engagement")):
        depth = f"{hole}.full_thread_depth"
        plan = book.plan or book
        if depth in book.made and length not in book.made and book.made[depth].value < plan[depth].value:
            was = {"planned": f"planned.{length}", "made": depth, "was": f"planned.{depth}"}
            _put(book, length, relation.thread_left, **was)
            drill = f"{hole}.drill_depth"
            if drill not in book.made:  # the hole was drilled before it was tapped
                _put(book, drill, as_given, length=f"planned.{drill}")


TELLS = ("joint.stretch", "joint.nut_angle", "joint.torque")
"""what tells how hard a nut was tightened, the surest first"""


def _preload(book: Book) -> None:
    """Stretch, angle and torque each tell the preload: the surest of those that were measured is believed."""
    told = next((name for name in TELLS if name in book.made), None)
    if told and "joint.preload" not in book.made and "joint.preload" in (book.plan or book):
        was = {"planned": "planned.joint.preload", "made": told, "was": f"planned.{told}"}
        _put(book, "joint.preload", relation.in_proportion, **was)


def _trial(book: Book) -> None:
    """A trial ring's free gap tells what the heat set: the mandrel is sized anew for it."""
    plan, inside, mean = book.plan or book, "ring.free_gap_inside", "ring.free_gap"
    if inside in book.made and mean not in book.made:
        was = {"planned": f"planned.{mean}", "made": inside, "was": f"planned.{inside}"}
        _put(book, mean, relation.moved_with, **was)
    share = "job.ring.heat_set.set_fraction"
    if mean in book.made and share not in book.made and "mandrel.open_gap" in plan:
        opened = book.made.pop("mandrel.open_gap", None)  # of the mandrel it was set on: the next is another
        gap = opened.value if opened else "planned.mandrel.open_gap"
        _put(book, share, relation.set_fraction, free_gap=mean, slit="job.ring.slit", open_gap=gap)


def size_made(book: Book, _: Job) -> None:
    """Add the sizes that make a miss good."""
    plan = book.plan
    if plan is None:
        return
    for name, entry in book.made.items():
        book.setdefault(name, entry)
    thickness = "job.gasket.thickness"
    for size, rule, now in (
        ("squish", relation.gasket_for_squish, {"squish": "compression.squish"}),
        (
            "ratio",
            relation.gasket_for_ratio,
            {"clearance": "compression.clearance_after", "bore": "gasket.bore_diameter"},
        ),
    ):
        was = next(iter(now.values()))
        if book.has(thickness, *now.values()) and was in plan and book[was].value != plan[was].value:
            _planned(book, f"planned.{was}")
            book.add(f"compression.gasket_for_{size}", rule, thickness=thickness, planned=f"planned.{was}", **now)


def size_pocket(book: Book, job: Job) -> None:
    """Add what lies over a plug that ended below the deck."""
    if (
        book.plan is None
        or job.plug is None
        or book.number("plug.below_deck" if "plug.below_deck" in book else 0.0) <= 0
    ):
        return
    hole = hole_name(job, job.plug)
    book.add("plug.pocket_volume", relation.depth_of_pocket, below="plug.below_deck", diameter=hole)

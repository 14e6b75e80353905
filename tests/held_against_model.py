"""The product's sizes and verdicts held against the second model's, on the jobs that the model draws.

The model judges in bundles of several checks each. A bundle is held against the worst of the findings named here; what the
model can't judge wants a finding that says "not judged:", unless the product takes a value and says so.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, field
from fnmatch import fnmatchcase
from typing import TYPE_CHECKING

from parts import JobError, judge, load, size
from parts.judging.finding import NOT_JUDGED, WORST
from parts.judging.rules import RULES, Of
from tests import second_model

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

WAIT = "not judged"
UNHELD = "joint.bore_inside"
"""a stop where the studs don't hold the head at all: what each would carry is then not worked out"""
NOT_ASKED = {"lathe": "turning."}
"""table that a file may do without, though the model would like it"""
BUNDLES = {  # the model's name, * for one of several -> names of findings, {} for the same one
    "deck.metal": ("deck.hole.*.to_*", "deck.thinnest", "deck.hole.*.unsound", "deck.hole.*.in_filler"),
    "deck.filler": ("deck.hole.*.in_filler", "deck.hole.*.unsound", "deck.hole.*.screwed_plug"),
    "deck.old": ("deck.old.*.to_bore", "deck.old.*.to_edge", "deck.old.*.to_next"),
    "deck.old_depth": ("deck.old.*.floor",),
    "deck.passage": ("deck.thinnest", "deck.old.*.to_passage"),
    "deck.*floor": ("deck.{}floor", "deck.thinnest"),
    "fill.material": ("deck.old.*.fill",),
    "stud.*step": ("stud.{}step_depth", "stud.{}shank_diameter", "assembly.{}tap_end.gasket", "assembly.{}stud.head"),
    "head.located_by": ("head.located_by",),
    "joint.surround": ("joint.bore_inside",),
    "stud.*proof_use": ("joint.{}proof_use", "joint.run_up", "joint.run_in", UNHELD),
    "joint.*separation": ("joint.{}lowest_preload", "joint.{}separation_factor", "gasket.joint_face", UNHELD),
    "joint.*washer_pressure": ("joint.{}washer_pressure", UNHELD),
    "strip.*tap_end": ("joint.{}tap_end_strip_force", "strip.{}sound_force", "joint.run_in", UNHELD),
    "strip.*engagement": ("strip.{}tap_end_engagement",),
    "strip.*nut": ("joint.{}nut_end_strip_force", "joint.{}nut_proof_load", "joint.run_in", UNHELD),
    "turning.*taper": ("turning.{}sections", "turning.{}slenderness"),
    "head.bending": ("joint.bending_stress", "joint.*.bending_stress", UNHELD),
    "gasket.land": ("gasket.narrowest_land",),
    "gasket.bore": ("gasket.overhang",),
    "gasket.seating": ("gasket.joint_face", "gasket.*seating_stress", "gasket.working_stress", UNHELD),
    "plug.*bond": ("plug.{}bond_*", "job.plug.bond_clearance", "job.plug.*.bond_clearance"),
    "plug.*press": ("plug.{}push_out_times", "plug.{}interference_*"),
    "plug.*hoop": ("plug.{}hoop_share", "plug.{}own_share"),
    "ring.*working_stress": ("ring.{}working_stress",),
    "ring.*fitting_stress": ("ring.{}fitting_share",),
    "ring.*side_clearance": ("ring.{}side_clearance",),
    "ring.*back_clearance": ("ring.{}back_clearance",),
    "ring.*closed_gap": ("ring.{}closed_gap",),
    "ring.*hot_gap": ("ring.{}hot_gap",),
    "ring.*contact_pressure": ("ring.{}contact_pressure",),
    "ring.*slenderness": ("ring.{}slenderness",),
    "ring.*pressing": ("ring.{}pressure_ratio_least", "ring.{}light_gap", "mandrel.{}seat_error"),
    "ring.*heat_set": ("job.ring.{}heat_set.temperature", "mandrel.{}material", "ring.{}mandrel"),
    "mandrel.*opened_stress": ("mandrel.{}opened_stress",),
    "compression.squish": ("compression.squish", "compression.old_gasket", "usual.*squish"),
    "compression.ratio": (
        "compression.ratio_change",
        "compression.old_gasket",
        "compression.chambers",
        "usual.compression.*",
    ),
    "input.plausible": ("usual.*",),
    "ports": ("port.*", "job.engine.ports.*", "engine.ports", "ring.*end_to_port", "ring.*peg"),
    "liner": ("liner.*", "usual.barrel.liner*"),
    "base": ("joint.crankcase",),
}
CONES, LINEAR = 0.12, 0.01
BY_CONES = ("stud.*proof_use", "joint.*separation", "joint.*washer_pressure", "strip.*tap_end", "strip.*nut")


def near_its_limit(bundle: str, _: str, why: str) -> bool:
    """Whether a size that hangs on the stiffness of what is clamped lies so near its limit that the cones decide.

    "30 degree frusta cut off at the boss" leaves open whether a second cone rises from the thread: the model has one, the
    product, whose raised face takes the load off the cone before it gets there, has not.
    """
    figures = [float(f) for f in re.findall(r"-?\d+\.?\d*(?:e[-+]?\d+)?", why)]
    return bundle in BY_CONES and len(figures) > 1 and abs(figures[-2] - figures[-1]) <= CONES * abs(figures[-1])


def at_its_limit(_: str, __: str, why: str) -> bool:
    """Whether a size is its limit but for the last digit of a float: the record is rounded to 1e-9."""
    told = re.search(r"(\S+) is (?:under|over) (\S+)$", why)
    return told is not None and told[1] == told[2]


def linear_rule(bundle: str, _: str, why: str) -> bool:
    """Whether the stress on the expander is its limit within the 1 % that the linear rule of the opening may be off."""
    figures = [float(f) for f in re.findall(r"\d+\.?\d*", why)]
    return bundle == "mandrel.*opened_stress" and len(figures) > 1 and abs(figures[-2] / figures[-1] - 1) < LINEAR


SETTLED: dict[str, Callable[[str, str, str], bool]] = {
    "cones": near_its_limit,
    "rounding": at_its_limit,
    "linear": linear_rule,
}
"""causes that the contract leaves open -> whether one holds for a bundle, the verdict here and why there"""


@dataclass
class Held:
    """What came of one job, or of many."""

    jobs: int = 0
    refused: list[str] = field(default_factory=list)
    bundles: Counter[str] = field(default_factory=Counter)
    milder: list[tuple[int, str, str, str, str]] = field(default_factory=list)
    """seed, bundle, verdict here, verdict there, why there"""
    open: Counter[str] = field(default_factory=Counter)
    """how often a verdict is milder for a cause in SETTLED"""
    sizes: Counter[str] = field(default_factory=Counter)
    """how often each size agrees"""
    apart: list[tuple[int, str, float, float]] = field(default_factory=list)
    """seed, size, here, there"""


def held(seed: int, into: Held | None = None) -> Held:
    """Draw a job, size and judge it twice, and note what is apart."""
    into = into or Held()
    held_text(second_model.draw(seed), seed, into)
    return into


def held_text(text: str, seed: int, into: Held) -> None:
    """Size and judge a job twice, and note what is apart."""
    try:
        job = load(text)
        book = size(job)
    except JobError as e:
        into.refused.append(f"{seed}: {e}")
        return
    into.jobs += 1
    found, theirs = judge(book, job), with_taken(second_model.read(text), book)
    compare_sizes(seed, book, theirs, into)
    for name, (verdict, why) in second_model.verdicts(theirs).items():
        here = worst_in(name, found, book, why)
        if here is None or (WAIT in why and any(t not in theirs for t in NOT_ASKED if name.startswith(NOT_ASKED[t]))):
            continue
        bundle = bundle_of(name)[0]
        into.bundles[bundle] += 1
        if WORST[here] < WORST[verdict]:
            settled = next((what for what, holds in SETTLED.items() if holds(bundle, here, why)), None)
            if settled:
                into.open[settled] += 1
            else:
                into.milder.append((seed, name, here, verdict, why))


def together(many: Iterable[Held]) -> Held:
    """What came of all of them."""
    found = Held()
    for one in many:
        found.jobs += one.jobs
        for kind in ("refused", "milder", "apart"):
            getattr(found, kind).extend(getattr(one, kind))
        for kind in ("bundles", "sizes", "open"):
            getattr(found, kind).update(getattr(one, kind))
    return found


CLOSE = 1e-6
OTHERWISE = {
    "mandrel.open_gap": "linear in the set fraction here, exact there: within 0.5 %",
    "mandrel.opened_stress": "follows it",
    "joint.gas_share": "a share of the force here, a force there",
    "mandrel.seat_height": "lower than the stack here, so that a plate bears on the rings alone",
}
"""sizes that are other by intent"""


def compare_sizes(seed: int, book, theirs: dict, into: Held) -> None:
    """Note which sizes agree; what the definitions leave open is not compared."""
    there = second_model.sizes(theirs)
    several = "|".join(
        one for kind in ("stud", "plug", "ring") for one, _ in second_model.instances(theirs, kind) if one
    )
    for name, value in there.items():
        here = book[name].value if name in book else None
        plain = re.sub(rf"\.({several})", ".", name) if several else name
        if not isinstance(here, int | float) or not isinstance(value, int | float) or plain in OTHERWISE:
            continue
        if abs(here - value) <= CLOSE * max(1.0, abs(value)):
            into.sizes[plain] += 1
        elif not there.doubt.get(name):
            into.apart.append((seed, name, here, value))


TAKEN = {
    "shank": "stud.{}shank_diameter",
    "preload_share": "joint.{}preload_share",
    "nut_end_length": "stud.{}nut_end_length",
    "engagement": "tapped.{}engagement",
    "step_depth": "stud.{}step_depth",
}
"""what the contract lets a stud's table leave out -> the size that the product takes in its place, and says so"""


def with_taken(job: dict, book) -> dict:
    """The model's job with what the product took for keys that were left out: the model judges the same stud."""
    for infix, stud in second_model.instances(job, "stud"):
        for key, name in TAKEN.items():
            if key not in stud and name.format(infix) in book:
                stud[key] = book[name.format(infix)].value
        boss = f"joint.{infix}boss"
        if boss in book and "head" in job:
            job["head"].setdefault("boss", book[boss].value)
    return job


def bundle_of(name: str) -> tuple[str, str]:
    """The bundle that a name of the model's is of, and which of several it is about, with its dot."""
    if name in BUNDLES:
        return name, ""
    start, *middle, last = name.split(".")
    return f"{start}.*{last}", "".join(f"{part}." for part in middle)


def worst_in(name: str, found: list, book, why: str) -> str | None:
    """The worst verdict here on what a bundle is about; None where the product has no such rule."""
    bundle, which = bundle_of(name)
    if bundle not in BUNDLES:
        return None
    names = [pattern.format(which) for pattern in BUNDLES[bundle]]
    own = [f for f in found if any(fnmatchcase(f.name, n) for n in names)]
    own += [f for f in found if f.says.startswith(NOT_JUDGED) and _waits_for(names, which, f.says, why, book)]
    return max((f.verdict for f in own), key=WORST.__getitem__, default="ok")


def _plain(name: str, which: str) -> str:
    return name.replace(f".{which}", ".") if which else name


def _of(name: str, which: str) -> str:
    start, _, rest = name.partition(".")
    return f"{start}.{which}{rest}"


def _waits_for(names: list[str], which: str, says: str, why: str, book) -> bool:
    """Whether a finding asks for what one of these sizes, or the size that its stop is a share of, lacks."""
    stops = {rule.size: rule.stop.size for rule in RULES if isinstance(rule.stop, Of)}
    wanted = [*names, *(_of(stops[local], which) for n in names if (local := _plain(n, which)) in stops)]
    if any(key in says for key in re.findall(r"needs ([a-z_.]+)", why)):
        return True
    for lack in (n for n in book.left_out if any(fnmatchcase(n, name) for name in wanted)):
        if any(
            re.search(rf"\b{re.escape(root.removeprefix('job.').rpartition('.')[0])}", says)
            for root in book.needs(lack)
        ):
            return True
    return False

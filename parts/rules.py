"""The rules: what is a caution, what stops the job, whose rule it is, and what to change."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Of:
    """A limit that is a share of another size, and no less than a floor."""

    size: str
    share: float = 1.0
    floor: float | None = None


Limit = float | Of


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule on one size, or on all whose names fit a pattern with *."""

    size: str
    what: str
    """in words, before the value"""
    caution: Limit | None
    stop: Limit | None
    source: str
    change: str
    """what to do about it"""
    least: bool = False
    """the size must be at least the limit, else at most"""
    unless: Callable[[Book, str], bool] | None = None
    """where the rule does not hold"""


Choice = tuple[str, str, float | None, float | None, str, str, str]
"""name, verdict, value, limit, unit, says, source"""


def _overlaps_filler(book: Book, name: str) -> bool:
    """A hole that runs into a filled old hole has no wall to it: its share in the filler is judged instead."""
    share = name.rpartition(".")[0] + ".in_filler"
    return share in book and book[share].value > 0


MAJOR = "deck.tapped_major"
THIN, THINNEST = Of(MAJOR, 0.5), Of(MAJOR, 0.2, floor=2.0)

RULES: list[Rule] = [
    # deck
    Rule("deck.hole.*.to_bore", "Metal to the bore, new hole", THIN, THINNEST, PRACTICE, "move the pattern out, or take a smaller thread or insert", least=True),
    Rule("deck.hole.*.to_edge", "Metal to the edge of the deck, new hole", THIN, THINNEST, PRACTICE, "move the pattern in, or take a smaller thread or insert", least=True),
    Rule("deck.hole.*.to_next", "Metal to the next new hole, hole", THIN, THINNEST, PRACTICE, "spread the pattern", least=True),
    Rule("deck.hole.*.to_passage", "Metal to the nearest passage, new hole", THIN, THINNEST, PRACTICE, "turn the pattern, or plug the passage and bring the hole well into the plug's side", least=True),
    Rule("deck.hole.*.to_old", "Metal to the nearest filled old hole, new hole", THIN, None, PRACTICE, "the wall leans on the filler: braze it full before drilling", least=True, unless=_overlaps_filler),
    Rule("deck.hole.*.in_filler", "Share of the thread in an old hole's filler, new hole", 0.0, 0.5, PRACTICE, "turn the pattern, or trust less of the thread and take a longer engagement; drill with a centre-cutting end mill, a twist drill runs off"),
    Rule("deck.floor", "Metal under the blind holes, drill point included", Of(MAJOR, 0.2, floor=2.0), 0.0, PRACTICE, "drill less deep: a bottoming tap, a shorter insert", least=True),
    # stud
    Rule("stud.free_nut_thread", "Thread left below the nut", Of("stud.nut_end_pitch", 2.0), Of("stud.nut_end_pitch", 0.5), PRACTICE, "give a longer nut_end_length: the nut runs onto the shank", least=True),
    Rule("stud.shank_length", "Plain shank", Of("stud.nut_end_nominal", 0.5), 0.0, PRACTICE, "give a shorter nut_end_length", least=True),
    Rule("stud.shank_diameter", "Shank", Of("gasket.hole_diameter"), Of("job.head.hole_diameter"), "geometry: it has to go through", "a thinner shank: it must pass the hole in head and gasket"),
    # gasket
    Rule("gasket.narrowest_land", "Narrowest land of the gasket", 3.0, 1.5, PRACTICE, "a narrow land burns through: smaller holes, more land outside them, or another outline", least=True),
    Rule("gasket.overhang", "Gasket over the edge of the bore", 0.0, None, PRACTICE, "give more bore_clearance: an edge in the chamber glows"),
    # plug
    Rule("plug.hold_safety", "Bond over gas force, times", 5.0, 1.5, PRACTICE + "; heat, gap and surface each take their share", "a longer plug, a shoulder or a thread", least=True),
    Rule("plug.interference_min", "Least interference of the plug", 0.0, -0.005, "ISO 286-1", "take a tighter tolerance letter, p or r", least=True),
    # ring
    Rule("ring.closed_gap", "Closed gap", Of("job.engine.bore", 0.002), 0.0, "0.002 to 0.004 of the bore: textbooks of machine design", "a wider slit or a smaller blank", least=True),
    Rule("ring.closed_gap", "Closed gap", Of("job.engine.bore", 0.006), Of("job.engine.bore", 0.02), PRACTICE, "a larger blank"),
    Rule("ring.hot_gap", "Gap with ring and bore at working temperature", 0.05, 0.0, "thermal expansion; the margin is common practice, no source", "more closed gap: ends that meet break the ring or score the bore", least=True),
    Rule("ring.slenderness", "Bore over radial thickness", 20.0, 16.0, "IS 8422-2: 23.3 to 24.1", "a thinner ring: this one is stiff and may break on the piston", least=True),
    Rule("ring.fitting_share", "Stress over the piston, share of the iron's least bending strength", 1.0, 1.5, "thin curved bar; strength from the material table", "slip it on over a thin sleeve, which takes off 22 to 25 %, or make it thinner"),
    Rule("ring.side_clearance", "Play in the groove", 0.02, 0.005, PRACTICE, "lap the ring thinner", least=True),
    Rule("ring.side_clearance", "Play in the groove", 0.08, 0.15, PRACTICE, "a wider ring: a loose one hammers the groove out"),
    Rule("ring.back_clearance", "Room behind the ring", 0.3, 0.0, "groove deeper than the ring by 0.4 mm: textbooks of machine design", "a thinner ring, or a deeper groove", least=True),
    Rule("job.ring.heat_set.set_fraction", "Share of the opening that the heat sets", 0.9, 0.5, PRACTICE, "hotter or longer: a set that small is hard to repeat", least=True),
    # compression
    Rule("compression.squish", "Squish", 0.8, 0.4, PRACTICE, "a thicker gasket or less skim: the piston comes up to the head hot", least=True),
    Rule("compression.ratio_change", "Change of the compression ratio", 1.0, 3.0, PRACTICE, "another gasket thickness; ask whether fuel and bearings stand it"),
]  # fmt: skip


def step_below_deck(book: Book, job: Job) -> Iterator[Choice]:
    """A tap end larger than the holes above it must end below the deck face, or it holds the head off."""
    holes = [book[n].value for n in ("job.head.hole_diameter", "gasket.hole_diameter") if n in book]
    if job.stud is None or not holes or "stud.step_depth" not in book or job.stud.tap_end.nominal <= min(holes):
        return
    step, why = (
        book["stud.step_depth"].value,
        f"the tap end of {job.stud.tap_end.nominal:g} mm does not go through a hole of {min(holes):g} mm",
    )
    if step > 0:
        yield (
            "stud.step_depth",
            "ok",
            step,
            0.0,
            "mm",
            f"The step lies {step:g} mm below the deck face: {why}",
            "geometry",
        )
    else:
        says = f"The step is not below the deck face and holds the head off: {why}; give a step_depth, 1 mm is usual"
        yield ("stud.step_depth", "stop", step, 0.0, "mm", says, "geometry")


def head_location(_: Book, job: Job) -> Iterator[Choice]:
    """Something must hold the head over the bore."""
    if job.head is None or job.stud is None:
        return
    says = {
        None: (
            "caution",
            "Nothing is given that locates the head: studs in clearance holes let it shift; give located_by",
        ),
        "studs": (
            "caution",
            "Only the studs locate the head: it can shift by their clearance in the holes; fit two dowels, or a spigot",
        ),
        "dowels": ("ok", "Dowels locate the head"),
        "spigot": ("ok", "A spigot locates the head"),
    }[job.head.located_by]
    yield ("head.located_by", says[0], None, None, "1", says[1], PRACTICE)


def bond_alone(_: Book, job: Job) -> Iterator[Choice]:
    """A bond alone should not hold a hot plug against pressure."""
    if job.plug is None or job.plug.fit != "bonded" or job.plug.shoulder is not None:
        return
    says = "Only the bond holds the plug, and it weakens above 120 to 150 degC: a shoulder, a thread or three stakes hold it whatever the heat"
    yield ("plug.bond_alone", "caution", None, None, "1", says, PRACTICE)


def chamber_known(book: Book, _: Job) -> Iterator[Choice]:
    """Compression is a guess where a chamber was not measured."""
    if "compression.chamber_unchanged" in book and "compression.ratio_after" in book:
        says = "A chamber volume is missing and was taken as unchanged: measure both heads by burette before you trust the ratio"
        yield ("compression.chambers", "caution", None, None, "1", says, "assumed")


def slit_and_gap(_: Book, job: Job) -> Iterator[Choice]:
    """A saw wider than the gap wants an oversize blank."""
    ring = job.ring
    if ring is not None and ring.slit > ring.closed_gap:
        says = f"The slit of {ring.slit:g} mm is wider than the gap of {ring.closed_gap:g} mm: the blank is turned oversize to suit; turned to the bore it would gape"
        yield (
            "ring.slit",
            "caution",
            float(ring.slit),
            float(ring.closed_gap),
            "mm",
            says,
            "a ring does not stretch (derived)",
        )


def male_centre(_: Book, job: Job) -> Iterator[Choice]:
    """A small plug tap has a male centre that wants depth."""
    stud = job.stud
    if stud is None or stud.insert is None or stud.insert.tap != "plug" or stud.tap_end.nominal > 8:  # noqa: PLR2004
        return
    more = 0.5 * stud.tap_end.nominal
    says = f"A plug tap up to 8 mm has a male centre: look whether yours has, and if so drill {more:g} mm deeper"
    yield ("insert.male_centre", "caution", more, None, "mm", says, "ASME B18.29.2M notes")


CHOICES: list[Callable[[Book, Job], Iterator[Choice]]] = [
    step_below_deck,
    head_location,
    bond_alone,
    chamber_known,
    slit_and_gap,
    male_centre,
]

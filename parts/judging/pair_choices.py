"""What may fill, bond, press and anneal what, by the table of pairs; a metal not told is the weakest it could be."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from parts import tables
from parts.job.instances import LISTS
from parts.job.models import HEATS, SCREWED
from parts.judging.finding import MAY_STOP, NOT_JUDGED, WORST, Finding
from parts.judging.limits import PIN
from parts.sizing.room import cut_into
from parts.sizing.scenes import by_old_hole, scenes
from parts.tables import PRACTICE
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job
    from parts.job.material_models import MaterialSpec
    from parts.tables.family import Pair

HOT_PARTS = {
    "gasket": ("head", "barrel"), "plug": ("barrel",), "stud": ("stud",), "head": ("head",), "barrel": ("barrel",)
}  # fmt: skip
"""and whose heat they have, the hottest of these"""
PIN_IT = (
    "turns with the tap and with the stud: drill {wide} down the joint of plug and barrel, away from the thread, "
    "drive in a pin of the plug's metal below the deck, and give pinned = true; or braze, or turn the pattern"
)
SOURCE = "table of pairs, handbook values (memory)"
Weakest = tuple["Pair", tuple[str, ...]]


def fill_suits_barrel(book: Book, job: Job) -> Iterator[Finding]:
    """What fills an old hole must flow before the barrel does, and grow with it; told once for each kind of them."""
    barrel, first = job.barrel, 1
    for _, own, _ in scenes(book, job, "old"):
        if own.old is None or barrel is None:
            continue
        count = own.old.pattern.holes if own.old.pattern else 1
        which = f"Old hole {first}" if count == 1 else f"Old holes {first} to {first + count - 1}"
        name, spec = f"deck.old.{first}.fill", barrel.material
        if spec is None:
            says = f"{NOT_JUDGED} whether {own.old.fill} suits the barrel: give barrel.material"
            yield Finding(name, "caution", None, None, "1", says, SOURCE)
        else:
            found = _weakest("fill", [own.old.fill], spec.families)
            yield _told(name, f"{which} with {own.old.fill} in {spec.label}", found, job, spec)
        first += count


def thread_in_a_screwed_plug(book: Book, job: Job) -> Iterator[Finding]:
    """A tap turns a screwed plug with it, and so does the stud; a pin in the joint holds it."""
    screwed = {n: own.old for n, _, own in by_old_hole(book, job) if own.old and own.old.fill == SCREWED}
    for hole in book.numbers("deck.hole") if screwed else ():
        for number, old in ((n, screwed[n]) for n in cut_into(book, job, hole) if n in screwed):
            verdict = "caution" if old.pinned else "stop"
            says = f"The thread of new hole {hole} is cut into the screwed plug of old hole {number}, which "
            says += (
                "is pinned: look that the pin stands clear of the tap, and sits below the deck"
                if old.pinned
                else PIN_IT.format(wide=printed(PIN, "mm", job.job.print_units))
            )
            yield Finding(f"deck.hole.{hole}.screwed_plug", verdict, None, None, "1", says, PRACTICE)


def plug_suits_barrel(_: Book, job: Job) -> Iterator[Finding]:
    """A compound cures on bare iron; a press fit wants metals that grow alike."""
    plug, into = job.plug, job.barrel.material if job.barrel else None
    if plug is None:
        return
    how = "bond" if plug.fit == "bonded" else "press"
    if plug.material is None or into is None:
        lacking = [n for n, there in (("plug.material", plug.material), ("barrel.material", into)) if not there]
        says = f"{NOT_JUDGED} whether a {how} holds: give {' and '.join(lacking)}"
        yield Finding(f"plug.{how}_pair", "caution", None, None, "1", says, SOURCE)
        return
    found = _weakest(how, plug.material.families, into.families)
    how_set = "bonded" if plug.fit == "bonded" else "pressed"
    pair = f"Plug of {plug.material.label} {how_set} into {into.label}"
    yield _told(f"plug.{how}_pair", pair, found, job, plug.material, into)


def gasket_anneals(_: Book, job: Job) -> Iterator[Finding]:
    """A solid sheet seals when it is soft, and is softened at its own heat."""
    if job.gasket is None:
        return
    sheet = job.gasket.material
    if sheet is None:
        says = f"{NOT_JUDGED} whether the gasket can be annealed: give gasket.material"
        yield Finding("gasket.anneal", "caution", None, None, "1", says, SOURCE)
        return
    yield _told("gasket.anneal", f"Gasket of {sheet.name}", _weakest("anneal", sheet.families, [""]), job, sheet)


def keeps_its_shape(_: Book, job: Job, name: str, beside: tuple[str, ...]) -> Iterator[Finding]:
    """Nothing in the top end may soften at its working heat; in order only where the heat run in is known."""
    table, engine = getattr(job, name), job.engine
    spec = table.material if table is not None else None
    heats = [heat for name in HEATS if (heat := getattr(engine, name, None))]
    hottest = max((float(getattr(heat, part)) for heat in heats for part in beside), default=0.0)
    if spec is None or not hottest:
        return
    if not spec.families:
        says = (
            f"{NOT_JUDGED} whether a {name} of {spec.label} keeps its shape at {_heat(hottest, job)}: give its family"
        )
        yield Finding(f"{name}.material_hot", "caution", None, None, "1", says, MAY_STOP)
        return
    ends = {family: tables.family_figure(family, "keeps") for family in spec.families}
    soft = [family for family, keeps in ends.items() if hottest > keeps]
    least, most = min(ends.values()), max(ends.values())
    verdict = "stop" if hottest > most else "caution" if soft else "ok"
    if verdict == "ok" and getattr(engine, "hot", None) is None:
        return
    says = f"{name.capitalize()} of {spec.label}: {' or '.join(soft or ends)} keeps its shape to {_heat(least, job)}"
    says += f", and is to stand {_heat(hottest, job)}"
    if verdict == "stop":
        says += ": take another metal"
    elif verdict == "caution":
        says = f"{NOT_JUDGED} {says}{_could_be(spec)}"
    past = (None if least == most else hottest - least, hottest - most)
    source = "handbook value (memory)"
    yield Finding(f"{name}.material_hot", verdict, hottest, least, "degC", says, source, past=past, least=False)


def _heat(value: float, job: Job) -> str:
    """Print a heat in whole degrees, as the job's sheets do."""
    return f"{value:g} degC" if job.job.print_units == "metric" else printed(value, "degC", "inch")


def _weakest(how: str, whats: object, intos: object) -> Weakest | None:
    """The worst of what a pair could be, and as what."""
    pairs = [(tables.pair(how, what, into), (what, into)) for what in whats for into in intos]  # type: ignore[attr-defined]
    return max(pairs, key=lambda found: WORST[found[0].verdict], default=None)


def _told(name: str, pair: str, found: Weakest | None, job: Job, *specs: MaterialSpec) -> Finding:
    """A finding on a pair; what no family fits can't be judged."""
    if found is None:
        odd = " and ".join(s.name for s in specs if not s.families)
        says = f"{NOT_JUDGED} {pair}: no metal of the table has the values given for {odd}; give its family"
        return Finding(name, "caution", None, None, "1", says, SOURCE)
    rule, _ = found
    heat = f" (the work takes it to {_heat(rule.heat, job)})" if rule.heat else ""
    says = f"{pair}: {rule.says}{heat}{''.join(map(_could_be, specs))}"
    return Finding(name, rule.verdict, rule.heat, None, "degC" if rule.heat else "1", says, SOURCE)


def _could_be(spec: MaterialSpec) -> str:
    """What is not told of a material, and how it was taken."""
    if len(spec.families) < 2:  # noqa: PLR2004 - the one that it is
        return ""
    return f"; what metal {spec.name!r} is was not told, it could be {' or '.join(spec.families)}: give its family"


PAIR_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("", fill_suits_barrel),
    ("", thread_in_a_screwed_plug),
    ("plug", plug_suits_barrel),
    ("", gasket_anneals),
    *(
        (name if name in LISTS else "", partial(keeps_its_shape, name=name, beside=beside))
        for name, beside in HOT_PARTS.items()
    ),
]

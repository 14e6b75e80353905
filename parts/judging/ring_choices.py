"""The rules on choices about ring and mandrel: one small function each, all of them in RING_CHOICES."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.finding import NOT_JUDGED, Finding
from parts.judging.limits import FREE_GAP_HELD
from parts.judging.metal_choices import not_told, soft_above
from parts.judging.rules import caution_of
from parts.judging.seat_choices import SEAT_CHOICES, SOLVED
from parts.sizing.hoop import times_round
from parts.sizing.materials import is_plastic
from parts.sizing.ring_design import GAP, SLIT, slit_is_wide
from parts.sizing.ring_shape import LEAST, MOST
from parts.sizing.shared_mandrel import lacking_mandrel
from parts.tables import PRACTICE
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job
    from parts.job.instances import Instance

STIFF = "a ring does not stretch (derived)"
SHAPE = "free shape of the thin curved bar (derived)"
STRENGTH = "thin curved bar; strength from the material table"
MOVED = 0.02  # mm on diameter, by which the bore may differ from what was measured
ABOUT = {
    "pin": (
        "If the iron sets more where it is stressed more, which nobody knows of a new casting, a pin's ring turns "
        "sharp at the back, while the contoured form presses evenly either way"
    ),
    "round": "A round mandrel's ring passes the light test and yet leaves the wall bare",
    "contoured": "The contour's shape does not hang on how the iron sets",
}


def slit_and_gap(book: Book, job: Job) -> Iterator[Finding]:
    """A saw wider than the gap wants an oversize blank, and on the contour its ends bound down."""
    if job.ring is None or not slit_is_wide(book):
        return
    wide, narrow = (float(book[name].value) for name in (SLIT, GAP))
    slit, gap = (printed(v, "mm", job.job.print_units) for v in (wide, narrow))
    says = (
        f"The slit of {slit} is wider than the gap of {gap}: the blank is turned oversize to suit; turned to the bore "
        f"it would gape{_ends(book, job)}"
    )
    yield Finding("ring.slit", "caution", wide, narrow, "mm", says, STIFF)


def _ends(book: Book, job: Job) -> str:
    """What becomes of the ends of an oversize blank."""
    if job.mandrel is None or job.mandrel.form == "round":
        return ""
    bare = ("ring.unbound.pressure_ratio_least", "ring.unbound.tip_force")
    if job.mandrel.form == "pin":
        return (
            "; by the pin its ends press by themselves and leave the wall bare beside them: a finer saw, or the contour"
        )
    finer = f"; a saw no wider than the gap needs no more{_hoop(book, job)}. Left free "
    if not book.has(*bare):
        return f"{finer}they lift, and press by themselves in the bore"
    least, force = book[bare[0]].value, printed(book[bare[1]].value, "N", job.job.print_units)
    return (
        f"{finer}they lift, and in the bore each presses with {force} by itself while the least pressure falls to "
        f"{least:.2f} of the mean"
    )


def _hoop(book: Book, job: Job) -> str:
    """What a hoop of wire makes of the ends."""
    if "mandrel.hoop_wire" not in book:
        return ""
    wire = f"{_size(book, job, 'mandrel.hoop_wire')}, {times_round(book)}"
    told = f". With this one a hoop of soft iron wire of {wire}, holds the ends in, put on before the plate"
    least, force = (f"ring.hooped.{n}" for n in ("pressure_ratio_least", "tip_force"))
    if not book.has("mandrel.hoop_pull", least, force):
        return f"{told}; {NOT_JUDGED} how far; give ring.heat_set"
    weak = book[least].value < caution_of("ring.pressure_ratio_least", least=True)
    left = f"{book[least].value:.2f} of the mean pressure, {_size(book, job, force)} on each end"
    pull = _size(book, job, "mandrel.hoop_pull")
    return f"{told}: hot it still pulls with {pull}, which leaves {left}{': too little' if weak else ''}"


def _size(book: Book, job: Job, name: str) -> str:
    return printed(book[name].value, book[name].unit, job.job.print_units)


def blank_under_size(book: Book, job: Job) -> Iterator[Finding]:
    """A slit finer than the gap makes a blank smaller than the bore."""
    if job.ring is None or not book.has("ring.under_size", "ring.under_size_light"):
        return
    under, light = book["ring.under_size"].value, book["ring.under_size_light"].value
    if not under:
        return
    small, gap = (printed(v, "mm", job.job.print_units) for v in (under, light))
    says = (
        f"The slit is finer than the gap: the blank comes out {small} under the bore, and its ends stand off by up to "
        f"{gap}; ask for a gap no wider than the saw, and file the ends to the one you want"
    )
    yield Finding("ring.under_size", "caution", under, 0.0, "mm", says, STIFF)


def set_by_stress(book: Book, job: Job) -> Iterator[Finding]:
    """Where the iron's set depends on its stress, a pin's ring turns sharp at the back; callipers tell."""
    if job.mandrel is None or job.ring is None or job.mandrel.purpose == "fit check":
        return
    names = ("ring.free_width_right", "ring.free_width_least", "ring.free_width_most", "ring.shape_number")
    if not book.has(*names):
        return
    right, least, most = (printed(book[n].value, "mm", job.job.print_units) for n in names[:3])
    form = job.mandrel.form
    test = (
        f"try one ring and measure its free width at right angles to the gap: {right} is right, over {most} the back "
        f"is too sharp, under {least} it has a round mandrel's shape"
    )
    verdict, limit = ("ok" if form == "contoured" else "caution"), (LEAST if form == "round" else MOST)
    yield Finding("ring.shape_number", verdict, book[names[3]].value, limit, "1", f"{ABOUT[form]}; {test}", SHAPE)


def stands_the_heat(book: Book, job: Job) -> Iterator[Finding]:
    """What is printed, or melts, has no business in the oven."""
    mandrel, ring = job.mandrel, job.ring
    if mandrel is None or ring is None:
        return
    if mandrel.material is None:
        if mandrel.purpose != "fit check":
            says = f"{NOT_JUDGED} whether the mandrel stands the heat; give mandrel.material"
            yield Finding("mandrel.material", "caution", None, None, "1", says, PRACTICE)
        return
    name = mandrel.material.name
    plastic = is_plastic(book, "mandrel")
    if mandrel.purpose == "fit check":
        says = f"Of {name}, for a fit check alone: never heated, it bears NO HEAT on its underside"
        yield Finding("mandrel.material", "ok", None, None, "1", says, PRACTICE)
        return
    heat = float(ring.heat_set.temperature) if ring.heat_set else None
    if plastic:
        says = (
            f"A mandrel of {name} must not be heated: it melts, burns and fumes at a fraction of setting heat; print "
            'it with purpose = "fit check", and make the one for the oven of steel'
        )
        yield Finding("mandrel.material", "stop", heat, None, "1" if heat is None else "degC", says, PRACTICE)
        return
    most, sure = soft_above(mandrel.material)
    if most is not None and (heat is None or heat > most):
        up_to = printed(most, "degC", job.job.print_units)
        if not sure:
            yield not_told("mandrel.material", mandrel.material, heat, most)
            return
        says = f"A mandrel of {name} does not keep its shape above {up_to}, and may melt: make it of steel or iron"
        yield Finding("mandrel.material", "stop", heat, most, "degC", says, "handbook value (memory)")
    elif heat is None:
        says = f"{NOT_JUDGED} whether the heat sets the ring, and {name} stands it; give ring.heat_set"
        yield Finding("mandrel.material", "caution", None, None, "1", says, PRACTICE)
    else:
        yield Finding("mandrel.material", "ok", heat, None, "degC", f"{name} stands the heat", PRACTICE)


def bore_as_honed(book: Book, job: Job) -> Iterator[Finding]:
    """The rings are made to `bore`; the readings say whether that is the bore."""
    if job.engine is None or not book.has("ring.bore_mean", "ring.bore_over"):
        return
    over, mean = book["ring.bore_over"].value, book["ring.bore_mean"].value
    read, bore = (printed(v, "mm", job.job.print_units) for v in (mean, float(job.engine.bore)))
    verdict, says = "ok", f"The readings have a mean of {read}, the rings are made to a bore of {bore}"
    if abs(over) > MOVED:
        verdict, says = "caution", f"{says}: finish honing, measure again, and give the bore as it is"
    yield Finding("ring.bore_mean", verdict, mean, float(job.engine.bore), "mm", says, PRACTICE)


def strength_of_the_iron(book: Book, job: Job) -> Iterator[Finding]:
    """Without the strength of its iron no stress of the ring can be judged."""
    if job.ring is None or "ring.bending_strength" in book or "ring.working_stress" not in book:
        return
    works = printed(book["ring.working_stress"].value, "MPa", job.job.print_units)
    says = (
        f"not judged: whether the ring stands its stress of {works} at work, on its mandrel and over the piston; give "
        "the least bending strength of its iron as ring.material's bending_strength, or break a bar of it and measure"
    )
    yield Finding("ring.bending_strength", "caution", None, None, "MPa", says, STRENGTH)


def shared_mandrel(book: Book, job: Job) -> Iterator[Finding]:
    """A ring of a list without its own mandrel is set on another ring's, if it then presses as it should."""
    for one in lacking_mandrel(job) if book.contact else ():
        name, limit = one.real("ring.mandrel"), caution_of("ring.pressure_ratio_least", least=True)
        tried = [other for other in job.instances("ring") if _on(one, other, "free_gap") in book]
        tried.sort(
            key=lambda other: (not _serves(book, one, other), -book[_on(one, other, "pressure_ratio_least")].value)
        )
        give = f'give it its own, [[mandrel]] with ring = "{one.name}"'
        if not tried:
            says = f"No mandrel of the list takes the ring {one.name}: {give}"
            yield Finding(name, "caution", None, limit, "1", says, SOLVED)
            continue
        best = tried[0]
        says = f"Set on the mandrel of {best.name}, {_comes_out(book, job, one, best)}"
        if not _serves(book, one, best):
            if book[best.real("ring.pressure_ratio_least")].value < limit:
                give += f", of the contoured form: that of {best.name} leaves its own ring too little pressure as well"
            says = f"No mandrel of the list serves the ring {one.name}. {says}: {give}"
        verdict, ratio = ("ok" if _serves(book, one, best) else "caution"), book[_on(one, best, "pressure_ratio_least")]
        yield Finding(name, verdict, ratio.value, limit, "1", says, SOLVED)


def _on(one: Instance, other: Instance, figure: str) -> str:
    return one.real(f"ring.on.{other.name}.{figure}")


def _serves(book: Book, one: Instance, other: Instance) -> bool:
    """Tell whether a ring set on another's mandrel has the free gap that is wanted, and presses all round."""
    gap, least, light = (book[_on(one, other, f)].value for f in ("free_gap", "pressure_ratio_least", "light_gap"))
    wanted = book[one.real("job.ring.free_gap")].value
    presses = least >= caution_of("ring.pressure_ratio_least", least=True) and light <= caution_of("ring.light_gap")
    return bool(presses and abs(gap - wanted) <= FREE_GAP_HELD * wanted)


def _comes_out(book: Book, job: Job, one: Instance, other: Instance) -> str:
    gap, wanted, light = (
        printed(book[name].value, "mm", job.job.print_units)
        for name in (_on(one, other, "free_gap"), one.real("job.ring.free_gap"), _on(one, other, "light_gap"))
    )
    least = book[_on(one, other, "pressure_ratio_least")].value
    if not least:
        return f"the ring {one.name} gets a free gap of {gap} where {wanted} is wanted, and leaves the wall bare"
    return (
        f"the ring {one.name} gets a free gap of {gap} where {wanted} is wanted, its least pressure over any 10 "
        f"degrees is {least:.2f} of the mean, and {light} of light shows"
    )


RING_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("ring", slit_and_gap),
    ("ring", blank_under_size),
    ("ring", set_by_stress),
    ("ring", stands_the_heat),
    *SEAT_CHOICES,
    ("ring", strength_of_the_iron),
    ("", bore_as_honed),
    ("", shared_mandrel),
]

"""What the bore's readings say of it, and how the ring presses in a bore so oval."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from parts.sizing import bore_relations as relation
from parts.sizing.contact import Bore, Lobe, Pressed, close_in
from parts.sizing.ring_forms import OWN, RING, free_ring, ring_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from parts.book import Book
    from parts.job import Job

OVAL = "oval"
"""the asked form's curve in the bore as measured"""
PHASES = (0.0, 45.0, 90.0)
"""of the oval's crest from the ring's back [deg]"""
FIGURES: dict[str, tuple[str, str, str, Callable[..., float]]] = {
    "light_gap": ("gap", "mm", "greatest gap between ring and bore", max),
    "pressure_ratio_least": (
        "ratio",
        "1",
        "least mean pressure over any 10 degrees from the back to 170 degrees / pressure",
        min,
    ),
}
DECIMALS = 6
KEPT = 16
NO_LIMITS = 0.0
READINGS = {
    f"{height}_{way}": f"job.engine.bore_readings.{n}.{m}"
    for n, height in enumerate(("top", "middle", "bottom"))
    for m, way in enumerate(("along", "across"))
}
WORDS = """{what}, in the bore as measured.

    {word} = {what}; solved with one-sided contact in a bore of the measured mean with a lobe of order 2, the worst of
        the ring's back at its crest, half way and at its trough

    Returns
    -------
    {word} : float
        [{unit}]

    References
    ----------
    .. [1] Thin bar that bends and does not stretch, on walls that push and do not pull, solved numerically (derived).
    """


def pressed_in_oval(form: str, sizes: Mapping[str, float]) -> list[Pressed]:
    """Ring set on a form and closed into an oval bore, its gap at each of the phases.

    Parameters
    ----------
    form : str
        contoured, pin or round
    sizes : mapping
        Of ring and form, by the solver's names; `mean` and `lobe` of the bore [mm], nominal `pressure` [MPa]

    Returns
    -------
    pressed : list of Pressed
        One for each of PHASES

    Examples
    --------
    >>> ring = {"outside": 57.2, "thickness": 2.4, "width": 2.38, "slit": 0.2, "modulus": 1e5, "open_gap": 9.021}
    >>> oval = pressed_in_oval("pin", {**ring, "set_fraction": 0.95, "mean": 57.2, "lobe": 0.005, "pressure": 0.17})
    >>> max(p.light_gap for p in oval) < 0.001
    True
    """
    return _pressed(form, tuple(sorted(sizes.items())))


@lru_cache(KEPT)
def _pressed(form: str, given: tuple[tuple[str, float], ...]) -> list[Pressed]:
    sizes = dict(given)
    mean, lobe, pressure = (sizes.pop(n) for n in ("mean", "lobe", "pressure"))
    ring, free = ring_of(sizes), free_ring(form, sizes)
    bores = (Bore(mean, (Lobe(2, lobe, phase),)) for phase in PHASES)
    return [close_in(ring, free, bore, pressure) for bore in bores]


@lru_cache(None)
def worst_of(form: str, figure: str) -> Callable[..., float]:
    """Give the relation for the worst of one figure over the phases.

    >>> worst_of("pin", "light_gap").__doc__.partition(".")[0]
    'Greatest gap between ring and bore, in the bore as measured'
    """
    word, unit, what, worst = FIGURES[figure]

    def relation(**sizes: float) -> float:
        return round(worst(float(getattr(p, figure)) for p in pressed_in_oval(form, sizes)), DECIMALS)

    relation.__doc__ = WORDS.format(word=word, unit=unit, what=what).replace(what, what[0].upper() + what[1:], 1)
    return relation


def size_bore(book: Book, job: Job) -> None:
    """Add mean, taper and ovality of the bore's readings, where they are given."""
    if job.engine is None or job.engine.bore_readings is None:
        return
    book.add("ring.bore_mean", relation.mean_bore, **READINGS)
    book.add("ring.bore_taper", relation.taper, **READINGS)
    book.add("ring.bore_ovality", relation.ovality, **READINGS)
    book.add("ring.bore_lobe", relation.oval_lobe, ovality="ring.bore_ovality")
    book.add("ring.bore_over", relation.over_bore, mean="ring.bore_mean", bore="job.engine.bore")
    if job.ring is not None:
        given = {"slit": "job.ring.slit", "outside": "ring.outside_diameter"}
        book.add("ring.out_of_round.closed_gap", relation.gap_as_measured, mean="ring.bore_mean", **given)


def size_out_of_round(book: Book, job: Job) -> None:
    """Add how the ring presses in the bore as measured. Call it after ring, mandrel and bore are sized."""
    if "ring.bore_lobe" not in book or job.ring is None:
        return
    form = None if job.mandrel is None else job.mandrel.form
    ends_meet = any(n in book and book[n].value < 0 for n in ("ring.closed_gap", "ring.out_of_round.closed_gap"))
    bore = {"mean": "ring.bore_mean", "lobe": "ring.bore_lobe", "pressure": "ring.contact_pressure"}
    for figure in FIGURES:
        name = f"ring.out_of_round.{figure}"
        if form is None or ends_meet:
            book.lacks(name, "job.mandrel.form" if form is None else "ring.out_of_round.closed_gap")
        else:
            book.add(name, worst_of(form, figure), NO_LIMITS, **RING, **OWN[form], **bore)


def oval_curve(book: Book, job: Job) -> Pressed | None:
    """How the ring presses in the bore as measured, at the phase that leaves it least pressure."""
    if job.mandrel is None or "ring.out_of_round.light_gap" not in book:
        return None
    inputs = book["ring.out_of_round.light_gap"].inputs
    sizes = {argument: float(book.number(name)) for argument, name in inputs.items()}
    return min(pressed_in_oval(job.mandrel.form, sizes), key=lambda p: p.pressure_ratio_least)

"""What an error that is easily made costs a ring, by each way of opening it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from parts.relations import ring as closed
from parts.relations.contact.opening import curvature_of, gap_of
from parts.relations.ring_elastica import on_round
from parts.relations.ring_forms import law_of, ring_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from parts.relations.contour import Law

ERRORS = {  # cause -> an error that is easily made (common practice, no source), what it is of, in words
    "blank": (0.05, "outside", "blank turned 0.05 mm larger"),
    "slit": (0.10, "slit", "slit sawn 0.10 mm wider"),
    "thickness": (0.05, "thickness", "ring 0.05 mm thicker, its bore smaller"),
    "modulus": (0.05, "modulus", "modulus higher by a share of 0.05"),
    "mandrel": (0.10, "seat", "seat 0.10 mm larger on diameter, or pin 0.10 mm wider"),
}
EFFECTS = {  # effect -> unit, in words
    "closed_gap": ("mm", "gap in the bore"),
    "free_gap": ("mm", "free gap on the mean line"),
    "tension": ("N", "tangential force"),
}
DECIMALS = 6
KEPT = 16  # of one ring each error is asked for by each of its effects
WORDS = """Change of the {what}: {cause}.

    change = {what} with the {cause} - {what} as designed; {law}

    Returns
    -------
    change : float
        [{unit}]

    References
    ----------
    .. [1] Differences of the closed forms (derived).
    """
LAWS = {
    "contoured": "free gap by the curvature of seat and blank along the ring, the ends bound down",
    "pin": "free gap = slit + set_fraction * (pin - slit)",
    "round": "free gap = slit + set_fraction * (gap of the exact shape on the mandrel - slit)",
}


@dataclass(frozen=True, slots=True)
class Erred:
    """Ring and form as they were made [mm, MPa]; the design's own sizes stand in `by`."""

    outside: float
    thickness: float
    width: float
    slit: float
    modulus: float
    seat: float
    """by which the seat is larger on diameter, or the pin wider"""
    by: Mapping[str, float]

    def with_error(self, cause: str, error: float) -> Erred:
        """Return the same with one error."""
        what = ERRORS[cause][1]
        value: float = getattr(self, what)
        wrong: dict[str, Any] = {what: value * (1 + error) if what == "modulus" else value + error}
        return replace(self, **wrong)


def free_gap_by_pin(made: Erred) -> float:
    """Free gap that a pin leaves.

    gap = slit + set_fraction * (open_gap - slit)

    >>> round(free_gap_by_pin(Erred(57.2955, 2.4, 2.38, 0.5, 1e5, 0.0, {"open_gap": 9.005, "set_fraction": 0.95})), 2)
    8.58
    """
    return made.slit + made.by["set_fraction"] * (made.by["open_gap"] + made.seat - made.slit)


def free_gap_by_round(made: Erred) -> float:
    """Free gap that a plain round mandrel leaves.

    gap = slit + set_fraction * (gap of the exact shape on the mandrel - slit)

    >>> by = {"mandrel": 55.1132, "set_fraction": 0.95}
    >>> round(free_gap_by_round(Erred(57.2955, 2.4, 2.38, 0.5, 1e5, 0.0, by)), 2)
    8.56
    """
    inside = closed.blank_inside(made.outside, made.thickness)
    opened = on_round(inside, made.thickness, made.slit, made.by["mandrel"] + made.seat).gap
    return made.slit + made.by["set_fraction"] * (opened - made.slit)


def free_gap_by_contour(made: Erred) -> float:
    """Free gap that the contour leaves: the ring's mean line lies half its thickness outside the seat.

    gap = 2 * integral of the direction along the ring, its curvature k0 + set_fraction * (k - k0)

    >>> by = {"bore": 57.2, "thickness": 2.4, "outside": 57.295493, "free_gap": 8.58, "closed_gap": 0.2}
    >>> made = Erred(57.295493, 2.4, 2.38, 0.5, 1e5, 0.0, {**by, "set_fraction": 0.95})
    >>> round(free_gap_by_contour(made), 2)
    8.58
    """
    ring, law, links = ring_of(_ring(made)), law_of(made.by), 180
    off = (made.seat + made.thickness - made.by["thickness"]) / 2
    nature, share = 1 / ring.radius, made.by["set_fraction"]
    held = [_beside(law, off, n * ring.half / links) for n in range(links + 1)]
    return gap_of(ring, [nature + share * (k - nature) for k in held])


def _ring(made: Erred) -> dict[str, float]:
    return {n: getattr(made, n) for n in ("outside", "thickness", "width", "slit", "modulus")}


def _beside(law: Law, off: float, s: float) -> float:
    """Curvature of a line beside the law's own, after an arc length s of its own."""
    under = s - off * law.direction(s - off * law.direction(s))
    k = curvature_of(law, under)
    return k / (1 + off * k)


FREE_GAPS: dict[str, Callable[[Erred], float]] = {
    "contoured": free_gap_by_contour,
    "pin": free_gap_by_pin,
    "round": free_gap_by_round,
}


@lru_cache(KEPT)
def effects_of(
    form: str, sizes: tuple[tuple[str, float], ...], cause: str = "", error: float = 0.0
) -> dict[str, float]:
    """Give all EFFECTS of a ring, of its sizes and names of them, as designed or with one error."""
    by = dict(sizes)
    made = Erred(**{n: by[n] for n in ("outside", "thickness", "width", "slit", "modulus")}, seat=0.0, by=by)
    if cause:
        made = made.with_error(cause, error)
    gap, free = closed.closed_gap(made.slit, by["bore"], made.outside), FREE_GAPS[form](made)
    radius = closed.mean_radius(by["bore"], made.thickness)
    parameter = closed.parameter(closed.first_parameter(free, gap, radius))
    moment = closed.second_moment(made.width, made.thickness)
    tension = closed.tangential_force(parameter, made.modulus, moment, radius)
    return {"closed_gap": gap, "free_gap": free, "tension": tension}


@lru_cache(None)
def change_of(form: str, cause: str, effect: str) -> Callable[..., float]:
    """Give the relation for what one error does to one effect, with a form as designed.

    >>> sizes = {"bore": 57.2, "outside": 57.2955, "thickness": 2.4, "width": 2.38, "slit": 0.5, "modulus": 1e5}
    >>> change = change_of("pin", "slit", "closed_gap")
    >>> round(change(**sizes, open_gap=9.005, set_fraction=0.95, error=0.1), 3)
    0.1
    """
    unit, what = EFFECTS[effect]

    def relation(error: float, **sizes: float) -> float:
        known = tuple(sizes.items())
        wrong, right = effects_of(form, known, cause, error), effects_of(form, known)
        return round(wrong[effect] - right[effect], DECIMALS)

    relation.__doc__ = WORDS.format(what=what, cause=ERRORS[cause][2], law=LAWS[form], unit=unit)
    return relation

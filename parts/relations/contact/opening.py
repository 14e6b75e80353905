"""The ring opened on its form, cold and elastic: where it touches, and how it bends there."""

from __future__ import annotations

from functools import lru_cache
from itertools import groupby
from math import cos, degrees, pi, sin
from typing import TYPE_CHECKING

from parts.relations.contact.chain import Wrapped, near
from parts.relations.contact.one_sided import settle
from parts.relations.contact.shapes import LINKS, Blank, ContourForm, Form, Free, Opened, PinForm, RoundForm

if TYPE_CHECKING:
    from parts.relations.contour import Law

Numbers = list[float]
KEPT = 16  # what was opened last is asked for again: to be closed in, and to be measured
START = 1e-3  # gap of the joints to start from, by the lack of curvature
NEWTON = 12
CLOSE = 1e-11  # of the radius: ends found
NUDGE = 1e-4  # share of an unknown, for a derivative; the rest of the error goes with the next step
LEAST_OPENING = 1e-6  # of the radius


@lru_cache(KEPT)
def open_on(ring: Blank, form: Form, links: int = LINKS) -> Opened:
    """Ring held open on a form, with the contact found.

    Parameters
    ----------
    ring : Blank
        Blank, split
    form : ContourForm, PinForm or RoundForm
        What holds it open
    links : int
        Of the half chain

    Returns
    -------
    opened : Opened
        Curvature, forces and contact

    Raises
    ------
    ValueError
        The form does not open the ring.

    Examples
    --------
    >>> opened = open_on(Blank(57.2955, 2.4, 2.38, 0.5, 100000), RoundForm(55.113))
    >>> round(opened.gap, 2), [[round(a) for a in zone] for zone in opened.contact]
    (8.98, [[0, 52], [179, 179]])
    """
    if isinstance(form, PinForm):
        return _by_pin(ring, form, links)
    if isinstance(form, RoundForm):
        return _on_round(ring, form, links)
    return _on_contour(ring, form, links)


def set_by_heat(ring: Blank, opened: Opened, set_fraction: float) -> Free:
    """Ring after the heat: each section keeps the same share of the curvature that the form gave it.

    Parameters
    ----------
    ring : Blank
        Blank, split
    opened : Opened
        On its form
    set_fraction : float
        Share of the opening that remains [1]

    Returns
    -------
    free : Free
        Its curvature and gap

    Examples
    --------
    >>> ring = Blank(57.2, 2.4, 2.38, 0.2, 100000)
    >>> round(set_by_heat(ring, open_on(ring, PinForm(9.0)), 0.95).gap, 2)
    8.55
    """
    if not 0 < set_fraction <= 1:
        raise ValueError(f"set fraction {set_fraction:g} is not above 0 and at most 1")
    by_nature = 1 / ring.radius
    curvature = [by_nature + set_fraction * (k - by_nature) for k in opened.curvature]
    return Free(opened.arc, tuple(curvature), gap_of(ring, curvature), opened.kind)


def gap_of(ring: Blank, curvature: Numbers) -> float:
    """Gap between the ends of a ring of this curvature along one half.

    Parameters
    ----------
    ring : Blank
        Its length
    curvature : list of float
        At equal distances from the back to the end [1/mm]

    Returns
    -------
    gap : float
        On the mean line [mm]

    Examples
    --------
    >>> round(gap_of(Blank(57.2, 2.4, 2.38, 0.5, 100000), [1 / 27.4] * 181), 6)
    0.499993
    """
    step = ring.half / (len(curvature) - 1)
    turn, height = -curvature[0] * step / 2, 0.0
    for k in curvature[:-1]:
        turn += k * step
        height += cos(turn)
    return 2 * height * chord(ring, step)


def chord(ring: Blank, arc: float) -> float:
    """Length of a link: chord of an arc of the blank.

    Parameters
    ----------
    ring : Blank
        The blank
    arc : float
        Along its mean line [mm]

    Returns
    -------
    chord : float
        Straight [mm]

    Examples
    --------
    >>> round(chord(Blank(57.2, 2.4, 2.38, 0.5, 100000), 27.4), 4)  # 1 radian
    26.2725
    """
    return 2 * ring.radius * sin(arc / (2 * ring.radius))


def curvature_of(law: Law, s: float) -> float:
    """Curvature of a contoured form's curve.

    curvature = k0 + ((1 - K * (1 + cos(s / radius))) / radius - k0) / set_fraction

    Parameters
    ----------
    law : Law
        The curve
    s : float
        Along it from the back [mm]

    Returns
    -------
    curvature : float
        Of the mean line of a ring that lies on it [1/mm]

    Examples
    --------
    >>> from parts.relations.contour import Law
    >>> round(curvature_of(Law(27.4, 27.4, 0.03, 1.0), 0.0) * 27.4, 6)
    0.94
    """
    free = (1 - law.parameter * (1 + cos(s / law.radius))) / law.radius
    return 1 / law.blank_radius + (free - 1 / law.blank_radius) / law.set_fraction


def _on_round(ring: Blank, form: RoundForm, links: int) -> Opened:
    radius = (form.diameter + ring.thickness) / 2
    opening = radius / ring.radius - 1
    if opening < LEAST_OPENING:
        raise ValueError(
            f"a mandrel of {form.diameter:g} mm does not open a ring of {2 * ring.radius - ring.thickness:g} mm inside"
        )
    step = ring.half / links / radius
    wall = near(step, [opening] * links + [0.0], half=True)
    bar = Wrapped(step, 1 + opening)
    gaps, forces = settle(wall, bar, opening / 10, opening * step, links + 1)
    curvature = [1 / ring.radius - m / radius for m in bar.moments(gaps)]
    return _opened(ring, curvature, forces, radius, "round")


def _on_contour(ring: Blank, form: ContourForm, links: int) -> Opened:
    arc = ring.half / links
    if form.bound:
        return _bound(ring, form, links)
    bend = [ring.radius * _curvature(form, n * arc) for n in range(links + 1)]
    lack = [*(1 - k for k in bend[:-1]), 0.0]
    opening = max(lack)
    if opening < LEAST_OPENING:
        raise ValueError("the contour does not open the ring")
    step = arc / ring.radius
    bar = near(step, lack, bend, half=True)
    gaps, forces = settle(bar, bar, START * opening, opening * step, links + 1, "on a contour")
    curvature = [(1 - m) / ring.radius for m in bar.moments(gaps)]
    return _opened(ring, curvature, forces, ring.radius, "contour")


def _curvature(form: ContourForm, s: float) -> float:
    """Curvature of a mean line beside the form's curve, at an arc length along that line."""
    law, beside, at = form.law, form.outside, s
    if not beside:
        return curvature_of(law, s)
    for _ in range(NEWTON):
        at -= (at + beside * law.direction(at) - s) / (1 + beside * curvature_of(law, at))
    bend = curvature_of(law, at)
    return bend / (1 + beside * bend)


def _bound(ring: Blank, form: ContourForm, links: int) -> Opened:
    """Lay the ring on the contour from end to end; what holds it down is not worked out."""
    arc = _arc(ring, links)
    curvature = tuple(_curvature(form, s) for s in arc)
    zone = (0.0, degrees(ring.half / ring.radius))
    return Opened(arc, curvature, (0.0,) * len(arc), 0.0, (zone,), gap_of(ring, list(curvature)), "bound")


def _opened(ring: Blank, curvature: Numbers, forces: Numbers, radius: float, kind: str) -> Opened:
    """Put the result of a contact together; forces by stiffness over radius squared."""
    links = len(curvature) - 1
    force = [ring.stiffness / radius**2 * q for q in forces]
    tip = force[-1] - min(force[-1], force[-2] / 2)
    step = degrees(ring.half / links / ring.radius)
    zones = tuple((first * step, last * step) for first, last in _runs([q > 0 for q in force]))
    return Opened(_arc(ring, links), tuple(curvature), tuple(force), tip, zones, gap_of(ring, curvature), kind)


def _runs(touching: list[bool]) -> list[tuple[int, int]]:
    """First and last joint of each zone of contact."""
    zones = [list(joints) for touches, joints in groupby(range(len(touching)), touching.__getitem__) if touches]
    return [(zone[0], zone[-1]) for zone in zones]


def _arc(ring: Blank, links: int) -> tuple[float, ...]:
    return tuple(n * ring.half / links for n in range(links + 1))


def _by_pin(ring: Blank, form: PinForm, links: int) -> Opened:
    """Shoot from the back: curvature there and force are found so that the end has its gap and no moment."""
    wanted = form.gap / 2 / ring.radius
    opening = (form.gap - ring.slit) / (3 * pi * ring.radius)
    if opening < LEAST_OPENING:
        raise ValueError(f"a pin of {form.gap:g} mm does not open a slit of {ring.slit:g} mm")
    back, force = 1 - 2 * opening, opening
    step = ring.half / links / ring.radius
    for _ in range(NEWTON):
        height, end = _shot(back, force, step, links)[:2]
        if abs(height - wanted) + abs(end - 1) < CLOSE:
            break
        d_back, d_force = NUDGE * opening, NUDGE * opening
        h1, e1 = _shot(back + d_back, force, step, links)[:2]
        h2, e2 = _shot(back, force + d_force, step, links)[:2]
        a, b, c, d = (h1 - height) / d_back, (h2 - height) / d_force, (e1 - end) / d_back, (e2 - end) / d_force
        p, q, whole = wanted - height, 1 - end, a * d - b * c
        back, force = back + (p * d - b * q) / whole, force + (a * q - p * c) / whole
    curvature = _shot(back, force, step, links)[2]
    pull = force * ring.stiffness / ring.radius**2
    scaled = [k / ring.radius for k in curvature]
    return Opened(_arc(ring, links), tuple(scaled), (0.0,) * links + (pull,), pull, (), gap_of(ring, scaled), "pin")


def _shot(back: float, force: float, step: float, links: int) -> tuple[float, float, Numbers]:
    """Half the gap, curvature at the end and along the ring, for a curvature at the back and a force on the ends.

    Curvature grows by the force times the way across the gap's direction: the moment's lever.
    """
    link = 2 * sin(step / 2)
    turn, k, height = -back * step / 2, back, 0.0
    curvature = [back]
    for _ in range(links):
        turn += k * step
        height += link * cos(turn)
        k += force * link * sin(turn)
        curvature.append(k)
    return height, k, curvature

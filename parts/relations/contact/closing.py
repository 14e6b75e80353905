"""The set ring closed into its bore: pressure round it, light behind it, force of its ends."""

from __future__ import annotations

from itertools import accumulate
from math import degrees, fsum, pi

from parts.relations.contact.chain import Near, near
from parts.relations.contact.one_sided import settle
from parts.relations.contact.shapes import Blank, Bore, Free, Pressed
from parts.relations.contour import exact_parameter

Numbers = list[float]
START = 1e-3  # gap of the joints to start from, by the lack of curvature
WINDOW = 10.0  # deg
LAST = 170.0  # deg from the back


def closed_gap(ring: Blank, bore: Bore) -> float:
    """Gap of the ring in the bore, on the mean line.

    gap = slit + pi * (bore - outside)

    Parameters
    ----------
    ring : Blank
        Blank, split
    bore : Bore
        Mean diameter

    Returns
    -------
    gap : float
        Below 0 the ends meet [mm]

    Examples
    --------
    >>> round(closed_gap(Blank(57.295493, 2.4, 2.38, 0.5, 100000), Bore(57.2)), 3)
    0.2
    """
    return ring.slit + pi * (bore.diameter - ring.outside)


def even_pressure(ring: Blank, free_gap: float, bore: Bore) -> float:
    """Pressure that a ring of this free gap would have if it pressed evenly.

    pressure = 2 * force / (bore * width), with force = K * modulus * moment / radius^2 and K that of exactly this gap

    Parameters
    ----------
    ring : Blank
        Its sizes
    free_gap : float
        On the mean line [mm]
    bore : Bore
        Mean diameter

    Returns
    -------
    pressure : float
        Nominal [MPa]

    Examples
    --------
    >>> round(even_pressure(Blank(57.295493, 2.4, 2.38, 0.5, 100000), 8.58, Bore(57.2)), 4)
    0.1698
    """
    radius = (bore.diameter - ring.thickness) / 2
    parameter = exact_parameter(radius, free_gap, closed_gap(ring, bore))
    return 2 * parameter * ring.stiffness / (radius**2 * bore.diameter * ring.width)


def close_in(ring: Blank, free: Free, bore: Bore, nominal: float | None = None) -> Pressed:
    """Ring pressing in its bore, with the contact found.

    Parameters
    ----------
    ring : Blank
        Blank, split
    free : Free
        After the heat
    bore : Bore
        Round or not
    nominal : float, optional
        Pressure to refer to [MPa]; that of an evenly pressing ring of the same free gap where it is not given

    Returns
    -------
    pressed : Pressed
        Pressure, light and forces

    Raises
    ------
    ValueError
        The ends meet, or the ring does not press.

    Examples
    --------
    >>> from parts.relations.contact import PinForm, open_on, set_by_heat
    >>> ring = Blank(57.2, 2.4, 2.38, 0.2, 100000)
    >>> free = set_by_heat(ring, open_on(ring, PinForm(9.0)), 0.95)
    >>> round(close_in(ring, free, Bore(57.2)).pressure_ratio_back, 2)
    1.07
    """
    gap = closed_gap(ring, bore)
    if gap < 0:
        raise ValueError(f"the ends meet in the bore: closed gap {gap:.3f} mm")
    if free.gap <= gap:
        raise ValueError(f"a free gap of {free.gap:.3f} mm does not press in a bore that leaves {gap:.3f} mm")
    radius = (bore.diameter - ring.thickness) / 2
    bar = _bar(free, bore, radius)
    size = max(map(abs, bar.lack))
    like = (free.kind, *((lobe.order, lobe.phase) for lobe in bore.lobes)) if free.kind else None
    gaps, forces = settle(bar, bar, START * size, size * bar.hinges.weight[1], len(bar.lack), like)
    scale = ring.stiffness / radius**2
    whole = _mirrored if bore.even else list[float]
    light, force = whole([radius * g for g in gaps]), whole([scale * q for q in forces])
    if bore.even:
        force[len(gaps) - 1] *= 2
    step = degrees(free.arc[1] / radius)
    return _pressed(ring, bore, light, force, step, nominal or even_pressure(ring, free.gap, bore))


def _bar(free: Free, bore: Bore, radius: float) -> Near:
    """Set ring about the wall: half of it where both sides are alike."""
    step = free.arc[1] / radius
    lack = [1 - k * radius - bore.bulge(n * step) / radius for n, k in enumerate(free.curvature)]
    lack[-1] = 0.0
    if not bore.even:
        other = [1 - k * radius - bore.bulge(-n * step) / radius for n, k in enumerate(free.curvature)]
        other[-1] = 0.0
        lack = [*reversed(other), *lack[1:]]
    return near(step, lack, half=bore.even)


def _mirrored(half: Numbers) -> Numbers:
    return [*reversed(half), *half[1:]]


def _pressed(ring: Blank, bore: Bore, light: Numbers, force: Numbers, step: float, nominal: float) -> Pressed:
    links = (len(force) - 1) // 2
    angle = [step * n for n in range(-links, links + 1)]
    unit = nominal * ring.width * bore.diameter / 2 * step * pi / 180  # what a joint has at nominal pressure
    tips = [max(0.0, force[0] - force[1] / 2), max(0.0, force[-1] - force[-2] / 2)]
    pressure = [q / unit for q in force]
    pressure[0], pressure[-1] = 2 * (force[0] - tips[0]) / unit, 2 * (force[-1] - tips[1]) / unit
    sides = _Side(pressure[links:], step), _Side(pressure[links::-1], step)
    return Pressed(
        tuple(angle),
        tuple(pressure),
        tuple(light),
        tuple(force),
        nominal,
        max(tips),
        fsum(force) / unit / (2 * links),
        fsum(side.over(0.0, WINDOW / 2) for side in sides) / 2,
        min(side.least() for side in sides),
        max(light),
    )


class _Side:
    """Means of the pressure over windows along one side; each joint's is spread over half a link on either side."""

    def __init__(self, pressure: Numbers, step: float) -> None:
        self.step, self.pressure = step, pressure
        self.sums = list(accumulate(pressure, initial=0.0))

    def _sum(self, angle: float) -> float:
        place = angle / self.step + 0.5
        cell = min(int(place), len(self.pressure) - 1)
        return self.sums[cell] + (place - cell) * self.pressure[cell]

    def over(self, low: float, high: float) -> float:
        """From one angle from the back to another [deg]."""
        return (self._sum(high) - self._sum(low)) * self.step / (high - low)

    def least(self) -> float:
        """Least over a window from the back to the last angle: from each joint, and the last."""
        cells, part = divmod(WINDOW / self.step + 0.5, 1.0)
        starts, ahead = int((LAST - WINDOW) / self.step) + 1, int(cells)
        ends = zip(self.sums[ahead:], self.pressure[ahead:], strict=False)
        begins = zip(self.sums, self.pressure[:starts], strict=False)
        sums = [a + part * p - b - q / 2 for (a, p), (b, q) in zip(ends, begins, strict=False)]
        return min(min(sums) * self.step / WINDOW, self.over(LAST - WINDOW, LAST))

"""How a ring presses with seat, blank and slit at their limits, and what its seat may miss.

A seat that is out of true by a wave of n lobes bends the ring by as many waves: in the bore its pressure swings, where
it stays in contact, by stiffness / (width * radius^3 * bore / 2) * (n^2 - 1)^2 times the wave's height. A blank that
came out of its chuck with lobes does the same by itself, as far as the heat does not set it. The swing is not small:
the contact is solved for each number of lobes, with a crest and with a hollow opposite the gap. Waves that lie aslant
are allowed 0.94 of what these two are.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from itertools import product
from math import cos, pi
from typing import TYPE_CHECKING

from parts.relations.contact import Blank, Bore, Free, Pressed, close_in, open_on, set_by_heat
from parts.relations.ring_forms import form_of, ring_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    Given = tuple[tuple[str, float], ...]
    """sizes by their names"""

LOBES = (2, 3, 4, 5, 6)
WORST = {"contoured": (6,), "pin": (6,), "round": (4, 5, 6)}
"""the lobes among which are those that leave least pressure and most light: the ring is stiffest against them"""
LINKS = (
    60  # of half a ring: pressures within 0.05 of the mean, light and what a seat may miss within 4 % of a finer one's
)
DECIMALS = 6
KEPT = 80  # waves of four jobs
SHARES: dict[
    str, Callable[[float], tuple[float, float]]
] = {  # form -> shares of the seat's wave and of the blank's that the free ring has, by the set fraction
    "contoured": lambda share: (share, 1 - share),
    "pin": lambda _: (0.0, 1.0),
    "round": lambda share: (share, 1.0),
}
FIGURES: dict[str, tuple[str, str, str, str, Callable[..., float]]] = {  # the solver's figure, word, unit, in words
    "back_least": (
        "pressure_ratio_back", "ratio", "1", "least mean pressure over the 10 degrees at the back / pressure", min
    ),
    "back_most": (
        "pressure_ratio_back", "ratio", "1", "greatest mean pressure over the 10 degrees at the back / pressure", max
    ),
    "pressure_ratio_least": (
        "pressure_ratio_least", "ratio", "1",
        "least mean pressure over any 10 degrees from the back to 170 degrees / pressure", min,
    ),
    "tip_force": ("tip_force", "force", "N", "most that an end presses by itself, beyond the pressure beside it", max),
    "light_gap": ("light_gap", "gap", "mm", "greatest gap between ring and bore", max),
}  # fmt: skip
WAVES = {
    "contoured": "set_fraction * seat + (1 - set_fraction) * held / 2",
    "pin": "held / 2",
    "round": "set_fraction * seat + held / 2",
}
WORDS = """{start}, with seat, blank and slit at their limits.

    {word} = {what}, the worst of waves of {lobes} lobes in the free ring, {wave} high, on the largest blank with the
        widest slit and on the smallest with the narrowest; one-sided contact in a true bore

    Returns
    -------
    {word} : float
        [{unit}]

    References
    ----------
    .. [1] Thin bar that bends and does not stretch, on walls that push and do not pull, solved numerically (derived).
    """
ALLOWED = """Height of a wave of {lobes} lobes in the seat that still leaves the wall its least pressure.

    error = height at which the least mean pressure over any 10 degrees, crest or hollow at the back, falls to wanted of
        pressure; the blank of its size and round, one-sided contact in a true bore

    Returns
    -------
    error : float
        0 where the form itself leaves less [mm]

    References
    ----------
    .. [1] Thin bar that bends and does not stretch, on walls that push and do not pull, solved numerically (derived).
    """
STEPS, GROW = 8, 1.25
FIRST = {2: 0.197, 3: 0.465, 6: 1.07}
"""share of what the swing to first order allows, to look from: solved, what comes of it where a form presses evenly"""
APART = 1e-6  # mm, the least gap of a ring whose ends would meet on its largest blank
NEAR = 0.02  # of the mean pressure, that may be left where what a seat may miss is used up


def wave_height(form: str, set_fraction: float, seat: float, blank: float) -> float:
    """Height of the waves in the free ring, from those of seat and blank [mm].

    >>> round(wave_height("contoured", 0.95, 0.01, 0.005), 5), wave_height("pin", 0.95, 0.01, 0.005)
    (0.00975, 0.005)
    """
    of_seat, of_blank = SHARES[form](set_fraction)
    return of_seat * seat + of_blank * blank


def waved(free: Free, radius: float, lobes: int, height: float) -> Free:
    """Return a free ring with waves along it.

    Parameters
    ----------
    free : Free
        Without them
    radius : float
        Mean radius in the bore [mm]
    lobes : int
        Times round
    height : float
        By which a crest stands out, one of them at the back; below 0 a hollow [mm]

    Returns
    -------
    free : Free
        With them: its curvature is more by height * (lobes^2 - 1) * cos(lobes * s / radius) / radius^2

    Examples
    --------
    >>> waved(Free((0.0, 1.0), (0.03, 0.03), 8.0), 27.4, 3, 0.01).curvature[0] > 0.03
    True
    """
    bend = height * (lobes * lobes - 1) / radius**2
    curvature = (k + bend * cos(lobes * s / radius) for s, k in zip(free.arc, free.curvature, strict=True))
    kind = f"{free.kind}, {'crest' if height > 0 else 'hollow'} of {lobes}"
    return Free(free.arc, tuple(curvature), free.gap, kind)


def at_limits(form: str, sizes: Mapping[str, float], lobes: tuple[int, ...] = LOBES) -> tuple[Pressed, ...]:
    """Ring in a true bore with each number of lobes, crest and hollow at the back, each on the blank that is worse.

    Parameters
    ----------
    form : str
        contoured, pin or round
    sizes : mapping
        Of ring and form, by the solver's names; nominal `pressure` [MPa]; `seat`, by which the seat may be out of true
        either way, `held`, by which the blank may be larger or smaller, `under`, by which the slit may be finer [mm]
    lobes : tuple of int
        Which

    Returns
    -------
    pressed : tuple of Pressed
        All of them
    """
    given = tuple(sorted(sizes.items()))
    return tuple(_with_waves(form, given, times, side) for times, side in product(lobes, (1, -1)))


@lru_cache(KEPT)
def _with_waves(form: str, given: Given, times: int, side: int) -> Pressed:
    sizes = dict(given)
    height = wave_height(form, sizes["set_fraction"], sizes["seat"], sizes["held"] / 2)
    larger = side * (-1) ** times < 0  # ends that are too straight press most on a larger blank
    ring, free = _set_on(form, given, larger)
    shape = waved(free, (sizes["bore"] - sizes["thickness"]) / 2, times, side * height)
    return close_in(ring, shape, Bore(sizes["bore"]), sizes["pressure"])


@lru_cache(KEPT)
def _set_on(form: str, given: Given, larger: bool | None = None) -> tuple[Blank, Free]:  # noqa: FBT001
    """Set a ring on the form as designed: of the largest blank, the smallest, or of its size; its ends never meet."""
    sizes = dict(given)
    slit, outside = sizes["slit"], sizes["outside"]
    if larger is not None:
        slit = slit if larger else max(0.0, slit - sizes["under"])
        outside += sizes["held"] if larger else -sizes["held"]
    ring = ring_of({**sizes, "slit": slit, "outside": min(outside, sizes["bore"] + (slit - APART) / pi)})
    opened = open_on(ring, form_of(form, sizes), LINKS)
    free = set_by_heat(ring, opened, sizes["set_fraction"])
    blank = "nominal" if larger is None else "largest" if larger else "smallest"
    return ring, replace(free, kind=f"{free.kind}, {blank}")


@lru_cache(KEPT)
def _on_a_true_seat(form: str, given: Given, pressure: float) -> float:
    """Least pressure of the ring as designed: the same for whatever waves."""
    ring, free = _set_on(form, given)
    return close_in(ring, free, Bore(dict(given)["bore"]), pressure).pressure_ratio_least


@lru_cache(None)
def worst_of(form: str, figure: str, lobes: tuple[int, ...] = LOBES) -> Callable[..., float]:
    """Give the relation for the worst of one figure with everything at its limits.

    >>> worst_of("pin", "light_gap").__doc__.partition(".")[0]
    'Greatest gap between ring and bore, with seat, blank and slit at their limits'
    """
    of, word, unit, what, worst = FIGURES[figure]

    def relation(**sizes: float) -> float:
        return round(worst(float(getattr(p, of)) for p in at_limits(form, sizes, lobes)), DECIMALS)

    start = what[0].upper() + what[1:]
    many = {"lobes": f"{lobes[0]} to {lobes[-1]}" if len(lobes) > 1 else lobes[0], "wave": WAVES[form]}
    relation.__doc__ = WORDS.format(start=start, word=word, unit=unit, what=what, **many)
    return relation


@lru_cache(None)
def allowed_of(form: str, lobes: int) -> Callable[..., float]:
    """Give the relation for what a seat may miss by waves of so many lobes.

    >>> sizes = {"bore": 57.2, "outside": 57.295493, "thickness": 2.4, "width": 2.38, "slit": 0.5, "modulus": 1e5}
    >>> set_on = {"free_gap": 8.58, "closed_gap": 0.2, "set_fraction": 0.95, "pressure": 0.169584}
    >>> round(allowed_of("contoured", 5)(**sizes, **set_on, wanted=0.7), 4)
    0.0005
    """

    @lru_cache(KEPT)
    def relation(wanted: float, pressure: float, **sizes: float) -> float:
        given = tuple(sorted(sizes.items()))
        ring, free = _set_on(form, given)
        share, bore = SHARES[form](sizes["set_fraction"])[0], Bore(sizes["bore"])

        def spare(error: float, side: int) -> float:
            shape = waved(free, (bore.diameter - ring.thickness) / 2, lobes, side * share * error)
            return close_in(ring, shape, bore, pressure).pressure_ratio_least - wanted

        none = _on_a_true_seat(form, given, pressure) - wanted
        if none <= 0:
            return 0.0
        first = FIRST.get(lobes, 1.0) * (1 - wanted) / share / swing(ring, bore, pressure, lobes)
        at_first, side = min((spare(first, side), side) for side in (1, -1))
        return round(_used_up(lambda error: spare(error, side), (first, at_first), none), DECIMALS)

    relation.__doc__ = ALLOWED.format(lobes=lobes)
    return relation


def swing(ring: Blank, bore: Bore, pressure: float, lobes: int) -> float:
    """Swing of the pressure by a wave in the free ring, to first order: where the ring stays in contact.

    swing = stiffness / (width * radius^3 * bore / 2) * (lobes^2 - 1)^2 / pressure

    Parameters
    ----------
    ring : Blank
        The ring
    bore : Bore
        Its diameter
    pressure : float
        Nominal [MPa]
    lobes : int
        Times round

    Returns
    -------
    swing : float
        Share of the nominal pressure by the wave's height [1/mm]

    Examples
    --------
    A wave of three lobes and 10 um takes 0.74 of the pressure:

    >>> round(swing(Blank(57.295493, 2.4, 2.38, 0.5, 1e5), Bore(57.2), 0.169584, 3) * 0.01, 2)
    0.74
    """
    radius = (bore.diameter - ring.thickness) / 2
    return ring.stiffness / (ring.width * radius**3 * bore.diameter / 2) * (lobes * lobes - 1) ** 2 / pressure


def _used_up(spare: Callable[[float], float], first: tuple[float, float], none: float) -> float:
    """Where what is spare is used up, or a little before, by false position: `first` is a guess and what it leaves."""
    (high, at_high), (low, at_low) = first, (0.0, none)
    while at_high > NEAR:
        low, at_low, high = high, at_high, GROW * high
        at_high = spare(high)
    if at_high > 0:
        return high
    weight_low, weight_high = at_low, at_high
    for _ in range(STEPS):
        if at_low <= NEAR:
            break
        middle = (low * weight_high - high * weight_low) / (weight_high - weight_low)
        at = spare(middle)
        if at > 0:
            low, at_low, weight_low, weight_high = middle, at, at, weight_high / 2
        else:
            high, weight_low, weight_high = middle, weight_low / 2, at
    return low

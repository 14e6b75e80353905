"""What the readings of a pattern are about: its points and unknowns, where to start, and which readings are lacking."""

from __future__ import annotations

from itertools import combinations
from math import cos, fsum, hypot, pi, sin
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.relations.least_squares import SIGMAS, rank
from parts.relations.measured import centres_between, centres_over, centres_wall
from parts.relations.pattern_fit import Model, Place, Span, Spot, blocks, frame_start
from parts.sizing.deck import CORNERS

if TYPE_CHECKING:
    from parts.job.measured_models import MeasuredPattern
    from parts.job.measured_models import Reading as Given
    from parts.relations.pattern_fit import Key, Reading

CALLIPER, SCALES = 0.05, 0.02  # mm, tolerances where none is given
SIDES = {(1, 2): (1, 0), (3, 4): (1, 0), (2, 3): (0, 1), (1, 4): (0, 1), (1, 3): (1, 1), (2, 4): (1, 1)}
APART, WHERE = "the holes' distances", ("where the holes lie", "where the bore lies")
MIRRORED, FAR = 0.1, 1.0  # as the other hand fits so much better, and this one so badly [mm]


def readings_of(pattern: MeasuredPattern, wall: float) -> list[Reading]:
    """Return the readings as distances between centres, and as places on the scales."""
    return [_reading(number, one, pattern, wall) for number, one in enumerate(pattern.readings, 1)]


def _reading(number: int, given: Given, pattern: MeasuredPattern, wall: float) -> Reading:
    if given.at is not None and given.hole is not None:
        hand = -1 if pattern.seen == "from beneath" else 1
        sigmas = ((value.spread or SCALES) / SIGMAS for value in given.at)
        return Spot(number, given.hole, hand * given.at[0] + 0.0, float(given.at[1]), *sigmas)
    reads, diameter = float(given.reads or 0.0), float(pattern.diameter or 0.0)
    length, follows = {
        "over": (centres_over(reads, diameter), {"diameter": -1.0}),
        "between": (centres_between(reads, diameter), {"diameter": 1.0}),
        "centres": (reads, {}),
        "wall": (centres_wall(reads, diameter, wall), {"diameter": 0.5, "wall": 0.5}),
    }[given.kind]
    sigma = ((given.reads.spread if given.reads is not None else 0.0) or CALLIPER) / SIGMAS
    return Span(number, *given.names, length, sigma, follows)


def model_of(pattern: MeasuredPattern, readings: list[Reading]) -> Model:
    """Points of the pattern and the bore, in a frame of the pattern's own, and the scales' frame."""
    return _modelled(pattern, readings, bore=pattern.form == "points")


def as_points(pattern: MeasuredPattern, readings: list[Reading], model: Model, unknowns: list[float]) -> Model:
    """Model of the same readings where the holes may lie anywhere, from where another form puts them."""
    places = [model.points[n].at(unknowns) for n in range(1, pattern.holes + 1)]
    free = {"form": "points", "count": pattern.holes, "roughly": places}
    return _modelled(pattern.model_copy(update=free), readings, bore=False)


def _modelled(pattern: MeasuredPattern, readings: list[Reading], *, bore: bool) -> Model:
    start: list[float] = []
    points = {"circle": _circle, "rectangle": _rectangle, "points": _free}[pattern.form](pattern, readings, start)
    touches_bore = any(one.one == "bore" for one in readings)
    points["bore"] = Place(0.0, 0.0)
    if touches_bore or bore:
        points["bore"] = Place(0.0, 0.0, {len(start): 1.0}, {len(start) + 1: 1.0})
        start += [0.0, 0.0]
    reach = max(hypot(*place.at(start)) for place in points.values()) or 1.0
    spots = [one for one in readings if isinstance(one, Spot)]
    if not spots:
        return Model(points, start, None, reach)
    x, y, turn = frame_start([(points[s.one].at(start), (s.x, s.y)) for s in spots])
    return Model(points, [*start, x, y, turn * reach], len(start), reach)


def _distances(readings: list[Reading]) -> list[tuple[Key, Key, float]]:
    """Every distance that was read, and those between places on the scales."""
    spots = [one for one in readings if isinstance(one, Spot)]
    return [
        *((r.one, r.other, r.length) for r in readings if isinstance(r, Span)),
        *((a.one, b.one, hypot(a.x - b.x, a.y - b.y)) for a, b in combinations(spots, 2) if a.one != b.one),
    ]


def _circle(pattern: MeasuredPattern, readings: list[Reading], start: list[float]) -> dict[Key, Place]:
    n = pattern.holes
    found = [
        2 * length if "bore" in (a, b) else length / abs(sin(pi * (int(a) - int(b)) / n))
        for a, b, length in _distances(readings)
    ]
    start.append(fsum(found) / len(found) if found else 50.0)
    turns = [2 * pi * i / n for i in range(n)]
    return {i: Place(0.0, 0.0, {0: cos(t) / 2}, {0: sin(t) / 2}) for i, t in enumerate(turns, 1)}


def _rectangle(_: MeasuredPattern, readings: list[Reading], start: list[float]) -> dict[Key, Place]:
    """Squares of the sides from squares of the distances, which is linear; held lightly to a square."""
    rows: list[tuple[float, float, float]] = []
    for a, b, length in _distances(readings):
        share = (0.25, 0.25) if "bore" in (a, b) else SIDES[min(int(a), int(b)), max(int(a), int(b))]
        rows.append((*share, length * length))
    usual = fsum(r[2] for r in rows) / fsum(r[0] + r[1] for r in rows) if rows else 2500.0
    rows += [(1e-3, 0.0, 1e-3 * usual), (0.0, 1e-3, 1e-3 * usual)]
    xx, xy, yy = (fsum(r[i] * r[j] for r in rows) for i, j in ((0, 0), (0, 1), (1, 1)))
    x, y = (fsum(r[i] * r[2] for r in rows) for i in (0, 1))
    whole = xx * yy - xy * xy
    start += [max((yy * x - xy * y) / whole, 1.0) ** 0.5, max((xx * y - xy * x) / whole, 1.0) ** 0.5]
    return {i: Place(0.0, 0.0, {0: sx / 2}, {1: sy / 2}) for i, (sx, sy) in enumerate(CORNERS, 1)}


def _free(pattern: MeasuredPattern, readings: list[Reading], start: list[float]) -> dict[Key, Place]:
    """Hole 1 stays, the hole farthest from it moves along the line between them, the others move freely."""
    places = sketched(pattern, readings)
    x1, y1 = places[1]
    far = max(places, key=lambda n: hypot(places[n][0] - x1, places[n][1] - y1))
    apart = hypot(places[far][0] - x1, places[far][1] - y1) or 1.0
    out: dict[Key, Place] = {1: Place(x1, y1)}
    for number, (x, y) in places.items():
        at = len(start)
        if number == far != 1:
            out[number] = Place(x1, y1, {at: (x - x1) / apart}, {at: (y - y1) / apart})
            start.append(apart)
        elif number != 1:
            out[number] = Place(0.0, 0.0, {at: 1.0}, {at + 1: 1.0})
            start += [x, y]
    return out


def sketched(pattern: MeasuredPattern, readings: list[Reading]) -> dict[int, tuple[float, float]]:
    """Where the points roughly are from the bore: as the user sketched them, or off the scales."""
    if pattern.roughly is not None:
        return {n: (float(x), float(y)) for n, (x, y) in enumerate(pattern.roughly, 1)}
    spots = {one.one: (one.x, one.y) for one in readings if isinstance(one, Spot)}
    holes = {n: spots[n] for n in range(1, pattern.holes + 1)}
    middle = tuple(fsum(place[i] for place in holes.values()) / len(holes) for i in (0, 1))
    x0, y0 = spots.get("bore", middle)
    return {n: (x - x0, y - y0) for n, (x, y) in holes.items()}


def refuse_what_is_open(key: str, pattern: MeasuredPattern, model: Model, readings: list[Reading]) -> None:
    """Refuse readings that leave the pattern open, and say which would close it; and those of the wrong hand."""
    size = len(model.start)
    rows = [row for block in blocks(model, readings, model.start) for row in block]
    told, wanted = rank(rows, size), list[str]()
    lacks = ""
    for words, what, one in _candidates(pattern, model, readings) if told < size else ():
        more = [*rows, *blocks(model, [one], model.start)[0]]
        if told < (better := rank(more, size)):
            rows, told, lacks = more, better, lacks or what
            wanted.append(words)
    if wanted:
        raise JobError(Fault(key, f"don't tell {lacks}: add {', and '.join(wanted)}"))
    if told < size:
        raise JobError(Fault(key, "don't tell the whole pattern: read more of its holes"))
    _refuse_mirrored(key, model, readings)


def _candidates(pattern: MeasuredPattern, model: Model, readings: list[Reading]) -> list[tuple[str, str, Reading]]:
    """Readings that might be added, in the order in which they are easily had."""
    numbers = range(1, pattern.holes + 1)
    pairs = sorted(combinations(numbers, 2), key=lambda p: p[1] - p[0])
    read = {one.one for one in readings if isinstance(one, Spot)}
    bore = ["bore"] if model.points["bore"].by_x else []
    out: list[tuple[str, str, Reading]] = []
    if model.frame is not None:
        names = [(n, f"hole {n}" if n != "bore" else "the bore") for n in (*bore, *numbers) if n not in read]
        out += [(f"X and Y of {words}", WHERE[n == "bore"], Spot(0, n, 0.0, 0.0, 1.0, 1.0)) for n, words in names]
    out += [(f"the distance of holes {a} and {b} (over)", APART, Span(0, a, b, 1.0, 1.0)) for a, b in pairs]
    if bore:
        out += [(f"hole {n} to the bore (wall)", WHERE[True], Span(0, "bore", n, 1.0, 1.0)) for n in numbers]
    return out


def _refuse_mirrored(key: str, model: Model, readings: list[Reading]) -> None:
    """Tell X and Y that fit only in a mirror: holes numbered clockwise, or the part seen from beneath."""
    spots = [one for one in readings if isinstance(one, Spot)]
    if len({one.one for one in spots}) < 3:  # noqa: PLR2004 - two points have no hand
        return
    pairs = [(model.points[s.one].at(model.start), (s.x, s.y)) for s in spots]
    right, wrong = (_misfit([(p, (hand * m[0], m[1])) for p, m in pairs]) for hand in (1, -1))
    if right > FAR and wrong < MIRRORED * right:
        says = (
            "give X and Y that go round the other way: number the holes anticlockwise as seen from above the deck, "
            'or say how the part lay, seen = "from beneath" or "from above"'
        )
        raise JobError(Fault(key, says))


def _misfit(pairs: list[tuple[tuple[float, float], tuple[float, float]]]) -> float:
    x0, y0, turn = frame_start(pairs)
    c, s = cos(turn), sin(turn)
    return max(hypot(m[0] - x0 - c * p[0] + s * p[1], m[1] - y0 - s * p[0] - c * p[1]) for p, m in pairs)

"""What must hold between the readings of [measured] and the rest of the job."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.job.across import Faults, Tables
    from parts.job.measured_models import MeasuredPattern, Reading
    from parts.job.models import Pattern

NEEDS_DIAMETER = ("over", "between", "wall")


def patterns(t: Tables) -> Iterator[tuple[str, MeasuredPattern]]:
    """The patterns that were measured, by name."""
    for name in ("old", "new"):
        if pattern := getattr(t["measured"], name):
            yield name, pattern


def readings_name_their_holes(t: Tables) -> Faults:
    """A reading goes between two holes that the pattern has, to a wall that is known, and leaves a distance."""
    out: Faults = []
    for name, pattern in patterns(t):
        wall = pattern.round_wall or (t["engine"].bore if "engine" in t else None)
        for number, reading in enumerate(pattern.readings):
            path = ("measured", name, "readings", number)
            out += [((*path, k), says) for k, says in _reading(pattern, reading, wall)]
    return out


def _reading(pattern: MeasuredPattern, reading: Reading, wall: float | None) -> Iterator[tuple[str, str]]:
    kind, (one, other) = reading.kind, reading.names
    if too_high := [n for n in (one, other) if isinstance(n, int) and n > pattern.holes]:
        yield kind, f"names hole {max(too_high)}, and the pattern has {pattern.holes}"
    if one == other and kind != "hole":
        yield kind, f"names hole {one} twice: a reading goes from one hole to another"
    if kind in NEEDS_DIAMETER and pattern.diameter is None:
        yield kind, 'needs the diameter of the pins or holes beside the readings, like diameter = "8.50 mm"'
    if kind == "wall" and wall is None:
        yield kind, 'needs the wall\'s diameter: engine.bore, or round_wall beside the readings, like "57.20 mm"'
    if kind == "over" and pattern.diameter and reading.reads and reading.reads <= pattern.diameter:
        least, written = f"{pattern.diameter:g} mm", reading.reads.written
        yield "reads", f"must be more than the diameter of {least} that it goes over, not {written!r}"


def points_have_a_start(t: Tables) -> Faults:
    """Points can be told from distances only where it is known roughly where they are."""
    out: Faults = []
    for name, pattern in patterns(t):
        lacking = set(range(1, pattern.holes + 1)) - {r.hole for r in pattern.readings}
        if pattern.form == "points" and pattern.roughly is None and lacking:
            says = (
                f"wants X and Y of every hole, and has none of hole {min(map(int, lacking))}: "
                'read it off the scales, or sketch where all holes are, like roughly = [["30 mm", "29 mm"], ...]'
            )
            out.append((("measured", name, "readings"), says))
    return out


def turn_is_read_on_scales(t: Tables) -> Faults:
    """A turn as read needs X and Y of two features."""
    says = 'is "as read" and needs X and Y of two holes, like { hole = 1, at = ["112.40 mm", "85.06 mm"] }'
    return [
        (("measured", name, "turned"), says)
        for name, pattern in patterns(t)
        if isinstance(pattern.turned, str) and len({r.hole for r in pattern.readings} - {None}) < 2  # noqa: PLR2004
    ]


def machine_touches_what_is_there(t: Tables) -> Faults:
    """What was touched off is a hole of a pattern, and two different ones at least."""
    machine = t["measured"].machine
    if machine is None:
        return []
    out: Faults = []
    counts = {kind: _count(t, kind) for kind in ("old", "new")}
    for number, touched in enumerate(machine.readings):
        kind, _, hole = touched.hole.partition(" ")
        path = ("measured", "machine", "readings", number, "hole")
        if hole and counts[kind] is None:
            gives = {"old": "[barrel.old_holes] or [measured.old]", "new": "head.holes or [measured.new]"}[kind]
            out.append((path, f"names {touched.hole!r}, and the job gives no {kind} holes: {gives} would"))
        elif hole and int(hole) > (counts[kind] or 0):
            out.append((path, f"names {touched.hole!r}, and that pattern has {counts[kind]} holes"))
    if len({r.hole for r in machine.readings}) < 2:  # noqa: PLR2004
        only = machine.readings[0].hole
        out.append((("measured", "machine", "readings"), f"touches {only!r} alone: another hole tells the turn"))
    return out


def _count(t: Tables, kind: str) -> int | None:
    """Holes of the old or the new pattern, None where there is none."""
    given: list[Pattern | None] = [t["head"].holes] if kind == "new" and "head" in t else []
    if kind == "old":
        given = [one.pattern for one in t["old"]]
    if counts := [pattern.holes for pattern in given if pattern is not None]:
        return sum(counts)
    measured: Any = getattr(t["measured"], kind)
    return measured.holes if measured else None


def old_holes_are_somewhere(t: Tables) -> Faults:
    """Old holes to be filled have a pattern, given or measured."""
    old = t["barrel"].old_holes
    measured = len(t["old"]) == 1 and "measured" in t and t["measured"].old
    if old is None or old.pattern is not None or measured:
        return []
    says = (
        'is missing: where the old holes are, like { circle = "78 mm", count = 3, first = "45 deg" }; '
        "or measure it, [measured.old]"
    )
    return [(("barrel", "old_holes", "pattern"), says)]


MEASURED_RULES: list[tuple[tuple[str, ...], tuple[str, ...], Callable[[Tables], Faults]]] = [
    (("measured",), ("engine",), readings_name_their_holes),
    (("measured",), (), points_have_a_start),
    (("measured",), (), turn_is_read_on_scales),
    (("measured",), ("barrel", "head"), machine_touches_what_is_there),
    (("barrel",), ("measured",), old_holes_are_somewhere),
]

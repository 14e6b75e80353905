"""Rules between the keys of [base], and between them and the other tables."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.job.across import Faults, Tables
    from parts.job.models import Pattern

OF_ITS_OWN = ("stud", "holes", "flange_thickness", "flange_hole", "boss")
THINNEST = 0.25  # of the nut's thread: less is no flange


def studs_are_given_once(t: Tables) -> Faults:
    """The studs are the joint's own, or the head's."""
    base = t["base"]
    if base.through:
        says = "is given beside through = true, where studs, holes and head are the head's: take one of the two out"
        return [(("base", key), says) for key in OF_ITS_OWN if getattr(base, key) is not None]
    says = "is missing: a joint on the crankcase has its own {}, or through = true where the head's studs reach it"
    wants = {"stud": "studs, [base.stud]", "holes": 'holes, like holes = { circle = "96 mm", count = 4 }'}
    return [(("base", key), says.format(what)) for key, what in wants.items() if getattr(base, key) is None]


def through_studs_are_the_head_s(t: Tables) -> Faults:
    """Through studs want the head, one kind of stud, and the barrel that they pass."""
    base = t["base"]
    if not base.through:
        return []
    lacking = [n for n in ("head", "stud") if n not in t]
    wants = {"head": "[head]", "stud": "[stud], one table for all of them"}
    out = [(("base", "through"), f"needs {wants[n]}: the studs are the head's") for n in lacking]
    what = {"length": "the barrel from its foot to the deck", "wall": "the outside of its round wall under the fins"}
    keys = [k for k in what if getattr(base, k) is None]
    return [*out, *((("base", k), f"is missing: through studs clamp {what[k]}") for k in keys)]


def holes_lie_outside_the_mouth(t: Tables) -> Faults:
    """A stud of the joint stands in metal."""
    base = t["base"]
    pattern = t["head"].holes if base.through and "head" in t else base.holes
    stud = t.get("stud") if base.through else base.stud
    opening = base.mouth or (t["engine"].bore if "engine" in t else None)
    if pattern is None or stud is None or opening is None:
        return []
    what = "mouth of the crankcase" if base.mouth else "bore"
    least = opening + stud.tap_end.nominal
    inside = [n for n, out in enumerate(_radii(pattern), 1) if 2 * out <= least]
    which = f"hole{'s' * (len(inside) > 1)} {', '.join(map(str, inside))}"
    thread = f"its thread of {stud.tap_end.nominal:g} mm"
    says = f"must stand clear of the {what} of {opening:g} mm with {thread}, and {which} would cut into it"
    return [(("base", "through") if base.through else ("base", "holes"), says)] if inside else []


def _radii(pattern: Pattern) -> list[float]:
    """Distance of each hole from the centre of the bore [mm]."""
    if pattern.points:
        return [hypot(*point) for point in pattern.points]
    return [hypot(*pattern.rectangle) / 2 if pattern.rectangle else (pattern.circle or 0.0) / 2] * pattern.holes


def flange_can_be_held(t: Tables) -> Faults:
    """The flange lets the stud through, has metal round it, and is one."""
    base = t["base"]
    stud, hole, thick = base.stud, base.flange_hole, base.flange_thickness
    out: Faults = []
    if stud is not None and hole is not None and hole <= stud.nut_end.nominal:
        says = f"must be more than the stud's {stud.nut_end.nominal:g} mm, not {hole.written!r}"
        out.append((("base", "flange_hole"), says))
    if base.boss is not None and hole is not None and base.boss <= hole:
        out.append((("base", "boss"), f"must be more than the flange's hole of {hole:g} mm, not {base.boss.written!r}"))
    if stud is not None and thick is not None and thick < THINNEST * stud.nut_end.nominal:
        least = THINNEST * stud.nut_end.nominal
        says = f"must be at least a quarter of the nut's thread, {least:g} mm, not {thick.written!r}"
        out.append((("base", "flange_thickness"), says))
    return out


def bolt_has_one_thread(t: Tables) -> Faults:
    """A bolt is turned by its head."""
    stud = t["base"].stud
    if stud is None or not stud.bolt or stud.nut_end == stud.tap_end:
        return []
    says = f"must be {stud.tap_end.label!r} as tap_end is, since bolt = true: not {stud.nut_end.label!r}"
    return [(("base", "stud", "nut_end"), says)]


def round_things_lie_in_their_order(t: Tables) -> Faults:
    """Bore, mouth, wall; and the gasket's two edges."""
    base = t["base"]
    gasket, bore = base.gasket, t["engine"].bore if "engine" in t else None
    pairs: list[tuple[tuple[str, ...], Any, str, Any]] = [
        (("base", "mouth"), base.mouth, "the bore", bore),
        (("base", "wall"), base.wall, "the bore", bore),
    ]
    if gasket is not None:
        pairs.append((("base", "gasket", "bore"), gasket.bore, "the bore", bore))
        pairs.append((("base", "gasket", "outside"), gasket.outside, "its bore", gasket.bore or bore))
    return [
        (path, f"must be more than {what} of {less:g} mm, not {more.written!r}")
        for path, more, what, less in pairs
        if more is not None and less is not None and more <= less
    ]


BASE_RULES: list[tuple[tuple[str, ...], tuple[str, ...], Callable[[Tables], Faults]]] = [  # as RULES in across.py
    (("base",), (), studs_are_given_once),
    (("base",), ("head", "stud"), through_studs_are_the_head_s),
    (("base",), ("head", "stud", "engine"), holes_lie_outside_the_mouth),
    (("base",), (), flange_can_be_held),
    (("base",), (), bolt_has_one_thread),
    (("base",), ("engine",), round_things_lie_in_their_order),
]

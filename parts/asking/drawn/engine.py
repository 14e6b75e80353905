"""Drawings of the engine as it stands: deck, barrel, head, piston, heat, ports."""

from __future__ import annotations

from math import atan2, degrees, hypot
from typing import TYPE_CHECKING

from parts.asking.ink import arc
from parts.geometry import outline

if TYPE_CHECKING:
    from parts.asking.drawn.seen import Seen
    from parts.asking.ink import Ink, Point

MIDDLE = (160.0, 100.0)
SAME = 1.0  # apart, of what lies on one circle
REACH = 78.0  # from the middle to the edge of what is drawn


def deck(ink: Ink, seen: Seen) -> None:
    """Draw the deck from above: edge, bore, new and old holes, passages, to their own proportions."""
    loop = seen.outline("barrel.outline", 1.95 * seen.bore)
    new, old = seen.holes("head.holes"), _old(seen)
    new = new or [(x * 0.7 * seen.bore, y * 0.7 * seen.bore) for x, y in ((1, 1), (-1, 1), (-1, -1), (1, -1))]
    left, low, right, high = outline.bounds(loop)
    size = max(right, -left, high, -low, *(hypot(x, y) for x, y in new + old))
    k = REACH / size

    def on(x: float, y: float) -> Point:
        return MIDDLE[0] + k * x, MIDDLE[1] + k * y

    ink.line(*(on(x, y) for x, y in outline.flatten(loop, 0.2)), close=True)
    ink.circle(*MIDDLE, k * seen.bore / 2)
    ink.line(on(-1.08 * size, 0), on(1.08 * size, 0), kind="centre")
    ink.line(on(0, -1.08 * size), on(0, 1.08 * size), kind="centre")
    _pattern(ink, "new", [on(*at) for at in new], k * seen.length("head.hole_diameter", 0.15 * seen.bore) / 2)
    radius = k * seen.length("barrel.old_holes.diameter", 0.15 * seen.bore) / 2
    _pattern(ink, "old", [on(*at) for at in old], radius, "dash")
    if old:
        ink.lead("old_hole", (on(*old[0])[0] + radius, on(*old[0])[1]), (256, 176))
    _passage(ink, seen, k)
    ink.between("outline", on(right, 0), on(left, 0), 92 * (high > 0))


def _old(seen: Seen) -> list[Point]:
    """Old holes: where they are known, else three as an example where they are asked for."""
    far = 0.68 * seen.bore
    usual = [(far * x, far * y) for x, y in ((0.0, 1.0), (-0.87, -0.5), (0.87, -0.5))]
    return seen.holes("barrel.old_holes.pattern") or usual


def _pattern(ink: Ink, name: str, holes: list[Point], radius: float, kind: str = "edge") -> None:
    """Draw the holes of one pattern; where it is marked, with their numbers and the circle through the first."""
    for n, (x, y) in enumerate(holes, 1):
        ink.circle(x, y, radius, kind)
        if name in ink.marks:
            ink.word(f"#{n}", x + (radius + 9) * (1 if x >= MIDDLE[0] else -1), y)
    if name in ink.marks:
        _through(ink, name, holes)


def _through(ink: Ink, name: str, holes: list[Point]) -> None:
    """Mark the circle that holes lie on, between the first two; where they lie on none, the first hole."""
    far = [hypot(x - MIDDLE[0], y - MIDDLE[1]) for x, y in holes]
    if max(far) - min(far) > SAME:
        ink.lead(name, holes[0], (264, 180))
        return
    ink.line(*arc(MIDDLE, far[0], 0, 360), kind="dash")
    turns = sorted(degrees(atan2(y - MIDDLE[1], x - MIDDLE[0])) % 360 for x, y in holes)
    ink.across(name, MIDDLE, far[0], turns[0] + (360 if len(turns) == 1 else turns[1] - turns[0]) / 2)


def _passage(ink: Ink, seen: Seen, k: float) -> None:
    """Draw a passage, and the two lengths that place it."""
    if not {"passage", "passage_hole"} & set(ink.marks):
        return
    x, y, diameter = seen.passage()
    x, y, radius = MIDDLE[0] + k * x, MIDDLE[1] + k * y, max(k * diameter / 2, 4.0)
    ink.circle(x, y, radius)
    right, above = (1 if x >= MIDDLE[0] else -1), (1 if y >= MIDDLE[1] else -1)
    ink.between("passage", (MIDDLE[0], y), (x, y), 26 * right * above)
    ink.between("passage", (x, MIDDLE[1]), (x, y), -60 * right * above)
    ink.lead("passage_hole", (x + radius, y), (256, 176))


def barrel(ink: Ink, seen: Seen) -> None:
    """Draw the barrel cut in two: bore, deck, an old hole, fins."""
    wide = 52.0
    depth = 100 * seen.share("barrel.deck_depth", seen.bore, 0.5, 0.25, 0.9)
    top, foot = 150.0, 20.0
    for way in (-1, 1):
        inner, wall, edge = (MIDDLE[0] + way * far for far in (wide, wide + 16, wide + 58))
        ribs = [(edge, top), (edge, top - depth), (wall, top - depth)]
        fins = [(top - depth - 14 - 16 * n, wall, edge) for n in range(int((top - depth - 20 - foot) / 16))]
        steps = [p for y, a, b in fins for p in ((a, y), (b, y), (b, y - 5), (a, y - 5))]
        ink.metal((inner, top), *ribs, *steps, (wall, foot), (inner, foot))
    for y in (top, foot):
        ink.line((MIDDLE[0] - wide, y), (MIDDLE[0] + wide, y))
    x, deep = MIDDLE[0] + wide + 38, depth * 0.7
    if {"old_depth", "fill"} & set(ink.marks):
        ink.line((x - 7, top), (x - 7, top - deep), (x, top - deep - 4), (x + 7, top - deep), (x + 7, top))
    ink.between("bore", (MIDDLE[0] - wide, 110), (MIDDLE[0] + wide, 110))
    for y in (120, 78, 36):
        ink.between("readings", (MIDDLE[0] - wide, y), (MIDDLE[0] + wide, y))
    ink.between("depth", (MIDDLE[0] + wide + 58, top - depth), (MIDDLE[0] + wide + 58, top), -18)
    ink.between("old_depth", (x, top - deep), (x, top), -38)
    ink.lead("material", (MIDDLE[0] - wide - 8, 60), (MIDDLE[0] - wide + 26, 44))
    ink.lead("fill", (x, top - 8), (x - 24, 184))
    if "skim" in ink.marks:
        ink.line((30, top - 8), (290, top - 8), kind="dash")
    ink.between("skim", (58, top - 8), (58, top), 12)


def head(ink: Ink, seen: Seen) -> None:
    """Draw the head cut through two studs, joint face down: chamber, bosses, the face that presses."""
    foot, face, hole, boss = 44.0, 62.0, 7.0, 17.0
    tall = 150 * seen.share("head.thickness", 100.0, 0.46, 0.3, 0.7)
    heights = {-1: tall, 1: tall * 0.7 if "heights" in ink.marks else tall}
    for way, high in heights.items():
        at = MIDDLE[0] + way * 92.0
        outer, inner = at + way * boss, at - way * boss
        ink.metal((at + way * hole, foot), (outer, foot), (outer, foot + high), (at + way * hole, foot + high))
        roof = [(MIDDLE[0], foot + 56), (MIDDLE[0], foot + 26), (MIDDLE[0] + way * 26, foot + 22)]
        edge = MIDDLE[0] + way * face
        body = [*roof, (MIDDLE[0] + way * 44, foot - 4), (edge, foot - 4), (edge, foot)]
        rim = [(at - way * hole, foot), (at - way * hole, foot + high), (inner, foot + high), (inner, foot + 56)]
        ink.metal(*body, *rim)
        ink.line((at, foot - 14), (at, foot + high + 12), kind="centre")
    right = MIDDLE[0] + 92.0
    ink.between("thickness", (right + boss, foot), (right + boss, foot + tall), -16)
    ink.between("heights", (right + boss, foot), (right + boss, foot + heights[1]), -16)
    ink.between("heights", (MIDDLE[0] - 92 - boss, foot), (MIDDLE[0] - 92 - boss, foot + tall), 16)
    ink.between("hole", (right - hole, foot + tall), (right + hole, foot + tall), 22)
    ink.between("boss", (right - boss, foot + tall), (right + boss, foot + tall), 18)
    ink.between("face", (MIDDLE[0] + face, foot - 4), (MIDDLE[0] - face, foot - 4), 14)
    ink.between("spigot", (right - boss, foot + 56), (MIDDLE[0] - 92 + boss, foot + 56), -30)
    ink.lead("chamber", (MIDDLE[0], foot + 10), (MIDDLE[0] + 40, 16))
    ink.lead("material", (MIDDLE[0] - 40, foot + 36), (MIDDLE[0] - 62, 184))
    ink.lead("located", (right, foot - 8), (right + 24, 16))
    ink.lead("washer", (right - 12, foot + tall), (right - 50, 184))


def piston(ink: Ink, seen: Seen) -> None:
    """Draw the piston under the head at the top of its travel, a valve above it."""
    deck_at, crown, wide = 120.0, 108.0, 56.0
    for way in (-1, 1):
        inner, outer = MIDDLE[0] + way * wide, MIDDLE[0] + way * (wide + 22)
        ink.metal((inner, 16), (inner, deck_at), (outer, deck_at), (outer, 16))
        tip = MIDDLE[0] + way * 36
        ink.metal((outer, deck_at + 6), (inner - way * 4, deck_at + 6), (tip, deck_at + 6), (MIDDLE[0] + way * 20, 150),
                  (MIDDLE[0], 154), (MIDDLE[0], 180), (outer, 180))  # fmt: skip
    ink.line((MIDDLE[0] - wide + 2, 40), (MIDDLE[0] - wide + 2, crown), (MIDDLE[0] + wide - 2, crown),
             (MIDDLE[0] + wide - 2, 40), close=True)  # fmt: skip
    for y in (98, 86):
        ink.line((MIDDLE[0] - wide + 2, y), (MIDDLE[0] + wide - 2, y), kind="thin")
    if "valves" in ink.marks:
        ink.line((MIDDLE[0] - 16, 130), (MIDDLE[0] + 16, 130), (MIDDLE[0] + 3, 138), (MIDDLE[0] + 3, 176))
        ink.line((MIDDLE[0] - 16, 130), (MIDDLE[0] - 3, 138), (MIDDLE[0] - 3, 176))
    low = crown - 70 * seen.share("engine.stroke", seen.bore, 1.0, 0.6, 1.4)
    if "stroke" in ink.marks:
        ink.line((MIDDLE[0] - wide, low), (MIDDLE[0] + wide, low), kind="dash")
    ink.between("stroke", (MIDDLE[0] + 20, low), (MIDDLE[0] + 20, crown))
    ink.between("squish", (MIDDLE[0] + 46, crown), (MIDDLE[0] + 46, deck_at + 6), -50)
    ink.between("valves", (MIDDLE[0], crown), (MIDDLE[0], 130), 96)
    ink.lead("clearance", (MIDDLE[0], 116), (MIDDLE[0] + 100, 190))
    ink.lead("pressure", (MIDDLE[0], crown), (MIDDLE[0] - 100, 190))


def heat(ink: Ink, seen: Seen) -> None:
    """Draw the top end cut in two, with the place whose heat is asked for."""
    del seen
    for way in (-1, 1):
        inner, wall, edge, stud = (MIDDLE[0] + way * far for far in (46, 60, 112, 86))
        ink.metal((inner, 14), (inner, 100), (edge, 100), (edge, 78), (wall, 78), (wall, 14))
        ink.metal(
            (MIDDLE[0], 150), (edge, 150), (edge, 104), (inner, 104), (MIDDLE[0] + way * 26, 124), (MIDDLE[0], 126)
        )
        ink.line((stud - 5, 82), (stud - 5, 172), (stud + 5, 172), (stud + 5, 82), close=True)
        ink.line((stud - 12, 150), (stud - 12, 160), (stud + 12, 160), (stud + 12, 150))
    ink.line((MIDDLE[0] - 44, 20), (MIDDLE[0] - 44, 94), (MIDDLE[0] + 44, 94), (MIDDLE[0] + 44, 20), close=True)
    ink.line((MIDDLE[0] - 46, 84), (MIDDLE[0] + 46, 84), kind="thin")
    for name, at, text in (
        ("stud", (MIDDLE[0] + 91, 166), (276, 186)),
        ("head", (MIDDLE[0] + 66, 140), (276, 150)),
        ("barrel", (MIDDLE[0] + 100, 90), (284, 74)),
        ("ring", (MIDDLE[0] + 44, 84), (MIDDLE[0] + 86, 40)),
        ("wall", (MIDDLE[0] - 46, 56), (MIDDLE[0] - 86, 40)),
    ):
        ink.lead(name, at, text)


def port(ink: Ink, seen: Seen) -> None:
    """Draw a port in the barrel's wall, and from above the angles between which it lies."""
    del seen
    ink.line((14, 20), (14, 170), (130, 170), (130, 20))
    ink.line((44, 60), (100, 60), (100, 110), (44, 110), close=True)
    ink.between("top", (72, 110), (72, 170))
    ink.between("bottom", (100, 60), (100, 170), -44)
    middle = (252.0, 92.0)
    ink.circle(*middle, 52)
    ink.line((middle[0] - 8, middle[1]), (330, middle[1]), kind="centre")
    ink.word("+X", 322, middle[1] - 12)
    for name, turn in (("from", 30.0), ("to", 80.0)):
        (tip,) = arc(middle, 52, turn, turn)[:1]
        ink.line(middle, tip, kind="thin")
        if name in ink.marks:
            ink.line(*arc(middle, 36, 0, turn), kind="thin")
            ink.lead(name, arc(middle, 36, 0, turn)[-2], (middle[0] + 8, 176))
    ink.line(*arc(middle, 56, 30, 80))

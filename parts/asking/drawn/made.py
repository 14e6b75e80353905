"""Drawings of the parts that are made: stud, gasket, plug, ring, mandrel, and the bar in the lathe."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.asking.ink import arc

if TYPE_CHECKING:
    from parts.asking.drawn.seen import Seen
    from parts.asking.ink import Ink

MIDDLE = (160.0, 100.0)


def stud(ink: Ink, seen: Seen) -> None:
    """Draw a stud lying, its barrel end on the left."""
    tap = seen.length("stud.tap_end", 10.0)
    k = 34 / tap
    nut = k * min(max(seen.length("stud.nut_end", 0.8 * tap), 0.4 * tap), 1.6 * tap)
    thin = k * min(max(seen.length("stud.shank", 0.62 * tap), 0.3 * tap), 1.6 * tap)
    y, ends = MIDDLE[1], ((30, 96, 34.0), (96, 206, thin), (206, 290, nut))
    for x0, x1, wide in ends:
        ink.line((x0, y - wide / 2), (x1, y - wide / 2), (x1, y + wide / 2), (x0, y + wide / 2), close=True)
    for x0, x1, wide in (ends[0], ends[2]):
        for way in (-1, 1):
            ink.line((x0, y + way * (wide / 2 - 4)), (x1, y + way * (wide / 2 - 4)), kind="thin")
    ink.line((18, y), (302, y), kind="centre")
    ink.lead("tap_end", (60, y + 17), (84, 168))
    ink.lead("nut_end", (250, y + nut / 2), (226, 168))
    ink.between("shank", (150, y - thin / 2), (150, y + thin / 2))
    ink.lead("material", (150, y), (120, 34))
    ink.between("engagement", (96, y - 17), (30, y - 17), 24)
    ink.between("nut_end_length", (290, y - nut / 2), (206, y - nut / 2), 24)
    if "insert" in ink.marks:
        for n in range(6):
            ink.line((34 + 10 * n, y - 21), (40 + 10 * n, y + 21), kind="thin")
    ink.between("insert", (92, y - 22), (34, y - 22), 20)


def gasket(ink: Ink, seen: Seen) -> None:
    """Draw head, gasket and barrel pulled apart, cut at a stud."""
    del seen
    for says, y in (("head", 160), ("gasket", 103), ("barrel", 44)):
        ink.word(says, 22, y)
    for x0, x1 in ((84, 150), (178, 240)):
        ink.metal((x0, 140), (x1, 140), (x1, 182), (x0, 182))
        ink.metal((x0, 94), (x1, 94), (x1, 112), (x0, 112))
        ink.metal((x0, 18), (x1, 18), (x1, 66), (x0, 66))
    ink.line((164, 10), (164, 192), kind="centre")
    ink.between("thickness", (240, 94), (240, 112), -14)
    ink.between("old", (84, 94), (84, 112), 10)
    ink.between("hole", (150, 112), (178, 112), 12)
    ink.lead("material", (108, 104), (126, 126))


def plug(ink: Ink, seen: Seen) -> None:
    """Draw a plug in its hole in the deck."""
    deep = 110 * seen.share("plug.length", 18.0, 0.66, 0.3, 0.95)
    top, left, right = 150.0, 130.0, 190.0
    ink.metal((90, 20), (230, 20), (230, top), (right, top), (right, 34), (left, 34), (left, top), (90, top))
    ink.line((left + 3, top + 4), (left + 3, top - deep), (right - 3, top - deep), (right - 3, top + 4), close=True)
    ink.line((MIDDLE[0], 26), (MIDDLE[0], 166), kind="centre")
    ink.between("diameter", (left, top), (right, top), 20)
    ink.between("length", (right - 3, top - deep), (right - 3, top), -60)
    ink.between("depth", (right, 34), (right, top), -58)
    ink.lead("bond", (right - 1, 110), (246, 174))
    ink.lead("material", (MIDDLE[0] - 12, 130), (74, 174))


def groove(ink: Ink, seen: Seen) -> None:
    """Draw a piston cut in two, a ring in its groove on the right."""
    del seen
    wide, root, y = 100.0, 54.0, (70.0, 122.0)
    for way in (-1, 1):
        edge, deep = MIDDLE[0] + way * wide, MIDDLE[0] + way * root
        low, high = [(edge, 24), (edge, y[0]), (deep, y[0])], [(deep, y[1]), (edge, y[1]), (edge, 176)]
        ink.metal((MIDDLE[0], 24), *low, *high, (MIDDLE[0], 176))
    edge = MIDDLE[0] + wide
    ink.metal((edge - 32, y[0] + 4), (edge + 12, y[0] + 4), (edge + 12, y[1] - 4), (edge - 32, y[1] - 4))
    ink.line((edge + 14, 18), (edge + 14, 182))
    ink.line((MIDDLE[0], 14), (MIDDLE[0], 188), kind="centre")
    ink.between("width", (MIDDLE[0] - wide, y[0]), (MIDDLE[0] - wide, y[1]), 18)
    ink.between("axial", (edge + 12, y[0] + 4), (edge + 12, y[1] - 4), -18)
    ink.between("root", (MIDDLE[0] - root, y[0]), (MIDDLE[0] + root, y[0]), -62)
    ink.between("piston", (MIDDLE[0] - wide, 176), (MIDDLE[0] + wide, 176), 16)


def ring(ink: Ink, seen: Seen) -> None:
    """Draw a ring from above, its gap on the right; dashed as it stands free."""
    del seen
    outer, inner = 78.0, 64.0
    for radius in (outer, inner):
        ink.line(*arc(MIDDLE, radius, 5, 355))
    for turn in (5, 355):
        ink.line(arc(MIDDLE, inner, turn, turn)[0], arc(MIDDLE, outer, turn, turn)[0])
    for name, wide in (("closed", 5), ("slit", 5), ("free", 22)):
        low, high = (arc(MIDDLE, outer + wide / 4, turn, turn)[0] for turn in (-wide, wide))
        ink.between(name, low, high, -20)
    ink.between("radial", (MIDDLE[0] - outer, MIDDLE[1]), (MIDDLE[0] - inner, MIDDLE[1]), -90)
    ink.lead("count", arc(MIDDLE, outer, 135, 135)[0], (76, 184))
    if "free" in ink.marks:
        for radius in (outer + 6, inner + 6):
            ink.line(*arc(MIDDLE, radius, 22, 338), kind="dash")


def mandrel(ink: Ink, seen: Seen) -> None:
    """Draw rings on a mandrel, cut along its axis."""
    del seen
    ink.line((70, 30), (250, 30), (250, 48), (206, 48), (206, 150), (114, 150), (114, 48), (70, 48), close=True)
    for y in (48, 72, 96):
        for x in (96, 206):
            ink.metal((x, y), (x + 18, y), (x + 18, y + 22), (x, y + 22))
    ink.line((MIDDLE[0], 20), (MIDDLE[0], 176), kind="centre")
    ink.lead("rings", (224, 84), (262, 116))
    ink.lead("form", (206, 134), (248, 166))


def lathe(ink: Ink, seen: Seen) -> None:
    """Draw a bar in the chuck, the tool at it, a centre in its end."""
    del seen
    ink.metal((20, 60), (58, 60), (58, 140), (20, 140))
    ink.line((58, 84), (150, 84), (150, 90), (250, 90), (250, 110), (150, 110), (150, 116), (58, 116))
    ink.line((8, 100), (262, 100), kind="centre")
    ink.line((150, 84), (146, 70), (166, 30), (196, 30), (156, 76), close=True)
    if "tailstock" in ink.marks:
        ink.line((250, 100), (276, 112), (306, 112), (306, 88), (276, 88), close=True)
    ink.lead("tailstock", (270, 108), (262, 160))
    ink.between("depth", (166, 84), (166, 90), -108)
    ink.lead("feed", (140, 80), (112, 46))
    ink.lead("nose", (151, 81), (216, 50))
    ink.lead("taper", (214, 110), (198, 160))

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
    ink.between("engagement", (96, y - 17), (30, y - 17), 24)
    ink.between("nut_end_length", (290, y - nut / 2), (206, y - nut / 2), 24)
    if "insert" in ink.marks:
        for n in range(6):
            ink.line((34 + 10 * n, y - 21), (40 + 10 * n, y + 21), kind="thin")
    ink.between("insert", (92, y - 22), (34, y - 22), 20)


def gasket(ink: Ink, seen: Seen) -> None:
    """Draw head, gasket and barrel pulled apart, cut at a stud."""
    del seen
    ink.word("head", 44, 160)
    ink.word("gasket", 44, 104)
    ink.word("barrel", 44, 46)
    for x0, x1 in ((84, 150), (178, 240)):
        ink.metal((x0, 140), (x1, 140), (x1, 182), (x0, 182))
        ink.metal((x0, 94), (x1, 94), (x1, 112), (x0, 112))
        ink.metal((x0, 18), (x1, 18), (x1, 66), (x0, 66))
    ink.line((164, 10), (164, 192), kind="centre")
    ink.between("thickness", (240, 94), (240, 112), -14)
    ink.between("old", (240, 94), (240, 112), -14)
    ink.between("hole", (150, 112), (178, 112), 12)


def plug(ink: Ink, seen: Seen) -> None:
    """Draw a plug in its hole in the deck."""
    deep = 110 * seen.share("plug.length", 18.0, 0.66, 0.3, 0.95)
    top, left, right = 150.0, 130.0, 190.0
    ink.metal((40, 20), (280, 20), (280, top), (right, top), (right, 34), (left, 34), (left, top), (40, top))
    ink.line((left + 3, top + 4), (left + 3, top - deep), (right - 3, top - deep), (right - 3, top + 4), close=True)
    ink.line((MIDDLE[0], 26), (MIDDLE[0], 186), kind="centre")
    ink.between("diameter", (left, top), (right, top), 20)
    ink.between("length", (MIDDLE[0] + 10, top - deep), (MIDDLE[0] + 10, top))
    ink.between("depth", (MIDDLE[0] + 10, 34), (MIDDLE[0] + 10, top))
    ink.lead("bond", (right - 1, 110), (216, 184))


def groove(ink: Ink, seen: Seen) -> None:
    """Draw a piston's edge with a ring in its groove, the piston's centre line on the left."""
    del seen
    ink.metal((40, 20), (212, 20), (212, 76), (140, 76), (140, 128), (212, 128), (212, 180), (40, 180))
    ink.metal((156, 80), (228, 80), (228, 124), (156, 124))
    ink.line((40, 12), (40, 190), kind="centre")
    ink.line((230, 14), (230, 188))
    ink.between("width", (140, 76), (140, 128), 20)
    ink.between("axial", (228, 80), (228, 124), -20)
    ink.between("root", (40, 102), (140, 102))
    ink.between("piston", (40, 160), (212, 160))


def ring(ink: Ink, seen: Seen) -> None:
    """Draw a ring from above, its gap on the right; dashed as it stands free."""
    del seen
    outer, inner = 78.0, 64.0
    for radius in (outer, inner):
        ink.line(*arc(MIDDLE, radius, 5, 355))
    for turn in (5, 355):
        ink.line(arc(MIDDLE, inner, turn, turn)[0], arc(MIDDLE, outer, turn, turn)[0])
    tips = [arc(MIDDLE, outer, turn, turn)[0] for turn in (-5, 5)]
    ink.between("closed", *tips, -22)
    ink.between("slit", *tips, -22)
    ink.between("radial", (MIDDLE[0] - outer, MIDDLE[1]), (MIDDLE[0] - inner, MIDDLE[1]), 0)
    if "free" in ink.marks:
        for radius in (outer + 6, inner + 6):
            ink.line(*arc(MIDDLE, radius, 22, 338), kind="dash")
        ink.between("free", *(arc(MIDDLE, outer + 6, turn, turn)[0] for turn in (-22, 22)), -20)


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
    ink.lead("tailstock", (270, 108), (236, 160))
    ink.between("depth", (166, 84), (166, 90), -70)
    ink.lead("feed", (140, 80), (112, 46))
    ink.lead("nose", (151, 80), (112, 46))
    ink.between("taper", (250, 90), (250, 110), -14)

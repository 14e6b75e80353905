"""From a picture to outlines: marks, light, edges, circles and arcs, and what is not sure of it."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import TYPE_CHECKING, Any

import numpy as np

from parts.errors import Fault, JobError
from parts.geometry.outline import signed_area, transformed
from parts.tracing.contours import Contour, contours, dark_level, evened, lit, sharpness
from parts.tracing.loops import (
    Traced,
    as_loop,
    circle,
    clean,
    lowered,
    middle_of,
    nested,
    outline,
    sharpened,
    soft_part,
    strayed,
)
from parts.tracing.marks import find_marks, lay
from parts.tracing.picture import read_picture

if TYPE_CHECKING:
    from pathlib import Path

    from parts.sheets.frame import Frame
    from parts.tracing.camera import Camera
    from parts.tracing.contours import Points
    from parts.tracing.marks import Found, Laid
    from parts.tracing.picture import Picture

BEYOND = 24  # dots that are looked at past two sides of the field: the light is told by whole cells
SPECK = 2.0  # mm^2: what is smaller is dirt
FARTHEST_SCALE = 0.03  # by which a printer may be off
SPAN = 0.1  # mm that a measured length may be read wrong
EDGE = 0.2  # dots that an edge may be taken wrong by where shade runs from light to dark
MISSED = 4.0  # times what the rings miss by: so far a curl of 1 mm moves an edge where it is not taken out
CURLED = 0.3  # mm that a sheet may lie up unsaid
BURNT = 1.0  # of the blur, that an edge may lie off beside paper that is all white
CURL = 0.04, 0.18  # mm: of the paper on a scanner, and under a camera
TILTED = 0.02  # change of scale over the sheet from which a picture is taken for a photograph
SOFT = 0.35  # of the sharpest edge: a softer one is none of the gasket
LINE = 4.0  # mm, widest line of a drawing in ink
CLEAR = 0.12  # share of paper and ink between which a shade is neither


@dataclass(frozen=True)
class Trace:
    """What was traced [mm], X to the right and Y up, its origin the centre of the bore where there is one."""

    loops: list[Traced]
    found: Found
    laid: Laid
    picture: Picture
    origin: tuple[float, float]
    """on the sheet"""
    scale: Points
    """of the printed sheet, across and along"""
    thick: float
    """of what lies on the sheet"""
    notes: list[str]
    """what is not sure of it, a sentence each"""

    def record(self) -> dict[str, Any]:
        """What `topend trace --json` prints."""
        loops = [
            {
                "layer": one.layer,
                "kind": "circle" if one.circle else "loop",
                "x": round(one.x, 4),
                "y": round(one.y, 4),
                "diameter": round(2 * one.circle.radius, 4) if one.circle else None,
                "plus_minus": round(one.plus_minus, 4),
                "area": round(one.area, 3),
                "worst": round(one.worst, 4),
            }
            for one in self.loops
        ]
        marks = {"found": len(self.found.numbers), "rms_mm": round(self.laid.rms, 4)}
        return {"marks": marks, "loops": loops, "notes": self.notes}


@dataclass(frozen=True)
class Asked:
    """What the user tells of the picture [mm]."""

    across: float
    along: float
    within: float = 0.1
    thick: float = 0.0
    light: bool = False


def trace(path: Path, asked: Asked) -> Trace:
    """Trace a picture; JobError where that can't be, in one sentence."""
    picture = read_picture(path)
    found = find_marks(picture)
    spans = found.frame.spans
    scale = np.array([asked.across, asked.along]) / spans
    for name, value, share, printed in (
        ("--across", asked.across, scale[0], spans[0]),
        ("--along", asked.along, scale[1], spans[1]),
    ):
        if abs(share - 1) > FARTHEST_SCALE:
            says = (
                f"must lie within {FARTHEST_SCALE * 100:g} % of what the sheet says, {printed:.1f} mm, not {value:g} mm"
            )
            raise JobError(Fault(name, says))
    laid = lay(found, scale, picture.focal)
    camera = laid.camera
    lines, level, notes = _edges(picture, camera, found.frame, scale, light=asked.light)
    photographed = picture.photographed or camera.tilt(spans) > TILTED or asked.thick > 0 or laid.up > 0
    shapes = _shapes(lines, camera, picture, asked, notes)
    notes += _about(found, laid, level) + _unsure(lines)
    loops, origin = _told(shapes, found, laid, asked, photographed=photographed)
    return Trace(loops, found, laid, picture, origin, scale, asked.thick, notes + _odd(loops))


def _edges(
    picture: Picture, camera: Camera, frame: Frame, scale: Points, *, light: bool
) -> tuple[list[Contour], float, list[str]]:
    """Closed edges in the frame's field, on the sheet [mm], the shade that they were taken at, and notes."""
    left, low, right, high = frame.field
    ends = np.array([(x, y) for x in (left, right) for y in (low, high)]) * scale
    seen = camera.picture(ends)
    (x0, y0), (x1, y1) = np.floor(seen.min(axis=0)).astype(int), np.ceil(seen.max(axis=0)).astype(int) + 1
    height, width = picture.shades.shape
    x0, y0, x1, y1 = max(x0, 0), max(y0, 0), min(x1 + BEYOND, width), min(y1 + BEYOND, height)
    shades = evened(picture.shades[y0:y1, x0:x1])
    level = dark_level(shades)
    if not light and level > 1 - CLEAR / 2:
        raise JobError(
            Fault("", "nothing dark lies in the frame's field: give --light for what is lighter than its ground")
        )
    found, opened = contours(shades, level, x0, y0)
    speck = SPECK / camera.dot((ends[0] + ends[3])[None] / 2) ** 2
    found = lit([line for line in found if abs(line.area) > speck], shades, level, x0, y0)
    lines = [Contour(camera.sheet(line.points), sharpness(line, shades, x0, y0)) for line in found]
    inside = np.array([left, low]) * scale, np.array([right, high]) * scale
    lines = [c for c in lines if _inside(c.points, *inside).all()]
    leaving = [line for line in opened if len(line) > 200 and _inside(camera.sheet(line), *inside).any()]  # noqa: PLR2004
    notes = ["an edge leaves the frame's field: lay it wholly inside the rings"] if leaving else []
    if not lines:
        raise JobError(Fault("", "no closed edge lies in the frame's field: is all of it inside the rings?"))
    sharp = [line for line in lines if _sharp(line) >= SOFT * max(map(_sharp, lines))]
    if len(sharp) < len(lines):
        notes.append(
            f"{len(lines) - len(sharp)} soft edges, of glare or a shadow, are left away: look whether one was a hole"
        )
    return sharp, level, notes


def _inside(points: Points, low: Points, high: Points) -> Any:  # noqa: ANN401 - an array of truths
    return ((points > low) & (points < high)).all(axis=1)


def _sharp(line: Contour) -> float:
    return float(np.median(line.sharp)) if line.sharp is not None else 0.0


def _unsure(lines: list[Contour]) -> list[str]:
    """Say where an edge is soft along a part of it."""
    whole = max(map(_sharp, lines))
    parts = [(line, soft_part(line, SOFT * whole)) for line in lines]
    told = [line.points[soft].mean(axis=0) for line, soft in parts if soft is not None]
    return [
        f"an edge is soft near X {x:.0f}, Y {y:.0f} mm of the sheet: glare, a shadow or a torn edge"
        for x, y in told[:4]
    ]


def _shapes(lines: list[Contour], camera: Camera, picture: Picture, asked: Asked, notes: list[str]) -> list[Contour]:
    """The outline, then every opening in it [mm]."""
    order = nested(lines)
    if asked.light:
        order = [(c, deep - 1, None) for c, deep, _ in order if deep]
    outer = next((c for c, deep, _ in order if deep == 0), None)
    if outer is None:
        raise JobError(Fault("", "no light shape lies on a dark ground in the frame's field"))
    inner = [(c, deep) for c, deep, _ in order if deep > 0 and outer.holds(c)]
    others = sum(1 for c, deep, _ in order if deep == 0) - 1
    if others:
        notes.append(f"left away: {others} more {'shapes' if others > 1 else 'shape'} beside it")
    drawn = next((c for c, deep in inner if deep == 1 and _is_line(outer, c)), None)
    if drawn is not None:
        notes.append("drawn as lines: their middle is taken")
        rims = [c for c, deep in inner if deep == 2]  # noqa: PLR2004 - outside, inside of the outline, then a hole's line
        pairs = [(rim, next((c for c, deep in inner if deep == 3 and rim.holds(c)), None)) for rim in rims]  # noqa: PLR2004
        return [middle_of(outer, drawn), *(middle_of(a, b) if b else a for a, b in pairs)]
    openings = [c for c, deep in inner if deep == 1]
    islands = sum(1 for _, deep in inner if deep == 2)  # noqa: PLR2004
    if islands:
        notes.append(f"left away: {islands} dark {'spots' if islands > 1 else 'spot'} in an opening")
    if not asked.thick:
        return [outer, *openings]
    eye = camera.eye(picture.focal)
    return [lowered(c, eye, asked.thick, dark_inside=c is outer) for c in (outer, *openings)]


def _is_line(outer: Contour, inner: Contour) -> bool:
    """Whether two edges are those of one drawn line."""
    gap = 2 * (abs(outer.area) - abs(inner.area)) / (outer.length + inner.length)
    return gap < LINE and abs(inner.area) > 0.6 * abs(outer.area)


def _told(
    shapes: list[Contour], found: Found, laid: Laid, asked: Asked, *, photographed: bool
) -> tuple[list[Traced], tuple[float, float]]:
    """Every loop with its layer and what it may be off, about the bore."""
    whole = max(map(_sharp, shapes))
    rounds = [sharpened(circle(clean(one, SOFT * whole)), found.blur) for one in shapes]
    rounds = [one if one.worst <= asked.within else None for one in rounds]  # type: ignore[misc]
    bores = [n for n, one in enumerate(rounds) if one and n > 0]
    bore = max(bores, key=lambda n: rounds[n].radius, default=None)
    x0, y0 = (rounds[bore].x, rounds[bore].y) if bore is not None else tuple(map(float, shapes[0].middle))
    loops = []
    for n, (shape, one) in enumerate(zip(shapes, rounds, strict=True)):
        layer = "OUTLINE" if n == 0 else "BORE" if n == bore else "HOLES" if one else "OPENINGS"
        loop, worst = (as_loop(one), one.worst) if one else outline(shape.points, asked.within)
        middle = shape.middle
        x, y = (one.x, one.y) if one else (float(middle[0]), float(middle[1]))
        wide = 2 * one.radius if one else float(np.hypot(*np.ptp(shape.points, axis=0)))
        off = _plus_minus(found, laid, (x, y), wide, asked, photographed=photographed)
        off = off if one else hypot(off, strayed(shape, SOFT * whole))
        loops.append(
            Traced(layer, transformed(loop, -x0, -y0), one, x - x0, y - y0, abs(signed_area(loop)), worst, off)
        )
    order = {"OUTLINE": 0, "BORE": 1, "HOLES": 2, "OPENINGS": 3}
    return sorted(loops, key=lambda one: (order[one.layer], -one.area)), (x0, y0)


def _plus_minus(
    found: Found, laid: Laid, at: tuple[float, float], wide: float, asked: Asked, *, photographed: bool
) -> float:
    """What a size there may be off: two standard deviations of marks, edge, scale, paper and height [mm]."""
    edge = EDGE * laid.camera.dot(np.array(at)) * 2
    scale = wide * SPAN / min(asked.across, asked.along)
    marks = MISSED * laid.rms
    height = 0.25 * asked.thick * wide / 400 if photographed else 0.0
    bloom = BURNT * sqrt(found.blur) * found.burnt
    return hypot(edge, scale, marks, CURL[photographed], height, bloom)


def _about(found: Found, laid: Laid, level: float) -> list[str]:
    """What is not sure of the picture."""
    lacking = len(found.frame.rings) - len(found.numbers)
    notes = [f"not used: {lacking} of the {len(found.frame.rings)} rings, covered, smudged or out of sight"] * bool(
        lacking
    )
    if laid.camera.mirrored:
        notes.append("the picture is a mirror image: the outlines are as the sheet itself shows them")
    if found.burnt:
        notes.append("the paper is burnt out to plain white: edges creep into what is dark; take it darker")
    if laid.up > CURLED:
        notes.append(f"the sheet lies up to {laid.up:.1f} mm off flat; that is taken out by the rings: press it flat")
    if laid.rms > 0.05:  # noqa: PLR2004 - mm: what flat paper gives is under a twentieth
        notes.append(f"the rings miss their places by {laid.rms:.2f} mm: the paper is not flat, or was moved")
    if level > 0.8:  # noqa: PLR2004 - of the paper's light
        notes.append("what lies on the sheet is hardly darker than the paper: the edges are less sure")
    return notes


def _odd(loops: list[Traced]) -> list[str]:
    """Holes that are out of round by more than they may be off."""
    return [
        f"the hole at ({one.x:.1f}, {one.y:.1f}) mm is out of round by {one.worst:.2f} mm"
        for one in loops
        if one.circle and one.worst > one.plus_minus
    ]

"""Letters of the project's own font, placed one after the other: for pictures that look the same everywhere."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from parts.writers.fonts import advance, em, name_of, outlines, width_of

if TYPE_CHECKING:
    from parts.writers.plot import Label, Point

CURVE = (0.25, 0.5, 0.75, 1.0)
"""where a letter's curves become corners"""


@lru_cache(None)
def svg_path(name: str) -> str:
    """Outline of a glyph as an SVG path, in units of the font, y upwards."""
    from fontTools.pens.svgPathPen import SVGPathPen

    glyphs = outlines().getGlyphSet()
    pen = SVGPathPen(glyphs)
    glyphs[name].draw(pen)
    return str(pen.getCommands())


def start_of(words: Label) -> Point:
    """Foot of the first letter."""
    share = {"start": 0.0, "middle": 0.5, "end": 1.0}[words.anchor]
    back = share * advance(words.text) * words.size / em()
    return (words.x, words.y + back) if words.upright else (words.x - back, words.y)


def placed(text: str) -> list[tuple[str, int]]:
    """Glyph and place along the line of every letter that shows, in units of the font."""
    found, x = list[tuple[str, int]](), 0
    for character in text:
        if character != " ":
            found.append((name_of(character), x))
        x += width_of(character)
    return found


@lru_cache(None)
def contours(name: str) -> tuple[tuple[Point, ...], ...]:
    """Closed contours of a glyph as polygons, in units of the font, y upwards."""
    from fontTools.pens.recordingPen import DecomposingRecordingPen

    glyphs = outlines().getGlyphSet()
    pen = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(pen)
    found: list[list[Point]] = []
    for command, points in pen.value:
        if command == "moveTo":
            found.append([points[0]])
        elif command == "lineTo":
            found[-1].append(points[0])
        elif command == "qCurveTo":
            _curve(found, points)
    return tuple(tuple(contour) for contour in found)


def _curve(found: list[list[Point]], points: tuple[Point | None, ...]) -> None:
    """Follow quadratic curves whose inner ends are implied half way between two controls."""
    *controls, end = points
    if end is None:  # a contour without a point on it
        first, last = controls[0], controls[-1]
        if first is None or last is None:
            return
        end = _half(last, first)
        found.append([end])
    for n, control in enumerate(controls):
        after = controls[n + 1] if n + 1 < len(controls) else None
        if control is not None:
            stop = end if after is None else _half(control, after)
            start = found[-1][-1]
            found[-1] += [_on(start, control, stop, t) for t in CURVE]


def _half(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _on(start: Point, control: Point, end: Point, t: float) -> Point:
    a, b, c = (1 - t) * (1 - t), 2 * t * (1 - t), t * t
    return a * start[0] + b * control[0] + c * end[0], a * start[1] + b * control[1] + c * end[1]

"""A drawing as marks on paper: strokes, filled areas and letters in mm, Y upwards, taken from an ezdxf document.

SVG and PDF are both written from these marks, so that they show the same.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from parts.writers.fonts import load_font
from parts.writers.library import (
    BackendInterface,
    ColorPolicy,
    Command,
    Configuration,
    HatchPolicy,
    RenderContext,
    RenderPipeline2d,
    UniversalFrontend,
    new_ctb,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from ezdxf.addons.acadctb import ColorDependentPlotStyles
    from ezdxf.document import Drawing
    from ezdxf.math import Matrix44, Vec2

DIGITS = 4  # decimals of a mm of paper
Step = tuple[str, tuple[float, ...]]
"""M, L or C (two control points and an end) and its coordinates"""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line of some width."""

    steps: tuple[Step, ...]
    width: float


@dataclass(frozen=True, slots=True)
class Fill:
    """A closed area, black."""

    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Letters:
    """A line of text: its foot on the left, the direction it runs in, the height of its capitals."""

    text: str
    x: float
    y: float
    along: tuple[float, float]
    height: float


Mark = Stroke | Fill | Letters


@dataclass(frozen=True, slots=True)
class Shared:
    """What stands on several pages, and is written once: where its origin lies on this one [mm]."""

    marks: Sequence[Mark]
    """the same list on every page"""
    x: float = 0.0
    y: float = 0.0
    window: tuple[float, float, float, float] | None = None
    """left, low, right, high: cut off at its edge"""


@dataclass
class Page:
    """One page [mm]: its marks, and in a PDF of many pages what it shares with others."""

    width: float
    height: float
    marks: list[Mark]
    shared: list[Shared] = field(default_factory=list)


def marks_of(document: Drawing, scale: float) -> list[Mark]:
    """Return all that stands in the modelspace of a document, `scale` mm of paper to a mm."""
    load_font()
    backend = _Recorder(scale)
    settings = Configuration(color_policy=ColorPolicy.BLACK, hatch_policy=HatchPolicy.NORMAL)
    state = random.getstate()
    random.seed(0)  # ezdxf shifts hatch lines by a hair, at random
    try:
        UniversalFrontend(RenderContext(document, ctb=_plot_styles()), _Pipeline(backend), settings).draw_layout(
            document.modelspace()
        )
    finally:
        random.setstate(state)
    return backend.marks


@lru_cache(1)
def _plot_styles() -> ColorDependentPlotStyles:
    """Plot styles as they are by default; made anew, each drawing would make them three times."""
    return new_ctb()


def _round(value: float) -> float:
    return round(float(value), DIGITS) + 0.0


class _Recorder(BackendInterface):
    """Notes down what the front end draws."""

    def __init__(self, scale: float) -> None:
        self.scale = scale
        self.marks: list[Mark] = []

    def _at(self, *points: Vec2) -> tuple[float, ...]:
        return tuple(_round(v * self.scale) for p in points for v in (p.x, p.y))

    def _steps(self, path: Any) -> list[Step]:
        here = path.start
        steps: list[Step] = [("M", self._at(here))]
        for command in path.commands():
            if command.type == Command.CURVE3_TO:
                one, two = here.lerp(command.ctrl, 2 / 3), command.end.lerp(command.ctrl, 2 / 3)
                steps.append(("C", self._at(one, two, command.end)))
            elif command.type == Command.CURVE4_TO:
                steps.append(("C", self._at(command.ctrl1, command.ctrl2, command.end)))
            else:
                steps.append(("L" if command.type == Command.LINE_TO else "M", self._at(command.end)))
            here = command.end
        return steps

    def draw_text(self, text: str, transform: Matrix44, height: float) -> None:
        origin, along = transform.transform((0, 0, 0)), transform.transform_direction((1, 0, 0))
        size = height * transform.transform_direction((0, 1, 0)).magnitude * self.scale
        way = along.normalize()
        x, y = self._at(origin)
        self.marks.append(Letters(text, x, y, (round(way.x, 9) + 0.0, round(way.y, 9) + 0.0), _round(size)))

    def draw_point(self, pos: Vec2, properties: Any) -> None:
        pass

    def draw_line(self, start: Vec2, end: Vec2, properties: Any) -> None:
        self.marks.append(Stroke((("M", self._at(start)), ("L", self._at(end))), properties.lineweight))

    def draw_solid_lines(self, lines: Iterable[tuple[Vec2, Vec2]], properties: Any) -> None:
        steps = [step for a, b in lines for step in (("M", self._at(a)), ("L", self._at(b)))]
        if steps:
            self.marks.append(Stroke(tuple(steps), properties.lineweight))

    def draw_path(self, path: Any, properties: Any) -> None:
        if len(path):
            self.marks.append(Stroke(tuple(self._steps(path)), properties.lineweight))

    def draw_filled_paths(self, paths: Iterable[Any], properties: Any) -> None:
        steps = [step for path in paths if len(path) for step in self._steps(path)]
        if steps:
            self.marks.append(Fill(tuple(steps)))

    def draw_filled_polygon(self, points: Any, properties: Any) -> None:
        first, *others = points.vertices()
        self.marks.append(Fill((("M", self._at(first)), *(("L", self._at(p)) for p in others))))

    def draw_image(self, image_data: Any, properties: Any) -> None:
        raise NotImplementedError("a drawing holds no pictures")

    def configure(self, config: Configuration) -> None:
        pass

    def enter_entity(self, entity: Any, properties: Any) -> None:
        pass

    def exit_entity(self, entity: Any) -> None:
        pass

    def set_background(self, color: str) -> None:
        pass

    def clear(self) -> None:
        pass

    def finalize(self) -> None:
        pass


class _Pipeline(RenderPipeline2d):
    """The front end's pipeline, but letters stay letters."""

    backend: _Recorder

    def draw_text(
        self, text: str, transform: Matrix44, properties: Any, cap_height: float, dxftype: str = "TEXT"
    ) -> None:
        if text.strip():
            self.backend.draw_text(text, transform, cap_height)

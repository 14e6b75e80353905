"""SVG of a plot: letters drawn from the project's own font, so that it looks the same everywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from parts.errors import WriteError
from parts.writers import svg_marks, writing
from parts.writers.fonts import em, plain
from parts.writers.glyphs import start_of
from parts.writers.plot import Area, Label, Polyline
from parts.writers.svg_marks import define_letters, lines_of, title_of, write_line

if TYPE_CHECKING:
    from pathlib import Path

    from parts.writers.plot import Picture, Point


def write_plot_svg(picture: Picture, path: Path) -> None:
    """Write a plot, read it back and compare; WriteError where its title or a line of text is missing."""
    with writing(path):
        root = _root(picture)
        define_letters(root, (mark.text for mark in picture.marks if isinstance(mark, Label)), path.stem)
        for mark in picture.marks:
            if isinstance(mark, Label):
                _words(root, mark, path.stem)
            else:
                _drawn(root, mark)
        _check(path, svg_marks.save(root, path), picture)


def _root(picture: Picture) -> ET.Element:
    w, h = _n(picture.width), _n(picture.height)
    size = {"width": w, "height": h, "viewBox": f"0 0 {w} {h}"}
    root = svg_marks.picture(size, picture.title, picture.note)
    ET.SubElement(root, "rect", {"width": w, "height": h, "fill": "#ffffff"})
    return root


def _words(root: ET.Element, words: Label, stem: str) -> None:
    size, (x, y) = words.size / em(), start_of(words)
    turned = (0.0, -size, -size, 0.0) if words.upright else (size, 0.0, 0.0, -size)
    write_line(root, words.text, (*turned, x, y), stem, words.color)


def _drawn(root: ET.Element, mark: Polyline | Area) -> None:
    if isinstance(mark, Area):
        ET.SubElement(root, "path", {"d": _path(mark.points) + "Z", "fill": mark.color})
        return
    stroke = {"fill": "none", "stroke": mark.color, "stroke-width": _n(mark.width), "stroke-linejoin": "round"}
    if mark.dash:
        stroke["stroke-dasharray"] = " ".join(map(_n, mark.dash))
    else:
        stroke["stroke-linecap"] = "round"
    ET.SubElement(root, "path", {"d": _path(mark.points), **stroke})


def _path(points: tuple[Point, ...]) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points)


def _n(value: float) -> str:
    """Two decimals of a dot, no noughts behind them."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def _check(path: Path, root: ET.Element, picture: Picture) -> None:
    said, wanted = lines_of(root), [mark.text for mark in picture.marks if isinstance(mark, Label)]
    if title_of(root) != plain(picture.title) or said != wanted:
        raise WriteError(f"{path}: written with {len(wanted)} lines of text, read back with {len(said)}")

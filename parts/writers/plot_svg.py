"""SVG of a plot: letters drawn from the project's own font, so that it looks the same everywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from parts.errors import WriteError
from parts.writers import writing
from parts.writers.fonts import plain
from parts.writers.glyphs import em, placed, start_of, svg_path
from parts.writers.plot import Area, Label, Polyline

if TYPE_CHECKING:
    from pathlib import Path

    from parts.writers.plot import Picture, Point

XMLNS = "http://www.w3.org/2000/svg"
XLINK = "http://www.w3.org/1999/xlink"


def write_plot_svg(picture: Picture, path: Path) -> None:
    """Write a plot, read it back and compare; WriteError where its title or a line of text is missing."""
    with writing(path):
        root = _root(picture)
        _letters(root, picture, path.stem)
        for mark in picture.marks:
            if isinstance(mark, Label):
                _words(root, mark, path.stem)
            else:
                _drawn(root, mark)
        ET.indent(root, " ")
        path.write_bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True) + b"\n")
        _check(path, picture)


def _root(picture: Picture) -> ET.Element:
    w, h = _n(picture.width), _n(picture.height)
    names = {"xmlns": XMLNS, "xmlns:xlink": XLINK}
    root = ET.Element("svg", {**names, "width": w, "height": h, "viewBox": f"0 0 {w} {h}", "role": "img"})
    for tag, text in (("title", picture.title), ("desc", picture.note)):
        ET.SubElement(root, tag).text = plain(text)
    ET.SubElement(root, "rect", {"width": w, "height": h, "fill": "#ffffff"})
    return root


def _letters(root: ET.Element, picture: Picture, stem: str) -> None:
    """Define each letter once, in units of the font."""
    texts = [mark.text for mark in picture.marks if isinstance(mark, Label)]
    defs = ET.SubElement(root, "defs")
    for name in sorted({name for text in texts for name, _ in placed(text)}):
        ET.SubElement(defs, "path", {"id": f"{stem}-{name}", "d": svg_path(name)})


def _words(root: ET.Element, words: Label, stem: str) -> None:
    size, (x, y) = words.size / em(), start_of(words)
    turned = (0.0, -size, -size, 0.0) if words.upright else (size, 0.0, 0.0, -size)
    matrix = " ".join(f"{v:.6g}" for v in (*turned, x, y))
    line = {"transform": f"matrix({matrix})", "fill": words.color, "aria-label": words.text}
    group = ET.SubElement(root, "g", line)
    for name, at in placed(words.text):
        ET.SubElement(group, "use", {"xlink:href": f"#{stem}-{name}"} | ({"x": str(at)} if at else {}))


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


def _check(path: Path, picture: Picture) -> None:
    root = ET.fromstring(path.read_bytes())  # noqa: S314 - the file just written
    said = [group.get("aria-label") for group in root.iter(f"{{{XMLNS}}}g")]
    wanted = [mark.text for mark in picture.marks if isinstance(mark, Label)]
    if root.findtext(f"{{{XMLNS}}}title") != plain(picture.title) or said != wanted:
        raise WriteError(f"{path}: written with {len(wanted)} lines of text, read back with {len(said)}")

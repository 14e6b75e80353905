"""SVG: one page at 1:1 in mm. Letters are drawn from the project's own font, so the page looks the same everywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from parts.errors import WriteError
from parts.geometry.outline import figure
from parts.writers import writing
from parts.writers.fonts import capital, em, plain
from parts.writers.marks import Letters, Stroke
from parts.writers.svg_marks import define_letters, picture, save, title_of, write_line

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from parts.writers.marks import Page, Step

STROKES = {"fill": "none", "stroke": "#000", "stroke-linecap": "round", "stroke-linejoin": "round"}


def write_svg(page: Page, path: Path, title: str, note: str) -> None:
    """Write a page [mm], its title and note as what a screen reader says.

    WriteError unless the file reads back with width and height in mm that agree with its view box.
    """
    title, note = plain(title), plain(note)
    with writing(path):
        _check(path, save(_root(page, path.stem, title, note), path), page, title)


def _root(page: Page, stem: str, title: str, note: str) -> ET.Element:
    w, h = f"{page.width:.2f}", f"{page.height:.2f}"
    root = picture({"width": f"{w}mm", "height": f"{h}mm", "viewBox": f"0 0 {w} {h}"}, title, note)
    letters = [mark for mark in page.marks if isinstance(mark, Letters)]
    define_letters(root, (line.text for line in letters), stem)
    up = {"transform": f"matrix(1 0 0 -1 0 {figure(page.height)})"}
    lines = ET.SubElement(root, "g", up | STROKES)
    for width, data in _by_width(page.marks):
        ET.SubElement(lines, "path", {"stroke-width": f"{width:g}", "d": data})
    black = ET.SubElement(root, "g", up)
    for mark in page.marks:
        if not isinstance(mark, Letters | Stroke):
            ET.SubElement(black, "path", {"d": _data(mark.steps) + "Z"})
    for line in letters:
        size = line.height / capital() / em()
        a, b = (v * size for v in line.along)
        write_line(black, line.text, (a, b, -b, a, line.x, line.y), stem)
    return root


def _by_width(marks: Iterable[object]) -> Iterable[tuple[float, str]]:
    """Path of every stroke, neighbours of one width joined."""
    open_width, data = None, ""
    for mark in marks:
        if isinstance(mark, Stroke):
            if mark.width != open_width and open_width is not None:
                yield open_width, data
                data = ""
            open_width, data = mark.width, data + _data(mark.steps)
    if open_width is not None:
        yield open_width, data


def _data(steps: Iterable[Step]) -> str:
    return "".join(kind + " ".join(f"{v:.8g}" for v in values) for kind, values in steps)


def _check(path: Path, root: ET.Element, page: Page, title: str) -> None:
    """Hold the file against the page; WriteError where one unit is not one mm or the title is another."""
    box = root.get("viewBox", "").split()
    size = [root.get(side, "").removesuffix("mm") for side in ("width", "height")]
    wanted = [f"{page.width:.2f}", f"{page.height:.2f}"]
    if box[2:] != size or size != wanted or title_of(root) != title:
        raise WriteError(f"{path}: written at 1:1 on {wanted} mm, read back as {size} mm over a view box of {box}")

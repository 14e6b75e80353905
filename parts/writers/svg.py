"""SVG: one page at 1:1 in mm. Letters are drawn from the project's own font, so the page looks the same everywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from parts.errors import WriteError
from parts.geometry.outline import figure
from parts.writers import writing
from parts.writers.fonts import capital, plain
from parts.writers.glyphs import em, name_of, svg_path, width_of
from parts.writers.marks import Letters, Stroke

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from parts.writers.marks import Page, Step

XMLNS = "http://www.w3.org/2000/svg"
XLINK = "http://www.w3.org/1999/xlink"
STROKES = {"fill": "none", "stroke": "#000", "stroke-linecap": "round", "stroke-linejoin": "round"}


def write_svg(page: Page, path: Path, title: str, note: str) -> None:
    """Write a page [mm], its title and note as what a screen reader says.

    WriteError unless the file reads back with width and height in mm that agree with its view box.
    """
    title, note = plain(title), plain(note)
    with writing(path):
        root = _root(page, path.stem)
        for n, (tag, text) in enumerate((("title", title), ("desc", note))):
            element = ET.Element(tag)
            element.text = text
            root.insert(n, element)
        ET.indent(root, " ")
        path.write_bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True) + b"\n")
        _check(path, page, title)


def _root(page: Page, stem: str) -> ET.Element:
    w, h = f"{page.width:.2f}", f"{page.height:.2f}"
    size = {"width": f"{w}mm", "height": f"{h}mm", "viewBox": f"0 0 {w} {h}"}
    root = ET.Element("svg", {"xmlns": XMLNS, "xmlns:xlink": XLINK, **size, "role": "img"})
    marks = [*page.windowed, *page.marks]
    letters = [mark for mark in marks if isinstance(mark, Letters)]
    _glyphs(ET.SubElement(root, "defs"), letters, stem)
    up = {"transform": f"matrix(1 0 0 -1 0 {figure(page.height)})"}
    lines = ET.SubElement(root, "g", up | STROKES)
    for width, data in _by_width(marks):
        ET.SubElement(lines, "path", {"stroke-width": f"{width:g}", "d": data})
    black = ET.SubElement(root, "g", up)
    for mark in marks:
        if not isinstance(mark, Letters | Stroke):
            ET.SubElement(black, "path", {"d": _data(mark.steps) + "Z"})
    for line in letters:
        _line(black, line, stem)
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


def _glyphs(defs: ET.Element, letters: Iterable[Letters], stem: str) -> None:
    """Define each letter once, in units of the font."""
    for name in sorted({name_of(c) for line in letters for c in line.text if c != " "}):
        ET.SubElement(defs, "path", {"id": f"{stem}-{name}", "d": svg_path(name)})


def _line(parent: ET.Element, line: Letters, stem: str) -> None:
    """Place a line of text letter by letter."""
    size = line.height / capital() / em()
    a, b = (v * size for v in line.along)
    matrix = " ".join(f"{v:.6g}" for v in (a, b, -b, a, line.x, line.y))
    group = ET.SubElement(parent, "g", {"transform": f"matrix({matrix})", "aria-label": line.text})
    x = 0
    for character in line.text:
        name = name_of(character)
        if character != " ":
            ET.SubElement(group, "use", {"xlink:href": f"#{stem}-{name}"} | ({"x": str(x)} if x else {}))
        x += width_of(name)


def _check(path: Path, page: Page, title: str) -> None:
    """Read the file back; WriteError where one unit is not one mm or the title is another."""
    root = ET.fromstring(path.read_bytes())  # noqa: S314 - the file just written
    box = root.get("viewBox", "").split()
    size = [root.get(side, "").removesuffix("mm") for side in ("width", "height")]
    wanted = [f"{page.width:.2f}", f"{page.height:.2f}"]
    if box[2:] != size or size != wanted or root.findtext(f"{{{XMLNS}}}title") != title:
        raise WriteError(f"{path}: written at 1:1 on {wanted} mm, read back as {size} mm over a view box of {box}")

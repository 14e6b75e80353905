"""SVG: an outline at 1:1 in mm, to print, cut out and lay on the metal."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from parts import outline
from parts.errors import WriteError
from parts.outline import figure
from parts.writers import writing

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from parts.outline import Sheet

XMLNS = "http://www.w3.org/2000/svg"
BAR = 50.0  # mm, the length of a check bar
TEXT = 3.2  # mm, height of letters
LINE = 1.5 * TEXT  # mm, from line to line
GAP = 8.0  # mm, round the part
TICK = 1.5  # mm, half of a bar's end mark
CROSS = 5.0  # mm, an arm of the cross at the centre of the bore
WIDE = 0.55  # width of a letter over its height, on the wide side
STROKE = {"fill": "none", "stroke": "#000", "stroke-width": "0.1"}
LETTERS = {"font-family": "sans-serif", "font-size": f"{TEXT:g}", "fill": "#000"}


def write_outline_svg(sheet: Sheet, path: Path, title: str, note: str) -> None:
    """Write the outline of a sheet [mm], Y upwards on the page, with centre crosses, two bars of 50 mm and a note.

    WriteError unless the file reads back with width and height in mm that agree with its view box.
    """
    title, note = _plain(title), _plain(note)
    with writing(path):
        root = _page(sheet, title, note)
        ET.indent(root, " ")
        path.write_bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True) + b"\n")
        _check(path, title)


def _plain(text: str) -> str:
    """Keep what XML may hold: control characters become spaces."""
    return "".join(c if c.isprintable() else " " for c in text)


def _page(sheet: Sheet, title: str, note: str) -> ET.Element:
    """Lay the part above the level bar and the words, the upright bar on its left; Y runs down the page."""
    left, low, right, high = outline.bounds(sheet.outer)
    x0, x1 = left - 2 * GAP, max(right, left + BAR) + GAP
    words = [line for text in (title, note) for line in wrap(text, int((x1 - left) / (WIDE * TEXT)))]
    y0, y1 = min(-high, -low - BAR) - GAP, -low + 2 * GAP + LINE * (len(words) + 1)
    root = ET.Element("svg", {"xmlns": XMLNS, **_size(x0, y0, x1 - x0, y1 - y0)})
    ET.SubElement(root, "title").text = title
    ET.SubElement(root, "desc").text = note
    lines = ET.SubElement(root, "g", STROKE)
    for name, data in _lines(sheet, left, -low):
        ET.SubElement(lines, "path", {"class": name, "d": data})
    letters = ET.SubElement(root, "g", LETTERS)
    bar = f"{BAR:g} mm"
    _letter(letters, bar, left, -low + GAP + LINE)
    _letter(letters, bar, left - GAP - TICK, -low, turned=True)
    for n, text in enumerate(words):
        _letter(letters, text, left, -low + GAP + LINE * (n + 2.5))
    return root


def _lines(sheet: Sheet, left: float, foot: float) -> Iterator[tuple[str, str]]:
    """Class and path of every line of the drawing."""
    yield "outline", outline.svg_path(sheet.outer)
    for hole in sheet.holes:
        yield hole.layer.lower().replace(" ", "-"), outline.svg_path(outline.circle(hole.x, hole.y, hole.diameter / 2))
        yield "centre", _cross(hole.x, -hole.y, CROSS if hole.layer == "BORE" else min(CROSS, hole.diameter / 4))
    if not any(hole.layer == "BORE" for hole in sheet.holes):
        yield "centre", _cross(0, 0, CROSS)
    y, x = foot + GAP, left - GAP
    yield "check", f"M{figure(left)} {figure(y)}h{BAR:g}m0 {-TICK:g}v{2 * TICK:g}m{-BAR:g} 0v{-2 * TICK:g}"
    yield "check", f"M{figure(x)} {figure(foot)}v{-BAR:g}m{-TICK:g} 0h{2 * TICK:g}m0 {BAR:g}h{-2 * TICK:g}"


def _cross(x: float, y: float, arm: float) -> str:
    return f"M{figure(x - arm)} {figure(y)}h{figure(2 * arm)}M{figure(x)} {figure(y - arm)}v{figure(2 * arm)}"


def _letter(parent: ET.Element, text: str, x: float, y: float, *, turned: bool = False) -> None:
    place = (
        {"transform": f"translate({figure(x)} {figure(y)}) rotate(-90)"} if turned else {"x": figure(x), "y": figure(y)}
    )
    ET.SubElement(parent, "text", place).text = text


def _size(x: float, y: float, width: float, height: float) -> dict[str, str]:
    """Width and height in mm, and the view box that makes one unit one mm."""
    w, h = f"{width:.2f}", f"{height:.2f}"
    return {"width": f"{w}mm", "height": f"{h}mm", "viewBox": f"{figure(x)} {figure(y)} {w} {h}"}


def _check(path: Path, title: str) -> None:
    """Read the file back; WriteError where one unit is not one mm or the title is another."""
    root = ET.fromstring(path.read_bytes())  # noqa: S314 - the file just written
    box = root.get("viewBox", "").split()
    size = [root.get(side, "").removesuffix("mm") for side in ("width", "height")]
    if box[2:] != size or root.findtext(f"{{{XMLNS}}}title") != title:
        raise WriteError(f"{path}: written at 1:1, read back as {size} mm over a view box of {box}")

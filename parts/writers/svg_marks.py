"""What SVG is made of: elements in a page's own text, and files with letters drawn from the project's own font."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from parts.writers.fonts import plain
from parts.writers.glyphs import placed, svg_path

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

XMLNS = "http://www.w3.org/2000/svg"
XLINK = "http://www.w3.org/1999/xlink"

# inside a page --------------------------------------------------------------------------------------------------------


def inline(kind: str, box: Iterable[str], label: str, parts: Iterable[str], name: str = "") -> str:
    """Return a picture inside a page: class, left, top, width and height, what a screen reader says, elements, id."""
    view, known = " ".join(box), f'id="{name}" ' if name else ""
    return f'<svg {known}class="{kind}" viewBox="{view}" role="img" aria-label="{_plain(label)}">{"".join(parts)}</svg>'


def circle(kind: str, x: str, y: str, radius: str, **data: str) -> str:
    """Return a circle of a class; y downwards; `data`: what it says to a script, data-NAME."""
    told = "".join(f' data-{name}="{_plain(says)}"' for name, says in data.items())
    return f'<circle class="{kind}" cx="{x}" cy="{y}" r="{radius}"{told}/>'


def path(kind: str, data: str) -> str:
    """Return a path of a class."""
    return f'<path class="{kind}" d="{data}"/>'


def text(kind: str, x: str, y: str, size: str, words: str) -> str:
    """Return a text of a class; y of its foot, downwards."""
    return f'<text class="{kind}" x="{x}" y="{y}" font-size="{size}">{_plain(words)}</text>'


def _plain(words: str) -> str:
    return escape(words, quote=False).replace('"', "&quot;")


# files ----------------------------------------------------------------------------------------------------------------


def picture(size: Mapping[str, str], title: str, note: str) -> ET.Element:
    """Return the root of a file, with its title and note as what a screen reader says."""
    root = ET.Element("svg", {"xmlns": XMLNS, "xmlns:xlink": XLINK, **size, "role": "img"})
    for tag, words in (("title", title), ("desc", note)):
        ET.SubElement(root, tag).text = plain(words)
    return root


def define_letters(root: ET.Element, texts: Iterable[str], stem: str) -> None:
    """Define each letter of some texts once, in units of the font."""
    defs = ET.SubElement(root, "defs")
    for name in sorted({name for words in texts for name, _ in placed(words)}):
        ET.SubElement(defs, "path", {"id": f"{stem}-{name}", "d": svg_path(name)})


def write_line(parent: ET.Element, words: str, matrix: Iterable[float], stem: str, fill: str = "") -> None:
    """Place a line of text letter by letter."""
    turned = " ".join(f"{v:.6g}" for v in matrix)
    given = {"transform": f"matrix({turned})"} | ({"fill": fill} if fill else {}) | {"aria-label": words}
    group = ET.SubElement(parent, "g", given)
    for name, at in placed(words):
        ET.SubElement(group, "use", {"xlink:href": f"#{stem}-{name}"} | ({"x": str(at)} if at else {}))


def save(root: ET.Element, path: Path) -> ET.Element:
    """Write a file; return it as it reads back."""
    ET.indent(root, " ")
    path.write_bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True) + b"\n")
    return ET.fromstring(path.read_bytes())  # noqa: S314 - the file just written


def title_of(root: ET.Element) -> str | None:
    """Title of a file that was read back."""
    return root.findtext(f"{{{XMLNS}}}title")


def lines_of(root: ET.Element) -> list[str | None]:
    """Lines of text of a file that was read back; None for groups that are none."""
    return [group.get("aria-label") for group in root.iter(f"{{{XMLNS}}}g")]

"""The lettering of drawings and templates: one open font file, so that every machine draws and measures the same."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

WIDER = 1.2  # a font that a CAD program draws with instead, over this one
FILE = Path(__file__).with_name("DejaVuSansCondensed.ttf")


@lru_cache(1)
def outlines() -> Any:  # noqa: ANN401 - the font library's own object
    """Return the font itself, opened."""
    from fontTools.ttLib import TTFont

    return TTFont(FILE)


@lru_cache(1)
def capital() -> float:
    """Height of a capital letter over the font's size."""
    return float(outlines()["glyf"]["A"].yMax / outlines()["head"].unitsPerEm)


@lru_cache(None)
def load_font() -> None:
    """Make this font the only one that drawings know; what the machine has makes no difference."""
    from parts.writers.library import fonts

    fonts.font_manager.clear()
    fonts.font_manager.build([str(FILE.parent)], support_dirs=False)


@lru_cache(1)
def _measure() -> Any:  # noqa: ANN401 - the drawing library's own object
    from parts.writers.library import fonts

    load_font()
    return fonts.make_font(FILE.name, 1.0)


@lru_cache(4096)
def text_width(text: str, height: float) -> float:
    """Room for a line of text, its capitals `height` high [mm]: CAD programs draw it in wider fonts of their own."""
    return float(_measure().text_width(text)) * height * WIDER


def wrapped(text: str, height: float, width: float) -> list[str]:
    """Break a text into lines no wider than this [mm]; a longer word is cut."""
    lines, line = list[str](), ""
    for word in text.split():
        wider = f"{line} {word}".strip()
        if text_width(wider, height) <= width:
            line = wider
            continue
        lines += [line] * bool(line)
        while text_width(word, height) > width and len(word) > 1:
            cut = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or text_width(word[:n], height) <= width)
            lines.append(word[:cut])
            word = word[cut:]  # noqa: PLW2901 - what is left of it
        line = word
    return [*lines, line] if line else lines


def plain(text: str) -> str:
    """Keep what a line of a drawing may hold: no control characters, and no codes that a CAD program would obey."""
    text = "".join(c if c.isprintable() else " " for c in text)
    return text.replace("mm^2", "mm²").replace("in^2", "in²").replace("%%", "% %").replace("^", "ˆ")

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
def em() -> int:
    """Units of the font in its size."""
    return int(outlines()["head"].unitsPerEm)


@lru_cache(1)
def tall() -> int:
    """Height of a capital letter in units of the font."""
    return int(outlines()["glyf"]["A"].yMax)


def capital() -> float:
    """Height of a capital letter over the font's size."""
    return tall() / em()


@lru_cache(None)
def name_of(character: str) -> str:
    """Name of a character's glyph."""
    return str(outlines().getBestCmap().get(ord(character), ".notdef"))


@lru_cache(None)
def width_of(character: str) -> int:
    """Width of a character in units of the font."""
    return int(outlines()["hmtx"][name_of(character)][0])


def advance(text: str) -> int:
    """Width of a text in units of the font."""
    return sum(map(width_of, text))


@lru_cache(None)
def load_font() -> None:
    """Make this font the only one that drawings know; what the machine has makes no difference."""
    from parts.writers.library import fonts

    fonts.font_manager.clear()
    fonts.font_manager.build([str(FILE.parent)], support_dirs=False)


def text_width(text: str, height: float) -> float:
    """Room for a line of text, its capitals `height` high [mm]: CAD programs draw it in wider fonts of their own."""
    return advance(text) * (1 / tall()) * height * WIDER if text.strip() else 0.0


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

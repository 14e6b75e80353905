"""DXF of a whole drawing: real dimensions in modelspace, the same bytes each time, read back.

ASCII, with the format's own codes for all other letters: some programs stop at the bytes of a code page.
"""

from __future__ import annotations

from io import StringIO
from typing import TYPE_CHECKING

from parts.errors import WriteError
from parts.writers import writing
from parts.writers.library import ezdxf

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from ezdxf.document import Drawing

DIGITS = 9
CLOSE = 1e-6  # mm, of a dimension read back
CODES = {"Ø": "%%c", "°": "%%d", "±": "%%p", "×": "x"}  # x: what a program does not decode would read as a size
LETTERED = ("TEXT", "MTEXT", "DIMENSION")  # where those codes are read
FLOATS = {*range(10, 60), *range(140, 150), *range(210, 240), *range(1010, 1060)}  # group codes of DXF


def save_drawing(
    document: Drawing, path: Path, title: str, size: tuple[float, float], box: tuple[float, float, float, float]
) -> None:
    """Write a document as DXF; `size` is that of its sheet, `box` left, low, right, high of all on it, in its own mm.

    WriteError unless the file reads back without a fault and with all its dimensions.
    """
    with writing(path):
        ezdxf.options.write_fixed_meta_data_for_testing = True  # no clock and no random ids in the file
        document.ezdxf_metadata()["TITLE"] = title
        document.modelspace().reset_extents((*box[:2], 0), (*box[2:], 0))
        document.modelspace().reset_limits((0, 0), size)
        document.set_modelspace_vport(height=size[1] * 1.05, center=(size[0] / 2, size[1] / 2))
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # else in the order of a set
            document.classes.add_class(kind)
        text = StringIO()
        document.write(text)
        path.write_bytes(_rounded(text.getvalue()).encode("ascii"))
        _check(path, _measures(document))


def _rounded(text: str) -> str:
    """Round every coordinate: below what processors differ by; write every letter as ASCII."""
    lines, entity = text.split("\n"), ""
    for n in range(0, len(lines) - 1, 2):
        code, value = int(lines[n]), lines[n + 1]
        if code == 0:
            entity = value
        if code in FLOATS:
            lines[n + 1] = repr(round(float(value), DIGITS) + 0.0)
        elif not value.isascii():
            lines[n + 1] = ascii_of(value, CODES if entity in LETTERED else {})
    return "\n".join(lines)


def ascii_of(text: str, codes: Mapping[str, str]) -> str:
    r"""Write a text as ASCII: a letter's own code if it has one, else its number, one code for each half above U+FFFF.

    >>> ascii_of("Ø8 ±0.1 µm", CODES)
    '%%c8 %%p0.1 \\U+00B5m'
    """
    return "".join(c if c.isascii() else codes.get(c) or _numbered(c) for c in text)


def _numbered(letter: str) -> str:
    halves = letter.encode("utf-16-be").hex().upper()
    return "".join(f"\\U+{halves[n : n + 4]}" for n in range(0, len(halves), 4))


def _measures(document: Drawing) -> list[tuple[float, str]]:
    """Length and text of every dimension."""
    dimensions = document.modelspace().query("DIMENSION")
    return [(float(d.get_measurement()), ascii_of(d.dxf.text, CODES)) for d in dimensions]  # type: ignore[attr-defined]


def _check(path: Path, measures: list[tuple[float, str]]) -> None:
    """Read the file back: no faults, every dimension with its figure."""
    document = ezdxf.readfile(path)
    auditor = document.audit()
    if auditor.errors or auditor.fixes:
        raise WriteError(f"{path}: reads back with {len(auditor.errors)} errors, {len(auditor.fixes)} repairs")
    read = _measures(document)
    same = all(abs(a - b) <= CLOSE and text == other for (a, text), (b, other) in zip(read, measures, strict=False))
    if not same or len(read) != len(measures):
        raise WriteError(f"{path}: drawn with the dimensions {measures}, read back with {read}")

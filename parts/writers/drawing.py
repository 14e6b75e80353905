"""DXF of a whole drawing: real dimensions in modelspace, the same bytes each time, read back."""

from __future__ import annotations

from io import StringIO
from typing import TYPE_CHECKING

import ezdxf

from parts.errors import WriteError
from parts.writers import writing

if TYPE_CHECKING:
    from pathlib import Path

    from ezdxf.document import Drawing

DIGITS = 9
FLOATS = {*range(10, 60), *range(140, 150), *range(210, 240), *range(1010, 1060)}  # group codes of DXF


def save_drawing(document: Drawing, path: Path, title: str, size: tuple[float, float]) -> None:
    """Write a document as DXF; `size` is that of its sheet, in its own mm.

    WriteError unless the file reads back without a fault and with all its dimensions.
    """
    with writing(path):
        ezdxf.options.write_fixed_meta_data_for_testing = True  # no clock and no random ids in the file
        document.ezdxf_metadata()["TITLE"] = title
        document.modelspace().reset_extents((0, 0, 0), (*size, 0))
        document.set_modelspace_vport(height=size[1] * 1.05, center=(size[0] / 2, size[1] / 2))
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # else in the order of a set
            document.classes.add_class(kind)
        text = StringIO()
        document.write(text)
        path.write_bytes(_rounded(text.getvalue()).encode(document.output_encoding, "dxfreplace"))
        _check(path, _measures(document))


def _rounded(text: str) -> str:
    """Round every coordinate: below what processors differ by."""
    lines = text.split("\n")
    for n in range(0, len(lines) - 1, 2):
        if int(lines[n]) in FLOATS:
            lines[n + 1] = repr(round(float(lines[n + 1]), DIGITS) + 0.0)
    return "\n".join(lines)


def _measures(document: Drawing) -> list[float]:
    return [round(float(d.get_measurement()), DIGITS - 2) for d in document.modelspace().query("DIMENSION")]  # type: ignore[attr-defined]


def _check(path: Path, measures: list[float]) -> None:
    """Read the file back: no faults, every dimension with its figure."""
    document = ezdxf.readfile(path)
    auditor = document.audit()
    if auditor.errors or auditor.fixes:
        raise WriteError(f"{path}: reads back with {len(auditor.errors)} errors, {len(auditor.fixes)} repairs")
    read = _measures(document)
    if any(abs(a - b) > 10**-6 for a, b in zip(read, measures, strict=False)) or len(read) != len(measures):
        raise WriteError(f"{path}: drawn with the dimensions {measures}, read back with {read}")

"""3MF: the mesh of an STL once more, in a form that carries unit, name and colour; the same bytes each time.

A zip of one model (3MF Core Specification 1.3), stored: what a compressor gives differs from machine to machine.
"""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET
from xml.sax.saxutils import quoteattr
from zipfile import ZIP_STORED, ZipFile, ZipInfo

import numpy as np

from parts.errors import WriteError
from parts.writers import writing
from parts.writers.stl import facets_of

if TYPE_CHECKING:
    from pathlib import Path

    from numpy.typing import NDArray

    from parts.writers.step import Color

MODEL = "3D/3dmodel.model"
CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
XML = '<?xml version="1.0" encoding="UTF-8"?>\n'
TYPES = (
    f'{XML}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>\n'
)
RELATIONS = (
    f'{XML}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Target="/{MODEL}" Id="rel0" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>\n'
)


def write_3mf(stl: Path, name: str, color: Color, path: Path) -> None:
    """Write the mesh of an STL [mm] with a name and a colour.

    WriteError unless it reads back with every facet where the STL has it.
    """
    with writing(path):
        facets = facets_of(stl)
        points, corners = np.unique(facets.reshape(-1, 3) + np.float32(0), axis=0, return_inverse=True)
        text = _model(points, corners.reshape(-1, 3), name, color)
        with ZipFile(path, "w", ZIP_STORED) as package:
            for entry, content in (("[Content_Types].xml", TYPES), ("_rels/.rels", RELATIONS), (MODEL, text)):
                package.writestr(_entry(entry), content.encode())
        _check(path, facets)


def _entry(name: str) -> ZipInfo:
    """Head of a file in the package, of no time and no system."""
    info = ZipInfo(name)
    info.create_system = 0
    info.external_attr = 0
    return info


def _model(points: NDArray[np.float32], triangles: NDArray[np.int64], name: str, color: Color) -> str:
    shade = "".join(f"{round(255 * share):02X}" for share in color)
    named = quoteattr(name)
    vertices = "".join('<vertex x="%.9g" y="%.9g" z="%.9g"/>\n' % tuple(p) for p in points.tolist())  # noqa: UP031 - f-strings
    sides = "".join('<triangle v1="%d" v2="%d" v3="%d"/>\n' % tuple(t) for t in triangles.tolist())  # noqa: UP031 - are slower
    return (
        f'{XML}<model unit="millimeter" xml:lang="en-GB" xmlns="{CORE}">\n'
        '<metadata name="Application">topend</metadata>\n<resources>\n'
        f'<basematerials id="1"><base name={named} displaycolor="#{shade}"/></basematerials>\n'
        f'<object id="2" type="model" name={named} pid="1" pindex="0"><mesh>\n'
        f"<vertices>\n{vertices}</vertices>\n<triangles>\n{sides}</triangles>\n"
        '</mesh></object>\n</resources>\n<build><item objectid="2"/></build>\n</model>\n'
    )


def _check(path: Path, facets: NDArray[np.float32]) -> None:
    """Read the package back; WriteError where a facet is missing, or a corner is not where it was."""
    with ZipFile(path) as package:
        root = ET.fromstring(package.read(MODEL))  # noqa: S314 - the file just written
    points = np.array([[v.get(axis) for axis in "xyz"] for v in root.iter(f"{{{CORE}}}vertex")], dtype=np.float32)
    corners = [[int(t.get(f"v{n}", -1)) for n in (1, 2, 3)] for t in root.iter(f"{{{CORE}}}triangle")]
    read = points[np.array(corners, dtype=np.int64)]
    if read.shape != facets.shape or not np.array_equal(read, facets):
        raise WriteError(f"{path}: written with {len(facets)} facets of the STL, read back with others")

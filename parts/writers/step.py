"""STEP: one named, coloured solid in mm, the same bytes each time."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, TypeAlias

from cadquery.func import Shape
from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.Interface import Interface_Static
from OCP.Message import Message
from OCP.Quantity import Quantity_Color, Quantity_TypeOfColor
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.STEPControl import STEPControl_Controller, STEPControl_Reader
from OCP.TCollection import TCollection_ExtendedString, TCollection_HAsciiString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFApp import XCAFApp_Application
from OCP.XCAFDoc import XCAFDoc_ColorType, XCAFDoc_DocumentTool

from parts.errors import WriteError
from parts.writers import whole, writing

if TYPE_CHECKING:
    from pathlib import Path

Color: TypeAlias = tuple[float, float, float]
"""red, green, blue as on a screen, 0 to 1"""

STEEL: Color = (0.62, 0.65, 0.69)
IRON: Color = (0.36, 0.37, 0.40)
COPPER: Color = (0.78, 0.46, 0.29)
ALUMINIUM: Color = (0.82, 0.83, 0.84)
DECK: Color = (0.50, 0.52, 0.54)
BRONZE: Color = (0.74, 0.60, 0.28)
ZINC: Color = (0.72, 0.74, 0.70)

STAMP = "2000-01-01T00:00:00"  # the clock would make every file differ
OTHERS = re.compile(r"[^ -\[\]-~]+")  # no letter of ASCII, or the backslash that begins an escape
STRING = re.compile(rb"'[^']*'")
LAST_OF_TWO_BYTES = "\uffff"
CLOSE = 1e-6  # relative, of the volume read back
SETTINGS = {"write.step.schema": "AP214IS", "write.step.unit": "MM", "xstep.cascade.unit": "MM"}


def write_step(solid: Shape, name: str, color: Color, path: Path) -> None:
    """Write one solid [mm] with name and colour; WriteError unless it reads back as one valid solid of its volume."""
    volume = whole(solid, path)
    with writing(path):
        settle()
        writer = STEPCAFControl_Writer()
        writer.Transfer(_document(solid, name, color))
        head(writer, name, "a part in mm")
        save(writer, path)
        _check(path, volume)


def save(writer: STEPCAFControl_Writer, path: Path) -> None:
    """Write the file, each string on one line: the kernel breaks it anywhere, and can't read what it has broken."""
    if writer.Write(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise WriteError(f"{path}: could not be written by the kernel")
    path.write_bytes(STRING.sub(lambda string: string[0].replace(b"\n", b""), path.read_bytes()))


def escaped(text: str) -> str:
    r"""Write a text as STEP takes it, letters beyond ASCII by number (ISO 10303-21, X2 and X4), the backslash too.

    >>> print(escaped("Größe 8"))
    Gr\X2\00F600DF\X0\e 8
    """
    return OTHERS.sub(_numbered, text)


def _numbered(run: re.Match[str]) -> str:
    letters = run[0]
    kind, coding = ("2", "utf-16-be") if max(letters) <= LAST_OF_TWO_BYTES else ("4", "utf-32-be")
    return f"\\X{kind}\\{letters.encode(coding).hex().upper()}\\X0\\"


def settle() -> None:
    """Set schema and units, which every writer in the process shares, and stop the kernel printing what it does."""
    Message.DefaultMessenger_s().ChangePrinters().Clear()
    STEPControl_Controller.Init_s()
    for key, value in SETTINGS.items():
        if not Interface_Static.SetCVal_s(key, value):
            raise WriteError(f"the kernel's STEP writer does not take {key} = {value}")


def _document(solid: Shape, name: str, color: Color) -> TDocStd_Document:
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    XCAFApp_Application.GetApplication_s().InitDocument(document)
    part = XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).AddShape(solid.wrapped, False)
    TDataStd_Name.Set_s(part, TCollection_ExtendedString(escaped(name)))
    shade = Quantity_Color(*color, Quantity_TypeOfColor.Quantity_TOC_sRGB)
    colors = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    colors.SetColor(part, shade, XCAFDoc_ColorType.XCAFDoc_ColorGen)
    return document


def head(writer: STEPCAFControl_Writer, name: str, says: str) -> None:
    """Fill in the file's header: name, what it holds, and a stamp that never changes."""
    text = TCollection_HAsciiString
    header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
    header.SetName(text(escaped(name)))
    header.SetTimeStamp(text(STAMP))
    header.SetDescriptionValue(1, text(says))
    header.SetAuthorValue(1, text(""))
    header.SetOrganizationValue(1, text(""))
    header.SetAuthorisation(text(""))
    header.SetOriginatingSystem(text("topend"))
    header.SetPreprocessorVersion(text("topend"))


def _check(path: Path, volume: float) -> None:
    reader = STEPControl_Reader()
    if reader.ReadFile(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise WriteError(f"{path}: could not be read back by the kernel")
    reader.TransferRoots()
    read = [solid.Volume() if solid.isValid() else 0.0 for solid in Shape.cast(reader.OneShape()).Solids()]
    if len(read) != 1 or not abs(read[0] - volume) <= CLOSE * volume:
        raise WriteError(f"{path}: written as a solid of {volume:.9g} mm^3, read back as {read} mm^3")

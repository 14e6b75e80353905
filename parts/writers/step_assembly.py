"""STEP assembly: named, coloured bodies in their places, one level deep, in mm, the same bytes each time.

Bodies that share a solid become occurrences of one product. Two things would differ from run to run and are set
by hand: the numbers of the occurrences, which count on through the process, and the styles, whose order hangs on
addresses.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cadquery.func import Shape
from OCP.gp import gp_Trsf, gp_Vec
from OCP.Interface import Interface_Static
from OCP.Quantity import Quantity_Color, Quantity_TypeOfColor
from OCP.STEPCAFControl import STEPCAFControl_Reader, STEPCAFControl_Writer
from OCP.STEPConstruct import STEPConstruct, STEPConstruct_Styles
from OCP.STEPControl import STEPControl_StepModelType
from OCP.StepRepr import StepRepr_HArray1OfRepresentationItem, StepRepr_NextAssemblyUsageOccurrence
from OCP.StepVisual import StepVisual_MechanicalDesignGeometricPresentationRepresentation
from OCP.TCollection import TCollection_ExtendedString, TCollection_HAsciiString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label, TDF_LabelSequence
from OCP.TDocStd import TDocStd_Document
from OCP.TopLoc import TopLoc_Location
from OCP.XCAFApp import XCAFApp_Application
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool
from OCP.XSControl import XSControl_WorkSession

from parts.errors import WriteError
from parts.writers import writing
from parts.writers.step import Color, escaped, head, save, settle

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

CLOSE = (
    1e-4  # relative, of the volume read back: the kernel follows the curve where two cylinders cross only so closely
)


@dataclass(frozen=True, slots=True)
class Placed:
    """One body: its solid in its own coordinates, and where that goes [mm]."""

    name: str
    product: str
    """name of the solid, which several bodies may share"""
    solid: Shape
    color: Color
    place: tuple[float, float, float]


def write_assembly(bodies: Sequence[Placed], title: str, path: Path) -> None:
    """Write an assembly one level deep; WriteError unless it reads back with every name and the whole volume."""
    with writing(path):
        settle()
        Interface_Static.SetIVal_s("write.surfacecurve.mode", 1)
        session = XSControl_WorkSession()
        writer = STEPCAFControl_Writer(session, False)
        writer.SetNameMode(True)
        writer.SetColorMode(False)
        writer.Transfer(_document(bodies, title), STEPControl_StepModelType.STEPControl_AsIs)
        _renumber(writer)
        _paint(session, writer, bodies)
        head(writer, title, "an assembly in mm")
        save(writer, path)
        _check(path, bodies)


def _document(bodies: Sequence[Placed], title: str) -> TDocStd_Document:
    document = _empty()
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    top = tool.NewShape()
    _name(top, title)
    products: dict[int, TDF_Label] = {}
    for body in bodies:
        key = id(body.solid)
        if key not in products:
            products[key] = tool.AddShape(body.solid.wrapped, False)
            _name(products[key], body.product)
        move = gp_Trsf()
        move.SetTranslation(gp_Vec(*body.place))
        _name(tool.AddComponent(top, products[key], TopLoc_Location(move)), body.name)
    tool.UpdateAssemblies()
    return document


def _empty() -> TDocStd_Document:
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    XCAFApp_Application.GetApplication_s().InitDocument(document)
    return document


def _name(label: TDF_Label, name: str) -> None:
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(escaped(name)))


def _renumber(writer: STEPCAFControl_Writer) -> None:
    model, number = writer.ChangeWriter().Model(), 0
    for n in range(1, model.NbEntities() + 1):
        entity = model.Value(n)
        if isinstance(entity, StepRepr_NextAssemblyUsageOccurrence):
            number += 1
            entity.SetId(TCollection_HAsciiString(str(number)))


def _paint(session: XSControl_WorkSession, writer: STEPCAFControl_Writer, bodies: Sequence[Placed]) -> None:
    """Add one style a solid, in the order of the bodies."""
    model = writer.ChangeWriter().Model()
    finder = session.TransferWriter().FinderProcess()
    for body in {id(b.solid): b for b in bodies}.values():
        for solid in body.solid.Solids():
            item = STEPConstruct.FindEntity_s(finder, solid.wrapped)
            styles = STEPConstruct_Styles(session)
            color = STEPConstruct_Styles.EncodeColor_s(
                Quantity_Color(*body.color, Quantity_TypeOfColor.Quantity_TOC_sRGB)
            )
            styles.AddStyle(item, styles.MakeColorPSA(item, color, color, None, 0.0), None)
            items = StepRepr_HArray1OfRepresentationItem(1, 1)
            items.SetValue(1, styles.Style(1))
            shown = StepVisual_MechanicalDesignGeometricPresentationRepresentation()
            shown.Init(TCollection_HAsciiString(""), items, styles.FindContext(body.solid.wrapped))
            model.AddWithRefs(shown)


def _check(path: Path, bodies: Sequence[Placed]) -> None:
    """Read the assembly back by name and volume."""
    found = components(path)
    wanted, names = [body.name for body in bodies], [name for name, _ in found]
    if names != wanted or len(set(names)) != len(names):
        raise WriteError(f"{path}: written as {', '.join(wanted)}, read back as {', '.join(names)}")
    for body, (name, shape) in zip(bodies, found, strict=True):
        volume, read = body.solid.Volume(), Shape.cast(shape).Volume()
        if not abs(read - volume) <= CLOSE * volume:
            raise WriteError(f"{path}: {name} written with {volume:.9g} mm^3, read back with {read:.9g} mm^3")


def components(path: Path) -> list[tuple[str, object]]:
    """Name and shape, in its place, of every component of the one assembly in a STEP file."""
    document = _empty()
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.ReadFile(str(path))
    reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    free, found = TDF_LabelSequence(), TDF_LabelSequence()
    tool.GetFreeShapes(free)
    if free.Length() != 1:
        raise WriteError(f"{path}: read back as {free.Length()} shapes where one assembly is wanted")
    XCAFDoc_ShapeTool.GetComponents_s(free.Value(1), found)
    labels = [found.Value(n) for n in range(1, found.Length() + 1)]
    return [(_named(label), XCAFDoc_ShapeTool.GetShape_s(label)) for label in labels]


def _named(label: TDF_Label) -> str:
    name = TDataStd_Name()
    found = label.FindAttribute(TDataStd_Name.GetID_s(), name)
    return str(name.Get().ToExtString()) if found else ""

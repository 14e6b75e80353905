"""A shell put together edge by edge: each vertex and edge is made once and shared, so it is closed as it stands."""

from __future__ import annotations

from cmath import rect
from dataclasses import dataclass
from math import atan, cos, pi
from typing import TYPE_CHECKING, Any

from OCP.BRep import BRep_Builder
from OCP.Geom import Geom_Circle, Geom_ConicalSurface, Geom_CylindricalSurface, Geom_Line, Geom_Plane
from OCP.Geom2d import Geom2d_Line
from OCP.gp import gp_Ax2, gp_Ax3, gp_Dir, gp_Dir2d, gp_Pnt, gp_Pnt2d
from OCP.TopAbs import TopAbs_Orientation
from OCP.TopoDS import TopoDS_Edge, TopoDS_Face, TopoDS_Shell, TopoDS_Solid, TopoDS_Vertex, TopoDS_Wire

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

TURN = 2 * pi
CLOSE = 1e-6  # mm: tolerance of every vertex, edge and face
SAME = 1e-9  # mm
FORWARD, REVERSED = TopAbs_Orientation.TopAbs_FORWARD, TopAbs_Orientation.TopAbs_REVERSED


@dataclass(frozen=True, slots=True)
class Side:
    """One edge as a face walks along it."""

    edge: TopoDS_Edge
    forward: bool
    """the way its curve runs"""
    trace: Any = None
    """its curve on the surface; on a plane none is needed"""
    back: Any = None
    """of a seam: its curve where it is walked the other way"""


@dataclass(frozen=True, slots=True)
class Corner:
    """A vertex in cylindrical coordinates."""

    vertex: TopoDS_Vertex
    radius: float
    psi: float
    z: float

    @property
    def point(self) -> gp_Pnt:
        """As the kernel has it."""
        return point(self.radius, self.psi, self.z)


@dataclass(frozen=True, slots=True)
class Rim:
    """A full circle across the axis, of one edge or more, each with the azimuths where it begins and ends."""

    start: Corner
    arcs: tuple[tuple[TopoDS_Edge, float, float], ...]
    """in the order of rising azimuth from the start"""

    @property
    def radius(self) -> float:
        """Radius [mm]."""
        return self.start.radius

    @property
    def z(self) -> float:
        """Height [mm]."""
        return self.start.z

    def sides(self, level: float | None, first: float) -> list[Side]:
        """Its edges by rising azimuth; on a surface of revolution at v = `level`, from the azimuth `first` on."""
        found = []
        for edge, low, high in self.arcs:
            trace = None if level is None else along(first - low, level)
            found.append(Side(edge, forward=True, trace=trace))
            first += high - low
        return found


def point(radius: float, psi: float, z: float) -> gp_Pnt:
    """Point from cylindrical coordinates."""
    flat = rect(radius, psi)
    return gp_Pnt(flat.real, flat.imag, z)


def along(shift: float, level: float) -> Geom2d_Line:
    """Trace u = t + shift, v = level: of a circle on a surface of revolution."""
    return Geom2d_Line(gp_Pnt2d(shift, level), gp_Dir2d(1, 0))


def upright(psi: float, start: float, *, up: bool = True) -> Geom2d_Line:
    """Trace u = psi, v = start + t: of a straight line up a surface of revolution."""
    return Geom2d_Line(gp_Pnt2d(psi, start), gp_Dir2d(0, 1 if up else -1))


def walked_back(sides: Iterable[Side]) -> list[Side]:
    """Return the same loop, walked the other way."""
    return [Side(s.edge, not s.forward, s.trace, s.back) for s in reversed(list(sides))]


def cylinder(radius: float) -> tuple[Any, Callable[[float], float]]:
    """Cylinder about the axis, and its v at a height."""
    return Geom_CylindricalSurface(_axes(0.0), radius), lambda z: z


def cone(radius: float, z: float, slope: float) -> tuple[Any, Callable[[float], float]]:
    """Cone about the axis through (radius, z) with slope dz/dr, and its v at a height."""
    half = atan(1 / slope)
    return Geom_ConicalSurface(_axes(z), half, radius), lambda height: (height - z) / cos(half)


def _axes(z: float) -> gp_Ax3:
    return gp_Ax3(gp_Pnt(0, 0, z), gp_Dir(0, 0, 1), gp_Dir(1, 0, 0))


class Shell:
    """The faces made so far."""

    def __init__(self) -> None:
        self.kernel = BRep_Builder()
        self.faces: list[TopoDS_Face] = []

    def corner(self, radius: float, psi: float, z: float) -> Corner:
        """Make a vertex."""
        vertex = TopoDS_Vertex()
        self.kernel.MakeVertex(vertex, point(radius, psi, z), CLOSE)
        return Corner(vertex, radius, psi, z)

    def edge(self, curve: Any, start: Corner, stop: Corner, low: float, high: float) -> TopoDS_Edge:  # noqa: ANN401 - of the kernel
        """Make an edge of a curve between two parameters."""
        edge = TopoDS_Edge()
        self.kernel.MakeEdge(edge, curve, CLOSE)
        self.kernel.Add(edge, start.vertex.Oriented(FORWARD))
        self.kernel.Add(edge, stop.vertex.Oriented(REVERSED))
        self.kernel.Range(edge, low, high)
        return edge

    def arc(self, start: Corner, stop: Corner, low: float, high: float) -> TopoDS_Edge:
        """Make an arc about the axis from one azimuth to a higher one."""
        axes = gp_Ax2(gp_Pnt(0, 0, start.z), gp_Dir(0, 0, 1), gp_Dir(1, 0, 0))
        return self.edge(Geom_Circle(axes, start.radius), start, stop, low, high)

    def line(self, start: Corner, stop: Corner) -> tuple[TopoDS_Edge, float]:
        """Make a straight edge; return its length too."""
        a, b = start.point, stop.point
        length = a.Distance(b)
        curve = Geom_Line(a, gp_Dir(b.X() - a.X(), b.Y() - a.Y(), b.Z() - a.Z()))
        return self.edge(curve, start, stop, 0.0, length), length

    def ring(self, radius: float, z: float, psi: float = 0.0) -> Rim:
        """Make a circle of one edge that begins at an azimuth."""
        start = self.corner(radius, psi, z)
        return Rim(start, ((self.arc(start, start, psi, psi + TURN), psi, psi + TURN),))

    def face(self, surface: Any, *loops: Sequence[Side]) -> None:  # noqa: ANN401 - of the kernel
        """Make a face, its normal out of the metal, from its outer loop and others, anticlockwise seen from outside."""
        face = TopoDS_Face()
        self.kernel.MakeFace(face, surface, CLOSE)
        for loop in loops:
            self.kernel.Add(face, self._wire(face, loop))
        self.faces.append(face)

    def _wire(self, face: TopoDS_Face, loop: Sequence[Side]) -> TopoDS_Wire:
        wire = TopoDS_Wire()
        self.kernel.MakeWire(wire)
        for side in loop:
            if side.back is not None and side.forward:
                self.kernel.UpdateEdge(side.edge, side.trace, side.back, face, CLOSE)
            elif side.back is None and side.trace is not None:
                self.kernel.UpdateEdge(side.edge, side.trace, face, CLOSE)
            self.kernel.Add(wire, side.edge.Oriented(FORWARD if side.forward else REVERSED))
        wire.Closed(True)
        return wire

    def flat(self, z: float, *loops: Sequence[Side], up: bool) -> None:
        """Make a plane face."""
        self.face(Geom_Plane(gp_Ax3(gp_Pnt(0, 0, z), gp_Dir(0, 0, 1 if up else -1), gp_Dir(1, 0, 0))), *loops)

    def disc(self, ring: Rim, *, up: bool) -> None:
        """Close an end with a plane face."""
        sides = ring.sides(None, 0.0)
        self.flat(ring.z, sides if up else walked_back(sides), up=up)

    def turned(self, low: Rim, high: Rim) -> None:
        """Make the face of revolution from one ring up to the next, both beginning at azimuth 0; level, a plane one."""
        if abs(high.z - low.z) < SAME:
            self._step(low, high)
            return
        level = abs(high.radius - low.radius) < SAME
        slope = 0.0 if level else (high.z - low.z) / (high.radius - low.radius)
        surface, at = cylinder(low.radius) if level else cone(low.radius, low.z, slope)
        seam, _ = self.line(low.start, high.start)
        right, left = upright(TURN, at(low.z)), upright(0.0, at(low.z))
        round_top = walked_back(high.sides(at(high.z), 0.0))
        up, down = Side(seam, forward=True, trace=right, back=left), Side(seam, forward=False, trace=right, back=left)
        self.face(surface, [*low.sides(at(low.z), 0.0), up, *round_top, down])

    def _step(self, low: Rim, high: Rim) -> None:
        """Make the plane ring where the radius jumps: it faces up where the profile steps in, down where out."""
        up = high.radius < low.radius
        outer, inner = (low, high) if up else (high, low)
        out, hole = outer.sides(None, 0.0), walked_back(inner.sides(None, 0.0))
        self.flat(low.z, *((out, hole) if up else (walked_back(out), walked_back(hole))), up=up)

    def solid(self) -> TopoDS_Solid:
        """Close the shell."""
        shell, solid = TopoDS_Shell(), TopoDS_Solid()
        self.kernel.MakeShell(shell)
        for face in self.faces:
            self.kernel.Add(shell, face)
        shell.Closed(True)
        self.kernel.MakeSolid(solid)
        self.kernel.Add(solid, shell)
        return solid

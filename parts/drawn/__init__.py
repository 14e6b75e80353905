"""Closed outlines drawn in a DXF file, as loops of lines and arcs in mm, by layer."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from parts.drawn.entities import read_pieces
from parts.drawn.joined import crossed, joined
from parts.errors import Fault, JobError
from parts.geometry.outline import as_circle, bounds, transformed
from parts.geometry.outline import edges as edges_of

if TYPE_CHECKING:
    from parts.drawn.joined import Flaw
    from parts.geometry.edge import Edge
    from parts.geometry.outline import Circle, Loop

MOST_MM = 2000.0  # nothing on the bench is longer
TOLD = 4  # faults of one layer that are told in a sentence
BORE = "BORE"
"""layer whose one circle is the bore, at the origin"""


@dataclass(frozen=True, slots=True)
class Drawing:
    """What is drawn in a file [mm], its origin the centre of the bore where that is drawn."""

    name: str
    layers: dict[str, tuple[Loop, ...]]
    """closed loops by layer, in the order of the file"""
    faults: dict[str, tuple[Flaw, ...]]
    """what is open, doubled or crossing, by layer"""
    edges: dict[str, tuple[Edge, ...]]
    """all that is drawn, by layer, where it lies in the file"""

    @property
    def circles(self) -> list[Circle]:
        """Every round loop but the bore, of all layers."""
        found = (as_circle(loop) for layer, loops in self.layers.items() if layer != BORE for loop in loops)
        return [one for one in found if one]

    @property
    def bored(self) -> bool:
        """Whether the bore is drawn."""
        return _bore(self.layers) is not None

    def on(self, layer: str) -> tuple[Loop, ...]:
        """Loops of a layer; JobError where there is none, or it has faults."""
        if faults := self.faults.get(layer):
            more = f"; and {len(faults) - TOLD} more" if len(faults) > TOLD else ""
            says = f"{self.name}, layer {layer}: {'; '.join(map(str, faults[:TOLD]))}{more}; topend look draws where"
            raise JobError(Fault("", says))
        if not self.layers.get(layer):
            has = ", ".join(name for name, loops in self.layers.items() if loops) or "none"
            raise JobError(Fault("", f"{self.name} has nothing closed on layer {layer}; layers with outlines: {has}"))
        return self.layers[layer]


@lru_cache(8)
def drawing(data: bytes, name: str, units: str | None = None) -> Drawing:
    """Read the outlines of a DXF file.

    Parameters
    ----------
    data : bytes
        Of the file
    name : str
        Of the file, for what is said of it
    units : str, optional
        "mm" or "in", where the file does not say, or says it wrong

    Raises
    ------
    JobError
        It is no DXF file, does not say its units, or holds more or larger things than a gasket's drawing.
    """
    pieces = read_pieces(data, name, units)
    layers, faults = dict[str, tuple["Loop", ...]](), dict[str, tuple["Flaw", ...]]()
    drawn = {
        layer: (*edges, *(e for loop in closed for e in edges_of(loop))) for layer, (edges, closed) in pieces.items()
    }
    for layer, (edges, closed) in pieces.items():
        loops, wrong = joined(edges)
        layers[layer] = (*closed, *loops)
        faults[layer] = (*wrong, *crossed(layers[layer]))
    _refuse_large(name, layers)
    bore = _bore(layers)
    if bore:
        layers = {
            layer: tuple(transformed(one, -bore[0], -bore[1]) for one in loops) for layer, loops in layers.items()
        }
    return Drawing(name, layers, faults, drawn)


def _bore(layers: dict[str, tuple[Loop, ...]]) -> Circle | None:
    rounds = [one for one in map(as_circle, layers.get(BORE, ())) if one]
    return rounds[0] if len(rounds) == 1 else None


def _refuse_large(name: str, layers: dict[str, tuple[Loop, ...]]) -> None:
    sides = [bounds(loop) for loops in layers.values() for loop in loops]
    widest = max((max(b[2] - b[0], b[3] - b[1]) for b in sides), default=0.0)
    if widest > MOST_MM:
        says = f"{name} is {widest:.0f} mm across by the units it says it has, over {MOST_MM:g} mm: give dxf_units"
        raise JobError(Fault("", says))

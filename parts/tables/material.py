"""Materials: stiffness, strength by diameter or wall thickness, expansion, cutting force, gasket factors."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from parts.tables.family import family_of
from parts.tables.read import STATUS, Figure, plain, status_of, table


@dataclass(frozen=True, slots=True)
class Material:
    """A material of the table."""

    name: str
    figures: dict[str, tuple[tuple[float, Figure], ...]]
    """property -> (greatest diameter or wall thickness, figure) in rising order"""

    def figure(self, prop: str, *, diameter: float | None = None, section: float | None = None) -> Figure | None:
        """Look up a property, None where the table has none.

        Parameters
        ----------
        prop : str
            modulus, poisson, density, expansion, yield, tensile, proof, bending, bearing, kc11, mc, gasket_m, gasket_y
        diameter : float, optional
            Diameter of the bar [mm]; strengths go down in steps. Without one, the thickest bar listed
        section : float, optional
            Thickness of the part [mm]; of a casting of iron the strength is interpolated, and held beyond the ends of
            the table, that of rolled steel goes down in steps as a bar's
        """
        steps = self.figures.get(prop, ())
        if section is not None and len(steps) > 1:
            if family_of(self.name) == "iron":
                return _interpolated(steps, section)
            diameter = section
        if steps and diameter is None:
            return steps[-1][1]
        return next((figure for to, figure in steps if diameter is not None and diameter <= to), None)


def material_names() -> list[str]:
    """Names of all materials, as they are written in a job."""
    return list(_rows())


@lru_cache(None)
def material(name: str) -> Material:
    """Look up a material by name.

    Raises
    ------
    KeyError
        The table has no such name; material_names() has them all.
    """
    figures: dict[str, list[tuple[float, Figure]]] = {}
    for _, prop, at, value, unit, status, source in _rows()[name]:
        figures.setdefault(prop, []).append((float(at or "inf"), Figure(float(value), unit, STATUS[status], source)))
    for row in table("iso_898_1").rows:
        if row["class"] == name:
            _add_class(figures, row)
    return Material(name, {prop: tuple(steps) for prop, steps in figures.items()})


@lru_cache(None)
def _rows() -> dict[str, list[list[str]]]:
    rows: dict[str, list[list[str]]] = {}
    for row in plain("materials").cells:
        rows.setdefault(row[0], []).append(row)
    return rows


def _add_class(figures: dict[str, list[tuple[float, Figure]]], row: dict[str, str]) -> None:
    for prop in ("yield", "tensile", "proof"):
        source = f"ISO 898-1, class {row['class']} up to {row['to_diameter']} mm"
        figure = Figure(float(row[prop]), "MPa", status_of(row), source)
        figures.setdefault(prop, []).append((float(row["to_diameter"]), figure))


def _interpolated(steps: tuple[tuple[float, Figure], ...], at: float) -> Figure:
    for (low, thin), (high, thick) in pairwise(steps):
        if low < at < high:
            value = thin.value + (thick.value - thin.value) * (at - low) / (high - low)
            return Figure(value, thin.unit, thin.status, f"{thin.source}; interpolated at {at:g} mm")
    return next((figure for to, figure in reversed(steps) if to <= at), steps[0][1])

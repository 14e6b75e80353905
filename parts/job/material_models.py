"""Materials as a job file names them: by the project's table, by a word of the workshop, or with the user's values."""

from __future__ import annotations

import difflib
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, TypeAlias

from pydantic import Field, WrapValidator, model_validator

from parts.job.fields import Expansion, Measure, Modulus, Stress, Table, Words, key, number
from parts.tables import families_like, family_names, family_of, material_names, meant, usual_at, words_at
from parts.units import shown


def by_name(value: object) -> object:
    """Read a table that may be given by its name alone."""
    if not isinstance(value, str | dict):
        raise ValueError(f"wants a name in quotes, or a table with a name, not {shown(value)}")  # noqa: TRY004
    return {"name": value} if isinstance(value, str) else value


class MaterialSpec(Table):
    """A material by its name in the project's table, or a name with the values the user has."""

    name: Words = key("name of the material", "EN-GJL-250")
    family: Annotated[str, Field(pattern=f"^({'|'.join(family_names())})$")] | None = key(
        f"what metal it is, where its name is none of the table's: {', '.join(family_names())}", "iron", default=None
    )
    modulus: Modulus | None = key("modulus of elasticity", "105 GPa", default=None)
    poisson: Annotated[Measure, number(0.0, 0.5)] | None = key("Poisson's ratio", 0.3, default=None)
    expansion: Expansion | None = key("mean thermal expansion from 20 degC", "11.5 um/m/K", default=None)
    yield_strength: Stress | None = key("proof or yield strength Rp0.2", "650 MPa", default=None)
    tensile_strength: Stress | None = key("tensile strength Rm", "900 MPa", default=None)
    bending_strength: Stress | None = key("least bending strength, for ring iron", "350 MPa", default=None)
    proof_stress: Stress | None = key("proof stress of a certified stud", "580 MPa", default=None)
    density: Annotated[Measure, number(0.1, 25.0, "g/cm^3")] | None = key("density in g/cm^3", 7.85, default=None)
    bearing: Stress | None = key("pressure that it stands under a washer, hot", "150 MPa", default=None)

    @model_validator(mode="after")
    def _known(self) -> MaterialSpec:
        known = family_of(self.name)
        if known and self.family not in (None, known):
            raise ValueError(f"{self.name!r} is {known} by the material table, not {self.family}")
        return self

    @property
    def families(self) -> tuple[str, ...]:
        """What metal it is; all that it could be by its values, where neither the table nor the job tells."""
        own = self.family or family_of(self.name)
        return (own,) if own else families_like(self.modulus, self.expansion)

    @property
    def label(self) -> str:
        """What sheets call it."""
        return self.name


class WorkshopMaterial(MaterialSpec):
    """A material by a word of the workshop: `name` is what is taken for it."""

    word: Words = key("as it stands in the job file", "cast iron")
    to: Words = key("the best that the word usually means; what is taken is the weakest", "EN-GJL-250")

    @property
    def label(self) -> str:
        """What sheets call it."""
        return f"{self.word}, taken as {self.name}"


@dataclass(frozen=True)
class MaterialAt:
    """Reads a material where it stands: by its name, by a word of the workshop, or as a table."""

    place: str
    """barrel, head, sheet, bar or ring"""

    def __call__(self, value: object, read: Callable[[object], MaterialSpec]) -> MaterialSpec:
        """Read it; only a table with values may have a name of its own."""
        spec = read(by_name(value))
        if spec.model_fields_set != {"name"} or spec.name in material_names():
            return spec
        if found := meant(self.place, spec.name):
            return WorkshopMaterial(name=found.takes, word=spec.name, to=found.to)
        raise ValueError(self._unknown(spec.name))

    def _unknown(self, name: str) -> str:
        """Say what a name could have been, or what is usual here."""
        near = difflib.get_close_matches(name, [*material_names(), *words_at(self.place)], 1, 0.6)
        hint = f"did you mean {near[0]!r}?" if near else f"usual here are {', '.join(map(repr, usual_at(self.place)))}."
        values = f'{{ name = {shown(name)}, modulus = "105 GPa" }}'
        return f"{shown(name)} is not in the material table: {hint} Or give its values, like {values}"


BarrelMaterial: TypeAlias = Annotated[MaterialSpec, WrapValidator(MaterialAt("barrel"))]
HeadMaterial: TypeAlias = Annotated[MaterialSpec, WrapValidator(MaterialAt("head"))]
SheetMaterial: TypeAlias = Annotated[MaterialSpec, WrapValidator(MaterialAt("sheet"))]
BarMaterial: TypeAlias = Annotated[MaterialSpec, WrapValidator(MaterialAt("bar"))]
RingMaterial: TypeAlias = Annotated[MaterialSpec, WrapValidator(MaterialAt("ring"))]

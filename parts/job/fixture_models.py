"""The job file's tables about what holds the work: a fixture is asked for by a table of its own, or in [fixtures]."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Literal, TypeAlias

from pydantic import BaseModel, Field

from parts.fixtures import FIXTURES, TURNED, stem_of
from parts.job.fields import Length, Measure, Table, key, quantity
from parts.job.material_models import BarMaterial
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Collection

    from parts.job.lines import Path

ALL = "all"


def made_of(name: str) -> Any:  # noqa: ANN401
    """Describe the key that names a fixture's material; this one where it is left out."""
    return key("what it is made of", name, default=name, assumed=PRACTICE)


class ClampPlate(Table):
    """[clamp_plate]: what holds the rings flat on the mandrel; empty, all of it is designed."""

    material: BarMaterial = made_of("C45")
    thickness: Length | None = key(
        "thickness",
        "8 mm",
        default=None,
        free="4 mm,5 mm,6 mm,8 mm,10 mm,12 mm,15 mm,20 mm|3/16 in,1/4 in,5/16 in,3/8 in,1/2 in,5/8 in,3/4 in",
    )


class DrillPlate(Table):
    """[drill_plate]: guides the drill to the new holes, and checks the head's; empty, all of it is designed."""

    material: BarMaterial = made_of("C45")
    thickness: Length | None = key("thickness", "20 mm", default=None)


class SplittingFixture(Table):
    """[splitting_fixture]: holds a blank while it is split; empty, all of it is designed."""

    material: BarMaterial = made_of("C45")
    saw_cut: Length | None = key("what the saw really cuts, measured in scrap", "0.54 mm", default=None)


class RingPot(Table):
    """[ring_pot]: holds a blank all round in the chuck; empty, all of it is designed."""

    material: BarMaterial = made_of("AlSi7Mg0.3 T6")


class SquaringPiston(Table):
    """[squaring_piston]: pushes a ring square to a set depth; empty, all of it is designed."""

    material: BarMaterial = made_of("AlSi7Mg0.3 T6")
    depth: Length | None = key("how deep it sets the ring, below the deck", "17 mm", default=None)


class TurnedWasher(Table):
    """[turned_washer]: thick washers where the head's alloy needs them; empty, all of it is designed."""

    material: BarMaterial = made_of("C45")


class FittingSleeve(Table):
    """[fitting_sleeve]: takes a ring over the piston; empty, all of it is designed."""

    material: BarMaterial = made_of("11SMn30")
    reach: Length | None = key("from the crown to the lowest groove for these rings", "12 mm", default=None)


class RingCompressor(Table):
    """[ring_compressor]: closes the rings into the bore; empty, all of it is designed."""

    material: BarMaterial = made_of("11SMn30")


class StudGauge(Table):
    """[stud_gauge]: the studs' height, and what holds them by a thread; empty, all of it is designed."""

    material: BarMaterial = made_of("11SMn30")


class TestPlate(Table):
    """[test_plate]: closes the head joint for a test by water; empty, all of it is designed."""

    material: BarMaterial = made_of("C45")
    pressure: Annotated[Measure, quantity("pressure", 0.05, 2.0)] = key(
        "of the water", "5 bar", default="5 bar", assumed=PRACTICE
    )


if TYPE_CHECKING:
    Stem: TypeAlias = str
else:
    Stem = Literal[(ALL, *map(stem_of, FIXTURES))]


class Fixtures(Table):
    """[fixtures]: those that are asked for without a table of their own."""

    make: Annotated[list[Stem], Field(min_length=1, max_length=36)] = key(
        f'which: "{ALL}", as far as what they are for stands in the job, or their names', [ALL], default=[ALL]
    )


class FixtureTables(BaseModel):
    """The tables about fixtures."""

    clamp_plate: ClampPlate | None = None
    drill_plate: DrillPlate | None = None
    splitting_fixture: SplittingFixture | None = None
    ring_pot: RingPot | None = None
    squaring_piston: SquaringPiston | None = None
    turned_washer: TurnedWasher | None = None
    fitting_sleeve: FittingSleeve | None = None
    ring_compressor: RingCompressor | None = None
    stud_gauge: StudGauge | None = None
    test_plate: TestPlate | None = None


def _listed(table: Any) -> list[Any]:  # noqa: ANN401
    return table if isinstance(table, list) else [table]


def _washer(stud: Any) -> str:  # noqa: ANN401
    """Name of a stud's washer, where it has one."""
    return getattr(getattr(stud, "washer", None), "name", "")


def add_fixtures(found: dict[str, Any], broken: Collection[str]) -> list[tuple[Path, str]]:
    """Put an empty table in for every fixture that [fixtures] asks for; tell of those whose work is not in the job."""
    wanted = [*found["fixtures"].make] if "fixtures" in found else []
    wanted += ["turned-washer"] if TURNED in map(_washer, _listed(found.get("stud"))) else []
    models = {name: field.annotation.__args__[0] for name, field in FixtureTables.model_fields.items()}  # type: ignore[union-attr]
    lacking = {t: [n for n in one.beside if n not in found] for t, one in FIXTURES.items()}
    for table, none in lacking.items():
        asked = stem_of(table) in wanted or (ALL in wanted and not none)
        if asked and table not in found and table not in broken:
            found[table] = models[table]()
    return [
        ((table,), f"needs [{name}]: it is made for that")
        for table, names in lacking.items()
        for name in names
        if table in found and name not in broken
    ]

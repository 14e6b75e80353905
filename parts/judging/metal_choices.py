"""Rules on metals of which neither the job nor the table says what family they are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.judging.finding import NOT_JUDGED, Finding
from parts.sizing.materials import metals, unnamed
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job
    from parts.job.material_models import MaterialSpec


SOFT_WHEN_HOT = {  # greatest heat at which it keeps its shape [degC], handbook values from memory
    "AlSi7Mg0.3 T6": 250.0,
    "AlSi7Mg0.3 permanent mould T6": 250.0,
    "aluminium, annealed": 300.0,
    "CuZn39Pb3": 400.0,
    "copper, annealed": 400.0,
}
HOLDS = ("iron", "steel")
"""metals that a ring is set on"""


def soft_above(spec: MaterialSpec) -> tuple[float | None, bool]:
    """Heat up to which a part keeps its shape in the oven [degC], and whether it is surely of a metal that softens.

    None where every metal that it could be stands it. By the metal's family: a name that no table knows tells nothing.
    """
    if spec.name in SOFT_WHEN_HOT:
        return SOFT_WHEN_HOT[spec.name], True
    families = metals(spec)
    soft = [_softest(family) for family in families if family not in HOLDS]
    return min(soft, default=None), len(soft) == len(families)


def _softest(family: str) -> float:
    """Least heat of those of a family that the table has, else that to which the family keeps its shape."""
    named = [heat for name, heat in SOFT_WHEN_HOT.items() if tables.family_of(name) == family]
    return min(named, default=tables.family_figure(family, "keeps"))


def not_told(name: str, spec: MaterialSpec, heat: float | None, most: float) -> Finding:
    """That nobody knows whether a part stands the oven, since its metal is not told."""
    says = (
        f"{NOT_JUDGED} whether {spec.name} stands the heat: it could be of {', '.join(metals(spec))}; "
        "give the family beside its name"
    )
    return Finding(name, "caution", heat, most, "degC", says, "handbook value (memory)")


def castings_named(_: Book, job: Job) -> Iterator[Finding]:
    """What kind of metal a casting is decides what a thread in it wants, and what heat leaves of it."""
    if job.instances("stud"):
        for part, table in (("barrel", job.barrel), ("head", job.head)):
            yield from _unnamed(part, table.material if table else None)


def crankcase_named(_: Book, job: Job) -> Iterator[Finding]:
    """What kind of metal the crankcase is, in the view of its joint."""
    yield from _unnamed("barrel", job.barrel.material if job.barrel else None)


def stud_metal_named(_: Book, job: Job) -> Iterator[Finding]:
    """What kind of steel a stud is decides what heat leaves of it."""
    yield from _unnamed("stud", job.stud.material if job.stud else None)


def _unnamed(part: str, spec: MaterialSpec | None) -> Iterator[Finding]:
    if spec is None or not unnamed(spec):
        return
    says = (
        f"What metal {spec.name!r} is was not given: threads and heat are taken as of the weakest that it could be: "
        f"{', '.join(metals(spec))}; give the family beside its name"
    )
    yield Finding(f"{part}.family", "caution", None, None, "1", says, PRACTICE)


METAL_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("", castings_named),
    *((kind, stud_metal_named) for kind in ("stud", "base")),
    *((kind, crankcase_named) for kind in ("base", "through")),
]

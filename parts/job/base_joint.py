"""The joint on the crankcase as an instance of a joint: the crankcase in the barrel's place, the flange in the head's.

So what is written for the head's joint is done for this one: its sizes are `base.` where the head's are `joint.`, its
studs' `base.stud.`, and so on. Where the head's studs reach the crankcase, head and studs are the head's own, and only
gasket, crankcase and heat there are this table's.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from parts.job.instances import Instance, Instances
from parts.job.models import HEATS, Barrel, Head
from parts.job.part_models import Gasket

if TYPE_CHECKING:
    from collections.abc import Mapping

    from parts.job.base import Base
    from parts.job.lines import Path

NAME = "crankcase joint"
SIZES = {
    **{table: f"base.{table}" for table in ("stud", "insert", "tapped", "strip", "hot", "gasket", "deck")},
    "barrel": "base.crankcase",
    "head": "base.flange",
    "joint": "base",
}
"""beginning of a size's name -> what it begins with here; the last takes what no other does"""
GIVEN = {
    "job.barrel.material": "job.base.into",
    "job.barrel.deck_depth": "job.base.depth",
    "job.barrel.outline": "job.base.outline",
    "job.barrel.skim": "job.base.face_skim",
    "job.engine.bore": "job.base.mouth",
    "job.engine.peak_pressure": "job.base.crankcase_pressure",
    "job.head.joint_face": "job.base.gasket.outside",
    "job.head.spigot": "job.base.wall",
    "job.gasket": "job.base.gasket",
    **{f"job.engine.{s}.barrel": f"base.heat.{s}.crankcase" for s in HEATS},
}
"""value of the job file, or of what follows from it, in the head's joint -> in this one"""
OWN_STUDS = {
    "job.stud": "job.base.stud",
    "job.head.thickness": "job.base.flange_thickness",
    "job.head.hole_diameter": "job.base.flange_hole",
    "job.head.boss": "job.base.boss",
    "job.head.holes": "job.base.holes",
    "job.head.material": "job.barrel.material",
    "job.gasket.hole": "job.base.flange_hole",
    **{f"job.engine.{s}.head": f"base.heat.{s}.flange" for s in HEATS},
    **{f"job.engine.{s}.stud": f"base.heat.{s}.stud" for s in HEATS},
}
THROUGH = {
    "job.head.thickness": "base.height",
    "job.gasket.hole": "job.head.hole_diameter",
    **{f"job.engine.{s}.stud": f"base.heat.{s}.stud" for s in HEATS},
}
NOT_HERE = ("job.engine.", "job.plug.", "gasket.overhang", "gasket.hole.", "deck.thinnest")
"""rules about what is the head's alone"""
OF_STUDS = ("joint.nut_proof_load", "joint.nut_end_strip_force", "stud.free_nut_thread", "stud.shank_length")
"""rules on a stud and its nut that a bolt has not"""
SAYS = (
    ("the head joint", "the joint"), ("the head's", "the flange's"), ("of the head", "of the flange"),
    ("on the head", "on the flange"), ("a head that", "a flange that"), ("stiffer head", "stiffer flange"),
    ("holds the head off", "holds the barrel off"),
)  # fmt: skip
CRANKCASE_SAYS = (
    ("the barrel's", "the crankcase's"), ("in the barrel", "in the crankcase"), ("over the deck", "over the crankcase"),
    ("the deck face", "the crankcase's face"), ("of the deck", "of the crankcase's face"),
    ("to the bore", "to the mouth of the crankcase"), ("to the spigot", "to the barrel's wall"), ("hot gas", "oil"),
)  # fmt: skip


@dataclass(frozen=True, eq=False)
class BaseJoint(Instance):
    """The joint on the crankcase; its kind is "base" with studs of its own, "through" where the head's reach it."""

    @property
    def base(self) -> Base:
        """Its table."""
        return self.tables["base"]  # type: ignore[no-any-return]

    @property
    def listed(self) -> bool:
        """It stands in no list."""
        return False

    @cached_property
    def _sizes(self) -> dict[str, str]:
        return {start: here for start, here in SIZES.items() if start != "head" or self.kind == "base"}

    @cached_property
    def _given(self) -> dict[str, str]:
        given = {**(OWN_STUDS if self.kind == "base" else THROUGH), **GIVEN}
        return given if self.base.gasket else {"job.gasket.thickness": "base.no_gasket", **given}

    def real(self, name: str) -> str:
        """Name of a size or given in the whole book; one that is whole already stays."""
        start, _, rest = name.partition(".")
        if start == "planned":
            return f"planned.{self.real(rest)}"
        if start == "job":
            return next((o + name[len(s) :] for s, o in self._given.items() if f"{name}.".startswith(f"{s}.")), name)
        return f"{self._sizes[start]}.{rest}" if start in self._sizes else name

    def local(self, name: str) -> str:
        """Name of a size or given as the head's joint would have it, where it is of this one."""
        if name.startswith(("base.", "job.base.")):
            for here, own in (*self._given.items(), *self._sizes.items()):
                local = here + name[len(own) :]
                if f"{name}.".startswith(f"{own}.") and self.real(local) == name:
                    return local
        return name

    def path(self, path: Path) -> Path:
        """Place in the file of a key that a step of the sizing names."""
        return ("base", *path) if self.kind == "base" and path[:1] == ("stud",) else path

    def judges(self, size: str) -> bool:
        """Whether a rule on such a size means anything here."""
        stud = self.base.stud
        out = (*NOT_HERE, *OF_STUDS, "stud.held_by") if stud and stud.bolt else NOT_HERE
        if self.kind == "through":
            out = (*out, "head.", "job.head.")
        return not size.startswith(out)

    def said(self, says: str) -> str:
        """A rule's words as they are of this joint."""
        for word, here in (*(SAYS if self.kind == "base" else ()), *CRANKCASE_SAYS):
            says = says.replace(word, here)
        return says

    def among(self, job: Mapping[str, Any]) -> tuple[dict[str, Any], Instances]:
        """Tables of this joint in the place of the head's."""
        base = self.base
        stud = base.stud if self.kind == "base" else job["stud"]
        changed = {"stud": stud, "head": self._head(job), "barrel": _crankcase(base), "gasket": _gasket(base)}
        studs = (Instance("stud", "", {"stud": stud}),) if stud is not None else ()
        return changed, {"stud": studs, "plug": (), "ring": (), "old": ()}

    def _head(self, job: Mapping[str, Any]) -> Head | None:
        """What lies on the joint: the flange, or with through studs the head."""
        base, head, barrel = self.base, job["head"], job["barrel"]
        if self.kind == "through":
            return head  # type: ignore[no-any-return]
        keys = {
            "material": barrel.material if barrel else None,
            "thickness": base.flange_thickness,
            "boss": base.boss,
            "hole_diameter": base.flange_hole,
            "holes": base.holes,
            "joint_face": base.gasket.outside if base.gasket else None,
            "spigot": base.wall,
        }
        return Head().model_copy(update=keys)


def _crankcase(base: Base) -> Barrel:
    """What the studs screw into."""
    there = Barrel.model_validate({"material": "EN-GJL-250"})
    return there.model_copy(update={"material": base.into, "outline": base.outline, "deck_depth": base.depth})


def _gasket(base: Base) -> Gasket | None:
    if base.gasket is None:
        return None
    there = Gasket.model_validate({"thickness": "1 mm"})
    return there.model_copy(update={"material": base.gasket.material, "thickness": base.gasket.thickness})


def base_instances(found: Mapping[str, Any]) -> Instances:
    """The joint on the crankcase, where the file tells of it."""
    base = found.get("base")
    if base is None:
        return {}
    kind = "through" if base.through else "base"
    return {kind: (BaseJoint(kind, NAME, {"base": base}),)}

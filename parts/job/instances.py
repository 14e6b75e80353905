"""More than one of a kind: studs by their holes, plugs by their passages, rings by their grooves with their mandrels.

A list of tables is always named, the plain table never. An instance gives every name its place: `stud.length` is
`stud.front.length` for the front studs, and itself where there is the plain table. So whatever is sized, judged, drawn
or made is written once, for one.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any

from parts.fixtures import FIXTURES, fixtures_of
from parts.job.material_models import MaterialSpec
from parts.job.part_models import NamedMandrel, NamedRing, NamedStud, Plug

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from pydantic import BaseModel

    from parts.job.lines import Path

    Faults = list[tuple[Path, str]]

LISTS: dict[str, type[BaseModel]] = {"stud": NamedStud, "plug": Plug, "ring": NamedRing, "mandrel": NamedMandrel}
"""table that may be a list -> the model of its entries"""
JOINTS = ("base", "through")
"""kinds of the joint on the crankcase: base_joint.py"""
NAMED_BY = {"stud": "name", "plug": "passage", "ring": "name", "mandrel": "ring"}
"""the key that holds the name of such an entry"""
SIZES = {
    "stud": ("stud", *fixtures_of("stud"), "insert", "tapped", "strip", "turning", "hot", "joint", "assembly"),
    "plug": ("plug", "assembly"),
    "ring": ("ring", "mandrel", *fixtures_of("ring"), "assembly"),
    "old": ("screwed",),
}
"""kind -> beginnings of the names of sizes that every instance has its own of"""
OWN = {
    "stud": (
        *("deck.tapped_major", "deck.drill_point", "deck.floor", "deck.least_to_next", "deck.least_to_edge"),
        "gasket.hole_diameter",
    )
}
"""kind -> single sizes that are its own"""
TAKEN = {
    "angle", "arcs", "bolt", "bore", "boss", "cap", "cold", "collar", "contoured", "correction", "countersink",
    "crankcase", "cut", "deflection", "depth", "diameter", "embedded", "family", "floor", "frost", "gap",
    "go", "grip", "growth", "hardness", "height", "held", "hole", "hooped", "kc11", "land", "ledge", "length", "lever",
    "load", "longer", "mc", "moment", "multiple", "nearest", "nominal", "nut", "old", "on", "ovality",
    "parameter", "passage", "pin", "pitch", "place", "planned", "play", "plug", "preload", "pressure", "profile",
    "projection", "push", "radius", "reach", "recess", "ring", "room", "round", "safety", "scatter",
    "sections", "sensitivity", "slenderness", "slit", "slot", "smoothing", "spring", "stack", "stiffness", "stop",
    "stress", "stretch", "stud", "studs", "thickness", "tilt", "torque", "unbound", "wall", "washer", "window",
    "within",
}  # fmt: skip
"""parts of the names of sizes and findings that are one word, and so what no instance may be called"""
SHARED = (
    *("joint.gas_force", "joint.washer_modulus", "joint.washer_expansion", "joint.table_factor"),
    *("ring.bore_mean", "ring.bore_taper", "ring.bore_ovality", "ring.bore_lobe", "ring.bore_over"),
)
"""sizes of the whole joint, whatever its studs, and of the bore, whatever its rings"""
LONGEST = 40


def folded(name: str) -> str:
    """Write a name as sizes and files bear it: small letters, digits and hyphens.

    >>> folded("Oil drain"), folded("Größe 2"), folded("--")
    ('oil-drain', 'grosse-2', '')
    """
    plain = unicodedata.normalize("NFKD", name.lower().replace("ß", "ss")).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")


@dataclass(frozen=True, eq=False)
class Instance:
    """One stud, plug or ring with its mandrel, of those of its kind; or the old holes of one size."""

    kind: str
    name: str
    """folded; empty for the plain table"""
    tables: Mapping[str, Any]
    """table -> what stands in it, as of the plain one"""
    places: Mapping[str, int] = field(default_factory=dict)
    """table -> number in its list"""
    holes: tuple[int, ...] | None = None
    """of the new pattern, that this stud stands in; None: all of them"""
    known: frozenset[str] = frozenset()
    """names of all instances, its own among them"""

    @property
    def listed(self) -> bool:
        """Whether it is one of a list."""
        return bool(self.name)

    @property
    def suffix(self) -> str:
        """What its files' names end in."""
        return f"-{self.name}" if self.name else ""

    @cached_property
    def _given(self) -> dict[str, str]:
        """Table of the job, or one key of it -> where an instance's own values stand."""
        if self.kind == "old":
            return {"job.barrel.old_holes": f"job.barrel.old_holes.{self.name}"}
        given = {f"job.{table}": f"job.{table}.{self.name}" for table in self.tables if table in LISTS}
        if getattr(self.tables.get("stud"), "head_thickness", None) is not None:
            given["job.head.thickness"] = f"job.stud.{self.name}.head_thickness"
        return given

    def real(self, name: str) -> str:
        """Name of a size or given in the whole book; one that is whole already stays."""
        start, _, rest = name.partition(".")
        if not self.name:
            return name
        if start == "planned":
            return f"planned.{self.real(rest)}"
        if start == "job":
            return self._real_given(name)
        own = start in SIZES[self.kind] and name not in SHARED and rest.partition(".")[0] not in self.known
        return f"{start}.{self.name}.{rest}" if own or name in OWN.get(self.kind, ()) else name

    def _real_given(self, name: str) -> str:
        for start, own in self._given.items():
            rest = name.removeprefix(f"{start}.")
            if name == start or (rest != name and rest.partition(".")[0] not in self.known):
                return own + name[len(start) :]
        return name

    def local(self, name: str) -> str:
        """Name of a size or given as the plain table would have it, where it is of this instance."""
        if not self.name:
            return name
        for start, own in self._given.items():
            if f"{name}.".startswith(f"{own}."):
                return start + name[len(own) :]
        start, _, rest = name.partition(".")
        mine = rest.removeprefix(f"{self.name}.")
        return f"{start}.{mine}" if mine != rest and self.real(f"{start}.{mine}") == name else name

    def judges(self, size: str) -> bool:
        """Whether a rule on such a size means anything for it."""
        del size
        return True

    def said(self, says: str) -> str:
        """A rule's words as they are of this one."""
        return says

    def among(self, job: Mapping[str, Any]) -> tuple[dict[str, Any], Instances]:
        """Tables of the job as they are for this one alone, those that change, and its instances."""
        changed = {n: table for n, table in self.tables.items() if n in job}
        thickness = getattr(self.tables.get("stud"), "head_thickness", None)
        if thickness is not None and job["head"] is not None:
            changed["head"] = job["head"].model_copy(update={"thickness": thickness})
        if self.kind == "old" and job["barrel"] is not None:
            changed["barrel"] = job["barrel"].model_copy(update=dict(self.tables))
        return changed, {self.kind: (self,)}

    def is_of_another(self, local: str) -> bool:
        """Tell whether a name, as this instance has it, is of another of its kind."""
        start, _, rest = local.removeprefix("job.").partition(".")
        return bool(self.name) and start in SIZES.get(self.kind, ()) and rest.partition(".")[0] in self.known

    def path(self, path: Path) -> Path:
        """Place in the file of a key as the plain table would have it."""
        if self.kind == "old" and self.name and path[:2] == ("barrel", "old_holes"):
            return (*path[:2], int(self.name), *path[2:])
        if path and path[0] in self.places:
            return (path[0], self.places[str(path[0])], *path[1:])
        if path == ("head", "thickness") and self.real("job.head.thickness") != "job.head.thickness":
            return ("stud", self.places["stud"], "head_thickness")
        return path


Instances = dict[str, tuple[Instance, ...]]


def instances_of(found: Mapping[str, Any], broken: Iterable[str] = ()) -> tuple[Instances, Faults]:
    """Tell the instances of each kind apart, and what is wrong with how they are named and placed.

    Parameters
    ----------
    found : mapping
        Tables that could be read, by name
    broken : iterable of str
        Names of those that could not

    Returns
    -------
    instances : dict
        Of each kind
    faults : list
        Place in the file, and a sentence
    """
    faults: Faults = []
    made = {
        "stud": _studs(found, faults),
        "plug": _plugs(found, faults),
        "ring": _rings(found, faults) if "ring" not in broken else (),
        "old": _old(found, faults),
    }
    known = frozenset(one.name for many in made.values() for one in many if one.name)
    return {kind: tuple(replace(one, known=known) for one in many) for kind, many in made.items()}, faults


def _plain(found: Mapping[str, Any], kind: str, *tables: str) -> tuple[Instance, ...]:
    there = {t: found[t] for t in tables if found.get(t) is not None}
    return (Instance(kind, "", there),) if there else ()


def _named(table: str, names: Iterable[str], faults: Faults) -> list[str]:
    """Fold the names of a list's entries; note those that are none, or clash."""
    out, key = list[str](), NAMED_BY[table]
    for number, name in enumerate(names):
        short = folded(name)
        if not re.search("[a-z]", short) or len(short) > LONGEST:
            says = f"wants a name with a letter in it, of at most {LONGEST} letters, digits and hyphens, not {name!r}"
            faults.append(((table, number, key), says))
        elif short in TAKEN | _keys():
            faults.append(((table, number, key), f"can't be {name!r}: a size or a key is called so"))
        elif short in out:
            faults.append(((table, number, key), f"is used twice: {name!r} is written {short!r} in sizes and files"))
        out.append(short)
    return out


@lru_cache(None)
def _keys() -> frozenset[str]:
    """Keys that stand where an instance's name would."""
    models: list[type[BaseModel]] = [*LISTS.values(), MaterialSpec]
    return frozenset(key for model in models for key in model.model_fields)


def _studs(found: Mapping[str, Any], faults: Faults) -> tuple[Instance, ...]:
    studs = found.get("stud")
    if not isinstance(studs, list):
        return _plain(found, "stud", "stud", *fixtures_of("stud"))
    names = _named("stud", (s.name for s in studs), faults)
    _holes_have_one_stud(found, studs, faults)
    rows = enumerate(zip(names, studs, strict=True))
    return tuple(
        Instance("stud", name, {"stud": s, **_fixtures("stud", found, "stud")}, {"stud": n}, tuple(s.holes))
        for n, (name, s) in rows
    )


def _holes_of_the_head(found: Mapping[str, Any]) -> int | None:
    """How many holes the head has, as given or as measured; None where neither tells."""
    head, measured = found.get("head"), found.get("measured")
    pattern = (head and head.holes) or (measured and measured.new)
    return pattern.holes if pattern else None


def _holes_have_one_stud(found: Mapping[str, Any], studs: list[NamedStud], faults: Faults) -> None:
    count = _holes_of_the_head(found)
    there: dict[int, str] = {}
    for number, stud in enumerate(studs):
        for place, hole in enumerate(stud.holes):
            if count is not None and hole > count:
                says = f"must be a hole of the head's pattern, 1 to {count}, not {hole}"
                faults.append((("stud", number, "holes", place), says))
            elif hole in there:
                says = f"gives hole {hole} a second stud: it has that of {there[hole]!r}"
                faults.append((("stud", number, "holes", place), says))
            there.setdefault(hole, stud.name)
    lacking = [str(n) for n in range(1, (count or 0) + 1) if n not in there]
    if lacking:
        which = f"hole{'s' * (len(lacking) > 1)} {', '.join(lacking)}"
        faults.append(
            (("stud",), f"leaves {which} without a stud: name each hole of the head's pattern in one of the lists")
        )


def _plugs(found: Mapping[str, Any], faults: Faults) -> tuple[Instance, ...]:
    plugs = found.get("plug")
    if not isinstance(plugs, list):
        return _plain(found, "plug", "plug")
    faults += [
        (("plug", n, "passage"), 'is missing: plugs in a list are named by their passages, like "breather"')
        for n, plug in enumerate(plugs)
        if plug.passage is None
    ]
    names = _named("plug", (p.passage or f"plug-{n}" for n, p in enumerate(plugs)), faults)
    rows = enumerate(zip(names, plugs, strict=True))
    return tuple(Instance("plug", name, {"plug": p}, {"plug": n}) for n, (name, p) in rows)


def _rings(found: Mapping[str, Any], faults: Faults) -> tuple[Instance, ...]:
    rings, mandrels = found.get("ring"), found.get("mandrel")
    if not isinstance(rings, list):
        if isinstance(mandrels, list):
            faults.append((("mandrel",), "is a list, and [ring] is not: give [[ring]] with names, or one [mandrel]"))
        return _plain(found, "ring", "ring", "mandrel", *fixtures_of("ring"))
    if mandrels is not None and not isinstance(mandrels, list):
        faults.append((("mandrel",), 'wants [[mandrel]] with ring = "NAME" beside [[ring]]: which ring is it for?'))
        mandrels = None
    names = _named("ring", (r.name for r in rings), faults)
    faults += [
        (("ring", n, "groove"), "is missing: rings in a list are told apart by their grooves")
        for n, ring in enumerate(rings)
        if ring.groove is None
    ]
    faults += [
        (("ring", n, "name"), "can't end in 'outline': the file of a mandrel's outline does")
        for n, name in enumerate(names)
        if f"-{name}".endswith("-outline")
    ]
    own = _mandrels(mandrels or [], names, faults)
    return tuple(
        _ring(found, n, name, ring, own.get(name)) for n, (name, ring) in enumerate(zip(names, rings, strict=True))
    )


def _mandrels(mandrels: list[NamedMandrel], names: list[str], faults: Faults) -> dict[str, tuple[int, NamedMandrel]]:
    own: dict[str, tuple[int, NamedMandrel]] = {}
    for number, mandrel in enumerate(mandrels):
        ring = folded(mandrel.ring)
        if ring not in names:
            says = f"is for no ring: {mandrel.ring!r}; the rings are {', '.join(map(repr, names))}"
            faults.append((("mandrel", number, "ring"), says))
        elif ring in own:
            faults.append((("mandrel", number, "ring"), f"is the second mandrel for the ring {mandrel.ring!r}"))
        own.setdefault(ring, (number, mandrel))
    return own


def _ring(
    found: Mapping[str, Any], number: int, name: str, ring: NamedRing, own: tuple[int, NamedMandrel] | None
) -> Instance:
    tables: dict[str, Any] = {"ring": ring}
    places = {"ring": number}
    if own is not None:
        tables["mandrel"], places["mandrel"] = own[1], own[0]
    tables |= _fixtures("ring", found, *tables)
    return Instance("ring", name, tables, places)


def _fixtures(kind: str, found: Mapping[str, Any], *beside: str) -> dict[str, Any]:
    """Fixtures of one of a list: those whose work it has."""
    shared = {n for n in found if n not in LISTS}
    return {t: found[t] for t in fixtures_of(kind) if t in found and {*FIXTURES[t].beside} <= {*beside, *shared}}


def _old(found: Mapping[str, Any], faults: Faults) -> tuple[Instance, ...]:
    old = found["barrel"].old_holes if found.get("barrel") is not None else None
    if not isinstance(old, list):
        return (Instance("old", "", {"old_holes": old}),) if old is not None else ()
    if found.get("measured") is not None and found["measured"].old is not None:
        says = "can't stand beside a list of old holes: which of them was measured? Give each of those its pattern"
        faults.append((("measured", "old"), says))
    return tuple(Instance("old", str(n), {"old_holes": one}) for n, one in enumerate(old))

"""Shape of the assembly: every body in its place on the deck, as plain numbers. Imports no CAD.

Origin at the centre of the bore on the deck face as skimmed, X and Y the deck's, Z up. Threads are plain cylinders of
their nominal diameter, inside as outside (ISO 6410), so that a stud and its hole touch and share nothing. The head, a
casting nobody has drawn, is left out: its place is the gap between gasket and washers.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt
from typing import TYPE_CHECKING, Any, TypeAlias

from parts.geometry import outline
from parts.geometry.outline import Region
from parts.geometry.profile import Profile
from parts.shapes.pieces import Flat
from parts.sizing.materials import known_family
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.job import Job

ASSEMBLY = "assembly"  # its name among the parts
ABOVE = 1.0  # mm that a tool reaches over the deck face, so that it cuts clean
BELOW = 8.0  # mm of deck under the deepest hole where no depth is given
RINGS_DOWN = 2.0  # widths of a ring from the deck face to the ring: about a top land


@dataclass(frozen=True, slots=True)
class Hexagon:
    """A hexagon nut with chamfered corners, lying on Z = 0 [mm]."""

    flats: float
    hole: float
    height: float

    @property
    def blank(self) -> Profile:
        """The turned blank whose chamfers round the corners off."""
        corner, face, h = self.flats / sqrt(3), 0.475 * self.flats, self.height
        rise = (corner - face) / sqrt(3)
        return Profile(((0.0, 0.0), (0.0, face), (rise, corner), (h - rise, corner), (h, face), (h, 0.0)))


Form: TypeAlias = Profile | Flat | Hexagon


@dataclass(frozen=True, slots=True)
class Tool:
    """What a drill and a tap take out: a turned profile at (x, y) of the body's own coordinates [mm]."""

    x: float
    y: float
    profile: Profile


@dataclass(frozen=True, slots=True)
class Body:
    """One body of the assembly [mm]."""

    name: str
    color: str
    """name of a colour of the STEP writer"""
    form: Form
    place: tuple[float, float, float]
    cuts: tuple[Tool, ...] = ()
    lift: float = 0.0
    """how far up it is moved in the exploded view"""

    @property
    def height(self) -> tuple[float, float]:
        """Lowest and highest z, in place."""
        z = self.place[2]
        if isinstance(self.form, Profile):
            heights = [point[0] for point in self.form.points]
            return z + min(heights), z + max(heights)
        return z, z + (self.form.thickness if isinstance(self.form, Flat) else self.form.height)


def assembly_shape(book: Book, job: Job, shapes: Mapping[str, Any]) -> tuple[Body, ...]:
    """Return every body that this job has, the deck first; empty where there is no deck to put them on."""
    if job.barrel is None or job.barrel.outline is None or "job.engine.bore" not in book:
        return ()
    new = _new_holes(book)
    bodies = [_deck(book, job, shapes, new), *_fillers(book, job, new), *_inserts(book)]
    bodies += [*_plug(job, shapes), *_ring(book, shapes), *_gasket(shapes), *_studs(book, shapes)]
    return tuple(_exploded(bodies))


def holes(book: Book, prefix: str) -> list[Point]:
    """Centres of the holes `prefix.1`, `prefix.2` and so on [mm]."""
    return [(book[f"{prefix}.{n}.x"].value, book[f"{prefix}.{n}.y"].value) for n in book.numbers(prefix)]


def _number(book: Book, name: str) -> float | None:
    return float(book[name].value) if name in book else None


# the deck -------------------------------------------------------------------------------------------------------------


def _new_holes(book: Book) -> list[Tool]:
    """The new tapped holes, as far as they are sized: thread to its depth, drill below it, the drill's point."""
    kind = hole_of(book)
    sizes = [_number(book, f"{kind}.{n}") for n in ("tapped_major", "full_thread_depth", "tap_drill", "drill_depth")]
    major, thread, drill, deep = sizes
    point = _number(book, "deck.drill_point")
    if major is None or thread is None or drill is None or deep is None or point is None:
        return []
    deep = max(deep, thread + 0.1)
    profile = Profile(
        (
            (-deep - point, 0.0),
            (-deep, drill / 2),
            (-thread, drill / 2),
            (-thread, major / 2),
            (ABOVE, major / 2),
            (ABOVE, 0.0),
        )
    )
    return [Tool(x, y, profile) for x, y in holes(book, "deck.hole")]


def _round(diameter: float, depth: float) -> Profile:
    return Profile(((-depth, 0.0), (-depth, diameter / 2), (ABOVE, diameter / 2), (ABOVE, 0.0)))


def _deck(book: Book, job: Job, shapes: Mapping[str, Any], new: list[Tool]) -> Body:
    thick = _thickness(book, job, new)
    through = thick + ABOVE
    tools = [Tool(0.0, 0.0, _round(book["job.engine.bore"].value, through)), *new]
    tools += [tool for tool, _ in _old_holes(book, job, through)]
    tools += _passages(book, job, shapes, through)
    lifted = tuple(Tool(t.x, t.y, _moved(t.profile, thick)) for t in tools)
    loop = job.barrel.outline.loop() if job.barrel and job.barrel.outline else ()
    family = known_family(job.barrel.material) if job.barrel else None
    color = "ALUMINIUM" if family == "aluminium" else "DECK"
    return Body("deck", color, Flat(Region(loop), thick), (0.0, 0.0, -thick), lifted)


def _thickness(book: Book, job: Job, new: list[Tool]) -> float:
    """Metal below the skimmed deck face, or some under the deepest hole where it is not given."""
    given, skim = _number(book, "job.barrel.deck_depth"), _number(book, "job.barrel.skim") or 0.0
    if given is not None and given > skim:
        return given - skim
    passages = [float(p.depth) for p in (job.barrel.passages if job.barrel else []) if p.depth is not None]
    old = _number(book, "job.barrel.old_holes.depth") or 0.0
    return max([old, *passages, *(-t.profile.points[0][0] for t in new)]) + BELOW


def _old_holes(book: Book, job: Job, through: float) -> list[tuple[Tool, float]]:
    diameter = _number(book, "job.barrel.old_holes.diameter")
    if diameter is None or job.barrel is None:
        return []
    depth = _number(book, "job.barrel.old_holes.depth") or through
    return [(Tool(x, y, _round(diameter, depth)), depth) for x, y in holes(book, "deck.old")]


def _passages(book: Book, job: Job, shapes: Mapping[str, Any], through: float) -> list[Tool]:
    """Every passage; the plugged one as the plug fills it, counterbore and all."""
    tools = []
    for passage in job.barrel.passages if job.barrel else []:
        depth = float(passage.depth) if passage.depth is not None else through
        diameter = float(passage.diameter)
        if job.plug and job.plug.passage == passage.name and "blanking-plug" in shapes:
            diameter = max(diameter, book["plug.diameter"].value)
            seat = [point for point in shapes["blanking-plug"].points if point[1] > diameter / 2 + outline.SAME]
            if seat:
                shoulder = _round(2 * seat[0][1], -seat[0][0])
                tools.append(Tool(passage.at[0], passage.at[1], shoulder))
        tools.append(Tool(passage.at[0], passage.at[1], _round(diameter, depth)))
    return tools


def _moved(profile: Profile, z: float) -> Profile:
    return Profile(tuple((point[0] + z, point[1]) for point in profile.points))


# what goes into it ----------------------------------------------------------------------------------------------------


def _fillers(book: Book, job: Job, new: list[Tool]) -> Iterator[Body]:
    fill = job.old.fill if job.old else ""
    color = "BRONZE" if "bronze" in fill else "IRON"
    bore = Tool(0.0, 0.0, _round(book["job.engine.bore"].value, 1000.0))
    for number, (old, depth) in enumerate(_old_holes(book, job, 30.0), 1):
        radius = old.profile.points[1][1]
        body = Profile(((-depth, 0.0), (-depth, radius), (0.0, radius), (0.0, 0.0)))
        near = tuple(
            Tool(t.x - old.x, t.y - old.y, t.profile)
            for t in [*new, bore]
            if (t.x - old.x) ** 2 + (t.y - old.y) ** 2 < (radius + max(r for _, r in t.profile.points)) ** 2
        )
        yield Body(f"filler {number}", color, body, (old.x, old.y, 0.0), near)


def _inserts(book: Book) -> Iterator[Body]:
    names = ("insert.tapped_major", "insert.nominal", "insert.set_down", "insert.nominal_length")
    if not book.has(*names):
        return
    outside, inside, down, length = (book[n].value for n in names)
    tube = _tube(outside, inside, length)
    for number, (x, y) in enumerate(holes(book, "deck.hole"), 1):
        yield Body(f"insert {number}", "ALUMINIUM", tube, (x, y, -down - length))


def _tube(outside: float, inside: float, length: float) -> Profile:
    outer, inner = (((0.0, 0.0), (0.0, r), (length, r), (length, 0.0)) for r in (outside / 2, inside / 2))
    return Profile(outer, (inner,))


def _plug(job: Job, shapes: Mapping[str, Any]) -> Iterator[Body]:
    """The plug as faced off with the deck."""
    if job.plug is None or job.plug.passage is None or "blanking-plug" not in shapes or job.barrel is None:
        return
    at = next(p.at for p in job.barrel.passages if p.name == job.plug.passage)
    shape = shapes["blanking-plug"]
    faced = Profile(_faced(shape.points), tuple(_faced(bore) for bore in shape.bores))
    yield Body("plug", "STEEL", faced, (float(at[0]), float(at[1]), 0.0))


def _faced(points: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple((min(z, 0.0), r) for z, r in points)


def _ring(book: Book, shapes: Mapping[str, Any]) -> Iterator[Body]:
    if "ring-split" in shapes:
        width = book["job.ring.axial_width"].value
        yield Body("ring", "IRON", shapes["ring-split"], (0.0, 0.0, -(1 + RINGS_DOWN) * width))


# what stands on it ----------------------------------------------------------------------------------------------------


def _gasket(shapes: Mapping[str, Any]) -> Iterator[Body]:
    if "head-gasket" in shapes:
        yield Body("gasket", "COPPER", shapes["head-gasket"], (0.0, 0.0, 0.0))


def _studs(book: Book, shapes: Mapping[str, Any]) -> Iterator[Body]:
    places = list(enumerate(holes(book, "deck.hole"), 1))
    if "stepped-stud" in shapes:
        for number, (x, y) in places:
            yield Body(f"stud {number}", "STEEL", shapes["stepped-stud"], (x, y, 0.0))
    names = ("stud.washer_outside", "stud.washer_inside", "stud.washer_thickness", "job.head.thickness")
    if not book.has(*names):
        return
    outside, inside, thick, head = (book[n].value for n in names)
    low = head + (_number(book, "job.gasket.thickness") or 0.0)
    flats, hole, height = (book[f"stud.{n}"].value for n in ("nut_across_flats", "nut_end_nominal", "nut_height"))
    for number, (x, y) in places:
        yield Body(f"washer {number}", "ZINC", _tube(outside, inside, thick), (x, y, low))
    for number, (x, y) in places:
        yield Body(f"nut {number}", "ZINC", Hexagon(flats, hole, height), (x, y, low + thick))


# the exploded view ----------------------------------------------------------------------------------------------------

LAYERS = (("filler", "insert", "plug", "ring"), ("gasket",), ("stud",), ("washer",), ("nut",))


def _exploded(bodies: list[Body]) -> list[Body]:
    """Lift layer over layer, each clear of the one below; within a layer all stand on one level."""
    kinds = [body.name.partition(" ")[0] for body in bodies]
    wide = max(abs(v) for point in outline.bounds(bodies[0].form.sheet.outer) for v in (point,))  # type: ignore[union-attr]
    gap, floor, lifts = 0.14 * wide, 0.0, dict[str, float]()
    for layer in LAYERS:
        of_layer = [body for body, kind in zip(bodies, kinds, strict=True) if kind in layer]
        if not of_layer:
            continue
        floor += gap
        for body in of_layer:
            lifts[body.name] = floor - body.height[0]
        floor = max(body.height[1] + lifts[body.name] for body in of_layer)
    return [replace(body, lift=lifts.get(body.name, 0.0)) for body in bodies]

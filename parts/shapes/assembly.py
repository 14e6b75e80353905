"""Shape of the assembly: every body in its place on the deck, as plain numbers. Imports no CAD.

Origin at the centre of the bore on the deck face as skimmed, X and Y the deck's, Z up. Threads are plain cylinders of
their nominal diameter, inside as outside (ISO 6410), so that a stud and its hole touch and share nothing. The head, a
casting nobody has drawn, is left out: its place is the gap between gasket and washers.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.geometry import outline
from parts.geometry.outline import Region
from parts.geometry.profile import Profile
from parts.shapes.bodies import Body, Hexagon, Slug, Tool, exploded
from parts.shapes.pieces import Flat
from parts.sizing.materials import metals
from parts.sizing.scenes import by_hole, by_old_hole, scenes
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.job import Job

ABOVE = 1.0  # mm that a tool reaches over the deck face, so that it cuts clean
BELOW = 8.0  # mm of deck under the deepest hole where no depth is given
RINGS_DOWN = 2.0  # widths of a ring from the deck face to the ring: about a top land
LAND = 1.0  # widths of a ring between it and the one above


def assembly_shape(book: Book, job: Job, shapes: Mapping[str, Any]) -> tuple[Body, ...]:
    """Return every body that this job has, the deck first; empty where there is no deck to put them on."""
    if job.barrel is None or job.barrel.outline is None or "job.engine.bore" not in book:
        return ()
    new = _new_holes(book, job)
    bodies = [_deck(book, job, shapes, new), *_fillers(book, job, new), *_inserts(book, job)]
    bodies += [*_plugs(book, job, shapes), *_rings(book, job, shapes), *_gasket(shapes), *_studs(book, job, shapes)]
    return tuple(exploded(bodies))


def holes(book: Book, prefix: str) -> list[Point]:
    """Centres of the holes `prefix.1`, `prefix.2` and so on [mm]."""
    return [_centre(book, f"{prefix}.{n}") for n in book.numbers(prefix)]


def _centre(book: Book, hole: str) -> Point:
    return book[f"{hole}.x"].value, book[f"{hole}.y"].value


def _named(name: str, book: Book) -> str:
    """Name of a body: in a list with its instance's, like `stud 1 front`."""
    return name + book.suffix.replace("-", " ", 1)


def _number(book: Book, name: str) -> float | None:
    return float(book[name].value) if name in book else None


# the deck -------------------------------------------------------------------------------------------------------------


def _new_holes(book: Book, job: Job) -> list[Tool]:
    """The new tapped holes, as far as they are sized."""
    tapped = ((_centre(book, f"deck.hole.{n}"), _tapped(view)) for n, view, _ in by_hole(book, job))
    return [Tool(x, y, profile) for (x, y), profile in tapped if profile]


def _tapped(book: Book) -> Profile | None:
    """Thread to its depth, drill below it, the drill's point."""
    kind = hole_of(book)
    sizes = [_number(book, f"{kind}.{n}") for n in ("tapped_major", "full_thread_depth", "tap_drill", "drill_depth")]
    major, thread, drill, deep = sizes
    point = _number(book, "deck.drill_point")
    if major is None or thread is None or drill is None or deep is None or point is None:
        return None
    deep = max(deep, thread + 0.1)
    return Profile(
        (
            (-deep - point, 0.0),
            (-deep, drill / 2),
            (-thread, drill / 2),
            (-thread, major / 2),
            (ABOVE, major / 2),
            (ABOVE, 0.0),
        )
    )


def _round(diameter: float, depth: float) -> Profile:
    return Profile(((-depth, 0.0), (-depth, diameter / 2), (ABOVE, diameter / 2), (ABOVE, 0.0)))


def _deck(book: Book, job: Job, shapes: Mapping[str, Any], new: list[Tool]) -> Body:
    thick = _thickness(book, job, new)
    through = thick + ABOVE
    tools = [Tool(0.0, 0.0, _round(book["job.engine.bore"].value, through)), *new]
    tools += [tool for tool, _ in _old_holes(book, job, through)]
    tools += _passages(book, job, shapes, through)
    lifted = [Tool(t.x, t.y, _moved(t.profile, thick)) for t in tools]
    loop = job.barrel.outline.loop() if job.barrel and job.barrel.outline else ()
    family = metals(job.barrel.material) if job.barrel else ()
    color = "ALUMINIUM" if family == ("aluminium",) else "DECK"
    return Body("deck", color, Flat(Region(loop), thick), (0.0, 0.0, -thick), (*lifted, *_shaped_passages(job, thick)))


def _thickness(book: Book, job: Job, new: list[Tool]) -> float:
    """Metal below the skimmed deck face, or some under the deepest hole where it is not given."""
    given, skim = _number(book, "job.barrel.deck_depth"), _number(book, "job.barrel.skim") or 0.0
    if given is not None and given > skim:
        return given - skim
    passages = [float(p.depth) for p in (job.barrel.passages if job.barrel else []) if p.depth is not None]
    old = [-t.profile.points[0][0] for t, _ in _old_holes(book, job, 0.0)]
    return max([0.0, *old, *passages, *(-t.profile.points[0][0] for t in new)]) + BELOW


def _old_holes(book: Book, job: Job, through: float) -> list[tuple[Tool, Job]]:
    """The old holes, each with the job as its table sees it."""
    found = []
    for number, view, own in by_old_hole(book, job):
        diameter, depth = (_number(view, f"job.barrel.old_holes.{key}") for key in ("diameter", "depth"))
        if diameter is not None:
            found.append((Tool(*_centre(book, f"deck.old.{number}"), _round(diameter, depth or through)), own))
    return found


def _passages(book: Book, job: Job, shapes: Mapping[str, Any], through: float) -> list[Tool]:
    """Every passage; the plugged one as the plug fills it, counterbore and all."""
    tools, plugs = [], {name: (plug, view) for name, plug, view in _plugged(book, job, shapes)}
    for passage in job.barrel.passages if job.barrel else []:
        if passage.diameter is None or passage.at is None:
            continue
        depth = float(passage.depth) if passage.depth is not None else through
        diameter = float(passage.diameter)
        if passage.name in plugs:
            plug, view = plugs[passage.name]
            diameter = max(diameter, view["plug.diameter"].value)
            seat = [point for point in plug.points if point[1] > diameter / 2 + outline.SAME]
            if seat:
                shoulder = _round(2 * seat[0][1], -seat[0][0])
                tools.append(Tool(passage.at[0], passage.at[1], shoulder))
        tools.append(Tool(passage.at[0], passage.at[1], _round(diameter, depth)))
    return tools


def _shaped_passages(job: Job, thick: float) -> Iterator[Slug]:
    """Passages that are not round, in a deck of this thickness that lies on z = 0."""
    for passage in job.barrel.passages if job.barrel else []:
        if passage.diameter is None:
            depth = float(passage.depth) if passage.depth is not None else thick + ABOVE
            for loop in passage.loops():
                yield Slug(Flat(Region(loop), depth + ABOVE), thick - depth)


def _plugged(book: Book, job: Job, shapes: Mapping[str, Any]) -> Iterator[tuple[str, Profile, Book]]:
    """Every passage that is plugged, by its name: the plug, and the book as it sees it."""
    for view, own, _ in scenes(book, job, "plug"):
        shape = shapes.get(f"blanking-plug{view.suffix}")
        if own.plug and own.plug.passage is not None and shape is not None:
            yield own.plug.passage, shape, view


def _moved(profile: Profile, z: float) -> Profile:
    return Profile(tuple((point[0] + z, point[1]) for point in profile.points))


# what goes into it ----------------------------------------------------------------------------------------------------


def _fillers(book: Book, job: Job, new: list[Tool]) -> Iterator[Body]:
    bore = Tool(0.0, 0.0, _round(book["job.engine.bore"].value, 1000.0))
    for number, (old, own) in enumerate(_old_holes(book, job, 30.0), 1):
        color = "BRONZE" if own.old and "bronze" in own.old.fill else "IRON"
        depth, radius = -old.profile.points[0][0], old.profile.points[1][1]
        body = Profile(((-depth, 0.0), (-depth, radius), (0.0, radius), (0.0, 0.0)))
        near = tuple(
            Tool(t.x - old.x, t.y - old.y, t.profile)
            for t in [*new, bore]
            if (t.x - old.x) ** 2 + (t.y - old.y) ** 2 < (radius + max(r for _, r in t.profile.points)) ** 2
        )
        yield Body(f"filler {number}", color, body, (old.x, old.y, 0.0), near)


def _inserts(book: Book, job: Job) -> Iterator[Body]:
    names = ("insert.tapped_major", "insert.nominal", "insert.set_down", "insert.nominal_length")
    for number, view, _ in by_hole(book, job):
        if view.has(*names):
            outside, inside, down, length = (view[n].value for n in names)
            place = (*_centre(book, f"deck.hole.{number}"), -down - length)
            yield Body(_named(f"insert {number}", view), "ALUMINIUM", _tube(outside, inside, length), place)


def _tube(outside: float, inside: float, length: float) -> Profile:
    outer, inner = (((0.0, 0.0), (0.0, r), (length, r), (length, 0.0)) for r in (outside / 2, inside / 2))
    return Profile(outer, (inner,))


def _plugs(book: Book, job: Job, shapes: Mapping[str, Any]) -> Iterator[Body]:
    """The plugs as faced off with the deck."""
    places = {p.name: p.centre for p in job.barrel.passages} if job.barrel else {}
    for passage, shape, view in _plugged(book, job, shapes):
        faced = Profile(_faced(shape.points), tuple(_faced(bore) for bore in shape.bores))
        x, y = map(float, places[passage])
        yield Body(_named("plug", view), "STEEL", faced, (x, y, 0.0))


def _faced(points: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple((min(z, 0.0), r) for z, r in points)


def _rings(book: Book, job: Job, shapes: Mapping[str, Any]) -> Iterator[Body]:
    """One of each ring, the first on top."""
    z, land = 0.0, RINGS_DOWN
    for view, _, _ in scenes(book, job, "ring"):
        if (shape := shapes.get(f"ring-split{view.suffix}")) is not None:
            z -= (1 + land) * shape.thickness
            land = LAND
            yield Body(_named("ring", view), "IRON", shape, (0.0, 0.0, z))


# what stands on it ----------------------------------------------------------------------------------------------------


def _gasket(shapes: Mapping[str, Any]) -> Iterator[Body]:
    if "head-gasket" in shapes:
        yield Body("gasket", "COPPER", shapes["head-gasket"], (0.0, 0.0, 0.0))


def _studs(book: Book, job: Job, shapes: Mapping[str, Any]) -> Iterator[Body]:
    """Studs, then washers, then nuts, in the order of their holes."""
    places = [(number, view, _centre(book, f"deck.hole.{number}")) for number, view, _ in by_hole(book, job)]
    for number, view, at in places:
        if (shape := shapes.get(f"stepped-stud{view.suffix}")) is not None:
            yield Body(_named(f"stud {number}", view), "STEEL", shape, (*at, 0.0))
    for on_top in (_washer, _nut):
        for number, view, at in places:
            yield from on_top(number, view, at)


def _washer(number: int, book: Book, at: Point) -> Iterator[Body]:
    names = ("stud.washer_outside", "stud.washer_inside", "stud.washer_thickness")
    if book.has(*names, "job.head.thickness"):
        outside, inside, thick = (book[n].value for n in names)
        yield Body(_named(f"washer {number}", book), "ZINC", _tube(outside, inside, thick), (*at, _head(book)))


def _nut(number: int, book: Book, at: Point) -> Iterator[Body]:
    if book.has("stud.washer_thickness", "job.head.thickness"):
        flats, hole, height = (book[f"stud.{n}"].value for n in ("nut_across_flats", "nut_end_nominal", "nut_height"))
        z = _head(book) + book["stud.washer_thickness"].value
        yield Body(_named(f"nut {number}", book), "ZINC", Hexagon(flats, hole, height), (*at, z))


def _head(book: Book) -> float:
    """Top of the head over the deck, at a stud."""
    return float(book["job.head.thickness"].value) + (_number(book, "job.gasket.thickness") or 0.0)

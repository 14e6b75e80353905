"""How far what was traced lies from what was there, by shapely."""

from math import hypot

from shapely import affinity
from shapely.geometry import LineString, Point, Polygon

from parts.geometry.outline import flatten


def polygon(loop):
    """A loop of lines and arcs as a fine polygon."""
    return Polygon(flatten(loop, 0.001))


def misses(record, loops, gasket, turned):
    """Largest misses [mm]: of a hole's place and diameter, and of an outline by Hausdorff; and each with its stated ±.

    Names every outline that was not found, or is none.
    """

    def lying(shape):
        return affinity.rotate(shape, turned, origin=(0, 0))

    found, wrong = list(zip(record, loops, strict=True)), []
    rounds = [(one, loop) for one, loop in found if one["kind"] == "circle" and one["layer"] != "OUTLINE"]
    drawn = [
        (one, loop)
        for one, loop in found
        if (one["kind"], one["layer"]) != ("circle", one["layer"]) or one["layer"] == "OUTLINE"
    ]
    holes, outlines, stated = [0.0], [0.0], []
    for x, y, diameter in ((0.0, 0.0, gasket.bore), *gasket.holes):
        at = lying(Point(x, y))
        one, _ = min(
            rounds,
            key=lambda r: hypot(r[0]["x"] - at.x, r[0]["y"] - at.y) + abs(r[0]["diameter"] - diameter),
            default=(None, None),
        )
        off = hypot(one["x"] - at.x, one["y"] - at.y) if one else 9.0
        if off > 2 or abs(one["diameter"] - diameter) > 2:
            wrong.append(f"no hole of {diameter} at ({at.x:.1f}, {at.y:.1f})")
            continue
        holes += [off, abs(one["diameter"] - diameter)]
        stated.append((abs(one["diameter"] - diameter), one["plus_minus"]))
    for shape in (gasket.outer, *gasket.openings):
        true = LineString(lying(shape).exterior.coords)
        near = [(LineString(polygon(loop).exterior.coords).hausdorff_distance(true), one) for one, loop in drawn]
        off, one = min(near, key=lambda n: n[0], default=(9.0, None))
        if off > max(2, one["plus_minus"] if one else 0):
            wrong.append(f"no outline round ({shape.centroid.x:.1f}, {shape.centroid.y:.1f})")
            continue
        outlines.append(min(off, 2))
        stated.append((off, one["plus_minus"]))
    extra = len(found) - 2 - len(gasket.holes) - len(gasket.openings)
    wrong += [f"{extra} more than there are"] * bool(extra)
    return max(holes), max(outlines), stated, wrong

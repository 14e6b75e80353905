"""The worked job with more and more of one thing: to see that cost grows as the work."""

from math import cos, pi, sin

from tests.listed import rings, worked
from tests.strategies import toml_text


def _round(radius, count, first=0.1):
    """Points on a circle [mm], as a job file has them."""
    turns = [first + 2 * pi * n / count for n in range(count)]
    return [[f"{radius * cos(t):.3f} mm", f"{radius * sin(t):.3f} mm"] for t in turns]


def _large(job):
    """A deck on which there is room."""
    job["barrel"]["outline"] = {"circle": "400 mm"}
    return job


def _holes(count):
    job = _large(worked())
    job["head"]["holes"] = {"circle": "330 mm", "count": count, "first": "3 deg"}
    return job


def _passages(count):
    job = _large(worked())
    hole = {"diameter": "6.0 mm", "depth": "15 mm"}
    more = [{"name": f"p{n}", "at": at, **hole} for n, at in enumerate(_round(170, count - 1))] if count > 1 else []
    job["barrel"]["passages"] += more
    return job


def _corners(count):
    job = worked()
    job["barrel"]["outline"] = {"points": _round(56, count)}
    return job


def _rings(count):
    wide = {f"r{n}": 2.0 + 0.02 * n for n in range(count)}
    job = worked()
    groove = job["ring"]["groove"]
    own = {
        name: {"axial_width": f"{w:.2f} mm", "groove": {**groove, "width": f"{w + 0.04:.2f} mm"}}
        for name, w in wide.items()
    }
    return rings(job, tuple(wide), **own)


KINDS = {
    "holes": (_holes, (4, 9, 18, 36)),
    "passages": (_passages, (1, 9, 18, 36)),
    "corners": (_corners, (20, 50, 100, 200)),
    "rings": (_rings, (1, 5, 10, 20)),
}
"""what there is more of -> how such a job is made, and how many the benchmark goes through"""


def job_with(kind, count):
    """Text of the worked job with so many."""
    return toml_text(KINDS[kind][0](count))

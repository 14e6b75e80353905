"""Jobs with more than one of a kind, made of a plain job by putting lists in the place of its tables."""

import tomllib
from copy import deepcopy

from parts.job.examples import demo_text
from tests.strategies import toml_text

KINDS = ("stud", "plug", "ring", "old")


def worked():
    """The worked job as data."""
    return tomllib.loads(demo_text())


def studs(job, **kinds):
    """[[stud]] for [stud]: name -> holes, and what differs."""
    return {**job, "stud": [{"name": name, **deepcopy(job["stud"]), **own} for name, own in kinds.items()]}


def plugs(job, *passages, **own):
    """[[plug]] for [plug], one a passage; a passage that the job has not is put opposite to its first."""
    there = job["barrel"]["passages"]
    across = {**there[0], "at": ["0.0 mm", "-42.0 mm"]}
    more = [{**across, "name": name} for name in passages if name not in {p["name"] for p in there}]
    listed = [{**deepcopy(job["plug"]), **own, "passage": name} for name in passages]
    return {**job, "barrel": {**job["barrel"], "passages": [*there, *more]}, "plug": listed}


def rings(job, mandrels=(), **kinds):
    """[[ring]] for [ring]: name -> what differs; [[mandrel]] for [mandrel], of the rings named."""
    out = {**job, "ring": [{"name": name, **deepcopy(job["ring"]), **own} for name, own in kinds.items()]}
    mandrel = out.pop("mandrel", None)
    return {**out, "mandrel": [{"ring": name, **mandrel} for name in mandrels]} if mandrel and mandrels else out


def old_holes(job, *kinds):
    """[[barrel.old_holes]] for [barrel.old_holes]: what differs in each."""
    plain = job["barrel"]["old_holes"]
    return {**job, "barrel": {**job["barrel"], "old_holes": [{**deepcopy(plain), **own} for own in kinds]}}


def one_of_each(job):
    """The same job with lists of one entry each."""
    if "stud" in job:
        holes = job.get("head", {}).get("holes", {})
        count = 4 if "rectangle" in holes else holes.get("count") or len(holes.get("points", "1234"))
        job = studs(job, front={"holes": list(range(1, count + 1))})
    if "passage" in job.get("plug", {}):
        job = {**job, "plug": [job["plug"]]}
    if "groove" in job.get("ring", {}):
        job = rings(job, ["top"], top={})
    return old_holes(job, {}) if "old_holes" in job.get("barrel", {}) else job


def several(job):
    """Two studs, plugs and sizes of old holes, three rings of which one has its mandrel."""
    wide = {"axial_width": "2.5 mm", "groove": {"width": "2.54 mm", "root_diameter": "51.4 mm"}}
    job = studs(
        job,
        front={"holes": [1, 2], "head_thickness": "46 mm"},
        rear={"holes": [3, 4], "head_thickness": "40 mm", "shank": "6 mm"},
    )
    job = rings(plugs(job, "breather", "oil drain"), ["top"], top={}, second={"free_gap": "8.4 mm"}, third=wide)
    more = {"pattern": {"points": [["0 mm", "-45 mm"]]}, "diameter": "7 mm", "fill": "screwed iron plug"}
    return old_holes(job, {}, more)


def plain(job, name):
    """Name of a size or finding as the plain tables have it."""
    if name.startswith(("made.", "planned.")):
        start, _, rest = name.partition(".")
        return f"{start}.{plain(job, rest)}"
    return next((local for one in job.named() if (local := one.local(name)) != name), name)


def text(job):
    """A job as TOML."""
    return toml_text(job)

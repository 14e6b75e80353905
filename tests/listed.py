"""Jobs with more than one of a kind, made of the worked job by replacing its plain tables with lists."""

import tomllib
from copy import deepcopy

from parts.job.examples import demo_text
from tests.strategies import toml_text


def worked():
    """The worked job as data."""
    return tomllib.loads(demo_text())


def studs(job, **kinds):
    """Put [[stud]] in the place of [stud]: name -> holes, and what differs."""
    plain = job["stud"]
    return {**job, "stud": [{"name": name, **deepcopy(plain), **own} for name, own in kinds.items()]}


def plugs(job, *passages, **own):
    """Put [[plug]] in the place of [plug]: one for each passage, which is added where there is none of the name."""
    there = job["barrel"]["passages"]
    more = [
        {**deepcopy(there[0]), "name": name, "at": ["0.0 mm", "-42.0 mm"]}
        for name in passages
        if name not in {p["name"] for p in there}
    ]
    listed = [{**deepcopy(job["plug"]), **own, "passage": name} for name in passages]
    return {**job, "barrel": {**job["barrel"], "passages": [*there, *more]}, "plug": listed}


def rings(job, mandrels=(), **kinds):
    """Put [[ring]] and [[mandrel]] in the place of the plain ones: name -> what differs; which have a mandrel."""
    ring, mandrel = job["ring"], job.get("mandrel")
    out = {**job, "ring": [{"name": name, **deepcopy(ring), **own} for name, own in kinds.items()]}
    out.pop("mandrel", None)
    if mandrel and mandrels:
        out["mandrel"] = [{"ring": name, **mandrel} for name in mandrels]
    return out


def old_holes(job, *kinds):
    """Put [[barrel.old_holes]] in the place of [barrel.old_holes]: what differs in each."""
    plain = job["barrel"]["old_holes"]
    return {**job, "barrel": {**job["barrel"], "old_holes": [{**deepcopy(plain), **own} for own in kinds]}}


def text(job):
    """A job as TOML."""
    return toml_text(job)

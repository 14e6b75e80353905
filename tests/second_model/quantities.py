"""A small reader: TOML text to nested dicts of plain numbers in mm, N, MPa, degC, deg, s, N m."""

import re
import tomllib

INCH, LBF, PSI = 25.4, 4.4482216152605, 4.4482216152605 / 25.4**2
UNITS = {
    "mm": 1,
    "um": 1e-3,
    "cm": 10,
    "m": 1000,
    "in": INCH,
    "inch": INCH,
    '"': INCH,
    "thou": INCH / 1000,
    "deg": 1,
    "rad": 57.29577951308232,
    "N": 1,
    "kN": 1000,
    "lbf": LBF,
    "MPa": 1,
    "N/mm^2": 1,
    "GPa": 1000,
    "kPa": 1e-3,
    "bar": 0.1,
    "psi": PSI,
    "tonf/in^2": 2240 * PSI,
    "N m": 1,
    "Nm": 1,
    "N.m": 1,
    "lbf ft": LBF * 0.3048,
    "ft lb": LBF * 0.3048,
    "lbf in": LBF * 0.0254,
    "mm^3": 1,
    "cm^3": 1000,
    "cc": 1000,
    "ml": 1000,
    "in^3": INCH**3,
    "kg": 1,
    "g": 1e-3,
    "s": 1,
    "min": 60,
    "hour": 3600,
    "um/m/K": 1e-6,
    "1/K": 1,
}
NUMBER = r"(?P<whole>[-+]?\d+) +(?P<num>\d+)/(?P<den>\d+)|(?P<num2>[-+]?\d+)/(?P<den2>\d+)|(?P<dec>[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?)"
QUANTITY = re.compile(rf"^(?P<r>R)?(?:{NUMBER}) *(?P<unit>[^±+0-9 ][^±+]*?)(?: *(?:±|\+/-) *(?P<tol>.+))?$")


class Times(float):
    """So many times the thread's nominal diameter."""


class Missing(Exception):
    """What a size needs and the job has not."""


def number(m):
    if m["whole"]:
        w = float(m["whole"])
        return w + (-1 if w < 0 else 1) * float(m["num"]) / float(m["den"])
    return float(m["num2"]) / float(m["den2"]) if m["num2"] else float(m["dec"])


def quantity(text):
    """The number in base units, or the text itself where it is no quantity."""
    m = QUANTITY.match(text.strip())
    if not m:
        return text
    unit, v = m["unit"].strip(), number(m)
    if unit == "d":
        return Times(v)
    if unit in ("degC", "K", "degF"):
        return {"degC": v, "K": v - 273.15, "degF": (v - 32) / 1.8}[unit]
    return v * UNITS[unit] if unit in UNITS else text


def _walk(value, path, unknown):
    if isinstance(value, dict):
        out = {}
        for k, v in value.items():
            if v == "unknown":
                unknown.append(f"{path}{k}")
            else:
                out[k] = _walk(v, f"{path}{k}.", unknown)
        return out
    if isinstance(value, list):
        return [_walk(v, f"{path}{i}.", unknown) for i, v in enumerate(value)]
    if isinstance(value, str) and not path.endswith((".name.", ".title.")):
        return quantity(value)
    return value


def read(text):
    """A job file's text as nested dicts of plain numbers; `_unknown` lists the keys given as unknown."""
    unknown = []
    job = _walk(tomllib.loads(text), "", unknown)
    job["_unknown"] = unknown
    return job


REQUIRED = object()


def at(table, path, default=REQUIRED):
    """table.a.b.c; Missing where it is not given and no default stands."""
    here = table
    for part in path.split("."):
        if not isinstance(here, dict) or part not in here:
            if default is REQUIRED:
                raise Missing(path)
            return default
        here = here[part]
    return here


def length(value, d):
    return float(value) * d if isinstance(value, Times) else float(value)


def fold(name):
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


def instances(job, key):
    """[(infix, table)]: the plain table has no infix, a list's entries have 'NAME.'."""
    t = job.get(key)
    if t is None:
        return []
    if isinstance(t, dict):
        return [("", t)]
    pick = {"stud": "name", "ring": "name", "plug": "passage", "mandrel": "ring"}[key]
    return [(fold(x.get("name", x.get(pick, str(i)))) + ".", x) for i, x in enumerate(t)]

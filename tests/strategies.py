"""Job files drawn from the job's own models: a new key is drawn, spoilt and told of without being written down here.

A job is plain data (tables of keys) until `toml_text` writes it. What a key may hold is read off its field: the range
of a quantity out of its reader, the length of a list, the choices, the pattern. What a key usually holds is its value in
the worked job, else its example.
"""

from __future__ import annotations

import inspect
import json
import tomllib
import unicodedata
from copy import deepcopy
from dataclasses import dataclass, replace
from functools import cache
from math import cos, floor, log10, radians, sin
from random import Random
from typing import Annotated, Any, Literal, get_args, get_origin

from hypothesis import strategies as st
from pydantic.fields import FieldInfo

from parts import tables, units
from parts.checked import check
from parts.fixtures import FIXTURES
from parts.job import TABLES
from parts.job.base import BaseStud
from parts.job.examples import demo_text
from parts.job.fields import LETTERS, Reads
from parts.job.instances import LISTS, NAMED_BY
from parts.job.material_models import MaterialSpec
from parts.job.models import OldHoles, Pattern
from parts.job.outline_models import Outline, Passage
from parts.job.part_models import Gasket, Nut, Plug, Washer
from parts.job.shaped import _of_corner
from parts.sizing.as_made import LIMIT
from parts.thread import read_thread

ONE_OF = {  # tables of which just one form may stand, with what belongs to the form
    Pattern: (("circle", "count", "first"), ("rectangle", "turned"), ("points",)),
    Outline: (("circle",), ("rectangle", "corner"), ("points",), ("lobes",)),
    Passage: (("diameter", "at"), ("slot", "at"), ("rectangle", "at")),
    Plug: (("passage",), ("hole",)),
    Gasket: (("thickness",), ("wanted_squish",), ("wanted_ratio",)),
}
BESIDE = ("dxf", "layer", "dxf_units", "at_holes")
"""keys about a file that stands beside the job file: none does"""


# what is drawn from ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Draws:
    """Draws for one job, evenly spread, all from one seed.

    Hundreds of keys each with a strategy of its own would take longer to draw than to check, and lean to nothing at all.
    """

    draw: Any
    chance: Random
    scale: float = 1.0
    """of all lengths, and of the threads with them"""
    decades: float | None = 0.0
    """half width of each value's own spread, evenly by its logarithm; None is the whole range of the key"""

    def pick(self, of):
        """One of several."""
        return self.chance.choice(of)

    def often(self, share):
        """True this often."""
        return self.chance.random() < share

    def between(self, low, high):
        return self.chance.uniform(low, high)

    def near(self, usual, low, high):
        """A number near the usual one, or anywhere in its range; by the logarithm where all of it is over 0."""
        if self.decades is None:
            low, high = -1e6 if low is None else low, 1e6 if high is None else high
            if low > 0:
                return min(max(10 ** self.between(log10(low), log10(high)), low), high)
            sign = -1 if low < 0 and self.often(0.5) else 1
            return max(low, min(high, sign * 10 ** self.between(-4, log10(max(high, -low)))))
        value = usual * 10 ** self.between(-self.decades, self.decades) if self.decades else usual
        return min(max(value, value if low is None else low), value if high is None else high)


def draws(draw):
    """Draws from a seed that hypothesis gives."""
    return Draws(draw, Random(draw(st.integers(0, 2**64 - 1))))  # noqa: S311 - jobs, not secrets


# what a key may hold --------------------------------------------------------------------------------------------------


def quantity(d, kind, low, high, usual):
    """A quantity of a kind as a job file holds it, in one of the units that may stand, at times with its tolerance."""
    base, example, spellings = units.KINDS[kind]
    usual = units.read(usual if isinstance(usual, str) else example, kind)[0]
    value = d.near(usual * {"length": d.scale, "volume": d.scale**3}.get(kind, 1.0), low, high)
    others = spellings.split(", ") if ", " in spellings else spellings.split()
    unit = d.pick(others) if d.often(0.2) else base
    zero, one = (units.convert(v, unit, kind) for v in (0.0, 1.0))
    written = (value - zero) / (one - zero)
    text = f"{decimal(written)} {unit}"
    return f"{text} ± {decimal(abs(written) * d.between(0.0001, 0.02))} {unit}" if d.often(0.1) else text


def decimal(value):
    """A number to six figures, without an exponent."""
    return f"{value:.{max(0, 5 - floor(log10(abs(value) or 1)))}f}"


@cache
def threads():
    """Every thread of the tables: its nominal diameter [mm] and how it is written."""
    metric = [(d, f"M{d:g}x{p:g}") for d, pitches in tables.metric_pitches().items() for p in pitches]
    inch = [
        (nominal * units.INCH, f"{size} {series}" if series in ("BSW", "BSF") else f"{size}-{per_inch:g} {series}")
        for series in ("UNC", "UNF", "BSW", "BSF", "BSC")
        for size, (nominal, per_inch, _) in tables.inch_threads(series).items()
    ]
    return sorted([*metric, *inch, *((d, f"{n} BA") for n, (d, _) in tables.ba_threads().items())])


@cache
def has_nut(name):
    """Whether the nut that usually goes on a thread is listed, and its washer."""
    thread = read_thread(name)
    nut, washer = tables.USUAL[thread.family]
    try:
        tables.nut(nut, thread.nominal)
        tables.washer(washer, thread.nominal)
    except ValueError:
        return False
    return True


def thread_name(d, usual, of=None):
    """A listed thread: the usual one, one near its size, or any."""
    middle = read_thread(usual).nominal * d.scale
    reach = 9 if d.decades is None else 0.03 + d.decades
    near = [name for size, name in threads() if abs(log10(size / middle)) <= reach and (of is None or name in of)]
    name = d.pick(near or of or [name for _, name in threads()])
    return f"{name} LH" if d.often(0.05) else name


def thread_length(d, high_multiple, high_mm):
    """A thread length in millimetres, or in diameters."""
    if d.often(0.5):
        return f"{d.near(15.0 * d.scale, 0.1, high_mm):.3f} mm"
    return f"{d.near(1.8, 0.1, high_multiple):.3f} d"


def read_by(d, reads, usual):
    """What one of our own readers takes: its range stands in the reader itself."""
    held = inspect.getclosurevars(reads.parse).nonlocals
    if "kind" in held:
        return quantity(d, held["kind"], held["low"], held["high"], usual)
    if "high_multiple" in held:
        return thread_length(d, held["high_multiple"], held["high_mm"])
    if "high" in held:
        return d.near(usual if isinstance(usual, int | float) else held["high"] / 2, held["low"], held["high"])
    if reads.parse is _of_corner:
        return quantity(d, "length", -2000.0, 2000.0, usual)
    if reads.parse is read_thread:
        return thread_name(d, usual)
    return by_schema(d, reads.schema)


def by_schema(d, schema):
    """What a reader of words and numbers takes, by its schema: a constant, a whole number, one of its examples."""
    if "anyOf" in schema:
        return by_schema(d, d.pick(schema["anyOf"]))
    if "const" in schema:
        return schema["const"]
    if schema["type"] == "integer":
        return d.pick(range(schema["minimum"], min(schema["maximum"], schema["minimum"] + 5) + 1))
    return d.pick(schema["examples"])


HOSTILE_WORDS = (
    "Kurbelgehäuse Ø 57 → 58", "</script><script>alert(1)</script>", "=1+1", "../../etc/passwd", "<b>&amp;'\"", "%s %n {0} ${x} `id`",
    "\\n\\X2\\00E4\\X0\\", "{{ 7*7 }}", "a" * 60, "'); DROP TABLE holes;--", "%%EOF", "]]>", "ENDSEC;",
)  # fmt: skip


UNDRAWN_WORDS = ("Kurbelgehäuse 🔩", "ﷺ", "\u202edrow", "冷却")
"""whose letters the sheets' font lacks"""
DRAWN = st.sampled_from(
    [c for some in LETTERS for c in map(chr, some) if unicodedata.category(c) not in ("Cc", "Cf", "Cn", "Zl", "Zp")]
)


def words(d):
    """What a text may be, or what it should not be taken for."""
    if d.often(0.01):
        return d.pick(UNDRAWN_WORDS)
    if d.often(0.5):
        return d.pick(HOSTILE_WORDS)
    return d.draw(st.text(DRAWN, min_size=1, max_size=40))


def limits_of(metadata):
    """What the metadata of an annotation say of length, ends and pattern."""
    flat = [m for one in metadata for m in (one.metadata if isinstance(one, FieldInfo) else [one])]
    names = ("ge", "le", "min_length", "max_length", "pattern")
    return {n: getattr(m, n) for m in flat for n in names if getattr(m, n, None) is not None}


def held_by(d, annotation, usual, metadata=()):
    """A value for an annotation."""
    if get_origin(annotation) is Annotated:
        inner, *more = get_args(annotation)
        return held_by(d, inner, usual, (*metadata, *more))
    reads = next((m for m in metadata if isinstance(m, Reads)), None)
    if reads is not None:
        return read_by(d, reads, usual)
    limits, inner = limits_of(metadata), [a for a in get_args(annotation) if a is not type(None)]
    if get_origin(annotation) is Literal:
        return usual if usual in inner and not d.often(0.4) else d.pick(inner)
    if get_origin(annotation) is list:
        usual = usual if isinstance(usual, list) and usual else [None]
        low, high = limits.get("min_length", 0), limits.get("max_length", 12)
        count = len(usual) if low <= len(usual) <= high and d.often(0.7) else d.chance.randint(low, min(high, low + 4))
        return [held_by(d, inner[0], usual[n % len(usual)]) for n in range(count)]
    if inner:  # a union with None
        return held_by(d, inner[0], usual, metadata)
    if annotation is bool:
        return usual if isinstance(usual, bool) and not d.often(0.3) else d.often(0.5)
    if annotation is int:
        low, high = limits.get("ge", -9), limits.get("le", 9)
        return d.chance.randint(low, high if d.decades is None else min(high, low + 6))
    if annotation is str:
        return d.draw(st.from_regex(limits["pattern"], fullmatch=True)) if "pattern" in limits else words(d)
    return table(d, annotation, usual)


# tables ---------------------------------------------------------------------------------------------------------------


def table(d, model, usual):
    """One table of a job file."""
    if model in (MaterialSpec, Nut, Washer):
        return named(d, model, usual)
    return keys(d, model, usual if isinstance(usual, dict) else {})


def named(d, model, usual):
    """A material, nut or washer: mostly by its name, at times with its values."""
    if model is MaterialSpec:
        names = tables.material_names()
    else:
        grades = ("", "class 8", "class 10", "grade 5", "300 HV", "200 HV", "type A narrow")
        names = [
            f"{standard} {grade}" for standard in (tables.NUTS if model is Nut else tables.WASHERS) for grade in grades
        ]
    name = usual if isinstance(usual, str) and not d.often(0.1) else d.pick(names)
    if d.often(0.8):
        return name
    values = {k: v for k, v in keys(d, model, {}, 0.7).items() if k != "name"}
    own = d.often(0.5) and bool(values)
    if not own and not d.often(0.1):
        values.pop("family", None)  # the table has it: another is refused
    return {"name": words(d) if own else name, **values}


def keys(d, model, usual, sometimes=0.3):
    """Keys of one table: those it needs, mostly those the worked job has, some of the others."""
    fields = dict(model.model_fields)
    if model in ONE_OF:
        forms = ONE_OF[model]
        form = next((f for f in forms if f[0] in usual), forms[0])
        form = d.pick(forms) if d.often(0.3) else form
        usual = {
            k: v
            for k, v in {**FORM, **({"circle": "112 mm"} if model is Outline else {}), **usual}.items()
            if k in form or k not in {k for f in forms for k in f}
        }
        fields = {k: f for k, f in fields.items() if k in usual or not any(k in f for f in forms)}
        others = BESIDE + ("points", "lobes", "corner", "turned") * (model is Passage)
        fields = {k: f for k, f in fields.items() if k not in others}
    out = {}
    for key, field in fields.items():
        must = field.is_required() or any(key in form for form in ONE_OF.get(model, ()))
        if must or d.often(0.93 if key in usual else sometimes):
            example = usual.get(key, _example(field))
            out[key] = held_by(d, field.annotation, example, tuple(field.metadata))
    return out


FORM = {  # what belongs to a form of a pattern or an outline where the worked job has another
    "circle": "84 mm", "count": 4, "first": "45 deg", "rectangle": ["60 mm", "58 mm"], "turned": "0 deg", "corner": "8 mm",
    "points": [["60 mm", "40 mm"], ["0 mm", "75 mm"], ["-60 mm", "40 mm"], ["-55 mm", "-50 mm"], ["55 mm", "-50 mm"]],
    "lobes": [["48 mm", "36 mm", "14 mm"], ["-48 mm", "36 mm", "14 mm"], ["0 mm", "-60 mm", "16 mm"]], "slot": ["6 mm", "9 mm"],
    "passage": "breather", "hole": "8.50 mm", "thickness": "1.20 mm", "wanted_squish": "1.2 mm", "wanted_ratio": 6.5,
}  # fmt: skip


def _example(field):
    extra = field.json_schema_extra
    return extra.get("example") if isinstance(extra, dict) else None


# jobs -----------------------------------------------------------------------------------------------------------------


@cache
def worked():
    """The worked job as data."""
    return tomllib.loads(demo_text())


SELDOM = {"base": 0.3, "fixtures": 0.2, **dict.fromkeys(FIXTURES, 0.3), "clamp_plate": 0.96}
DECADES = (0.0, 0.0, 0.001, 0.002, 0.004, 0.004, 0.01, 0.01, 0.02, 0.04, 0.15, 0.5, None)


@st.composite
def jobs(draw, decades=DECADES):
    """A job that may be right: any of the tables, with values spread round those of the worked job."""
    d = draws(draw)
    d = replace(d, scale=10 ** d.between(-0.25, 0.25) if d.often(0.7) else 1.0, decades=d.pick(decades))
    out = {
        name: table(d, model, worked().get(name, {}))
        for name, model in TABLES.items()
        if d.often(SELDOM.get(name, 0.96))
    }
    if d.often(0.9):
        _fitted(d, out)
    if d.often(0.35):
        _listed(d, out)
    return out


NAMES = ("front", "rear", "Long ones", "Größe 2", "2nd", "top", "a" * 40)
UNFIT = ("length", "nut", "2", "", "--", "Front", "washer", "ä" * 41)


def _listed(d, job):
    """Put lists in the place of plain tables: studs with the holes split among them, plugs, rings and mandrels, old holes."""
    for name in [n for n in ("stud", "plug", "ring") if n in job and d.often(0.7)]:
        {"stud": _studs, "plug": _plugs, "ring": _rings}[name](d, job)
    old = job.get("barrel", {}).get("old_holes")
    if old and d.often(0.5):
        more = [held_by(d, OldHoles, worked()["barrel"]["old_holes"]) for _ in range(d.pick((0, 1, 2)))]
        job["barrel"]["old_holes"] = [old, *more]
        if d.often(0.9):
            job.get("measured", {}).pop("old", None)


def _entries(d, job, name, count):
    """Entries of a list: the plain table, and others like it or drawn anew; mostly each with a name of its own."""
    plain, names = job[name], d.chance.sample(NAMES, count)
    like = [plain, *({**plain} if d.often(0.6) else table(d, LISTS[name], worked()[name]) for _ in range(count - 1))]
    job[name] = [{**one, NAMED_BY[name]: own} for one, own in zip(like, names, strict=True)]
    if d.often(0.1):
        d.pick(job[name])[NAMED_BY[name]] = d.pick(UNFIT)
    return job[name]


def _studs(d, job):
    listed = _entries(d, job, "stud", d.pick((1, 2, 2, 3)))
    holes = job.get("head", {}).get("holes", {})
    count = holes.get("count") or len(holes.get("points", ())) or 4
    for number, one in enumerate(listed):
        one["holes"] = [n for n in range(1, count + 1) if n % len(listed) == number] or [count + 1]
        if "head_thickness" not in one and d.often(0.5):
            one["head_thickness"] = quantity(d, "length", 1, 300, "46 mm")
        _bolted(d, one)
    if d.often(0.1):
        d.pick(listed)["holes"] = [d.pick(range(6)) for _ in range(3)]


def _plugs(d, job):
    passages = job.get("barrel", {}).get("passages", [])[: len(NAMES)]
    for passage, name in zip(passages, NAMES, strict=False):
        passage["name"] = name if d.often(0.9) else passage["name"]
    names = [p["name"] for p in passages]
    listed = _entries(d, job, "plug", min(max(len(names), 1), len(NAMES)))
    for one, name in zip(listed, names, strict=False):
        one["passage"] = name
        one.pop("hole", None)


def _rings(d, job):
    mandrel, first = job.pop("mandrel", None), {"groove": worked()["ring"]["groove"], **job["ring"]}
    listed = _entries(d, job, "ring", d.pick((1, 2, 3)))
    for one in listed:
        one |= {key: first[key] for key in ("groove", "piston_diameter") if key in first and d.often(0.95)}
    if mandrel:
        with_one = [one for one in listed if d.often(0.7)]
        job["mandrel"] = [{**mandrel, "ring": one["name"]} for one in with_one] or [{**mandrel, "ring": "none"}]


def _with_work_to_hold(job):
    """Take out the fixtures that hold work which the job does not have."""
    for name, fixture in FIXTURES.items():
        if not job.keys() >= {*fixture.beside}:
            job.pop(name, None)
            job.pop("fixtures", None)


def _fitted(d, job):
    """Put right what chance rarely does: what belongs together, readings of the bore, a nut for the thread, passages apart."""
    _with_work_to_hold(job)
    if "ring" in job or "mandrel" in job:
        for name in ("engine", "ring"):
            job[name] = job.get(name) or table(d, TABLES[name], worked()[name])
    if "stud" in job:
        _bolted(d, job["stud"])
    _held_down(d, job)
    _measured(d, job.get("measured", {}))
    engine, ring, plug, barrel = (
        job.setdefault(n, {}) if n in job else {} for n in ("engine", "ring", "plug", "barrel")
    )
    bore = units.read(engine.get("bore", "57.20 mm"), "length")[0]
    if "bore_readings" in engine:
        engine["bore_readings"] = [[f"{bore + d.between(-0.05, 0.05):.4f} mm" for _ in range(2)] for _ in range(3)]
    if "piston_diameter" in ring:
        ring["piston_diameter"] = f"{bore * 0.998:.4f} mm"
    for n, passage in enumerate(barrel.get("passages", [])):
        radius, turn = 0.73 * bore, radians(d.pick((0, 90, 180, 270)) + 4 * n)
        passage["at"] = [f"{radius * cos(turn):.4f} mm", f"{radius * sin(turn):.4f} mm"]
        passage["name"] = passage["name"][:50] + (f" {n}" if n else "")
    if "passage" in plug:
        names = [p["name"] for p in barrel.get("passages", [])]
        if names:
            plug["passage"] = d.pick(names)
        else:
            plug["hole"] = f"{0.15 * bore:.4f} mm"
            del plug["passage"]


def _held_down(d, job):
    """A joint on the crankcase whose studs are given once, round the bore, in a flange that they go through."""
    base, bore = job.get("base"), units.read(job.get("engine", {}).get("bore", "57.20 mm"), "length")[0]
    if base is None:
        return
    base["through"] = through = bool(base.get("through")) and "head" in job and "stud" in job
    _sized(base, bore, {"mouth": 1.12, "wall": 1.2, "length": 1.6}, always=through)
    _sized(base.get("gasket", {}), bore, {"bore": 1.13, "outside": 1.5})
    if through:
        for key in ("stud", "holes", "flange_thickness", "flange_hole", "boss"):
            base.pop(key, None)
        return
    stud = base["stud"] = base.get("stud") or table(d, BaseStud, {})
    _bolted(d, stud)
    if stud.get("bolt"):
        stud["tap_end"] = stud["nut_end"]
    base["holes"] = {"circle": f"{bore * 1.7:.4f} mm", "count": 4}
    nominal = read_thread(stud["nut_end"]).nominal
    _sized(base, nominal, {"flange_hole": 1.1, "flange_thickness": 1.3, "boss": 2.4})


def _sized(given, of, shares, *, always=False):
    """Lengths that are there as shares of another; all of them where they must be."""
    given |= {key: f"{of * share:.4f} mm" for key, share in shares.items() if always or key in given}


def _measured(d, measured):
    """Readings that tell a pattern."""
    for pattern in [p for name, p in measured.items() if name in ("old", "new") and d.often(0.9)]:
        _read_off(d, pattern)
    if "machine" in measured and d.often(0.9):
        del measured["machine"]


def _read_off(d, pattern):
    """Readings that tell where the holes are: X and Y of the bore and of each."""
    places = [("bore", 0.0, 0.0), *((n, 40 * cos(1.1 + 1.5 * n), 40 * sin(1.1 + 1.5 * n)) for n in range(1, 5))]
    at = [(n, d.scale * x + d.between(-0.05, 0.05), d.scale * y) for n, x, y in places]
    readings = [{"hole": n, "at": [f"{x:.4f} mm", f"{y:.4f} mm"]} for n, x, y in at]
    pattern.clear()
    pattern |= {"form": "points", "count": 4, "readings": readings}


def _bolted(d, stud):
    """A nut end that a nut and a washer are made for, and those."""
    listed = [n for _, n in threads() if has_nut(n)]
    if not has_nut(stud["nut_end"]):
        stud["nut_end"] = d.pick(listed) if d.decades is None else thread_name(d, "M8x1.25", listed)
    nut, washer = tables.USUAL[read_thread(stud["nut_end"]).family]
    stud |= {"nut": nut, "washer": washer}
    for key in [k for k in ("nut", "washer") if d.often(0.2)]:
        stud.pop(key)


@cache
def sizes(job):
    """Every size of a job that [made] may name, with its value and unit."""
    _, book, _ = check(job)
    found = {n: (e.value, e.unit) for n, e in book.items() if not isinstance(e.value, list)}
    return found | {n.removesuffix(end): v for n, v in found.items() for end in LIMIT if n.endswith(end)}


@st.composite
def made(draw, job=None):
    """A [made] table: names of sizes and keys of a job, most with a value that could have been measured."""
    of = sizes(job or demo_text())
    d, out, names = draws(draw), {}, sorted(of)
    for _ in range(d.pick((1, 1, 2, 4))):
        name = d.pick(names)
        value, unit = of[name]
        measured = value * d.pick((1.0, d.between(0.97, 1.03), d.between(0.3, 3.0), -1.0, 0.0, 1e6))
        out[name] = measured if unit == "1" else f"{measured:.5f} {unit}"
        if d.often(0.2):
            out[name] = d.pick(WRONG)
        if d.often(0.1):
            out[name + d.pick(("s", ".x", " ", "_max"))] = out.pop(name)
    return out


# right text -----------------------------------------------------------------------------------------------------------


def toml_text(job, headers=True):
    """A job as TOML: tables inside tables under headers of their own, or inline."""
    lines = []
    for name, held in job.items():
        if isinstance(held, dict):
            lines += _under((name,), held, headers)
        elif headers and isinstance(held, list) and held and all(isinstance(one, dict) for one in held):
            lines += [line for one in held for line in _under((name,), one, headers, "[[%s]]")]
        else:
            lines.insert(0, f"{_key(name)} = {value(held)}")
    return "\n".join(lines) + "\n"


def _under(path, held, headers, header="[%s]"):
    inside = {
        k: v for k, v in held.items() if headers and isinstance(v, dict) and v and k not in ("material", "outline")
    }
    lines = [
        header % ".".join(map(_key, path)),
        *(f"{_key(k)} = {value(v)}" for k, v in held.items() if k not in inside),
        "",
    ]
    return lines + [line for k, v in inside.items() for line in _under((*path, k), v, headers)]


def _key(text):
    return text if text and all(c.isascii() and (c.isalnum() or c in "_-") for c in text) else _quoted(text)


def _quoted(text):
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


class Bare(str):
    """A value that stands in the file as it is: dates, nan, what TOML may not have."""

    __slots__ = ()


def value(held: Any) -> str:
    """One value as TOML."""
    if isinstance(held, Bare):
        return str(held)
    if isinstance(held, bool):
        return str(held).lower()
    if isinstance(held, dict):
        return "{ " + ", ".join(f"{_key(k)} = {value(v)}" for k, v in held.items()) + " }"
    if isinstance(held, list):
        return "[" + ", ".join(map(value, held)) + "]"
    return _quoted(held) if isinstance(held, str) else repr(held)


# nearly right ---------------------------------------------------------------------------------------------------------

WRONG = (
    "", " ", "nan mm", "inf mm", "-57 mm", "1e999 mm", "57,2 mm", "57.2", "mm", "57.2 bar", "57.2 kg", "0 mm", "1/0 mm", "1 2 3 mm",
    "57.2 mm ± 60 mm", "57.2 mm ± ", "± 1 mm", "0x10 mm", "57.2 MM", "57.2\u00a0mm", "５７ mm", "57.2 mm; rm -rf /", "9" * 5000 + " mm",
    "1/" + "9" * 400 + " mm", "x" * 9000, "5" + " " * 9000 + "mm", "\u202e57 mm", "a\nb", "\x1b[31m", "\x00", "'\"\\", "M999", "M8x9", "1/0 UNC",
    "99999 d", "-1 d", "0.0000000001 mm", "99999999999999999999999 mm", "None", "true", "../../x", "=cmd|' /C calc'!A0", "🔩", "none", "EN-GJL-250",
    0, -1, 1, 0.0, -0.5, 1e308, 5e-324, 10**30, -(10**30), True, False, Bare("nan"), Bare("inf"), Bare("-inf"), Bare("1979-05-27"),
    Bare("1979-05-27T07:32:00Z"), Bare("07:32:00"), Bare("0xffff"), Bare("1e400"), Bare("9" * 400), Bare("'''\nmany\nlines\n'''"), Bare("57.2 mm"),
    Bare("[" * 90 + "]" * 90), Bare("{ a = " * 60 + "1" + " }" * 60),
    [], {}, [[]], [""], {"": ""}, {"name": 5}, {"circle": "5 mm", "points": []}, [{"name": "x"}], {"value": "57.2 mm"}, ["1 mm", "1 mm"],
)  # fmt: skip


WRONG_KEYS = ("größe", "a.b", "", " ", "k" * 3000, "a\nb", "\u2028", "9" * 5000, "__class__", "0")


def places(held, path=()):
    """Path of every table, key and item below."""
    inside = held.items() if isinstance(held, dict) else enumerate(held) if isinstance(held, list) else ()
    for key, below in inside:
        yield (*path, key)
        yield from places(below, (*path, key))


@st.composite
def spoilt(draw, right):
    """A job with one to four things wrong with it."""
    d, job = draws(draw), deepcopy(draw(right))
    for _ in range(d.pick((1, 1, 1, 2, 4))):
        found = list(places(job))
        if not found:
            break
        *way, last = d.pick(found)
        place = job
        for step in way:
            place = place[step]
        if d.often(0.7) or not isinstance(last, str):
            place[last] = d.pick(WRONG)
        elif d.often(0.3):
            del place[last]
        else:
            name = d.pick((last.upper(), last + "s", last[1:], last.replace("_", "-"), *WRONG_KEYS))
            place[name] = place.pop(last) if d.often(0.5) else place[last]
    return job


@st.composite
def texts(draw, job, more=()):
    """The text of a job: inside tables under headers or inline; at times a key or a table twice."""
    d, held = draws(draw), draw(job)
    held = {**held, **{name: draw(table) for name, table in dict(more).items()}}
    text = toml_text(held, headers=d.often(0.5))
    if d.often(0.05):
        lines = text.split("\n")
        lines.insert(d.chance.randrange(len(lines)), d.pick(lines))
        text = "\n".join(lines)
    return text


# hostile text ---------------------------------------------------------------------------------------------------------

RUNS = ("[", "]", "{", "}", '"', "'", "#", " ", "\t", "\n", "\r", "=", ".", "a.", "[a.", "[[", "a = {", "0", "9", "\\", "\x00", "ä", "\u2028", "'''\n", '"""', "a=1\n", "[a]\n", "[[a]]\n", "-", "/", "1 ")  # fmt: skip
LONGEST = (1, 40, 3_000, 9_990, 60_000)


@st.composite
def hostile(draw):
    """Bytes that are no job file: the worked job cut, flipped, mixed, or filled with a run of something."""
    d, data = draws(draw), demo_text().encode()
    how, at = d.pick(("noise", "letters", "cut", "flipped", "ends", "run", "filled")), d.chance.randint(0, len(data))
    if how == "noise":
        return draw(st.binary(max_size=300))
    if how == "letters":
        return draw(st.text(max_size=300)).encode("utf-8", "surrogatepass")
    if how == "cut":
        return data[:at]
    if how == "flipped":
        flips = bytearray(data)
        for _ in range(d.pick((1, 2, 8))):
            flips[d.chance.randrange(len(data))] ^= 1 << d.pick(range(8))
        return bytes(flips)
    if how == "ends":
        end, every = d.pick((b"\r\n", b"\r", b"\n\r", b"\x0b", "\u2028".encode(), "\x85".encode())), d.pick((1, 2, 7))
        ended = b"".join(line + (b"\n" if n % every else end) for n, line in enumerate(data.split(b"\n")))
        return d.pick((b"", b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")) + ended
    run = (d.pick(RUNS) * d.pick(LONGEST)).encode()
    if how == "run":
        return data[:at] + run + data[at:]
    return d.pick((b"", b"a = ", b'a = "', b"[engine]\nbore = ", b"[made]\n")) + run

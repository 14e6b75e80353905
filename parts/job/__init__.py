"""The job file: read once, every fault told in one run, each with its line."""

from __future__ import annotations

import difflib
import json
import re
import tomllib
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel, ConfigDict, PrivateAttr, ValidationError

from parts.errors import Fault, JobError
from parts.fixtures import FIXTURES
from parts.job.across import RULES
from parts.job.base import Base
from parts.job.base_joint import base_instances
from parts.job.base_rules import BASE_RULES
from parts.job.designed import settled
from parts.job.fields import tables_in
from parts.job.fixture_models import Fixtures, FixtureTables, add_fixtures
from parts.job.headers import hidden
from parts.job.instances import LISTS, Instance, Instances, instances_of
from parts.job.lines import line_of, lines_of_keys
from parts.job.made import Made, MadeTable, put_in, read_made
from parts.job.measured_models import Measured
from parts.job.measured_rules import MEASURED_RULES
from parts.job.models import TAGS, Barrel, Engine, Head, JobHead, OldHoles
from parts.job.part_models import PartTables
from parts.job.shop_models import Lathe, Workshop
from parts.job.unknown import NotKnown, without_unknown
from parts.job_text import carried, with_drawings
from parts.units import shown

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Iterator, Mapping

    from parts.job.lines import Path as KeyPath
    from parts.tables.unknown import Range

    Lines = dict[KeyPath, int]

MAKE = ("fixtures", "make")
LONGEST_LINE = 10_000  # characters; the outline of most points takes some six thousand
PART_TABLES = (*PartTables.model_fields, *FixtureTables.model_fields)


class CastingTables(BaseModel):
    """The tables about what is there."""

    job: JobHead = JobHead()
    engine: Engine | None = None
    barrel: Barrel | None = None
    head: Head | None = None
    base: Base | None = None
    measured: Measured | None = None


class Job(FixtureTables, PartTables, CastingTables):
    """One job: any subset of its tables; castings, parts, fixtures, then these."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    fixtures: Fixtures | None = None
    lathe: Lathe | None = None
    workshop: Workshop | None = None
    made: MadeTable | None = None
    _as_made: Job | None = PrivateAttr(default=None)
    _instances: Instances = PrivateAttr(default_factory=dict)
    _seen_by: Instance | None = PrivateAttr(default=None)
    _data: dict[str, Any] = PrivateAttr(default_factory=dict)
    _unknown: NotKnown = PrivateAttr(default_factory=NotKnown)

    @property
    def unknown(self) -> dict[KeyPath, Range]:
        """What is not known and has a usual range, by its place in the file."""
        return self._unknown.ranges

    @property
    def absent(self) -> dict[str, str]:
        """Keys that are not known and have no usual range, and how each is measured."""
        return {self.in_the_book(path): says for path, says in self._unknown.absent.items()}

    @property
    def data(self) -> dict[str, Any]:
        """The file's data, with ranges in the place of what is not known."""
        return self._data

    def in_the_book(self, path: KeyPath) -> str:
        """Key at a place in the file, as the book and `[made]` name it: one of a list by its name."""
        for one in self.named():
            if len(path) > 1 and one.places.get(str(path[0])) == path[1]:
                return dotted((path[0], one.name, *path[2:]))
        return dotted(path)

    @property
    def seen_by(self) -> Instance | None:
        """The instance that the job's tables are as seen by."""
        return self._seen_by

    @property
    def as_made(self) -> Job | None:
        """The job with its own values as they came out, where any were measured."""
        return self._as_made

    @property
    def old(self) -> OldHoles | None:
        """The old holes, where one table tells of them all."""
        old = self.barrel.old_holes if self.barrel else None
        return old if isinstance(old, OldHoles) else None

    def instances(self, kind: str) -> tuple[Instance, ...]:
        """Studs, plugs, rings with their mandrels, or old holes of one size: none, the plain table's, or a list's."""
        private = self.__pydantic_private__ or {}  # asked for so often that pydantic's own way to it counts
        found: Instances = private["_instances"]
        return found.get(kind, ())

    def of_hole(self, hole: int, name: str) -> str:
        """Name in the whole book of a size that the stud of a new hole has its own of."""
        studs = self.instances("stud")
        return next((one.real(name) for one in studs if one.holes is None or hole in one.holes), name)

    def whole(self) -> str:
        """All that stands in the file, as text: to tell two jobs apart."""
        listed = [(one.name, one.tables) for one in self.named()]
        return repr(self) + (repr(listed) if listed else "")

    def others(self, tables: Iterable[str]) -> list[object]:
        """Tables of instances that stand in lists, of those named."""
        own = [(one.name, {n: t for n, t in one.tables.items() if n in tables}) for one in self.named()]
        return [(name, there) for name, there in own if there]

    def named(self) -> list[Instance]:
        """All that bear a name: those of lists, and the joint on the crankcase."""
        return [one for many in self._instances.values() for one in many if one.name]

    def listed(self, kind: str) -> bool:
        """Whether the instances of a kind stand in a list, each with its name."""
        return any(one.name for one in self.instances(kind))

    def at(self, instance: Instance) -> Job:
        """The job as if an instance were the plain one of its kind, and the only one."""
        if not instance.name:
            return self
        instance = next((i for i in self.instances(instance.kind) if i.name == instance.name), instance)
        job = self.with_tables(*instance.among(dict(self)))
        job._seen_by = instance  # noqa: SLF001 - its own
        return job

    def with_tables(self, changed: Mapping[str, Any], instances: Instances | None = None) -> Job:
        """The job with other tables, and for some kinds other instances."""
        job = self.model_copy(update=dict(changed))
        job._instances = {**self._instances, **(instances or {})}  # noqa: SLF001 - its own
        return job


def built(found: dict[str, Any], instances: Instances) -> Job:
    """Put a job together from its tables; one that is a list stands with its instances alone."""
    job = Job.model_construct(**{n: t for n, t in found.items() if not (n in LISTS and isinstance(t, list))})
    job._instances = instances  # noqa: SLF001 - its own
    return job


TABLES: dict[str, type[BaseModel]] = {
    name: next(tables_in(field.annotation)) for name, field in Job.model_fields.items() if name != "made"
}


def load(text: str) -> Job:
    """Read a job from the text of its file.

    Raises
    ------
    JobError
        With every fault that was found, in the order of their lines.
    """
    plain = text.removeprefix("\ufeff")  # what some editors write before the first letter
    causes = hidden(plain, _keys_of)
    try:
        raw = read_data(text)  # first: it refuses what would keep the others busy for minutes
        job = load_data(raw, at=lines_of_keys(plain))
    except JobError as error:
        others = [fault for fault in error.faults if fault.line not in causes]
        raise JobError(*sorted([*dict.fromkeys(causes.values()), *others], key=lambda f: f.line or 0)) from None
    if causes:
        raise JobError(*dict.fromkeys(causes.values()))
    return job


def _keys_of(table: str) -> Collection[str]:
    """Keys of a table, by its dotted name; none where there is no such table."""
    first, *steps = table.split(".")
    models = [tables[first] for tables in (TABLES, LISTS) if first in tables]
    for step in steps:
        fields = [model.model_fields[step] for model in models if step in model.model_fields]
        models = [inner for field in fields for inner in tables_in(field.annotation)]
    return {key for model in models for key in model.model_fields}


def load_data(
    raw: dict[str, Any],
    *,
    kept: Mapping[str, Any] | None = None,
    at: Lines | None = None,
) -> Job:
    """Read a job from the data of its file.

    Parameters
    ----------
    raw : dict
        As the TOML parser gave it
    kept : mapping, optional
        Tables that were read before and are as they were
    at : dict, optional
        Line of each key

    Raises
    ------
    JobError
        With every fault that was found, in the order of their lines.
    """
    kept, at = kept or {}, at or {}
    data, unknown = known(raw, kept)
    found, instances, faults = _read(data, kept)
    faults = [unknown.lacking(path, says) for path, says in faults if path not in dict(unknown.faults)]
    faults += unknown.faults
    if not found and not faults:
        raise JobError(Fault("", "the job file is empty: topend new FILE writes one with a comment on every key"))
    made = found.get("made")
    as_made: Job | None = None
    if made is not None and not faults:
        as_made, lost = _as_made(data, made, instances)
        found["made"] = replace(made, faults=_at(lost, at))
    if faults:
        raise JobError(*_at(faults, at))
    job = built(found, instances)
    job._as_made, job._data, job._unknown = as_made, data, unknown  # noqa: SLF001 - its own
    return job


def known(raw: dict[str, Any], kept: Iterable[str] = ()) -> tuple[dict[str, Any], NotKnown]:
    """Data of a job file with ranges in the place of what is not known, but for the tables that are kept; and that."""
    models = {n: LISTS[n] if n in LISTS and isinstance(table, list) else TABLES.get(n) for n, table in raw.items()}
    return without_unknown(raw, {name: model for name, model in models.items() if name not in kept})


def _at(faults: list[tuple[KeyPath, str]], at: dict[KeyPath, int]) -> tuple[Fault, ...]:
    """Faults with their lines, in that order, each once."""
    told = {(path, says): Fault(dotted(path), says, line_of(path, at)) for path, says in faults}
    return tuple(sorted(told.values(), key=lambda f: f.line or 0))


def _read(raw: dict[str, Any], kept: Mapping[str, Any]) -> tuple[dict[str, Any], Instances, list[tuple[KeyPath, str]]]:
    """Read all tables but those that are kept, tell instances apart, and hold all against the rules between tables."""
    found, faults = read_tables({name: table for name, table in raw.items() if name not in kept})
    found |= kept
    found |= settled(found)
    broken = raw.keys() - found.keys()
    faults += add_fixtures(found, broken)
    instances, wrong = instances_of(found, broken)
    instances |= base_instances(found)
    faults += wrong
    for scene, path in _scenes(found, instances):
        for needs, looks_at, rule in (*RULES, *BASE_RULES, *MEASURED_RULES):
            if all(n in scene for n in needs) and broken.isdisjoint(looks_at):
                faults += [(path(place), says) for place, says in rule(scene)]
    return found, instances, faults


def _scenes(
    found: dict[str, Any], instances: Instances
) -> Iterator[tuple[dict[str, Any], Callable[[KeyPath], KeyPath]]]:
    """The tables as they are, and for each instance of a list as if it were the only one; and where its keys stand."""
    listed = [one for many in instances.values() for one in many if one.listed]
    plain = {n: table for n, table in found.items() if not isinstance(table, list)}
    if isinstance(found.get("ring"), list):
        plain.pop("mandrel", None)  # told of already: it does not say which ring it is for
    plain["old"] = [one.tables["old_holes"] for one in instances["old"]]
    barrel = plain.get("barrel")
    if barrel is not None and isinstance(barrel.old_holes, list):
        plain["barrel"] = barrel.model_copy(update={"old_holes": None})
    yield plain, lambda path: path
    for one in listed:
        own = {n: table for n, table in one.tables.items() if n in PART_TABLES}
        if one.kind == "old" and barrel is not None:
            own["barrel"] = barrel.model_copy(update=one.tables)
        yield {**plain, **own}, one.path


def _as_made(raw: dict[str, Any], made: Made, instances: Instances) -> tuple[Job, list[tuple[KeyPath, str]]]:
    """Read the job again with its own values as they came out."""
    givens = {_numbered(key, instances): value for key, value in made.givens().items()}
    at = {_numbered(key, instances): made.at[f"job.{key}"] for key in made.givens()}
    changed, lost = put_in({name: table for name, table in raw.items() if name != "made"}, givens)
    found, again, faults = _read(changed, {})
    where = {("job", *key.split(".")): place for key, place in at.items()}
    faults = [(where.get(("job", *map(str, path)), ("made",)), f"{dotted(path)} {says}") for path, says in faults]
    return built(found, again), [(at[key], says) for key, says in lost] + faults


def _numbered(key: str, instances: Instances) -> str:
    """A key of a list's entry by its number: `stud.front.shank` is `stud.0.shank`."""
    for one in (one for many in instances.values() for one in many if one.listed):
        local = one.local(f"job.{key}")
        if local != f"job.{key}":
            return dotted(one.path(tuple(local.removeprefix("job.").split("."))))
    return key


def at_their_lines(faults: Iterable[Fault], text: str) -> list[Fault]:
    """Give faults that were found while sizing and shaping the line of their key, and put them in that order."""
    at = lines_of_keys(text.removeprefix("\ufeff"))
    return sorted((f if f.line else _at_its_line(f, at) for f in faults), key=lambda f: f.line or 0)


def _at_its_line(fault: Fault, at: dict[KeyPath, int]) -> Fault:
    """The fault with the line of its key; of a fixture that has no table, that of the list which asks for it."""
    line, table = _line(fault.key, at), fault.key.partition(".")[0]
    if line or table not in FIXTURES:
        return replace(fault, line=line)
    return Fault(".".join(MAKE), f"asks for a {table.replace('_', ' ')} that {fault.says}", line_of(MAKE, at))


def _line(key: str, at: dict[KeyPath, int]) -> int | None:
    """Line of a dotted key; a name in [made] may stand there whole, in quotes."""
    steps = tuple(map(_step, key.split(".")))
    return at.get(("made", key.removeprefix("made."))) or line_of(steps, at)


def _step(part: str) -> str | int:
    return int(part) if part.isdecimal() else part


def read_data(text: str) -> dict[str, Any]:
    """Read the data of a job file's text, with what its drawings hold; JobError where it is not TOML."""
    return with_drawings(read_toml(text.removeprefix("\ufeff")), text)  # type: ignore[no-any-return]


def read_toml(text: str) -> dict[str, Any]:
    """Read the data of a job file's text; JobError where it is not TOML."""
    for number, line in enumerate(text.split("\n"), 1):  # the standard parser takes minutes over a key of many dots
        if len(line) > LONGEST_LINE:
            raise JobError(
                Fault("", f"line {number} is too long: it has {len(line)} characters of {LONGEST_LINE}", number)
            )
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        place = re.search(r"line (\d+)", str(error))
        says = re.sub(r" \(at (line \d+, column \d+|end of document)\)", "", str(error))
        says = re.sub(r"\((('[^']*',? ?)+)\)", lambda found: re.sub("',? ?'?", ".", found[1]).strip("."), says)
        raise JobError(
            Fault("", f"is not TOML{f' at line {place[1]}' if place else ''}: {says}", int(place[1]) if place else None)
        ) from None
    except (RecursionError, ValueError):
        raise JobError(
            Fault("", "is not TOML that can be read: it is nested too deep, or holds a number out of all range")
        ) from None


def read_tables(raw: dict[str, Any]) -> tuple[dict[str, Any], list[tuple[KeyPath, str]]]:
    """Read each table by its own model: those that could be, and every fault of the others."""
    drawn = carried(raw)
    found: dict[str, Any] = {}
    faults: list[tuple[KeyPath, str]] = []
    for name, table in raw.items():
        if name == "made":
            try:
                found[name] = made = read_made(table)
                faults += made.wrong
            except ValueError as error:
                faults.append(((name,), str(error)))
            continue
        model = TABLES.get(name)
        if model is None:
            faults.append(((name,), f"is not a table of a job file{nearest(name, list(Job.model_fields))}"))
            continue
        if name in LISTS and isinstance(table, list) and table and all(isinstance(one, dict) for one in table):
            read = [_table(LISTS[name], one, (name, n), faults, drawn) for n, one in enumerate(table)]
            found |= {name: read} if None not in read else {}
        elif (one := _table(model, table, (name,), faults, drawn)) is not None:
            found[name] = one
    return found, faults


def _table(
    model: type[BaseModel], table: object, at: KeyPath, faults: list[tuple[KeyPath, str]], drawn: Mapping[str, bytes]
) -> BaseModel | None:
    """Read one table by its model; None where it has faults."""
    try:
        return model.model_validate(table, context=drawn)
    except ValidationError as error:
        faults += [((*at, *_place(e["loc"])), _said(model, e)) for e in error.errors(include_url=False)]
    except RecursionError:
        faults.append((at, "is nested too deep"))
    return None


def dotted(path: KeyPath) -> str:
    """Join a path as the contract names keys: `barrel.passages.0.diameter`."""
    return ".".join(shown(str(p))[1:-1] or '""' for p in path)


def _place(loc: KeyPath) -> KeyPath:
    return tuple(p for p in loc if not (isinstance(p, str) and (p.startswith("function-") or p in TAGS)))


def nearest(name: str, known: list[str]) -> str:
    """Ask whether a known name was meant; where none is near, name them."""
    near = difflib.get_close_matches(name[:60].lower(), known, 1, 0.5)
    return f"; did you mean {near[0]}?" if near else f"; known are {', '.join(known)}"


def _said(model: type[BaseModel], error: Any) -> str:  # noqa: ANN401 - pydantic's own error record
    kind, context, value = error["type"], error.get("ctx", {}), shown(error.get("input"))
    if kind == "extra_forbidden":
        return "is not a key here" + nearest(
            str(error["loc"][-1]), list(_model_at(model, error["loc"][:-1]).model_fields)
        )
    if kind == "missing":
        field = _model_at(model, error["loc"][:-1]).model_fields[str(error["loc"][-1])]
        extra = field.json_schema_extra if isinstance(field.json_schema_extra, dict) else {}
        return f"is missing: {field.description}, like {toml(extra.get('example'))}"
    says = {
        "value_error": str(error["msg"]).removeprefix("Value error, "),
        "literal_error": f"must be {context.get('expected', '')}, not {value}",
        "int_type": f"wants a whole number, not {value}",
        "bool_type": f"wants true or false, not {value}",
        "string_type": f"wants text in quotes, not {value}",
        "list_type": f"wants a list in square brackets, not {value}",
        "model_type": f"wants a table of keys, not {value}",
        "model_attributes_type": f"wants a table of keys, not {value}",
        "too_short": f"wants at least {context.get('min_length')} entries, not {context.get('actual_length')}",
        "too_long": f"wants at most {context.get('max_length')} entries, not {context.get('actual_length')}",
        "greater_than_equal": f"must be at least {context.get('ge')}, not {value}",
        "less_than_equal": f"must be at most {context.get('le')}, not {value}",
        "string_too_long": f"must have at most {context.get('max_length')} characters",
        "string_too_short": "must not be empty",
        "string_pattern_mismatch": f'is not of the form that is wanted, like "p6": {value}',
    }
    return says.get(kind, f"{error['msg'][:1].lower()}{error['msg'][1:]}, not {value}")


def _model_at(model: type[BaseModel], loc: KeyPath) -> type[BaseModel]:
    for step in loc:
        if isinstance(step, str) and step in model.model_fields:
            model = next(tables_in(model.model_fields[step].annotation), model)
    return model


def toml(value: object) -> str:
    r"""Write a value as the job file would hold it.

    >>> print(toml({"name": 'a "b"', "at": [1, True], "a.b": 0.5}))
    { name = "a \"b\"", at = [1, true], "a.b" = 0.5 }
    """
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return f"[{', '.join(map(toml, value))}]"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{toml_key(k)} = {toml(v)}" for k, v in value.items()) + " }" if value else "{}"
    return str(value) if isinstance(value, int | float) else _quoted(str(value))


def toml_key(key: str) -> str:
    """Write a key, in quotes where it needs them."""
    return key if re.fullmatch("[A-Za-z0-9_-]+", key) else _quoted(key)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


__all__ = ["PART_TABLES", "TABLES", "Fault", "Job", "JobError", "at_their_lines", "load"]

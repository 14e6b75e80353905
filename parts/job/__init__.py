"""The job file: read once, every fault told in one run, each with its line."""

from __future__ import annotations

import difflib
import re
import tomllib
from dataclasses import replace
from typing import TYPE_CHECKING, Any, get_args

from pydantic import BaseModel, ConfigDict, PrivateAttr, ValidationError

from parts.errors import Fault, JobError
from parts.job.across import RULES
from parts.job.lines import line_of, lines_of_keys
from parts.job.made import Made, MadeTable, put_in, read_made
from parts.job.measured_models import Measured
from parts.job.measured_rules import MEASURED_RULES
from parts.job.models import Barrel, Engine, Head, JobHead
from parts.job.part_models import Lathe, PartTables
from parts.units import shown

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from parts.job.lines import Path as KeyPath

    Lines = dict[KeyPath, int]

LONGEST_LINE = 10_000  # characters; the outline of most points takes some six thousand
PART_TABLES = tuple(PartTables.model_fields)


class CastingTables(BaseModel):
    """The tables about what is there."""

    job: JobHead = JobHead()
    engine: Engine | None = None
    barrel: Barrel | None = None
    head: Head | None = None
    measured: Measured | None = None


class Job(PartTables, CastingTables):
    """One job: any subset of its tables; castings, parts, then these."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    lathe: Lathe | None = None
    made: MadeTable | None = None
    _as_made: Job | None = PrivateAttr(default=None)

    @property
    def as_made(self) -> Job | None:
        """The job with its own values as they came out, where any were measured."""
        return self._as_made


TABLES: dict[str, type[BaseModel]] = {
    name: next(
        a for a in (field.annotation, *get_args(field.annotation)) if isinstance(a, type) and issubclass(a, BaseModel)
    )
    for name, field in Job.model_fields.items()
    if name != "made"
}


def load(text: str) -> Job:
    """Read a job from the text of its file.

    Raises
    ------
    JobError
        With every fault that was found, in the order of their lines.
    """
    text = text.removeprefix("\ufeff")  # what some editors write before the first letter
    raw = read_toml(text)  # first: it refuses what would keep the others busy for minutes
    return load_data(raw, at=lines_of_keys(text))


def load_data(raw: dict[str, Any], *, kept: Mapping[str, Any] | None = None, at: Lines | None = None) -> Job:
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
    found, faults = _read(raw, kept)
    if not found and not faults:
        raise JobError(Fault("", "the job file is empty: topend new FILE writes one with a comment on every key"))
    made = found.get("made")
    if made is not None and not faults:
        as_made, lost = _as_made(raw, made)
        found["made"] = replace(made, faults=_at(lost, at))
    if faults:
        raise JobError(*_at(faults, at))
    job = Job.model_construct(**found)
    if made is not None:
        job._as_made = Job.model_construct(**as_made)  # noqa: SLF001 - its own
    return job


def _at(faults: list[tuple[KeyPath, str]], at: dict[KeyPath, int]) -> tuple[Fault, ...]:
    """Faults with their lines, in that order, each once."""
    told = {(path, says): Fault(dotted(path), says, line_of(path, at)) for path, says in faults}
    return tuple(sorted(told.values(), key=lambda f: f.line or 0))


def _read(raw: dict[str, Any], kept: Mapping[str, Any]) -> tuple[dict[str, Any], list[tuple[KeyPath, str]]]:
    """Read all tables but those that are kept, and hold them against the rules between tables."""
    found, faults = read_tables({name: table for name, table in raw.items() if name not in kept})
    found |= kept
    broken = raw.keys() - found.keys()
    for needs, looks_at, rule in (*RULES, *MEASURED_RULES):
        if all(n in found for n in needs) and broken.isdisjoint(looks_at):
            faults += rule(found)
    return found, faults


def _as_made(raw: dict[str, Any], made: Made) -> tuple[dict[str, Any], list[tuple[KeyPath, str]]]:
    """Read the job again with its own values as they came out."""
    changed, lost = put_in({name: table for name, table in raw.items() if name != "made"}, made.givens())
    found, faults = _read(changed, {})
    where = {("job", *key.split(".")): made.at[f"job.{key}"] for key in made.givens()}
    faults = [(where.get(("job", *map(str, path)), ("made",)), f"{dotted(path)} {says}") for path, says in faults]
    return found, [(made.at[f"job.{key}"], says) for key, says in lost] + faults


def at_their_lines(faults: Iterable[Fault], text: str) -> list[Fault]:
    """Give faults that were found while sizing and shaping the line of their key, and put them in that order."""
    at = lines_of_keys(text.removeprefix("\ufeff"))
    placed = [f if f.line else replace(f, line=_line(f.key, at)) for f in faults]
    return sorted(placed, key=lambda f: f.line or 0)


def _line(key: str, at: dict[KeyPath, int]) -> int | None:
    """Line of a dotted key; a name in [made] may stand there whole, in quotes."""
    steps = tuple(map(_step, key.split(".")))
    return at.get(("made", key.removeprefix("made."))) or line_of(steps, at)


def _step(part: str) -> str | int:
    return int(part) if part.isdecimal() else part


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
        try:
            found[name] = model.model_validate(table)
        except ValidationError as error:
            faults += [((name, *_place(e["loc"])), _said(model, e)) for e in error.errors(include_url=False)]
        except RecursionError:
            faults.append(((name,), "is nested too deep"))
    return found, faults


def dotted(path: KeyPath) -> str:
    """Join a path as the contract names keys: `barrel.passages.0.diameter`."""
    return ".".join(shown(str(p))[1:-1] or '""' for p in path)


def _place(loc: KeyPath) -> KeyPath:
    return tuple(p for p in loc if not (isinstance(p, str) and p.startswith("function-")))


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
            model = next(_models(model.model_fields[step].annotation), model)
    return model


def _models(annotation: Any) -> Any:  # noqa: ANN401
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _models(inner)


def toml(value: object) -> str:
    """Write an example value as the job file would hold it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return f"[{', '.join(map(toml, value))}]"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{k} = {toml(v)}" for k, v in value.items()) + " }"
    return str(value) if isinstance(value, int | float) else f'"{value}"'


__all__ = ["PART_TABLES", "TABLES", "Fault", "Job", "JobError", "at_their_lines", "load"]

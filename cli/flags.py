"""A part's verb from the job's own models: one flag a key, read and refused by the same rules as in a job file."""

from __future__ import annotations

import inspect
import re
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from cli.make import Threads, write
from parts.errors import Fault, JobError
from parts.job import LONGEST_LINE, TABLES, read_toml, toml
from parts.job.schema import example_of, table_in
from parts.making.names import is_utf8
from parts.register import PARTS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from pydantic.fields import FieldInfo

    from parts.register import Part


EITHER = {"ring": ("groove", "axial_width", "radial_thickness")}
"""table of which nothing is needed by itself -> the key that is needed, or the two in its place"""


def part_verb(part: Part) -> Callable[..., int]:
    """Make the function of a part's verb: its flags become a job.toml that is then made."""
    if part.verb is None:
        raise AssertionError(f"{part.stem} has no verb")
    places: dict[str, tuple[str, ...]] = {}
    parameters = [_flag(name, path, field, places) for name, path, field in _flags(part.table, part.verb.keys)]
    into = Annotated[Path, typer.Option(help="Folder to write.")]
    units = Annotated[str, typer.Option(help='How sheets print: "metric" or "inch".')]
    verb_name = part.table.replace("_", "-")
    parameters += [_parameter("into", into, Path("outputs") / verb_name), _parameter("print_units", units, "metric")]
    stems = [one.stem for one in PARTS.values() if one.table == part.table]
    example = f"topend {verb_name} {part.verb.example}"

    if part.threaded:
        parameters.append(_parameter("threads", Threads, "simplified"))

    def verb(into: Path, print_units: str, threads: str = "simplified", **given: str | None) -> int:
        values = {places[flag]: text for flag, text in given.items() if text is not None}
        with _told_by_flag(places, "" if values else example):
            return write(job_text(part.table, values, print_units), into, stems, threads)

    verb.__signature__ = inspect.Signature(parameters, return_annotation=int)  # type: ignore[attr-defined]
    verb.__annotations__ = {p.name: p.annotation for p in parameters}
    verb.__doc__ = f"Make one {part.title} from flags alone; quantities as in a job file.\n\nExample: {example}"
    return verb


def _parameter(name: str, annotation: Any, default: object) -> inspect.Parameter:  # noqa: ANN401
    return inspect.Parameter(name, inspect.Parameter.KEYWORD_ONLY, default=default, annotation=annotation)


def _flags(table_name: str, others: Mapping[str, tuple[str, ...]]) -> list[tuple[str, tuple[str, ...], FieldInfo]]:
    """Name, place in the job file and field of each flag: a key of another table bears its table's name."""
    out: list[tuple[str, tuple[str, ...], FieldInfo]] = []
    for table, wanted in {table_name: (), **others}.items():
        for key, field in TABLES[table].model_fields.items():
            if wanted and key not in wanted:
                continue
            inner = table_in(field)
            prefix = "" if table == table_name else f"{table}_"
            if inner is not None and example_of(field) == {}:
                out += [(f"{prefix}{key}_{k}", (table, key, k), f) for k, f in inner.model_fields.items()]
            else:
                out.append((f"{prefix}{key}", (table, key), field))
    return out


def _flag(name: str, path: tuple[str, ...], field: FieldInfo, places: dict[str, tuple[str, ...]]) -> inspect.Parameter:
    places[name] = path
    shown = toml(example_of(field)).strip('"')
    note = Annotated[str | None, typer.Option(help=f"{field.description}, like {shown}", show_default=False)]
    return _parameter(name, note, None)


@contextmanager
def _told_by_flag(places: dict[str, tuple[str, ...]], example: str = "") -> Iterator[None]:
    """Give the faults of a job that was never a file the names of the flags that their keys were given by."""
    flags = {".".join(path): f"--{flag.replace('_', '-')}" for flag, path in places.items()}
    flags |= {"job.print_units": "--print-units"}
    try:
        yield
    except JobError as error:
        told = [Fault(_flag_of(fault.key, flags), _in_flags(fault.says, flags)) for fault in error.faults]
        raise JobError(*told, *([Fault("", f"for example: {example}")] if example else [])) from None


def _in_flags(says: str, flags: dict[str, str]) -> str:
    """A sentence that names flags where it named keys, and for a table those of its flags that are needed."""
    says = re.sub(r"\b[a-z_]+\.[a-z_.]+[a-z]\b", lambda key: flags.get(key[0], key[0]), says)
    return re.sub(r"\[([a-z_]+)\]", lambda table: _needed(table[1], flags) or table[0], says)


def _needed(table: str, flags: dict[str, str]) -> str:
    fields = TABLES[table].model_fields if table in TABLES else {}
    if table in EITHER:
        one, *both = (flags.get(f"{table}.{key}", "") for key in EITHER[table])
        return f"{one}, or {' and '.join(both)}" if one else " and ".join(both)
    return ", ".join(
        flags[f"{table}.{key}"] for key, f in fields.items() if f.is_required() and f"{table}.{key}" in flags
    )


def _flag_of(key: str, flags: dict[str, str]) -> str:
    """A key behind the flag that gives it, or what it stands in; else the key alone."""
    steps = key.split(".")
    found = (flags.get(".".join(steps[:n])) for n in range(len(steps), 0, -1))
    return next((f"{flag} ({key})" for flag in found if flag), key)


def job_text(part: str, values: dict[tuple[str, ...], str], print_units: str) -> str:
    """Write the job file that these flags stand for."""
    lines = ["[job]", f'title = "{part} from the command line"', f"print_units = {_quoted(print_units)}"]
    table = ""
    for path, text in [*values.items(), (("job", "print_units"), print_units)]:
        if not is_utf8(text):
            raise JobError(Fault(".".join(path), "is no UTF-8 text"))
    if not any(path[0] == part for path in values):
        lines += ["", f"[{part}]"]
    for path, text in sorted(values.items(), key=lambda item: item[0][:-1]):
        if (name := ".".join(path[:-1])) != table:
            table = name
            lines += ["", f"[{table}]"]
        lines.append(f"{path[-1]} = {_written(path, text)}")
        if len(lines[-1]) > LONGEST_LINE:
            raise JobError(Fault(".".join(path), f"is too long: {len(text)} characters"))
    return "\n".join(lines) + "\n"


def _written(path: tuple[str, ...], text: str) -> str:
    """Write a flag's text as TOML: a table, a list or a bare word where the key holds one, else a quoted text."""
    field = TABLES[path[0]].model_fields[path[1]]
    if len(path) > 2:  # noqa: PLR2004
        inner = table_in(field)
        field = inner.model_fields[path[2]] if inner else field
    line, bare = text.replace("\n", " "), isinstance(example_of(field), dict | list | bool | int | float)
    return line if (bare or text.lstrip().startswith("{")) and _is_value(line) else _quoted(text)


def _is_value(text: str) -> bool:
    """Tell whether a text is a value as TOML writes it; where it should be and is not, the key's own rule says so."""
    try:
        return list(read_toml(f"key = {text}")) == ["key"]
    except JobError:
        return False


def _quoted(text: str) -> str:
    import json

    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")

"""The job file described: as a JSON Schema for editors, and as a commented file to fill in."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pydantic import create_model

from parts.job import TABLES, Job, toml
from parts.job.fields import tables_in
from parts.job.instances import LISTS, NAMED_BY
from parts.job.made import EXAMPLES
from parts.job.unknown import UNKNOWN

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pydantic import BaseModel
    from pydantic.fields import FieldInfo

WIDTH = 44
HEAD = (
    "# A job for topend. Take the # off the keys you have measured and put your own values in.",
    '# Every length, force, pressure, volume, angle and temperature carries its unit: "57.20 mm", "38 bar".',
    '# A measured value may carry its tolerance: "57.20 mm ± 0.01 mm".',
    '# What nobody can measure is "unknown": a pressure, a heat, a friction; it is judged over its usual range.',
    "# Origin: the centre of the bore, X to the right, Y up, seen from above; angles anticlockwise from +X.",
    "",
)
"""how a new job file begins"""
OF_KEY = ("default", "description", "examples", "title")
"""what a schema says of the key, not of its value"""
SCHEMA = "https://json-schema.org/draft/2020-12/schema"


def job_schema() -> dict[str, Any]:
    """Return the JSON Schema of the job file (draft 2020-12)."""
    found = Job.model_json_schema(mode="validation")
    entries = create_model("Entries", **{name: (model, ...) for name, model in LISTS.items()})  # type: ignore[call-overload]
    found["$defs"] |= entries.model_json_schema(mode="validation")["$defs"]
    for name, model in LISTS.items():
        items = {"type": "array", "minItems": 1, "items": {"$ref": f"#/$defs/{model.__name__}"}}
        found["properties"][name]["anyOf"].append(items)
    for model in found["$defs"].values():
        model["properties"] = {key: _or_unknown(held) for key, held in model.get("properties", {}).items()}
    return {"$schema": SCHEMA, **found, "title": "topend job file"}


def _or_unknown(held: dict[str, Any]) -> dict[str, Any]:
    """What a key takes, or "unknown"; one that takes any text takes that as it is."""
    if held.get("type") == "string" and "enum" not in held:
        return held
    kinds = held.get("anyOf") or [{key: value for key, value in held.items() if key not in OF_KEY}]
    return {key: value for key, value in held.items() if key in OF_KEY} | {"anyOf": [*kinds, {"const": UNKNOWN}]}


def described(key: str) -> str:
    """What a key is, as the template says it: how to measure it; empty where the key is none.

    >>> described("head.thickness"), described("turning.push")
    ('through the head at the stud bosses', '')
    """
    table, *steps = key.split(".")
    model, says = TABLES.get(table), ""
    for step in steps:
        field = model.model_fields.get(step) if model else None
        if field is not None:
            says, model = field.description or "", table_in(field)
    return says


def in_workshop_words(key: str) -> str:
    """A key with what it is: `head.thickness (through the head at the stud bosses)`."""
    says = described(key)
    return f"{key} ({says})" if says else key


def template() -> str:
    """Return a job file with every key commented out: what it is, and a right example."""
    lines = [line for name, model in TABLES.items() for line in _table(name, model)]
    return "\n".join([*HEAD, *lines, *_made()]) + "\n"


def _made() -> Iterator[str]:
    """Lines of [made], whose keys are the names of sizes."""
    yield "# [made]"
    for name, (value, says) in EXAMPLES.items():
        yield f'# "{name}" = "{value}"'.ljust(WIDTH) + f"  # {says}"


def _table(name: str, model: type[BaseModel], *, listed: bool = False) -> Iterator[str]:
    """Lines of one table: its own keys, then the tables inside it."""
    yield ("# [[%s]]" if listed else "# [%s]") % name if name != "job" else "[job]"
    if name in LISTS:
        yield _several(name, model)
    elif name == "barrel.old_holes":
        yield "# Of several sizes: [[barrel.old_holes]] instead, one for each."
    inside: list[tuple[str, type[BaseModel], bool]] = []
    for key, field in model.model_fields.items():
        inner = table_in(field)
        if inner and example_of(field) in ({}, []):
            inside.append((f"{name}.{key}", inner, example_of(field) == []))
        elif inner and isinstance(example_of(field), list):
            yield from _listed(key, field, inner)
        else:
            yield _key(key, field)
    yield ""
    for below, inner, many in inside:
        yield from _table(below, inner, listed=many)


def _several(name: str, model: type[BaseModel]) -> str:
    """Line that tells of the list, and what each of its entries has besides."""
    own = {key: field for key, field in LISTS[name].model_fields.items() if key not in model.model_fields}
    told = ", ".join(f"{key} ({field.description})" for key, field in own.items())
    return f"# Several: [[{name}]] instead, one for each, with {told or f'its {NAMED_BY[name]} for a name'}."


def _key(key: str, field: FieldInfo) -> str:
    told = field.description or ""
    extra = field.json_schema_extra
    if field.is_required():
        told += "; needed"
    elif isinstance(extra, dict) and "designed" in extra:
        told += "; left out, it is designed"
    return key_line(key, field, told)


def key_line(key: str, field: FieldInfo, told: str) -> str:
    """A key of a new file: commented out, with a right example and a comment."""
    return f"# {key} = {toml(example_of(field))}".ljust(WIDTH) + f"  # {told}"


def _listed(key: str, field: FieldInfo, inner: type[BaseModel]) -> Iterator[str]:
    """A list of small tables, one a line, each told by its first key."""
    yield f"# {key} = [".ljust(WIDTH) + f"  # {field.description}; needed"
    rows, before = example_of(field), ""
    for number, row in enumerate(rows, 1):
        end = " ]" if number == len(rows) else ","
        told = str(inner.model_fields[next(iter(row))].description)
        yield (f"#   {toml(row)}{end}".ljust(WIDTH) + f"  # {told}") if told != before else f"#   {toml(row)}{end}"
        before = told


def example_of(field: FieldInfo) -> Any:  # noqa: ANN401
    """Return a key's right example."""
    extra = field.json_schema_extra
    return extra.get("example") if isinstance(extra, dict) else None


def table_in(field: FieldInfo) -> type[BaseModel] | None:
    """Return the table that a key holds, if it holds one."""
    return next(tables_in(field.annotation), None)

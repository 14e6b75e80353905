"""The job's values entered into the book, each as given or as assumed."""

from __future__ import annotations

from functools import lru_cache, partial
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from parts.job import TABLES
from parts.job.fields import Measure
from parts.job.measured_models import FittedPattern

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

FITTED = "fitted to your readings by least squares"


def enter_givens(book: Book, job: Job) -> None:
    """Enter every number of the job file as `job.<table>.<key>`; what was left away and has a default is assumed."""
    for name in TABLES:
        book.work(f"job.{name}", partial(_of_table, book, job, name))
    for instance in (one for kind in ("stud", "plug", "ring") for one in job.instances(kind) if one.name):
        for name in instance.places:
            _table(book, f"job.{name}.{instance.name}", instance.tables[name], type(instance.tables[name]))


def _of_table(book: Book, job: Job, name: str) -> None:
    table = getattr(job, name)
    if table is not None:
        _table(book, f"job.{name}", table, TABLES[name])


def _table(book: Book, name: str, table: BaseModel, model: type[BaseModel]) -> None:
    given = table.model_fields_set
    status, source = ("computed", FITTED) if isinstance(table, FittedPattern) else ("given", "job file")
    for key, assumed in _keys(model).items():
        value = getattr(table, key)
        if key in given:
            _value(book, f"{name}.{key}", value, status, source)
        elif value is not None:
            _value(book, f"{name}.{key}", value, "assumed", assumed)


@lru_cache(None)
def _keys(model: type[BaseModel]) -> dict[str, str]:
    """Keys of a table, and where the value of each comes from that was left away."""
    extra = {key: field.json_schema_extra for key, field in model.model_fields.items()}
    usual = "usual where nothing is given"
    return {key: str(e.get("assumed", usual)) if isinstance(e, dict) else usual for key, e in extra.items()}


def _value(book: Book, name: str, value: Any, status: str, source: str) -> None:  # noqa: ANN401
    if isinstance(value, BaseModel):
        _table(book, name, value, type(value))
    elif isinstance(value, list):
        for number, item in enumerate(value):
            _value(book, f"{name}.{number}", item, status, source)
    elif isinstance(value, Measure):
        if value.assumed:
            status, source = "assumed", value.assumed
        book.enter(name, float(value), value.unit, status, source, spread=value.spread)
    elif isinstance(value, int) and not isinstance(value, bool):
        book.enter(name, value, "1", status, source)

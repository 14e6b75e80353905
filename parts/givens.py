"""The job's values entered into the book, each as given or as assumed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from parts.job.fields import Measure
from parts.job.measured_models import FittedPattern

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

FITTED = "fitted to your readings by least squares"


def enter_givens(book: Book, job: Job) -> None:
    """Enter every number of the job file as `job.<table>.<key>`; what was left away and has a default is assumed."""
    for name in type(job).model_fields:
        table = getattr(job, name)
        if isinstance(table, BaseModel):
            _table(book, f"job.{name}", table)


def _table(book: Book, name: str, table: BaseModel) -> None:
    for key, field in type(table).model_fields.items():
        extra = field.json_schema_extra if isinstance(field.json_schema_extra, dict) else {}
        given = key in table.model_fields_set
        source = "job file" if given else str(extra.get("assumed", "usual where nothing is given"))
        status = "given" if given else "assumed"
        if given and isinstance(table, FittedPattern):
            status, source = "computed", FITTED
        _value(book, f"{name}.{key}", getattr(table, key), status, source)


def _value(book: Book, name: str, value: Any, status: str, source: str) -> None:  # noqa: ANN401
    if isinstance(value, BaseModel):
        _table(book, name, value)
    elif isinstance(value, list):
        for number, item in enumerate(value):
            _value(book, f"{name}.{number}", item, status, source)
    elif isinstance(value, Measure):
        book.enter(name, float(value), value.unit, status, source, spread=value.spread)
    elif isinstance(value, int) and not isinstance(value, bool):
        book.enter(name, value, "1", status, source)

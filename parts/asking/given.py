"""An answer as the file will hold it: the value of a question's key out of the boxes that were sent."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.asking.answers import YES, is_list, kind_of, mean, mirrored, nested, typed
from parts.asking.boxes import FORMS, boxes_of
from parts.asking.places import at
from parts.asking.questions import WAYS_UP
from parts.job.instances import LISTS
from parts.job.unknown import UNKNOWN

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from parts.asking.questions import Question

    Fields = Mapping[str, Sequence[str]]

BESIDE = {"unit", "form", "way", "know"}
"""what is sent beside the boxes"""
TWO = ("high", "low")
"""what two kinds of stud are called until they are called something else"""


def own(fields: Fields, key: str) -> dict[str, Sequence[str]]:
    """What was sent of one question: its boxes by their names, and what stands beside them by what follows its key.

    >>> own({"engine.bore": ["70"], "engine.bore@unit": ["mm"], "engine.bore_readings.0": ["1"]}, "engine.bore")
    {'engine.bore': ['70'], 'unit': ['mm']}
    """
    sent = {n: texts for n, texts in fields.items() if n == key or n.startswith((f"{key}.", f"{key}@"))}
    return {name.removeprefix(f"{key}@"): texts for name, texts in sent.items()}


def value_of(question: Question, raw: Mapping[str, Any], fields: Fields, *, rest: bool = False) -> Any:  # noqa: ANN401
    """What stands in the file after an answer: a value, None where nothing was given, "unknown" as it is.

    Parameters
    ----------
    question : Question
    raw : mapping
        Data of the file as it stands
    fields : mapping
        `own` of the question
    rest : bool
        What has no answer is not known
    """
    there, given = at(raw, question.key), _given(question, raw, fields)
    if given == in_boxes(question, raw):
        given = there  # also what the boxes can't show
    blank = not any(one(fields, name) for name in fields.keys() - BESIDE)
    ticked = one(fields, "know") == UNKNOWN and (blank or there != UNKNOWN)  # a reading takes its place
    if ticked or (rest and blank and there is None):
        return there if question.key in LISTS else UNKNOWN
    return given


def in_boxes(question: Question, raw: Mapping[str, Any]) -> Any:  # noqa: ANN401
    """What the boxes hold of what stands in the file: less than that, where they have no place for it."""
    boxes = boxes_of(question, raw)
    shown = [group for group in boxes.groups if group.shown]
    there = [box for group in shown for box in group.boxes if boxes.kind not in ("few", "list") or box.ticked]
    return _given(question, raw, {**{box.name: (box.value,) for box in there}, "form": (shown[0].form,)})


def one(fields: Fields, name: str) -> str:
    """The first that was sent under a name, without blanks at its ends; empty where nothing was."""
    return next(iter(fields.get(name, ())), "").strip()


def _given(question: Question, raw: Mapping[str, Any], fields: Fields) -> Any:  # noqa: ANN401
    """What was given in the boxes."""
    boxes, unit = boxes_of(question, raw), one(fields, "unit")
    if question.kind == "yes" and kind_of(question.key) != YES:
        says = one(fields, question.key)
        return question.no if question.no and says == "no" else _table(question.key, at(raw, question.key), says)
    if boxes.kind == "text":
        return _text(question, fields, unit)
    if boxes.kind in ("few", "list"):
        return typed(question.key, one(fields, question.key)) if one(fields, question.key) else None
    value = nested(question.key, _of_form(question, fields), unit)
    return (mirrored(value) if one(fields, "way") == WAYS_UP[1] else value) or None


def _text(question: Question, fields: Fields, unit: str) -> Any:  # noqa: ANN401
    texts = [text for name in (question.key, "more") for text in fields.get(name, ()) if text.strip()]
    if not texts:
        return None
    if question.kind == "readings":
        return [typed(f"{question.key}.0", part, unit) for part in texts[0].split(",") if part.strip()]
    return mean(question.key, texts, unit) if len(texts) > 1 else typed(question.key, texts[0], unit)


def _of_form(question: Question, fields: Fields) -> dict[str, str]:
    """Boxes of the form that was chosen, the others' left aside."""
    sent = {name: texts[0] for name, texts in fields.items() if name.startswith(f"{question.key}.") and texts}
    form = one(fields, "form")
    if question.kind not in FORMS or not form:
        return sent
    wanted = [f"{question.key}.{name}" for name in FORMS[question.kind].get(form, ("", {}))[1]]
    return {name: text for name, text in sent.items() if name in wanted or (form == "points" and ".points." in name)}


def _table(key: str, there: Any, says: str) -> Any:  # noqa: ANN401
    """A table, or a list of such, that a yes opens and a no takes away with all that is in it."""
    if key in LISTS:
        return _several(there, says)
    if says in ("", "no"):
        return there if not says else None
    if not is_list(key):
        return there if isinstance(there, dict) else {}
    return [*(there or []), *([{}] if says == "more" or not there else [])]


def _several(there: Any, says: str) -> Any:  # noqa: ANN401
    """One table as two of its kind, each to get its own name; or the first of them alone again."""
    if says == "yes":
        return there if isinstance(there, list) else [{"name": name, **(there or {})} for name in TWO]
    if says != "no" or not isinstance(there, list):
        return there
    return {key: value for key, value in there[0].items() if key not in ("name", "holes", "head_thickness")}

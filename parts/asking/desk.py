"""One job file under its page: read whenever it changed, an answer written into it at once, its folder made."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, field, replace
from threading import Lock, RLock
from typing import TYPE_CHECKING, Any

from parts.asking import saving
from parts.asking.answers import path_of
from parts.asking.given import one, value_of
from parts.asking.places import at
from parts.asking.questions import Question, questions
from parts.asking.standing import Standing, refused, standing
from parts.asking.work import ADVISING, MAKING, Doing, Work
from parts.errors import Fault, JobError, TopendError
from parts.job import read_data
from parts.job.edit import edited
from parts.job.unknown import UNKNOWN
from parts.register import PARTS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from parts.asking.given import Fields

MAKE, END = "make", "end"
CHANGED = "The file was changed by another hand meanwhile: this is how it stands now. Your answer is not in it."


@dataclass(frozen=True)
class Sight:
    """The file as it was read, and how its job stands."""

    text: str
    standing: Standing
    unread: tuple[Fault, ...] = ()
    """why it is no job file at all; then nothing can be asked"""
    asked: list[Question] = field(default_factory=list)
    """every question, in the order of asking"""

    @property
    def mark(self) -> str:
        """Tells one text from another."""
        return hashlib.sha256(self.text.encode()).hexdigest()[:16]

    @property
    def raw(self) -> dict[str, Any]:
        """The file's data."""
        return self.standing.raw

    @property
    def order(self) -> list[str]:
        """Where one goes on the page, from the first question to the end; what is designed is gone to by its link."""
        return [MAKE, *(q.key for q in self.asked if not q.designed or at(self.raw, q.key) is not None), END]

    def question(self, key: str) -> Question | None:
        """The question of a key, or of what it lies in."""
        near = [q for q in self.asked if q.key == key or ("." in q.key and key.startswith(f"{q.key}."))]
        return max(near, key=lambda q: len(q.key), default=None)

    def beside(self, key: str, step: int) -> str:
        """The question that comes so many after this one."""
        keys = self.order
        if key not in keys:  # one that is offered alone
            later = [q.key for q in self.asked]
            after = later[later.index(key) :] if key in later else []
            key, step = next((k for k in after if k in keys), END), step - (step > 0)
        return keys[min(max(keys.index(key) + step, 0), len(keys) - 1)]

    @property
    def open(self) -> str:
        """Where to go on: behind the last question that has an answer."""
        answered = [key for key in self.order if at(self.raw, key) is not None]
        return self.beside(answered[-1], 1) if answered else self.beside(MAKE, 1) if self.standing.make else MAKE


def sight(text: str, *, ranges: bool = False) -> Sight:
    """Look at a file's text; `ranges` as in `standing`."""
    try:
        raw = read_data(text)
    except JobError as error:
        return Sight(text, Standing({}), error.faults)
    there = standing(raw, ranges=ranges)
    asked = [q for q in questions(raw, there.make) if not _lies_in_unknown(raw, q.key)]
    return Sight(text, there, (), asked)


def _lies_in_unknown(raw: Mapping[str, Any], key: str) -> bool:
    """Whether a whole table is not known that a key stands in."""
    steps = key.split(".")
    return any(at(raw, ".".join(steps[:n])) == UNKNOWN for n in range(1, len(steps)))


@dataclass(frozen=True)
class Answered:
    """What became of an answer."""

    sight: Sight
    """the file with it: also where it is not written"""
    at: str
    """the question to show"""
    told: tuple[str, ...] = ()
    """why it is not written, a sentence each"""


class Desk:
    """One job file, its page and its folder."""

    def __init__(self, path: Path, into: Path) -> None:
        self.path, self.into = path, into
        self.work: Doing | None = None
        self.news = list[str]()
        """what came of the last save, where the file is watched"""
        self.advice: Work | None = None
        self._one, self._long = RLock(), Lock()
        self._asked = 0
        self._seen: Sight | None = None

    @property
    def notes(self) -> Path:
        """Where ticks and notes of the job sheet are kept: beside the folder, which is replaced as a whole."""
        return self.into.with_name(f"{self.into.name}-notes.json")

    def now(self) -> Sight:
        """The file as it stands on the disk just now."""
        with self._one:
            try:
                text = saving.read(self.path)
            except JobError as error:
                return Sight("", Standing({}), error.faults)
            if self._seen is None or self._seen.text != text:
                self._seen = sight(text)
            return self._seen

    def whole(self) -> Sight:
        """The same, judged over all that is not known."""
        now = self.now()
        return now if now.standing.ranged else sight(now.text, ranges=True)

    def tried(self, fields: Fields) -> Answered:
        """What would come of an answer; nothing is written."""
        now, key = self.now(), one(fields, "question")
        try:
            tried = _with(now, key, _changes(now, key, fields))
            if tried.told and one(fields, "know"):  # of what can't be unknown nothing is said at all
                tried = _with(now, key, {path_of(key): None} if at(now.raw, key) is not None else {})
        except JobError as error:
            return Answered(now, key, tuple(fault.says for fault in error.faults))
        return tried

    def ranged(self, fields: Fields) -> Answered:
        """As `tried`, judged over all that is not known: one at a time, and none that a later one has overtaken."""
        self._asked += 1
        mine, tried = self._asked, self.tried(fields)
        with self._long:
            if mine != self._asked or tried.sight.standing.ranged:
                return tried
            return replace(tried, sight=sight(tried.sight.text, ranges=True))

    def answered(self, fields: Fields) -> Answered:
        """Write an answer into the file, and go on; one that is refused is told and not written."""
        with self._one:
            now, key = self.now(), one(fields, "question")
            if one(fields, "was") != was(now, key):
                return Answered(now, key, (CHANGED,))
            tried = self.tried(fields)
            if tried.told:
                return tried
            if tried.sight.text != now.text:
                try:
                    saving.write(self.path, tried.sight.text)
                except TopendError as error:
                    return Answered(tried.sight, key, (str(error),))
                self._seen = tried.sight
            return Answered(tried.sight, tried.sight.beside(key, 1))

    def make(self) -> None:
        """Start to make the folder, where it is not being made already."""
        with self._one:
            if self.work is None or self.work.outcome is not None:
                self.work = Work(self.now().text, MAKING, str(self.into), str(self.path.parent))

    def advise(self) -> None:
        """Start to look for advice on the file as it stands; what was looked for before is dropped."""
        with self._one:
            if self.advice is not None:
                self.advice.end()
            self.advice = Work(self.now().text, ADVISING, str(self.path.parent))

    @property
    def advised(self) -> str:
        """How far advice on the file as it stands is: empty where none was asked for."""
        if self.advice is None or self.advice.text != self.now().text:
            return ""
        return "at work" if self.advice.outcome is None else "done"

    def close(self) -> None:
        """Have a make stop, and a look for advice."""
        for work in (self.work, self.advice):
            if work is not None:
                work.end()


def was(now: Sight, key: str) -> str:
    """What stands at a key, so that it can be seen whether another hand has changed it."""
    value = list(now.standing.make) if key == MAKE else at(now.raw, key)
    return hashlib.sha256(json.dumps(value, default=str).encode()).hexdigest()[:16]


def _with(now: Sight, key: str, changes: dict[Any, Any]) -> Answered:
    """The file with some changes, and what it makes wrong."""
    after = sight(edited(now.text, changes)) if changes else now
    question = now.question(key)
    opens = question is not None and question.kind == "yes"
    wrong = refused(now.standing, after.standing, key, opens=opens) if question else []
    return Answered(after, key, tuple(_said(fault, key) for fault in wrong))


def _said(fault: Fault, key: str) -> str:
    """A fault's sentence as it is told beside the question: with its key where that is another's."""
    return fault.says if fault.key == key else f"{fault.key}: {fault.says}"


def _changes(now: Sight, key: str, fields: Fields) -> dict[Any, Any]:
    """What an answer changes in the file."""
    if key == MAKE:
        return _of_parts(now.raw, fields.get(MAKE, ()))
    question = now.question(key)
    if question is None or question.key != key:
        raise JobError(Fault(key, "is not asked of this job any more"))
    value = value_of(question, now.raw, fields)
    return {path_of(key): value} if value != at(now.raw, key) else {}


def _of_parts(raw: Mapping[str, Any], stems: Sequence[str]) -> dict[Any, Any]:
    """A table for each part that is wanted; those of the others are taken out, which `edited` leaves as remarks."""
    wanted = {PARTS[stem].table for stem in stems if stem in PARTS}
    every = dict.fromkeys(part.table for part in PARTS.values())
    new: dict[Any, Any] = {(table,): {} for table in every if table in wanted and table not in raw}
    return new | {(table,): None for table in every if table in raw and table not in wanted}

"""One job file under its page: read whenever it changed, an answer written into it at once, its folder made."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, field, replace
from functools import cached_property
from threading import Lock, RLock
from typing import TYPE_CHECKING, Any

from parts.asking import saving
from parts.asking.answers import path_of
from parts.asking.given import one, own, value_of
from parts.asking.places import at, folded
from parts.asking.questions import Question, Screen, questions, screens
from parts.asking.standing import Standing, refused, standing
from parts.asking.words import titles
from parts.asking.work import ADVISING, MAKING, Doing, Work
from parts.errors import Fault, JobError, TopendError
from parts.job import read_data
from parts.job.edit import edited
from parts.job.unknown import UNKNOWN
from parts.job_text import JobText, drawings
from parts.register import PARTS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from parts.asking.given import Fields
    from parts.job.lines import Path as KeyPath

MAKE, END = "make", "end"
ALL_ASKED = "That is all that is asked"
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
    drawn: Mapping[str, bytes] = field(default_factory=dict)
    """drawings that the file names"""

    @property
    def mark(self) -> str:
        """Tells one file with its drawings from another."""
        return hashlib.sha256(b"".join([self.text.encode(), *self.drawn.values()])).hexdigest()[:16]

    @property
    def raw(self) -> dict[str, Any]:
        """The file's data."""
        return self.standing.raw

    @cached_property
    def screens(self) -> list[Screen]:
        """All there is to go through, from what is to be made to the end; what is offered is gone to by its link."""
        stands = [q for q in self.asked if q.stands(self.raw)]
        first = [q for q in stands if titles().get(folded(q.key)) == titles()[MAKE]]
        rest = screens(q for q in stands if q not in first)
        return [Screen(MAKE, titles()[MAKE], tuple(first)), *rest, Screen(END, ALL_ASKED, ())]

    def question(self, key: str) -> Question | None:
        """The question of a key, or of what it lies in."""
        near = [q for q in self.asked if q.key == key or ("." in q.key and key.startswith(f"{q.key}."))]
        return max(near, key=lambda q: len(q.key), default=None)

    def screen(self, key: str) -> Screen:
        """The screen on which a key is asked, one of its own for what is offered; else where to go on."""
        asked = self.question(key)
        found = (s for s in self.screens if s.key == key or asked in s.asked)
        alone = Screen(asked.key, asked.asks, (asked,)) if asked else None
        return next(found, None) or alone or self.screen(self.open)

    def beside(self, key: str, step: int) -> str:
        """The screen that comes so many after this one."""
        keys = [s.key for s in self.screens]
        if key not in keys:  # one that is offered alone
            later = [q.key for q in self.asked]
            after = later[later.index(key) :] if key in later else []
            key, step = next((k for k in after if k in keys), END), step - (step > 0)
        return keys[min(max(keys.index(key) + step, 0), len(keys) - 1)]

    @property
    def open(self) -> str:
        """Where to go on: behind the last screen that has an answer."""
        answered = [s.key for s in self.screens[1:] if any(at(self.raw, q.key) is not None for q in s.asked)]
        return self.beside(answered[-1], 1) if answered else self.beside(MAKE, 1) if self.standing.make else MAKE


def sight(text: str, *, ranges: bool = False) -> Sight:
    """Look at a file's text; `ranges` as in `standing`."""
    try:
        raw = read_data(text)
    except JobError as error:
        return Sight(text, Standing({}), error.faults)
    there = standing(raw, ranges=ranges)
    asked = [q for q in questions(raw, there.make, more=True) if not _lies_in_unknown(raw, q.key)]
    return Sight(text, there, (), asked, drawings(text))


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
    told: tuple[tuple[str, str], ...] = ()
    """why it is not written: of which key, and the sentence"""


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
            if self._seen is None or (self._seen.text, self._seen.drawn) != (text, drawings(text)):
                self._seen = sight(text)
            return self._seen

    def whole(self) -> Sight:
        """The same, judged over all that is not known."""
        now = self.now()
        return now if now.standing.ranged else sight(now.text, ranges=True)

    def tried(self, fields: Fields) -> Answered:
        """What would come of the answers on a screen; nothing is written."""
        now, key = self.now(), one(fields, "question")
        screen = now.screen(key)
        if key != screen.key and key not in [q.key for q in screen.asked]:
            return Answered(now, key, ((key, f"{key} is not asked of this job any more"),))
        try:
            changes = _changes(now, screen, fields)
            tried = _with(now, screen, changes)
            unknown = {path for path, value in changes.items() if value == UNKNOWN} if tried.told else set()
            gone = {path: None for path in unknown if at(now.raw, ".".join(map(str, path))) is not None}
            silent = (
                _with(now, screen, {p: v for p, v in changes.items() if p not in unknown} | gone) if unknown else tried
            )
        except JobError as error:
            return Answered(now, key, tuple((fault.key, fault.says) for fault in error.faults))
        return tried if silent.told else silent  # of what can't be unknown nothing is said at all

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
            if one(fields, "was") != was(now, now.screen(key)):
                return Answered(now, key, (("", CHANGED),))
            tried = self.tried(fields)
            if tried.told:
                return tried
            if tried.sight.text != now.text:
                try:
                    saving.write(self.path, tried.sight.text)
                except TopendError as error:
                    return Answered(tried.sight, key, (("", str(error)),))
                self._seen = tried.sight
            return Answered(tried.sight, tried.sight.beside(now.screen(key).key, 1))

    def make(self) -> None:
        """Start to make the folder, where it is not being made already: of an unfinished job what can be made of it."""
        with self._one:
            if self.work is None or self.work.outcome is not None:
                now = self.now()
                there = now.standing
                some = not there.wrong and 0 < len(there.ready) < len(there.make)
                text = edited(now.text, dict.fromkeys(there.left_out)) if some else now.text
                self.work = Work(text, MAKING, str(self.into), str(self.path.parent), *(there.ready if some else ()))

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


def was(now: Sight, screen: Screen) -> str:
    """What stands at the keys of a screen, so that it can be seen whether another hand has changed it."""
    there = [now.standing.make if screen.key == MAKE else (), *(at(now.raw, q.key) for q in screen.asked)]
    return hashlib.sha256(json.dumps(there, default=str).encode()).hexdigest()[:16]


def _with(now: Sight, screen: Screen, changes: dict[Any, Any]) -> Answered:
    """The file with some changes, and what it makes wrong."""
    after = sight(_edited(now.text, changes)) if changes else now
    wrong = refused(now.standing, after.standing, screen.asked)
    own = [q.key for q in screen.asked]
    return Answered(after, screen.key, tuple((fault.key, _said(fault, own)) for fault in wrong))


def _edited(text: str, changes: Mapping[KeyPath, Any]) -> str:
    """A file's text with some changes, its drawings beside it as they were."""
    new = edited(text, changes)
    return JobText(new, text.folder) if isinstance(text, JobText) else new


def _said(fault: Fault, own: Sequence[str]) -> str:
    """A fault's sentence as it is told beside its question: with its key where that is another's."""
    return fault.says if fault.key in own else f"{fault.key}: {fault.says}"


def _changes(now: Sight, screen: Screen, fields: Fields) -> dict[KeyPath, Any]:
    """What the answers on a screen change in the file; a question of which nothing was sent stays as it is."""
    new = _of_parts(now.raw, fields.get(MAKE, ())) if screen.key == MAKE else {}
    rest = bool(one(fields, "rest"))
    for question in screen.asked:
        sent, there = own(fields, question.key), at(now.raw, question.key)
        value = value_of(question, now.raw, sent, rest=rest) if sent or (rest and there is None) else there
        if value != there:
            new[path_of(question.key)] = value
    return new


def _of_parts(raw: Mapping[str, Any], stems: Sequence[str]) -> dict[KeyPath, Any]:
    """A table for each part that is wanted; those of the others are taken out, which `edited` leaves as remarks."""
    wanted = {PARTS[stem].table for stem in stems if stem in PARTS}
    every = dict.fromkeys(part.table for part in PARTS.values())
    new: dict[KeyPath, Any] = {(table,): {} for table in every if table in wanted and table not in raw}
    return new | {(table,): None for table in every if table in raw and table not in wanted}

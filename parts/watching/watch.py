"""The loop: what is saved is checked at once, then what moved is made again, by a kernel that stays loaded."""

from __future__ import annotations

import gc
from functools import cache
from time import sleep
from typing import TYPE_CHECKING, NoReturn

from parts.asking.desk import Desk
from parts.asking.work import Doing
from parts.checked import checked
from parts.errors import JobError, TopendError
from parts.making.anew import make_anew
from parts.making.kernel import kernel
from parts.making.make import standing
from parts.making.standing import whole
from parts.watching.news import News, listed, news
from parts.watching.saves import EVERY, Saves
from parts.watching.shown import Shown

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from parts.checked import Checked
    from parts.job_text import JobText
    from parts.making.kernel import Ask
    from parts.making.standing import Options, Outcome

    Job = tuple[JobText, Checked]

STANDS = "What was made before stands as it was."


class WatchedDesk(Desk):
    """A job file under its page that is made at every save; the page's button has it made once more."""

    again = False

    def make(self) -> None:
        """Have what is there made once more, after a trouble with the disk."""
        self.again = True


class Watch:
    """One job file, its folder, and the page that shows both."""

    def __init__(
        self,
        file: Path,
        desk: WatchedDesk,
        options: Options,
        say: Callable[[News], None],
        complain: Callable[[str], None],
    ) -> None:
        """Watch a file; `say` is told what changed and what was made, `complain` what went wrong, a line at a time."""
        self._desk, self._options, self._say, self._complain = desk, options, say, complain
        self._saves = Saves(file)
        self._from = ""
        """hash of what was read last; empty where that could not be made"""
        self._last: Job | None = None
        """the last that could be checked"""
        self._next: Job | None = None
        """what is still to be made"""

    def run(self) -> NoReturn:
        """Go on until interrupted; after a make that failed with another kernel: this one may be amid its work."""
        gc.enable()  # the command line goes without it, for a short life
        while True:
            try:
                with kernel() as ask:
                    self._go_on(Shown(ask))
            except TopendError as error:
                self._went_wrong(error)

    def _go_on(self, ask: Ask) -> NoReturn:
        while True:
            self.look()
            if self._next:
                self._make(*self._next, ask)
            else:
                sleep(EVERY)

    # what was saved ---------------------------------------------------------------------------------------------------

    def look(self) -> None:
        """Check what was saved since and say what it changed; also amid a make, between two of its steps."""
        if self._desk.again:
            self._desk.again, self._next = False, self._last
        try:
            text = self._saves.look()
            if text is not None and (made_from := whole(text, self._options)) != self._from:
                self._check(text)
                self._from = made_from
        except JobError as error:
            self._next = None
            self._went_wrong(error)

    def _check(self, text: JobText) -> None:
        done = checked(text, self._options.as_made)
        lines = news(self._last[1] if self._last else None, done)
        self._desk.news = [str(line) for line in lines] if self._last else []  # the sheet has all of the first
        for line in lines:
            self._say(line)
        self._last = self._next = text, done

    # what is made -----------------------------------------------------------------------------------------------------

    def _make(self, text: JobText, done: Checked, ask: Ask) -> None:
        """Make what moved."""
        self._next, self._desk.work = None, Doing("at work")
        made = standing(text, self._desk.into, self._options) or self._anew(text, done, ask)
        self._desk.work = Doing("", {"written": made.written, "kept": made.kept})
        line = News("", f"made: {listed(made)}")
        self._desk.news.append(line.says)
        self._say(line)

    def _anew(self, text: JobText, done: Checked, ask: Ask) -> Outcome:
        note = cache(self._note)  # each sentence once

        def tell(says: str) -> None:
            note(says)
            self.look()  # another run may have the folder for long

        return make_anew(done, text, self._desk.into, self._options, ask, lambda _: self.look(), tell, fresh=False)

    # what is told -----------------------------------------------------------------------------------------------------

    def _note(self, says: str) -> None:
        self._desk.news.append(says)
        self._complain(says)

    def _went_wrong(self, error: TopendError) -> None:
        """Say what went wrong, a line a fault; the folder stands, and the same text saved once more is tried again."""
        self._from = ""
        says = [str(fault) for fault in error.faults] if isinstance(error, JobError) else [str(error)]
        self._desk.news, self._desk.work = [], Doing("", {"wrong": says})
        for line in says:
            self._note(line)
        self._desk.news.append(STANDS)

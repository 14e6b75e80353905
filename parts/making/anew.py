"""A checked job made: what does not stand yet is written into a folder that takes the old one's place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.advising.first import with_first_advice
from parts.checked import lines_of
from parts.errors import Fault, JobError
from parts.making.files import keep, orders, write, write_records
from parts.making.folder import new_folder
from parts.making.manifest import write_manifest
from parts.making.plan import plan
from parts.making.standing import Outcome, whole
from parts.register import asked_for, shapes, to_build

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from parts.checked import Checked
    from parts.making.kernel import Ask
    from parts.making.standing import Options
    from parts.register import Piece


def make_anew(
    done: Checked,
    text: str,
    into: Path,
    options: Options,
    ask: Ask,
    say: Callable[[str], None],
    tell: Callable[[str], None],
    *,
    fresh: bool,
) -> Outcome:
    """Make what does not stand yet of a text that was checked. `ask` hands orders to the kernel; else as `make`."""
    wanted = _wanted(done, text, options)
    with new_folder(into, tell) as new:
        (new / "parts").mkdir()
        planned = plan(done, wanted, options, into, fresh=fresh)
        kept = keep(into, new, planned)
        answers = ask(orders(new, done, planned, options.threads))
        found = with_first_advice(text, done.now.findings)  # while the kernel loads
        written = write(new, done, planned, answers, found, say)
        written += write_records(new, text, done, found, whole(text, options))
        write_manifest(new, [*kept, *written])
    sources = {one["made_from"] for one in written}
    made = tuple(name for name, made_from in planned.hashes.items() if made_from in sources)
    return Outcome(found, len(written), len(kept), made)


def _wanted(done: Checked, text: str, options: Options) -> list[Piece]:
    """Return the parts to make; JobError where there is none, or one lacks its sizes."""
    wanted = asked_for(done.job, options.only)
    if not wanted:
        raise JobError(Fault("", "the job asks for no part: give it a [stud], [plug], [ring], [gasket] or [mandrel]"))
    with lines_of(text):
        shapes([p for p in wanted if p.stem not in done.shapes], done.book, done.job)
        to_build(wanted, {p.stem: done.of(p.stem).shapes[p.stem] for p in wanted}, options.threads)
    return wanted

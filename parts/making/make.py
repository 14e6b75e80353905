"""Make a job into a folder, whole or not at all; one that stands just as it would be made is left alone."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from parts.making.folder import at_work, check_target, leftovers, waiting
from parts.making.kernel import kernel
from parts.making.standing import Options, still_whole, whole

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from pathlib import Path

    from parts.making.standing import Outcome


def make(
    text: str,
    into: Path,
    only: Iterable[str] = (),
    threads: str = "simplified",
    say: Callable[[str], None] = lambda _: None,
    *,
    fresh: bool = False,
    as_made: Iterable[str] = (),
    tell: Callable[[str], None] = lambda _: None,
) -> Outcome:
    """Write the whole output folder of a job; what stands in the old one just as it would be made is kept.

    Parameters
    ----------
    text : str
        Of the job file
    into : Path
        Folder to write; replaced only if it is ours
    only : iterable of str
        Stems of the parts to make; the others are kept where they still match
    threads : str
        "simplified": plain cylinders; or "detailed": true helices in the solid, mesh and picture of a part that has
        any. Drawings, the assembly and the job sheet's 3D view show plain ones either way
    say : callable
        Told what is being done, a line at a time
    fresh : bool
        Make everything again
    as_made : iterable of str
        Stems of the parts that are made to the sizes as they came out, not to the plan
    tell : callable
        Told what whoever asked has to know: that this run waits for another, and where a file is kept that was changed
        since topend wrote it, a sentence each

    Returns
    -------
    made : Outcome

    Raises
    ------
    JobError
        The input is wrong; nothing was written.
    BuildError, WriteError
        The old folder stands as it was.
    """
    options, tell = Options(tuple(only), threads, tuple(as_made)), cache(tell)  # each sentence once
    check_target(into)
    if at_work(into):
        tell(waiting(into))
    if not fresh and (stands := standing(text, into, options)):
        return stands
    with kernel() as ask:  # it loads while the rest of topend does, and while the job is read and drawn
        from parts.checked import checked
        from parts.making.anew import make_anew

        return make_anew(checked(text, options.as_made), text, into, options, ask, say, tell, fresh=fresh)


def standing(text: str, into: Path, options: Options) -> Outcome | None:
    """What would come of a make where the folder stands just as it would be made; else None."""
    return None if leftovers(into) else still_whole(into, whole(text, options))

"""`topend watch`: the folder made, and made again at every save of the job file, with the kernel loaded."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cli.ask import NoBrowser, Port
from cli.make import AsMade, Into, Only, Threads

if TYPE_CHECKING:
    from parts.watching.news import News


def watch(
    file: Annotated[Path, typer.Argument(help="Job file.")],
    into: Into = None,
    only: Only = None,
    threads: Threads = "simplified",
    as_made: AsMade = None,
    port: Port = 0,
    no_browser: NoBrowser = False,
) -> int:
    """Make the folder, and at every save of the file say what changed and make it again. Ends with Ctrl-C.

    What is not ok is told first, then a line for each finding that came, went or turned and for each size that moved.
    The page shows the job sheet as it stands, and the questions.

    Example: topend watch sprayer.toml
    """
    from cli.ask import say_address
    from cli.say import complain
    from parts.asking.listening import answering_beside, listen, shown_in_browser
    from parts.asking.saving import alone
    from parts.asking.serve import JOB_SHEET
    from parts.job_text import read_file
    from parts.making.folder import check_target
    from parts.making.standing import Options
    from parts.watching.watch import Watch, WatchedDesk

    read_file(file)
    into = into or Path("outputs") / file.stem
    check_target(into)
    options = Options(tuple(only or ()), threads, tuple(as_made or ()))
    with alone(file) as path, listen(port, JOB_SHEET) as (door, ears):
        say_address(door)
        desk = WatchedDesk(path, into)
        try:
            with answering_beside(desk, door, ears), shown_in_browser(door, complain, opened=not no_browser):
                Watch(file, desk, options, tell, complain).run()
        except KeyboardInterrupt:
            pass
        finally:
            desk.close()
    return 0


def tell(line: News) -> None:
    """Print a line of news."""
    from cli.say import coloured, complain, shown
    from cli.streams import at_once

    verdict = coloured(f"{line.verdict:8}", line.verdict) if line.verdict else ""
    if why := at_once(f"{verdict}{shown(line.says)}"):
        complain(f"what there is to say could not be printed on stdout: {why}")

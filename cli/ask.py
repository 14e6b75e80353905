"""`topend ask`: what the job needs, asked on a page in the browser, or printed as a form for the bench."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    import socket

    from parts.asking.door import Door

HIGHEST = 65535
Port = Annotated[int, typer.Option(min=0, max=HIGHEST, help="Port of the page; 0 is any that is free.")]
NoBrowser = Annotated[bool, typer.Option("--no-browser", help="Print the address, open nothing.")]


def ask(
    file: Annotated[Path, typer.Argument(help="Job file; begun where there is none yet.")],
    port: Port = 0,
    no_browser: NoBrowser = False,
    paper: Annotated[Path | None, typer.Option(help="Write the questions as a form (PDF) instead.")] = None,
) -> int:
    """Ask for what the job needs, on a page in the browser; every answer is in the file at once. Ends with Ctrl-C.

    Example: topend ask sprayer.toml
    """
    if paper:
        return on_paper(file, paper)
    from parts.asking.listening import listen
    from parts.asking.saving import alone

    with alone(file) as path, listen(port) as door_and_socket:
        return serve(path, *door_and_socket, opened=not no_browser)


def on_paper(file: Path, paper: Path) -> int:
    """Write the form; of a job that names no part yet, for all of them."""
    from cli.fresh_file import refuse_old
    from cli.say import shown
    from parts.asking.form import write_form
    from parts.asking.saving import read
    from parts.job import read_data
    from parts.register import PARTS, wanted

    raw = read_data(read(file))
    refuse_old(paper, "--paper")
    write_form(raw, wanted(raw) or tuple(PARTS), paper)
    print(f"{shown(paper)}: written; print it, fill it in at the bench, then: topend ask {shown(file)}")
    return 0


def serve(path: Path, door: Door, ears: socket.socket, *, opened: bool) -> int:
    """Say where the page is, then answer until it is ended."""
    from cli.say import complain

    say_address(door)
    from parts.asking.desk import Desk
    from parts.asking.listening import answering, shown_in_browser

    desk = Desk(path, Path("outputs") / path.stem)
    try:
        with shown_in_browser(door, complain, opened=opened):
            answering(desk, door, ears)
    except KeyboardInterrupt:
        pass
    finally:
        desk.close()
    return 0


def say_address(door: Door) -> None:
    """Print where the page is, at once."""
    from cli.streams import at_once

    if why := at_once(door.address):
        from parts.errors import WriteError

        raise WriteError(f"the page's address could not be printed on stdout: {why}")

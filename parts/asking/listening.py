"""The page on this machine: its port, the browser that is led to it, and the server that answers."""

from __future__ import annotations

import gc
import os
import socket
import sys
import tempfile
import webbrowser
from contextlib import contextmanager, suppress
from html import escape
from pathlib import Path
from threading import Thread
from typing import TYPE_CHECKING

from parts.asking.door import HOME, Door
from parts.errors import Fault, JobError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    import uvicorn

    from parts.asking.desk import Desk

GRACE = 1  # s for an answer that is under way when the page is ended
NO_BROWSER = "no browser could be opened: open the address above in one on this machine"


@contextmanager
def listen(port: int, page: str = "/") -> Iterator[tuple[Door, socket.socket]]:
    """Listen on a port of this machine alone, 0 for any that is free; yield the way in, to a page, and the socket.

    JobError where another program has the port.
    """
    with socket.socket() as ears:
        if sys.platform != "win32":  # where it would share the port with whoever has it
            ears.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            ears.bind((HOME, port))
        except OSError as error:
            raise JobError(Fault("--port", f"{port} can't be had ({error.strerror}): name another, or none")) from None
        ears.listen()
        yield Door(ears.getsockname()[1], page=page), ears


@contextmanager
def shown_in_browser(door: Door, complain: Callable[[str], None], *, opened: bool) -> Iterator[None]:
    """Lead the browser to the page by a file that only this user can read: command lines can be read by others."""
    if not opened:
        yield
        return
    handle, name = tempfile.mkstemp(".html", "topend-")  # of mode 0600
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as out:
            out.write(leading_to(door.address))
        Thread(target=_open, args=(Path(name).as_uri(), complain), daemon=True).start()  # some stay until they are left
        yield
    finally:
        with suppress(OSError):
            Path(name).unlink()


def leading_to(address: str) -> str:
    """A page that leads to another at once."""
    there = escape(address)
    return (
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>topend</title>'
        f'<meta http-equiv="refresh" content="0;url={there}"><a href="{there}">To the page</a></html>\n'
    )


def _open(address: str, complain: Callable[[str], None]) -> None:
    with suppress(webbrowser.Error):
        if webbrowser.open(address):
            return
    complain(NO_BROWSER)


def answering(desk: Desk, door: Door, ears: socket.socket) -> None:
    """Answer requests until told to stop."""
    gc.enable()  # the command line goes without it, for a short life
    _server(desk, door).run([ears])


@contextmanager
def answering_beside(desk: Desk, door: Door, ears: socket.socket) -> Iterator[None]:
    """Answer requests while something else is done."""
    servers: list[uvicorn.Server] = []

    def answer() -> None:
        servers.append(_server(desk, door))
        servers[0].run([ears])

    thread = Thread(target=answer, daemon=True)  # what it loads takes a while
    thread.start()
    try:
        yield
    finally:
        for server in servers:
            server.should_exit = True
        thread.join(2 * GRACE)


def _server(desk: Desk, door: Door) -> uvicorn.Server:
    from uvicorn import Config, Server

    from parts.asking.serve import application

    config = Config(
        application(desk, door),
        http="h11", ws="none", loop="asyncio", lifespan="off", interface="asgi3",
        log_config=None, log_level="critical", access_log=False, server_header=False, proxy_headers=False,
        timeout_graceful_shutdown=GRACE, limit_concurrency=40,
    )  # fmt: skip
    return Server(config)

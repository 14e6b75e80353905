"""Progress of a long search on a terminal."""

from __future__ import annotations

from time import monotonic
from typing import TYPE_CHECKING

from cli.say import progress

if TYPE_CHECKING:
    from collections.abc import Callable

EVERY = 1.0  # s


def counted(what: str) -> Callable[[int], None]:
    """Return what tells the user how many are done, each second from the first on; silent in a pipe."""
    said, last = progress(), [monotonic()]

    def tell(number: int) -> None:
        if monotonic() - last[0] >= EVERY:
            last[0] = monotonic()
            said(f"{number} {what}")

    return tell

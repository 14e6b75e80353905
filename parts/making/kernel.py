"""The kernel at work in a process of its own, while this one draws.

Loading the kernel takes as long as all the paper of a job. So the orders go to a second process, which loads it, and
what they are filled with comes back as it is ready; further orders find it loaded. It ends with whoever asked: at an
error, at an interrupt, and when the process that started it is killed. Where the kernel is loaded already, or no
process can be had, the orders are filled here, one after the other.
"""

from __future__ import annotations

import gc
import os
import pickle
import subprocess
import sys
from contextlib import contextmanager, suppress
from queue import SimpleQueue
from threading import Thread
from typing import IO, TYPE_CHECKING, Any

from parts.errors import BuildError
from parts.runtime.loading import bare, load_kernel

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from typing import TypeAlias

    from parts.making.solids import Order
    from parts.pictures.filled import Filled

    Ask: TypeAlias = Callable[[Sequence[Order]], Iterator[Filled]]

if sys.platform == "win32":
    GROUP = subprocess.CREATE_NEW_PROCESS_GROUP  # what a session of its own is elsewhere
else:
    GROUP = 0
COMMAND = ("-P", "-m", "parts.making.kernel")  # -P: never from the folder that the user is in


@contextmanager
def kernel() -> Iterator[Ask]:
    """Start the kernel; yield what orders are handed to: it fills them one by one, and raises where one fails.

    It takes orders as often as it is asked until one fails, or is not waited for.
    """
    process = None if "OCP" in sys.modules else _started()
    if process is None:
        yield _filled_here
        return
    try:
        yield lambda orders: _filled_there(process, orders)
    finally:
        _ended(process)


def _filled_here(orders: Sequence[Order]) -> Iterator[Filled]:
    from parts.making.solids import fill

    return map(fill, orders)


# this side ------------------------------------------------------------------------------------------------------------


def _started() -> subprocess.Popen[bytes] | None:
    """Start the second process, out of reach of the terminal's interrupt; None where that can't be done."""
    if not sys.executable:
        return None
    pipe, path = subprocess.PIPE, os.pathsep.join(sys.path)
    try:
        return subprocess.Popen(  # noqa: S603 - ourselves
            [sys.executable, *COMMAND],
            stdin=pipe, stdout=pipe, env={**os.environ, "PYTHONPATH": path},
            start_new_session=True, creationflags=GROUP,
        )  # fmt: skip
    except OSError:
        return None


def _ended(process: subprocess.Popen[bytes]) -> None:
    """End the second process, whatever it is doing, and let go of its pipes."""
    process.kill()
    process.wait()
    for pipe in (process.stdin, process.stdout):
        if pipe:
            with suppress(OSError):
                pipe.close()


def _filled_there(process: subprocess.Popen[bytes], orders: Sequence[Order]) -> Iterator[Filled]:
    answers: SimpleQueue[Any] = SimpleQueue()
    Thread(target=_exchange, args=(process, orders, answers), daemon=True).start()
    return _told(process, answers, orders)


def _told(process: subprocess.Popen[bytes], answers: SimpleQueue[Any], orders: Sequence[Order]) -> Iterator[Filled]:
    for order in orders:
        answer = answers.get()
        if answer is None:
            code = process.wait()
            raise BuildError(f"{order.name}: the kernel's process ended ({_ending(code)}) before it was made")
        if isinstance(answer, BaseException):
            raise answer
        yield answer


def _ending(code: int) -> str:
    return f"signal {-code}" if code < 0 else f"exit code {code}"


class Plain(pickle.Pickler):
    """Sends what was measured as the number that it is, so that the second process loads no model of the job."""

    def reducer_override(self, value: object) -> Any:  # noqa: ANN401 - what a pickler takes
        """Take a number of another kind for a plain one."""
        return (float, (float(value),)) if isinstance(value, float) else NotImplemented


def _exchange(process: subprocess.Popen[bytes], orders: Sequence[Order], answers: SimpleQueue[Any]) -> None:
    """Send the orders and note down the answers as they come, so that the second process never waits for us."""
    assert process.stdin  # noqa: S101 - both are pipes
    assert process.stdout  # noqa: S101
    try:
        Plain(process.stdin).dump(list(orders))
        process.stdin.flush()
        for _ in orders:
            answers.put(pickle.load(process.stdout))  # noqa: S301 - from our own process
    except (OSError, ValueError, EOFError, pickle.UnpicklingError):  # ended, or its pipes closed
        answers.put(None)


# the other side -------------------------------------------------------------------------------------------------------


def serve() -> None:
    """Fill the orders that come in on stdin; the answers go to stdout, which nothing else may write to."""
    gc.disable()  # what it would find while the kernel loads is little, and takes a tenth of that time
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # whatever the kernel prints
    orders: SimpleQueue[list[Order]] = SimpleQueue()
    Thread(target=_listen, args=(sys.stdin.buffer, orders), daemon=True).start()
    _load()
    gc.freeze()
    while _answered(orders.get(), out):
        gc.collect(1)
    os._exit(0)  # nothing is left to do, and the kernel is slow to put away


def _answered(orders: list[Order], out: IO[bytes]) -> bool:
    """Send what the orders are filled with; tell whether all could be."""
    for order in orders:
        answer = _filled(order)
        pickle.dump(answer, out)
        out.flush()
        if isinstance(answer, BaseException):
            return False
    return True


def _listen(source: IO[bytes], orders: SimpleQueue[list[Order]]) -> None:
    """Read the orders; then wait until whoever sent them is gone, and end this process at once, whatever happens."""
    try:
        with suppress(EOFError, pickle.UnpicklingError):
            while True:
                orders.put(pickle.load(source))  # noqa: S301 - from our own process
    finally:
        os._exit(1)


def _load() -> None:
    """Load the kernel before the first order is there; what fails in it is told with that order.

    Without the toolkit behind its window, which nothing here opens, and what CadQuery has besides its free functions:
    that is a third of the time.
    """
    bare("vtk")
    bare("cadquery")
    with suppress(ImportError):
        load_kernel()


def _filled(order: Order) -> Filled | BaseException:
    from parts.making.solids import fill

    try:
        return fill(order)
    except Exception as error:  # noqa: BLE001 - raised again on the other side
        return _portable(error)


def _portable(error: Exception) -> Exception:
    """Return the error with its traceback as a note, in a form that can be sent."""
    from traceback import format_exc

    error.add_note(f"In the kernel's process:\n{format_exc()}")
    try:
        pickle.loads(pickle.dumps(error))  # noqa: S301
    except Exception:  # noqa: BLE001 - an error of the kernel's own
        return RuntimeError(f"{type(error).__name__}: {error}")
    return error


if __name__ == "__main__":
    serve()

"""The command line. A verb's module is loaded only when that verb is called."""

from __future__ import annotations

import gc
import os
import sys
from contextlib import suppress
from importlib import import_module
from inspect import cleandoc
from typing import TYPE_CHECKING

import typer
from typer.core import TyperGroup

from parts.register import verbs
from parts.runtime.docstrings import docstring

if TYPE_CHECKING:
    from collections.abc import Callable

OWN = {  # verb -> its line of help; cli/<verb>.py holds a function of that name
    "demo": "Write the worked job and make it.",
    "new": "Write a job file with a comment on every key.",
    "ask": "Ask for what the job needs, on a page in the browser.",
    "check": "Size everything; print sizes and findings.",
    "make": "Write the whole output folder.",
    "watch": "Make it, then again at every save of the file.",
    "explain": "One size: value, formula, inputs, source.",
    "look": "A DXF as its outlines are read, faults ringed.",
    "frame": "The sheet that a gasket is traced on.",
    "trace": "A scan or photograph on that sheet as outlines.",
    "compare": "Jobs side by side, or variants of one job.",
    "advise": "What to change, with key and figure.",
}
PARTS = verbs()
VERBS = {
    **OWN,
    **{verb: f"One {part.title} from flags alone." for verb, part in PARTS.items()},
    "schema": "Print the JSON Schema of the job file.",
}


class Verbs(TyperGroup):
    """Lists all verbs, imports only the one that is called."""

    def list_commands(self, ctx: typer.Context) -> list[str]:  # type: ignore[override]
        """Name the verbs in the order of the work."""
        del ctx
        return list(VERBS)

    def get_command(self, ctx: typer.Context, cmd_name: str) -> object:  # type: ignore[override]
        """Load one verb."""
        del ctx
        if cmd_name not in VERBS:
            return None
        one = typer.Typer(add_completion=False, rich_markup_mode=None)
        verb = _verb(cmd_name)
        one.command(cmd_name, help=cleandoc(docstring(verb)))(verb)
        return typer.main.get_command(one)

    def format_commands(self, ctx: object, formatter: object) -> None:
        """Print the list of verbs without loading them."""
        del ctx
        with formatter.section("Verbs"):  # type: ignore[attr-defined]
            formatter.write_dl(list(VERBS.items()))  # type: ignore[attr-defined]


def _verb(name: str) -> Callable[..., int]:
    """The function of a verb: a part's is made from its row of the register."""
    if name in PARTS:
        from cli.flags import part_verb

        return part_verb(PARTS[name])
    return getattr(import_module(f"cli.{name}"), name)  # type: ignore[no-any-return]


app = typer.Typer(
    cls=Verbs, add_completion=False, no_args_is_help=True, rich_markup_mode=None, pretty_exceptions_enable=False
)


def version(wanted: bool) -> None:
    """Print the version and end."""
    if wanted:
        from parts import __version__

        print(f"topend {__version__}")
        raise typer.Exit


@app.callback()
def main(
    debug: bool = typer.Option(False, "--debug", help="Show the traceback of an error."),
    version: bool = typer.Option(False, "--version", help="Print the version.", callback=version, is_eager=True),
) -> None:
    """From a measured job file to parts you can cut: a foreign head on a small engine's barrel."""
    del debug, version


def run() -> None:
    """Run the command line and end the process with its exit code."""
    from cli.say import FAILED, INTERRUPTED, complain, guarded, ignore_stops
    from cli.streams import held, settle, written

    settle()
    gc.disable()  # a short life: what a collection would find is little, and looking for it takes long
    with held() as said:
        code = guarded(app, sys.argv[1:])
    try:
        why = written(said.getvalue(), sys.stdout)
    except KeyboardInterrupt:
        why, code = "", INTERRUPTED
    ignore_stops()
    if why:
        complain(f"what there is to say could not be printed on stdout: {why}")
        code = max(code, FAILED)
    with suppress(OSError, ValueError, AttributeError):
        sys.stderr.flush()
    os._exit(code)  # all is written, and to take apart what a make has loaded is a tenth of it


if __name__ == "__main__":
    run()

"""`topend demo`: the worked job, written and made."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def demo(into: Annotated[Path, typer.Option(help="Folder to write.")] = Path("outputs/demo")) -> int:
    """Write the worked job and make it.

    Example: topend demo --into sprayer
    """
    from cli.make import write
    from parts.job.examples import demo_text

    return write(demo_text(), into)

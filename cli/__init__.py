"""The command line: one module a verb, loaded only when that verb is called."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from pathlib import Path


def _other_parts() -> str:
    """Where another package named parts stands that Python would load in the place of ours; empty where none does."""
    found = find_spec("parts")
    place = (found.origin or next(iter(found.submodule_search_locations or ()), "")) if found else ""
    ours = Path(__file__).resolve().parents[1] / "parts"
    return "" if Path(place).resolve() in (ours / "__init__.py", ours) else place or "nowhere"


if _place := _other_parts():
    sys.stderr.write(
        f"topend: a package named parts stands before topend's own where Python looks for it ({_place!r}): "
        "take its folder out of PYTHONPATH, or go to another folder\n"
    )
    raise SystemExit(3)

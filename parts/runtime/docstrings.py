"""Docstrings, which are the record; under `python -OO`, which leaves them out, they are read from the source."""

from __future__ import annotations

import ast
from functools import cache
from inspect import unwrap
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable


def docstring(function: Callable[..., Any]) -> str:
    """Return a function's docstring; of one that is wrapped, the inner one's."""
    code = getattr(unwrap(function), "__code__", None)
    return function.__doc__ or (_of_file(code.co_filename).get(code.co_name, "") if code else "")


@cache
def _of_file(path: str) -> dict[str, str]:
    """Docstrings of a file's functions by their names."""
    nodes = ast.walk(ast.parse(Path(path).read_text(encoding="utf-8")))
    found = {node.name: ast.get_docstring(node, clean=False) for node in nodes if isinstance(node, ast.FunctionDef)}
    return {name: text for name, text in found.items() if text}

"""The map in the handbook is true: every module stands on it, and every import runs up the table, those for types too."""

import ast
import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
MODULES = {
    path.relative_to(ROOT).with_suffix("").as_posix().removesuffix("/__init__").replace("/", "."): path
    for top in ("parts", "cli")
    for path in sorted((ROOT / top).rglob("*.py"))
}


def rows():
    """Folders and files of the map, from its top."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    found = re.findall(r"^\| `((?:parts|cli)/[^`]*)` \|", text, re.MULTILINE)
    return [row.removesuffix(".py").removesuffix("/__init__").strip("/").replace("/", ".") for row in found]


def imported(path):
    """Modules of ours that a module imports, anywhere in it, lazily or for types."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            yield from (
                f"{node.module}.{a.name}" if f"{node.module}.{a.name}" in MODULES else node.module for a in node.names
            )
        elif isinstance(node, ast.Import):
            yield from (a.name for a in node.names)


def place(module, rows):
    """Row of a module: the nearest folder or file that names it; the package's own name is its face alone."""
    fits = [n for n, row in enumerate(rows) if module == row or (row != "parts" and module.startswith(f"{row}."))]
    return max(fits, key=lambda n: len(rows[n]), default=None)


def arrows(rows):
    for module, path in MODULES.items():
        for other in set(imported(path)) & MODULES.keys():
            yield module, other, place(module, rows), place(other, rows)


def test_every_module_is_on_the_map_and_every_row_is_there():
    assert [m for m in MODULES if place(m, rows()) is None] == []
    assert [row for row in rows() if row not in MODULES and not any(m.startswith(f"{row}.") for m in MODULES)] == []


def test_no_import_runs_back():
    assert [f"{one} -> {other}" for one, other, here, there in arrows(rows()) if there > here] == []


def test_no_modules_import_each_other_in_a_circle():
    uses = {m: set(imported(path)) & MODULES.keys() - {m} for m, path in MODULES.items()}
    while free := [m for m, others in uses.items() if not others & uses.keys()]:
        uses = {m: others for m, others in uses.items() if m not in free}
    assert not uses, sorted(uses)


def test_at_most_eight_modules_lie_flat():
    assert len(list((ROOT / "parts").glob("*.py"))) <= 8


def test_an_arrow_that_runs_back_is_seen():
    """With two rows of the map exchanged, imports run back."""
    order = rows()
    a, b = order.index("parts.relations"), order.index("parts.sizing")
    order[a], order[b] = order[b], order[a]
    assert [one for one, _, here, there in arrows(order) if there > here]

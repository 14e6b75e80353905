"""What may be changed of the code: each operator and each figure, as the tests are to see it."""

import ast
import re
from pathlib import Path

import numpy as np

ROOT = Path(__file__).parents[2]
DRAWN = ("relations", "geometry", "units.py", "thread.py", "tables", "sizing", "judging")
SWAPS = dict(
    pair.split() for pair in ("+ -", "- +", "* /", "/ *", "** *", "< >=", "<= >", "> <=", ">= <", "== !=", "!= ==")
)
SWAPS |= {"and": "or", "or": "and", "min": "max", "max": "min", "sin": "cos", "cos": "sin"}
GUARD = 1e-5  # figures under it say when two floats are one


class Module:
    """What may be changed of a module's text."""

    def __init__(self, text):
        self.text, self.lines, self.tree = text, text.split("\n"), ast.parse(text)
        self.starts = [0, *np.cumsum([len(line) + 1 for line in self.lines]).tolist()]
        sums = [node for node in ast.walk(self.tree) if isinstance(node, ast.BinOp)]
        self.scaled = {id(side) for node in sums for side in (node.left, node.right)}

    def at(self, line, column):
        """Place in the text."""
        return self.starts[line - 1] + len(self.lines[line - 1].encode()[:column].decode())

    def changes(self, node=None, owner=None):
        """Start, end and new text of each change, with the outermost function that it stands in."""
        node = node or self.tree
        if owner is None and isinstance(node, ast.FunctionDef | ast.Lambda):
            owner = node
        change = self.of_figure(node) or self.of_operator(node) if isinstance(node, ast.expr) else None
        if change:
            yield *change, owner
        for name, value in ast.iter_fields(node):
            if name not in {"annotation", "returns", "decorator_list"} and not isinstance(node, ast.JoinedStr):
                for child in value if isinstance(value, list) else [value]:
                    if isinstance(child, ast.AST):
                        yield from self.changes(child, owner)

    def of_figure(self, node):
        """A figure a tenth larger; a whole number that no sum holds, which may be an index, by one."""
        if (
            isinstance(node, ast.Constant)
            and type(node.value) in {int, float}
            and (node.value == 0 or node.value >= GUARD)
        ):
            whole = isinstance(node.value, int) and id(node) not in self.scaled
            new = str(node.value + 1) if whole else repr(float(f"{node.value * 1.1 or 0.1:.6g}"))
            return self.at(node.lineno, node.col_offset), self.at(node.end_lineno, node.end_col_offset), new
        return None

    def of_operator(self, node):
        """The contrary of an operator, of a comparison, of min and max; a sign or a `not` left out."""
        start = self.at(node.lineno, node.col_offset)
        match node:
            case ast.BinOp(op=ast.Add() | ast.Sub() | ast.Mult() | ast.Div() | ast.Pow()):
                return self.between(node.left, node.right, r"\*\*|[-+*/]")
            case ast.Compare(ops=[ast.Lt() | ast.LtE() | ast.Gt() | ast.GtE() | ast.Eq() | ast.NotEq(), *_]):
                return self.between(node.left, node.comparators[0], "[<>]=?|[=!]=")
            case ast.BoolOp(values=[left, right, *_]):
                return self.between(left, right, r"\b(and|or)\b")
            case ast.UnaryOp(op=ast.USub() | ast.Not()):
                return start, start + (1 if isinstance(node.op, ast.USub) else 3), ""
            case ast.Name(id="min" | "max" | "sin" | "cos"):
                return start, start + 3, SWAPS[node.id]
        return None

    def between(self, left, right, pattern):
        """The operator between two sides."""
        start = self.at(left.end_lineno, left.end_col_offset)
        found = re.search(pattern, self.text[start : self.at(right.lineno, right.col_offset)])
        return start + found.start(), start + found.end(), SWAPS[found[0]]


def in_docstring(text, start, end, owner):
    """Where the equation of a function's docstring names a figure that its code has: start and end of each; none if it doesn't."""
    if not isinstance(owner, ast.FunctionDef) or not ast.get_docstring(owner):
        return []
    first, last = (
        sum(len(line) + 1 for line in text.split("\n")[: n - 1])
        for n in (owner.body[0].lineno, owner.body[0].end_lineno + 1)
    )
    if start < last:
        return []
    equation = re.compile(r"^ *\w+ = (?:.+\n)+", re.MULTILINE).search(text, first, last)
    figure = re.compile(rf"(?<![\w.]){re.escape(text[start:end])}(?![\w.])(?!-)")
    return [m.span() for m in figure.finditer(text, *equation.span())] if equation else []


def drawn(kind, paths):
    """Every change that may be: path, line, what is changed in words, the text with it, its function's first line."""
    for path in sorted(
        p for d in DRAWN for p in ([ROOT / "parts" / d] if d.endswith(".py") else (ROOT / "parts" / d).rglob("*.py"))
    ):
        name, text = str(path.relative_to(ROOT / "parts")), path.read_text(encoding="utf-8")
        if paths and not any(f"parts/{name}".startswith(p) for p in paths):
            continue
        for start, end, new, owner in Module(text).changes():
            if kind == "both" and not text[start].isdigit():
                continue
            printed = in_docstring(text, start, end, owner) if kind == "both" else []
            if kind == "code" or printed:
                changed = text
                for a, b in sorted([(start, end), *printed], reverse=True):
                    changed = changed[:a] + new + changed[b:]
                line = text.count("\n", 0, start) + 1
                was = " ".join(text[text.rfind("\n", 0, start) + 1 : start].split()) + f" [{text[start:end]} -> {new}] "
                first = (
                    min([owner.lineno, *(d.lineno for d in getattr(owner, "decorator_list", ()))]) if owner else None
                )
                yield name, line, was + text[end : text.find("\n", end)].strip(), changed, first

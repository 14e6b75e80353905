"""How many changed operators and figures the tests see: python tests/benchmarks/mutations.py code|both N SEED [PATH...]

`code`: one operator or figure of the code is changed. `both`: one figure in the code and in its docstring's equation alike,
or a limit of the rules; then only a test that isn't the code's own counts: docstrings, examples and the project's own
regression figures are left out. PATH: draw from these alone.
What is changed is a copy of the tree. The first run on a state of the tree notes which test calls what (ten minutes); then
each change is tried by the tests that call the function it stands in. Prints what was not seen, and the share that was.
"""

import ast
import functools
import gc
import os
import pickle
import random
import re
import resource
import shutil
import signal
import sys
import tempfile
from collections import defaultdict
from hashlib import sha256
from pathlib import Path
from time import monotonic, process_time, sleep

import numpy as np
import pydantic  # noqa: F401 - loaded before the fork: a change is tried in a second or two
import pytest
import scipy.optimize  # noqa: F401
import shapely.geometry  # noqa: F401

ROOT = Path(__file__).parents[2]
DRAWN = ("relations", "geometry", "units.py", "thread.py", "tables", "sizing", "judging")
TESTS = ("relations", "sizing", "judging", "published", "geometry", "job", ".")
ALONE = tuple(f"tests/whole/test_{w}.py" for w in ("docstrings", "second_model", "three_jobs", "from_python"))
OWN = re.compile(r"test_docstrings|regression|^parts/")
SWAPS = {
    "+": "-",
    "-": "+",
    "*": "/",
    "/": "*",
    "**": "*",
    "<": ">=",
    "<=": ">",
    ">": "<=",
    ">=": "<",
    "==": "!=",
    "!=": "==",
}
SWAPS |= {"and": "or", "or": "and", "min": "max", "max": "min", "sin": "cos", "cos": "sin"}
LONGEST, PATIENCE = 2.0, 200.0  # s: of a test, traced; of a change that hangs
TRIED = 60  # tests that are tried before the rest is collected
GUARD = 1e-5  # figures under it say when two floats are one


class Calls:
    """Notes of each test that passes: the functions it calls, its time."""

    def __init__(self):
        self.of, self.shared, self.file, self.cached = {}, defaultdict(set), None, []

    def places(self):
        own = f"{Path.cwd()}/parts/"
        return {
            (c.co_filename.removeprefix(own), c.co_firstlineno)
            for c in list(self.seen)
            if c.co_filename.startswith(own)
        }

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item):
        if item.path != self.file:
            kept = [o for o in gc.get_objects() if isinstance(o, functools._lru_cache_wrapper)]
            self.file, self.cached = (
                item.path,
                [o for o in kept if f"{o.__module__}".startswith("parts.") and o.__name__ != "registry"],
            )
        for one in self.cached:  # else the first test alone would be seen to call it
            one.cache_clear()
        self.seen, self.passed, start = set(), True, process_time()
        signal.signal(signal.SIGVTALRM, lambda *_: sys.settrace(None))  # too long a test to be tried
        signal.setitimer(signal.ITIMER_VIRTUAL, LONGEST)
        sys.settrace(lambda frame, *_: self.seen.add(frame.f_code))  # gives None: no lines are followed
        try:
            return (yield)
        finally:
            sys.settrace(None)
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
            if self.passed:
                self.of[item.nodeid] = process_time() - start, self.places()

    def pytest_runtest_logreport(self, report):
        self.passed &= not report.failed
        if report.when == "setup":  # what a fixture of the file calls, it calls for all
            self.shared[report.nodeid.partition("::")[0]] |= self.places()


class Chosen:
    """Has these tests run, in this order."""

    def __init__(self, wanted):
        self.order = {test: n for n, test in enumerate(wanted)}

    def pytest_collection_modifyitems(self, items):
        items[:] = sorted((i for i in items if i.nodeid in self.order), key=lambda i: self.order[i.nodeid])


def ran(files, plugin, *, quiet=True):
    """Exit code of pytest in a process of its own, 1 if it hangs."""
    child = os.fork()
    if child:
        end = monotonic() + (PATIENCE if quiet else 3600)
        while not (done := os.waitpid(child, os.WNOHANG))[0]:
            if monotonic() > end:
                os.kill(child, signal.SIGKILL)
            sleep(0.02)
        return os.waitstatus_to_exitcode(done[1])
    code = 3
    try:
        code = in_child(files, plugin, quiet=quiet)
    finally:
        sys.stdout.flush()
        os._exit(code)


def in_child(files, plugin, *, quiet):
    """Run pytest and keep the notes; quiet: nothing is written, nothing grows without end."""
    if quiet:
        sys.dont_write_bytecode = True
        os.environ["PYTHONDONTWRITEBYTECODE"] = "1"
        os.dup2(os.open("/dev/null", os.O_WRONLY), 1)
        os.dup2(1, 2)
        resource.setrlimit(resource.RLIMIT_AS, (6 << 30, 6 << 30))
    code = pytest.main([*files, "-q", "-p", "no:cacheprovider", *["-x"] * quiet], [plugin])
    if not quiet:
        for test, (took, places) in plugin.of.items():
            plugin.of[test] = took, places | plugin.shared[test.partition("::")[0]]
        Path("calls.pickle").write_bytes(pickle.dumps(plugin.of))
    return int(code)


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
        """Start, end and new text of each change, with the function that it stands in."""
        node = node or self.tree
        if isinstance(node, ast.FunctionDef) or (isinstance(node, ast.Lambda) and owner is None):
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
    figure = re.compile(rf"(?<![\w.]){re.escape(text[start:end])}(?![\w.])(?!-)")
    stop = text.find("Parameters\n", first, last)
    return [m.span() for m in figure.finditer(text, first, last if stop < 0 else stop)]


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
            if kind == "code" or printed or (name == "judging/rules.py" and owner is None):
                changed = text
                for a, b in sorted([(start, end), *printed], reverse=True):
                    changed = changed[:a] + new + changed[b:]
                line = text.count("\n", 0, start) + 1
                was = " ".join(text[text.rfind("\n", 0, start) + 1 : start].split()) + f" [{text[start:end]} -> {new}] "
                first = (
                    min([owner.lineno, *(d.lineno for d in getattr(owner, "decorator_list", ()))]) if owner else None
                )
                yield name, line, was + text[end : text.find("\n", end)].strip(), changed, first


def noted():
    """What each test calls: kept for a state of the program, and noted anew of each file of tests that is another."""
    state = sha256(b"".join(p.read_bytes() for p in sorted(Path("parts").rglob("*.py"))))
    kept = Path(tempfile.gettempdir()) / f"mutations-{state.hexdigest()[:16]}.pickle"
    files = [*(f for t in TESTS for f in Path("tests", t).glob("test_*.py")), *map(Path, ALONE)]
    files = {str(f): sha256(f.read_bytes()).hexdigest() for f in files} | {f"parts/{d}": "" for d in DRAWN}
    notes = pickle.loads(kept.read_bytes()) if kept.exists() else {}  # noqa: S301 - written here
    if other := [f for f, is_now in files.items() if notes.get(f, ("?",))[0] != is_now]:
        ran(other, Calls(), quiet=False)
        called = pickle.loads(Path("calls.pickle").read_bytes())  # noqa: S301
        for file in other:
            notes[file] = files[file], {t: v for t, v in called.items() if t.startswith(file)}
        kept.write_bytes(pickle.dumps(notes))
    return {t: v for f in files for t, v in notes[f][1].items()}


def tests_of(name, first, notes, kind):
    """Tests that call a function, those that call least first; for what stands outside of functions, all that call its module."""
    called = {
        t: (took, places)
        for t, (took, places) in notes.items()
        if took < LONGEST and (kind == "code" or not OWN.search(t))
    }
    found = [
        t
        for t, (_, places) in called.items()
        if ((name, first) in places if first else any(p == name for p, _ in places))
    ]
    found = found or [t for t in called if t.startswith(f"parts/{name}")]
    found.sort(key=lambda t: (called[t][0] > 0.3, len(called[t][1]) * (0.01 + called[t][0])))
    return found


def main(kind, count, seed, *paths):
    """Draw, try, print."""
    copy = Path(tempfile.mkdtemp(prefix="mutations-")) / "tree"
    shutil.copytree(
        ROOT, copy, ignore=shutil.ignore_patterns(".git", "__pycache__", "outputs", ".*_cache", ".hypothesis")
    )
    os.chdir(copy)
    sys.path[:] = [
        str(copy),
        *(p for p in sys.path if Path(p or ".").resolve() not in {ROOT, ROOT / "tests" / "benchmarks"}),
    ]
    os.environ["PYTHONPATH"] = str(copy)
    notes = noted()
    every = list(drawn(kind, paths))
    chosen = random.Random(int(seed)).sample(every, min(int(count), len(every)))  # noqa: S311
    unseen = 0
    for name, line, words, changed, first in chosen:
        path, tests = copy / "parts" / name, tests_of(name, first, notes, kind)
        kept, stat = path.read_bytes(), path.stat()
        path.write_text(changed, encoding="utf-8")
        seen = False
        for some in (tests[:TRIED], tests[TRIED:]):
            seen = seen or (bool(some) and ran(sorted({t.partition("::")[0] for t in some}), Chosen(some)) != 0)
        path.write_bytes(kept)
        os.utime(path, ns=(stat.st_atime_ns, stat.st_mtime_ns))
        unseen += not seen
        if not seen:
            print(f"not seen by {len(tests)} tests: parts/{name}:{line}: {words}", flush=True)
    shutil.rmtree(copy.parent)
    print(
        f"{kind}: {len(chosen) - unseen} of {len(chosen)} seen, {1 - unseen / len(chosen):.1%}; drawn of {len(every)}, seed {seed}"
    )


if __name__ == "__main__":
    main(*sys.argv[1:])

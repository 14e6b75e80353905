"""How many changed operators and figures the tests see: python tests/benchmarks/mutations.py code|both N SEED [PATH...]

`code`: one operator or figure of the code is changed. `both`: one figure in the code and in its docstring's equation alike;
then only a test that isn't the code's own counts: docstrings, examples and the project's own regression figures are left
out. PATH: draw from these alone. Prints what was not seen, and the share that was.
Nothing is written in the tree: a change is made in a process of its own, in a function as it was loaded, or, where it stands
outside of functions, in a copy. It is tried by the tests that call that function, which are noted once for a state of the
tree (ten minutes), and kept.
"""

import functools
import gc
import os
import pickle
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from hashlib import sha256
from itertools import pairwise
from pathlib import Path
from time import monotonic, process_time, sleep
from types import CodeType, FunctionType

import numpy as np
import pytest

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.benchmarks.changes import DRAWN, drawn  # noqa: E402

PARTS = ROOT / "parts"
TESTS = ("relations", "sizing", "judging", "published", "geometry", "job", ".")
ALONE = tuple(
    f"tests/whole/test_{w}.py"
    for w in ("designed", "docstrings", "regression", "second_model", "three_jobs", "from_python")
)
NET = "test_regression.py"
OWN = re.compile(r"test_docstrings|regression|^parts/")
LONGEST, BUDGET, PATIENCE = 1.0, 60.0, 300.0  # s: of a test, traced; of a change's tests; of a change that hangs
ELSEWHERE = 77  # the change stands outside of what tests call
EACH = 10  # changes, after which it is said how far it got
ROWS = 3  # of a test with many, which are tried before the rest


class Calls:
    """Notes of each test that passes: its time, and the functions that it calls."""

    def __init__(self):
        self.of, self.shared = {}, defaultdict(set)

    def places(self):
        own = [c for c in list(self.seen) if c.co_filename.startswith(f"{PARTS}/")]
        return {(c.co_filename.removeprefix(f"{PARTS}/"), c.co_firstlineno) for c in own}

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item):
        forget()  # else the first test alone would be seen to call what is kept
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


@functools.lru_cache(None)
def caches():
    kept = [o for o in gc.get_objects() if isinstance(o, functools._lru_cache_wrapper)]
    return [o for o in kept if f"{o.__module__}".startswith("parts.") and o.__name__ != "registry"]


@functools.lru_cache(None)
def functions():
    """Every function that is loaded, by its file and first line."""
    found = defaultdict(list)
    for one in gc.get_objects():
        if isinstance(one, FunctionType):
            found[one.__code__.co_filename, one.__code__.co_firstlineno].append(one)
    return found


def forget():
    """Empty every cache of the program but that of the unit library, which is slow."""
    for one in caches():
        one.cache_clear()


class Tried:
    """Takes the place of pytest's loop over the tests, once they are collected."""

    def __init__(self, kind, count, seed, paths):
        self.kind, self.count, self.seed, self.paths = kind, int(count), int(seed), paths
        self.copy = Path(tempfile.mkdtemp(prefix="mutations-"))

    def pytest_runtestloop(self, session):
        items = {item.nodeid: item for item in session.items}
        notes = noted(items)
        every = list(drawn(self.kind, self.paths))
        chosen = random.Random(self.seed).sample(every, min(self.count, len(every)))  # noqa: S311
        print(f"\n{len(items)} tests, {len(chosen)} of {len(every)} changes")
        caches()
        functions()  # both looked for once, not in the process of each change
        gc.freeze()
        unseen = 0
        for number, (name, line, words, changed, first) in enumerate(chosen, 1):
            if not any((name, first) in places for _, places in notes.values()):
                first = None  # noqa: PLW2901 - it is called as modules are loaded
            tests = [t for t in tests_of(name, first, notes, self.kind) if t in items]
            seen = forked(lambda: run(items, tests) if patched(name, changed, first) else ELSEWHERE)  # noqa: B023
            seen = self.in_copy(name, changed, tests) if seen == ELSEWHERE else seen != 0
            unseen += not seen
            said = "" if seen else f"{number}: not seen by {len(tests)} tests: parts/{name}:{line}: {words}\n"
            print(said or ("" if number % EACH else f"{number} tried, {unseen} not seen\n"), end="", flush=True)
        share = 1 - unseen / len(chosen)
        print(f"{self.kind}: {len(chosen) - unseen} of {len(chosen)} seen, {share:.1%}; seed {self.seed}")
        return True

    def in_copy(self, name, changed, tests):
        """Whether the tests see a change in a copy of the tree."""
        shutil.copytree(ROOT, self.copy, ignore=COPIED, dirs_exist_ok=True)
        (self.copy / "parts" / name).write_text(changed, encoding="utf-8")
        env = os.environ | {"PYTHONPATH": str(self.copy), "PYTHONDONTWRITEBYTECODE": "1"}
        net = [t for t in tests if NET in t]  # first: it is one file, and sees most
        for some in filter(None, (net, [t for t in tests if NET not in t])):
            (self.copy / "tests.txt").write_text("\n".join(some), encoding="utf-8")
            run = [sys.executable, "-c", OF_COPY]
            try:
                told = subprocess.run(run, cwd=self.copy, env=env, capture_output=True, check=False, timeout=PATIENCE)
            except subprocess.TimeoutExpired:
                return True
            if told.returncode not in {0, pytest.ExitCode.NO_TESTS_COLLECTED}:
                return True
        return False


COPIED = shutil.ignore_patterns(".git", "__pycache__", "outputs", ".*_cache", ".hypothesis")
OF_COPY = """
import pytest, sys
from pathlib import Path
from tests.benchmarks.mutations import Chosen
tests = Path("tests.txt").read_text(encoding="utf-8").splitlines()
sys.exit(pytest.main(["-x", "-q", "-p", "no:cacheprovider", *sorted({t.partition("::")[0] for t in tests})], [Chosen(tests)]))
"""


class Chosen:
    """Has these tests run, in this order."""

    def __init__(self, wanted):
        self.order = {test: n for n, test in enumerate(wanted)}

    def pytest_collection_modifyitems(self, items):
        items[:] = sorted((i for i in items if i.nodeid in self.order), key=lambda i: self.order[i.nodeid])


def forked(call, patience=PATIENCE):
    """What a call gives, a whole number, in a process of its own; 1 if it breaks or hangs."""
    child, end = os.fork(), monotonic() + patience
    while child and not (done := os.waitpid(child, os.WNOHANG))[0]:
        if monotonic() > end:
            os.kill(child, signal.SIGKILL)
        sleep(0.01)
    if child:
        return os.waitstatus_to_exitcode(done[1])
    code = 1
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        os.dup2(1, 2)
        resource.setrlimit(resource.RLIMIT_AS, (6 << 30, 6 << 30))
        code = call()
    finally:
        os._exit(code)


def run(items, tests):
    """1 as soon as a test fails, else 0."""
    forget()
    manager = next(iter(items.values())).config.pluginmanager
    manager.unregister(name="terminalreporter")
    for test, after in pairwise([*tests, None]):
        item = items[test]
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=items.get(after))
        if item.session.testsfailed:
            return 1
    return 0


def codes(code):
    """A code object and all inside it."""
    yield code
    for one in code.co_consts:
        if isinstance(one, CodeType):
            yield from codes(one)


def patched(name, changed, first):
    """Put the changed code into its function, as it is loaded; tell whether there is such a one."""
    path = str(PARTS / name)
    here = functions()[path, first]
    new = [c for c in codes(compile(changed, path, "exec")) if c.co_firstlineno == first]
    was, now = [f for f in here if f.__code__ not in new], [c for c in new if c not in [f.__code__ for f in here]]
    if not was or len(now) != 1:
        return False
    for function in was:
        function.__code__ = now[0]
    return True


def noted(items):
    """What each test calls: kept for a state of the program, and noted anew of each file of tests that is another."""
    state = sha256(b"".join(p.read_bytes() for p in sorted(PARTS.rglob("*.py")))).hexdigest()[:16]
    kept = Path(tempfile.gettempdir()) / f"mutations-{state}.pickle"
    notes = pickle.loads(kept.read_bytes()) if kept.exists() else {}  # noqa: S301 - written here
    files = {i.nodeid.partition("::")[0]: sha256(i.path.read_bytes()).hexdigest() for i in items.values()}
    if other := [f for f, is_now in files.items() if notes.get(f, ("?",))[0] != is_now]:
        print(f"\nnoting what the tests of {len(other)} files call", flush=True)
        fresh = kept.with_suffix(f".{os.getpid()}")  # two may note at once
        forked(lambda: note([i for t, i in items.items() if t.partition("::")[0] in other], fresh), 3600.0)
        called = pickle.loads(fresh.read_bytes())  # noqa: S301
        for file in other:
            notes[file] = files[file], {t: v for t, v in called.items() if t.partition("::")[0] == file}
        kept.write_bytes(pickle.dumps(notes))
        fresh.unlink()
    return {t: v for f in files for t, v in notes[f][1].items()}


def note(items, into):
    """Run tests and write down what they call."""
    calls = Calls()
    items[0].config.pluginmanager.register(calls)
    for item, after in pairwise([*items, None]):
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
    shared = {t: (took, places | calls.shared[t.partition("::")[0]]) for t, (took, places) in calls.of.items()}
    into.write_bytes(pickle.dumps(shared))
    return 0


def tests_of(name, first, notes, kind):
    """Tests that call a function; for what stands outside of functions, those of files that import its module or what does.

    Few rows of each first, those that call least before; all of the module's own layer, of others as many as the budget has.
    """
    called = {t: v for t, v in notes.items() if v[0] < LONGEST and (kind == "code" or not OWN.search(t))}
    if first:
        found = [t for t, (_, places) in called.items() if (name, first) in places]
    else:
        users = using(name)
        found = [t for t, (_, p) in called.items() if t.partition("::")[0] in users or any(n in users for n, _ in p)]
    found.sort(key=lambda t: len(called[t][1]) * (0.01 + called[t][0]))
    rows, late = Counter(), {}
    for test in found:
        rows[test.partition("[")[0]] += 1
        late[test] = rows[test.partition("[")[0]] > ROWS and NET not in test
    own = f"tests/{name.partition('/')[0]}/" if "/" in name else f"tests/test_{name}"
    found.sort(key=lambda t: (late[t], not t.startswith(own)))
    spent = np.cumsum([0.0 if t.startswith(own) else called[t][0] for t in found])
    return [t for t, s in zip(found, spent, strict=True) if t.startswith(own) or s < BUDGET]


def using(name):
    """The module, those that import it, and files of tests that do."""
    dotted = f"parts.{name.removesuffix('.py').removesuffix('/__init__').replace('/', '.')}"
    word = re.compile(
        rf"{re.escape(dotted)}\b|from {re.escape(dotted.rpartition('.')[0])} import .*\b{dotted.rpartition('.')[2]}\b"
    )
    users = {str(f.relative_to(PARTS)) for f in PARTS.rglob("*.py") if word.search(f.read_text(encoding="utf-8"))}
    tests = {
        str(f.relative_to(ROOT))
        for f in (ROOT / "tests").rglob("test_*.py")
        if word.search(f.read_text(encoding="utf-8"))
    }
    return {name} | users | tests


def main(kind, count, seed, *paths):
    """Have pytest collect, then draw and try."""
    os.chdir(ROOT)
    files = [
        *(str(f) for t in TESTS for f in sorted(Path("tests", t).glob("test_*.py"))),
        *ALONE,
        *(f"parts/{d}" for d in DRAWN),
    ]
    return pytest.main(["-q", "-p", "no:cacheprovider", *files], [Tried(kind, count, seed, paths)])


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))

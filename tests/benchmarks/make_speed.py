"""How long `topend make` takes against a plain CadQuery script of the same parts, and against loading the kernel.

Commands take turns, so that whatever else the machine does falls on both; a ratio is that of two runs side by side.
Linux or another Unix: the system's own account of each finished run, second process included.

    python tests/benchmarks/make_speed.py [RUNS]
"""

import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.listed import worked  # noqa: E402
from tests.strategies import toml_text  # noqa: E402

JOB = ROOT / "parts" / "job" / "examples" / "demo.toml"
TOPEND = (sys.executable, "-m", "cli.main")
IMPORT = (sys.executable, "-c", "import cadquery")


class Run(NamedTuple):
    """One finished run."""

    wall: float
    """s"""
    cpu: float
    """s, user and system, of all its processes"""
    memory: float
    """MB, of its largest process"""


def timed(command, codes=(0,)):
    """Run a command in a child that does nothing else, so that the account is of this command alone."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        start = time.perf_counter()
        code = subprocess.run(command, cwd=ROOT, stdout=subprocess.DEVNULL, check=False).returncode
        wall, used = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
        os.write(writing, f"{code} {wall} {used.ru_utime + used.ru_stime} {used.ru_maxrss / 1024}".encode())
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading) as pipe:
        code, *figures = map(float, pipe.read().split())
    os.waitpid(child, 0)
    assert code in codes, f"{command} ended with {code:g}"
    return Run(*figures)


def pairs(command, other, runs, before=lambda: None):
    """Run two commands in turn."""
    out = []
    for _ in range(runs + 1):
        before()
        out.append((timed(command), timed(other)))
    return out[1:]  # the first fills the caches of the disk


def row(name, found, target):
    """Print least and middle of both, and of the ratio; `target` is what figures are held to."""
    for figure, unit in (("wall", "s"), ("cpu", "s"), ("memory", "MB")):
        ours, others = ([getattr(run, figure) for run in side] for side in zip(*found, strict=True))
        ratios = [a / b for a, b in zip(ours, others, strict=True)]
        places = 2 if unit == "s" else 0
        cells = [f"{min(v):.{places}f} / {statistics.median(v):.{places}f}" for v in (ours, others)]
        cells.append(f"{min(ratios):.2f} / {statistics.median(ratios):.2f}")
        print(f"| {name} | {figure} [{unit}] | {' | '.join(cells)} | {target.get(figure, '')} |")


def main(runs):
    folder = Path(tempfile.mkdtemp())
    into, plain = folder / "made", folder / "plain"
    script = (sys.executable, ROOT / "tests" / "benchmarks" / "plain_script.py", plain)
    make = (*TOPEND, "make", JOB, "--into", into)
    print("least / middle of each, and of the ratio of runs side by side\n")
    print("| what | figure | ours | the other | ratio | at most |\n|---|---|---|---|---|---|")
    row(
        "make, against the plain script",
        pairs(make, script, runs, lambda: shutil.rmtree(into, True)),
        {"wall": "1.0", "cpu": "1.5"},
    )
    job = worked()
    ring = {table: job[table] for table in ("job", "engine", "ring", "lathe")}
    (folder / "ring.toml").write_text(toml_text(ring), encoding="utf-8")
    for part, file in (("ring", folder / "ring.toml"), ("gasket", ROOT / "tests" / "jobs" / "gasket.toml")):
        one = (*TOPEND, "make", file, "--into", into)
        row(f"make of a {part} only", pairs(one, script, runs, lambda: shutil.rmtree(into, True)), {"wall": "0.75"})
    row("make, against `import cadquery`", pairs((*make, "--fresh"), IMPORT, runs), {"memory": "0.9"})
    row("made again unchanged, against `import cadquery`", pairs(make, IMPORT, runs), {"wall": "0.33", "cpu": "0.33"})
    row("check, against `import cadquery`", pairs((*TOPEND, "check", JOB), IMPORT, runs), {"wall": "0.3", "cpu": "0.3"})
    row("--help, against `import cadquery`", pairs((*TOPEND, "--help"), IMPORT, runs), {"wall": "0.1", "cpu": "0.1"})
    shutil.rmtree(folder)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)

"""How time and memory of check, make and sweeps grow with the work: python tests/benchmarks/growth.py [KIND...] [sweeps].

Each in a process of its own; a bar is the processor's time. The last column is how much more time each further one took,
over the same of the row before: one or less where cost grows as the work. Minutes; the sweeps of 10^5 many.
"""

import shutil
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.benchmarks.make_speed import JOB, TOPEND, timed  # noqa: E402
from tests.growing import KINDS, job_with  # noqa: E402

SWEEPS = (1, 10, 100, 1000, 10_000, 100_000)
WIDE = 40  # letters of the longest bar


def show(title, rows):
    """Print a row for each number of things."""
    print(f"\n{title:>22}   wall [s]   CPU [s]   memory [MB]")
    most, last = max(run.cpu for _, run in rows), None
    for n, ((count, run), before) in enumerate(zip(rows, [None, *rows], strict=False)):
        each = (run.cpu - before[1].cpu) / (count - before[0]) if before else None
        over = f"{each / last:8.2f}" if n > 1 and last and last > 0 else " " * 8
        bar = "#" * round(WIDE * run.cpu / most)
        print(f"{count:>22} {run.wall:10.2f} {run.cpu:9.2f} {run.memory:13.0f} {over}  {bar}", flush=True)
        last = each


def main(kinds):
    """Go through the kinds that are named, else through all."""
    folder = Path(tempfile.mkdtemp())
    for kind in kinds or (*KINDS, "sweeps"):
        if kind == "sweeps":
            show("sweep, variants", [(count, sweep(count, folder)) for count in SWEEPS])
            continue
        counts = KINDS[kind][1]
        files = {count: folder / f"{kind}-{count}.toml" for count in counts}
        for count, file in files.items():
            file.write_text(job_with(kind, count), encoding="utf-8")
        show(f"check, {kind}", [(n, timed((*TOPEND, "check", file), (0, 1))) for n, file in files.items()])
        made = [(n, timed((*TOPEND, "make", file, "--into", folder / f"m{n}"), (0, 1))) for n, file in files.items()]
        show(f"make, {kind}", made)
        for n in counts:
            shutil.rmtree(folder / f"m{n}")
    shutil.rmtree(folder)


def sweep(count, folder):
    """One key over so many values, as a table."""
    table = folder / f"{count}.csv"
    values = f"gasket.thickness=1.00001..{1 + count / 100_000:.5f}mm/0.00001"
    return timed((*TOPEND, "compare", JOB, "--vary", values, "--csv", table), (0, 1))


if __name__ == "__main__":
    main(sys.argv[1:])

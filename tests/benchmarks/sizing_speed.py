"""How fast sizing is: python tests/benchmarks/sizing_speed.py. Ratios are of runs in turn, so that a busy machine shows less."""

import subprocess
import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, process_time

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from parts.comparing.compare import vary_job  # noqa: E402
from parts.comparing.sweep import read_varied  # noqa: E402
from parts.job import load  # noqa: E402
from parts.job.examples import demo_text  # noqa: E402
from parts.judging.findings import judge  # noqa: E402
from parts.sizing import size  # noqa: E402
from tests.unknowns.jobs import SEVEN  # noqa: E402

DEMO = ROOT / "parts" / "job" / "examples" / "demo.toml"
GRIDS = (
    ["gasket.thickness=0.801..1.8mm/0.001"],
    ["ring.slit=0.2001..0.3mm/0.0001"],
    ["gasket.thickness=0.81..2.05mm/0.05", "head.chamber_volume=22.01..26.9cm^3/0.125"],
)

KNOWN = '{ stud = "unknown", head = "180 degC", barrel = "130 degC", ring = "200 degC", bore_wall = "140 degC" }'
"""of the run-up, so that of the worked job ten figures are not known"""


def seconds(call, runs=21):
    """Median time of a call [s]."""
    times = []
    for _ in range(runs):
        start = perf_counter()
        call()
        times.append(perf_counter() - start)
    return median(times)


def process(*command):
    """Time of a whole process [s]; a job with a stop ends with 1."""
    start = perf_counter()
    subprocess.run([sys.executable, *command], cwd=ROOT, stdout=subprocess.DEVNULL, check=False)
    return perf_counter() - start


def main():
    """Print the figures."""
    text = demo_text()
    job = load(text)
    size(job)
    alone = seconds(lambda: size(job, contact=False))
    full = seconds(lambda: size(job))
    judged = seconds(lambda: judge(size(job, contact=False), job)) - alone
    print(
        f"sizing without contact  {1e3 * alone:8.2f} ms; all of it, solved before {1e3 * full:.2f} ms; findings {1e3 * judged:.2f} ms"
    )
    for grid in GRIDS:
        varied = [read_varied(one) for one in grid]
        start, busy = perf_counter(), process_time()
        count = len(vary_job(text, varied).cases)
        took, busy = perf_counter() - start, process_time() - busy
        print(f"{count} variants  {took:8.2f} s ({busy:.2f} s of the processor)   {' '.join(grid)}")
    with TemporaryDirectory() as folder:
        unknown = Path(folder) / "unknown.toml"
        unknown.write_text(SEVEN["worked"], encoding="utf-8")
        ten = Path(folder) / "ten.toml"
        ten.write_text(SEVEN["worked"].replace('run_up = "unknown"', f"run_up = {KNOWN}"), encoding="utf-8")
        for name, command in (
            ("check", ("check", str(DEMO))),
            ("check, fourteen figures not known", ("check", str(unknown))),
            ("advise", ("advise", str(DEMO))),
            ("--help", ("--help",)),
        ):
            pairs = [(process("-m", "cli.main", *command), process("-c", "import cadquery")) for _ in range(5)]
            print(f"{name} over import cadquery  {median(a / b for a, b in pairs):.3f}")
        each = [
            ("-m", "cli.main", "check", str(ten)),
            ("-m", "cli.main", "check", str(DEMO)),
            ("-c", "import cadquery"),
        ]
        triples = [tuple(process(*command) for command in each) for _ in range(9)]
        print(f"ranges of ten figures over import cadquery  {median((a - b) / c for a, b, c in triples):.3f}")


if __name__ == "__main__":
    main()

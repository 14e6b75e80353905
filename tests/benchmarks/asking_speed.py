"""How fast the page answers: python tests/benchmarks/asking_speed.py. Runs in turn, so that a busy machine shows less."""

import re
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median
from time import perf_counter
from urllib.request import Request, urlopen

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from parts.job.examples import demo_text  # noqa: E402

RUNS = 5


def importing():
    """Time of `import cadquery` in a process of its own [s]."""
    start = perf_counter()
    subprocess.run([sys.executable, "-c", "import cadquery"], check=True)
    return perf_counter() - start


def asking(folder):
    """From the command to the first page, and from an answer that was never given before to its findings [s]."""
    start = perf_counter()
    command = [sys.executable, "-m", "cli.main", "ask", "mine.toml", "--no-browser"]
    with subprocess.Popen(command, cwd=folder, env={"PYTHONPATH": str(ROOT)}, stdout=subprocess.PIPE, text=True) as run:
        with urlopen(run.stdout.readline().strip()) as answer:  # noqa: S310 - our own server
            answer.read()
            cookie = answer.headers["set-cookie"].partition(";")[0]
            url = answer.url.partition("?")[0]
        first, times = perf_counter() - start, []
        for n in range(9):
            body = f"question=stud.shank&stud.shank={6.0 + 0.013 * n:.3f}+mm".encode()
            begun = perf_counter()
            with urlopen(Request(f"{url}try", body, {"Cookie": cookie})) as answer:  # noqa: S310
                assert re.search('data-finding="joint.proof_use"', answer.read().decode())
            times.append(perf_counter() - begun)
        run.terminate()
    return first, median(times)


def main():
    """Print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "mine.toml").write_text(demo_text(), encoding="utf-8")
        found = [(importing(), *asking(folder)) for _ in range(RUNS)]
    for what, at, most in (("first page", 1, 0.3), ("answer to findings", 2, 0.1)):
        ratios = sorted(one[at] / one[0] for one in found)
        seconds = sorted(one[at] for one in found)
        print(
            f"{what:20} {seconds[0]:.3f} / {median(seconds):.3f} s; of `import cadquery` {ratios[0]:.2f} / {median(ratios):.2f}, at most {most}"
        )


if __name__ == "__main__":
    main()

"""How fast `topend watch` follows a save, against loading the kernel; then whether it keeps memory, where asked to.

    python tests/benchmarks/watch_speed.py [REMAKES]

One save after another of the worked job, in turn with `import cadquery` in a process of its own, so that whatever else
the machine does falls on both; a ratio is that of two runs side by side. Least and middle of five. With REMAKES as many
more saves follow, and the memory of both processes after a tenth of them is held against that after the last. Linux.
"""

import os
import re
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from parts.job.examples import demo_text  # noqa: E402

RUNS = 5
SAVES = {  # what is changed, pattern of the line, what stands in it then
    "plug": (r'stands_proud = ".*?"', 'stands_proud = "0.3{:02} mm"'),
    "stud": (r'shank = ".*?"', 'shank = "6.2{:02} mm"'),
    "gasket": (r'bore_clearance = ".*?"', 'bore_clearance = "1.{:02} mm"'),
    "ring": (r'facing = ".*?"', 'facing = "1.{:02} mm"'),
    "all parts": (r'title = ".*?"', 'title = "Sprayer {:02}"'),
}


def importing():
    """Time of `import cadquery` in a process of its own, by the clock and of the processor [s]."""
    start, before = time.perf_counter(), os.times()
    subprocess.run([sys.executable, "-c", "import cadquery"], check=True)
    after = os.times()
    used = after.children_user + after.children_system - before.children_user - before.children_system
    return time.perf_counter() - start, used


class Watching:
    """A watch at work on the worked job."""

    def __init__(self, folder):
        self.job, self.count = Path(folder) / "mine.toml", 0
        self.job.write_text(demo_text(), encoding="utf-8")
        command = [sys.executable, "-m", "cli.main", "watch", "mine.toml", "--no-browser"]
        self.run = subprocess.Popen(
            command, cwd=folder, env={**os.environ, "PYTHONPATH": str(ROOT)}, stdout=subprocess.PIPE, text=True
        )
        self.until("made")

    def until(self, start):
        """Wait for a line; return when the first one came, and what stands in the last [s]."""
        first = None
        for line in self.run.stdout:
            first = first or time.perf_counter()
            if line.startswith(start):
                return first, line
        raise SystemExit("it has ended")

    def saved(self, what):
        """From a save to what is told first of it, to its files, by the clock and of both processors [s]; what was made."""
        pattern, line = SAVES[what]
        self.count += 1
        text = re.sub(pattern, line.format(1 + self.count % 97), self.job.read_text(encoding="utf-8"), count=1)
        begun, before = time.perf_counter(), self.used()
        self.job.write_text(text, encoding="utf-8")
        told, made = self.until("made")
        return told - begun, time.perf_counter() - begun, self.used() - before, made.strip().removeprefix("made: ")

    def each(self, what, field):
        """A field of the system's account of the watch and of its kernel."""
        children = Path(f"/proc/{self.run.pid}/task/{self.run.pid}/children").read_text().split()
        texts = [
            Path(f"/proc/{pid}/{what}").read_text().rpartition(")")[2].split() for pid in (self.run.pid, *children)
        ]
        return [sum(int(text[n]) for n in field) for text in texts]

    def used(self):
        """Time of the processor [s]."""
        return sum(self.each("stat", (11, 12))) / os.sysconf("SC_CLK_TCK")

    def memory(self):
        """Of the watch and of its kernel [MB]."""
        return [n * os.sysconf("SC_PAGESIZE") / 1e6 for n in self.each("statm", (1,))]

    def end(self):
        """Time until it has ended [s]."""
        begun = time.perf_counter()
        self.run.send_signal(signal.SIGINT)
        assert self.run.wait() == 0
        return time.perf_counter() - begun


def row(what, figure, ours, others):
    ratios = [a / b for a, b in zip(ours, others, strict=True)]
    cells = [f"{min(v):.2f} / {median(v):.2f}" for v in (ours, others, ratios)]
    print(f"| {what} | {figure} [s] | {' | '.join(cells)} |")


def main(remakes):
    with tempfile.TemporaryDirectory() as folder:
        watch = Watching(folder)
        watch.saved("plug")  # what is loaded only once
        print("| what, against `import cadquery` | figure | ours | the other | ratio |\n|---|---|---|---|---|")
        for what in SAVES:
            found = [(*watch.saved(what), *importing()) for _ in range(RUNS)]
            told, files, used, made, others, theirs = zip(*found, strict=True)
            if what != "all parts":  # of which nothing is told: no size moves
                row(f"{what}: save to findings", "wall", told, others)
            row(f"{what}: save to {made[-1]}", "wall", files, others)
            row("the same", "CPU", used, theirs)
        memory = []
        for _ in range(remakes):
            watch.saved(list(SAVES)[watch.count % len(SAVES)])
            memory.append(watch.memory())
        if remakes:
            print("memory [MB] of watch and kernel, after a tenth and at the end:", memory[remakes // 10], memory[-1])
        print(f"ended after {watch.end():.2f} s")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 0)

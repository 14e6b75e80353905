"""python -m tests.second_model demo [FILE] | choices | draw SEED | check N"""

import sys
from pathlib import Path
from . import CHOICES, draw, effects, read, sizes, verdicts

DEMO = Path(__file__).parents[2] / "parts" / "job" / "examples" / "demo.toml"


def show(job):
    s = sizes(job)
    for name, v in s.items():
        text = (
            f"{len(v)} points, {v[0]} .. {v[-1]}"
            if isinstance(v, list)
            else f"{v:.9g}"
            if isinstance(v, float)
            else str(v)
        )
        print(
            f"{name:40s} {text:>16s}  = {s.formula[name]}" + (f"   [open: {s.doubt[name]}]" if name in s.doubt else "")
        )
    for name, lack in s.left.items():
        print(f"left out: {name}: {lack}")
    print()
    for name, (v, why) in verdicts(job).items():
        print(f"{v:8s} {name:28s} {why}")


def main(argv):
    what = argv[1] if len(argv) > 1 else "demo"
    if what == "demo":
        show(read(Path(argv[2] if len(argv) > 2 else DEMO).read_text()))
    elif what == "draw":
        print(draw(int(argv[2])))
    elif what == "choices":
        for key, other, size, change in effects(read(DEMO.read_text())):
            options, what, why = CHOICES[key]
            print(f"{key:20s} {what}: {options[0]} taken, not {other}: {size} {change:+.3g} %  ({why})")
    elif what == "check":
        count = {}
        for seed in range(int(argv[2])):
            job = read(draw(seed, unknown=seed % 5 == 0))
            for v in verdicts(job).items():
                key = (
                    v[0].replace("front.", "").replace("rear.", "").replace("top.", "").replace("second.", ""),
                    v[1][0],
                    v[1][1].startswith("not judged"),
                )
                count[key] = count.get(key, 0) + 1
        for k, n in sorted(count.items()):
            print(n, *k)


main(sys.argv)

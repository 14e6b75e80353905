"""Seven jobs in which what nobody can measure is not known, and draws from its ranges."""

import re
from pathlib import Path

from parts.job.examples import demo_text

JOBS = Path(__file__).parents[1] / "jobs"
KEYS = ("peak_pressure", "friction", "bond_strength", "set_fraction")
HOT = re.compile(r"^\[engine\.(hot|run_up|hot_stop)\].*\n(?:[^\[\n].*\n|\n)*", re.MULTILINE)
ROUND_TWO = """
# An invented two-stroke in inches: the spray pump's engine, aluminium barrel, four studs into it.
[job]
title = "Spray pump engine: two-stroke, aluminium barrel"
print_units = "inch"

[engine]
cycle = "two-stroke"
bore = "1 3/8 in"
stroke = "1 1/4 in"
peak_pressure = "unknown"
hot = "unknown"
run_up = "unknown"

[barrel]
material = { name = "sand cast, my own", family = "aluminium" }
outline = { rectangle = ["3 in", "3 in"], corner = "1/4 in" }
deck_depth = "1 1/4 in"

[head]
material = { name = "scrap piston, remelted", family = "aluminium", yield_strength = "UNKNOWN " }
thickness = "3/4 in"
boss = "5/8 in"
hole_diameter = "0.266 in"
holes = { circle = "2.2 in", count = 4, first = "45 deg" }
joint_face = "1.75 in"
located_by = "spigot"

[stud]
tap_end = "1/4-20 UNC"
nut_end = "1/4-28 UNF"
material = "42CrMo4 +QT"
shank = "0.205 in"
preload_share = 0.35
engagement = "2 d"

[gasket]
material = "copper, annealed"
thickness = "0.032 in"
"""


def unknown(text, *keys):
    """A job's text with the values of such keys not known, wherever they stand."""
    return re.sub(rf'\b({"|".join(keys)}) = (?:"[^"]*"|[\d.]+)', r'\1 = "unknown"', text)


def nothing_measured(text):
    """A job's text as of somebody who has read no gauge: no pressure, no temperature, no friction, no set."""
    hot = "".join(f'{found[1]} = "unknown"\n' for found in HOT.finditer(text))
    return unknown(HOT.sub("", text), *KEYS).replace("[engine]\n", f"[engine]\n{hot}")


SEVEN = {
    "worked": nothing_measured(demo_text()),
    "worked, its friction and set as usual": re.sub(r"friction = 0\.14\n|, set_fraction = 0\.95", "", demo_text()),
    **{path.stem: nothing_measured(path.read_text(encoding="utf-8")) for path in sorted(JOBS.glob("*.toml"))},
    "two-stroke": ROUND_TWO,
}


def drawn(job, rng):
    """Values for all that is not known in a job: anywhere in their ranges, at an end as often as not."""
    out = {}
    for path, known in job.unknown.items():
        ends = rng.choice(
            ((known.low, known.low), (known.high, known.high), (known.low, known.high), (known.low, known.high))
        )
        out[job.in_the_book(path)] = rng.uniform(*ends)
    return out

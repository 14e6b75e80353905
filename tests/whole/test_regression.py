"""What jobs of every kind came to before: our own regression figures, which say that something changed, not what is right.

`tests/jobs/drawn` holds jobs that were drawn once from the models and from the second model's matrix, and chosen so that between
them they pass every line of the sizing and the judging several times. Of each is kept, by subject, a sum of its sizes with their
limits and sources, of what they lack, of the shapes, and of the findings in their words.
A change that is meant: look at what moved, then `python tests/whole/test_regression.py` writes the sums anew.
"""

import json
import re
from hashlib import sha256
from pathlib import Path

import pytest

from parts.book import record
from parts.checked import judged
from parts.job import load

DRAWN = Path(__file__).parents[1] / "jobs" / "drawn"
SUMS = DRAWN / "sums.json"
FIGURE = re.compile(r"\d+\.\d+(e-?\d+)?")


def subjects(path):
    """Lines of all that a job comes to, by subject."""
    done, out = judged(load(path.read_text(encoding="utf-8")), ranges=False).now, {}
    for name, size in record(done.book).items():
        told = f"{name} = {size['value']} {size['unit']}, {size['limits']}, {size['status']}, {size['source']}"
        out.setdefault(name.partition(".")[0], []).append(told)
    for name, lacks in done.book.left_out.items():
        out.setdefault(name.partition(".")[0], []).append(f"{name} lacks {lacks}")
    for found in done.findings:
        told = f"{found.name}: {found.verdict}, {found.value}, {found.limit}, {found.past}, {found.says}"
        out.setdefault(f"findings on {found.name.partition('.')[0]}", []).append(told)
    return out | {f"shape of {stem}": [repr(shape)] for stem, shape in done.shapes.items()}


def sums(told):
    """A sum of each subject's lines, their figures to nine digits: the last ones are each processor's own."""
    short = {s: FIGURE.sub(lambda one: f"{float(one[0]):.9g}", "\n".join(sorted(lines))) for s, lines in told.items()}
    return {subject: sha256(lines.encode()).hexdigest()[:8] for subject, lines in short.items()}


@pytest.mark.parametrize("name", sorted(path.stem for path in DRAWN.glob("*.toml")))
def test_a_drawn_job_comes_to_what_it_came_to(name):
    told = subjects(DRAWN / f"{name}.toml")
    now, before = sums(told), json.loads(SUMS.read_text(encoding="utf-8"))[name]
    moved = sorted(subject for subject in {*now, *before} if now.get(subject) != before.get(subject))
    assert not moved, {subject: told.get(subject, "is gone") for subject in moved}


if __name__ == "__main__":
    kept = {path.stem: sums(subjects(path)) for path in sorted(DRAWN.glob("*.toml"))}
    rows = [f'"{name}": {json.dumps(of, sort_keys=True)}' for name, of in kept.items()]
    SUMS.write_text("{\n" + ",\n".join(rows) + "\n}\n", encoding="utf-8")

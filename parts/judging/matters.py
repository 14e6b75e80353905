"""What each finding is about, the matters that could hurt somebody first: so that one matter is told in one place."""

from __future__ import annotations

from fnmatch import fnmatchcase
from itertools import groupby
from typing import TYPE_CHECKING

from parts.fixtures import FIXTURES

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from parts.judging.finding import Finding

TO_DO = "To be done in any case, nothing to choose"
REST = "Other"
MATTERS = (  # what it is about, names of its findings; the first that fits
    ("What was made", ("made.*",)),
    (TO_DO, ("deck.order", "joint.crankcase")),
    ("Threads beside old holes, and their filling", (
        "deck.hole.*.in_filler", "deck.hole.*.unsound", "deck.hole.*.screwed_plug", "strip*.sound_force", "deck.old.*",
    )),
    ("The studs, and what holds them", ("joint.*", "stud.*", "strip.*", "turning.*", "insert.*", "tapped.*")),
    ("The joint on the crankcase", ("base.*", "through.*", "job.base.*")),
    ("The blanking plug", ("plug.*", "assembly.*plug.*", "job.plug.*", "job.engine.*.barrel")),
    ("The gasket", ("gasket.*",)),
    ("The deck", ("deck.*", "barrel.*", "liner.*")),
    ("The head on this barrel", ("head.*", "drop.*", "fit.*", "compression.*", "job.head.*", "assembly.*")),
    ("Ports", ("port.*", "engine.ports", "job.engine.ports.*")),
    ("The rings and their mandrel", ("ring.*", "mandrel.*", "job.ring.*")),
    ("What holds the work", tuple(f"{table}.*" for table in FIXTURES)),
    ("What was measured", ("measured.*",)),
    ("Not judged", ("not_judged.*", "unknown.*")),
)  # fmt: skip


def matter_of(name: str) -> str:
    """What a finding of this name is about.

    >>> matter_of("joint.front.proof_use"), matter_of("job.engine.hot.barrel")
    ('The studs, and what holds them', 'The blanking plug')
    """
    return next((title for title, names in MATTERS if any(fnmatchcase(name, known) for known in names)), REST)


def by_matter(found: Iterable[Finding]) -> Iterator[tuple[str, list[Finding]]]:
    """Findings of one verdict, those of one matter together: what could hurt first, what is to be done anyway last."""
    order = [title for title, _ in MATTERS if title != TO_DO] + [REST, TO_DO]
    ranked = sorted(found, key=lambda f: order.index(matter_of(f.name)))
    for title, some in groupby(ranked, key=lambda f: matter_of(f.name)):
        yield title, list(some)

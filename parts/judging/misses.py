"""What was measured of the work, judged: inside its limits, outside and stands, outside and can be saved, or scrap.

A size is held against the limits that the sheets print. Outside them, whatever rests on it is looked at: findings that
are worse than planned are named, the sizes that moved most are told, and what to do next comes from the size's own
function in `saves.py`, or from the side on which there is metal left.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.finding import WORST
from parts.judging.limits import INSIDE, SAVED, SCRAP, STANDS
from parts.judging.miss import Miss
from parts.judging.rules import RULES
from parts.judging.saves import answer
from parts.sizing.scenes import scene_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from parts.book import Book
    from parts.job import Job
    from parts.judging.finding import Finding

VERDICT = {INSIDE: "ok", STANDS: "caution", SAVED: "caution", SCRAP: "stop"}
WATCHED = {rule.size: f"{rule.what[:1].lower()}{rule.what[1:]}" for rule in RULES if "*" not in rule.size} | {
    "compression.ratio_after": "compression ratio",
    "joint.preload": "preload of a stud",
    "ring.tangential_force": "ring's tangential force",
    "plug.hold_force": "hold of the plug",
    "stud.stress_area": "stress area of the nut end",
    "mandrel.open_gap": "ring's gap on the mandrel",
    "ring.outside_diameter": "ring blank",
    "plug.diameter": "plug",
    "stud.tap_end_length": "tap end",
}
"""sizes that a bench asks after -> what they are"""
MOST = 4
LEAST_CHANGE = 1e-3  # of a size, to be worth a word


def misses(book: Book, job: Job, found: Sequence[Finding], planned: Sequence[Finding]) -> Iterator[Miss]:
    """Give every size that was measured, in the order of the file, with what got worse by it.

    Parameters
    ----------
    book : Book
        As made, with its `plan`
    job : Job
        As made
    found, planned : list of Finding
        On what was made, and on the plan
    """
    if book.plan is None:
        return
    was: dict[str, int] = {}
    for f in planned:
        was[f.name] = max(was.get(f.name, 0), WORST[f.verdict])
    for name in (n for n, entry in book.made.items() if entry.status == "made" and not _an_end(n, book)):
        roots = _roots(book, name)
        worse = [f for f in found if WORST[f.verdict] > was.get(f.name, 0) and book.rests_on(f.name, roots)]
        view, own, _ = scene_of(book, job, name)
        yield Miss(view, view.plan or view, own, view.local(name), tuple(dict.fromkeys(worse)))


def _an_end(name: str, book: Book) -> bool:
    """Tell whether a name is but one of the two limits of a size that was measured."""
    return any(name.endswith(end) and name.removesuffix(end) in book.made for end in ("_min", "_max", "_low", "_high"))


def _roots(book: Book, name: str) -> list[str]:
    """The size under all its names, and what was put in because of it."""
    follow = (n for n, entry in book.made.items() if book.real(name) in entry.inputs.values())
    return [name, name + "_min", name + "_max", *follow]


def verdict(miss: Miss) -> tuple[str, str]:
    """Which of the four it is, and what to do next.

    Returns
    -------
    verdict, then : str, str
        One of INSIDE, STANDS, SAVED, SCRAP; a sentence, empty where there is nothing to do
    """
    limits = miss.limits
    if limits is not None and not miss.by:
        return INSIDE, ""
    own = answer(miss)
    if own:
        return own
    if limits is not None and limits.saved(miss.value):
        how = "take off" if limits.metal > 0 else "open it by"
        return (
            SAVED,
            f"there is metal left: {how} {miss.show(abs(miss.by), miss.book[miss.name].unit)} or a little more",
        )
    if miss.stopped:
        return SCRAP, "make it again"
    return STANDS, "look at what is named, then leave it" if miss.worse else "leave it, and write it on the sheet"


def said(miss: Miss) -> tuple[str, str]:
    """One sentence on a measured size, and its verdict: how far off it is, what that changes, what to do next."""
    kind, then = verdict(miss)
    unit = miss.book[miss.name].unit
    parts = [f"{miss.book.real(miss.name)} came out at {miss.show(miss.value, unit)}, {_against(miss, unit)}{kind}"]
    if kind != INSIDE:
        if changed := _changes(miss):
            parts.append(f"it moves {', '.join(changed)}")
        parts += [f"now a {f.verdict}: {f.says.partition(':')[0]}" for f in miss.worse]
    if then:
        parts.append(f"next: {then}")
    return VERDICT[kind], "; ".join(parts)


def _against(miss: Miss, unit: str) -> str:
    if miss.limits is None:
        return "nothing limits it: "
    ends = (("at least", miss.limits.low), ("at most", miss.limits.high))
    wanted = " and ".join(f"{word} {miss.show(end, unit)}" for word, end in ends if end is not None)
    off = f", {miss.show(abs(miss.by), unit)} {'under' if miss.by < 0 else 'over'}" if miss.by else ""
    spread = miss.book[miss.name].spread
    if spread and not miss.by and any(miss.limits.miss(miss.value + s) for s in (-spread, spread)):
        off = f", by a reading good to {miss.show(spread, unit)}, so that it may lie beyond"
    return f"wanted {wanted}{off}: "


def _changes(miss: Miss) -> list[str]:
    """The sizes that moved most, of those that a rule or a bench asks after."""
    roots, moved = _roots(miss.book, miss.name), []
    for name, what in ((n, w + which) for local, w in WATCHED.items() for n, which in miss.every(local).items()):
        if (
            name in roots
            or name.startswith("assembly.")
            or not (name in miss.book and name in miss.plan and miss.book.rests_on(name, roots))
        ):
            continue
        was, unit = miss.plan[name].value, miss.book[name].unit
        change = abs(miss.moved(name)) / max(abs(was), 1e-6)
        if change > LEAST_CHANGE:
            moved.append((change, f"{what} from {miss.show(was, unit)} to {miss.size(name)}"))
    return [text for _, text in sorted(moved, key=lambda one: -one[0])[:MOST]]

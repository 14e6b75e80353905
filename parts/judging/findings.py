"""What may stand and what may not.

Every rule on a number stands in RULES, one line each: the size, when it is a caution, when it stops the job, whose rule
it is, what to change. Rules on a choice rather than a number stand in choices.py, one small function each.
"""

from __future__ import annotations

from functools import lru_cache, partial
from typing import TYPE_CHECKING

from parts.judging.choices import CHOICES
from parts.judging.finding import WORST, Finding
from parts.judging.misses import misses, said
from parts.judging.not_judged import not_judged
from parts.judging.rules import RULES
from parts.sizing.scenes import scene_of, scenes_of
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from parts.book import Book
    from parts.errors import Fault
    from parts.job import Job
    from parts.job.instances import Instance
    from parts.judging.miss import Miss
    from parts.judging.rules import Limit, Rule
    from parts.sizing.scenes import Scene

KEPT, WORDS = 128, 2048  # of many variants most have the same sizes, and so the same findings


def judge(book: Book, job: Job) -> list[Finding]:
    """Judge every size that has a rule, every choice, and what was measured of the work: the worst first."""
    return worst_first(in_order(book, job))


def worst_first(found: Iterable[Finding]) -> list[Finding]:
    """Put findings in the order in which they are told."""
    return sorted(found, key=lambda f: -WORST[f.verdict])


def in_order(book: Book, job: Job) -> list[Finding]:
    """As `judge`, in the order of the rules, whatever the verdicts."""
    if book.plan is None or job.made is None:
        return _all(book, job)
    as_made = job.as_made or job
    found = _all(book, as_made)
    told = [_of_miss(miss) for miss in misses(book, as_made, found, _all(book.plan, job))]
    return [*told, *(_impossible(fault) for fault in book.cannot), *found]


def _all(book: Book, job: Job) -> list[Finding]:
    named, whole, of_kind = job.named(), (book, job, None), scenes_of(book, job)
    about, lacking = (judged_by(tuple(names), tuple(named)) for names in (book, book.left_out))
    found = [
        finding
        for rule in RULES
        for name in about[rule.size]
        for scene in ([whole] if not named else of_kind(rule.kind) if rule.kind else [scene_of(book, job, name)])
        if (finding := _worked(rule, name, scene))
    ]
    found += not_judged(book, job, {rule: [*about[rule.size], *lacking[rule.size]] for rule in RULES})
    for kind, choice in CHOICES:
        for view, own, one in of_kind(kind):
            told = view.work(choice, partial(_told, choice, view, view.watch(own)))
            found += [_named(f, one) for f in told if one is None or one.judges(f.name)]
    return found


def _named(found: Finding, one: Instance | None) -> Finding:
    """A finding on one of several of a kind, by its name in the whole book, and saying which."""
    if one is None or one.real(found.name) == found.name:
        return found
    return found._replace(name=one.real(found.name), says=f"{one.said(found.says)} ({one.name})")


def _impossible(fault: Fault) -> Finding:
    """What can't be with the sizes as they came out."""
    says = f"With what was made this can't be: {fault.key} {fault.says}"
    return Finding(f"made.{fault.key}", "stop", None, None, "1", says, "geometry")


def _of_miss(miss: Miss) -> Finding:
    """What was measured of one size, as a finding under `made.<size>`."""
    verdict, says = said(miss)
    limits = miss.limits
    bound = (limits.low if miss.by < 0 else limits.high) if limits else None
    source = limits.source if limits else "as measured"
    name = f"made.{miss.book.real(miss.name)}"
    return Finding(name, verdict, miss.value, bound, miss.book[miss.name].unit, says, source)


@lru_cache(KEPT)
def judged_by(names: tuple[str, ...], instances: tuple[Instance, ...] = ()) -> dict[str, list[str]]:
    """Names that each rule is about: its own, of every instance; where it has a * all that begin and end like them."""
    about, known, by_first = dict[str, list[str]](), set(names), dict[str, list[str]]()
    for name in names:
        by_first.setdefault(name.partition(".")[0], []).append(name)
    for rule in RULES:
        own = dict.fromkeys((rule.size, *(one.real(rule.size) for one in instances if one.judges(rule.size))))
        if "*" not in rule.size:
            about[rule.size] = [n for n in own if n in known]
            continue
        ends = {tuple(name.split("*")) for name in own}
        near = dict.fromkeys(start.partition(".")[0] for start, _ in ends)
        starts = tuple(start for start, _ in ends)
        some = [n for first in near for n in by_first.get(first, ()) if n.startswith(starts)]
        about[rule.size] = [n for n in some if any(n.startswith(start) and n.endswith(end) for start, end in ends)]
    return about


def _told(choice: Callable[[Book, Job], Iterable[Finding]], book: Book, job: Job) -> list[Finding]:
    return list(choice(book, job))


def _worked(rule: Rule, name: str, scene: Scene) -> Finding | None:
    """Judge one size, by its name in the whole book; of a variant as in the first where nothing of it is other."""
    view, job, one = scene
    return view.work((rule, name), partial(_judged, rule, name, (view, view.watch(job), one)))


def _judged(rule: Rule, name: str, scene: Scene) -> Finding | None:
    """Judge one size, by its name in the whole book; None where the rule does not hold, or its limit is not known."""
    view, job, one = scene
    if rule.unless and rule.unless(view, view.local(name)):
        return None
    caution, stop = limit(rule.caution, view), limit(rule.stop, view)
    if caution is None and stop is None:
        return None
    entry = view[name]
    judged = rule.worst if rule.worst in view else name
    which = f" ({one.name})" if one is not None and one.name and (rule.kind or view.local(name) != name) else ""
    size = (view[judged].value, view.spread(judged), entry.unit)
    true = f" ({in_words(entry.value, entry.unit, job.job.print_units)} where all is true)" if judged != name else ""
    found = _found(rule, name, size, (caution, stop), job.job.print_units, which, true)
    return found._replace(says=one.said(found.says)) if which and one is not None else found


@lru_cache(WORDS)
def _found(
    rule: Rule,
    name: str,
    size: tuple[float, float, str],
    limits: tuple[float | None, float | None],
    system: str,
    which: str = "",
    true: str = "",
) -> Finding:
    """Judge a size [value, half width, unit] by its limits [caution, stop], with the half width against it."""
    (value, spread, unit), (caution, stop) = size, limits
    bad = value - spread if rule.least else value + spread
    verdict = (
        "stop" if beyond(bad, stop, least=rule.least) else "caution" if beyond(bad, caution, least=rule.least) else "ok"
    )
    bound = stop if verdict == "stop" or caution is None else caution
    sign = -1 if rule.least else 1
    past = [None if end is None else sign * (bad - end) for end in (caution, stop)]
    found = f"{in_words(bad, unit, system)}{true}"
    words = _says(rule, name, which, verdict, found, in_words(bound or 0.0, unit, system))
    return Finding(name, verdict, value, bound, unit, words, rule.cited, past=(past[0], past[1]), least=rule.least)


def limit(given: Limit | None, book: Book) -> float | None:
    """Work out a limit: a number, or a share of another size; its floor where that is not in the book."""
    if given is None or isinstance(given, int | float):
        return given
    size = given.size if given.size in book else given.known
    if size not in book:
        return given.floor
    value = float(given.share * book[size].value)
    return value if given.floor is None else max(value, given.floor)


def beyond(value: float, bound: float | None, *, least: bool) -> bool:
    """Tell whether a value is on the wrong side of a bound."""
    return bound is not None and (value < bound if least else value > bound)


def _says(rule: Rule, name: str, which: str, verdict: str, value: str, bound: str) -> str:
    numbers = "".join(f" {part}" for part in name.split(".") if part.isdecimal())
    side = "at least" if rule.least else "at most"
    text = f"{rule.what}{numbers}{which}: {value}, {side} {bound} is wanted"
    return text if verdict == "ok" else f"{text}; {rule.change}"


def in_words(value: float, unit: str, system: str) -> str:
    """Print a value with its unit as the user's sheets do."""
    if system == "inch":
        return printed(value, unit, system)
    return figure(value) if unit == "1" else f"{figure(value)} {unit}"


def figure(value: float) -> str:
    """Print a number as a bench reads it: no places above 1000, three below 0.1.

    >>> figure(1234.5), figure(57.2), figure(0.0), figure(0.005)
    ('1234', '57.20', '0.00', '0.005')
    """
    for least, places in ((1000, 0), (100, 1), (0.1, 2)):
        if abs(value) >= least:
            return f"{value:.{places}f}"
    return f"{value:.3f}" if round(value, 3) else "0.00"

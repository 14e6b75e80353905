"""What the readings of [measured] are worth: one small function each, all of them in MEASURED_CHOICES."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from parts.judging.finding import Finding
from parts.tables import PRACTICE
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job
    from parts.job.models import Pattern

TEST = "W. Baarda, A testing procedure for use in geodetic networks, 1968: 1 in 1000 by chance (memory)"
SQUARES = "Gauss: weighted least squares; two standard errors"
HOLES = {"old": "the old holes", "new": "the head's holes"}
CALLED = {"rectangle": "a rectangle", "circle": "an even circle", "points": "points"}
TIED = 0.99  # of the worst: two readings that check each other alone can't be told apart


def readings_agree(book: Book, job: Job) -> Iterator[Finding]:
    """A reading that does not fit the rest is named."""
    for name in _fitted(book):
        base, holes = f"measured.{name}", HOLES[name]
        misfit = _misfits(book, base)
        if not misfit:
            says = (
                f"Nothing checks the readings of {holes}: there are just as many as it takes, and a wrong one "
                "would not show; take some more, like a diagonal"
            )
            yield Finding(f"{base}.fit", "caution", book[f"{base}.spare"].value, 1.0, "1", says, TEST)
            continue
        worst = _worst(misfit)
        tied = [n for n in misfit if misfit[n] >= TIED * misfit[worst]]
        off = book[f"{base}.reading.{worst}.off"].value
        chance = abs(off) / misfit[worst] if misfit[worst] else None
        far = printed(abs(off), "mm", job.job.print_units)
        together, verdict = book[f"{base}.together"].value, "caution"
        named = len(tied) == 1 and misfit[worst] > 1
        if misfit[worst] <= 1 and together <= 1:
            says = f"The readings of {holes} agree: none is further than {far} off what the others say"
            verdict = "ok"
        elif not (named and _others_agree(book, base)) and (misfit[worst] <= 1 or _fits_as_points(book, base)):
            says = _contradict(book, base, holes, getattr(job.measured, name).form)
        elif not named:
            says = (
                f"Readings {_listed(tied)} of {holes} do not agree, by up to {far}: one of them is off, and only one "
                "more reading tells which; measure them again, and another distance"
            )
        else:
            says = f"Reading {worst} of {holes} ({_written(job, name, worst)}) is {far} off what the others say: measure it again{_does(book, base, job)}"
        yield Finding(f"{base}.fit", verdict, off, chance, "mm", says, TEST)


def _others_agree(book: Book, base: str) -> bool:
    return f"{base}.worst.rest" in book and book[f"{base}.worst.rest"].value <= 1


def _fits_as_points(book: Book, base: str) -> bool:
    return f"{base}.as_points" in book and book[f"{base}.as_points"].value <= 1


def _contradict(book: Book, base: str, holes: str, form: str) -> str:
    """What readings say that are together further off than chance allows, and which form would fit."""
    times = f"{book[f'{base}.together'].value:.1f} times as far off as their tolerances allow"
    says = f"The readings of {holes} contradict each other as {CALLED[form]}: together they are {times}"
    if _fits_as_points(book, base):
        return (
            f'{says}. With form = "points" they agree: the holes are no {form}; give that form, and see that no drill '
            "ran off before you copy them"
        )
    return (
        f"{says}; measure again, from other holes too, diagonals first: then the reading or the form that is off shows"
    )


def _misfits(book: Book, base: str) -> dict[int, float]:
    """Misfit of each reading that others check, by its number."""
    numbers = _numbers(book, base)
    return {n: book[name].value for n in numbers if (name := f"{base}.reading.{n}.misfit") in book}


def _worst(misfit: dict[int, float]) -> int:
    """Reading of the largest misfit, the first of equals on every processor."""
    return max(misfit, key=lambda n: round(misfit[n], 6))


def _numbers(book: Book, base: str) -> list[int]:
    out: list[int] = []
    while f"{base}.reading.{len(out) + 1}.residual" in book:
        out.append(len(out) + 1)
    return out


def _fitted(book: Book) -> list[str]:
    return [name for name in HOLES if f"measured.{name}.rms" in book]


def _listed(numbers: list[int]) -> str:
    return f"{', '.join(map(str, numbers[:-1]))} and {numbers[-1]}"


def _written(job: Job, name: str, number: int) -> str:
    """A reading in the user's own words."""
    given = getattr(job.measured, name).readings[number - 1]
    if given.at is not None:
        what = "the bore" if given.hole == "bore" else f"hole {given.hole}"
        return f"X and Y of {what}"
    between = f"{given.kind} {given.wall}" if given.kind == "wall" else f"{given.kind} {_listed(list(given.names))}"
    return f"{between}, {given.reads.written}"


def _does(book: Book, base: str, job: Job) -> str:
    """What the worst reading does to the pattern, and how the others fare without it."""
    if f"{base}.worst.moves" not in book:
        return ""
    moves = printed(book[f"{base}.worst.moves"].value, "mm", job.job.print_units)
    rest = "the others agree" if book[f"{base}.worst.rest"].value <= 1 else "even the others do not agree"
    return f"; it moves the holes by up to {moves}, and without it {rest}"


def readings_are_checked(book: Book, _: Job) -> Iterator[Finding]:
    """A reading that no other checks may be wrong and not show."""
    for name in _fitted(book):
        base = f"measured.{name}"
        checked, numbers = _misfits(book, base), _numbers(book, base)
        bare = [n for n in numbers if n not in checked]
        if not checked or not bare:
            continue
        which = f"reading {bare[0]}" if len(bare) == 1 else f"readings {_listed(bare)}"
        says = f"Nothing checks {which} of {HOLES[name]}: a slip there would not show; take it twice, or another that shares its holes"
        yield Finding(f"{base}.unchecked", "caution", float(len(bare)), 0.0, "1", says, TEST)


def pattern_centre(book: Book, job: Job) -> Iterator[Finding]:
    """Holes are drilled from the centre of the bore, wherever the pattern's own middle lies."""
    for name in _fitted(book):
        base, names = f"measured.{name}", (f"measured.{name}.centre.x", f"measured.{name}.centre.y")
        if not book.has(*names):
            continue
        if book[names[0]].status == "assumed":
            says = (
                f"No reading tells where the bore lies among {HOLES[name]}: their middle is taken as its centre; "
                "measure from the wall to two holes side by side, or read X and Y of the bore and of the holes"
            )
            yield Finding(f"{base}.centre", "caution", None, None, "1", says, PRACTICE)
            continue
        off, left = _off_centre(book, base)
        x, y, far, open_ = (printed(v, "mm", job.job.print_units) for v in (*(book[n].value for n in names), off, left))
        if off > left:
            says = (
                f"The middle of {HOLES[name]} lies {far} off the bore (X {x}, Y {y}), and the readings leave {open_} "
                "open: the holes are taken one by one from the bore's centre; look whether that is the part, or a reading"
            )
        else:
            says = f"The middle of {HOLES[name]} lies on the bore's centre, as far as the readings tell: within {open_}"
        yield Finding(f"{base}.centre", "caution" if off > left else "ok", off, left, "mm", says, SQUARES)


def pattern_turn(book: Book, _: Job) -> Iterator[Finding]:
    """Distances don't tell a turn about the bore."""
    for name in _fitted(book):
        turn = next((book[n] for k in ("turned", "first") if (n := f"measured.{name}.{k}") in book), None)
        if turn is None or turn.status != "assumed":
            continue
        says = (
            f"No reading tells how {HOLES[name]} are turned about the bore: {turn.value:.2f} deg is taken; give "
            'turned, or set the part square to the machine, read X and Y of two holes and give turned = "as read"'
        )
        yield Finding(f"measured.{name}.turn", "caution", turn.value, None, "deg", says, "geometry")


def pattern_in_use(book: Book, job: Job) -> Iterator[Finding]:
    """The job's own pattern against the readings, or the readings in its place."""
    for name in _fitted(book):
        base, deck = f"measured.{name}", {"old": "deck.old", "new": "deck.hole"}[name]
        key, pattern = _given(job, name)
        line = f"{key} = {written_pattern(book, job, name)}"
        if pattern is None:
            used = f"{deck}.1.x" in book
            says = f"{HOLES[name].capitalize()} are taken from the readings; to keep them, write {line}"
            if not used:
                says = f"{HOLES[name].capitalize()} are fitted, and the job has no [barrel.old_holes] to fill; there they would be {line}"
            yield Finding(f"{base}.pattern", "ok", None, None, "1", says, SQUARES)
            continue
        count = getattr(job.measured, name).holes
        if pattern.holes != count:
            says = f"The job gives {pattern.holes} holes for {HOLES[name]}, and {count} were measured: write {line}"
            yield Finding(f"{base}.pattern", "caution", float(pattern.holes), float(count), "1", says, SQUARES)
            continue
        yield _compared(book, job, (base, deck), count, HOLES[name], line)


def _compared(book: Book, job: Job, bases: tuple[str, str], count: int, holes: str, line: str) -> Finding:
    base, deck = bases
    worst, off, left = 0.0, 0.0, 0.0
    for number in range(1, count + 1):
        names = [(f"{base}.hole.{number}.{k}", f"{deck}.{number}.{k}") for k in "xy"]
        way = hypot(*(book[a].value - book[b].value for a, b in names))
        room = hypot(*(book.spread(n) for pair in names for n in pair))
        if way - room >= worst - left or not number - 1:
            worst, off, left = way, way, room
    far, open_ = (printed(v, "mm", job.job.print_units) for v in (off, left))
    if off > left:
        says = f"The job has {holes} up to {far} from where the readings put them, which leave {open_} open: measure again, or write {line}"
    else:
        says = f"The job has {holes} where the readings put them: {far} apart at the most, and {open_} is left open"
    return Finding(f"{base}.pattern", "caution" if off > left else "ok", off, left, "mm", says, SQUARES)


def _given(job: Job, name: str) -> tuple[str, Pattern | None]:
    """Key of the job file that holds the pattern, and the pattern."""
    if name == "new":
        return "holes", job.head.holes if job.head else None
    return "pattern", job.old.pattern if job.old else None


def _off_centre(book: Book, base: str) -> tuple[float, float]:
    """How far the pattern's middle lies off the bore, and how much of that the readings leave open."""
    names = [n for k in "xy" if (n := f"{base}.centre.{k}") in book]
    return hypot(*(book[n].value for n in names)), hypot(*(book.spread(n) for n in names))


def written_pattern(book: Book, job: Job, name: str) -> str:
    """A fitted pattern as the job file has it."""
    base, given = f"measured.{name}", getattr(job.measured, name)

    def text(key: str, unit: str = "mm") -> str:
        spread = f" ± {book.spread(f'{base}.{key}'):.3f} {unit}" if book.spread(f"{base}.{key}") >= 0.0005 else ""  # noqa: PLR2004
        return f'"{book[f"{base}.{key}"].value:.3f} {unit}{spread}"'

    off, left = _off_centre(book, base)
    if given.form == "points" or off > left:
        places = ", ".join("[{}, {}]".format(*(text(f"hole.{n}.{k}") for k in "xy")) for n in range(1, given.holes + 1))
        return f"{{ points = [{places}] }}"
    if given.form == "circle":
        return f"{{ circle = {text('circle')}, count = {given.holes}, first = {text('first', 'deg')} }}"
    return f"{{ rectangle = [{text('side_x')}, {text('side_y')}], turned = {text('turned', 'deg')} }}"


def machine_agrees(book: Book, job: Job) -> Iterator[Finding]:
    """What was touched off lies on the deck as on the scales."""
    base = "measured.machine"
    if f"{base}.rms" not in book or job.measured is None or job.measured.machine is None:
        return
    misfit, touched = _misfits(book, base), [t.hole for t in job.measured.machine.readings]
    longer = book[f"{base}.distance_off"].value
    apart = printed(abs(longer), "mm", job.job.print_units)
    worst = _worst(misfit)
    off = book[f"{base}.reading.{worst}.off"].value
    chance = off / misfit[worst] if misfit[worst] else None
    tied = [n for n in misfit if misfit[n] >= TIED * misfit[worst]]
    far = printed(off, "mm", job.job.print_units)
    turn = printed(book[f"{base}.turn"].value, "deg", job.job.print_units)
    together = book[f"{base}.together"].value
    verdict = "caution" if max(misfit[worst], together) > 1 else "ok"
    if verdict == "ok":
        says = f"The deck lies turned {turn} on the machine; the distance on the scales and on the deck agree within {apart}"
    elif misfit[worst] <= 1:
        says = (
            f"What was touched off lies {together:.1f} times as far from where the deck has it as chance allows, and no one of "
            "them alone: is it this barrel, these holes, and the scales' own unit? Touch off again before you drill"
        )
    elif len(tied) > 1:
        way = "longer" if longer > 0 else "shorter"
        says = (
            f"The distance on the scales is {apart} {way} than on the deck: touch off "
            f"{' and '.join(touched[n - 1] for n in tied)} again, and a third hole tells which is off"
        )
    else:
        says = f"{touched[worst - 1]} is {far} off where the others put it on the machine: touch it off again before you drill"
    yield Finding(f"{base}.fit", verdict, off, chance, "mm", says, TEST)


MEASURED_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("", readings_agree),
    ("", readings_are_checked),
    ("", pattern_centre),
    ("", pattern_turn),
    ("", pattern_in_use),
    ("", machine_agrees),
]

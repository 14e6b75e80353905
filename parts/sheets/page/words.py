"""How the page prints sizes: in the job's own units, with their limits."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from parts import tables
from parts.judging.limits import ENDS, is_general, limits_of
from parts.sizing.scenes import scenes
from parts.units import IN_INCHES, INCH, printed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.book import Book
    from parts.job import Job

SAME_DRILL = 1e-3  # mm
SIGNS = {"degC": "°C", "degF": "°F", "^2": "²", "^3": "³", "um/m/K": "µm/m/K"}
SIXTEENTHS = 16  # of an inch, to which a length of stock is rounded up


@dataclass(frozen=True, slots=True)
class Words:
    """The job's book, read aloud."""

    book: Book
    job: Job
    whole: Words | None = None
    """of the whole job, where these are of one of several of a kind"""

    def each(self, kind: str) -> list[Words]:
        """The words of each stud, plug, ring or table of old holes; these where there is none, or no such kind."""
        base = self.whole or self
        return [Words(book, job, base) for book, job, _ in scenes(base.book, base.job, kind)]

    @property
    def name(self) -> str:
        """Which of its kind; empty for the plain table and for the whole job."""
        return self.book.suffix.removeprefix("-")

    def named(self, what: str) -> str:
        """Say which of its kind something is or is for."""
        return f"{what}, {self.name}" if self.name else what

    @property
    def system(self) -> str:
        """Metric or inch."""
        return self.job.job.print_units

    @property
    def unit(self) -> str:
        """Unit of length."""
        return "in" if self.system == "inch" else "mm"

    def has(self, *names: str) -> bool:
        """Tell whether all of these sizes are known, as themselves or as two limits."""
        return self.book.has(*(measured_as(self.book, name) for name in names))

    def value(self, name: str) -> float:
        """Return a size's plain value."""
        return float(self.book[name].value)

    def show(self, value: float, unit: str = "mm") -> str:
        """Print a value with its unit."""
        if unit == "min" or (unit == "degC" and self.system == "metric"):
            return pretty(f"{round(value, 1):g} {unit}")
        return pretty(printed(value, unit, self.system))

    def degrees(self, change: float) -> str:
        """Print a change of heat [degC] in whole degrees."""
        return f"{change:g} °C" if self.system == "metric" else f"{1.8 * change:.0f} °F"

    def range(self, low: float, high: float, unit: str) -> str:
        """Print a range, the unit once."""
        return span(self.show(low, unit), self.show(high, unit))

    def force(self, name: str) -> str:
        """Print a force as a bench can use it: tenths of a kilonewton, tens of pounds."""
        value = self.value(name)
        return (
            f"{value / 1000:.1f} kN" if self.system == "metric" else f"{round(value * IN_INCHES['N'][0], -1):.0f} lbf"
        )

    def pull(self, name: str) -> str:
        """Print a force that a hand gives, in whole newtons or pounds."""
        value = self.value(name)
        return f"{value:.0f} N" if self.system == "metric" else f"{value * IN_INCHES['N'][0]:.0f} lbf"

    def gauge(self, low: float, high: float) -> str:
        """Print a range of pressures [MPa] as a gauge shows it, in bar or psi."""
        if self.system == "metric":
            return f"{10 * low:.1f} to {10 * high:.1f} bar"
        return f"{self.show(low, 'MPa').removesuffix(' psi')} to {self.show(high, 'MPa')}"

    def gauge_of(self, name: str) -> str:
        """Print one pressure [MPa] as a gauge shows it."""
        return f"{10 * self.value(name):.1f} bar" if self.system == "metric" else self.size(name)

    def stock(self, value: float) -> str:
        """Print a length of stock, rounded up to a millimetre or a sixteenth of an inch."""
        if self.system == "inch":
            return f"{ceil(value / INCH * SIXTEENTHS - SAME_DRILL) / SIXTEENTHS:.2f} in"
        return f"{ceil(value - SAME_DRILL)} mm"

    def plain(self, name: str) -> str:
        """Print a size that is bought, with no more places than it has: 10.4 mm."""
        return self.bare(self.value(name))

    def bare(self, value: float) -> str:
        """Print a length with no more places than it has."""
        return f"{value:g} mm" if self.system == "metric" else self.show(value)

    def length(self, value: float, places: int = 3) -> str:
        """Print a length without its unit: for tables, whose head names it."""
        if self.system == "inch":
            factor, _, inch_places = IN_INCHES["mm"]
            value, places = value * factor, inch_places
        return f"{round(value, places) + 0.0:.{places}f}"

    def size(self, name: str) -> str:
        """Print a size with its unit."""
        entry = self.book[measured_as(self.book, name)]
        if is_general(self.book, name):
            return self.rough(entry.value)
        return "" if isinstance(entry.value, list) else self.show(entry.value, entry.unit)

    def rough(self, value: float) -> str:
        """Print a length that is held to the general tolerances, as a drawing does."""
        return f"{value:.1f} mm" if self.system == "metric" else f"{value / INCH:.3f} in"

    def between(self, low: str, high: str) -> str:
        """Print two sizes as limits, the unit once."""
        return span(self.size(low), self.size(high))

    def written_in(self, name: str) -> str:
        """Unit that a figure on the bench is written in, as the job file spells it."""
        unit = self.book[measured_as(self.book, name)].unit
        if self.system == "inch":
            return {"mm": "in", "MPa": "psi", "N m": "lbf ft", "degC": "degF"}.get(unit, unit)
        return {"mm^3": "cm^3", "1": ""}.get(unit, unit)

    def limits(self, name: str) -> str:
        """Print the limits of a size, empty where nothing limits it."""
        limits = limits_of(self.book, name)
        if limits is None:
            return ""
        unit, rough = self.book[measured_as(self.book, name)].unit, is_general(self.book, name)
        shown = self.rough if rough else lambda end: self.show(end, unit)
        low, high = (None if end is None else shown(end) for end in (limits.low, limits.high))
        if low is None or high is None:
            return f"at least {low}" if high is None else f"at most {high}"
        return span(low, high)

    def drill(self, name: str) -> str:
        """Name a drill as the drawer does: by number, letter or fraction where the job prints in inches."""
        value = self.value(name)
        found = [label for label, size in tables.drills(self.system) if abs(size - value) < SAME_DRILL]
        if not found or self.system == "metric":
            return self.plain(name)
        label = f"letter {found[0]}" if found[0].isalpha() else found[0].replace("#", "number ")
        return f"{label} ({self.size(name)})"


def span(low: str, high: str) -> str:
    """Join two printed sizes to a range, their unit told once.

    >>> span("2.31 lbf ft", "2.35 lbf ft"), span("0.020 mm", "0.080 mm")
    ('2.31 to 2.35 lbf ft', '0.020 to 0.080 mm')
    """
    return f"{low.partition(' ')[0]} to {high}"


def measured_as(book: Book, name: str) -> str:
    """Name of the size itself, or of the upper limit where it is planned as two."""
    return (
        name if name in book else next((name + high for low, high in ENDS if book.has(name + low, name + high)), name)
    )


def pretty(text: str) -> str:
    """Write units with their signs.

    >>> pretty("160.0 degC at 31.00 cm^3")
    '160.0 °C at 31.00 cm³'
    """
    for plain, sign in SIGNS.items():
        text = text.replace(plain, sign)
    return text


def minutes(angle: float) -> str:
    """Print an angle for a rotary table: whole degrees and minutes.

    >>> minutes(44.028978), minutes(359.9999), minutes(0.5)
    ('44° 02′', '0° 00′', '0° 30′')
    """
    whole = round(angle * 60) % (360 * 60)
    return f"{whole // 60}° {whole % 60:02d}′"


def hole_list(names: Sequence[int | str]) -> str:
    """Name some holes.

    >>> hole_list([1]), hole_list([1, 2, 4])
    ('hole 1', 'holes 1, 2 and 4')
    """
    return f"hole{'s' if len(names) > 1 else ''} {listed([str(n) for n in names])}"


def counted(number: int, one: str, many: str = "") -> str:
    """Put a number before a word.

    >>> counted(1, "stud"), counted(4, "stud"), counted(2, "reamer of 8 mm", "reamers of 8 mm")
    ('1 stud', '4 studs', '2 reamers of 8 mm')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"


def listed(items: list[str]) -> str:
    """Join words with commas and an `and`.

    >>> listed(["1"]), listed(["1", "2", "4"])
    ('1', '1, 2 and 4')
    """
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} and {items[-1]}" if items else ""

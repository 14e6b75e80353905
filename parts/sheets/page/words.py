"""How the page prints sizes: in the job's own units, with their limits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts import tables
from parts.units import IN_INCHES, printed

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

GENERAL = ((6, 0.1), (30, 0.2), (120, 0.3), (400, 0.5), (1000, 0.8))  # ISO 2768-m, lengths over 3 mm up to, +- [mm]
SAME_DRILL = 1e-3  # mm


@dataclass(frozen=True, slots=True)
class Words:
    """The job's book, read aloud."""

    book: Book
    job: Job

    @property
    def system(self) -> str:
        """Metric or inch."""
        return self.job.job.print_units

    @property
    def unit(self) -> str:
        """Unit of length."""
        return "in" if self.system == "inch" else "mm"

    def has(self, *names: str) -> bool:
        """Tell whether all of these sizes are known."""
        return self.book.has(*names)

    def value(self, name: str) -> float:
        """Return a size's plain value."""
        return float(self.book[name].value)

    def show(self, value: float, unit: str = "mm") -> str:
        """Print a value with its unit."""
        return printed(value, unit, self.system)

    def length(self, value: float, places: int = 3) -> str:
        """Print a length without its unit: for tables, whose head names it."""
        if self.system == "inch":
            factor, _, inch_places = IN_INCHES["mm"]
            value, places = value * factor, inch_places
        return f"{round(value, places) + 0.0:.{places}f}"

    def size(self, name: str) -> str:
        """Print a size with its unit."""
        entry = self.book[name]
        return "" if isinstance(entry.value, list) else self.show(entry.value, entry.unit)

    def between(self, low: str, high: str) -> str:
        """Print two sizes as limits, the unit once."""
        (first, _), (second, unit) = (self.size(n).rsplit(" ", 1) for n in (low, high))
        return f"{first} to {second} {unit}"

    def limits(self, name: str) -> str:
        """Print the limits the book has for a size, empty where it has none."""
        limits = self.book.limits(name)
        if limits is None:
            return ""
        unit = self.book[name].unit
        (low, _), (high, of) = (self.show(v, unit).rsplit(" ", 1) for v in limits)
        return f"{low} to {high} {of}"

    def general(self, name: str) -> str:
        """Print the general tolerance of a length without one of its own."""
        value = abs(self.value(name))
        allowed = next((half for upto, half in GENERAL if value <= upto), 1.2)
        return f"± {self.show(allowed)}, ISO 2768-m"

    def drill(self, name: str) -> str:
        """Name a drill as the drawer does: by number, letter or fraction where the job prints in inches."""
        value = self.value(name)
        found = [label for label, size in tables.drills(self.system) if abs(size - value) < SAME_DRILL]
        if not found or self.system == "metric":
            return self.size(name)
        label = f"letter {found[0]}" if found[0].isalpha() else found[0].replace("#", "number ")
        return f"{label} ({self.size(name)})"


def minutes(angle: float) -> str:
    """Print an angle for a rotary table: whole degrees and minutes.

    >>> minutes(44.028978), minutes(359.9999), minutes(0.5)
    ('44° 02′', '0° 00′', '0° 30′')
    """
    whole = round(angle * 60) % (360 * 60)
    return f"{whole // 60}° {whole % 60:02d}′"


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

"""What drawings say: figures in mm or inches with their limits, threads, materials, findings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts.judging.limits import limits_of
from parts.sheets.drawing.items import Length
from parts.units import INCH

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.thread import Thread

PLACES = {"metric": (1, 2, 3), "inch": (3, 4, 4)}
"""of a length, a diameter, and a limit"""
LAPPED, TURNED = 0.8, 1.6  # um, Ra
MICROINCHES = {LAPPED: 32, TURNED: 63}
"""the steps of the trade, ISO 1302 and ASME B46.1"""
CLASSES = {"metric": "6g", "unified": "2A", "whitworth": "medium", "ba": "normal", "cycle": "medium"}
HOLES = {"metric": "6H", "unified": "2B", "whitworth": "medium", "ba": "normal", "cycle": "medium"}


@dataclass(frozen=True)
class Figures:
    """Prints sizes in the units of the job's sheets."""

    system: str

    @property
    def factor(self) -> float:
        """From mm to what is printed."""
        return 1 / INCH if self.system == "inch" else 1.0

    @property
    def unit(self) -> str:
        """Name of the unit of length."""
        return "in" if self.system == "inch" else "mm"

    def length(self, value: float) -> str:
        """Print a length, to general tolerances."""
        return self._short(value, PLACES[self.system][0])

    def diameter(self, value: float) -> str:
        """Print a diameter."""
        return self._short(value, PLACES[self.system][1])

    def limit(self, value: float) -> str:
        """Print a limit, with all its places."""
        return f"{value * self.factor:.{PLACES[self.system][2]}f}"

    def both(self, high: float, low: float) -> str:
        """Print an upper and a lower limit."""
        return f"{self.limit(high)} / {self.limit(low)}"

    def off(self, upper: float, lower: float) -> str:
        """Print how far a size may lie above and below its figure."""
        if upper == -lower:
            return f" ±{self._off(upper)}"
        return f" {self._signed(upper)}/{self._signed(lower)}"

    def held(self, book: Book, name: str) -> str:
        """Print how far a size may lie above and below its figure, by the limits that every sheet has."""
        limits, value = limits_of(book, name), book[name].value
        if limits is None or limits.low is None or limits.high is None:
            return ""
        return self.off(round(limits.high - value, 9), round(limits.low - value, 9))

    def rough(self, ra: float) -> str:
        """Print a surface texture, given in um."""
        return f"Ra {MICROINCHES[ra]} µin" if self.system == "inch" else f"Ra {ra:g}"

    def between(self, start: Point, end: Point, text: str = "<>", *, upright: bool = False) -> Length:
        """Return a dimension along the side, to general tolerances; <> in its text stands for the figure."""
        return Length(start, end, text.replace("<>", self.length(abs(end[upright] - start[upright]))))

    def across(self, start: Point, end: Point, text: str, value: float, *, exact: bool = True) -> Length:
        """Return a diameter beside the view: exact to the places of a limit, else to those of a length."""
        return Length(start, end, text.replace("<>", self.limit(value) if exact else self.length(value)))

    def _signed(self, value: float) -> str:
        return "0" if value == 0 else f"{'+' if value > 0 else '-'}{self._off(abs(value))}"

    def _off(self, value: float) -> str:
        return f"{value:.3g}" if self.system == "metric" else f"{value * self.factor:.1g}"

    def _short(self, value: float, places: int) -> str:
        text = f"{value * self.factor:.{places}f}"
        if self.system == "metric":
            return text.rstrip("0").rstrip(".")
        return text.removesuffix("0") if places > PLACES["inch"][0] else text


def thread_name(thread: Thread, *, hole: bool = False) -> str:
    """Name a thread with its class."""
    size, left = thread.label.removesuffix(" LH"), "-LH" if thread.left_hand else ""
    kind = (HOLES if hole else CLASSES)[thread.family]
    if thread.family in ("metric", "unified"):
        return f"{size.replace('x', '×')}-{kind}{left}"
    return f"{size}{' LH' if left else ''}, {kind}"


def named(title: str, book: Book) -> str:
    """Title of a part's sheet: in a list with its instance's name, like `Stepped stud, front`."""
    return title + book.suffix.replace("-", ", ", 1)


def material_name(table: object) -> str:
    """Name the material of a part."""
    material = getattr(table, "material", None)
    return str(material.label) if material else "not given"


def cautions(found: list[Finding]) -> list[str]:
    """Say what is not in order, of the findings about a part."""
    told = [f"{f.verdict.upper()}: {f.says}." for f in found if f.verdict != "ok"]
    return [text.replace("degC", "°C").replace("degF", "°F") for text in told]


def figures(job: Job) -> Figures:
    """Return how this job prints its sizes."""
    return Figures(job.job.print_units)

"""The plot of how the ring will press: pressure and light round the bore, each way of opening it, SVG and PNG."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, fsum
from typing import TYPE_CHECKING

from parts.judging.rules import caution_of
from parts.sheets.page.words import pretty
from parts.sizing.ring_bore import OVAL, oval_curve
from parts.sizing.ring_contact import pressure_curves
from parts.sizing.ring_design import slit_is_wide
from parts.units import printed
from parts.writers.fonts import capital, text_width
from parts.writers.plot import Area, Label, Picture, Polyline, Scale, nice_step, steps

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence
    from pathlib import Path

    from parts.book import Book
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.relations.contact import Pressed
    from parts.writers.plot import Mark, Point

    Written = list[tuple[Path, str]]

STEM = "ring-pressure"
WIDTH, LEFT, RIGHT = 1000.0, 84.0, 972.0
TOP, BOTTOM = 104.0, 400.0  # of the pressure
LIGHT_TOP, LIGHT_BOTTOM = 446.0, 566.0
ROW, HEAD = 23.0, 21.0
INK, GREY, FAINT, CAUTION = "#1d2329", "#5a636d", "#dfe3e8", "#b3261e"
STYLES = {  # form -> colour, in words
    "contoured": ("#0f5c8c", "contoured mandrel, ends bound down"),
    "unbound": ("#6f93ad", "contoured mandrel, ends left free"),
    "pin": ("#b8660c", "pin between the ends"),
    "round": ("#8e3a7d", "plain round mandrel"),
    OVAL: ("#2e7d4f", ", bore as measured"),
}
COLUMNS = ((574.0, "at the back"), (704.0, "least over 10°"), (840.0, "each end presses"), (RIGHT, "light, at most"))
KEY = "Bold: the way that this job asks for. Arrows: forces at one place."
LIMITS = "In brackets: the same with seat, blank and slit at their limits."
SPIKE = 1.3  # times the pressure beside it: a force at one place rather than a pressure
REACH = 3  # joints to either side over which such a force may be spread
SMALL = 2.0  # degrees' worth of mean pressure: a force that is worth an arrow
BOLD, FINE = 3.2, 1.3
CLOSE = 0.03  # dots
LIGHT = {"metric": (1000.0, "µm"), "inch": (1000 / 25.4, "thou")}


@dataclass(frozen=True, slots=True)
class Curve:
    """One way of opening the ring."""

    form: str
    says: str
    color: str
    width: float
    pressed: Pressed
    worst: tuple[float, float] | None = None
    """least pressure and most light with seat, blank and slit at their limits"""

    @property
    def dash(self) -> tuple[float, float] | None:
        """Broken where the bore is another."""
        return (7.0, 4.0) if self.form == OVAL else None


def ring_pressure(book: Book, job: Job, _found: Sequence[Finding], folder: Path) -> Written:
    """Write parts/ring-pressure.svg and .png; nothing where the job has no ring or no mandrel."""
    found = curves(book, job)
    if not found:
        return []
    from parts.pictures.plot import write_plot_png
    from parts.writers.plot_svg import write_plot_svg

    picture = drawn(found, book, job)
    svg, png = (folder / "parts" / f"{STEM}{book.suffix}.{end}" for end in ("svg", "png"))
    write_plot_svg(picture, svg)
    write_plot_png(picture, png)
    return [(svg, "plot"), (png, "plot")]


def curves(book: Book, job: Job) -> list[Curve]:
    """Every form, the one that the job asks for first and bold; then that one in the bore as measured."""
    pressed: Mapping[str, Pressed] = pressure_curves(book, job)
    if job.ring is None or not pressed:
        return []
    asked, *others = pressed
    wide = slit_is_wide(book)  # else the ends lie down by themselves
    forms = [form for form in (asked, *others) if wide or form != "unbound"]
    found = [_curve(form, pressed[form], _worst(book, form), bold=form == asked) for form in forms]
    oval = oval_curve(book, job)
    if oval is not None:
        color, says = STYLES[OVAL]
        found.insert(1, Curve(OVAL, f"{STYLES[asked][1]}{says}", color, 1.5, oval))
    return found


def _curve(form: str, pressed: Pressed, worst: tuple[float, float] | None, *, bold: bool) -> Curve:
    color, says = STYLES[form]
    return Curve(form, says, color, BOLD if bold else FINE, pressed, worst)


def _worst(book: Book, form: str) -> tuple[float, float] | None:
    """What a form leaves with everything at its limits."""
    least, light = (f"ring.{form}.at_limits.{figure}" for figure in ("pressure_ratio_least", "light_gap"))
    return (book[least].value, book[light].value) if book.has(least, light) else None


def drawn(found: Sequence[Curve], book: Book, job: Job) -> Picture:
    """Return the whole picture."""
    system = job.job.print_units
    bore, mean = (printed(book[n].value, book[n].unit, system) for n in ("job.engine.bore", "ring.contact_pressure"))
    height = LIGHT_BOTTOM + 92 + ROW * (len(found) + 1) + 12
    note = "; ".join(f"{c.says}: " + ", ".join(_figures(c, system)) for c in found)
    name = book.suffix.removeprefix("-")
    picture = Picture(WIDTH, height, f"{job.job.title}: how the ring {name} will press".replace("  ", " "), note)
    marks = picture.marks
    head = f"Ring {name}: how it will press" if name else "How the ring will press"
    head += " on the bore, and where light will show"
    size = min(HEAD, HEAD * (RIGHT - LEFT) / text_width(head, HEAD * capital()))
    marks.append(Label(head, LEFT, 36, size, INK))
    under = pretty(f"Bore {bore}; 1 is the mean pressure, {mean}. {KEY}")
    marks.append(Label(under, LEFT, 60, 14, GREY))
    marks += _pressure(found, system)
    marks += _light(found, system)
    marks += _table(found, system)
    return picture


ANGLES = Scale(-180.0, 180.0, LEFT, RIGHT)


def _pressure(found: Sequence[Curve], system: str) -> Iterator[Mark]:
    parted = [parted_forces(c.pressed) for c in found]
    high = max(max(pressure) for pressure, _ in parted)
    scale = Scale(0.0, max(1.6, 0.2 * ceil(5.5 * high)), BOTTOM, TOP)
    yield from _grid(scale, 0.2, "{:.1f}", "pressure over its mean")
    for c, (pressure, forces) in reversed(list(zip(found, parted, strict=True))):
        yield Polyline(_thinned(zip(c.pressed.angle, pressure, strict=True), scale), c.width, c.color, c.dash)
        yield from _arrows(c, scale, forces, system)
    least = caution_of("ring.pressure_ratio_least", least=True)
    y, middle = scale.at(least), ANGLES.at(0.0)
    yield _across(y)
    yield Label(f"under {least:g}: caution", middle, y + 15, 12, CAUTION, "middle")
    yield Label("gap", LEFT, TOP - 12, 13, INK)
    yield Label("back", middle, TOP - 12, 13, INK, "middle")
    yield Label("gap", RIGHT, TOP - 12, 13, INK, "end")


def parted_forces(pressed: Pressed) -> tuple[list[float], list[tuple[float, float]]]:
    """Pressure over its mean without the forces that stand at one place, and those: angle and newtons.

    Where a ring leaves the wall it presses with a force on a line, as it does with its ends.
    """
    p, q, step = list(pressed.pressure), pressed.force, pressed.angle[1] - pressed.angle[0]
    unit = fsum(q) / (pressed.mean * (len(q) - 1))  # what a joint has at the mean pressure
    ends = pressed.tip_force > SMALL * unit / step
    forces = [(pressed.angle[n], pressed.tip_force) for n in (0, -1)] if ends else []
    n = REACH
    while n < len(p) - REACH:
        before, after = pressed.pressure[n - REACH], pressed.pressure[n + REACH]
        around = range(n - REACH + 1, n + REACH)
        if p[n] > SPIKE * max(before, after, 0.1) and p[n] == max(p[m] for m in around):
            over = fsum(q[m] for m in around) - unit * (before + after) / 2 * len(around)
            forces.append((pressed.angle[n], over))
            for m in around:
                p[m] = before if m < n else after
        n += 1
    return p, sorted((angle, force) for angle, force in forces if force > SMALL * unit / step)


def _arrows(c: Curve, scale: Scale, forces: Sequence[tuple[float, float]], system: str) -> Iterator[Mark]:
    """Arrows on the bore; the asked way's with their force."""
    bold = c.width == BOLD
    tip = TOP + (12 if bold else 34)
    for angle, force in forces:
        x = min(max(ANGLES.at(angle), LEFT + 3), RIGHT - 3)
        yield Polyline(((x, scale.start), (x, tip + 8)), c.width, c.color, c.dash)
        yield Area(((x, tip), (x - 5, tip + 12), (x + 5, tip + 12)), c.color)
        if bold:
            side = -1 if angle > 0 else 1
            yield Label(_force(force, system), x + 9 * side, tip + 11, 13, c.color, "end" if angle > 0 else "start")


def _thinned(points: Iterable[tuple[float, float]], scale: Scale) -> tuple[Point, ...]:
    """Places of a curve's points, without those that lie on a line with their neighbours."""
    places = [(ANGLES.at(angle), scale.at(value)) for angle, value in points]
    kept = places[:1]
    for n in range(1, len(places) - 1):
        (xa, ya), (x, y), (xb, yb) = kept[-1], places[n], places[n + 1]
        if abs((xb - xa) * (y - ya) - (x - xa) * (yb - ya)) > CLOSE * (xb - xa):
            kept.append((x, y))
    return (*kept, places[-1])


def _light(found: Sequence[Curve], system: str) -> Iterator[Mark]:
    factor, unit = LIGHT[system]
    allowed = caution_of("ring.light_gap")
    most = factor * max(allowed * 1.2, *(c.pressed.light_gap * 1.1 for c in found))
    step = nice_step(most, 4)
    scale = Scale(0.0, step * ceil(most / step), LIGHT_BOTTOM, LIGHT_TOP)
    yield from _grid(scale, step, "{:g}", f"light, {unit}")
    for c in reversed(found):
        light = zip(c.pressed.angle, (factor * g for g in c.pressed.light), strict=True)
        yield Polyline(_thinned(light, scale), c.width, c.color, c.dash)
    limit, middle = scale.at(factor * allowed), ANGLES.at(0.0)
    yield _across(limit)
    yield Label(f"over {factor * allowed:.2g} {unit}: caution", middle, limit + 15, 12, CAUTION, "middle")
    for angle in range(-180, 181, 30):
        sign = "\u2212" if angle < 0 else ""
        yield Label(f"{sign}{abs(angle)}°", ANGLES.at(angle), LIGHT_BOTTOM + 20, 13, INK, "middle")
    yield Label("angle from the back, which lies opposite the gap", middle, LIGHT_BOTTOM + 42, 14, INK, "middle")


def _across(y: float) -> Polyline:
    return Polyline(((LEFT, y), (RIGHT, y)), 1.0, CAUTION, (5.0, 4.0))


def _grid(scale: Scale, step: float, form: str, label: str) -> Iterator[Mark]:
    """A panel: lines across and down, figures on the left, what they are."""
    for angle in range(-180, 181, 30):
        x = ANGLES.at(angle)
        yield Polyline(((x, scale.start), (x, scale.end)), 1.0, FAINT)
    for value in steps(0.0, scale.high, step):
        y = scale.at(value)
        yield Polyline(((LEFT, y), (RIGHT, y)), 1.0, FAINT)
        yield Label(form.format(value), LEFT - 9, y + 4.5, 13, INK, "end")
    corners: tuple[Point, ...] = ((LEFT, scale.end), (LEFT, scale.start), (RIGHT, scale.start))
    yield Polyline(corners, 1.2, INK)
    yield Label(label, LEFT - 50, (scale.start + scale.end) / 2, 14, INK, "middle", upright=True)


def _table(found: Sequence[Curve], system: str) -> Iterator[Mark]:
    """What belongs to which line, and its figures."""
    head = LIGHT_BOTTOM + 76
    for x, says in COLUMNS:
        yield Label(says, x, head, 13, GREY, "end")
    for n, c in enumerate(found, 1):
        y = head + ROW * n
        yield Polyline(((LEFT, y - 4.5), (LEFT + 34, y - 4.5)), c.width, c.color, c.dash)
        yield Label(c.says, LEFT + 44, y, 14, INK)
        for (x, _), figure in zip(COLUMNS, _figures(c, system), strict=True):
            yield Label(figure, x, y, 14, INK, "end")
    yield Label(LIMITS, LEFT, head + ROW * (len(found) + 1), 13, GREY)


def _figures(c: Curve, system: str) -> tuple[str, str, str, str]:
    p, (factor, unit) = c.pressed, LIGHT[system]
    least, light = f"{p.pressure_ratio_least:.2f}", f"{factor * p.light_gap:.2f}"
    if c.worst:
        least, light = f"{least} ({c.worst[0]:.2f})", f"{light} ({factor * c.worst[1]:.1f})"
    return f"{p.pressure_ratio_back:.2f}", least, _force(p.tip_force, system), f"{light} {unit}"


def _force(force: float, system: str) -> str:
    return f"{force:.1f} N" if system == "metric" else printed(force, "N", system)

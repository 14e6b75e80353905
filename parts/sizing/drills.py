"""Which listed drill a hole is drilled with before it is tapped."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.relations.thread_forms import thread_share

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book

    Drill = tuple[str, float]

OTHER = {"metric": "inch", "inch": "metric"}
ROUNDING = 1e-9
SHARES = (0.65, 0.80)
"""of the full thread that a tapping drill should leave: common practice, no source"""
HARD, SOFT, DEEPER = 0.72, 0.77, 0.03  # share to aim at in steel, in all else (as ISO 2306), less of it in a deep hole
DEEP = 1.5  # diameters, from which a hole is deep to tap


def enter_tapping_drill(book: Book, prefix: str, system: str, *, soft: bool, deep: bool) -> None:
    """Enter the drill for a plain tapped hole, and the share of the full thread that it leaves.

    Of the listed drills inside the minor limits the one that comes nearest to the share to aim at: less in steel than
    in softer metal, less in a deep hole, 65 to 80 % where the limits allow it.
    """
    aim = (SOFT if soft else HARD) - DEEPER * deep
    nominal, pitch, factor = (f"{prefix}.{n}" for n in ("tapped_major", "pitch", "full_thread_factor"))

    def off(drill: tuple[str, float]) -> tuple[float, float]:
        share = thread_share(book.number(nominal), drill[1], book.number(pitch), book.number(factor))
        return max(SHARES[0] - share, share - SHARES[1], 0.0), abs(share - aim)

    why = f"comes nearest to {100 * aim:.0f} % of thread, {tables.PRACTICE}"
    _enter(book, prefix, system, lambda fitting: min(fitting, key=off), why)
    drill = f"{prefix}.tap_drill"
    book.add(f"{prefix}.thread_share", thread_share, nominal=nominal, drill=drill, pitch=pitch, factor=factor)


def enter_drill(book: Book, prefix: str, system: str) -> None:
    """Enter the smallest listed drill between prefix.tapped_minor and _max, from the other list where one has none."""
    _enter(book, prefix, system, lambda fitting: fitting[0], "is the smallest")


def _enter(book: Book, prefix: str, system: str, choose: Callable[[list[Drill]], Drill], why: str) -> None:
    """Enter the drill that is chosen of those inside the limits."""
    least, greatest = book.number(f"{prefix}.tapped_minor"), book.number(f"{prefix}.tapped_minor_max")
    for name in (system, OTHER[system]):
        fitting = [d for d in tables.drills(name) if least - ROUNDING <= d[1] <= greatest + ROUNDING]
        if fitting:
            label, diameter = choose(fitting)
            none = "" if name == system else f"; the {system} list has none there"
            source = f"{label}: of the {name} list, between the minor limits, it {why}; list from memory{none}"
            book.enter(f"{prefix}.tap_drill", diameter, "mm", "memory", source)
            return
    book.lacks(f"{prefix}.tap_drill", f"a listed drill of {least:.3f} to {greatest:.3f} mm")

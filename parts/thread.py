"""Threads as the trade writes them: M10x1.5, 1/4-20 UNC, 5/16 BSW, 2 BA, 5/16-26 BSC, with LH behind."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from parts import tables, units
from parts.units import shown, stripped

METRIC = re.compile(r"M\s*([0-9]+(?:\.[0-9]+)?)(?:\s*[Xx×*]\s*([0-9]*\.?[0-9]+))?", re.IGNORECASE)
BA = re.compile(r"([0-9]+)\s*BA", re.IGNORECASE)
INCH = re.compile(
    r"(#?[0-9]+(?:/[0-9]+)?|0?\.[0-9]+)\s*(?:in\b|\")?(?:\s*[-xX×]\s*([0-9]+))?\s*(UNC|UNF|BSW|BSF|BSC|CEI)?",
    re.IGNORECASE,
)
LENGTH = re.compile(r"[0-9./ ]+\s*(?:mm|in|\")", re.IGNORECASE)
LEFT = re.compile(r"\s*-?\s*(?:LH|left[ -]hand)$", re.IGNORECASE)
FAMILIES = {"UNC": "unified", "UNF": "unified", "BSW": "whitworth", "BSF": "whitworth", "BSC": "cycle"}
STANDARDS = {"metric": "ISO 261", "unified": "ASME B1.1", "whitworth": "BS 84", "ba": "BS 93", "cycle": "BS 811"}
HALF_ANGLES = {"metric": 30.0, "unified": 30.0, "whitworth": 27.5, "ba": 23.75, "cycle": 30.0}
SPELLINGS = '"M10x1.5", "1/4-20 UNC", "5/16 BSW", "2 BA" or "5/16-26 BSC"'


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread by its nominal sizes [mm]."""

    label: str
    """as the trade writes it, `M10x1.5`"""
    family: str
    """metric, unified, whitworth, ba or cycle"""
    nominal: float
    pitch: float
    left_hand: bool

    @property
    def standard(self) -> str:
        """Standard that lists the size."""
        return STANDARDS[self.family]

    @property
    def half_angle(self) -> float:
        """Half of the angle between the flanks [deg]."""
        return HALF_ANGLES[self.family]


def read_thread(text: object) -> Thread:
    """Read a thread in any of the trade's spellings.

    Parameters
    ----------
    text : object
        What the job file holds

    Returns
    -------
    thread : Thread
        Its label in one spelling, sizes in mm

    Raises
    ------
    ValueError
        One sentence with the rule, the value and a right example.

    Examples
    --------
    >>> read_thread("m8 x 1"), read_thread("5/16-24 UNF LH").label
    (Thread(label='M8x1', family='metric', nominal=8.0, pitch=1.0, left_hand=False), '5/16-24 UNF LH')
    """
    if not isinstance(text, str):
        raise ValueError(f"wants a thread in quotes, like {SPELLINGS}, not {shown(text)}")  # noqa: TRY004 - a fault of the file
    right = LEFT.sub("", stripped(text))
    left = right != stripped(text)
    for form, reader in ((METRIC, _metric), (BA, _ba), (INCH, _inch)):
        if found := form.fullmatch(right):
            return reader(found, text, left=left)
    if LENGTH.fullmatch(right):
        raise ValueError(f"wants a thread, not a length: write it like {SPELLINGS}, not {shown(text)}")
    raise ValueError(f"wants a thread, like {SPELLINGS}, not {shown(text)}")


def _thread(label: str, family: str, nominal: float, pitch: float, *, left: bool) -> Thread:
    return Thread(f"{label} LH" if left else label, family, nominal, pitch, left)


def _metric(found: re.Match[str], text: str, *, left: bool) -> Thread:
    nominal = float(found[1])
    pitches = tables.metric_pitches().get(nominal)
    if pitches is None:
        sizes = ", ".join(f"M{size:g}" for size in tables.metric_pitches())
        raise ValueError(f'wants a listed metric size ({sizes}), like "M10x1.5", not {shown(text)}')
    pitch = float(found[2]) if found[2] else pitches[0]
    if pitch not in pitches:
        listed = ", ".join(f"{p:g}" for p in pitches)
        raise ValueError(
            f'wants a pitch that M{nominal:g} has ({listed} mm), like "M{nominal:g}x{pitches[0]:g}", not {shown(text)}'
        )
    return _thread(f"M{nominal:g}x{pitch:g}", "metric", nominal, pitch, left=left)


def _ba(found: re.Match[str], text: str, *, left: bool) -> Thread:
    number = int(found[1])
    if number not in tables.ba_threads():
        raise ValueError(f'wants a BA number from 0 to {max(tables.ba_threads())}, like "2 BA", not {shown(text)}')
    return _thread(f"{number} BA", "ba", *tables.ba_threads()[number], left=left)


def _inch(found: re.Match[str], text: str, *, left: bool) -> Thread:
    size, per_inch = _size(found[1], found[3]), int(found[2]) if found[2] else None
    if found[3] is None:
        raise ValueError(_without_series(size, per_inch, text))
    series = found[3].upper().replace("CEI", "BSC")
    listed = tables.inch_threads(series)
    if size not in listed:
        example = _label("5/16", series)
        raise ValueError(f'wants a size that {series} has ({", ".join(listed)}), like "{example}", not {shown(text)}')
    nominal, threads, _ = listed[size]
    if per_inch and per_inch != threads:
        example = _label(size, series)
        raise ValueError(f'wants {threads:g} threads per inch, as {size} {series} has: "{example}", not {shown(text)}')
    return _thread(_label(size, series), FAMILIES[series], nominal * units.INCH, units.INCH / threads, left=left)


def _size(written: str, series: str | None) -> str:
    """Spell a size as the table does: 0.25 is 1/4, 4/16 is 1/4, 10-32 UNF is #10."""
    if written.startswith("#"):
        return written
    if written.isdigit():
        return f"#{written}" if (series or "").upper().startswith("UN") else written
    try:
        return str(Fraction(written))
    except (ValueError, ZeroDivisionError):
        return written


def _label(size: str, series: str) -> str:
    return (
        f"{size} {series}" if series in ("BSW", "BSF") else f"{size}-{tables.inch_threads(series)[size][1]:g} {series}"
    )


def _without_series(size: str, per_inch: int | None, text: str) -> str:
    """Say which series a bare 1/4-20 could be."""
    likely = [
        _label(size, series)
        for series in FAMILIES
        if size in tables.inch_threads(series) and per_inch in (None, tables.inch_threads(series)[size][1])
    ]
    if not likely:
        return f"wants a thread, like {SPELLINGS}, not {shown(text)}"
    return f"wants the series behind the size, like {' or '.join(f'{one!r}' for one in likely)}, not {shown(text)}"

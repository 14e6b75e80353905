"""A job file's data as drawings see it: lengths where they can be read, usual proportions where not."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from parts import units
from parts.asking.places import UNKNOWN, at
from parts.job.models import Pattern
from parts.job.outline_models import Outline
from parts.sizing.placing import pattern_places
from parts.thread import read_thread

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from parts.asking.ink import Point

BORE = 60.0  # mm, where it is not known yet


READERS: tuple[Callable[[object], float], ...] = (
    lambda text: units.read(text, "length")[0],
    lambda text: read_thread(text).nominal,
)


@dataclass(frozen=True)
class Seen:
    """The data, read leniently: what can't be read is as if it were not there."""

    raw: Mapping[str, Any]
    key: str = ""
    """what is asked for: of several passages, which"""

    def length(self, key: str, usual: float) -> float:
        """A length [mm], or a thread's nominal diameter; the usual one where there is none."""
        value = at(self.raw, key)
        for read in READERS:
            try:
                return read(value)
            except ValueError:
                continue
        return usual

    def share(self, key: str, whole: float, usual: float, low: float, high: float) -> float:
        """A length as a share of another, kept to what can be drawn."""
        return min(max(self.length(key, usual * whole) / whole, low), high)

    @property
    def bore(self) -> float:
        """The bore [mm]."""
        return self.length("engine.bore", BORE)

    def passage(self) -> tuple[float, float, float]:
        """X, Y and diameter of the passage that is asked for, else of the first [mm]."""
        steps = self.key.split(".")
        one = ".".join(steps[:3]) if steps[:2] == ["barrel", "passages"] and len(steps) > 2 else "barrel.passages.0"  # noqa: PLR2004
        x, y = (self.length(f"{one}.at.{n}", usual * self.bore) for n, usual in enumerate((0.25, 0.74)))
        return x, y, self.length(f"{one}.diameter", 0.15 * self.bore)

    def outline(self, key: str, usual: float) -> list[tuple[float, float, float]]:
        """An outline's loop [mm]."""
        try:
            return list(Outline.model_validate(at(self.raw, key)).loop())
        except ValidationError:
            return list(Outline.model_validate({"circle": f"{usual} mm"}).loop())

    def holes(self, key: str) -> list[Point]:
        """Centres of a pattern [mm]; none where it is not known."""
        try:
            found = Pattern.model_validate(at(self.raw, key))
        except ValidationError:
            return []
        return pattern_places(found)

    def written(self, key: str) -> str:
        """What stands at a key, short enough for a dimension; empty where nothing does."""
        value = at(self.raw, key)
        if isinstance(value, dict):
            value = next((v for k, v in value.items() if k in ("circle", "name")), "")
        if isinstance(value, bool | list | dict) or value in (None, UNKNOWN):
            return ""
        return str(value) if len(str(value)) <= LONGEST else ""


LONGEST = 16  # letters of a figure that has room

"""Which stud and plug goes where: a letter and a form for each, where there are several, on plan, tables and steps."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin
from typing import TYPE_CHECKING

from markupsafe import Markup

from parts.geometry.outline import figure
from parts.sheets.page.words import hole_list, listed
from parts.sizing.scenes import by_old_hole
from parts.writers import svg_marks

if TYPE_CHECKING:
    from parts.sheets.page.words import Words

LETTERS = "ABCDEFGHJKLMNQRSTUVWXYZ"  # without O and P, which number old holes and passages, and without I
FORMS = ((0, 0.0), (4, 45.0), (3, 90.0), (4, 0.0), (5, 90.0), (3, -90.0))
"""corners, and where the first one lies [deg]; none: a circle"""
OUT = {0: 1.0, 3: 1.65, 4: 1.25, 5: 1.1}  # corners further out than a circle's rim, so that the letter finds room
KINDS = ("stud", "plug")
SIZE = 2.9  # mm, radius of a mark
ROOM = 1.7  # radii to either side of a form's middle


@dataclass(frozen=True, slots=True)
class Mark:
    """What tells one kind of stud, or one plug, from the others."""

    letter: str
    kind: str
    name: str
    number: int
    """among all marks: its form and colour"""

    def elements(self, x: float, y: float, radius: float) -> list[str]:
        """Draw it, its letter in the middle; y downwards."""
        corners, first = FORMS[self.number % len(FORMS)]
        far = radius * OUT[corners]
        drawn = f"mark {self.kind} m{self.number % len(FORMS)}"
        if not corners:
            form = svg_marks.circle(drawn, figure(x), figure(y), figure(radius))
        else:
            turns = [first * pi / 180 + 2 * pi * n / corners for n in range(corners)]
            places = (f"{figure(x + far * cos(t))} {figure(y - far * sin(t))}" for t in turns)
            form = svg_marks.path(drawn, f"M{'L'.join(places)}Z")
        size = 1.3 * radius / len(self.letter) ** 0.5
        return [
            form,
            svg_marks.text(f"letter {self.kind}", figure(x), figure(y + 0.36 * size), figure(size), self.letter),
        ]

    @property
    def icon(self) -> Markup:
        """For a legend."""
        half = ROOM * SIZE
        box = map(figure, (-half, -half, 2 * half, 2 * half))
        return Markup(svg_marks.inline("icon", box, self.letter, self.elements(0.0, 0.0, SIZE)))  # noqa: S704 - ours


def marks(words: Words) -> dict[tuple[str, str], Mark]:
    """Marks of all studs and plugs that stand in lists, by kind and name; none where there is no plan to bear them."""
    if words.job.barrel is None or words.job.barrel.outline is None:
        return {}
    named = [(kind, one.name) for kind in KINDS for one in words.job.instances(kind) if one.name]
    found = {}
    for number, (kind, name) in enumerate(named):
        again, place = divmod(number, len(LETTERS))
        found[kind, name] = Mark(LETTERS[place] + (str(again + 1) if again else ""), kind, name, number)
    return found


def stud_holes(words: Words) -> list[str]:
    """New holes of a stud, by the numbers that plan and tables give them."""
    return [str(n) for n in words.book.numbers("deck.hole")]


def plug_holes(words: Words) -> list[str]:
    """The passage that a plug closes."""
    plug = words.job.plug
    passages = [(p.name, len(p.loops())) for p in words.job.barrel.passages] if words.job.barrel else []
    names = [name for name, openings in passages for _ in range(openings)]
    return [f"P{names.index(plug.passage) + 1}"] if plug and plug.passage in names else []


def old_holes(words: Words) -> list[str]:
    """Old holes that one table tells of."""
    base = words.whole or words
    return [f"O{n}" for n, view, _ in by_old_hole(base.book, base.job) if view.suffix == words.book.suffix]


def marked(words: Words) -> dict[str, Mark]:
    """Mark of the stud or plug of each hole, by the hole's name on the plan; none for plain tables."""
    found, places = marks(words), {"stud": stud_holes, "plug": plug_holes}
    several = [(kind, own) for kind in KINDS for own in words.each(kind) if (kind, own.name) in found]
    return {hole: found[kind, own.name] for kind, own in several for hole in places[kind](own)}


def where(words: Words, kind: str) -> str | None:
    """Say where one of several studs or plugs goes; None for the plain table."""
    if not words.name:
        return None
    holes = f"For {hole_list(stud_holes(words))}" if kind == "stud" else f"At {listed(plug_holes(words))}"
    mark = marks(words.whole or words).get((kind, words.name))
    return f"{holes}, {mark.letter} on the plan." if mark else f"{holes}."

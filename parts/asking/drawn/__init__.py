"""Kinds of small drawing: each a function that draws into ink, to the job's own proportions where they are known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.asking.drawn import engine, made
from parts.asking.drawn.seen import Seen
from parts.asking.ink import Ink, svg

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from typing import Any

    from parts.asking.questions import Question

FAMILIES: dict[str, tuple[str, Callable[[Ink, Seen], None]]] = {
    "deck": ("The deck from above", engine.deck),
    "barrel": ("Cut through the barrel", engine.barrel),
    "head": ("Cut through the head", engine.head),
    "piston": ("Piston at the top of its travel", engine.piston),
    "heat": ("Where heat is taken", engine.heat),
    "port": ("Ports in the wall, and from above", engine.port),
    "stud": ("Stud", made.stud),
    "gasket": ("Head, gasket and barrel, cut at a stud", made.gasket),
    "plug": ("Plug in its hole", made.plug),
    "groove": ("Ring in its groove", made.groove),
    "ring": ("Ring from above", made.ring),
    "mandrel": ("Rings on their mandrel", made.mandrel),
    "lathe": ("Bar in the lathe", made.lathe),
}
"""kind -> what stands under it on paper, what draws it"""


def drawing(family: str, marks: Mapping[str, str], raw: Mapping[str, Any], key: str = "") -> Ink:
    """Draw one kind, for one key of it or for all, with some of its dimensions marked: by figures or by numbers."""
    ink = Ink(marks)
    FAMILIES[family][1](ink, Seen(raw, key))
    return ink


def picture(some: Sequence[tuple[Question, str]], raw: Mapping[str, Any]) -> str:
    """Return the drawing that questions of one kind share as SVG, each one's dimension marked on it.

    Parameters
    ----------
    some : sequence of (Question, str)
        Of `questions`, and what each is marked with; empty: by its answer, or a question mark
    raw : mapping
        Data of the job file as far as it stands

    Returns
    -------
    svg : str
        To stand in a page
    """
    first = some[0][0]
    family, marks, seen = first.picture.partition(" ")[0], dict[str, str](), Seen(raw)
    for one, mark in some:
        dimension, figure = one.picture.partition(" ")[2], mark or seen.written(one.key) or "?"
        marks[dimension] = f"{marks[dimension]}, {figure}" if dimension in marks else figure
    says = " ".join(one.asks for one, _ in some)
    return svg(drawing(family, marks, raw, first.key), f"{FAMILIES[family][0]}: {says}")

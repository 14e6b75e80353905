"""What the job is and why, in one paragraph; and what it does not cover."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.shapes.assembly import holes
from parts.sheets.page.words import counted

if TYPE_CHECKING:
    from parts.sheets.page.words import Words

NOT_COVERED = (
    "Not covered: oil-control rings, valve gear, the joint between barrel and crankcase, which carries the same gas force, and "
    "any certified or road-safety approval."
)


def story(words: Words) -> str:
    """Return the paragraph; every sentence only where the job says so."""
    parts = (_head(words), _filling(words), _studs(words), _plug(words), _gasket(words), _rings(words), _load(words))
    return " ".join(part for part in parts if part)


def _head(words: Words) -> str:
    bore = f" of {words.size('job.engine.bore')} bore" if words.has("job.engine.bore") else ""
    if words.job.barrel is None or words.job.head is None:
        return f"Parts for an engine{bore}."
    return f"A cylinder head that was made for another engine goes onto a barrel{bore}."


def _filling(words: Words) -> str:
    old, new = len(holes(words.book, "deck.old")), len(holes(words.book, "deck.hole"))
    if words.job.barrel is None or not new:
        return ""
    fill = words.job.old.fill if words.job.old else ""
    filled = f"its {counted(old, 'old stud hole')} are filled ({fill}) and " if old else ""
    first = f"{filled}{counted(new, 'new hole')} are drilled to the head's pattern"
    if words.job.stud is None:
        return f"{first[0].upper()}{first[1:]}."
    insert = " for wire inserts" if words.job.stud.insert else ""
    return f"{first[0].upper()}{first[1:]} and tapped{insert}."


def _studs(words: Words) -> str:
    stud = words.job.stud
    if stud is None or not words.has("stud.length"):
        return ""
    return f"Stepped studs, {stud.tap_end.label} in the barrel and {stud.nut_end.label} through the head, hold it down."


def _plug(words: Words) -> str:
    plug = words.job.plug
    if plug is None or not words.has("plug.diameter"):
        return ""
    return f"A {plug.fit} plug closes the {plug.passage or 'hole'}{' passage, which the new head does not use' if plug.passage else ''}."


def _gasket(words: Words) -> str:
    gasket = words.job.gasket
    if gasket is None:
        return ""
    sheet = gasket.material.name if gasket.material else "sheet"
    return f"A gasket of {words.size('job.gasket.thickness')} ({sheet}) is cut to both castings."


def _rings(words: Words) -> str:
    if words.job.ring is None:
        return ""
    form = {"contoured": "a contoured mandrel", "pin": "a disc and pin", "round": "a round mandrel"}
    opened = f", opened on {form[words.job.mandrel.form]} and set by heat" if words.job.mandrel else ""
    return f"{counted(int(words.value('job.ring.count')), 'piston ring')} are made to the bore as honed{opened}."


def _load(words: Words) -> str:
    said = []
    if words.has("joint.gas_force", "joint.preload"):
        said.append(
            f"At peak pressure the gas lifts the head with {words.size('joint.gas_force')}; each stud is tightened to "
            f"{words.size('joint.preload')}."
        )
    if words.has("compression.ratio_before", "compression.ratio_after"):
        before, after = (f"{words.value(f'compression.ratio_{n}'):.2f}" for n in ("before", "after"))
        said.append(f"The compression ratio goes from {before} to {after}.")
    return " ".join(said)

"""What the job is and why, in one paragraph; and what it does not cover."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.shapes.assembly import holes
from parts.sheets.page.marks import stud_holes
from parts.sheets.page.words import counted, hole_list, listed

if TYPE_CHECKING:
    from parts.sheets.page.words import Words

CRANKCASE = "the joint between barrel and crankcase, which carries the same gas force"


def not_covered(words: Words) -> str:
    """Return what the sheet does not look at."""
    left = ["oil-control rings", "valve gear", *([] if words.job.base else [CRANKCASE])]
    return f"Not covered: {', '.join(left)}, and any certified or road-safety approval."


def story(words: Words) -> str:
    """Return the paragraph; every sentence only where the job says so."""
    plugs, rings = (
        " ".join(filter(None, map(tell, words.each(kind)))) for kind, tell in (("plug", _plug), ("ring", _rings))
    )
    parts = (_head(words), _filling(words), _studs(words), plugs, _gasket(words), rings, _load(words))
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
    fills = dict.fromkeys(own.job.old.fill for own in words.each("old") if own.job.old)
    filled = f"its {counted(old, 'old stud hole')} are filled ({listed(list(fills))}) and " if old else ""
    first = f"{filled}{counted(new, 'new hole')} are drilled to the head's pattern"
    if not words.job.instances("stud"):
        return f"{first[0].upper()}{first[1:]}."
    return f"{first[0].upper()}{first[1:]} and tapped{_for_inserts(words)}."


def _for_inserts(words: Words) -> str:
    studs = words.each("stud")
    fitted = [own for own in studs if own.job.stud and own.job.stud.insert]
    if len(fitted) == len(studs):
        return " for wire inserts"
    return f", {hole_list([n for own in fitted for n in stud_holes(own)])} for wire inserts" if fitted else ""


def _studs(words: Words) -> str:
    found = [(own, own.job.stud) for own in words.each("stud") if own.job.stud and own.has("stud.length")]
    if not found:
        return ""
    threads = [f"{stud.tap_end.label} in the barrel and {stud.nut_end.label} through the head" for _, stud in found]
    if not words.job.listed("stud"):
        return f"Stepped studs, {threads[0]}, hold it down."
    kinds = [
        f"{own.name} at {hole_list(stud_holes(own))}, {thread}" for (own, _), thread in zip(found, threads, strict=True)
    ]
    return f"Stepped studs hold it down: {'; '.join(kinds)}."


def _plug(words: Words) -> str:
    plug = words.job.plug
    if plug is None or not words.has("plug.diameter"):
        return ""
    return f"A {plug.fit} plug closes the {plug.passage or 'hole'}{' passage, which the new head does not use' if plug.passage else ''}."


def _gasket(words: Words) -> str:
    gasket = words.job.gasket
    if gasket is None:
        return ""
    sheet = gasket.material.label if gasket.material else "sheet"
    return f"A gasket of {words.size('job.gasket.thickness')} ({sheet}) is cut to both castings."


def _rings(words: Words) -> str:
    if words.job.ring is None:
        return ""
    form = {"contoured": "a contoured mandrel", "pin": "a disc and pin", "round": "a round mandrel"}
    opened = f", opened on {form[words.job.mandrel.form]} and set by heat" if words.job.mandrel else ""
    count = int(words.value("job.ring.count"))
    rings = words.named(counted(count, "piston ring")) + "," * bool(words.name)
    return f"{rings} {'is' if count == 1 else 'are'} made to the bore as honed{opened}."


def _load(words: Words) -> str:
    said = []
    studs = [own for own in words.each("stud") if own.has("joint.gas_force", "joint.preload")]
    if studs:
        each = [own.force("joint.preload") + (f" ({own.name})" if own.name else "") for own in studs]
        said.append(
            f"At peak pressure the gas lifts the head with {words.force('joint.gas_force')}; each stud is tightened to "
            f"{listed(each)}."
        )
    if words.has("compression.ratio_before", "compression.ratio_after"):
        before, after = (f"{words.value(f'compression.ratio_{n}'):.2f}" for n in ("before", "after"))
        said.append(f"The compression ratio goes from {before} to {after}.")
    return " ".join(said)

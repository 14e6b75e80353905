"""Rules that hold between tables: each gets the tables that were read and yields what is wrong, by key."""

from __future__ import annotations

from math import radians, sin
from typing import TYPE_CHECKING, Any

from parts.errors import JobError
from parts.geometry.lands import within
from parts.job.outline_models import Outline
from parts.job.shaped import Shaped

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.job.lines import Path

Faults = list[tuple["Path", str]]
Tables = dict[str, Any]

READING_OFF = 0.02  # of the bore
RING_THICKEST, RING_THINNEST = 10, 60  # bore over radial thickness


def plug_has_its_passage(t: Tables) -> Faults:
    """The plug names a passage that the barrel has, and that is to be blanked."""
    passage = t["plug"].passage
    if passage is None:
        return []
    names = {p.name: p for p in t["barrel"].passages} if "barrel" in t else {}
    if passage not in names:
        has = f"the barrel has {', '.join(map(repr, names))}" if names else "the barrel has no passages"
        return [(("plug", "passage"), f"no passage is called {passage!r}; {has}")]
    if names[passage].form != "diameter":
        return [
            (
                ("plug", "passage"),
                f"names {passage!r}, which is not round: a plug is turned, and closes round passages alone",
            )
        ]
    depth = names[passage].depth
    if None not in (depth, t["plug"].length) and t["plug"].length > depth:
        return [
            (
                ("plug", "length"),
                f"must not be more than the passage's depth of {depth:g} mm, not {t['plug'].length.written!r}",
            )
        ]
    return []


def plug_is_left_by_its_bond(t: Tables) -> Faults:
    """The bond takes its clearance from the plug, and leaves one."""
    plug, passages = t["plug"], t["barrel"].passages if "barrel" in t else []
    hole = plug.hole or next((p.diameter for p in passages if p.name == plug.passage), None)
    clearance = plug.bond_clearance
    if hole is None or clearance is None or clearance <= hole / 10:
        return []
    says = f"must not be more than a tenth of the hole's {hole:g} mm, not {clearance.written!r}"
    return [(("plug", "bond_clearance"), says)]


def passages_have_one_name_each(t: Tables) -> Faults:
    """Two passages of one name could not be told apart."""
    names = [p.name for p in t["barrel"].passages]
    return [
        (("barrel", "passages", n, "name"), f"is used twice: {name!r}")
        for n, name in enumerate(names)
        if name in names[:n]
    ]


def readings_are_of_the_bore(t: Tables) -> Faults:
    """A reading far from the bore is a slip of the pen."""
    bore, readings = t["engine"].bore, t["engine"].bore_readings or []
    return [
        (
            ("engine", "bore_readings", height, way),
            f"must lie within 2 % of the bore, {bore * (1 - READING_OFF):.2f} to {bore * (1 + READING_OFF):.2f} mm, not {one.written!r}",
        )
        for height, pair in enumerate(readings)
        for way, one in enumerate(pair)
        if abs(one - bore) > READING_OFF * bore
    ]


def disc_lies_in_the_ring(t: Tables) -> Faults:
    """The pin form's disc is somewhat smaller than the bore."""
    disc, low, high = t["mandrel"].disc, t["engine"].bore / 2, t["engine"].bore
    if disc is None or low <= disc <= high:
        return []
    says = f"must lie between half the bore and the bore, {low:g} and {high:g} mm, not {disc.written!r}"
    return [(("mandrel", "disc"), says)]


def ring_is_thin(t: Tables) -> Faults:
    """The ring's mechanics are those of a thin bar."""
    thickness, bore = t["ring"].radial_thickness, t["engine"].bore
    low, high = bore / RING_THINNEST, bore / RING_THICKEST
    if thickness is None or low <= thickness <= high:
        return []
    says = f"must lie between bore/60 and bore/10, {low:.2f} and {high:.2f} mm, not {thickness.written!r}"
    return [(("ring", "radial_thickness"), says)]


def ring_opens(t: Tables) -> Faults:
    """The free gap is an opening, and no more than a ring can take."""
    ring, bore = t["ring"], t["engine"].bore
    closed = {
        words: gap for words, gap in (("the slit", ring.slit), ("the closed gap", ring.closed_gap)) if gap is not None
    }
    out: Faults = []
    if ring.free_gap is not None and closed and ring.free_gap <= max(closed.values()):
        than = " and ".join(f"{words} of {gap:g} mm" for words, gap in closed.items())
        out.append((("ring", "free_gap"), f"must be more than {than}, not {ring.free_gap.written!r}"))
    for key, part, words in (("free_gap", 2, "half"), ("slit", 5, "a fifth of"), ("closed_gap", 10, "a tenth of")):
        gap = getattr(ring, key)
        if gap is not None and gap > bore / part:
            says = f"must not be more than {words} the bore, {bore / part:g} mm, not {gap.written!r}"
            out.append((("ring", key), says))
    return out


def mandrel_has_a_ring(t: Tables) -> Faults:
    """A mandrel is made for the ring of the job."""
    lacking = [n for n in ("ring", "engine") if n not in t]
    return [(("mandrel",), f"needs [{n}]: it is made for that ring and bore") for n in lacking]


def ring_has_a_bore(t: Tables) -> Faults:
    """A ring is made for the bore of the job."""
    return [] if "engine" in t else [(("ring",), "needs [engine] with bore: the ring is made to it")]


def groove_holds_the_ring(t: Tables) -> Faults:
    """The groove's root lies inside the bore."""
    groove, bore = t["ring"].groove, t["engine"].bore
    if groove is None or groove.root_diameter < bore:
        return []
    return [
        (
            ("ring", "groove", "root_diameter"),
            f"must be less than the bore of {bore:g} mm, not {groove.root_diameter.written!r}",
        )
    ]


def piston_goes_in(t: Tables) -> Faults:
    """The piston is smaller than the bore."""
    piston, bore = t["ring"].piston_diameter, t["engine"].bore
    if piston is None or piston < bore:
        return []
    return [(("ring", "piston_diameter"), f"must be less than the bore of {bore:g} mm, not {piston.written!r}")]


def outlines_can_be_drawn(t: Tables) -> Faults:
    """No outline crosses itself, roundings have room, drawings are there and closed."""
    return [((*path, shape.form), says) for path, shape in _shapes(t) if (says := _refused(shape))]


def _shapes(t: Tables) -> Iterator[tuple[Path, Shaped]]:
    """Every outline of the job, and every passage, with the place of its table."""
    for name, key in (("barrel", "outline"), ("head", "outline"), ("head", "joint_face"), ("base", "outline")):
        shape = getattr(t[name], key) if name in t else None
        if isinstance(shape, Shaped):
            yield (name, key), shape
    for n, passage in enumerate(t["barrel"].passages if "barrel" in t else ()):
        yield ("barrel", "passages", n), passage


def _refused(shape: Shaped) -> str:
    """Why it can't be drawn; empty where it can."""
    try:
        shape.loops()
    except JobError as error:
        return error.faults[0].says
    return ""


def deck_is_outside_the_bore(t: Tables) -> Faults:
    """The deck face reaches round the bore; of one that holes place, where that is comes out later."""
    outline, bore = t["barrel"].outline, t["engine"].bore
    if outline is None or outline.at_holes or _refused(outline):
        return []
    if within(outline.loop(), 0.0, 0.0) <= bore / 2:
        says = f"must reach round the bore of {bore:g} mm: the deck face ends inside it"
        return [(("barrel", "outline", outline.form), says)]
    return []


def boss_is_round_its_hole(t: Tables) -> Faults:
    """A stud's hole leaves metal round it."""
    boss, hole = t["head"].boss, t["head"].hole_diameter
    if boss is None or hole is None or boss > hole:
        return []
    return [(("head", "boss"), f"must be more than the stud hole of {hole:g} mm, not {boss.written!r}")]


def joint_face_is_outside_the_gasket_s_bore(t: Tables) -> Faults:
    """The raised face presses on something."""
    face, gasket = t["head"].joint_face, t["gasket"]
    bore = t["engine"].bore + gasket.bore_clearance
    if isinstance(face, Outline):
        if face.at_holes or _refused(face) or within(face.loop(), 0.0, 0.0) > bore / 2:
            return []
        says = f"must reach round the gasket's bore of {bore:g} mm: the face ends inside it"
        return [(("head", "joint_face", face.form), says)]
    if face is None or face > bore:
        return []
    return [(("head", "joint_face"), f"must be more than the gasket's bore of {bore:g} mm, not {face.written!r}")]


def liner_is_outside_the_bore(t: Tables) -> Faults:
    """A liner has a wall."""
    liner, bore = t["barrel"].liner, t["engine"].bore
    if liner is None or liner.outside > bore:
        return []
    says = f"must be more than the bore of {bore:g} mm, not {liner.outside.written!r}"
    return [(("barrel", "liner", "outside"), says)]


def bars_fit_their_ports(t: Tables) -> Faults:
    """The bar in a port leaves openings beside it."""
    wide = [t["engine"].bore * sin(radians(port.span / 2)) for port in t["engine"].ports]
    return [
        (
            ("engine", "ports", n, "bridge"),
            f"must be less than the port's width of {chord:.2f} mm, not {port.bridge.written!r}",
        )
        for n, (port, chord) in enumerate(zip(t["engine"].ports, wide, strict=True))
        if port.bridge is not None and port.bridge >= chord
    ]


RULES: list[tuple[tuple[str, ...], tuple[str, ...], Callable[[Tables], Faults]]] = [  # needs these; looks at those too
    (("plug",), ("barrel",), plug_has_its_passage),
    (("plug",), ("barrel",), plug_is_left_by_its_bond),
    (("barrel",), (), passages_have_one_name_each),
    (("engine",), (), readings_are_of_the_bore),
    (("mandrel", "engine"), (), disc_lies_in_the_ring),
    (("ring",), ("engine",), ring_has_a_bore),
    (("ring", "engine"), (), ring_is_thin),
    (("ring", "engine"), (), ring_opens),
    (("ring", "engine"), (), groove_holds_the_ring),
    (("ring", "engine"), (), piston_goes_in),
    (("mandrel",), ("ring", "engine"), mandrel_has_a_ring),
    ((), (), outlines_can_be_drawn),
    (("barrel", "engine"), (), deck_is_outside_the_bore),
    (("barrel", "engine"), (), liner_is_outside_the_bore),
    (("engine",), (), bars_fit_their_ports),
    (("head",), (), boss_is_round_its_hole),
    (("head", "engine", "gasket"), (), joint_face_is_outside_the_gasket_s_bore),
]

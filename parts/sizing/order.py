"""The steps of the sizing, in their order: each puts one subject's sizes into the book, from those before it.

A step about a kind of instance is done for each of them; the others once for the whole job.

A fault in the layout ends the sizing, since everything rests on it; faults in the subjects are gathered.
"""

from __future__ import annotations

from functools import partial
from importlib import import_module
from typing import TYPE_CHECKING, TypeAlias

from parts.fixtures import FIXTURES
from parts.job.instances import JOINTS
from parts.sizing import (
    as_made,
    base,
    bending,
    compression,
    deck,
    drop,
    engagement,
    fasteners,
    gasket,
    head_fit,
    hoop,
    hot,
    joint,
    liner,
    machine_zero,
    mandrel,
    materials,
    neighbours,
    old_holes,
    placing,
    plug,
    ports,
    preload_window,
    press,
    ring,
    ring_bore,
    ring_contact,
    ring_limits,
    ring_sensitivity,
    ring_shape,
    room,
    seal,
    seat_arcs,
    shared_mandrel,
    strip,
    stud,
    tightening,
    turning,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job

    Step: TypeAlias = tuple[str, Callable[[Book, Job], None], str]


FIRST = "turned_washer"
"""the fixture that the studs' lengths rest on"""


def fixture(table: str) -> Step:
    """Step of a fixture: its module is loaded where it is asked for."""
    return table, partial(_size, table), FIXTURES[table].kind


def _size(table: str, book: Book, job: Job) -> None:
    own = getattr(job, table)
    if own is not None:
        materials.enter_material(book, table, own.material)
        import_module(f"parts.sizing.{table}").size(book, job)


LAYOUT: tuple[Step, ...] = (
    ("castings", materials.enter_castings, ""),
    ("threads", stud.size_threads, "stud"),
    ("sections", stud.size_sections, "stud"),
    ("thread metal", hot.size_thread_metal, ""),
    ("engagement", engagement.design_engagement, "stud"),
    ("tapped hole", stud.size_hole, "stud"),
    ("gasket hole", gasket.size_gasket_hole, "stud"),
    ("drawings", placing.size_drawings, ""),
    ("deck", deck.size_deck, ""),
)
PARTS: tuple[Step, ...] = (
    ("liner", liner.size_liner, ""),
    ("screwed plugs", old_holes.size_screwed, "old"),
    ("old holes", old_holes.size_old_holes, ""),
    ("gasket", gasket.size_gasket, ""),
    ("nut", fasteners.size_nut, "stud"),
    ("strength", hot.size_strength, "stud"),
    fixture(FIRST),
    ("stud", stud.size_stud, "stud"),
    ("plug", plug.size_plug, "plug"),
    ("face", seal.size_face, ""),
    ("gas", joint.size_gas, ""),
    ("stiffness", joint.size_stiffness, "stud"),
    ("shares", joint.size_shares, ""),
    ("heat", hot.size_heat, "stud"),
    ("limits", joint.size_limits, "stud"),
    ("strip", strip.size_strip, "stud"),
    ("levers", bending.size_levers, ""),
    ("code", seal.size_code, ""),
    ("preload share", preload_window.design_share, "stud"),
    ("preload", joint.size_preload, "stud"),
    ("hot preload", hot.size_hot_preload, "stud"),
    ("tightening", tightening.size_tightening, "stud"),
    ("together", joint.size_together, ""),
    ("bending", bending.size_bending, ""),
    ("seal", seal.size_seal, ""),
    ("passages", room.size_passages, ""),
    ("head room", room.size_head_room, ""),
    ("hold of the plug", press.size_hold, "plug"),
    ("turning", turning.size_turning, "stud"),
    ("ring", ring.size_ring, "ring"),
    ("mandrel", mandrel.size_mandrel, "ring"),
    ("bore", ring_bore.size_bore, "ring"),
    ("ring shape", ring_shape.size_ring_shape, "ring"),
    ("mandrel growth", ring_shape.size_mandrel_growth, "ring"),
    ("ring contact", ring_contact.size_ring_contact, "ring"),
    ("hoop", hoop.size_hoop, "ring"),
    ("ring limits", ring_limits.size_ring_limits, "ring"),
    ("seat arcs", seat_arcs.size_seat_arcs, "ring"),
    ("shared mandrels", shared_mandrel.size_shared_mandrels, ""),
    ("out of round", ring_bore.size_out_of_round, "ring"),
    ("ring errors", ring_sensitivity.size_sensitivities, "ring"),
    ("room of the stud", neighbours.size_stud_room, "stud"),
    ("room of the plug", neighbours.size_plug_room, "plug"),
    ("room of the ring", neighbours.size_ring_room, "ring"),
    ("ports", ports.size_ports, ""),
    ("rings and ports", ports.size_ring_ports, "ring"),
    ("compression", compression.size_compression, ""),
    ("head fit", head_fit.size_head_fit, ""),
    ("machine", machine_zero.size_machine, ""),
    ("drop", drop.size_drop, ""),
    *(fixture(table) for table in FIXTURES if table != FIRST),
)
CRANKCASE: tuple[Step, ...] = (  # the joint there: by the steps of the head's, in a view of its own
    ("base", base.size_base, ""),
    *((name, step, kind) for kind in JOINTS for name, step in (
        ("threads", stud.size_threads),
        ("gasket hole", gasket.size_gasket_hole),
        ("under", base.size_under),
        ("sections", stud.size_sections),
        ("thread metal", hot.size_thread_metal),
        ("engagement", engagement.design_engagement),
        ("tapped hole", stud.size_hole),
        ("holes", deck.size_new_holes),
        ("nut", fasteners.size_nut),
        ("stud", stud.size_stud),
        ("face", seal.size_face),
        ("share", base.size_share),
    )),
    ("stiffness", joint.size_stiffness, "base"),
    ("heat", hot.size_heat, "base"),
    ("room", room.size_head_room, "base"),
    ("series", base.size_series, ""),
    *((name, step, kind) for kind in JOINTS for name, step in (
        ("strength", hot.size_strength),
        ("limits", joint.size_limits),
        ("strip", strip.size_strip),
        ("code", seal.size_code),
        ("preload share", preload_window.design_share),
        ("preload", joint.size_preload),
        ("hot preload", hot.size_hot_preload),
        ("tightening", tightening.size_tightening),
        ("seal", seal.size_seal),
    )),
)  # fmt: skip
SUBJECTS: tuple[Step, ...] = (
    *PARTS,
    *CRANKCASE,
    ("made", as_made.size_made, ""),
    ("pocket", as_made.size_pocket, "plug"),
)

"""The steps of the sizing, in their order: each puts one subject's sizes into the book, from those before it.

A fault in the layout ends the sizing, since everything rests on it; faults in the subjects are gathered.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from parts.sizing import (
    as_made,
    clamp_plate,
    compression,
    deck,
    drop,
    gasket,
    hot,
    joint,
    machine_zero,
    mandrel,
    materials,
    neighbours,
    plug,
    press,
    ring,
    ring_bore,
    ring_contact,
    ring_sensitivity,
    ring_shape,
    room,
    seal,
    strip,
    stud,
    turning,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job

    Step: TypeAlias = tuple[str, Callable[[Book, Job], None]]

LAYOUT: tuple[Step, ...] = (
    ("castings", materials.enter_castings),
    ("threads", stud.size_threads),
    ("gasket hole", gasket.size_gasket_hole),
    ("deck", deck.size_deck),
)
SUBJECTS: tuple[Step, ...] = (
    ("gasket", gasket.size_gasket),
    ("stud", stud.size_stud),
    ("plug", plug.size_plug),
    ("stiffness", joint.size_stiffness),
    ("heat", hot.size_heat),
    ("preload", joint.size_preload),
    ("hot preload", hot.size_hot_preload),
    ("strip", strip.size_strip),
    ("seal", seal.size_seal),
    ("passages", room.size_passages),
    ("head room", room.size_head_room),
    ("hold of the plug", press.size_hold),
    ("turning", turning.size_turning),
    ("ring", ring.size_ring),
    ("mandrel", mandrel.size_mandrel),
    ("clamp plate", clamp_plate.size_clamp_plate),
    ("bore", ring_bore.size_bore),
    ("ring shape", ring_shape.size_ring_shape),
    ("mandrel growth", ring_shape.size_mandrel_growth),
    ("ring contact", ring_contact.size_ring_contact),
    ("out of round", ring_bore.size_out_of_round),
    ("ring errors", ring_sensitivity.size_sensitivities),
    ("neighbours", neighbours.size_neighbours),
    ("compression", compression.size_compression),
    ("machine", machine_zero.size_machine),
    ("drop", drop.size_drop),
    ("made", as_made.size_made),
)

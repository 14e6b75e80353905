"""Names in the book of what the contact solver takes."""

from __future__ import annotations

from parts.relations.ring_forms import EVEN

RING = {
    "bore": "job.engine.bore",
    "thickness": "job.ring.radial_thickness",
    "width": "job.ring.axial_width",
    "modulus": "ring.modulus",
    "outside": "ring.outside_diameter",
    "slit": "job.ring.slit",
}
"""argument -> size, of the ring by itself"""
SET = {"set_fraction": "job.ring.heat_set.set_fraction"}
GAPS = {"free_gap": "ring.free_gap", "closed_gap": "ring.closed_gap"}
OWN = {
    "contoured": {**SET, **GAPS},
    "pin": {**SET, "open_gap": "mandrel.open_gap"},
    "round": {**SET, "mandrel": "mandrel.diameter"},
    EVEN: GAPS,
}
"""the same, of each form"""

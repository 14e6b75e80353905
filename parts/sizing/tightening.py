"""How the nuts are tightened: scatter of the way, stretch and angle of the preload, the pull that tries a thread."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import joint, strip
from parts.relations import tightening as relation

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

TORQUE = "torque"
SCATTER = {  # way of tightening -> scatter either way, whose figure
    TORQUE: (0.25, "a torque wrench: VDI 2230-1, table A8, alpha_A 1.4 to 1.6 and more where friction is estimated"),
    "angle": (0.17, "an angle from snug: VDI 2230-1, table A8, alpha_A 1.2 to 1.4, the greatest taken"),
    "stretch": (0.13, "stretch by a clock: VDI 2230-1, table A8, alpha_A 1.1 to 1.3, the greatest taken"),
}


def enter_scatter(book: Book, job: Job) -> None:
    """Enter how far a preload may come out from what was meant, by the way it is tightened."""
    way = job.stud.tightened_by if job.stud else TORQUE
    for name, by in (("joint.scatter", way), ("joint.wrench_scatter", TORQUE)):
        share, source = SCATTER[by]
        book.enter(name, share, "1", "memory", f"{source}: {100 * share:g} % either way")


def size_tightening(book: Book, _: Job) -> None:
    """Add stretch and angle of the preload, and the pull that tries each thread before the head goes on."""
    preload, spring = "joint.preload", "stud.stiffness"
    book.add("joint.stretch", relation.stretch, preload=preload, stiffness=spring)
    hot = {"preload": "joint.hot_preload", "growth": "hot.run_in.stud"}
    book.add("joint.hot_stretch", relation.hot_stretch, stiffness=spring, **hot)
    both = {"stud_stiffness": spring, "clamped_stiffness": "joint.clamped_stiffness"}
    book.add("joint.nut_angle", relation.nut_angle, preload=preload, pitch="stud.nut_end_pitch", **both)
    _proof_pull(book)


def _proof_pull(book: Book) -> None:
    hole = "strip.sound_force" if "strip.sound_force" in book else "strip.parent_force"
    nut = {"stud": "joint.tap_end_strip_force", "other": "joint.nut_end_strip_force"}
    book.add("joint.weaker_end", strip.weaker, **nut)
    book.add("joint.proof_thread", strip.weaker, stud="joint.weaker_end", other=hole)
    scatter = {"scatter": "joint.wrench_scatter"}
    limits = {"thread": "joint.proof_thread", "stud": "joint.tightening_limit"}
    book.add("joint.proof_pull", relation.pull, greatest="joint.greatest_preload", **limits, **scatter)
    book.add("joint.proof_pull_least", relation.least_pull, pull="joint.proof_pull", **scatter)
    book.add("joint.proof_pull_most", relation.most_pull, pull="joint.proof_pull", **scatter)
    book.add(
        "joint.proof_torque",
        joint.torque,
        preload="joint.proof_pull",
        pitch="stud.nut_end_pitch",
        pitch_diameter="stud.nut_end_pitch_diameter_basic",
        half_angle="stud.nut_end_half_angle",
        friction="job.stud.friction",
        friction_diameter="joint.friction_diameter",
    )
    book.add("joint.proof_spacer", relation.spacer, gasket="job.gasket.thickness", head="job.head.thickness")

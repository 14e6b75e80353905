"""The rules on numbers: what is a caution, what stops the job, whose rule it is, and what to change."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts.job.models import HEATS
from parts.relations.least_squares import SIGMAS
from parts.sizing import plug, ring_design
from parts.sizing import preload_window as window
from parts.sizing.engagement import UNDER_LEAST, UNDER_SHARE
from parts.sizing.gasket_thickness import LEAST_SQUISH
from parts.sizing.ring_held import CLOSES, LEAST_PRESSURE
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book


@dataclass(frozen=True, slots=True)
class Of:
    """A limit that is a share of another size, and no less than a floor."""

    size: str
    share: float = 1.0
    floor: float | None = None
    known: str = ""
    """another size, never over it, that stands for it where it is not known itself"""


Limit = float | Of


@dataclass(frozen=True, slots=True, eq=False)
class Rule:
    """One rule on one size, or on all whose names fit a pattern with *."""

    size: str
    what: str
    """in words, before the value"""
    caution: Limit | None
    stop: Limit | None
    source: str
    """{caution} and {stop} are its own limits"""
    change: str
    """what to do about it"""
    least: bool = False
    """the size must be at least the limit, else at most"""
    unless: Callable[[Book, str], bool] | None = None
    """where the rule does not hold"""
    worst: str = ""
    """the same size with everything at its limits: judged in its place where it is known"""
    kind: str = ""
    """of instance that a size of the whole job is held against, each by itself"""

    @property
    def cited(self) -> str:
        """Whose rule it is, with its own figures filled in."""
        if "{" not in self.source:
            return self.source
        caution, stop = (limit.share if isinstance(limit, Of) else limit for limit in (self.caution, self.stop))
        text = self.source.format(caution=caution, stop=stop)
        return SPELLED.sub(lambda found: IN_WORDS[found[0]], text)


IN_WORDS = {"0.5 of": "half of", "2 times": "twice", "30 min": "half an hour"}
SPELLED = re.compile(rf"(?<![\d.])({'|'.join(map(re.escape, IN_WORDS))})")


def caution_of(size: str, *, least: bool = False) -> float:
    """Where a size becomes a caution, by the rule that wants it at least so large, or at most: what sheets print of it.

    >>> caution_of("ring.side_clearance", least=True), caution_of("ring.side_clearance")
    (0.02, 0.08)
    """
    return _plain(_ruled(size, least=least).caution)


def stop_of(size: str, *, least: bool = False) -> float:
    """Where a size stops the job.

    >>> stop_of("compression.squish", least=True)
    0.4
    """
    return _plain(_ruled(size, least=least).stop)


def _ruled(size: str, *, least: bool) -> Rule:
    return next(rule for rule in RULES if rule.size == size and rule.least == least)


def _plain(limit: Limit | None) -> float:
    if not isinstance(limit, float):
        raise TypeError(f"{limit} is no figure by itself")
    return limit


def _all_in_filler(book: Book, name: str) -> bool:
    """Where no more of the thread leans on a thin wall than lies in filler, that share says it."""
    share = name.rpartition(".")[0] + ".in_filler"
    return book.has(name, share) and 0 < book[name].value <= book[share].value


def _no_bond(book: Book, _: str) -> bool:
    """No bond, no rule on bonds."""
    return "plug.hold_force" not in book and not book.needs("plug.hold_force")


def _shouldered(book: Book, _: str) -> bool:
    """A shoulder holds the plug, and the fit need only seal."""
    return "plug.shoulder_force" in book


def _no_pin(book: Book, _: str) -> bool:
    """Only the pin form has a disc, whose size stands in the book for comparison."""
    return "job.mandrel.disc" not in book


RUN_IN = "thin bar on one-sided walls, solved numerically; that up to {caution:g} mm of light closes as ring and bore run in is common practice, no source"
SOLVED = "thin bar on one-sided walls, solved numerically; the limit is common practice, no source"
SOFTENS = 620.0  # degC
IRON = (
    "least bending strength of the iron by its table; rings of IS 8422-2 work at up to {caution:g} of 300 MPa (derived)"
)
WALL = "IS 8422-2: 0.178 to 0.185, its force within 20 % (derived); "
SETTING = f"reports of stress relief of grey iron: slow under 538 degC, above 550 to {SOFTENS:g} degC it softens"
WEAKENS = 120.0  # degC, from which a retaining compound loses strength (memory)
WHEN = dict(zip(HEATS, ("", ", in the run-up", ", after a hot stop"), strict=True))
UNLIKE = "thermal expansion; the limit is common practice, no source"
CODE = "ASME VIII-1 appendix 2: a reference from flanges, not engine practice"
MAJOR, COLD = "deck.tapped_major", "joint.hardest_preload"
THIN, THINNEST = Of(MAJOR, 0.5), Of(MAJOR, UNDER_SHARE, floor=UNDER_LEAST)

RULES: list[Rule] = [
    # deck
    Rule("deck.hole.*.to_bore", "Metal to the bore, new hole", THIN, THINNEST, PRACTICE, "move the pattern out, or take a smaller thread or insert", least=True),
    Rule("deck.hole.*.to_edge", "Metal to the edge of the deck, new hole", THIN, THINNEST, PRACTICE, "move the pattern in, or take a smaller thread or insert", least=True),
    Rule("deck.hole.*.to_next", "Metal to the next new hole, hole", THIN, THINNEST, PRACTICE, "spread the pattern", least=True),
    Rule("deck.hole.*.to_passage", "Metal to the nearest passage, new hole", THIN, THINNEST, PRACTICE, "turn the pattern, or plug the passage and bring the hole well into the plug's side", least=True),
    Rule("deck.hole.*.in_filler", "Share of the thread in an old hole's filler, new hole", 0.0, 0.5, PRACTICE, "turn the pattern until half the thread's diameter of sound metal stands before the filler, a thin wall is no gain; or trust less of the thread and take a longer engagement; drill with a centre-cutting end mill, a twist drill runs off"),
    Rule("deck.hole.*.unsound", "Share of the thread in filler, or with less than half its diameter of sound metal before the filler, new hole", 0.0, 0.5, PRACTICE, "a thin wall breaks out when it is tapped, and leans on the filler: fill before drilling, and turn the pattern further, not a little", unless=_all_in_filler),
    Rule("deck.old.*.to_bore", "Metal to the bore, old hole", 4.0, 2.0, PRACTICE, "give where the hole really is; if it is so near, neither braze nor plug holds that wall against heat and gas: sleeve the bore, or take another barrel", least=True),
    Rule("deck.old.*.to_edge", "Metal to the edge of the deck, old hole", 3.0, 0.0, PRACTICE, "give where the hole really is; one that breaks out of the edge holds no filler: build the edge up first", least=True),
    Rule("deck.old.*.to_next", "Metal to the next old hole, old hole", 3.0, 0.0, PRACTICE, "give where the holes really are; two that meet are one cavity: mill it out and fill it as one", least=True),
    Rule("deck.old.*.to_passage", "Metal to the nearest passage, old hole", 2.0, 0.0, PRACTICE, "stop the passage with a carbon rod before brazing, or sleeve it: filler runs into it", least=True),
    Rule("deck.old.*.round_plug", "Metal round the thread of the screwed plug, old hole", 3.0, 1.5, PRACTICE, "give a smaller thread, or braze: a tap splits a thin wall", least=True),
    Rule("deck.old.*.floor", "Metal below the old hole", THINNEST, 0.0, PRACTICE, "look at depth and deck_depth, one of them may be a slip; a hole that goes through must be stopped from below before it is filled", least=True),
    Rule("deck.floor", "Metal under the blind holes, drill point included", THINNEST, 0.0, PRACTICE, "drill less deep: a bottoming tap, a shorter insert", least=True),
    Rule("deck.thinnest", "Thinnest metal round the new holes and the passages", THIN, THINNEST, PRACTICE, "see which wall it is among the sizes of the deck, and move that hole", least=True),
    Rule("deck.washer.*.to_next", "Washer to the next washer, hole", 1.0, 0.0, PRACTICE, "spread the pattern, or take smaller washers: a socket needs room too", least=True),
    Rule("deck.washer.*.to_spigot", "Washer to the spigot, hole", 0.5, 0.0, PRACTICE, "move the pattern out, or turn the washers down: one that rides up a wall does not clamp", least=True),
    Rule("deck.washer.*.to_edge", "Washer to the edge of the head, hole", 0.0, -2.0, PRACTICE, "move the pattern in, or take smaller washers: one that overhangs tips the nut", least=True),
    Rule("deck.hole.*.boss_to_edge", "Edge of the deck outside the head's boss, hole", 0.0, Of("job.head.boss", -0.2), PRACTICE, "look at boss and outline, one of them may be a slip; where the boss overhangs, nothing is clamped", least=True),
    Rule("deck.drawing_off", "Holes of a drawing off those of the job", 0.2, 1.0, PRACTICE, "measure the holes again; where they are right, trace the face once more, or draw it anew", unless=lambda book, _: book["deck.drawing_unjudged"].value > 0),
    Rule("deck.neck", "Narrowest neck of the deck's outline", 6.0, 2.0, PRACTICE, "look at the points, one of them may be a slip: a casting has no such neck", least=True),
    Rule("head.neck", "Narrowest neck of the head's outline", 6.0, 2.0, PRACTICE, "look at the points, one of them may be a slip: a casting has no such neck", least=True),
    Rule("gasket.hole.*.under_head", "Head over the edge of the gasket's hole", 2.0, 0.0, PRACTICE, "the gasket is not pressed there: move the hole in", least=True),
    Rule("deck.old.*.under_head", "Head over the edge of a filled old hole", 0.0, None, PRACTICE, "part of the old hole lies outside the head: its filler must seal by itself, so test it for leaks", least=True),
    # stud
    Rule("stud.free_nut_thread", "Thread left below the nut", Of("stud.nut_end_pitch", 2.0), Of("stud.nut_end_pitch", 0.5), PRACTICE, "give a longer nut_end_length: the nut runs onto the shank", least=True),
    Rule("stud.shank_length", "Plain shank", Of("stud.nut_end_nominal", 0.5), 0.0, PRACTICE, "give a shorter nut_end_length", least=True),
    Rule("stud.shank_diameter", "Shank", Of("gasket.hole_diameter"), Of("job.head.hole_diameter"), "geometry: it has to go through", "a thinner shank: it must pass the hole in head and gasket"),
    Rule("stud.bottom_room", "Thread left under the stud", 0.0, -0.5, "geometry: a stud that bottoms splits its boss when it is tightened", "tap on down, or shorten the tap end", least=True),
    # does the head go on
    Rule("drop.room", "Room round each stud in the head's hole, both patterns off the worst way", 0.0, None, "ISO 2692, worst case of both positions (memory)", "drill by coordinates and check over pins before tapping, or open the head's holes", least=True),
    Rule("drop.chance", "Chance that the head drops on, by both position tolerances and what the readings leave open", 0.95, 0.5, f"normal scatter, {SIGMAS:g} standard deviations to a tolerance along X and along Y: common practice, no source", "drill closer, or open the head's holes", least=True),
    Rule("job.head.hole_diameter", "Stud hole of the head", Of("joint.widest_hole"), Of("stud.washer_outside", 0.8), "ISO 273, coarse; {stop:g} of the washer is common practice, no source", "a thick washer of larger outside: a thin one dishes into a wide hole", kind="stud"),
    Rule("drop.hole.*.open_to", "Hole of the head, opened to let it on, hole", Of("joint.widest_hole"), Of("stud.washer_outside", 0.8), "ISO 273, coarse; {stop:g} of the washer is common practice, no source", "a thick washer of larger outside over that hole"),
    Rule("drop.hole.*.room", "Room left round the stud in the head's hole, as drilled, stud", 0.1, 0.0, PRACTICE, "open the head's hole as the finding on that hole says", least=True),
    # joint, cold
    Rule("joint.bore_inside", "Bore's centre inside the studs, from the line between two of them", Of("gasket.effective_diameter", 0.15, floor=1.0), 0.0, "statics: studs can only pull; {caution:g} of the diameter that seals is common practice, no source", "studs all round the bore: from one side they can't hold the gas, the head tilts open on the other, whatever the preload", least=True),
    Rule("joint.separation_factor", "Preload over the gas force that would open the joint, times", *window.SEPARATION, "Shigley, Mechanical Engineering Design, ch. 8; the margin is common practice, no source", "more preload, more or thicker studs; stand clear of the head joint at the first start", least=True),
    Rule("joint.load_factor", "Gas force that would stretch the stud for good, over what comes, times", *window.STRETCH, "Shigley, Mechanical Engineering Design, ch. 8; the margin is common practice, no source", "less preload, or a stronger stud", least=True),
    Rule("joint.preload_share", "Preload, share of the proof load", *window.MOST_SHARE, "Shigley, Mechanical Engineering Design, ch. 8: {caution:.2f} for a joint that comes apart again, {stop:.2f} for good (memory)", "less preload"),
    Rule("joint.preload_share", "Preload, share of the proof load", *window.LEAST_SHARE, PRACTICE, "heat takes up the stud: a longer or thinner waist, a stronger stud, or a head that grows less", least=True),
    Rule("joint.tightening_use", "Pull and twist together while the nut is turned, share of what the stud stands", *window.TIGHTENING, "VDI 2230-1: 0.9 of the yield strength", "less preload, or less friction: oil thread and face; a stud that yields under the wrench can part, keep your face away"),
    Rule("joint.fatigue_amplitude", "Swing of the stress in the stud's weakest section", Of("joint.fatigue_limit", 0.5), Of("joint.fatigue_limit"), "VDI 2230-1, rolled threads (memory); {caution:g} of it for cut ones is common practice, no source", "a longer or thinner waist, or thicker studs"),
    Rule("joint.nut_proof_load", "What the nut stands by its class", Of("joint.breaking_load"), Of("joint.greatest_preload", known=COLD), "ISO 898-2", 'a nut of a higher class, named as in "ISO 4032 class 10": it must outlast the stud, not strip off it', least=True),
    Rule("joint.nut_pressure", "Pressure of the nut on the washer", Of("joint.washer_strength", window.NUT[0]), Of("joint.washer_strength", window.NUT[1]), "ISO 18265, strength by hardness (memory); {stop:g} times it is common practice, no source", 'a hardened washer, named as in "ISO 7089 300 HV": a soft one dishes and the load goes'),
    # joint, hot
    Rule("joint.proof_use", "Greatest load on a stud, hot, share of the proof load that the heat leaves it", *window.PROOF, "VDI 2230-1, growth of the parts; ISO 898-1, steel hot (memory); the margin is common practice, no source", "less preload, a longer or thinner waist, a stronger stud: an overloaded stud stretches, goes slack and may part"),
    Rule("joint.lowest_preload", "Least preload in any state, over the gas force that opens the joint", Of("joint.opening_force", window.LOWEST[0]), Of("joint.opening_force", window.LOWEST[1]), "Shigley, Mechanical Engineering Design, ch. 8; the margin is common practice, no source", "more preload, and a torque wrench that was checked; make the first run in the warm and re-torque cold after it, before any frost, and stand clear of the joint", least=True),
    Rule("joint.bending_stress", "Stress as the studs bend the head over its raised face, hot", Of("head.yield_hot", window.BENDING[0]), Of("head.yield_hot", window.BENDING[1]), "Timoshenko, Strength of Materials, part II, twisted ring (memory); {caution:g} of the yield strength hot is common practice, no source", "a wider raised face that reaches the studs, or less preload: a head that thin bends, and its face opens at the bore"),
    Rule("joint.face_lift", "Lift of the raised face at the bore as the studs bend the head", window.LIFT, None, PRACTICE, "a wider raised face that reaches the studs, or less preload: the gasket is pressed at its outside and loose at the bore"),
    Rule("joint.washer_pressure", "Pressure of the washer on the head, hot", Of("head.bearing_hot", window.WASHER[0]), Of("head.bearing_hot", window.WASHER[1]), "yield strength hot from handbooks (memory); {stop:g} times that is common practice, no source", "a thick washer of larger outside, or less preload: the alloy creeps away under it and the preload goes; re-torque cold"),
    # threads
    Rule("joint.tap_end_strip_force", "Force that strips the tap end", Of("joint.breaking_load"), Of("joint.greatest_preload", window.STRIP, known=COLD), "FED-STD-H28/2; the margin over the greatest preload is common practice, no source", "a longer engagement or insert: the stud must break before the barrel's thread tears out", least=True),
    Rule("strip.sound_force", "Force that strips the barrel's thread without the part in an old hole's filler", Of("joint.breaking_load"), Of("joint.greatest_preload", window.STRIP, known=COLD), "FED-STD-H28/2; that filler is not trusted is common practice, no source", "a longer insert, or turn the pattern out of the old hole", least=True),
    Rule("joint.nut_end_strip_force", "Force that strips the nut end", Of("joint.breaking_load"), Of("joint.greatest_preload", window.STRIP, known=COLD), "FED-STD-H28/2, ISO 898-2", "a taller nut, or one of a higher class", least=True),
    Rule("strip.tap_end_engagement", "Thread engaged in the barrel", Of("strip.tap_end_rule"), Of("strip.tap_end_rule", 0.5), "DIN 938, 939, 835: 1 d in steel, 1.25 d in cast iron, 2 d in aluminium; {stop:g} of it is common practice, no source", "a longer insert or engagement", least=True),
    # crankcase
    Rule("job.base.flange_thickness", "Flange of the barrel", Of("base.stud.nut_end_nominal"), Of("base.stud.nut_end_nominal", 0.5), PRACTICE, "studs nearer to the wall: a flange that thin bends and the joint gapes inside", least=True),
    # gasket
    Rule("gasket.narrowest_land", "Narrowest land of the gasket", 3.0, 1.5, PRACTICE, "a narrow land burns through: smaller holes, more land outside them, or another outline", least=True),
    Rule("gasket.overhang", "Gasket over the edge of the bore, lying to one side", 0.0, 0.5, PRACTICE, "give more bore_clearance: an edge in the chamber glows"),
    Rule("gasket.seating_stress", "Stress that seats the gasket, cold", Of("gasket.seating_limit"), None, CODE, "anneal the sheet just before, or press on a narrower raised face: more preload only where the studs allow it", least=True),
    Rule("gasket.least_seating_stress", "Stress that seats the gasket where the tightening comes out low", Of("gasket.seating_limit"), None, CODE, "check the wrench, tighten in three stages, re-torque cold after the first run", least=True),
    Rule("gasket.working_stress", "Stress left on the gasket at peak pressure", Of("gasket.working_limit"), Of("gasket.blow_pressure"), CODE + "; under the pressure of the gas itself it blows", "more preload or a narrower raised face; a blown gasket throws hot gas: stand clear of the joint at the first start", least=True),
    Rule("gasket.greatest_stress", "Greatest stress on the gasket, hot", Of("gasket.tensile_strength", window.SQUEEZED[0]), Of("gasket.tensile_strength", window.SQUEEZED[1]), PRACTICE, "a wider raised face or less preload: the sheet is squeezed out thin and the preload goes"),
    Rule("gasket.pressed_width", "Width of the ring that is pressed", 3.0, 1.5, PRACTICE, "a wider raised face, or less bore_clearance: a narrow ring burns through", least=True),
    Rule("gasket.stud_pitch", "Distance from one stud to the next", Of("gasket.pitch_limit"), None, "Khurmi and Gupta, A Textbook of Machine Design, ch. 32: 19 to 28.5 times the root of the diameter", "more studs, or a stiffer head: the joint leaks midway between them"),
    # plug
    Rule("plug.bond_reserve", "Bond over gas force, safety for heat, gap and surface taken off, times", plug.RESERVE, 1.0, "ISO 10123; the safeties are common practice, no source", "a longer plug, a shoulder, a thread or three stakes: a plug that lets go is a shot, never stand over it", least=True),
    *(Rule(f"job.engine.{state}.barrel", f"Heat at the bond of the plug{when}", 150.0, 230.0, f"retaining compounds lose their strength above {WEAKENS:g} to {{caution:g}} degC (memory)", "a compound rated for it, or hold the plug by a shoulder, a thread or stakes", unless=_no_bond, kind="plug") for state, when in WHEN.items()),
    Rule("job.plug.bond_clearance", "Gap of the bond, on diameter", 0.1, 0.25, PRACTICE, "a plug made to the hole: strength falls with the gap", unless=_no_bond),
    Rule("plug.bond_gap_hot", "Gap of the bond at its widest, hot, on diameter", 0.1, 0.25, "growth of plug and hole; the limits are common practice, no source", "a plug that grows as the barrel does, made to the hole: strength falls with the gap"),
    Rule("plug.hoop_share", "Stress round the pressed plug, share of the barrel's strength in that section", 0.5, 1.0, "Lame; EN 1561 by the casting's section; {caution:g} of it is common practice, no source", "a looser tolerance letter, or a bonded plug with a shoulder: iron bursts without warning, press behind a guard with eyes covered"),
    Rule("plug.own_share", "Stress in the pressed plug, share of its yield strength", 0.8, 1.0, "Lame; the limits are common practice, no source", "a stronger metal, or a looser letter: a plug that yields when it is hot is slack when it is cold"),
    Rule("plug.push_out_times", "Press fit, and the shoulder if it has one, over gas force in the worst state, times", 3.0, 1.0, "Lame; DIN 7190-1 (memory); the margin is common practice, no source", "a tighter tolerance letter, a longer plug, a finer finish of plug and hole, a shoulder or stakes: a plug that lets go is a shot, never stand over it", least=True),
    Rule("plug.interference_min", "Least interference of the plug", 0.0, -0.005, "ISO 286-1; {stop:g} mm is common practice, no source", "take a tighter tolerance letter, p or r", least=True),
    Rule("plug.interference_left", "Least interference that is left when the peaks of both faces are pressed flat", plug.TIGHT, 0.0, "DIN 7190-1: 0.8 of both roughnesses (memory); {caution:g} mm is common practice, no source", "measure the hole and give its tolerance, turn or grind finer and give the roughness, take a tighter letter, or give it a shoulder", least=True, unless=_shouldered),
    # ring
    Rule("ring.closed_gap", "Closed gap", Of("job.engine.bore", ring_design.SHUT), 0.0, "{caution:g} to 0.004 of the bore: textbooks of machine design", "a wider slit or a smaller blank", least=True),
    Rule("ring.closed_gap", "Closed gap", Of("job.engine.bore", ring_design.WIDEST_GAP), Of("job.engine.bore", ring_design.OPEN), PRACTICE, "a larger blank"),
    Rule("ring.hot_gap", "Gap with ring and bore at working temperature", ring_design.HOT_GAP, 0.0, "thermal expansion; the margin is common practice, no source", "more closed gap: ends that meet break the ring or score the bore", least=True),
    Rule("ring.slenderness", "Bore over radial thickness", 20.0, 16.0, "IS 8422-2: 23.3 to 24.1; {caution:g} and {stop:g} are common practice, no source", "a thinner ring: this one is stiff and may break on the piston", least=True),
    Rule("ring.fitting_share", "Stress over the piston, share of the iron's least bending strength", 1.0, ring_design.SPRUNG_TO, "thin curved bar; strength from the material table; {stop:g} of it is common practice, no source", "slip it on over a thin sleeve, which takes off 22 to 25 %, or make it thinner"),
    Rule("ring.working_stress", "Bending stress of the ring at work", Of("ring.bending_strength", ring_design.WORKS_AT), Of("ring.bending_strength"), IRON, "less free gap, or a thinner ring, as far as the pressure on the wall allows: this one breaks or takes a set"),
    Rule("ring.contact_pressure", "Mean pressure of the ring on the bore", ring_design.WALL[0], 0.071, WALL + "half of that is common practice, no source", "more free gap, or a thicker ring, as far as the iron's strength allows: gas lifts a slack ring off the wall", least=True),
    Rule("ring.contact_pressure", "Mean pressure of the ring on the bore", ring_design.WALL[1], 0.444, WALL + "twice that is common practice, no source", "less free gap, or a thinner ring: this one wears itself and the bore"),
    Rule("ring.side_clearance", "Play in the groove", ring_design.PLAY[0], 0.005, PRACTICE, "lap the ring thinner", least=True),
    Rule("ring.side_clearance", "Play in the groove", ring_design.PLAY[1], 0.15, PRACTICE, "a wider ring: a loose one hammers the groove out"),
    Rule("ring.back_clearance", "Room behind the ring", 0.3, 0.0, "groove deeper than the ring by 0.4 mm: textbooks of machine design; {caution:g} mm is common practice, no source", "a thinner ring, or a deeper groove", least=True),
    Rule("job.ring.heat_set.set_fraction", "Share of the opening that the heat sets", 0.9, 0.5, PRACTICE, "hotter or longer: a set that small is hard to repeat", least=True),
    Rule("ring.under_land", "How far the ring goes under the piston's land", 0.15, 0.0, "groove deeper than the ring by 0.4 mm: textbooks of machine design; the margin is common practice, no source", "a deeper groove, or a thinner ring: at the root it would carry the piston's side thrust and score the bore", least=True),
    Rule("ring.held_share", "Share of the ring's thickness held in its groove, the piston to the other side", 0.75, 0.5, PRACTICE, "a piston that fills the bore: a ring held by its edge tips, breaks and wears the groove", least=True),
    Rule("ring.pressure_ratio_least", "Least pressure on the bore over any 10 degrees, seat, blank and slit at their limits, share of the mean", LEAST_PRESSURE, None, SOLVED, "the contoured form, its ends bound down, its seat dressed true, then lap the set ring to a true bore: the wall is bare there and gas blows by until it has run in", least=True, worst="ring.at_limits.pressure_ratio_least"),
    Rule("ring.light_gap", "Light between ring and bore, true, seat, blank and slit at their limits", CLOSES, 0.05, RUN_IN, "a truer seat and a rounder blank of its size, the contoured form, or lap the set ring to a true bore: oil and gas pass where light does", worst="ring.at_limits.light_gap"),
    Rule("ring.piston_play", "Play of the piston in the bore, on diameter", Of("job.engine.bore", 0.003), Of("job.engine.bore", 0.01), PRACTICE, "an oversize piston: this one slaps, and its rings tip in their grooves"),
    Rule("ring.bore_taper", "Taper of the bore as measured", 0.03, 0.1, PRACTICE, "hone it straight: the gap opens and shuts by three times the taper at every stroke"),
    Rule("ring.bore_ovality", "Ovality of the bore as measured", 0.02, 0.08, PRACTICE, "hone it round: no ring follows that for long"),
    Rule("ring.out_of_round.light_gap", "Light between ring and bore, as measured", 0.005, 0.05, SOLVED, "hone the bore round, or set the rings on the contoured form"),
    Rule("ring.out_of_round.pressure_ratio_least", "Least pressure over any 10 degrees in the bore as measured, share of the mean", 0.3, None, SOLVED, "hone the bore round, or set the rings on the contoured form", least=True),
    # heat set
    Rule("job.ring.heat_set.temperature", "Heat of the oven", 540.0, 480.0, SETTING, "hotter: the set is small, and another on every ring", least=True),
    Rule("job.ring.heat_set.temperature", "Heat of the oven", SOFTENS, 700.0, SETTING, "cooler: the iron softens and grows"),
    Rule("job.ring.heat_set.soak", "Time at heat", 30.0, None, SETTING + "; {caution:g} min is common practice, no source", "longer: most of the set comes in the first hour, and the ring must be hot through first", least=True),
    Rule("mandrel.opened_stress", "Bending stress of the ring on its mandrel, cold", Of("ring.bending_strength", ring_design.WORKS_AT), Of("ring.bending_strength"), IRON, "less free gap, or a thinner ring, as far as the pressure on the wall allows; a hotter oven, which sets more of the opening"),
    Rule("mandrel.growth", "Gap that the mandrel opens further when hot", 0.1, None, UNLIKE, "a mandrel of steel or iron, or one made smaller by that much of its opening"),
    Rule("mandrel.growth", "Gap that the mandrel opens further when hot, below 0 less", -0.1, None, UNLIKE, "a mandrel of steel or iron, or one made larger by that much of its opening", least=True),
    Rule("mandrel.disc_turned", "Disc of the pin form", Of("mandrel.disc_diameter", 0.996), Of("mandrel.disc_diameter"), "free shape of the ring under end forces (derived); the clearance is common practice, no source", "turn it down: a disc that touches the ring spoils its shape", unless=_no_pin),
    # what holds the work
    Rule("clamp_plate.hot_slack", "How much more the bolt grows in the oven than what it holds", 0.02, None, UNLIKE, "plate and bolt of the mandrel's own steel: it hangs loose and the rings warp"),
    Rule("clamp_plate.hot_slack", "How much more the bolt grows in the oven than what it holds, below 0 less", -0.02, None, UNLIKE, "plate and bolt of the mandrel's own steel: the stack is squeezed while it is soft", least=True),
    Rule("drill_plate.off", "Hole drilled through the plate out of its place at worst", Of("job.barrel.drilled_within"), Of("job.barrel.drilled_within", 3.0), "geometry of a drill in its bush; {stop:g} times what is wanted is common practice, no source", "a longer bush, or start each hole with a centre drill in the bush and bore it to its place"),
    Rule("drill_plate.wall", "Metal of the drill plate round its bushes", 3.0, 0.0, PRACTICE, "turned bushes with a thinner wall", least=True),
    Rule("splitting_fixture.gap", "Gap in the bore by what the saw cuts", Of("job.engine.bore", ring_design.SHUT), 0.0, "{caution:g} to 0.004 of the bore: textbooks of machine design", "a wider saw, or a smaller blank: ends that meet break the ring or score the bore", least=True),
    Rule("splitting_fixture.gap", "Gap in the bore by what the saw cuts", Of("job.engine.bore", ring_design.WIDEST_GAP), Of("job.engine.bore", ring_design.OPEN), PRACTICE, "a finer saw, or give the slit as it cuts and the blank comes out larger"),
    Rule("ring_pot.ovality", "Blank out of round in the pot, by the force that the last cut takes", 0.005, 0.02, "Roark's Formulas for Stress and Strain, ring under three loads (memory); the limits are common practice, no source", "a lighter last cut, or a thicker wall of the pot"),
    Rule("squaring_piston.tilt", "Ring out of square under the squaring piston at most", 0.3, 1.0, PRACTICE, "push it deeper: a short piston stands aslant"),
    Rule("squaring_piston.correction", "Gap larger where it is felt than in the mean bore by", 0.05, None, PRACTICE, "hone the bore straight: the gap opens and shuts at every stroke"),
    Rule("turned_washer.outside_diameter", "Turned washer on the head's boss", Of("job.head.boss"), Of("job.head.boss", 1.1), PRACTICE, "less preload or a stronger alloy: a washer over the edge of its boss tips the nut"),
    Rule("fitting_sleeve.stress_share", "Stress of a ring on the fitting sleeve, share of the iron's least bending strength", 1.0, ring_design.SPRUNG_TO, "thin bar round a disc, solved exactly; strength from the material table; {stop:g} of it is common practice, no source", "a sleeve rolled of thin shim, or a thinner ring"),
    Rule("ring_compressor.push", "Push that a ring takes through the compressor", 150.0, None, PRACTICE, "a longer cone, or less free gap: a ring that is driven breaks"),
    Rule("ring_compressor.to_stud", "Room of the ring compressor beside the studs", 0.5, 0.0, PRACTICE, "set the studs after the piston is in, or turn the compressor's outside down over its lower half", least=True),
    Rule("stud_gauge.outside_diameter", "Foot of the stud gauge on the metal round a stud", Of("job.head.boss"), Of("job.head.boss", 1.5), PRACTICE, "file its foot flat where it meets the bore or a neighbour"),
    Rule("test_plate.bulge", "Lift of the test plate in its middle", 0.1, 0.3, "Roark's Formulas for Stress and Strain, plate simply supported (memory); the limits are common practice, no source", "less pressure, or turn the plate thicker than it is drawn"),
    Rule("job.test_plate.pressure", "Pressure of the test by water", 0.7, 1.5, PRACTICE, "less: it looks for leaks, not for strength, and a casting bursts without warning"),
    # compression
    Rule("compression.squish", "Squish", 0.8, LEAST_SQUISH, PRACTICE, "a thicker gasket or less skim: the piston comes up to the head hot", least=True),
    Rule("compression.ratio_change", "Change of the compression ratio", 1.0, 3.0, PRACTICE, "another gasket thickness; ask whether fuel and bearings stand it"),
    Rule("compression.head_drop", "How far the head comes down", 0.5, 2.0, PRACTICE, "look at push rods, rocker geometry, chain tension and valves over the piston: turn over by hand first"),
    Rule("compression.head_drop", "How far the head comes down, below 0 up", -0.5, -2.0, PRACTICE, "look at push rods, rocker geometry and chain: they may come up short", least=True),
    # two-stroke: ports and liner
    Rule("port.*.opening", "Opening of a port, straight across, port", Of("job.engine.bore", 0.6), Of("job.engine.bore", 0.75), "{caution:g} of the bore, the usual limit of one opening (memory); {stop:g} is common practice, no source", "leave a bar in it, or narrow it: the ring springs in and catches"),
    Rule("job.engine.ports.*.bridge", "Bar in a port, port from 0", 3.0, 1.5, PRACTICE, "a thin bar runs hot, bows into the bore and scores: relieve it, and give the piston room there", least=True),
    Rule("port.*.to_next", "Bar between a port and the next, port", 3.0, 0.0, PRACTICE, "look at the angles; two ports that meet are one", least=True),
    Rule("port.*.travel", "Travel of the piston when it opens a port, port", Of("job.engine.stroke", 0.95), Of("job.engine.stroke"), "geometry; {caution:g} of the stroke is common practice, no source", "look at its top: the piston hardly opens it"),
    Rule("port.*.travel", "Travel of the piston when it opens a port, port", Of("job.engine.stroke", 0.4), Of("job.engine.stroke", 0.2), PRACTICE, "look at its top: little of the stroke is left to compress", least=True),
    Rule("ring.end_to_port", "Ends of the pegged ring from the nearest port, along the bore", 2.0, 0.0, PRACTICE, "another piston or ring: an end that runs over a port catches and breaks", least=True),
    Rule("ring.port_bulge", "How far the ring springs into the widest port", 0.1, 0.3, "Shigley, Mechanical Engineering Design, table A-9; the limits, of a port's rounded edge, are common practice, no source", "round the port's edges well, put a bar in it, or take a thicker ring"),
    Rule("liner.wall", "Wall of the liner", Of("job.engine.bore", 0.025), Of("job.engine.bore", 0.015), PRACTICE, "a thicker liner: this one follows every dent of its seat", least=True),
    Rule("liner.interference_hot", "Tightness of the liner in the worst state, on diameter", 0.01, 0.0, "thermal expansion; the margin is common practice, no source", "a tighter liner, or one with a flange that the head holds: a loose one turns and leaks", least=True),
    # the other head's fit
    Rule("fit.mouth_over_bore", "Chamber's mouth over the bore, on diameter", 0.5, 2.0, PRACTICE, "another head, or a ring let into it: the barrel's edge stands bare in the chamber and glows, and the step shrouds the charge"),
    Rule("fit.gasket_in_chamber", "Edge of the gasket that stands bare in the chamber", 0.0, 0.5, PRACTICE, "more bore_clearance, up to the chamber's mouth: an edge that glows fires the charge by itself"),
    Rule("fit.valve_room", "Room from valve to piston with the head's drop", 1.5, 0.8, PRACTICE, "a thicker gasket, or deeper pockets in the crown: turn over by hand with clay on it first", least=True),
    Rule("fit.plug_short", "Spark plug ends short of the chamber by", 1.5, None, PRACTICE, "a plug of another reach, or a thread insert of the right length: bare threads in the head glow and fill with carbon"),
    Rule("fit.plug_short", "Spark plug ends short of the chamber by", -0.5, -2.0, PRACTICE, "a second washer or a plug of less reach: threads in the chamber glow, and the piston may meet them", least=True),
    Rule("fit.push_rod_change", "Push rods want to be longer by, below 0 shorter", -0.3, None, PRACTICE, "shorten the push rods or shim the rockers up by it: a valve that hangs open burns", least=True),
    Rule("fit.push_rod_change", "Push rods want to be longer by, below 0 shorter", 0.3, None, PRACTICE, "longer push rods, or the adjusters run out"),
    Rule("fit.chain_slack", "Chain that comes free on both runs", 0.6, None, PRACTICE, "look that the tensioner takes it up, and set the timing again"),
    Rule("fit.chain_slack", "Chain that comes free on both runs, below 0 too short by", -0.6, -4.0, PRACTICE, "a longer chain, or a thinner gasket: a tight chain breaks", least=True),
    # neighbours, once assembled
    Rule("assembly.stud.gasket", "Play of the stud in the gasket's hole", 0.2, 0.0, PRACTICE, "more hole_clearance: a stud that touches cuts the gasket and shifts it", least=True),
    Rule("assembly.stud.head", "Play of the stud in the head's hole", 0.2, 0.0, PRACTICE, "a thinner thread or shank, or open out the head's holes: it must drop over all studs at once", least=True),
    Rule("assembly.tap_end.gasket", "Step of the stud below the gasket", 0.2, 0.0, PRACTICE, "give more step_depth: the wide end would stand in the gasket", least=True),
    Rule("assembly.nut.nut", "Gap from nut to nut, corner to corner", 4.0, 0.0, PRACTICE, "spread the pattern, or take smaller nuts: a socket needs room", least=True),
    Rule("assembly.washer.deck", "Washer inside the edge of the deck", 0.0, None, PRACTICE, "the deck does not back the washer all round: move the pattern in", least=True),
    Rule("assembly.plug.passage", "Play of the bonded plug in its passage", 0.0, -0.001, "geometry: a bond needs a gap", "turn the plug smaller", least=True),
    Rule("assembly.plug.stud", "Metal between plug and nearest tapped hole", 2.0, 0.0, PRACTICE, "a smaller shoulder, or turn the pattern", least=True),
    Rule("assembly.ring.bore", "Gap that the closed ring keeps in the bore", 0.05, 0.0, "geometry: its ends may not meet", "a larger closed gap: file the ends", least=True),
    # turning
    Rule("turning.slenderness", "Length of one section over its diameter", Of("turning.slenderness_limit"), Of("turning.slenderness_limit", 2.5), "workshop rule, 3 in the chuck and 6 with a centre (memory)", "a travelling steady, or more sections; no bar out of the spindle, no sleeves or gloves near a slender bar, and file it left-handed or not at all"),
    Rule("turning.sections", "Sections in which the slender part is turned", 3.0, 8.0, PRACTICE, "a lighter feed, a sharper nose, a centre or a steady; finish each section by the chuck before you draw out the next"),
]  # fmt: skip

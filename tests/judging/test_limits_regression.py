"""Where each rule becomes a caution and a stop, and what sizes are held to: our own regression figures, most of them common
practice without a source.

They see a limit that was changed without being meant: a row changes with its rule, in the same commit. What the limits
do is tested in `test_findings.py`; those that are printed somewhere have their source in the rule.
A row: size, the side it should be on, caution, stop; a share of another size, and no less than a floor.
"""

from parts.job import load
from parts.judging.limits import limits_of
from parts.judging.rules import RULES, Of
from parts.sizing import size

KEPT = """
deck.hole.*.to_bore >= 0.5*deck.tapped_major 0.2*deck.tapped_major,2
deck.hole.*.to_edge >= 0.5*deck.tapped_major 0.2*deck.tapped_major,2
deck.hole.*.to_next >= 0.5*deck.tapped_major 0.2*deck.tapped_major,2
deck.hole.*.to_passage >= 0.5*deck.tapped_major 0.2*deck.tapped_major,2
deck.hole.*.in_filler <= 0 0.5
deck.hole.*.unsound <= 0 0.5
deck.old.*.to_bore >= 4 2
deck.old.*.to_edge >= 3 0
deck.old.*.to_next >= 3 0
deck.old.*.to_passage >= 2 0
deck.old.*.round_plug >= 3 1.5
deck.old.*.floor >= 0.2*deck.tapped_major,2 0
deck.floor >= 0.2*deck.tapped_major,2 0
deck.thinnest >= 0.5*deck.tapped_major 0.2*deck.tapped_major,2
deck.washer.*.to_next >= 1 0
deck.washer.*.to_spigot >= 0.5 0
deck.washer.*.to_edge >= 0 -2
deck.hole.*.boss_to_edge >= 0 -0.2*job.head.boss
deck.drawing_off <= 0.2 1
deck.neck >= 6 2
head.neck >= 6 2
gasket.hole.*.under_head >= 2 0
deck.old.*.under_head >= 0 -
stud.free_nut_thread >= 2*stud.nut_end_pitch 0.5*stud.nut_end_pitch
stud.shank_length >= 0.5*stud.nut_end_nominal 0
stud.shank_diameter <= 1*gasket.hole_diameter 1*job.head.hole_diameter
stud.bottom_room >= 0 -0.5
drop.room >= 0 -
drop.chance >= 0.95 0.5
job.head.hole_diameter <= 1*joint.widest_hole 0.8*stud.washer_outside
drop.hole.*.open_to <= 1*joint.widest_hole 0.8*stud.washer_outside
drop.hole.*.room >= 0.1 0
joint.bore_inside >= 0.15*gasket.effective_diameter,1 0
joint.separation_factor >= 2 1
joint.load_factor >= 2 1
joint.preload_share <= 0.75 0.9
joint.preload_share >= 0.2 0.1
joint.tightening_use <= 1 1.1
joint.fatigue_amplitude <= 0.5*joint.fatigue_limit 1*joint.fatigue_limit
joint.nut_proof_load >= 1*joint.breaking_load 1*joint.greatest_preload
joint.nut_pressure <= 1*joint.washer_strength 1.5*joint.washer_strength
joint.proof_use <= 0.902 1
joint.lowest_preload >= 1.5*joint.opening_force 1*joint.opening_force
joint.bending_stress <= 0.5*head.yield_hot 1*head.yield_hot
joint.face_lift <= 0.01 -
joint.washer_pressure <= 1*head.bearing_hot 2*head.bearing_hot
joint.tap_end_strip_force >= 1*joint.breaking_load 1.25*joint.greatest_preload
strip.sound_force >= 1*joint.breaking_load 1.25*joint.greatest_preload
joint.nut_end_strip_force >= 1*joint.breaking_load 1.25*joint.greatest_preload
strip.tap_end_engagement >= 1*strip.tap_end_rule 0.5*strip.tap_end_rule
job.base.flange_thickness >= 1*base.stud.nut_end_nominal 0.5*base.stud.nut_end_nominal
gasket.narrowest_land >= 3 1.5
gasket.overhang <= 0 0.5
gasket.seating_stress >= 1*gasket.seating_limit -
gasket.least_seating_stress >= 1*gasket.seating_limit -
gasket.working_stress >= 1*gasket.working_limit 1*gasket.blow_pressure
gasket.greatest_stress <= 1*gasket.tensile_strength 2*gasket.tensile_strength
gasket.pressed_width >= 3 1.5
gasket.stud_pitch <= 1*gasket.pitch_limit -
plug.bond_reserve >= 2 1
job.engine.hot.barrel <= 150 230
job.engine.run_up.barrel <= 150 230
job.engine.hot_stop.barrel <= 150 230
job.plug.bond_clearance <= 0.1 0.25
plug.bond_gap_hot <= 0.1 0.25
plug.hoop_share <= 0.5 1
plug.own_share <= 0.8 1
plug.push_out_times >= 3 1
plug.interference_min >= 0 -0.005
plug.interference_left >= 0.002 0
ring.closed_gap >= 0.002*job.engine.bore 0
ring.closed_gap <= 0.006*job.engine.bore 0.02*job.engine.bore
ring.hot_gap >= 0.05 0
ring.slenderness >= 20 16
ring.fitting_share <= 1 1.5
ring.working_stress <= 0.96*ring.bending_strength 1*ring.bending_strength
ring.contact_pressure >= 0.142 0.071
ring.contact_pressure <= 0.222 0.444
ring.side_clearance >= 0.02 0.005
ring.side_clearance <= 0.08 0.15
ring.back_clearance >= 0.3 0
job.ring.heat_set.set_fraction >= 0.9 0.5
ring.under_land >= 0.15 0
ring.held_share >= 0.75 0.5
ring.pressure_ratio_least >= 0.7 -
ring.light_gap <= 0.005 0.05
ring.piston_play <= 0.003*job.engine.bore 0.01*job.engine.bore
ring.bore_taper <= 0.03 0.1
ring.bore_ovality <= 0.02 0.08
ring.out_of_round.light_gap <= 0.005 0.05
ring.out_of_round.pressure_ratio_least >= 0.3 -
job.ring.heat_set.temperature >= 540 480
job.ring.heat_set.temperature <= 620 700
job.ring.heat_set.soak >= 30 -
mandrel.opened_stress <= 0.96*ring.bending_strength 1*ring.bending_strength
mandrel.growth <= 0.1 -
mandrel.growth >= -0.1 -
mandrel.disc_turned <= 0.996*mandrel.disc_diameter 1*mandrel.disc_diameter
clamp_plate.hot_slack <= 0.02 -
clamp_plate.hot_slack >= -0.02 -
drill_plate.off <= 1*job.barrel.drilled_within 3*job.barrel.drilled_within
drill_plate.wall >= 3 0
splitting_fixture.gap >= 0.002*job.engine.bore 0
splitting_fixture.gap <= 0.006*job.engine.bore 0.02*job.engine.bore
ring_pot.ovality <= 0.005 0.02
squaring_piston.tilt <= 0.3 1
squaring_piston.correction <= 0.05 -
turned_washer.outside_diameter <= 1*job.head.boss 1.1*job.head.boss
fitting_sleeve.stress_share <= 1 1.5
ring_compressor.push <= 150 -
ring_compressor.to_stud >= 0.5 0
stud_gauge.outside_diameter <= 1*job.head.boss 1.5*job.head.boss
test_plate.bulge <= 0.1 0.3
job.test_plate.pressure <= 0.7 1.5
compression.squish >= 0.8 0.4
compression.ratio_change <= 1 3
compression.head_drop <= 0.5 2
compression.head_drop >= -0.5 -2
port.*.opening <= 0.6*job.engine.bore 0.75*job.engine.bore
job.engine.ports.*.bridge >= 3 1.5
port.*.to_next >= 3 0
port.*.travel <= 0.95*job.engine.stroke 1*job.engine.stroke
port.*.travel >= 0.4*job.engine.stroke 0.2*job.engine.stroke
ring.end_to_port >= 2 0
ring.port_bulge <= 0.1 0.3
liner.wall >= 0.025*job.engine.bore 0.015*job.engine.bore
liner.interference_hot >= 0.01 0
fit.mouth_over_bore <= 0.5 2
fit.gasket_in_chamber <= 0 0.5
fit.valve_room >= 1.5 0.8
fit.plug_short <= 1.5 -
fit.plug_short >= -0.5 -2
fit.push_rod_change >= -0.3 -
fit.push_rod_change <= 0.3 -
fit.chain_slack <= 0.6 -
fit.chain_slack >= -0.6 -4
assembly.stud.gasket >= 0.2 0
assembly.stud.head >= 0.2 0
assembly.tap_end.gasket >= 0.2 0
assembly.nut.nut >= 4 0
assembly.washer.deck >= 0 -
assembly.plug.passage >= 0 -0.001
assembly.plug.stud >= 2 0
assembly.ring.bore >= 0.05 0
turning.slenderness <= 1*turning.slenderness_limit 2.5*turning.slenderness_limit
turning.sections <= 3 8
"""


def spelled(limit):
    if limit is None:
        return "-"
    if isinstance(limit, Of):
        return f"{limit.share:g}*{limit.size}" + ("" if limit.floor is None else f",{limit.floor:g}")
    return f"{limit:g}"


def test_no_limit_has_changed():
    now = [f"{r.size} {'>=' if r.least else '<='} {spelled(r.caution)} {spelled(r.stop)}" for r in RULES]
    assert now == KEPT.strip().splitlines()
    assert any("above 120 to 150 degC" in r.cited for r in RULES)


HELD = """
job.engine.bore -0.02 +0.02 -1
job.barrel.skim -0.05 +0.05 -1
job.barrel.old_holes.diameter -0.3 +0.3 -1
job.barrel.passages.0.diameter +0 +0.015 -1
job.gasket.thickness -0.05 +0.05 +0
job.ring.axial_width -0.02 +0 +1
job.ring.slit -0.05 +0 -1
insert.tap_drill -0.07524 +0.1608 -1
insert.set_down -0.375 +0.75 -1
insert.full_thread_depth +0 - -1
insert.drill_depth +0 - -1
gasket.hole_diameter -0.2 +0.2 -1
deck.hole.1.x -0.1 +0.1 +0
deck.hole.1.y -0.1 +0.1 +0
deck.hole.2.x -0.1 +0.1 +0
deck.hole.2.y -0.1 +0.1 +0
deck.hole.3.x -0.1 +0.1 +0
deck.hole.3.y -0.1 +0.1 +0
deck.hole.4.x -0.1 +0.1 +0
deck.hole.4.y -0.1 +0.1 +0
gasket.bore_diameter -0.3 +0.3 -1
stud.step_depth -0.1 +0.1 +0
stud.tap_end_length -0.2 +0.2 +1
stud.projection -0.3 +0.3 +0
stud.nut_end_length -0.2 +0.2 +1
stud.shank_length -0.3 +0.3 +1
stud.length -0.3 +0.3 +1
stud.shank_diameter -0.1 +0 +1
plug.diameter -0.02 +0 +1
plug.whole_length -0.2 +0.2 +1
plug.below_deck +0 +0.05 +0
joint.torque -0.6695 +0.6695 -1
joint.stretch -0.007912 +0.007912 -1
joint.nut_angle -2.858 +2.858 -1
ring.inside_diameter +0 +0.05 -1
ring.free_gap -0.2574 +0.2574 +0
ring.free_gap_inside -0.2507 +0.2507 +0
mandrel.open_gap -0.09005 +0.09005 +0
mandrel.diameter -0.05 +0.05 +0
mandrel.disc_diameter -0.05 +0.05 +0
mandrel.disc_turned -0.05 +0.05 +1
mandrel.pin_diameter -0.02 +0 +1
mandrel.pin_position -0.05 +0.05 +0
mandrel.hole_diameter -0.2 +0.2 -1
mandrel.flange_diameter -0.3 +0.3 +1
compression.squish -0.1 +0.1 +0
"""
"""A size of the worked job with every part, how far below and above it may come out, the side on which metal is left."""


def test_sizes_are_held_to_what_they_were(whole):
    book = size(load(whole), contact=False)
    now = []
    for line in HELD.strip().splitlines():
        name = line.split()[0]
        limits, value = limits_of(book, name), book[name].value
        ends = ("-" if end is None else f"{end - value:+.4g}" for end in (limits.low, limits.high))
        now.append(f"{name} {' '.join(ends)} {limits.metal:+d}")
    assert now == HELD.strip().splitlines()

"""Where the documents leave a choice open: what, the options (the first is chosen), why, and the effect on the worked job."""

CHOICES = {
    "torque": (
        ["exact", "printed"],
        "joint.torque",
        "P/2pi and 1/(2 cos half angle), or the printed 0.16 and 0.58; the exact one serves every thread family; on 60 degrees the printed one is the larger",
    ),
    "unified_area": (
        ["0.9743", "printed", "exact"],
        "stress area, inch",
        "pi/4 and the 0.9743 that the unified standard prints; its 0.7854, or 9 sqrt3/16 as the metric formula: 2e-6 to 1e-5",
    ),
    "nut_end": (
        ["2d+6", "m+4P"],
        "stud.nut_end_length not given",
        "DIN 938's b2; it agrees with the 0.0025 mm that the requirements print for the bare shank",
    ),
    "tap_top": (
        ["deck face"],
        "tap end not larger than the holes: ends where",
        "the definitions give a step only for the larger tap end",
    ),
    "first_coil": (
        ["set down or step", "less chamfer"],
        "stiffness, clamped lengths",
        "the shorter grip is the stiffer stud: more heat load",
    ),
    "core_area_tap": (["A3", "As"], "0.5 d substitution length", "the reference gives A3 for the 0.5 d"),
    "low_cone": (
        ["1.5 d", "dw"],
        "lower frustum of the tapped end",
        "Shigley's tapped joint; the stiffer member takes more heat load",
    ),
    "gasket_path": (
        ["face", "cone"],
        "gasket's share of km",
        "metal is only where the raised face presses; area of the face / N",
    ),
    "gasket_temperature": (["mean", "head"], "gasket's temperature", "middle of head and barrel; not given anywhere"),
    "sealing_no_face": (
        ["inside the studs", "whole"],
        "effective diameter, without joint_face or where that reaches past the holes",
        "gas beyond the stud holes has leaked already; the whole deck would more than double the load",
    ),
    "sealing": (
        ["ASME", "inner edge", "outer edge"],
        "effective diameter",
        "mean of the pressed ring, ASME's rule; +14 % as the requirements say",
    ),
    "scatter": (
        ["25/15/10", "25/10/5"],
        "scatter by tightened_by torque/angle/stretch",
        "the stud's lower end cannot be reached, so a stretch is read less well",
    ),
    "embedding": (
        ["15 um", "none"],
        "least preload",
        "VDI 2230 guide values (memory), Rz 10-40: thread 3 each, bearing 3, joints 2 each",
    ),
    "creep": (
        ["10 %", "none"],
        "least preload",
        "soft gasket and alloy, of the greatest service preload run in; no source: common practice",
    ),
    "cold_start": (["-10", "none"], "least preload", "the requirements"),
    "steel_hot": (["table", "cold"], "stud's proof stress hot", "ISO 898-1 annex shares (memory), the lower class"),
    "torsion_hot": (
        ["none", "half"],
        "greatest use of the proof",
        "the requirements' 1.246 has none; VDI 2230 holds half of the torsion against the yield strength, not its 0.9",
    ),
    "tap_chamfer": (
        ["core", "none"],
        "strip.tap_end_engagement, tapped straight",
        "45 degrees to the core at the tap end's foot (ISO 4753); the requirements' 7.5 mm of 3/8 in has it, their 9.4 mm in an insert has none",
    ),
    "countersink": (
        ["depth", "1 P"],
        "engagement without insert",
        "90 degrees to the major diameter: the requirements' 7.5 mm of 3/8 in",
    ),
    "parent_pitch": (
        ["least", "greatest"],
        "strip area of the parent",
        "the definitions' tapped minima; least reproduces the 32.5 kN of the requirements",
    ),
    "section": (["deck depth", "less skim"], "Rm of the section", "reproduces 32.5 kN"),
    "washer_inside": (
        ["larger", "washer bore"],
        "washer's bearing area",
        "metal bears only outside the hole in the head",
    ),
    "undercut_limit": (["nominal", "least"], "undercut area", "reproduces the 1.246 of the requirements"),
    "hot_gap": (
        ["whole", "first order"],
        "ring.hot_gap",
        "the gap is the bore's length less the ring's: it grows with the ring too",
    ),
    "tilt": (["corrected", "linear"], "ring.free_gap_inside", "the tips' tilt is pi K with the corrected K"),
    "contour_k": (["exact", "0.8 K"], "mandrel sizes", "design: for the contour solve K"),
    "parameter_k": (
        ["0.8 K", "exact"],
        "ring.parameter and what follows",
        "the definitions' large-opening correction; reproduces 448 MPa",
    ),
    "plug_d": (["plug", "passage"], "plug.hold_force's d", "the smaller of the two"),
    "press_size": (["middle", "greatest"], "plug.diameter of a press fit", "not defined in the documents"),
    "km_cap": (["boss", "none"], "frusta cut off", "definitions of the sizes"),
}
OPT = {k: v[0][0] for k, v in CHOICES.items()}


def effects(job):
    """[(choice, option, size, per cent)]: the greatest change in a size of the job for each other option."""
    from .model import sizes

    base, out = sizes(job), []
    for key, (options, *_rest) in CHOICES.items():
        for other in options[1:]:
            OPT[key] = other
            try:
                now = sizes(job)
            finally:
                OPT[key] = options[0]
            moved = [
                (abs(now[n] / v - 1) * 100, n, (now[n] / v - 1) * 100)
                for n, v in base.items()
                if isinstance(v, float) and v and isinstance(now.get(n), float)
            ]
            top = max(moved, default=(0, "", 0))
            out.append((key, other, top[1] if top[0] > 1e-9 else "-", top[2]))
    return out

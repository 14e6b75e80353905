"""The sizes of a job.  Every size is put by name with its formula; what lacks an input is left out by itself."""

import math
from functools import lru_cache
from . import geometry as geo
from .choices import OPT
from .quantities import Missing, Times, at, fold, instances, length
from .ringmodel import Ring
from .tables import (
    CLASSES,
    DRILLS,
    KIENZLE,
    UNDERCUT,
    TAP_DRILLS,
    family,
    fit,
    get,
    hot_share,
    lin,
    material,
    nut,
    strengths,
    washer,
)
from .threads import thread

T0 = 20.0
SCATTER = {"torque": 0.25, "angle": 0.15, "stretch": 0.10}
EMBED_THREAD, EMBED_BEARING, EMBED_JOINT = 0.003, 0.003, 0.002  # mm each; VDI 2230, Rz 10-40 (memory)
CREEP = 0.10  # of the run-in preload without gas: gasket and alloy, half each
LATER = 0.25  # of what settles, after the re-torque (P: common practice)
COLD_START = -10.0
MU_PRESS = 0.12
SMOOTHING = 0.8  # of both Rz (DIN 7190, memory)
RZ_TURNED = 0.0063  # mm, each
STEP = 1.0
MODEL_DEPENDENT = (
    "stud.stiffness",
    "joint.stiffness_share",
    "joint.separation_factor",
    "joint.hot_preload",
    "joint.greatest_preload",
    "joint.least_preload",
    "joint.washer_pressure",
    "joint.stretch",
    "joint.nut_angle",
    "stud.proof_use",
)


class Book(dict):
    """name -> value; .formula, .left (what a size lacks), .doubt (which documents leave open)."""

    def __init__(self):
        super().__init__()
        self.formula, self.left, self.doubt = {}, {}, {}

    def __missing__(self, name):
        raise Missing(name)

    def put(self, name, formula, fn, doubt=None):
        self.formula[name] = formula
        try:
            self[name] = fn()
        except Missing as lack:
            self.left[name] = str(lack)
        except (ZeroDivisionError, ValueError) as bad:
            self.left[name] = f"impossible: {bad}"
        if doubt and name in self:
            self.doubt[name] = doubt


def with_designed(job, values):
    """The job with designed values filled in: {'ring.free_gap': 8.58, ...} (plain tables)."""
    import copy

    job = copy.deepcopy(job)
    for key, v in values.items():
        here = job
        *path, last = key.removeprefix("job.").split(".")
        for part in path:
            here = here.setdefault(part, {})
        here.setdefault(last, v)
    return job


def sizes(job):
    s = Book()
    _insert_and_stud(job, s)
    _deck(job, s)
    _gasket(job, s)
    _joint(job, s)
    for infix, t in instances(job, "plug"):
        _plug(job, s, infix, t)
    for infix, t in instances(job, "ring"):
        _ring(job, s, infix, t)
    _compression(job, s)
    return s


def compare(job, product, tolerance=1e-6):
    """[(name, mine, product's, relative difference, what the documents leave open or '')] of the sizes that differ."""
    s, out = sizes(job), []
    for name, mine in s.items():
        theirs = product.get(name)
        if isinstance(mine, (int, float)) and isinstance(theirs, (int, float)):
            d = abs(theirs - mine) / max(1.0, abs(mine))
            if d > tolerance:
                out.append((name, mine, theirs, d, s.doubt.get(name, "")))
    return sorted(out, key=lambda q: (bool(q[4]), -q[3]))


def left_out(job):
    return sizes(job).left


# -- studs and inserts -------------------------------------------------------------------------------


def stud_holes(job):
    """[(infix, table, [hole indices])]."""
    try:
        n = len(geo.pattern(at(job, "head.holes")))
    except Missing:
        n = 0
    return [(i, t, [h - 1 for h in t["holes"]] if "holes" in t else list(range(n))) for i, t in instances(job, "stud")]


def has_insert(t):
    return bool(t.get("insert"))


def tap_of(t):
    """(major, pitch, minor, drill) of the hole in the barrel."""
    th = thread(at(t, "tap_end"))
    if has_insert(t):
        return th.sti()[:3]
    return th.d, th.d2, th.d1


def drill_of(t):
    th = thread(at(t, "tap_end"))
    if has_insert(t):
        lo, hi = th.sti()[2:]
        key = (th.family, round(th.d, 4), th.p if th.family == "M" else round(25.4 / th.p))
        if key in DRILLS:
            return DRILLS[key]
        step = math.ceil(lo * 10 - 1e-9) / 10
        if step <= hi:
            return step
        raise Missing("a drill inside the insert's minor limits")
    if (th.d, th.p) in TAP_DRILLS and th.family == "M":
        return TAP_DRILLS[th.d, th.p]
    raise Missing("tapping drill: not in the documents")


def _insert_and_stud(job, s):
    for x, t, _ in stud_holes(job):

        def th(which, t=t):
            return thread(at(t, which))

        def head_t(t=t):
            return at(t, "head_thickness", None) or at(job, "head.thickness")

        if has_insert(t):
            ins = t["insert"]

            def nominal(th=th, ins=ins):
                return length(at(ins, "length"), th("tap_end").d)

            i = f"insert.{x}"
            s.put(i + "tapped_major", "d + 1.5 H", lambda: th("tap_end").sti()[0])
            s.put(i + "tapped_pitch_diameter", "d + 0.75 H", lambda: th("tap_end").sti()[1])
            s.put(i + "tapped_minor", "d + 0.25 H", lambda: th("tap_end").sti()[2])
            s.put(i + "tapped_minor_max", "minor + TD1(5)", lambda: th("tap_end").sti()[3], "name; inch: 2B taken")
            s.put(i + "tap_drill", "smallest listed drill inside the minor limits", lambda: drill_of(t), "which list")
            s.put(i + "set_down", "1 P", lambda: th("tap_end").p)
            s.put(i + "full_thread_depth", "nominal + 1 P", lambda: nominal() + th("tap_end").p)
            s.put(
                i + "drill_depth",
                "nominal + 4 P bottoming, + 6 P plug",
                lambda: nominal() + (6 if at(ins, "tap", "bottoming") == "plug" else 4) * th("tap_end").p,
            )
        p = f"stud.{x}"
        washers = lambda: washer(t.get("washer", "ISO 7089"), th("nut_end").d)

        def reach():
            if has_insert(t):
                return s[f"insert.{x}set_down"] + nominal() - 0.75 * th("tap_end").p
            return length(at(t, "engagement"), th("tap_end").d)

        def step():
            if "step_depth" in t:
                return float(t["step_depth"])
            holes = [at(job, "head.hole_diameter", None)]
            if "gasket" in job:
                holes.append(gasket_hole(job, t))
            holes = [h for h in holes if h is not None]
            if not holes:
                raise Missing("head.hole_diameter")
            return STEP if th("tap_end").d > min(holes) else 0.0

        note = None if has_insert(t) else "reach of a tapped end"
        s.put(p + "reach", "set-down + nominal - 0.75 P", reach, "name")
        s.put(p + "step", "1.0 under the deck where the tap end is larger than a hole", step, "name")
        s.put(p + "tap_end_length", "reach - step", lambda: s[p + "reach"] - s[p + "step"], note)
        s.put(p + "tap_end_pitch", "P", lambda: th("tap_end").p)
        s.put(p + "nut_end_pitch", "P", lambda: th("nut_end").p, "name")
        s.put(
            p + "projection",
            "gasket + head + washer + m max + 2 P",
            lambda: (
                float(at(job, "gasket.thickness"))
                + head_t()
                + washers()[2]
                + nut(th("nut_end").d)[0]
                + 2 * th("nut_end").p
            ),
        )
        s.put(p + "length", "reach + projection", lambda: s[p + "reach"] + s[p + "projection"], note)
        s.put(
            p + "nut_end_length",
            "2 d + 6 (DIN 938) unless given",
            lambda: (
                length(t["nut_end_length"], th("nut_end").d)
                if "nut_end_length" in t
                else 2 * th("nut_end").d + 6
                if OPT["nut_end"] == "2d+6"
                else nut(th("nut_end").d)[0] + 4 * th("nut_end").p
            ),
            None if "nut_end_length" in t else "default not in the documents",
        )
        s.put(
            p + "shank_length",
            "length - tap end - nut end",
            lambda: s[p + "length"] - s[p + "tap_end_length"] - s[p + "nut_end_length"],
            s.doubt.get(p + "nut_end_length") or note,
        )
        for end in ("tap_end", "nut_end"):
            for k, name in enumerate(("major_max", "major_min", "pitch_diameter_max", "pitch_diameter_min")):
                s.put(
                    f"{p}{end}_{name}",
                    "6g, 2A or the medium class",
                    lambda end=end, k=k: th(end).external()[k],
                    None if t.get(end, "M")[0] == "M" or "UN" in t.get(end, "") else "limits from memory",
                )
            for k, name in ((2, "over_wires_max"), (3, "over_wires_min")):
                s.put(
                    f"{p}{end}_{name}",
                    "d2 + w (1 + 1/sin a) - P/2 cot a, w = P/(2 cos a)",
                    lambda end=end, k=k: th(end).over_wires(th(end).external()[k]),
                    s.doubt.get(f"{p}{end}_major_max"),
                )
        s.put(p + "stress_area", "pi/4 ((d2 + d3)/2)^2 of the nut end", lambda: th("nut_end").stress_area)
        s.put(p + "weakest_area", "least of nut end, tap end, shank, undercut", lambda: min(a for _, a in sections(t)))
        s.put(p + "weakest_section", "its name", lambda: min(sections(t), key=lambda q: q[1])[0], "name")


def gasket_hole(job, t):
    return thread(at(t, "nut_end")).d + at(job, "gasket.hole_clearance", 0.5)


def sections(t):
    """[(name, area)] of everything that carries the preload."""
    out, shank = [], float(at(t, "shank"))
    for end in ("nut_end", "tap_end"):
        th = thread(at(t, end))
        out.append((end.replace("_", " "), th.stress_area))
        if t.get("thread_relief") == "undercut" and shank > th.d3:  # else the tool runs out on the shank
            dg = th.d - next(deep for pitch, deep in UNDERCUT if pitch >= th.p - 1e-9)
            if OPT["undercut_limit"] == "least":
                dg -= 0.12 if dg <= 6 else 0.15 if dg <= 10 else 0.18
            if dg < shank:
                out.append((f"undercut at the {end.replace('_', ' ')}", math.pi / 4 * dg**2))
    return out + [("shank", math.pi / 4 * shank**2)]


# -- the deck ------------------------------------------------------------------------------------------


def unsound_share(job, place, t, olds, steps=1440):
    """Share of the tapped pitch circle that has no half diameter of sound metal outside it, or lies in filler: by steps."""
    r, wall, bad = tap_of(t)[1] / 2, tap_of(t)[0] / 2, 0
    for k in range(steps):
        a = 2 * math.pi * (k + 0.5) / steps
        out = [
            (place[0] + q * math.cos(a), place[1] + q * math.sin(a)) for q in (r + (wall * u / 40) for u in range(41))
        ]
        bad += any(math.hypot(x - o[0], y - o[1]) < o[2] / 2 for x, y in out for o in olds)
    return bad / steps


def cylinder_wall(job):
    return at(job, "barrel.liner.outside", None) or at(job, "engine.bore")


def _deck(job, s):
    try:
        points = geo.pattern(at(job, "head.holes"))
    except Missing:
        points = []
    loop = geo.outline(at(job, "barrel.outline", {}))
    olds = geo.old_holes(job)
    for x, t, holes in stud_holes(job):
        for h in holes:
            px, py = points[h]
            n = f"deck.hole.{h + 1}."
            r = math.hypot(px, py)
            s.put(n + "x", "by the pattern", lambda: px)
            s.put(n + "y", "by the pattern", lambda: py)
            s.put(
                n + "to_bore",
                "r - tapped major/2 - bore/2 (liner's outside)",
                lambda: r - tap_of(t)[0] / 2 - cylinder_wall(job) / 2,
            )
            if loop:
                s.put(
                    n + "to_edge",
                    "to the outline - tapped major/2",
                    lambda: geo.distance((px, py), loop) - tap_of(t)[0] / 2,
                )
            if olds:
                s.put(
                    n + "in_filler",
                    "sum of acos((c^2 + r^2 - ro^2)/(2 c r))/pi on the tapped pitch circle",
                    lambda: min(
                        1.0,
                        sum(
                            geo.share_inside(tap_of(t)[1] / 2, math.hypot(px - o[0], py - o[1]), o[2] / 2) for o in olds
                        ),
                    ),
                )
        s.put(
            f"deck.{x}floor",
            "deck depth - skim - drill depth - drill/2/tan 59",
            lambda: (
                at(job, "barrel.deck_depth")
                - at(job, "barrel.skim", 0.0)
                - s[f"insert.{x}drill_depth"]
                - drill_of(t) / 2 / math.tan(math.radians(59))
            ),
            "drill list" if not x else "drill list; name",
        )
    if not stud_holes(job):
        for h, (px, py) in enumerate(points):
            s.put(f"deck.hole.{h + 1}.x", "by the pattern", lambda: px)
            s.put(f"deck.hole.{h + 1}.y", "by the pattern", lambda: py)
    for k, o in enumerate(olds):
        n, r = f"deck.old.{k + 1}.", math.hypot(o[0], o[1])
        s.put(n + "to_bore", "r - old/2 - bore/2", lambda: r - o[2] / 2 - cylinder_wall(job) / 2)
        if loop:
            s.put(n + "to_edge", "to the outline - old/2", lambda: geo.distance(o[:2], loop) - o[2] / 2)
        if len(olds) > 1:
            s.put(
                n + "to_next",
                "least to another old hole",
                lambda: min(
                    math.hypot(o[0] - q[0], o[1] - q[1]) - (o[2] + q[2]) / 2 for j, q in enumerate(olds) if j != k
                ),
            )


# -- the gasket ------------------------------------------------------------------------------------------


def gasket_openings(job):
    """[(x, y, r)]: bore, stud holes, passages that stay in use."""
    points = geo.pattern(at(job, "head.holes"))
    out = [(0.0, 0.0, (at(job, "engine.bore") + at(job, "gasket.bore_clearance", 1.0)) / 2)]
    for _, t, holes in stud_holes(job):
        out += [(*points[h], gasket_hole(job, t) / 2) for h in holes]
    for q in job.get("barrel", {}).get("passages", []):
        if not q.get("blank"):
            out.append((q["at"][0], q["at"][1], (at(q, "diameter") + at(job, "gasket.passage_clearance", 0.0)) / 2))
    return out


def gasket_loop(job):
    o = at(job, "gasket.outline", "deck")
    if isinstance(o, dict):
        return geo.outline(o)
    if o == "deck":
        return geo.outline(at(job, "barrel.outline"))
    land, open_ = float(at(job, "gasket.land")), gasket_openings(job)
    n = 1 + sum(len(h) for *_, h in stud_holes(job))
    return geo.hull([(x, y, r + land) for x, y, r in open_[:n]])


def _gasket(job, s):
    if "gasket" not in job:
        return
    s.put(
        "gasket.bore_diameter",
        "bore + bore clearance",
        lambda: at(job, "engine.bore") + at(job, "gasket.bore_clearance", 1.0),
    )
    s.put(
        "gasket.area",
        "outline - openings",
        lambda: (
            geo.area(gasket_loop(job))
            - sum(math.pi * r * r for x, y, r in gasket_openings(job) if geo.distance((x, y), gasket_loop(job)) > -r)
        ),
        None if at(job, "gasket.outline", "deck") == "deck" else "band: hull of the circles",
    )

    def land():
        loop = gasket_loop(job)
        o = [q for q in gasket_openings(job) if geo.distance(q[:2], loop) > -q[2]]
        pairs = [math.hypot(a[0] - b[0], a[1] - b[1]) - a[2] - b[2] for i, a in enumerate(o) for b in o[:i]]
        return min(pairs + [geo.distance(a[:2], loop) - a[2] for a in o])

    s.put("gasket.narrowest_land", "least between any two edges", land)
    s.put(
        "gasket.sealing_diameter",
        "ASME: mean of the pressed ring, or outside - 2 b",
        lambda: sealing_diameter(job, s),
        "name",
    )
    s.put("gasket.pressed_area", "inside the joint face", lambda: pressed_area(job, s), "name")


def sealing_diameter(job, s):
    inner = s["gasket.bore_diameter"]
    outer = at(job, "head.joint_face", None)
    if outer is None:
        if OPT["sealing_no_face"] == "whole":
            outer = 2 * math.sqrt(geo.area(gasket_loop(job)) / math.pi)
        else:
            outer = gas_is_out(job)
    elif OPT["sealing_no_face"] != "whole":
        outer = min(outer, gas_is_out(job))
    if OPT["sealing"] != "ASME":
        return inner if OPT["sealing"] == "inner edge" else outer
    b0 = (outer - inner) / 4
    return (outer + inner) / 2 if b0 <= 6.35 else outer - 2 * 2.52 * math.sqrt(b0)


def gas_is_out(job):
    """Diameter of the circle that touches the first stud hole or the edge: gas that is there holds nothing up."""
    points = geo.pattern(at(job, "head.holes"))
    studs = [math.hypot(*points[h]) - gasket_hole(job, t) / 2 for _, t, holes in stud_holes(job) for h in holes]
    edge = (
        [geo.distance((0, 0), gasket_loop(job))]
        if job["gasket"].get("outline") == "bosses" or "outline" in job["barrel"]
        else []
    )
    return 2 * min(studs + edge)


def pressed_area(job, s):
    face = at(job, "head.joint_face", None)
    if face is None:
        return s["gasket.area"]
    bore, *rest = gasket_openings(job)
    return math.pi * (face**2 / 4 - bore[2] ** 2) - sum(geo.lens(face / 2, r, math.hypot(x, y)) for x, y, r in rest)


# -- the joint ------------------------------------------------------------------------------------------


def proof_stress(t):
    """(proof, Rm, material row) cold at the stud's diameter."""
    if at(t, "material") in CLASSES:
        return (*CLASSES[t["material"]], material(t["material"]))
    row = material(at(t, "material"))
    rp, rm = strengths(row, max(thread(at(t, "tap_end")).d, thread(at(t, "nut_end")).d))
    return 0.9 * rp, rm, row


def layers(job, s, x, t):
    """[(what, thickness, E, alpha, cap, hole)] from the nut down to the first engaged coil."""
    bore, outside, thick = washer(t.get("washer", "ISO 7089"), thread(at(t, "nut_end")).d)
    head, iron, steel = material(at(job, "head.material")), material(at(job, "barrel.material")), material("C45")
    hole = at(job, "head.hole_diameter")
    boss = at(job, "head.boss") if OPT["km_cap"] == "boss" else 1e3
    out = [
        ("washer", thick, steel["E"], steel["alpha"], outside, bore),
        (
            "head",
            at(t, "head_thickness", None) or at(job, "head.thickness"),
            get(head, "E"),
            get(head, "alpha"),
            boss,
            hole,
        ),
    ]
    gasket = material(at(job, "gasket.material"))
    out.append(
        ("gasket", at(job, "gasket.thickness"), get(gasket, "E"), get(gasket, "alpha"), boss, gasket_hole(job, t))
    )
    out.append(("barrel", first_coil(s, x, t), get(iron, "E"), get(iron, "alpha"), 1e3, thread(at(t, "tap_end")).d))
    return out


def first_coil(s, x, t):
    th = thread(at(t, "tap_end"))
    top = th.p if has_insert(t) else 0.0
    step = s[f"stud.{x}step"]
    return max(top, step + (th.depth if OPT["first_coil"] == "less chamfer" else 0.0))


def stud_compliance(s, x, t):
    nt, tt, row = thread(at(t, "nut_end")), thread(at(t, "tap_end")), proof_stress(t)[2]
    if s[f"stud.{x}shank_length"] <= 0:
        raise Missing("a shank: the nut end is longer than the stud above its step")
    in_grip = max(0.0, s[f"stud.{x}nut_end_length"] - nut(nt.d)[0] - 2 * nt.p)
    free = max(0.0, first_coil(s, x, t) - s[f"stud.{x}step"])
    shank = math.pi / 4 * float(at(t, "shank")) ** 2
    root = tt.core_area if OPT["core_area_tap"] == "A3" else tt.stress_area
    parts = [
        (0.4 * nt.d, nt.stress_area),
        (in_grip, nt.stress_area),
        (s[f"stud.{x}shank_length"], shank),
        (free, tt.stress_area),
        (0.5 * tt.d, root),
        (0.4 * tt.d, tt.stress_area),
    ]
    return sum(l / a for l, a in parts) / get(row, "E")


def frustum(t, hole, D, big, E):
    """Stiffness of a frustum with a hole, end diameters D and big (Shigley's formula for any slope)."""
    if abs(big - D) < 1e-9:
        return E * math.pi / 4 * (D * D - hole * hole) / t
    D, big = min(D, big), max(D, big)
    return math.pi * E * hole * (big - D) / (2 * t) / math.log((big - hole) * (D + hole) / ((big + hole) * (D - hole)))


def member_compliance(job, s, x, t):
    """30 degree cones from the nut and from the tapped end, the smaller at each height, cut off at each layer's cap."""
    dw = nut(thread(at(t, "nut_end")).d)[2]
    stack, two_tan = layers(job, s, x, t), 2 * math.tan(math.radians(30))
    total, z, out = sum(q[1] for q in stack), 0.0, 0.0
    low = 1.5 * thread(at(t, "tap_end")).d if OPT["low_cone"] == "1.5 d" else dw
    for what, thick, E, _, cap, hole in stack:
        if what == "gasket" and OPT["gasket_path"] == "face" and at(job, "head.joint_face", None):
            n = len(geo.pattern(at(job, "head.holes")))
            out += thick * n / (E * s["gasket.pressed_area"])
            z += thick
            continue
        f = lambda u: max(hole * 1.0001, min(dw + two_tan * u, low + two_tan * (total - u), cap))
        bends = ((cap - dw) / two_tan, total - (cap - low) / two_tan, (low - dw) / two_tan / 2 + total / 2)
        cuts = sorted({z, z + thick, *(c for c in bends if z < c < z + thick)})
        out += sum(1 / frustum(b - a, hole, f(a), f(b), E) for a, b in zip(cuts, cuts[1:]))
        z += thick
    return out


def stretch_of_heat(job, s, x, t, stud, head, barrel):
    """sum alpha t dT of the clamped parts less the stud's."""
    gasket = (head + barrel) / 2 if OPT["gasket_temperature"] == "mean" else head
    at_t = {"washer": head, "head": head, "gasket": gasket, "barrel": barrel}
    stack = layers(job, s, x, t)
    return sum(alpha * thick * (at_t[w] - T0) for w, thick, _, alpha, *_ in stack) - get(
        proof_stress(t)[2], "alpha"
    ) * sum(q[1] for q in stack) * (stud - T0)


def states(job):
    """[(name, stud, head, barrel)] of the hot states that are given."""
    out = []
    for key in ("hot", "run_up"):
        e = at(job, f"engine.{key}", {})
        if all(k in e for k in ("stud", "head", "barrel")):
            out.append((key, e["stud"], e["head"], e["barrel"]))
    return out


def _joint(job, s):
    kinds = stud_holes(job)
    if not kinds:
        return
    pi = math.pi
    s.put(
        "joint.gas_force",
        "pi/4 G^2 p, G the effective sealing diameter",
        lambda: pi / 4 * s["gasket.sealing_diameter"] ** 2 * at(job, "engine.peak_pressure"),
        None if at(job, "head.joint_face", None) else "rule where no joint_face is given",
    )
    for x, t, holes in kinds:
        p, j = f"stud.{x}", f"joint.{x}"
        s.put(p + "proof_stress", "Sp, or 0.9 Rp0.2 at the diameter", lambda: proof_stress(t)[0], "name")
        s.put(
            j + "preload",
            "share x proof x weakest area",
            lambda: at(t, "preload_share") * proof_stress(t)[0] * s[p + "weakest_area"],
        )

        def torque():
            th, f = thread(at(t, "nut_end")), at(t, "friction", 0.14)
            dkm = (nut(th.d)[2] + washer(t.get("washer", "ISO 7089"), th.d)[0]) / 2
            a, b = (1 / 2 / pi, 0.5 / math.cos(th.half)) if OPT["torque"] == "exact" else (0.16, 0.58)
            return s[j + "preload"] * (a * th.p + b * th.d2 * f + dkm / 2 * f) / 1000

        s.put(
            j + "torque",
            "F (P/2pi + mu d2/(2 cos a) + mu DKm/2), DKm = (dw min + washer bore)/2",
            torque,
            "exact or printed factors",
        )
        s.put(
            p + "stiffness",
            "1/sum(l/(E A)) with 0.4 d, 0.5 d and 0.4 d",
            lambda: 1 / stud_compliance(s, x, t),
            "nut end's length, areas",
        )
        s.put(j + "members_stiffness", "30 degree cones", lambda: 1 / member_compliance(job, s, x, t), "name; cones")
        s.put(
            j + "stiffness_share",
            "ks/(ks + km)",
            lambda: s[p + "stiffness"] / (s[p + "stiffness"] + s[j + "members_stiffness"]),
            "cones",
        )
    order = {h: x for x, _, holes in kinds for h in holes}

    def gas_shares():
        points = geo.pattern(at(job, "head.holes"))
        used = sorted(order)
        k = (
            [s[f"stud.{order[h]}stiffness"] + s[f"joint.{order[h]}members_stiffness"] for h in used]
            if len(kinds) > 1
            else None
        )
        return dict(zip(used, geo.shares([points[h] for h in used], k)))

    for x, t, holes in kinds:
        p, j = f"stud.{x}", f"joint.{x}"
        share = lambda: max(gas_shares()[h] for h in holes) * s["joint.gas_force"]
        s.put(j + "gas_share", "the most of one stud, by statics with tilting", share, "name")
        c = lambda: s[j + "stiffness_share"]
        soft = lambda: 1 / s[p + "stiffness"] + 1 / s[j + "members_stiffness"]
        s.put(
            j + "separation_factor",
            "Fi/(P (1 - C)), cold, nominal",
            lambda: s[j + "preload"] / (s[j + "gas_share"] * (1 - c())),
            "cones",
        )

        def heat(name):
            for n, *temps in states(job):
                if n == name:
                    return stretch_of_heat(job, s, x, t, *temps) / soft()
            raise Missing(f"engine.{name}")

        s.put(
            j + "hot_preload",
            "Fi + (sum alpha t dT - alpha l dT)/(1/ks + 1/km)",
            lambda: s[j + "preload"] + heat("hot"),
            "cones, mean expansions",
        )
        scatter = SCATTER[t.get("tightened_by", "torque")]
        if OPT["scatter"] == "25/10/5" and scatter < 0.25:
            scatter = 0.10 if scatter == 0.15 else 0.05

        def greatest():
            hots = [heat(n) for n, *_ in states(job)]
            return (1 + scatter) * s[j + "preload"] + max(hots + [0.0]) + c() * s[j + "gas_share"]

        s.put(j + "greatest_preload", "(1 + scatter) Fi + greatest heat + C P", greatest, "cones, mean expansions")

        def least():
            flat = 2 * EMBED_THREAD + EMBED_BEARING + 3 * EMBED_JOINT if OPT["embedding"] != "none" else 0.0
            low, lost = (1 - scatter) * s[j + "preload"], flat / soft()
            if OPT["creep"] != "none":
                lost += CREEP * (low + heat("hot"))
            frost = stretch_of_heat(job, s, x, t, *[COLD_START] * 3) / soft() if OPT["cold_start"] != "none" else 0.0
            coolest = min([0.0, *(heat(n) for n, *_ in states(job))])
            return min(low - lost + coolest, low - LATER * lost + min(coolest, frost))  # before and after the re-torque

        s.put(j + "least_preload", "(1 - scatter) Fi - embedding - creep - cold start", least, "named constants; cones")
        s.put(
            j + "washer_pressure",
            "greatest preload/(pi/4 (do^2 - hole^2))",
            lambda: s[j + "greatest_preload"] / washer_area(job, t),
            "cones; hole or washer bore",
        )

        def use():
            proof, _, row = proof_stress(t)
            area, th = s[p + "weakest_area"], thread(at(t, "nut_end"))
            thread_torque = (
                1.25 * s[j + "preload"] * (th.p / 2 / pi + at(t, "friction", 0.14) * th.d2 / 2 / math.cos(th.half))
            )
            d0 = math.sqrt(4 * area / pi)
            tau = 16 * thread_torque / (pi * d0**3) * (0.5 if OPT["torsion_hot"] == "half" else 0)
            worst = 0.0
            for n, stud, *_ in states(job) or [("cold", T0, T0, T0)]:
                h = heat(n) if n != "cold" else 0.0
                f = (1 + scatter) * s[j + "preload"] + max(h, 0) + c() * s[j + "gas_share"]
                k = hot_share(row, stud, what="yield") if OPT["steel_hot"] == "table" else 1
                worst = max(worst, math.hypot(f / area, math.sqrt(3) * tau) / (proof * k))
            return worst

        s.put(
            p + "proof_use",
            "worst state over the proof stress at its temperature, with half of the torsion",
            use,
            "name; named constants",
        )
        s.put(
            p + "proof_use_cold",
            "greatest preload/(proof x weakest area)",
            lambda: s[j + "greatest_preload"] / (proof_stress(t)[0] * s[p + "weakest_area"]),
            "name",
        )
        s.put(j + "stretch", "Fi/ks", lambda: s[j + "preload"] / s[p + "stiffness"], "nut end's length")
        s.put(
            j + "nut_angle",
            "360/P Fi (1/ks + 1/km)",
            lambda: 360 / thread(at(t, "nut_end")).p * s[j + "preload"] * soft(),
            "cones",
        )
        _strip(job, s, x, t, holes)
        _turning(job, s, x, t)
    n_all = sum(len(h) for *_, h in kinds)
    s.put(
        "gasket.seating_stress",
        "sum of Fi/area inside the joint face",
        lambda: sum(len(h) * s[f"joint.{x}preload"] for x, _, h in kinds) / s["gasket.pressed_area"],
    )
    s.put(
        "gasket.seating_least",
        "sum of what the scatter leaves of the preloads/area: seated when the nuts are tight",
        lambda: (
            sum(len(h) * (1 - SCATTER[t.get("tightened_by", "torque")]) * s[f"joint.{x}preload"] for x, t, h in kinds)
            / s["gasket.pressed_area"]
        ),
        "name",
    )

    def bending():
        import numpy as np

        rs = np.mean([math.hypot(x, y) for x, y in geo.pattern(at(job, "head.holes"))])
        rf, ro = s["gasket.sealing_diameter"] / 2, rs + at(job, "head.boss") / 2
        if rf >= rs:
            return 0.0
        nu = 0.33
        total = n_all * max(s[f"joint.{x}greatest_preload"] for x, *_ in kinds)
        m = total / 4 / math.pi * ((1 + nu) * math.log(rs / rf) + (1 - nu) / 2 * (rs**2 - rf**2) / ro**2)
        return float(6 * m / at(job, "head.thickness") ** 2)

    s.put(
        "head.bending_stress",
        "round plate, studs' ring against the sealing ring: 6 M/t^2",
        bending,
        "name; thickness of the plate proper is not asked",
    )
    s.put(
        "head.lever",
        "studs' circle - sealing radius",
        lambda: min(math.hypot(x, y) for x, y in geo.pattern(at(job, "head.holes"))) - s["gasket.sealing_diameter"] / 2,
        "name",
    )


def washer_area(job, t):
    bore, outside, _ = washer(t.get("washer", "ISO 7089"), thread(at(t, "nut_end")).d)
    hole = at(job, "head.hole_diameter") if OPT["washer_inside"] == "larger" else 0
    return math.pi / 4 * (min(outside, at(job, "head.boss", outside)) ** 2 - max(bore, hole) ** 2)


def _strip(job, s, x, t, holes):
    q = f"strip.{x}"

    def engagement():
        th, step, reach = thread(at(t, "tap_end")), s[f"stud.{x}step"], s[f"stud.{x}reach"]
        if has_insert(t):  # its outside bears on the parent over its own length, past the stud's chamfer
            return max(0.0, reach - max(th.p, step))
        chamfer = th.depth if OPT["tap_chamfer"] == "core" else 0.0
        return max(0.0, reach - chamfer - max(th.p if OPT["countersink"] == "1 P" else th.sunk, step))

    s.put(
        q + "tap_end_engagement",
        "full thread in full thread: reach - max(set-down, step); tapped straight: reach - chamfer - max(countersink, step)",
        engagement,
        "chamfers: the requirements name both, its figure has none",
    )

    def tau(t_hot):
        row = material(at(job, "barrel.material"))
        thick = at(job, "barrel.deck_depth", 100.0) - (
            at(job, "barrel.skim", 0.0) if OPT["section"] != "deck depth" else 0
        )
        return 0.6 * strengths(row, thick)[1] * (hot_share(row, t_hot) if t_hot is not None else 1)

    given = {n: b for n, _, _, b in states(job)}
    worst_t = max([*given.values()] + ([] if "hot" in given else [200.0]))  # P: what a barrel not told of may come to

    def parent(hot=worst_t):
        th = thread(at(t, "tap_end"))
        major, pitch, _ = tap_of(t)
        if not has_insert(t):
            major, pitch = th.external()[1], th.internal()[3]
        elif OPT["parent_pitch"] != "least":
            pitch += 0.18
        return tau(hot) * th.strip_area_internal(s[q + "tap_end_engagement"], major, pitch)

    def stud_side():
        th = thread(at(t, "tap_end"))
        return (
            0.6
            * proof_stress(t)[1]
            * th.strip_area_external(s[q + "tap_end_engagement"], th.internal()[1], th.external()[3])
        )

    s.put(
        q + "parent_force",
        "0.6 Rm hot x FED-STD area on the tapped major",
        parent,
        None if thread(at(t, "tap_end")).family == "M" else "core of an inch thread: chamfer",
    )
    s.put(q + "stud_force", "0.6 Rm x FED-STD area on D1 max", stud_side, "name")
    s.put(
        f"joint.{x}tap_end_strip_force",
        "the weaker",
        lambda: min(s[q + "parent_force"], s[q + "stud_force"]),
        "chamfers; filler; hot",
    )

    def filler():
        points, olds = geo.pattern(at(job, "head.holes")), geo.old_holes(job)
        return max([unsound_share(job, points[h], t, olds) for h in holes] if olds else [0.0])

    s.put(
        q + "sound_force", "parent x (1 - share in filler)", lambda: s[q + "parent_force"] * (1 - filler()), "chamfers"
    )
    s.put(
        q + "sound_force_hot",
        "at the barrel's greatest temperature",
        lambda: min(parent(worst_t) * (1 - filler()), s[q + "stud_force"]),
        "name",
    )


def worst_deflection(l1, d1, l2, d2, E, tailstock):
    """Of a unit load anywhere on the first length: held fast at its foot, a centre (or nothing) at the far end of the second."""
    import numpy as np

    L, n = l1 + l2, 2000
    z = (np.arange(n) + 0.5) * L / n
    flex = L / n / (E * np.pi / 64 * np.where(z < l1, d1, d2) ** 4)
    a = (np.linspace(0.02, 1, 50) * l1)[:, None]
    m, tip = np.maximum(a - z, 0), L - z
    own = (m * m * flex).sum(1)
    if tailstock:
        own -= (m * tip * flex).sum(1) ** 2 / (tip * tip * flex).sum()
    return float(own.max())


def _turning(job, s, x, t):
    """Chuck on the tap end, centre in the nut end: fixed-pinned stepped beam, or a cantilever without a tailstock."""
    q = f"turning.{x}"

    def force():
        name = at(t, "material")
        name = name if isinstance(name, str) else name.get("name", "")
        key = next((k for k in KIENZLE if name.startswith(k)), None)
        if not key:
            raise Missing(f"cutting force of {name!r}")
        kc, mc = KIENZLE[key]
        ap, f = at(job, "lathe.least_depth_of_cut"), at(job, "lathe.feed")
        fc = kc * f**-mc * ap * f
        return 0.4 * fc * (2 if ap < at(job, "lathe.nose_radius") else 1)

    def waist():
        return s[f"stud.{x}shank_length"] >= s[f"stud.{x}nut_end_length"]

    def longest():
        return s[f"stud.{x}shank_length"] if waist() else s[f"stud.{x}nut_end_length"]

    def deflect(slender):
        th, d = thread(at(t, "nut_end")), float(at(t, "shank"))
        return force() * worst_deflection(
            slender,
            d if waist() else th.d,
            s[f"stud.{x}nut_end_length"] if waist() else 0.0,
            th.d,
            get(proof_stress(t)[2], "E"),
            at(job, "lathe.tailstock", False),
        )

    def number():
        limit, full = at(job, "lathe.taper_limit"), longest()
        return next((n for n in range(1, 41) if 2 * deflect(full / n) <= limit), 41)

    s.put(
        q + "sections",
        "fewest with 2 x deflection inside the taper",
        lambda: float(number()),
        "free length of a section",
    )
    s.put(
        q + "free_length",
        "shank/sections",
        lambda: longest() / s[q + "sections"],
        "free length of a section",
    )
    s.put(
        q + "deflection", "stepped beam, fixed and pinned, at its worst", lambda: deflect(s[q + "free_length"]), "beam"
    )


# -- plugs --------------------------------------------------------------------------------------------


def passage_of(job, t):
    for q in at(job, "barrel.passages", []):
        if fold(str(q.get("name"))) == fold(str(t.get("passage", t.get("name", "")))):
            return q
    raise Missing("plug.passage")


def _plug(job, s, x, t):
    p = f"plug.{x}"
    d = lambda: at(passage_of(job, t), "diameter")
    bonded = t.get("fit", "bonded") == "bonded"

    def diameter():
        if bonded:
            return d() - at(t, "bond_clearance")
        ei, es = press_limits(t, d())
        return d() + ((ei + es) / 2 if OPT["press_size"] == "middle" else es)

    s.put(
        p + "diameter",
        "passage - bond clearance; press: middle of the limits",
        diameter,
        None if bonded else "not defined",
    )
    s.put(p + "length", "below the deck", lambda: float(at(t, "length")))
    if bonded:
        s.put(
            p + "hold_force",
            "tau pi d L",
            lambda: (
                at(t, "bond_strength")
                * math.pi
                * (s[p + "diameter"] if OPT["plug_d"] == "plug" else d())
                * s[p + "length"]
            ),
            "d of plug or of passage",
        )
    s.put(
        p + "gas_force",
        "pi/4 d^2 p on the passage's diameter",
        lambda: math.pi / 4 * d() ** 2 * at(job, "engine.peak_pressure"),
    )
    if not bonded:
        s.put(
            p + "press_least",
            "holding force, least interference, worst state",
            lambda: press(job, t, d(), least=True)[1],
            "name",
        )
        s.put(
            p + "press_hoop",
            "hoop stress at the passage, most interference",
            lambda: press(job, t, d(), least=False)[2],
            "name",
        )


def press_limits(t, d):
    word = t.get("tolerance", "r6")
    if word[0] not in "kmnprs":
        raise Missing(f"plug.tolerance {word}")
    return fit(d, word[0])


def lame(delta, d, do, Eo, nuo, Ei, nui, di=0.0):
    """Pressure of an interference delta on diameter d, ring out to do, core bored di."""
    outer = (do**2 + d**2) / (do**2 - d**2) + nuo
    inner = (d**2 + di**2) / (d**2 - di**2) - nui
    return delta / (d * (outer / Eo + inner / Ei))


def press(job, t, d, least):
    """(pressure, holding force, hoop stress) by Lame, the worst over cold and hot states; ring out to the least metal."""
    ei, es = press_limits(t, d)
    row, iron = material(at(t, "material")), material(at(job, "barrel.material"))
    x, y = passage_of(job, t)["at"][:2]
    loop = geo.outline(at(job, "barrel.outline"))
    metal = min(math.hypot(x, y) - d / 2 - cylinder_wall(job) / 2, geo.distance((x, y), loop) - d / 2)
    do = d + 2 * max(metal, 0.05 * d)
    delta = (ei if least else es) - SMOOTHING * 2 * RZ_TURNED * (1 if least else 0)
    out = []
    for temp in [T0, COLD_START] + [b for *_, b in states(job)]:
        dd = max(0.0, delta + d * (get(row, "alpha") - get(iron, "alpha")) * (temp - T0))
        p = lame(dd, d, do, get(iron, "E"), get(iron, "nu"), get(row, "E"), get(row, "nu"))
        out.append((p, math.pi * d * at(t, "length") * p * MU_PRESS, p * (do**2 + d**2) / (do**2 - d**2)))
    return min(out) if least else max(out)


# -- rings and expanders -------------------------------------------------------------------------------


def ring_of(job, t):
    e = at(t, "material")
    eta = at(t, "heat_set.set_fraction", 0.95)
    return Ring(
        at(job, "engine.bore"),
        float(at(t, "radial_thickness")),
        float(at(t, "axial_width")),
        float(at(t, "free_gap")),
        float(at(t, "closed_gap")),
        float(at(t, "slit")),
        get(material(e), "E"),
        eta,
    )


def mandrel_of(job, t):
    for _, m in instances(job, "mandrel"):
        if "ring" not in m or fold(str(m["ring"])) == fold(str(t.get("name", ""))):
            return m
    raise Missing("mandrel")


def _ring(job, s, x, t):
    p, bore = f"ring.{x}", lambda: at(job, "engine.bore")
    g = lambda k: float(at(t, k))
    box = {}

    def ring():
        if "r" not in box:
            box["r"] = ring_of(job, t)
        return box["r"]

    d0 = lambda: bore() + (g("slit") - g("closed_gap")) / math.pi
    s.put(p + "outside_diameter", "D + (s - s1)/pi", d0)
    s.put(p + "inside_diameter", "D0 - 2 a", lambda: d0() - 2 * g("radial_thickness"))
    s.put(p + "closed_gap", "s1", lambda: g("closed_gap"))
    s.put(p + "free_gap", "m", lambda: g("free_gap"))

    def hot_gap():
        ar, ab = (
            get(material(at(t, "material")), "alpha"),
            get(material(at(job, "barrel.liner.material", None) or at(job, "barrel.material")), "alpha"),
        )
        tr, tb = at(job, "engine.hot.ring") - T0, at(job, "engine.hot.bore_wall") - T0
        return g("closed_gap") * (1 + (ar * tr if OPT["hot_gap"] == "whole" else 0)) + math.pi * bore() * (
            ab * tb - ar * tr
        )

    s.put(p + "hot_gap", "s1 - pi D (alpha_r dT_r - alpha_b dT_b)", hot_gap, "first order; mean expansions")
    s.put(p + "free_gap_inside", "m - a sin(pi K)", lambda: ring().free_gap_inside(), "tilt of the tips")
    s.put(p + "parameter", "K (1 - 0.8 K), K = (m - s1)/(3 pi r)", lambda: ring().K)
    s.put(p + "tangential_force", "K E I/r^2", lambda: ring().tangential_force())
    s.put(p + "contact_pressure", "2 Ft/(D h)", lambda: ring().contact_pressure())
    s.put(p + "working_stress", "E K a/r", lambda: ring().working_stress())
    s.put(p + "fitting_stress", "4 E a (8 a - m)/(3 pi (D - a)^2)", lambda: ring().fitting_stress())
    s.put(
        p + "modulus", "of the material", lambda: get(material(at(t, "material")), "E"), "MPa; or from a measured force"
    )
    s.put(p + "side_clearance", "groove - width", lambda: at(t, "groove.width") - g("axial_width"))
    s.put(
        p + "back_clearance",
        "(bore - root)/2 - a",
        lambda: (bore() - at(t, "groove.root_diameter")) / 2 - g("radial_thickness"),
    )
    s.put(
        p + "stock_length",
        "n (width + parting) + facing",
        lambda: at(t, "count") * (g("axial_width") + at(t, "parting_tool")) + at(t, "facing"),
    )
    try:
        man = mandrel_of(job, t)
    except Missing:
        return
    q, form = f"mandrel.{x}", man.get("form")
    s.put(
        q + "seat_height",
        "rings x width",
        lambda: at(man, "rings") * g("axial_width"),
        "definition not in the documents",
    )
    if form == "contoured":
        s.put(
            q + "open_gap",
            "2 y of the tip, curvature k0 + [(1 - K (1 + cos))/r - k0]/eta",
            lambda: ring().contour_open_gap(),
        )
        s.put(q + "opened_stress", "E a/2 x greatest change of curvature", lambda: ring().contour_stress())
        s.put(
            q + "profile",
            "mean line less a/2 inward, [angle, radius]",
            lambda: [[a, ring().profile_radius(a)] for a in range(0, 171, 2)],
        )
    elif form == "pin":
        for name, k, f in (
            ("open_gap", 0, "exact elastica"),
            ("disc_diameter", 1, "largest disc inside"),
            ("opened_stress", 2, "exact elastica"),
        ):
            s.put(q + name, f, lambda k=k: pin_cached(ring())[k], "exact shape by whose rule")
        s.put(q + "pin_width", "open gap on the mean line", lambda: s[q + "open_gap"], "exact or s + (m - s)/eta")
    elif form == "round":
        s.put(q + "diameter", "D0 - 2 a + (m - s)/(3.2491 eta)", lambda: ring().round_diameter())
        s.put(q + "open_gap", "s + (m - s)/eta", lambda: ring().s + (ring().m - ring().s) / ring().eta, "linear")
        s.put(
            q + "opened_stress",
            "1.1866 E a/2 (1/r0 - 1/Rm)",
            lambda: ring().round_stress(),
            "1.1866 of the requirements",
        )
    for k, name in enumerate(("pressure_ratio_back", "pressure_ratio_least", "tip_force", "light_gap")):
        s.put(
            p + name,
            "unilateral contact in a true bore",
            lambda k=k: bore_cached(ring(), form)[k],
            "grid; round form 3-5 %",
        )

    def seat_error():
        b = bore_cached(ring(), form)[1]
        per = (
            max((n * n - 1) ** 2 * ring().eta * ring().E * ring().I / (ring().h * ring().r ** 4) for n in range(2, 7))
            / ring().contact_pressure()
        )
        return max(0.0, b - 0.5) / per

    s.put(
        q + "seat_error",
        "first order: what takes the least to 0.5 p0, 2 to 6 lobes",
        seat_error,
        "rule 0.5 chosen here",
    )


def pin_cached(ring):
    return _solved("pin", None, OPT["contour_k"], *ring.key)


def bore_cached(ring, form):
    if form == "contoured":
        return 1.0, 1.0, 0.0, 0.0
    if form not in ("pin", "round"):
        raise Missing("mandrel.form")
    return _solved("bore", form, OPT["contour_k"], *ring.key)


@lru_cache(maxsize=64)
def _solved(what, form, _option, *key):
    ring = Ring(*key)
    return ring.pin()[:3] if what == "pin" else ring.in_bore(form)


# -- compression ---------------------------------------------------------------------------------------


def _compression(job, s):
    e = lambda k: at(job, f"engine.{k}")
    s.put("compression.swept_volume", "pi/4 D^2 S", lambda: math.pi / 4 * e("bore") ** 2 * e("stroke"))
    s.put("compression.ratio_before", "(Vs + Vc)/Vc", lambda: 1 + s["compression.swept_volume"] / e("clearance_volume"))

    def after():
        old, new = at(job, "engine.old_chamber_volume", None), at(job, "head.chamber_volume", None)
        change = new - old if old is not None and new is not None else 0.0
        bore = s["gasket.bore_diameter"]
        ob = at(job, "gasket.old_bore", None) or bore
        gaskets = math.pi / 4 * (bore**2 * at(job, "gasket.thickness") - ob**2 * at(job, "gasket.old_thickness"))
        return e("clearance_volume") + change + gaskets - math.pi / 4 * e("bore") ** 2 * at(job, "barrel.skim", 0.0)

    s.put("compression.volume_after", "Vc + chambers + gaskets - skim", after, "name")
    s.put(
        "compression.ratio_after",
        "(Vs + V)/V",
        lambda: 1 + s["compression.swept_volume"] / s["compression.volume_after"],
    )
    s.put(
        "compression.squish",
        "before - (old - new gasket) - skim",
        lambda: (
            e("squish") - (at(job, "gasket.old_thickness") - at(job, "gasket.thickness")) - at(job, "barrel.skim", 0.0)
        ),
    )

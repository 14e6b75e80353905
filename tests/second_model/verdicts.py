"""Verdicts by the rules of the design and the requirements; the weakest section in the worst state decides.

A rule that the documents state is marked D (design, definitions), I (requirements) or R (reference). Where they leave the
limit open it is P: the one that the product publishes beside its rule, with its source; so what is judged apart is the number.
C is chosen here, and is no milder than the product's.
"""

import math
from . import geometry as geo
from . import model as mo
from .quantities import Missing, at, instances
from .tables import family, hot_share, material, strengths
from .threads import thread

RANK = {"ok": 0, "caution": 1, "stop": 2}
SEPARATION_LEAST = (1.5, 1.0)  # P: least preload over the gas load it must hold: caution under, stop under
SEPARATION_NOMINAL = (2.0, 1.0)  # P: definitions' factor
PROOF = (0.9, 1.0)  # D, I: caution over, stop over
ENGAGEMENT = {"steel": 1.0, "iron": 1.25, "aluminium": 2.0, "brass": 2.0, "copper": 2.0}  # P: DIN 938, 939, 835
BOND = 1.5 * 1.25 * 1.5  # P: safeties for heat, gap and surface; R 7.plug works with 3
LAND = (2.0, 1.0)  # C mm
SQUISH = (0.8, 0.4)  # P mm
FIT_STRESS = (1.0, 1.5)  # D: over the piston, of the iron's least bending strength
SIDE, BACK = (0.02, 0.08), 0.3  # P; R 4.clr has 0.025 to 0.05 for new, 0.1 to 0.15 to reject
CLOSED = (0.002, 0.006)  # R 4.s1 lower end and physical need, of the bore
RATIO, CHANGE = (4.0, 14.0), (1.0, 3.0)  # P
OLD = {"to_bore": (4.0, 2.0), "to_edge": (3.0, 0.0), "to_next": (3.0, 0.0)}  # P mm
PASSAGE = (2.0, 2.0)  # P mm to bore and edge; half the tapped major beside studs is the product's own
TO_OLD = (2.0, 0.0)  # P mm from a passage to an old hole
BOUNDS = {
    "engine.bore": (20, 130),
    "engine.stroke": (15, 150),
    "engine.peak_pressure": (1.5, 9),
    "engine.squish": (0.3, 5),
    "gasket.thickness": (0.2, 4),
    "head.thickness": (5, 120),
}  # C: ranges of the usual


class Judge(dict):
    def put(self, name, fn):
        """fn -> (verdict, reason); what lacks an input is a caution."""
        try:
            v, why = fn()
        except Missing as lack:
            v, why = "caution", f"not judged: needs {lack}"
        except (ZeroDivisionError, ValueError) as bad:
            v, why = "stop", f"impossible: {bad}"
        if name not in self or RANK[v] > RANK[self[name][0]]:
            self[name] = (v, why)

    def under(self, name, value, caution, stop, what):
        self.put(name, lambda: _pair(value() if callable(value) else value, caution, stop, what, -1))

    def over(self, name, value, caution, stop, what):
        self.put(name, lambda: _pair(value() if callable(value) else value, caution, stop, what, 1))


def _pair(v, caution, stop, what, sign):
    c, s = (f() if callable(f) else f for f in (caution, stop))
    word = "over" if sign > 0 else "under"
    if sign * (v - s) > 0:
        return "stop", f"{what} {v:.4g} is {word} {s:.4g}"
    if sign * (v - c) > 0:
        return "caution", f"{what} {v:.4g} is {word} {c:.4g}"
    return "ok", f"{what} {v:.4g}"


def verdicts(job):
    s, j = mo.sizes(job), Judge()
    _deck(job, s, j)
    _joint(job, s, j)
    _gasket(job, s, j)
    for x, t in instances(job, "plug"):
        _plug(job, s, j, x, t)
    for x, t in instances(job, "ring"):
        _ring(job, s, j, x, t)
    _engine(job, s, j)
    return dict(j)


def _deck(job, s, j):
    kinds, olds, loop = mo.stud_holes(job), geo.old_holes(job), geo.outline(at(job, "barrel.outline", {}))
    passages = at(job, "barrel.passages", [])
    try:
        points = geo.pattern(at(job, "head.holes"))
    except Missing:
        points = []
    new = []
    for x, t, holes in kinds:
        for h in holes:
            try:
                new.append((*points[h], mo.tap_of(t)[0], h + 1, x, t))
            except Missing as lack:
                j.put("deck.metal", lambda lack=lack: ("caution", f"not judged: {lack}"))

    def metal(name, value, d, what):  # D: 0.5 and 0.2 of the tapped major, and under 2 mm
        j.under(name, value, 0.5 * d, max(0.2 * d, 2.0), what)

    for px, py, d, n, x, t in new:
        j.put(
            "deck.metal",
            lambda: _pair(
                math.hypot(px, py) - d / 2 - mo.cylinder_wall(job) / 2,
                0.5 * d,
                max(0.2 * d, 2),
                f"hole {n} to bore",
                -1,
            ),
        )
        if loop:
            metal("deck.metal", geo.distance((px, py), loop) - d / 2, d, f"hole {n} to edge")
        for qx, qy, e, k, *_ in new:
            if k < n:
                metal("deck.metal", math.hypot(px - qx, py - qy) - (d + e) / 2, max(d, e), f"holes {k} and {n}")
        for q in passages:
            if "at" in q and "diameter" in q:
                metal(
                    "deck.metal",
                    math.hypot(px - q["at"][0], py - q["at"][1]) - d / 2 - q["diameter"] / 2,
                    d,
                    f"hole {n} to passage {q.get('name')}",
                )
        # I, one measure: a wall that is thinner than half the thread is no better than filler, and no worse
        share = mo.unsound_share(job, (px, py), t, olds)
        j.over("deck.filler", share, 0.0, 0.5, f"hole {n}: share in filler")
        if share > 0 and any(
            o[4] == "screwed iron plug" and not o[5] and math.hypot(px - o[0], py - o[1]) < (d + o[2]) / 2 for o in olds
        ):
            j.put("deck.filler", lambda: ("stop", f"hole {n}: a thread cut into a screwed plug that isn't pinned"))
    for k, o in enumerate(olds):
        n = f"deck.old.{k + 1}."
        for what in ("to_bore", "to_edge", "to_next"):
            if n + what in s:
                j.under("deck.old", s[n + what], *OLD[what], f"old hole {k + 1} {what}")
        if o[3] is None:
            j.put("deck.old_depth", lambda: ("caution", "not judged: depth of the old holes"))
        else:
            j.under(
                "deck.old_depth",
                lambda: at(job, "barrel.deck_depth") - at(job, "barrel.skim", 0.0) - o[3],
                max([2.0, *(0.2 * d for _, _, d, *_ in new)]),  # P
                0.0,
                "metal under the old hole",
            )
        j.put("fill.material", lambda: _fill(job, o))
    for x, t, _ in kinds:
        if mo.has_insert(t):
            j.put(
                f"deck.{x}floor",
                lambda: _pair(s[f"deck.{x}floor"], 0.5 * mo.tap_of(t)[0], max(0.2 * mo.tap_of(t)[0], 2), "floor", -1),
            )
        j.put(f"stud.{x}step", lambda: _step(job, s, x, t))
    for q in passages:
        if "at" in q and "diameter" in q:
            at_, d = q["at"], q["diameter"]
            j.put(
                "deck.passage",
                lambda: _pair(
                    math.hypot(*at_[:2]) - d / 2 - mo.cylinder_wall(job) / 2,
                    *PASSAGE,
                    "passage to bore",
                    -1,
                ),
            )
            if loop:
                j.under("deck.passage", geo.distance(at_[:2], loop) - d / 2, *PASSAGE, "passage to edge")
            for o in olds:
                gap = math.hypot(at_[0] - o[0], at_[1] - o[1]) - (d + o[2]) / 2
                j.under("deck.passage", gap, *TO_OLD, "passage to an old hole")
    if kinds and points:
        used = [p[:2] for p in new] or points
        # I: on the line between two studs the force still balances; a hair (0.1 deg) beside it the face's width does it
        j.under(
            "joint.surround", lambda: geo.surrounds(used), 15.0, -0.1, "bore's axis inside the studs' polygon [deg]"
        )
        j.put(
            "head.located_by",
            lambda: (
                ("caution", "nothing or the studs locate the head")
                if at(job, "head.located_by", "studs") == "studs"
                else ("ok", "located")
            ),
        )


def _fill(job, o):
    fam = family(material(at(job, "barrel.material")))
    if "braze" in (o[4] or "bronze braze"):  # P: what the steps of work say where nothing is given
        if fam == "aluminium":
            return "stop", "bronze braze melts above an aluminium barrel's own melting point"
        return "ok", "iron and steel hold it, heated evenly and cooled slowly, as the steps of work say"  # P
    return ("ok", "it fits") if fam in ("iron", "steel") else ("caution", "iron plug in another metal: it loosens hot")


def _step(job, s, x, t):
    d, n = thread(at(t, "tap_end")).d, thread(at(t, "nut_end")).d
    if at(job, "head.hole_diameter") < max(n, float(at(t, "shank", 0.0))):
        return "stop", "the stud doesn't pass the head's hole"
    holes = [at(job, "head.hole_diameter")] + ([mo.gasket_hole(job, t)] if "gasket" in job else [])
    if d > min(holes) and s[f"stud.{x}step"] <= 0:
        return "stop", "the tap end stands in the hole of head or gasket and holds the head off"
    if d > min(holes) and s[f"stud.{x}step"] < 0.3:
        return "caution", "the step is hardly under the deck"
    return "ok", "the tap end ends under the deck or passes the holes"


def _joint(job, s, j):
    for x, t, holes in mo.stud_holes(job):
        p, jt = f"stud.{x}", f"joint.{x}"
        hot = mo.states(job)
        j.over(
            p + "proof_use",
            lambda: s[p + "proof_use"],
            *PROOF,
            f"{s.get(p + 'weakest_section')}: greatest stress over the hot proof stress",
        )
        if len(hot) < 2:
            j.put(p + "proof_use", lambda: ("caution", "not judged: temperatures of the run in and of the run up"))
        j.under(
            jt + "separation",
            lambda: s[jt + "least_preload"] / (s[jt + "gas_share"] * (1 - s[jt + "stiffness_share"])),
            *SEPARATION_LEAST,
            "least preload over gas",
        )
        j.under(jt + "separation", lambda: s[jt + "separation_factor"], *SEPARATION_NOMINAL, "separation factor")
        if at(job, "head.joint_face", None) is None:
            j.put(jt + "separation", lambda: ("caution", "not judged: joint_face, the effective sealing diameter"))
        j.put(jt + "washer_pressure", lambda: _washer(job, s, jt, t))
        j.put(f"strip.{x}tap_end", lambda: _strip(job, s, x, t, jt))
        j.put(f"strip.{x}engagement", lambda: _engagement(job, s, x, t))
        j.put(f"turning.{x}taper", lambda: _pair(s[f"turning.{x}sections"], 6, 40, "sections to turn the shank in", 1))
        j.put(f"strip.{x}nut", lambda: _nut(s, t, jt))
    if not mo.stud_holes(job):
        return
    j.over(
        "head.bending",
        lambda: at(job, "head.joint_face") and s["head.bending_stress"],  # a flat face has no lever
        lambda: 0.5 * _head_rp(job),  # P
        lambda: _head_rp(job),
        "bending of the head",
    )


def _head_rp(job):
    row = material(at(job, "head.material"))
    rp, rm = strengths(row, at(job, "head.thickness"))
    t = max([h for _, _, h, _ in mo.states(job)] or [200.0])
    return (rp or row["yield"]) * hot_share(row, t, what="yield")


def _washer(job, s, jt, t):
    """P: the head's alloy bears its yield strength hot, iron the guide's 850 MPa; twice that is the stop."""
    row = material(at(job, "head.material"))
    if not mo.states(job):
        raise Missing("engine.hot")
    hottest = max(h for _, _, h, _ in mo.states(job))
    bears = row["bearing"] if "bearing" in row else strengths(row, 0)[0] * hot_share(row, hottest, what="yield")
    return _pair(s[jt + "greatest_preload"] / mo.washer_area(job, t) / bears, 1.0, 2.0, "pressure under the washer", 1)


def _strip(job, s, x, t, jt):
    force, great = s[f"strip.{x}sound_force_hot"], s[jt + "greatest_preload"]
    if force < great:  # I: 22.0 kN, a stop
        return "stop", f"sound thread holds {force:.0f} N, the greatest preload is {great:.0f} N"
    breaking = s[f"stud.{x}weakest_area"] * mo.proof_stress(t)[1]
    if force < breaking:  # C: the stud should break first
        return "caution", f"sound thread holds {force:.0f} N, the stud breaks at {breaking:.0f} N"
    return "ok", f"sound thread holds {force:.0f} N"


def _engagement(job, s, x, t):
    rule = ENGAGEMENT[family(material(at(job, "barrel.material")))]
    d = thread(at(t, "tap_end")).d
    return _pair(s[f"strip.{x}tap_end_engagement"] / d, rule, 0.5 * rule, "full thread engaged over d", -1)


def _nut(s, t, jt):
    """R 5.strip with the least nut height, both countersinks off; nut steel of 800 MPa."""
    from .tables import nut as nut_of

    th = thread(at(t, "nut_end"))
    le = nut_of(th.d)[1] - th.depth
    force = 0.6 * min(
        800 * th.strip_area_internal(le, th.external()[1], th.internal()[3]),
        mo.proof_stress(t)[1] * th.strip_area_external(le, th.internal()[1], th.external()[3]),
    )
    breaks = s[f"stud.{jt.removeprefix('joint.')}weakest_area"] * mo.proof_stress(t)[1]  # P: the stud breaks first
    most = s[jt + "greatest_preload"]
    return _pair(force / most, max(1.25, breaks / most), 1.25, "nut's strip force over the greatest preload", -1)


def _gasket(job, s, j):
    if "gasket" not in job:
        return
    j.under("gasket.land", lambda: s["gasket.narrowest_land"], *LAND, "narrowest land")

    def overhang():
        c = at(job, "gasket.bore_clearance", 1.0) - at(job, "gasket.hole_clearance", 0.5)
        return _pair(c / 2, 0.0, -0.5, "bore clearance, the gasket to one side,", -1)  # P

    j.put("gasket.bore", overhang)

    def seating():
        if at(job, "head.joint_face", None) is None:
            return "caution", "not judged: joint_face, the face that really presses"
        row = material(at(job, "gasket.material"))
        if "y" not in row:
            raise Missing(f"m and y of {row['name']}")
        width = (at(job, "head.joint_face") - s["gasket.bore_diameter"]) / 2
        counted = 0.5 if width <= 12.7 else 2.52 * math.sqrt(width / 2) / width  # the code seats on half the width
        need = max(counted * row["y"], row["m"] * at(job, "engine.peak_pressure"))
        return (
            "caution" if s["gasket.seating_least"] < need else "ok"
        ), f"least stress {s['gasket.seating_least']:.4g} against {need:.4g}"

    j.put("gasket.seating", seating)


def _plug(job, s, j, x, t):
    p = f"plug.{x}"
    if t.get("fit", "bonded") == "bonded":

        def bond():
            v, why = _pair(s[p + "hold_force"] / s[p + "gas_force"], BOND, BOND, "bond's hold over gas", -1)
            return (v, why) if v == "stop" else ("caution", "only a bond holds a hot plug; " + why)

        j.put(p + "bond", bond)
        j.over(p + "bond", lambda: at(t, "bond_clearance"), 0.1, 0.2, "bond clearance")
        j.under(p + "bond", lambda: at(t, "bond_clearance"), 0.01, 1e-9, "bond clearance")
    else:
        j.put(
            p + "press",
            lambda: _pair(
                s[p + "press_least"] / s[p + "gas_force"], BOND, 1.0, "least hold in the worst state over gas", -1
            ),
        )
        j.put(
            p + "hoop",
            lambda: _pair(s[p + "press_hoop"], 0.5 * _barrel_rm(job), _barrel_rm(job), "hoop stress", 1),  # P
        )
        if t.get("tolerance", "r6")[0] in "km":
            j.put(p + "press", lambda: ("stop", "the fit may be loose"))

    def length():
        q = mo.passage_of(job, t)
        return (
            ("stop", "plug longer than the passage is deep") if at(t, "length") > at(q, "depth") else ("ok", "it fits")
        )

    j.put(p + "length", length)


def _barrel_rm(job):
    row = material(at(job, "barrel.material"))
    rp, rm = strengths(row, at(job, "barrel.deck_depth"))
    return rp or rm


def _ring(job, s, j, x, t):
    p = f"ring.{x}"

    def least():
        row = material(at(t, "material"))
        if "bending" not in row:
            raise Missing(f"bending strength of {row['name']}")
        return row["bending"][0]

    j.put(
        p + "working_stress", lambda: _pair(s[p + "working_stress"], 0.96 * least(), least(), "working stress", 1)
    )  # I
    j.put(
        p + "fitting_stress",
        lambda: _pair(s[p + "fitting_stress"] / least(), *FIT_STRESS, "over the piston, of the least strength", 1),
    )  # D
    j.put(p + "side_clearance", lambda: _pair(s[p + "side_clearance"], SIDE[0], 1e-9, "side clearance", -1))
    j.put(p + "side_clearance", lambda: _pair(s[p + "side_clearance"], SIDE[1] + 1e-9, 0.15, "side clearance", 1))
    j.put(p + "back_clearance", lambda: _pair(s[p + "back_clearance"], BACK, 1e-9, "back clearance", -1))
    j.put(
        p + "closed_gap",
        lambda: _pair(s[p + "closed_gap"] / at(job, "engine.bore"), CLOSED[0], 1e-9, "closed gap over bore", -1),
    )
    j.put(
        p + "closed_gap",
        lambda: _pair(s[p + "closed_gap"] / at(job, "engine.bore"), CLOSED[1], 0.02, "closed gap over bore", 1),
    )
    j.put(p + "hot_gap", lambda: _pair(s[p + "hot_gap"], 0.05, 1e-9, "hot gap", -1))
    j.put(p + "contact_pressure", lambda: _pair(s[p + "contact_pressure"], 0.10, 0.03, "contact pressure", -1))
    j.put(p + "contact_pressure", lambda: _pair(s[p + "contact_pressure"], 0.30, 0.60, "contact pressure", 1))
    j.put(p + "slenderness", lambda: _pair(at(job, "engine.bore") / at(t, "radial_thickness"), 18, 12, "D/a", -1))
    if "mandrel" in job:
        q = f"mandrel.{x}"
        j.put(
            q + "opened_stress",
            lambda: _pair(s[q + "opened_stress"], 0.96 * least(), least(), "stress on the expander", 1),
        )  # I

        def presses():
            ideal = s[p + "pressure_ratio_least"]
            if ideal < 0.5:
                return "caution", f"even perfect, the least pressure is {ideal:.3g} p0"
            return (
                "caution",
                f"the seat must hold {s[q + 'seat_error'] * 1000:.3g} um over 2 to 6 lobes for half of p0; the drawing's limits do not",
            )  # I

        j.put(p + "pressing", presses)
        j.put(p + "heat_set", lambda: _heat(job, t))


def _heat(job, t):
    man = mo.mandrel_of(job, t)
    if man.get("purpose") == "fit check":
        return "ok", "never heated"
    temp = at(t, "heat_set.temperature")
    if "material" in man and family(material(man["material"])) not in ("steel", "iron"):
        return "stop", "the expander's metal doesn't stand the heat"
    if temp > 700 or temp < 400:
        return "stop", f"{temp:g} degC sets nothing or ruins the iron"
    return ("ok", "inside 540 to 620 degC") if 540 <= temp <= 620 else ("caution", f"{temp:g} degC")


def _engine(job, s, j):
    if "engine" not in job:
        return
    cycle = at(job, "engine.cycle", "four-stroke")
    if "gasket" in job or "head" in job:
        j.under("compression.squish", lambda: s["compression.squish"], *SQUISH, "squish")
        low, high = RATIO
        j.under("compression.ratio", lambda: s["compression.ratio_after"], low, 2.2, "ratio after")
        j.over("compression.ratio", lambda: s["compression.ratio_after"], high, 25.0, "ratio after")
        j.over(
            "compression.ratio",
            lambda: s["compression.ratio_after"] - s["compression.ratio_before"],
            *CHANGE,
            "change of the ratio",
        )
        if at(job, "engine.old_chamber_volume", None) is None or at(job, "head.chamber_volume", None) is None:
            j.put(
                "compression.ratio",
                lambda: ("caution", "not judged: a chamber's volume is missing, taken as unchanged"),
            )
    for key, (low, high) in BOUNDS.items():
        v = at(job, key, None)
        if v is not None and not low <= v <= high:
            j.put("input.plausible", lambda: ("caution", f"{key} = {v:g}: unit, decimal point, radius for diameter?"))
    if cycle == "two-stroke":
        j.put("ports", lambda: _ports(job))
    liner = at(job, "barrel.liner", None)
    if liner:
        j.put(
            "liner",
            lambda: _pair(
                (at(job, "barrel.liner.outside") - at(job, "engine.bore")) / 2,
                0.025 * at(job, "engine.bore"),  # P
                0.015 * at(job, "engine.bore"),
                "liner's wall",
                -1,
            ),
        )
    j.put("base", lambda: ("ok", "not given: one quiet line") if "base" not in job else ("caution", "not judged: base"))


def _ports(job):
    ports, bore = at(job, "engine.ports"), at(job, "engine.bore")
    pegs = [at(t, "peg") for _, t in instances(job, "ring")] if "ring" in job else []
    worst = ("ok", "pegs on metal, ports narrow enough")
    for q in ports:
        width = (at(q, "to") - at(q, "from")) % 360
        chord = bore * math.sin(math.radians(min(width, 180)) / 2) - at(q, "bridge", 0.0)
        for peg in pegs:
            off = (peg - q["from"]) % 360
            if off <= width:
                return "stop", f"peg at {peg:g} deg runs over port {q.get('name')}"
            if min(off - width, 360 - off) < 5:
                worst = "caution", f"peg at {peg:g} deg is close to port {q.get('name')}"
        if chord > 0.75 * bore:
            return "stop", f"port {q.get('name')}: {chord:.3g} mm wide"
        if chord > 0.6 * bore:
            worst = "caution", f"port {q.get('name')}: {chord:.3g} mm wide"
    return worst

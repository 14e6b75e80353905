"""Draws valid job files of great variety; the same seed gives the same file."""

import math
import random

# Keys and values that the documents name but do not show in a file: written only with guessed=True.
GUESSED = {
    "relief": ('relief = "undercut"', 'relief = "run-out"'),
    "step": 'step = "{:.2f} mm"',
    "engagement": 'engagement = "{} d"',
    "tolerance": 'tolerance = "{}6"',
    "liner": "[barrel.liner] outside, material",
    "ports": "[[engine.ports]] and ring.peg",
    "land": 'land = "{:.1f} mm"',
    "metals": ("C45 as barrel", "AlSi7Mg0.3 T6 as barrel"),
    "nut_end_length": 'nut_end_length = "{:.1f} mm"',
    "tightened_by": 'tightened_by = "{}"',
    "inch_ends": "nuts and washers of inch threads",
}


def draw(seed, guessed=True, unknown=False):
    return Drawer(seed, guessed, unknown).text()


class Drawer:
    def __init__(self, seed, guessed, unknown):
        self.r, self.guessed, self.unknown = random.Random(seed), guessed, unknown
        self.inch = self.r.random() < 0.25
        self.lines = []

    def chance(self, p):
        return self.r.random() < p

    def q(self, mm, places=2):
        """A length as it would be typed."""
        if self.inch:
            return f'"{mm / 25.4:.{places + 2}f} in"'
        return f'"{mm:.{places}f} mm"'

    def add(self, key, value):
        if self.unknown and self.chance(0.02):
            value = '"unknown"'
        self.lines.append(f"{key} = {value}")

    def maybe(self, key, value, p=0.93):
        if self.chance(p):
            self.add(key, value)

    def table(self, name):
        self.lines += ["", f"[{name}]"]

    def text(self):
        r = self.r
        self.bore = b = round(math.exp(r.uniform(math.log(20), math.log(120))), 2)
        self.two = self.chance(0.4)
        self.barrel = r.choice(["EN-GJL-250", "EN-GJL-200"] + (["AlSi7Mg0.3 T6", "C45"] if self.guessed else []))
        self.parts = {p for p in ("stud", "gasket", "plug", "ring", "mandrel") if self.chance(0.85)}
        if "ring" not in self.parts:
            self.parts.discard("mandrel")
        self.nominal = min((5, 6, 8, 10, 12), key=lambda d: abs(d - (4 + b / 14) * r.uniform(0.8, 1.25)))
        self.tap = self.nominal + r.choice([0, 0, 2 if self.nominal > 6 else 1]) if self.nominal < 12 else 12
        self.tap = {7: 8}.get(self.tap, self.tap)
        self.gap_bore = round(r.uniform(0.4, 1.6), 2)
        major = self.tap + 2
        self.radius = b / 2 + self.gap_bore / 2 + major / 2 + r.uniform(0.15, 1.2) * major
        self.edge = self.radius + major / 2 + r.uniform(0.2, 1.4) * major
        self.hole = self.nominal + r.choice([0.4, 0.5, 1.0, 1.5]) if self.nominal < 12 else 13.0
        self.count = r.choice([3, 4, 4, 4, 5, 6])
        self.plan()
        self.lines = [
            "[job]",
            f'title = "drawn {r.random():.6f}"',
            f'print_units = "{"inch" if self.inch else "metric"}"',
        ]
        for part in (
            self.engine,
            self.barrel_table,
            self.head,
            self.stud,
            self.gasket,
            self.plug,
            self.ring,
            self.lathe,
        ):
            part()
        return "\n".join(self.lines) + "\n"

    def plan(self):
        """The stud holes: their places and how they are typed."""
        r, rad, cos, sin = self.r, self.radius, math.cos, math.sin
        form = r.choice(["circle", "rectangle", "points"])
        if form == "circle":
            first = r.randint(0, 1200) / 10
            self.places = [math.radians(first) + 2 * math.pi * k / self.count for k in range(self.count)]
            self.holes_text = f'{{ circle = {self.q(2 * rad)}, count = {self.count}, first = "{first:.1f} deg" }}'
        elif form == "rectangle":
            self.count, a, turned = 4, math.radians(r.uniform(38, 52)), r.choice([0, 0, 5, -12.5])
            self.places = [b + math.radians(turned) for b in (a, math.pi - a, math.pi + a, -a)]
            self.holes_text = (
                f'{{ rectangle = [{self.q(2 * rad * cos(a))}, {self.q(2 * rad * sin(a))}], turned = "{turned} deg" }}'
            )
        else:
            squeeze = 0.4 if self.chance(0.05) else 1.0
            self.places = [(k + r.uniform(-0.12, 0.12)) * 2 * math.pi / self.count * squeeze for k in range(self.count)]
            self.holes_text = (
                "{ points = ["
                + ", ".join(f"[{self.q(rad * cos(a))}, {self.q(rad * sin(a))}]" for a in self.places)
                + "] }"
            )

    def engine(self):
        r, b = self.r, self.bore
        stroke = b * r.uniform(0.75, 1.3)
        vs = math.pi / 4 * b * b * stroke / 1000
        vc = vs / (r.uniform(5.5, 10) - 1)
        self.vc, self.stroke = vc, stroke
        self.table("engine")
        self.add("cycle", '"two-stroke"' if self.two else '"four-stroke"')
        self.lines.append(f"bore = {self.q(b)}")
        self.add("stroke", self.q(stroke))
        self.maybe("clearance_volume", f'"{vc:.2f} cm^3"')
        self.old_chamber = vc * r.uniform(0.75, 0.9)
        self.maybe("old_chamber_volume", f'"{self.old_chamber:.2f} cm^3"', 0.9)
        p = r.uniform(22, 70)
        self.maybe("peak_pressure", f'"{p:.1f} bar"' if not self.inch else f'"{p * 14.5038:.0f} psi"', 0.96)
        self.maybe("squish", self.q(r.uniform(0.9, 2.2)), 0.9)
        if self.chance(0.9):
            self.table("engine.hot")
            for k, lo, hi in (
                ("stud", 100, 190),
                ("head", 120, 240),
                ("barrel", 110, 210),
                ("ring", 150, 230),
                ("bore_wall", 110, 200),
            ):
                t = r.uniform(lo, hi)
                self.add(k, f'"{t:.0f} degC"' if not self.inch else f'"{t * 1.8 + 32:.0f} degF"')
        if self.chance(0.85):
            self.table("engine.run_up")
            for k, lo, hi in (("stud", 60, 150), ("head", 120, 240), ("barrel", 90, 180)):
                self.add(k, f'"{r.uniform(lo, hi):.0f} degC"')
        if self.two and self.guessed and self.chance(0.6):
            a = r.uniform(0, 300)
            for name, w in (("exhaust", r.uniform(40, 80)), ("transfer", r.uniform(20, 50))):
                self.lines += [
                    "",
                    "[[engine.ports]]",
                    f'name = "{name}"',
                    f'from = "{a:.1f} deg"',
                    f'to = "{a + w:.1f} deg"',
                    f"top = {self.q(stroke * 0.5)}",
                    f"bottom = {self.q(stroke * 0.95)}",
                ]
                a = (a + w + r.uniform(20, 60)) % 300

    def barrel_table(self):
        r, e = self.r, self.edge
        self.table("barrel")
        self.add("material", f'"{self.barrel}"')
        form = r.choice(["circle", "rectangle", "points", "rounded", "lobes"])
        lobe, turns = e - self.radius, sorted(a % (2 * math.pi) for a in self.places)
        widest = max((b - a) % (2 * math.pi) for a, b in zip(turns, turns[1:] + turns[:1]))
        if form == "lobes" and (widest > 3 or self.radius * math.cos(widest / 2) + lobe < self.bore / 2 + 2):
            form = "circle"
        if form == "circle":
            self.add("outline", f"{{ circle = {self.q(2 * e)} }}")
        elif form == "rectangle":
            self.add(
                "outline",
                f"{{ rectangle = [{self.q(2 * e)}, {self.q(2 * e * r.uniform(1, 1.2))}], corner = {self.q(min(8, 0.1 * e))} }}",
            )
        elif form == "lobes":
            pts = ", ".join(
                f"[{self.q(self.radius * math.cos(a))}, {self.q(self.radius * math.sin(a))}, {self.q(lobe)}]"
                for a in turns
            )
            self.add("outline", f"{{ lobes = [{pts}] }}")
        else:
            n = r.choice([6, 8])
            corner = f', "R{self.q(min(8, 0.2 * e))[1:]}' if form == "rounded" else ""
            pts = ", ".join(
                f"[{self.q(e * 1.12 * math.cos(2 * math.pi * k / n))}, {self.q(e * 1.12 * math.sin(2 * math.pi * k / n))}{corner}]"
                for k in range(n)
            )
            self.add("outline", f"{{ points = [{pts}] }}")
        self.depth = self.tap * r.uniform(2.6, 5)
        self.add("deck_depth", self.q(self.depth))
        self.maybe("skim", self.q(r.choice([0.0, 0.05, 0.1, 0.12, 0.25])), 0.7)
        if self.guessed and self.chance(0.25):
            self.table("barrel.liner")
            self.add("outside", self.q(self.bore + 2 * r.uniform(1.5, 4)))
            self.add("material", '"EN-GJL-250"')
        if self.chance(0.75):
            self.table("barrel.old_holes")
            d = self.nominal + r.uniform(0.5, 2)
            c = 2 * max(self.bore / 2 + d / 2 + 1, self.radius * r.uniform(0.88, 1.05))
            self.add(
                "pattern",
                f'{{ circle = {self.q(c)}, count = {r.choice([3, 4, 5])}, first = "{r.uniform(0, 180):.1f} deg" }}',
            )
            self.add("diameter", self.q(d))
            self.maybe("depth", self.q(self.depth * r.uniform(0.5, 0.9)), 0.9)
            self.add("fill", r.choice(['"bronze braze"', '"screwed iron plug"']))
            if self.guessed and self.chance(0.25):
                self.lines.append("pinned = true")
        self.passage = None
        if self.chance(0.7):
            d = round(r.uniform(0.5, 1.1) * self.tap, 2)
            rad = self.bore / 2 + d / 2 + r.uniform(0.4, 1.1) * d + self.gap_bore
            clear = (d + self.tap + 2) / 2 + r.uniform(0.3, 3)
            free = [
                a
                for a in (math.radians(r.uniform(0, 360)) for _ in range(40))
                if all(
                    math.hypot(
                        rad * math.cos(a) - self.radius * math.cos(b), rad * math.sin(a) - self.radius * math.sin(b)
                    )
                    > clear
                    for b in self.places
                )
            ]
            if free and rad + d / 2 + 1 < self.edge:
                a = free[0]
                self.passage = d
                self.passage_depth = self.depth * r.uniform(0.5, 0.9)
                self.lines += [
                    "",
                    "[[barrel.passages]]",
                    'name = "breather"',
                    f"at = [{self.q(rad * math.cos(a))}, {self.q(rad * math.sin(a))}]",
                    f"diameter = {self.q(d)}",
                    f"depth = {self.q(self.passage_depth)}",
                    f"blank = {'true' if 'plug' in self.parts else r.choice(['true', 'false'])}",
                ]

    def head(self):
        r = self.r
        self.table("head")
        self.add("material", r.choice(['"AlSi7Mg0.3 T6"', '"AlSi7Mg0.3 T6"', '"EN-GJL-250"']))
        self.thick = r.uniform(2.5, 7) * self.nominal
        self.add("thickness", self.q(self.thick))
        self.add("boss", self.q(self.nominal * r.uniform(2.2, 3.4)))
        self.add("hole_diameter", self.q(self.hole))
        self.add("holes", self.holes_text)
        inner = self.bore + self.gap_bore
        self.maybe("joint_face", self.q(inner + r.uniform(0.25, 0.95) * (2 * self.radius - self.hole - inner)), 0.8)
        self.maybe("chamber_volume", f'"{self.old_chamber * r.uniform(0.85, 1.12):.2f} cm^3"', 0.9)
        self.maybe("located_by", r.choice(['"spigot"', '"dowels"', '"studs"']), 0.9)

    def ends(self):
        r, n, t = self.r, self.nominal, self.tap
        fine = {
            5: "M5",
            6: "M6",
            8: r.choice(["M8x1.25", "M8", "M8x1"]),
            10: r.choice(["M10x1.5", "M10x1.25", "M10"]),
            12: r.choice(["M12x1.75", "M12x1.5", "M12x1.25"]),
        }
        if self.guessed and self.inch and n in (6, 8, 10):
            i = {6: "1/4", 8: "5/16", 10: "3/8"}[n]
            kind = r.choice(["UNC", "UNF"])
            return self.inch_thread({6: "1/4", 8: "5/16", 10: "3/8", 12: "3/8"}[t], kind), self.inch_thread(i, kind)
        return fine[t], fine[n]

    @staticmethod
    def inch_thread(size, kind):
        return f"{size}-{ {('1/4', 'UNC'): 20, ('1/4', 'UNF'): 28, ('5/16', 'UNC'): 18, ('5/16', 'UNF'): 24, ('3/8', 'UNC'): 16, ('3/8', 'UNF'): 24}[size, kind] } {kind}"

    def stud(self):
        if "stud" not in self.parts:
            return
        r = self.r
        tap, nut = self.ends()
        lists = self.chance(0.2)
        groups = [list(range(1, self.count + 1))]
        if lists:
            k = r.randint(1, self.count - 1)
            groups = [groups[0][:k], groups[0][k:]]
        insert = self.chance(0.65)
        share, shank = r.uniform(0.2, 0.7), self.nominal * r.uniform(0.7, 1.0)
        for i, g in enumerate(groups):
            self.lines += ["", "[[stud]]" if lists else "[stud]"]
            if lists:
                self.lines += [f'name = "{["front", "rear"][i]}"', f"holes = {g}"]
                if i:
                    self.add("head_thickness", self.q(self.thick * r.uniform(0.7, 1.2)))
            self.lines += [f'tap_end = "{tap}"', f'nut_end = "{nut}"']
            self.add("material", '"42CrMo4 +QT"' if self.chance(0.8) or not self.guessed else '"C45 +QT"')
            self.add("shank", self.q(shank))
            self.add("preload_share", f"{share:.2f}")
            if insert:
                self.add(
                    "insert",
                    f'{{ length = "{r.choice([1, 1.5, 1.5, 2])} d", tap = "{r.choice(["bottoming", "plug"])}" }}',
                )
            elif self.guessed:
                self.add("engagement", f'"{r.choice([1, 1.25, 1.5, 2, 2.5])} d"')
            self.maybe("friction", f"{r.uniform(0.1, 0.18):.2f}", 0.8)
            self.maybe(
                "washer",
                '"ISO 7089 300 HV"' if not nut.startswith(("1", "3", "5")) else '"ISO 7089 300 HV"',
                0.0 if "/" in nut else 0.9,
            )
            self.maybe("nut", '"ISO 4032 class 10"', 0.0 if "/" in nut else 0.9)
            if self.guessed:
                self.maybe("relief", r.choice(['"undercut"', '"run-out"']), 0.7)
                self.maybe("step", self.q(r.uniform(0.5, 0.8 * self.tap)), 0.3)
                self.maybe("tightened_by", r.choice(['"torque"', '"angle"', '"stretch"']), 0.3)

    def gasket(self):
        if "gasket" not in self.parts:
            return
        r = self.r
        self.table("gasket")
        self.add("material", '"copper, annealed"')
        self.add("thickness", self.q(r.uniform(0.5, 2)))
        self.maybe("old_thickness", self.q(r.uniform(0.5, 2)), 0.9)
        self.maybe("bore_clearance", self.q(self.gap_bore), 0.9)
        self.maybe("hole_clearance", self.q(r.uniform(0.3, 1)), 0.9)
        bosses = self.guessed and self.chance(0.35)
        self.add("outline", '"bosses"' if bosses else '"deck"')
        if bosses:
            self.add("land", self.q(r.uniform(2, 7)))
        self.maybe("cutter", '"0.2 mm"', 0.2)

    def plug(self):
        if "plug" not in self.parts or not self.passage:
            return
        r = self.r
        self.table("plug")
        self.add("passage", '"breather"')
        self.add("material", '"11SMn30"')
        press = self.guessed and self.chance(0.4)
        self.add("fit", '"press"' if press else '"bonded"')
        if press:
            self.add("tolerance", f'"{r.choice("kmnprs")}6"')
        else:
            self.add("bond_clearance", self.q(r.uniform(0.02, 0.12), 3))
            self.maybe("bond_strength", f'"{r.uniform(2, 20):.1f} MPa"', 0.9)
        self.add("length", self.q(self.passage_depth * r.uniform(0.4, 0.95)))
        self.maybe("stands_proud", '"0.30 mm"', 0.5)

    def ring(self):
        if "ring" not in self.parts:
            return
        r, b = self.r, self.bore
        a = round(b / r.uniform(20, 27), 2)
        h = round(max(1.0, b * r.uniform(0.025, 0.045)), 2)
        lists = self.chance(0.15)
        names = ["top", "second"] if lists else [None]
        for name in names:
            self.lines += ["", "[[ring]]" if lists else "[ring]"]
            if name:
                self.lines.append(f'name = "{name}"')
            self.add("count", str(r.randint(1, 5)))
            self.add("axial_width", self.q(h))
            self.add("radial_thickness", self.q(a))
            self.add("material", '"ring iron, grey"')
            self.maybe("free_gap", self.q(b * r.uniform(0.10, 0.20)), 0.95)
            self.maybe("closed_gap", self.q(b * r.uniform(0.002, 0.006)), 0.95)
            self.maybe("slit", self.q(r.choice([0.3, 0.5, 0.8, 1.0])), 0.95)
            self.maybe(
                "groove",
                f"{{ width = {self.q(h + r.uniform(0.01, 0.12), 3)}, root_diameter = {self.q(b - 2 * a - r.uniform(0.2, 1.8))} }}",
                0.9,
            )
            self.maybe("piston_diameter", self.q(b * 0.998), 0.9)
            self.maybe(
                "heat_set",
                f'{{ temperature = "{r.choice([540, 580, 600, 620, 650])} degC", soak = "1 hour", set_fraction = {r.uniform(0.85, 1):.2f} }}',
                0.95,
            )
            self.maybe("parting_tool", '"2.0 mm"', 0.9)
            self.maybe("facing", '"1.0 mm"', 0.9)
            if self.two and self.guessed:
                self.maybe("peg", f'"{r.uniform(0, 360):.1f} deg"', 0.6)
        if "mandrel" in self.parts:
            form = r.choice(["contoured", "pin", "round"])
            for name in names:
                self.lines += ["", "[[mandrel]]" if lists else "[mandrel]"]
                if name:
                    self.lines.append(f'ring = "{name}"')
                self.add("form", f'"{form}"')
                self.add("rings", str(r.randint(1, 4)))
                self.add("material", '"C45"')
                self.add("purpose", '"heat set"')

    def lathe(self):
        if self.chance(0.9):
            r = self.r
            self.table("lathe")
            self.add("least_depth_of_cut", f'"{r.choice([0.1, 0.25, 0.5])} mm"')
            self.add("feed", f'"{r.choice([0.05, 0.08, 0.12])} mm"')
            self.add("nose_radius", f'"{r.choice([0.2, 0.4])} mm"')
            self.add("taper_limit", f'"{r.choice([0.02, 0.03, 0.05])} mm"')
            self.add("tailstock", r.choice(["true", "true", "false"]))

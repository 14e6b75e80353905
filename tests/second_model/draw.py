"""Draws valid job files of great variety; the same seed gives the same file."""

import math
import random

# What may be left out one by one, and how often; what means nothing without its key is always there.
LEFT_OUT = 0.07


def draw(seed, unknown=False):
    """The job file of a seed; with `unknown` a few values are "unknown" in place of a figure."""
    return Drawer(seed, unknown).text()


class Drawer:
    def __init__(self, seed, unknown):
        self.r, self.unknown = random.Random(seed), unknown
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

    def maybe(self, key, value, p=1 - LEFT_OUT):
        if self.chance(p):
            self.add(key, value)

    def table(self, name, of_many=False):
        self.lines += ["", f"[[{name}]]" if of_many else f"[{name}]"]

    def text(self):
        r = self.r
        self.bore = b = round(math.exp(r.uniform(math.log(20), math.log(120))), 2)
        self.two = self.chance(0.4)
        self.barrel = r.choice(["EN-GJL-250", "EN-GJL-250", "EN-GJL-200", "AlSi7Mg0.3 T6", "AlSi7Mg0.3 T6", "C45"])
        self.parts = {p for p in ("stud", "gasket", "plug", "ring", "mandrel") if self.chance(0.85)}
        if "ring" not in self.parts:
            self.parts.discard("mandrel")
        if "stud" not in self.parts:
            self.parts.discard("gasket")
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
        r, rad = self.r, self.radius
        form = r.choice(["circle", "rectangle", "points", "two studs"])
        if form == "two studs":
            a = math.radians(r.uniform(0, 180))
            off = r.choice([0.0, 0.0, 0.002, 0.05, -0.3])
            self.count, self.places = 2, [a, a + math.pi + off]
            self.write_points()
        elif form == "circle":
            first = r.randint(0, 1200) / 10
            self.places = [math.radians(first) + 2 * math.pi * k / self.count for k in range(self.count)]
            self.holes_text = f'{{ circle = {self.q(2 * rad)}, count = {self.count}, first = "{first:.1f} deg" }}'
        elif form == "rectangle":
            self.count, a, turned = 4, math.radians(r.uniform(38, 52)), r.choice([0, 0, 5, -12.5])
            self.places = [b + math.radians(turned) for b in (a, math.pi - a, math.pi + a, -a)]
            self.holes_text = (
                f'{{ rectangle = [{", ".join(self.q(2 * side) for side in self.place(a))}], turned = "{turned} deg" }}'
            )
        else:
            squeeze = 0.4 if self.chance(0.05) else 1.0
            self.places = [(k + r.uniform(-0.12, 0.12)) * 2 * math.pi / self.count * squeeze for k in range(self.count)]
            self.write_points()

    def write_points(self):
        points = ", ".join(f"[{', '.join(map(self.q, self.place(a)))}]" for a in self.places)
        self.holes_text = f"{{ points = [{points}] }}"

    def place(self, angle):
        return self.radius * math.cos(angle), self.radius * math.sin(angle)

    def engine(self):
        r, b = self.r, self.bore
        stroke = b * r.uniform(0.75, 1.3)
        vs = math.pi / 4 * b * b * stroke / 1000
        vc = vs / (r.uniform(5.5, 10) - 1)
        self.vc, self.stroke = vc, stroke
        self.table("engine")
        self.add("cycle", '"two-stroke"' if self.two else '"four-stroke"')
        self.lines.append(f"bore = {self.q(b)}")
        self.maybe("stroke", self.q(stroke))
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
        if self.two and self.chance(0.7):
            a = r.uniform(-60, 120)
            for name, w in (("exhaust", r.uniform(40, 80)), ("transfer", r.uniform(20, 50))):
                self.lines += [
                    "",
                    "[[engine.ports]]",
                    f'name = "{name}"',
                    f'from = "{a:.1f} deg"',
                    f'to = "{a + w:.1f} deg"',
                    f"top = {self.q(stroke * r.uniform(0.45, 0.7))}",
                    f"bottom = {self.q(stroke * r.uniform(0.9, 1))}",
                    *([f"bridge = {self.q(r.uniform(2, 5))}"] if self.chance(0.4) else []),
                ]
                a += w + r.uniform(20, 60)

    def barrel_table(self):
        r, e = self.r, self.edge
        self.table("barrel")
        self.add("material", f'"{self.barrel}"')
        form = r.choice(["circle", "rectangle", "points", None if self.chance(0.2) else "circle"])
        if form == "circle":
            self.add("outline", f"{{ circle = {self.q(2 * e)} }}")
        elif form == "rectangle":
            sides, corner = f"{self.q(2 * e)}, {self.q(2 * e * r.uniform(1, 1.2))}", self.q(min(8, 0.1 * e))
            self.add("outline", f"{{ rectangle = [{sides}], corner = {corner} }}")
        elif form == "points":
            turns = [2 * math.pi * k / n for n in [r.choice([6, 8])] for k in range(n)]
            pts = ", ".join(f"[{self.q(e * 1.12 * math.cos(a))}, {self.q(e * 1.12 * math.sin(a))}]" for a in turns)
            self.add("outline", f"{{ points = [{pts}] }}")
        self.depth = self.tap * r.uniform(2.6, 5)
        self.maybe("deck_depth", self.q(self.depth))
        self.maybe("skim", self.q(r.choice([0.0, 0.05, 0.1, 0.12, 0.25])), 0.7)
        if self.chance(0.6 if self.barrel.startswith("Al") else 0.15):
            self.table("barrel.liner")
            self.add("outside", self.q(self.bore + 2 * r.uniform(1.0, 4)))
            self.maybe("material", r.choice(['"EN-GJL-250"', '"EN-GJL-250"', '"C45"']))
            self.maybe("interference", self.q(r.uniform(0.0, 0.003) * self.bore, 3), 0.6)
        if self.chance(0.75):
            lists = self.chance(0.2)
            for _ in range(1 + lists):
                self.old_holes(lists)
        self.passages = []
        for name in ("breather", "oil way"):
            if self.chance(0.6):
                self.passage(name)

    def old_holes(self, lists):
        r = self.r
        self.table("barrel.old_holes", lists)
        d = self.nominal + r.uniform(0.5, 2)
        c = 2 * max(self.bore / 2 + d / 2 + r.uniform(0.5, 4), self.radius * r.uniform(0.88, 1.05))
        first = f"{r.uniform(0, 180):.1f} deg"
        self.add("pattern", f'{{ circle = {self.q(c)}, count = {r.choice([1, 2, 3, 4, 5])}, first = "{first}" }}')
        self.add("diameter", self.q(d))
        self.maybe("depth", self.q(self.depth * r.uniform(0.5, 0.9)), 0.9)
        self.maybe("fill", r.choice(['"bronze braze"', '"screwed iron plug"']), 0.9)
        if self.chance(0.25):
            self.lines.append("pinned = true")

    def passage(self, name):
        r, d = self.r, round(self.r.uniform(0.5, 1.1) * self.tap, 2)
        rad = self.bore / 2 + d / 2 + r.uniform(0.4, 1.1) * d + self.gap_bore
        there = [(*self.place(a), self.tap + 2) for a in self.places] + [(*p[1:3], p[3]) for p in self.passages]
        for a in (math.radians(r.uniform(0, 360)) for _ in range(40)):
            x, y = rad * math.cos(a), rad * math.sin(a)
            clear = r.uniform(0.3, 3)
            if rad + d / 2 + 1 < self.edge and all(math.hypot(x - u, y - v) > (d + w) / 2 + clear for u, v, w in there):
                break
        else:
            return
        depth, blank = self.depth * r.uniform(0.5, 0.9), self.chance(0.7)
        self.passages.append((name, x, y, d, depth, blank))
        self.table("barrel.passages", of_many=True)
        self.add("name", f'"{name}"')
        self.add("at", f"[{self.q(x)}, {self.q(y)}]")
        self.add("diameter", self.q(d))
        self.maybe("depth", self.q(depth))
        self.add("blank", "true" if blank else "false")

    def head(self):
        r = self.r
        self.table("head")
        self.maybe("material", r.choice(['"AlSi7Mg0.3 T6"', '"AlSi7Mg0.3 T6"', '"EN-GJL-250"']))
        self.thick = r.uniform(2.5, 7) * self.nominal
        self.maybe("thickness", self.q(self.thick))
        self.maybe("boss", self.q(self.nominal * r.uniform(2.2, 3.4)))
        self.maybe("hole_diameter", self.q(self.hole))
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
        if self.inch and n in (6, 8, 10) and self.chance(0.8):
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
        share, shank = r.uniform(0.2, 0.7), self.nominal * r.uniform(0.65, 1.0)
        inch = "/" in nut
        for i, g in enumerate(groups):
            self.table("stud", lists)
            if lists:
                self.lines += [f'name = "{["front", "rear"][i]}"', f"holes = {g}"]
                if i:
                    self.add("head_thickness", self.q(self.thick * r.uniform(0.7, 1.2)))
            self.lines += [f'tap_end = "{tap}"', f'nut_end = "{nut}"']
            self.maybe("material", r.choice(['"42CrMo4 +QT"'] * 6 + ['"C45 +QT"', '"8.8"', '"10.9"']))
            self.maybe("shank", self.q(shank))
            self.maybe("preload_share", f"{share:.2f}")
            if insert:
                length, by = r.choice([1, 1.5, 1.5, 2]), r.choice(["bottoming", "plug"])
                self.add("insert", f'{{ length = "{length} d", tap = "{by}" }}')
            else:
                self.maybe("engagement", f'"{r.choice([1, 1.25, 1.5, 2, 2.5])} d"')
            self.maybe("friction", f"{r.uniform(0.1, 0.18):.2f}", 0.8)
            self.maybe("washer", '"ISO 7089 300 HV"', 0.0 if inch else 0.9)
            self.maybe("nut", '"ISO 4032 class 10"', 0.0 if inch else 0.9)
            self.maybe("thread_relief", r.choice(['"undercut"', '"run-out"']), 0.7)
            self.maybe("step_depth", self.q(r.choice([0.0, r.uniform(0.3, 2), r.uniform(0.5, 0.8 * self.tap)])), 0.4)
            self.maybe("nut_end_length", f'"{r.uniform(2, 3.2):.2f} d"', 0.3)
            self.maybe("tightened_by", r.choice(['"torque"', '"angle"', '"stretch"']), 0.4)
            self.maybe("held_by", r.choice(['"compound"', '"interference"', '"bottomed"', '"compound"']), 0.7)

    def gasket(self):
        if "gasket" not in self.parts:
            return
        r = self.r
        self.table("gasket")
        self.maybe("material", '"copper, annealed"')
        self.add("thickness", self.q(r.uniform(0.5, 2)))
        self.maybe("old_thickness", self.q(r.uniform(0.5, 2)), 0.9)
        self.maybe("bore_clearance", self.q(self.gap_bore), 0.9)
        self.maybe("hole_clearance", self.q(r.uniform(0.3, 1)), 0.9)
        bosses = self.chance(0.35)
        self.add("outline", '"bosses"' if bosses else '"deck"')
        if bosses:
            self.add("land", self.q(r.uniform(2, 7)))
        self.maybe("cutter", '"0.2 mm"', 0.2)

    def plug(self):
        blind = [p for p in self.passages if p[5]]
        if "plug" not in self.parts or not blind:
            return
        lists = len(blind) > 1
        for name, *_, depth, _ in blind:
            self.one_plug(name, depth, lists)

    def one_plug(self, name, depth, lists):
        r = self.r
        self.table("plug", lists)
        self.add("passage", f'"{name}"')
        self.maybe("material", r.choice(['"11SMn30"'] * 3 + ['"EN-GJL-250"', '"CuZn39Pb3"', '"AlSi7Mg0.3 T6"']))
        press = self.chance(0.4)
        self.add("fit", '"press"' if press else '"bonded"')
        if press:
            self.add("tolerance", f'"{r.choice("kmnprs")}6"')
        else:
            self.maybe("bond_clearance", self.q(r.uniform(0.02, 0.12), 3))
            self.maybe("bond_strength", f'"{r.uniform(2, 20):.1f} MPa"', 0.9)
        self.add("length", self.q(depth * r.uniform(0.4, 0.95)))
        self.maybe("stands_proud", '"0.30 mm"', 0.5)

    def ring(self):
        if "ring" not in self.parts:
            return
        r, b = self.r, self.bore
        a = round(b / r.uniform(20, 27), 2)
        h = round(max(1.0, b * r.uniform(0.025, 0.045)), 2)
        lists = self.chance(0.2)
        names = ["top", "second"] if lists else [None]
        for name in names:
            self.table("ring", lists)
            if name:
                self.lines.append(f'name = "{name}"')
            self.maybe("count", str(r.randint(1, 5)))
            self.add("axial_width", self.q(h, 3))
            self.add("radial_thickness", self.q(a))
            self.add("material", '"ring iron, grey"')
            self.add("free_gap", self.q(b * r.uniform(0.10, 0.20)))
            self.add("closed_gap", self.q(b * r.uniform(0.002, 0.006), 3))
            self.add("slit", self.q(r.choice([0.3, 0.5, 0.8, 1.0])))
            width, root = self.q(h + r.uniform(0.01, 0.12), 3), self.q(b - 2 * a - r.uniform(0.2, 1.8))
            self.maybe("groove", f"{{ width = {width}, root_diameter = {root} }}", 1.0 if lists else 0.9)
            self.maybe("piston_diameter", self.q(b * 0.998), 0.9)
            heat, share = r.choice([450, 540, 580, 600, 620, 650, 720]), r.uniform(0.85, 1)
            self.maybe(
                "heat_set", f'{{ temperature = "{heat} degC", soak = "1 hour", set_fraction = {share:.2f} }}', 0.95
            )
            self.maybe("parting_tool", '"2.0 mm"', 0.9)
            self.maybe("facing", '"1.0 mm"', 0.9)
            if self.two:
                self.maybe("peg", f'"{r.uniform(0, 360):.1f} deg"', 0.6)
        if "mandrel" in self.parts:
            form = r.choice(["contoured", "pin", "round"])
            for name in names:
                self.table("mandrel", lists)
                if name:
                    self.lines.append(f'ring = "{name}"')
                self.add("form", f'"{form}"')
                self.maybe("rings", str(r.randint(1, 4)))
                self.maybe("material", r.choice(['"C45"'] * 5 + ['"EN-GJL-250"', '"AlSi7Mg0.3 T6"', '"CuZn39Pb3"']))
                self.maybe("seat_within", self.q(r.choice([0.002, 0.005, 0.01, 0.03]), 4), 0.5)
                self.maybe("purpose", r.choice(['"heat set"'] * 4 + ['"fit check"']))

    def lathe(self):
        if self.chance(0.9):
            r = self.r
            self.table("lathe")
            self.add("least_depth_of_cut", f'"{r.choice([0.1, 0.25, 0.5])} mm"')
            self.add("feed", f'"{r.choice([0.05, 0.08, 0.12])} mm"')
            self.add("nose_radius", f'"{r.choice([0.2, 0.4])} mm"')
            self.add("taper_limit", f'"{r.choice([0.02, 0.03, 0.05])} mm"')
            self.add("tailstock", r.choice(["true", "true", "false"]))

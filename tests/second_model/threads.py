"""Threads of six families: basic sizes, limits of the medium class, areas, wires, strip areas."""

import math
import re
from dataclasses import dataclass
from .quantities import INCH, Missing
from .choices import OPT

COARSE = {
    1: 0.25,
    2: 0.4,
    2.5: 0.45,
    3: 0.5,
    4: 0.7,
    5: 0.8,
    6: 1,
    7: 1,
    8: 1.25,
    10: 1.5,
    12: 1.75,
    14: 2,
    16: 2,
    18: 2.5,
    20: 2.5,
}
# P: es(g), Td(6), TD1(6), TD1(5) in um; ISO 965-1 as the reference prints, TD1(5) as its insert table prints
# (0.5, 0.7, 0.75 and 2 from memory)
ISO = {
    0.5: (20, 106, 140, 112),
    0.7: (22, 140, 180, 140),
    0.75: (22, 140, 190, 150),
    0.8: (24, 150, 200, 160),
    1: (26, 180, 236, 190),
    1.25: (28, 212, 265, 212),
    1.5: (32, 236, 300, 236),
    1.75: (34, 265, 335, 265),
    2: (38, 280, 375, 300),
}
ISO_PITCH = {
    (0, 0.5): (75, 100),
    (0, 0.7): (90, 118),
    (0, 0.8): (95, 125),
    (1, 0.75): (100, 132),
    (1, 1): (112, 150),
    (1, 1.25): (118, 160),
    (1, 1.5): (132, 180),
    (2, 1): (118, 160),
    (2, 1.25): (132, 180),
    (2, 1.5): (140, 190),
    (2, 1.75): (150, 200),
    (2, 2): (160, 212),
}
BA = [
    (6, 1),
    (5.3, 0.9),
    (4.7, 0.81),
    (4.1, 0.73),
    (3.6, 0.66),
    (3.2, 0.59),
    (2.8, 0.53),
    (2.5, 0.48),
    (2.2, 0.43),
    (1.9, 0.39),
    (1.7, 0.35),
]
BSW = {"3/16": 24, "1/4": 20, "5/16": 18, "3/8": 16, "7/16": 14, "1/2": 12}
BSF = {"3/16": 32, "7/32": 28, "1/4": 26, "9/32": 26, "5/16": 22, "3/8": 20, "7/16": 18, "1/2": 16}
DEPTH = {"BSW": 0.640327, "BSF": 0.640327, "BA": 0.6, "BSC": 0.5327}  # depth of thread over P
HALF = {"BSW": 27.5, "BSF": 27.5, "BA": 23.75}
R3 = math.sqrt(3)


@dataclass(frozen=True)
class Thread:
    family: str
    d: float
    p: float
    left: bool = False

    @property
    def half(self):
        return math.radians(HALF.get(self.family, 30))

    @property
    def sixty(self):
        return self.family in ("M", "UNC", "UNF", "UNEF", "UN")

    @property
    def d2(self):
        return self.d - (3 * R3 / 8 * self.p if self.sixty else DEPTH[self.family] * self.p)

    @property
    def d1(self):
        """Basic minor diameter of the nut thread."""
        return self.d - (5 * R3 / 8 * self.p if self.sixty else 2 * DEPTH[self.family] * self.p)

    @property
    def d3(self):
        """Core of the bolt thread."""
        return self.d - (17 * R3 / 24 * self.p if self.sixty else 2 * DEPTH[self.family] * self.p)

    @property
    def depth(self):
        return (self.d - self.d3) / 2

    @property
    def sunk(self):
        """Countersink of 90 degrees from the hole's minor to its major diameter."""
        return (self.d - self.d1) / 2

    @property
    def stress_area(self):
        if self.family in ("UNC", "UNF", "UNEF", "UN"):
            k = 0.7854 if OPT["unified_area"] == "printed" else math.pi / 4
            return k * (self.d - (0.9743 if OPT["unified_area"] != "exact" else 9 * R3 / 16) * self.p) ** 2
        return math.pi / 4 * ((self.d2 + self.d3) / 2) ** 2

    @property
    def core_area(self):
        return math.pi / 4 * self.d3**2

    def external(self):
        """(major max, major min, pitch max, pitch min) of the medium class."""
        d, p, d2 = self.d, self.p, self.d2
        if self.family == "M":
            es, td, td2 = (x / 1000 for x in (*iso_row(p)[:2], iso_pitch(d, p)[0]))
            return d - es, d - es - td, d2 - es, d2 - es - td2
        if self.sixty:
            n_d, n_p = d / INCH, p / INCH
            td2 = unified_td2(n_d, n_p, self.family) * INCH
            return d - 0.3 * td2, d - 0.3 * td2 - 0.06 * n_p ** (2 / 3) * INCH, d2 - 0.3 * td2, d2 - 1.3 * td2
        if self.family in ("BSW", "BSF"):  # BS 84 medium class, from memory
            n_d, n_p = d / INCH, p / INCH
            t = 0.002 * n_d ** (1 / 3) + 0.003 * n_d**0.5 + 0.005 * n_p**0.5
            a = 0.3 * t
            return tuple(INCH * x for x in (n_d - a, n_d - a - t - 0.01 * n_p**0.5, d2 / INCH - a, d2 / INCH - a - t))
        if self.family == "BA":  # BS 93 normal class, from memory
            return d - 0.025, d - 0.025 - 0.2 * p, d2 - 0.025, d2 - 0.025 - 0.1 * p - 0.025
        raise Missing(f"limits of {self.family}: no table")

    def internal(self):
        """(minor min, minor max, pitch min, pitch max) of the medium nut class."""
        d, p, d2, d1 = self.d, self.p, self.d2, self.d1
        if self.family == "M":
            return d1, d1 + iso_row(p)[2] / 1000, d2, d2 + iso_pitch(d, p)[1] / 1000
        if self.sixty:
            n_d, n_p = d / INCH, p / INCH
            td1 = 0.25 * n_p - 0.4 * n_p**2 if n_d >= 0.25 else 0.05 * n_p ** (2 / 3) + 0.03 * n_p / n_d - 0.002
            return d1, d1 + td1 * INCH, d2, d2 + 1.3 * unified_td2(n_d, n_p, self.family) * INCH
        n = INCH / p
        loose = (
            0.375 * p
            if self.family == "BA"
            else (0.2 * p / INCH + (0.004 if n >= 26 else 0.005 if n >= 22 else 0.007)) * INCH
        )
        t = (
            0.12 * p + 0.03
            if self.family == "BA"
            else 0.002 * INCH * (d / INCH) ** (1 / 3)
            + 0.003 * INCH * (d / INCH) ** 0.5
            + 0.005 * INCH * (p / INCH) ** 0.5
        )
        return d1, d1 + loose, d2, d2 + t

    def over_wires(self, pitch_diameter):
        """Size over three wires of the best diameter, without the lead's correction."""
        a = self.half
        w = self.p / 2 / math.cos(a)
        return pitch_diameter + w * (1 + 1 / math.sin(a)) - self.p / 2 / math.tan(a)

    def strip_area_external(self, le, d1max, d2min):
        """FED-STD-H28/2: shear area of the bolt thread over le."""
        return math.pi * le * d1max * (self.p / 2 + math.tan(self.half) * (d2min - d1max)) / self.p

    def strip_area_internal(self, le, dmin, d2max):
        return math.pi * le * dmin * (self.p / 2 + math.tan(self.half) * (dmin - d2max)) / self.p

    # the hole for a wire thread insert: one wire (1.5 H) larger
    def sti(self):
        """(major, pitch, minor) minima and the minor's maximum (grade 5, or 2B where inch)."""
        h = R3 / 2 * self.p if self.sixty else {"BSW": 0.960491, "BSF": 0.960491}.get(self.family, 0) * self.p
        if not h:
            raise Missing(f"insert for {self.family}")
        if not self.sixty:
            raise Missing("insert hole of a Whitworth thread: not in the documents")
        tol = iso_row(self.p)[3] / 1000 if self.family == "M" else self.internal()[1] - self.d1
        return self.d + 1.5 * h, self.d + 0.75 * h, self.d + 0.25 * h, self.d + 0.25 * h + tol


def iso_row(p):
    if p in ISO:
        return ISO[p]
    es, td = 15 + 11 * p, 180 * p ** (2 / 3) - 3.15 / p**0.5
    t1 = 230 * p**0.7 if p >= 1 else 433 * p - 190 * p**1.22
    return es, td, t1, 0.8 * t1


def iso_pitch(d, p):
    step = 0 if d <= 5.6 else 1 if d <= 11.2 else 2
    if (step, p) in ISO_PITCH:
        return ISO_PITCH[step, p]
    mean = ((2.8 * 5.6) ** 0.5, (5.6 * 11.2) ** 0.5, (11.2 * 22.4) ** 0.5)[step]
    t = 90 * p**0.4 * mean**0.1
    return t, 1.32 * t


def unified_td2(d, p, family):
    le = 9 * p if family in ("UNEF", "UN") else d
    return 0.0015 * (d ** (1 / 3) + le**0.5 + 10 * p ** (2 / 3))


def thread(text):
    t = text.strip()
    left = t.endswith("LH")
    t = t.removesuffix("LH").strip()
    if m := re.fullmatch(r"M(\d+(?:\.\d+)?)(?:[x×](\d+(?:\.\d+)?))?", t):
        d = float(m[1])
        return Thread("M", d, float(m[2]) if m[2] else COARSE[d], left)
    if m := re.fullmatch(r"(\d+) BA", t):
        return Thread("BA", *BA[int(m[1])], left)
    if m := re.fullmatch(r"((?:\d+ )?\d+/\d+)(?:-(\d+))? (UNC|UNF|UNEF|UN|BSW|BSF|BSC)", t):
        whole, _, frac = m[1].rpartition(" ")
        d = (int(whole or 0) + int(frac.split("/")[0]) / int(frac.split("/")[1])) * INCH
        n = int(m[2] or {"BSW": BSW, "BSF": BSF}.get(m[3], {}).get(m[1], 0) or (26 if m[3] == "BSC" else 0))
        if n:
            return Thread(m[3], d, INCH / n, left)
    raise Missing(f"thread {text!r}")

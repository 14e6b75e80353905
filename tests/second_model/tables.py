"""Tables: materials, casting strength by section, hot strengths, nuts, washers, drills, fits, undercuts."""

from .quantities import INCH, Missing

# E [MPa], nu, alpha [1/K], family; strengths as (largest diameter, Rp0.2, Rm) in order.
# Where the reference prints a range the middle is taken (choice `materials`).
MATERIALS = {
    "EN-GJL-200": dict(
        E=100500,
        nu=0.26,
        alpha=11.7e-6,
        family="iron",
        wall=((5, 205), (10, 180), (20, 155), (40, 130), (80, 115)),
        **{"yield": 130},
    ),
    "EN-GJL-250": dict(
        E=110500,
        nu=0.26,
        alpha=11.7e-6,
        family="iron",
        wall=((5, 250), (10, 225), (20, 195), (40, 170), (80, 155)),
        **{"yield": 165, "bearing": 850},
    ),
    "ring iron, grey": dict(E=100000, nu=0.26, alpha=11e-6, family="iron", bending=(300, 350)),
    "AlSi7Mg0.3 T6": dict(E=73500, nu=0.33, alpha=21.75e-6, family="aluminium", steps=((999, 190, 230),)),
    "C45": dict(E=210000, nu=0.3, alpha=11.3e-6, family="steel", steps=((16, 340, 620), (100, 305, 580))),
    "C45 +N": dict(E=210000, nu=0.3, alpha=11.3e-6, family="steel", steps=((16, 340, 620), (100, 305, 580))),
    "C45 +QT": dict(E=210000, nu=0.3, alpha=11.3e-6, family="steel", steps=((16, 490, 700), (40, 430, 650))),
    "42CrMo4 +QT": dict(E=210000, nu=0.3, alpha=11.7e-6, family="steel", steps=((16, 900, 1100), (40, 750, 1000))),
    **{c: dict(E=205000, nu=0.3, alpha=11.5e-6, family="steel") for c in ("5.8", "8.8", "10.9", "12.9")},
    "11SMn30": dict(E=210000, nu=0.3, alpha=11.5e-6, family="steel", steps=((16, 410, 490), (40, 375, 460))),
    "CuZn39Pb3": dict(E=97000, nu=0.34, alpha=21.15e-6, family="brass", steps=((999, 250, 430),)),
    "copper, annealed": dict(
        E=116000, nu=0.34, alpha=17.1e-6, family="copper", steps=((999, 70, 220),), y=90.0, m=4.75
    ),
}
KIENZLE = {
    "8.8": (2220, 0.14),
    "10.9": (2500, 0.26),
    "C45": (2220, 0.14),
    "42CrMo4": (2500, 0.26),
    "11SMn30": (1200, 0.18),
    "EN-GJL-250": (1160, 0.26),
    "EN-GJL-200": (1020, 0.25),
    "CuZn39Pb3": (780, 0.18),
    "AlSi7Mg0.3": (660, 0.25),
}
CLASSES = {"5.8": (380, 520), "8.8": (580, 800), "10.9": (830, 1040), "12.9": (970, 1220)}  # Sp, Rm (d <= 16)
# shares of the cold strength that are left, by temperature; short and long exposure
STEEL_HOT = (
    (20, 1.0),
    (100, 0.922),
    (200, 0.840),
    (250, 0.795),
    (300, 0.75),
)  # ISO 898-1 annex, memory, the lower classes
STEEL_TENSILE = ((20, 1.0), (100, 0.92), (300, 0.9), (400, 0.7))  # P, textbooks
# 356-T6 after 10 000 h at heat, handbook values less 10 % for tensile strength, as the product publishes them; the
# requirements give a half at 170
ALU_TENSILE = ((20, 1), (100, 0.85), (150, 0.63), (170, 0.5), (204, 0.33), (260, 0.2), (316, 0.1), (400, 0.04))
ALU_YIELD = ((20, 1), (100, 0.98), (150, 0.82), (204, 0.36), (260, 0.19), (316, 0.1), (400, 0.04))
COPPER_HOT = ((20, 1.0), (100, 0.9), (200, 0.75), (300, 0.55))  # memory
IRON_HOT = ((20, 1.0), (300, 1.0), (400, 0.8))  # memory
# nominal: m max, m min, dw min (ISO 4032; inch nuts from memory)
NUTS = {
    5: (4.7, 4.4, 6.9),
    6: (5.2, 4.9, 8.9),
    8: (6.8, 6.44, 11.6),
    10: (8.4, 8.04, 14.6),
    12: (10.8, 10.37, 16.6),
    14: (12.8, 12.1, 19.6),
    16: (14.8, 14.1, 22.5),
}
NUTS_INCH = {0.25: (0.226, 0.212, 0.41), 0.3125: (0.273, 0.258, 0.47), 0.375: (0.337, 0.320, 0.53)}
WASHERS = {
    5: (5.3, 10, 1),
    6: (6.4, 12, 1.6),
    8: (8.4, 16, 1.6),
    10: (10.5, 20, 2),
    12: (13, 24, 2.5),
    14: (15, 28, 2.5),
    16: (17, 30, 3),
}
WASHERS_INCH = {0.25: (0.281, 0.625, 0.065), 0.3125: (0.344, 0.688, 0.065), 0.375: (0.406, 0.812, 0.065)}
# drills of the insert table, smallest first
DRILLS = {
    ("M", 5, 0.8): 5.2,
    ("M", 6, 1): 6.25,
    ("M", 8, 1.25): 8.3,
    ("M", 8, 1): 8.3,
    ("M", 10, 1.5): 10.4,
    ("M", 10, 1.25): 10.4,
    ("M", 12, 1.75): 12.4,
    ("M", 12, 1.5): 12.4,
    ("M", 12, 1.25): 12.3,
    ("UNC", 6.35, 20): INCH * 17 / 64,
    ("UNF", 6.35, 28): INCH * 0.261,
    ("UNC", 7.9375, 18): INCH * 21 / 64,
    ("UNF", 7.9375, 24): INCH * 21 / 64,
    ("UNC", 9.525, 16): INCH * 25 / 64,
    ("UNF", 9.525, 24): INCH * 0.386,
}
TAP_DRILLS = {
    (5, 0.8): 4.2,
    (6, 1): 5,
    (8, 1.25): 6.8,
    (8, 1): 7,
    (10, 1.5): 8.5,
    (10, 1.25): 8.8,
    (10, 1): 9,
    (12, 1.75): 10.2,
    (12, 1.5): 10.5,
    (12, 1.25): 10.8,
    (14, 2): 12,
    (14, 1.5): 12.5,
    (16, 2): 14,
    (16, 1.5): 14.5,
}
UNDERCUT = ((0.8, 1.3), (1, 1.6), (1.25, 2.0), (1.5, 2.3), (1.75, 2.6), (2, 3.0))  # P: d - dg, DIN 76-1
FIT_EI = {
    3: dict(k=0, m=2, n=4, p=6, r=10, s=14),
    6: dict(k=1, m=4, n=8, p=12, r=15, s=19),
    10: dict(k=1, m=6, n=10, p=15, r=19, s=23),
    18: dict(k=1, m=7, n=12, p=18, r=23, s=28),
    30: dict(k=2, m=8, n=15, p=22, r=28, s=35),
    50: dict(k=2, m=9, n=17, p=26, r=34, s=43),
}
IT6 = {3: 6, 6: 8, 10: 9, 18: 11, 30: 13, 50: 16}


def lin(table, x):
    """Linear between the rows, held at the ends."""
    if x <= table[0][0]:
        return table[0][1]
    for (x0, y0), (x1, y1) in zip(table, table[1:]):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return table[-1][1]


def material(entry):
    """A row of MATERIALS for a name or an inline table of the user's own values."""
    if isinstance(entry, str):
        if entry not in MATERIALS:
            raise Missing(f"material {entry!r}")
        return dict(MATERIALS[entry], name=entry)
    row = dict(MATERIALS.get(entry.get("name"), {}), name=entry.get("name", "own"))
    for key, mine in (("modulus", "E"), ("expansion", "alpha"), ("poisson", "nu")):
        if key in entry:
            row[mine] = entry[key]
    return row


def get(row, key):
    if key not in row:
        raise Missing(f"{key} of {row['name']}")
    return row[key]


def strengths(row, d):
    """(Rp0.2, Rm) at a diameter or a section's thickness."""
    if "wall" in row:
        return 0.0, lin(row["wall"], d)
    for top, rp, rm in get(row, "steps"):
        if d <= top:
            return rp, rm
    return row["steps"][-1][1:]


def family(row):
    """The family, or the weakest it could be (aluminium) where it is not known."""
    return row.get("family", "aluminium")


def hot_share(row, t, what="tensile"):
    """Share of the cold strength left at t, for good."""
    steel = STEEL_HOT if what == "yield" else STEEL_TENSILE
    tables = {"steel": steel, "aluminium": ALU_YIELD if what == "yield" else ALU_TENSILE, "iron": IRON_HOT}
    return lin(tables.get(family(row), COPPER_HOT), t)


def nut(d):
    if d in NUTS:
        return NUTS[d]
    if round(d / INCH, 4) in NUTS_INCH:
        return tuple(INCH * x for x in NUTS_INCH[round(d / INCH, 4)])
    raise Missing(f"nut for {d:g} mm")


def washer(entry, d):
    """(bore, outside, thickness)."""
    if isinstance(entry, dict):
        return tuple(float(entry[k]) for k in ("bore", "outside", "thickness"))
    if d in WASHERS:
        return WASHERS[d]
    if round(d / INCH, 4) in WASHERS_INCH:
        return tuple(INCH * x for x in WASHERS_INCH[round(d / INCH, 4)])
    raise Missing(f"washer for {d:g} mm")


def fit(d, letter):
    """(ei, es) [mm] of a shaft letter in grade 6."""
    step = next(s for s in sorted(IT6) if d <= s)
    return FIT_EI[step][letter] / 1000, (FIT_EI[step][letter] + IT6[step]) / 1000

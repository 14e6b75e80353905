"""Wrong job files: each is told what is wrong, by key, line, rule, value and a right example, and nothing is written.

A case is a change to the worked job (pairs of what stands there and what comes in its place) or a text of its own, and
what must be told: key, a piece of the line it stands on (None for a fault of the file as a whole), sentence. A sentence
that ends in ... is compared up to there.
"""

import json
from pathlib import Path

import pytest

from cli.main import app
from cli.say import guarded
from parts.checked import check
from parts.errors import JobError
from parts.job import TABLES, load

BORE = 'bore = "57.20 mm"'
NUMBER = 'wants one number and a unit, like "57.20 mm", not '
THREAD = '"M10x1.5", "1/4-20 UNC", "5/16 BSW", "2 BA" or "5/16-26 BSC"'
INSERT = 'wants a length or multiples of the thread diameter, like "1.5 d" or "15 mm", not '
LENGTH = 'is a length (in mm um cm m in thou), like "57.20 mm", not '
TAP, SHANK, GAP, HEAD = '"M10x1.5"', 'shank = "6.2 mm"', 'free_gap = "8.58 mm"', "[head]\n"

SLOTTED = (
    '{ points = [["60 mm", "60 mm"], ["2 mm", "60 mm"], ["2 mm", "40 mm"], ["-2 mm", "40 mm"], ["-2 mm", "60 mm"], '
    '["-60 mm", "60 mm"], ["-60 mm", "-60 mm"], ["60 mm", "-60 mm"]] }'
)


def bore(written, shown, says=NUMBER):
    """Another bore in the place of the demo's."""
    return (BORE, f"bore = {written}"), [("engine.bore", f"bore = {written}", says + shown)]


def tap(written, says):
    return (TAP, written), [("stud.tap_end", f"tap_end = {written}", says)]


def one(old, new, key, says, line=None):
    """One change, one fault, told on the changed line."""
    return (old, new), [(key, line or new.strip().split("\n")[-1], says)]


def text(content, *told):
    return content, list(told)


VALUES = {
    "decimal comma": bore(
        '"57,20 mm"', "'57,20 mm'", 'wants a decimal point, not a comma, like "57.20 mm", not '
    ),
    "thousands": bore('"1,057.2 mm"', "'1,057.2 mm'", 'wants a decimal point, not a comma, like "57.20 mm", not '),
    "no unit": bore('"57.20"', "'57.20'", 'has no unit: write it like "57.20 mm", not '),
    "a bare number": bore("57.20", "57.2"),
    "no number": bore('"mm"', "'mm'"),
    "empty": bore('""', "''"),
    "two numbers": bore('"57 20 mm"', "'57 20 mm'"),
    "a sum": bore('"57 + 0.2 mm"', "'57 + 0.2 mm'"),
    "a product": bore('"2*28.6 mm"', "'2*28.6 mm'"),
    "not a number": bore('"nan mm"', "'nan mm'"),
    "infinite": bore('"-inf mm"', "'-inf mm'"),
    "TOML's own nan": bore("nan", "nan"),
    "more than one beside a whole number": bore('"2 9/4 in"', "'2 9/4 in'"),
    "over nothing": bore('"57/0 mm"', "'57/0 mm'"),
    "full-width digits": bore('"５７.２ mm"', "'５７.２ mm'"),
    "Arabic digits": bore('"٥٧ mm"', "'٥٧ mm'"),
    "a date": bore("2024-05-01", "2024-05-01"),
    "true": bore("true", "true"),
    "a list": bore('["57.2 mm"]', "['57.2 mm']"),
    "a table": bore('{ value = "57.2 mm" }', "{'value': '57.2 mm'}"),
    "more digits than any number": bore(f'"{"9" * 5000} mm"', "'" + "9" * 56 + "..."),
    "a pressure for a length": bore('"57.2 bar"', "'57.2 bar'", LENGTH),
    "a unit of another trade": bore('"0.00003 nmi"', "'0.00003 nmi'", LENGTH),
    "diameters where none is meant": bore('"5 d"', "'5 d'", LENGTH),
    "a foot": bore(
        '"3\'"', '"3\'"', 'a foot is not a workshop unit: write inches or millimetres, like "2 1/2 in", not '
    ),
    "below zero": bore('"-57.2 mm"', "'-57.2 mm'", "must lie between 10 and 300 mm, not "),
    "huge": bore('"99999999999999999999 mm"', "'99999999999999999999 mm'", "must lie between 10 and 300 mm, not "),
    "tiny": bore('"0.00000000001 mm"', "'0.00000000001 mm'", "must lie between 10 and 300 mm, not "),
    "tolerance below zero": bore('"57.2 mm ± -0.01 mm"', "'57.2 mm ± -0.01 mm'", "has a tolerance below zero: "),
    "tolerance of a pressure": bore('"57.2 mm ± 1 bar"', "'57.2 mm ± 1 bar'", LENGTH),
    "tolerance larger than the size": bore('"57.2 mm ± 60 mm"', "'57.2 mm ± 60 mm'", "has a tolerance as large as itself: "),
    "tolerance without a unit anywhere": bore('"57.2 ± 0.1"', "'57.2 ± 0.1'"),
    "torque for a pressure": one(
        '"38 bar"', '"38 Nm"', "engine.peak_pressure",
        "is a pressure (in bar MPa N/mm^2 kPa GPa psi), like \"38 bar\", not '38 Nm'",
    ),
    "old tons": one(
        '"38 bar"', '"2 tonf/in^2"', "engine.peak_pressure",
        "write it in MPa (1 long ton-force a square inch is 15.444 MPa), like \"540 MPa\", not '2 tonf/in^2'",
    ),
    "kilograms a square centimetre": one(
        '"38 bar"', '"38 kg/cm^2"', "engine.peak_pressure",
        "write it in bar (1 kgf a square centimetre is 0.981 bar), like \"38 bar\", not '38 kg/cm^2'",
    ),
    "coulombs": one('"145 degC"', '"145 C"', "engine.hot.stud", "write degC, like \"145 degC\", not '145 C'"),
    "hotter than steel melts": one(
        '"145 degC"', '"1450 degC"', "engine.hot.stud", "must lie between -50 and 1200 degC, not '1450 degC'"
    ),
    "a share in percent": one(
        "preload_share = 0.37", 'preload_share = "40 %"', "stud.preload_share",
        "wants a plain number, like 0.5, not '40 %'",
    ),
    "a share over one": one(
        "preload_share = 0.37", "preload_share = 40", "stud.preload_share", "must lie between 0.05 and 1, not 40"
    ),
    "friction that is no number": one(
        "friction = 0.14", "friction = nan", "stud.friction", "must lie between 0.03 and 0.6, not nan"
    ),
    "days": one(
        '"1 hour"', '"1 day"', "ring.heat_set.soak", "is a time (in s min hour), like \"1 hour\", not '1 day'"
    ),
    "insert in two units": one('"1.5 d"', '"1.5 mm d"', "stud.insert.length", f"{INSERT}'1.5 mm d'"),
    "insert over nothing": one('"1.5 d"', '"1/0 d"', "stud.insert.length", f"{INSERT}'1/0 d'"),
    "insert too long": one('"1.5 d"', '"9 d"', "stud.insert.length", "must lie between 0.1 and 4 d, not '9 d'"),
    "insert without quotes": one('length = "1.5 d"', "length = 1.5", "stud.insert.length", f"{INSERT}1.5"),
}  # fmt: skip

KEYS = {
    "unknown key": (
        (BORE, 'boar = "57.20 mm"'),
        [
            ("engine.bore", "[engine]", 'is missing: bore of the barrel, as honed, like "57.20 mm"'),
            ("engine.boar", "boar", "is not a key here; did you mean bore?"),
        ],
    ),
    "unknown key like no other": one(
        "stroke = ", "qqqqzz = ", "engine.qqqqzz",
        "is not a key here; known are cycle, bore, ...", "qqqqzz",
    ),
    "unknown key that is not English": one(
        "squish = ", '"größe" = ', "engine.größe", "is not a key here; known are cycle, ...", "größe"
    ),
    "unknown key deep down": one(
        "set_fraction", "set_fracton", "ring.heat_set.set_fracton", "is not a key here; did you mean set_fraction?"
    ),
    "unknown key in a list of tables": one(
        "blank = true", "blanc = true", "barrel.passages.0.blanc", "is not a key here; did you mean blank?"
    ),
    "unknown key as long as a page": one(
        "squish = ", "k" * 3000 + " = ", "engine." + "k" * 56 + "..", "is not a key here; known are cycle, ...", "kkkk"
    ),
    "unknown table": one("[lathe]", "[lath]", "lath", "is not a table of a job file; did you mean lathe?"),
    "unknown table like no other": one(
        "[lathe]", "[xyzzy]", "xyzzy",
        f"is not a table of a job file; known are {', '.join([*TABLES, 'made'])}",
    ),
    "text for a table": text('stud = "M8"\n', ("stud", "stud", "wants a table of keys, not 'M8'")),
    "many tables for one": one("[lathe]", "[[lathe]]", "lathe", "wants a table of keys, not [{'least_depth_of_cut': ..."),
    "one table for many": one(
        "[[barrel.passages]]", "[barrel.passages]", "barrel.passages", "wants a list in square brackets, not {'name': ..."
    ),
    "a number for a title": one(
        'title = "Orchard sprayer engine: four-stud head on a three-stud barrel"', "title = 5", "job.title",
        "wants text in quotes, not 5",
    ),
    "a title as long as a page": one(
        "Orchard sprayer", "x" * 300, "job.title", "must have at most 200 characters"
    ),
    "a title that moves the cursor": one(
        "Orchard sprayer", "\\u001b[2J", "job.title",
        "must be one line without control characters, not '\\x1b[2J engine: four-stud head on a three-stud...",
    ),
    "a material over two lines": one(
        '"42CrMo4 +QT"', '"42CrMo4\\n+QT"', "stud.material.name", "must be one line without control characters, not '42CrMo4\\n+QT'"
    ),
    "no name for a table": text('"" = 1\n', ('""', '"" = 1', "is not a table of a job file; known are ...")),
    "a table that is none by what lies in it": one(
        "[engine.run_up]", "[engin.run_up]", "engin", "is not a table of a job file; did you mean engine?"
    ),
    "text for a number": one("count = 3, first", 'count = "3", first', "barrel.old_holes.pattern.count", "wants a whole number, not '3'"),
    "half a hole": one("count = 3, first", "count = 3.5, first", "barrel.old_holes.pattern.count", "wants a whole number, not 3.5"),
    "no holes": one("count = 3, first", "count = 0, first", "barrel.old_holes.pattern.count", "must be at least 1, not 0"),
    "holes without end": one("count = 3, first", "count = 1000, first", "barrel.old_holes.pattern.count", "must be at most 36, not 1000"),
    "a count too long for a number": one("rings = 3", f"rings = {'9' * 30}", "mandrel.rings", f"must be at most 20, not {'9' * 30}"),
    "text for yes": one("tailstock = true", 'tailstock = "yes"', "lathe.tailstock", "wants true or false, not 'yes'"),
    "one coordinate": one('["0.0 mm", "42.0 mm"]', '["42.0 mm"]', "barrel.passages.0.at", "wants at least 2 entries, not 1"),
    "three coordinates": one(
        '["0.0 mm", "42.0 mm"]', '["0 mm", "42.0 mm", "1 mm"]', "barrel.passages.0.at", "wants at most 2 entries, not 3"
    ),
    "coordinates without a unit": (
        ('["0.0 mm", "42.0 mm"]', "[0.0, 42.0]"),
        [(f"barrel.passages.0.at.{n}", "at = [0.0", f"{NUMBER}{value}") for n, value in ((0, "0.0"), (1, "42.0"))],
    ),
    "another choice": one('fit = "bonded"', 'fit = "glued"', "plug.fit", "must be 'bonded' or 'press', not 'glued'"),
    "another form": one(
        'form = "contoured"', 'form = "square"', "mandrel.form", "must be 'contoured', 'pin' or 'round', not 'square'"
    ),
    "a missing key": (
        (f"{BORE}\n", ""),
        [("engine.bore", "[engine]", 'is missing: bore of the barrel, as honed, like "57.20 mm"')],
    ),
    "a ring alone": text(
        '[ring]\naxial_width = "2 mm"\n[engine]\nbore = "57 mm"\n',
        ("ring", "[ring]", "wants its groove, or axial_width and radial_thickness: it is made to one of them"),
    ),
    "a mandrel alone": text(
        '[mandrel]\nform = "pin"\n',
        ("mandrel", "[mandrel]", "needs [ring]: it is made for that ring and bore"),
        ("mandrel", "[mandrel]", "needs [engine]: it is made for that ring and bore"),
    ),
    "two forms of outline": one(
        '{ circle = "112 mm" }', '{ circle = "112 mm", rectangle = ["1 mm", "2 mm"] }', "barrel.outline",
        'wants just one of circle, rectangle, points, lobes and dxf, like { circle = "112 mm" }',
    ),
    "no form of outline": one(
        '{ circle = "112 mm" }', "{ }", "barrel.outline",
        'wants just one of circle, rectangle, points, lobes and dxf, like { circle = "112 mm" }',
    ),
    "a turn for a circle": one(
        'first = "45 deg" }', 'turned = "45 deg" }', "barrel.old_holes.pattern", "takes no turned with circle"
    ),
    "no count": one(
        ', count = 3, first = "45 deg"', "", "barrel.old_holes.pattern",
        'on a circle wants a count, like { circle = "78 mm", count = 3, first = "45 deg" }', 'circle = "78 mm"',
    ),
    "an outline of two points": one(
        '{ circle = "112 mm" }', '{ points = [["0 mm", "1 mm"], ["1 mm", "2 mm"]] }', "barrel.outline.points",
        "wants at least 3 entries, not 2",
    ),
    "unknown material": one(
        '"42CrMo4 +QT"', '"42CrMo4 QT"', "stud.material",
        "'42CrMo4 QT' is not in the material table: did you mean '42CrMo4 +QT'? Or give its values, like "
        "{ name = '42CrMo4 QT', modulus = \"105 GPa\" }",
    ),
    "a material like no other": one(
        '"42CrMo4 +QT"', '"unobtainium"', "stud.material",
        "'unobtainium' is not in the material table: usual here are '42CrMo4 +QT', 'C45 +QT', '11SMn30'. Or give ...",
    ),
    "a material by number": one(
        '"42CrMo4 +QT"', "42", "stud.material", "wants a name in quotes, or a table with a name, not 42", "material = 42"
    ),
    "a family that the table knows otherwise": one(
        '"42CrMo4 +QT"', '{ name = "42CrMo4 +QT", family = "iron" }', "stud.material",
        "'42CrMo4 +QT' is steel by the material table, not iron",
    ),
    "a material's modulus in mm": one(
        '"42CrMo4 +QT"', '{ name = "mine", modulus = "205 mm" }', "stud.material.modulus",
        "is a stress (in MPa N/mm^2 GPa kPa bar psi), like \"12 MPa\", not '205 mm'",
    ),
}  # fmt: skip

THREADS = {
    "a pitch that M10 has not": tap(
        '"M10x1.7"', "wants a pitch that M10 has (1.5, 1.25, 1, 0.75 mm), like \"M10x1.5\", not 'M10x1.7'"
    ),
    "a size that is not listed": tap('"M13"', "wants a listed metric size (M2, M2.5, M3, ..."),
    "a comma in the pitch": tap('"M10x1,5"', f"wants a thread, like {THREAD}, not 'M10x1,5'"),
    "no series": tap('"1/4-20"', "wants the series behind the size, like '1/4-20 UNC' or '1/4 BSW', not '1/4-20'"),
    "the other series' pitch": tap(
        '"1/4-28 UNC"', "wants 20 threads per inch, as 1/4 UNC has: \"1/4-20 UNC\", not '1/4-28 UNC'"
    ),
    "a size of another series": tap('"7/64 BSF"', "wants a size that BSF has (..."),
    "a BA number past the list": tap('"12 BA"', "wants a BA number from 0 to 10, like \"2 BA\", not '12 BA'"),
    "a pipe thread": tap('"G 1/4"', f"wants a thread, like {THREAD}, not 'G 1/4'"),
    "a length": tap('"10 mm"', f"wants a thread, not a length: write it like {THREAD}, not '10 mm'"),
    "no quotes": (
        ("tap_end = " + TAP, "tap_end = 10"),
        [("stud.tap_end", "tap_end = 10", f"wants a thread in quotes, like {THREAD}, not 10")],
    ),
    "over nothing": tap('"1/0 UNF"', "wants a size that UNF has (#4, ..."),
    "more digits than any number": tap(f'"{"9" * 5000}/3 UNF"', f"wants a thread, like {THREAD}, not '999..."),
}

PORT = (
    '[[engine.ports]]\nname = "exhaust"\nfrom = "-30 deg"\nto = "{to} deg"\ntop = "{top} mm"\nbottom = "{bottom} mm"\n'
    'bridge = "{bridge} mm"\n\n[engine.hot]'
)

GEOMETRY = {
    "a liner inside the bore": one(
        "[barrel.old_holes]", '[barrel.liner]\noutside = "57 mm"\n\n[barrel.old_holes]', "barrel.liner.outside",
        "must be more than the bore of 57.2 mm, not '57 mm'", 'outside = "57 mm"',
    ),
    "a port upside down": one(
        "[engine.hot]", PORT.format(to=30, top=50, bottom=40, bridge=4), "engine.ports.0",
        "wants its bottom below its top of 50 mm, not '40 mm'", "[[engine.ports]]",
    ),
    "a port all round": one(
        "[engine.hot]", PORT.format(to=-40, top=40, bottom=60, bridge=4), "engine.ports.0",
        "wants to run anticlockwise over at most 180 deg, not 350 deg", "[[engine.ports]]",
    ),
    "a port that is all bar": one(  # 57.2 sin 30 = 28.60
        "[engine.hot]", PORT.format(to=30, top=40, bottom=60, bridge=29), "engine.ports.0.bridge",
        "must be less than the port's width of 28.60 mm, not '29 mm'", 'bridge = "29 mm"',
    ),
    "nut end longer than the stud": one(
        SHANK, f'{SHANK}\nnut_end_length = "70 mm"', "stud.nut_end_length",
        "leaves no shank: the nut end of 70 mm reaches down to the tap end",
    ),
    "step below the tap end": one(
        SHANK, f'{SHANK}\nstep_depth = "20 mm"', "stud.step_depth",
        "leaves no tap end: it reaches only 15.375 mm below the deck",
    ),
    "deck inside the bore": one(
        '{ circle = "112 mm" }', '{ circle = "50 mm" }', "barrel.outline.circle",
        "must reach round the bore of 57.2 mm: the deck face ends inside it",
    ),
    "deck that crosses itself": one(
        '{ circle = "112 mm" }',
        '{ points = [["60 mm", "60 mm"], ["-60 mm", "-60 mm"], ["-60 mm", "60 mm"], ["60 mm", "-60 mm"]] }',
        "barrel.outline.points", "crosses itself: give the corners in order",
    ),
    "head that crosses itself": one(
        'joint_face = "66 mm"',
        'outline = { points = [["60 mm", "60 mm"], ["-60 mm", "-60 mm"], ["-60 mm", "60 mm"], ["60 mm", "-60 mm"]] }',
        "head.outline.points", "crosses itself: give the corners in order",
    ),
    "washer smaller than the hole it lies on": one(
        'washer = "ISO 7089 300 HV"', 'washer = { name = "mine", inside = "8.4 mm", outside = "8.9 mm", thickness = "1 mm" }',
        "head.hole_diameter", "allows no joint.washer_area: stud.washer_outside = 8.9, ...", "hole_diameter",
    ),
    "corners rounder than the deck": one(
        '{ circle = "112 mm" }', '{ rectangle = ["100 mm", "90 mm"], corner = "50 mm" }', "barrel.outline",
        "has a corner radius of 50 mm, more than half the shorter side of 90 mm",
    ),
    **{
        f"deck with a side or a rounding too short: {outline}": one(
            '{ circle = "112 mm" }', f"{{ {outline} }}", "barrel.outline",
            f"has a side or a rounding of {length} mm: none may be under 0.001 mm",
        )
        for outline, length in (
            ('rectangle = ["100 mm", "90 mm"], corner = "0.0000001 mm"', "1e-07"),
            ('rectangle = ["100 mm", "90 mm"], corner = "0.0009 mm"', "0.0009"),
            ('rectangle = ["100 mm", "90 mm"], corner = "44.9999 mm"', "0.0002"),
            ('points = [["50 mm", "50 mm"], ["-50 mm", "50 mm"], ["-50 mm", "50.0005 mm"], ["0 mm", "-60 mm"]]', "0.0005"),
            ('points = [["50 mm", "50 mm"], ["-50 mm", "50 mm"], ["0 mm", "-60 mm"], ["50 mm", "50 mm"]]', "0"),
        )
    },
    "ring that is a bush": one(
        'axial_width = "2.38 mm"', 'axial_width = "200 mm"', "ring.axial_width",
        "must be at most 14.3 mm, a quarter of the blank's diameter, not 200 mm: taller, it is a bush",
    ),
    "gasket hole outside the deck": one(
        '{ circle = "112 mm" }', '{ circle = "80 mm" }', "head.holes",
        "the gasket would fall apart: the stud hole of 8.5 mm at (30, 29) mm meets its edge; least land -5.98 mm",
        "holes = { rect",
    ),
    "stud hole in the bore": one(
        'rectangle = ["60.0 mm", "58.0 mm"]', 'rectangle = ["40 mm", "42 mm"]', "head.holes",
        "the gasket would fall apart: the bore of 58.2 mm at (0, 0) mm meets the stud hole of 8.5 mm at (20, 21) mm; "
        "least land -4.35 mm",
    ),
    "holes that meet": one(
        'rectangle = ["60.0 mm", "58.0 mm"], turned = "0 deg"', 'points = [["40 mm", "0 mm"], ["42 mm", "0 mm"]]',
        "head.holes",
        "the gasket would fall apart: the stud hole of 8.5 mm at (40, 0) mm meets the stud hole of 8.5 mm at (42, 0) mm; "
        "least land -6.50 mm",
    ),
    "fixture that a list asks for": (
        (
            'rectangle = ["60.0 mm", "58.0 mm"]', 'rectangle = ["54.0 mm", "52.0 mm"]',
            "[engine]", '[fixtures]\nmake = ["all"]\n\n[engine]',
        ),
        [
            (
                "fixtures.make", 'make = ["all"]',
                ("asks for a test plate that has no room for an O-ring between bore and bolts: 0.63 mm, and the thinnest "
                "wants 2.65 mm; leave it out, naming the others in fixtures.make"),
            )
        ],
    ),
    "holes that meet, and one that comes near the edge": one(
        'rectangle = ["60.0 mm", "58.0 mm"], turned = "0 deg"',
        'points = [["0 mm", "-51.25 mm"], ["40 mm", "0 mm"], ["42 mm", "0 mm"]]',
        "head.holes",
        "the gasket would fall apart: the stud hole of 8.5 mm at (40, 0) mm meets the stud hole of 8.5 mm at (42, 0) mm; "
        "least land -6.50 mm",
    ),
    "open passage at the edge": (
        ('"42.0 mm"]', '"56.0 mm"]', "blank = true", "blank = false", 'passage = "breather"', 'hole = "8.5 mm"'),
        [
            (
                "barrel.passages", "[[barrel.passages]]",
                "the gasket would fall apart: the passage of 8.5 mm at (0, 56) mm meets its edge; least land -4.25 mm",
            )
        ],
    ),
    "cutter wider than a hole": one(
        'cutter = "0.0 mm"', 'cutter = "9 mm"', "gasket.cutter",
        "must be less than the smallest hole of 8.5 mm, not 9 mm",
    ),
    "cutter wider than a neck": (
        ('cutter = "0.0 mm"', 'cutter = "8 mm"', '{ circle = "112 mm" }', SLOTTED),
        [("gasket.cutter", 'cutter = "8 mm"', "is too wide for this outline: an offset of 4 mm ...")],
    ),
    "ring too thick": one(
        'radial_thickness = "2.40 mm"', 'radial_thickness = "12 mm"', "ring.radial_thickness",
        "must lie between bore/60 and bore/10, 0.95 and 5.72 mm, not '12 mm'",
    ),
    "ring too thin": one(
        'radial_thickness = "2.40 mm"', 'radial_thickness = "0.4 mm"', "ring.radial_thickness",
        "must lie between bore/60 and bore/10, 0.95 and 5.72 mm, not '0.4 mm'",
    ),
    "ring that does not open": one(
        GAP, 'free_gap = "0.4 mm"', "ring.free_gap",
        "must be more than the slit of 0.5 mm and the closed gap of 0.2 mm, not '0.4 mm'",
    ),
    "ring that opens to a half": one(
        GAP, 'free_gap = "40 mm"', "ring.free_gap", "must not be more than half the bore, 28.6 mm, not '40 mm'"
    ),
    "groove outside the bore": one(
        '"51.40 mm"', '"58 mm"', "ring.groove.root_diameter", "must be less than the bore of 57.2 mm, not '58 mm'"
    ),
    "piston larger than the bore": one(
        '"57.10 mm"', '"57.3 mm"', "ring.piston_diameter", "must be less than the bore of 57.2 mm, not '57.3 mm'"
    ),
    "a ring without a bore": text(
        '[ring]\naxial_width = "2 mm"\nradial_thickness = "2 mm"\nmaterial = "ring iron, grey"\nfree_gap = "8 mm"\n'
        'closed_gap = "0.2 mm"\nslit = "0.5 mm"\n',
        ("ring", "[ring]", "needs [engine] with bore: the ring is made to it"),
    ),
    "plug longer than its passage": one(
        'length = "12 mm"', 'length = "19 mm"', "plug.length",
        "must not be more than the passage's depth of 18 mm, not '19 mm'",
    ),
    "plug for no passage": one(
        'passage = "breather"', 'passage = "breahter"', "plug.passage",
        "no passage is called 'breahter'; the barrel has 'breather'",
    ),
    "plug for two holes": (
        ('passage = "breather"', 'passage = "breather"\nhole = "8 mm"'),
        [("plug", "[plug]", 'wants one of passage (a name) and hole (a diameter), like passage = "breather"')],
    ),
    "plug that is all clearance": one(
        '"0.04 mm"', '"9 mm"', "plug.bond_clearance",
        "must not be more than a tenth of the hole's 8.5 mm, not '9 mm'",
    ),
    "plug that is all chamfer": one(
        'stands_proud = "0.30 mm"', 'stands_proud = "0.30 mm"\nchamfer = "5 mm"', "plug.chamfer",
        "leaves nothing of a plug of 8.46 mm by 12 mm: 5 mm",
    ),
    "plug's thread as large as the plug": one(
        'stands_proud = "0.30 mm"', 'stands_proud = "0.30 mm"\nextraction_thread = "M8"', "plug.extraction_thread",
        "leaves ...",
    ),
    "plug's shoulder under its own size": one(
        'stands_proud = "0.30 mm"', 'stands_proud = "0.30 mm"\nshoulder = { diameter = "8 mm", thickness = "3 mm" }',
        "plug.shoulder.diameter", "must be at least 1 mm more than the plug's 8.46 mm, not '8 mm'",
    ),
    "plug's fit that no table has": one(
        'fit = "bonded"', 'fit = "press"\ntolerance = "k9"', "plug.tolerance",
        "wants k with a grade from 4 to 7, like \"k6\", not 'k9'",
    ),
    "plug's fit that is no fit": one(
        'fit = "bonded"', 'fit = "press"\ntolerance = "q6"', "plug.tolerance",
        "is not of the form that is wanted, like \"p6\": 'q6'",
    ),
    "two passages of one name": one(
        HEAD, f'[[barrel.passages]]\nat = ["42 mm", "0 mm"]\ndiameter = "4 mm"\nname = "breather" # again\n\n{HEAD}',
        "barrel.passages.1.name", "is used twice: 'breather'", "# again",
    ),
    "a nut that is not listed": one(
        '"ISO 4032 class 10"', '"ISO 9999"', "stud.nut", "wants a nut of ISO 4032, ASME B18.2.2, BS 1083, BS 57, like ..."
    ),
    "a chamber larger than the room above the piston": (
        ('\nclearance_volume = "31.0 cm^3"', '\nclearance_volume = "2.0 cm^3"'),
        [
            (
                "engine.clearance_volume", 'clearance_volume = "2.0',
                "leaves no room above the piston with the new head and gasket: -1.07 cm^3",
            )
        ],
    ),
}  # fmt: skip

FILES = {
    "empty": text("", ("", None, "the job file is empty: topend new FILE writes one with a comment on every key")),
    "comments": text("# bore?\n\n", ("", None, "the job file is empty: topend new FILE writes one with a comment on every key")),
    "a key twice": ((BORE, f"{BORE}\nbore = '57.3 mm'"), [("", "bore = '57.3", "is not TOML at line 12: Cannot overwrite a value")]),
    "a table twice": (
        ("[lathe]", "[ring] # again\ncount = 2\n\n[lathe]"),
        [("", "# again", "is not TOML at line 108: Cannot declare ring twice")],
    ),
    "no quotes": ((BORE, "bore = 57.20 mm"), [("", "bore = 57.20 mm", "is not TOML at line 11: Expected ...")]),
    "an open quote": ((BORE, 'bore = "57.20 mm'), [("", 'bore = "57.20 mm', "is not TOML at line 11: Illegal character ...")]),
    "a control character": (("Orchard", "Orch\x07ard"), [("", "Orch\x07ard", "is not TOML at line 6: Illegal character ...")]),
    "deep lists": text(
        "[engine]\nbore = " + "[" * 3000 + "]" * 3000,
        ("", None, "is not TOML that can be read: it is nested too deep, or holds a number out of all range"),
    ),
    "deep tables": text(
        "[engine]\nbore = " + "{ a = " * 150 + "1" + " }" * 150, ("engine.bore", "bore", f"{NUMBER}{{'a': {{'a': ...")
    ),
    "deep dotted keys": text(
        '[lathe]\nfeed = "0.08 mm"\nleast_depth_of_cut = "1 mm"\nnose_radius = "1 mm"\ntaper_limit = "1 mm"\n' + ".".join("q" * 4000) + " = 1",
        ("lathe.q", "q.q.q", "is not a key here; known are least_depth_of_cut, ..."),
    ),
    "a line without end": text(
        "# " + "x" * 10_000, ("", "# xxx", "line 1 is too long: it has 10002 characters of 10000")
    ),
    "a table's name without end": text("[" + " " * 9_000, ("", None, "is not TOML: Invalid initial character for a key part")),
    "a number with more digits than any": (
        ("rings = 3", f"rings = {'9' * 5000}"),
        [("", None, "is not TOML that can be read: it is nested too deep, or holds a number out of all range")],
    ),
}  # fmt: skip

CASES = {
    f"{kind}: {name}": case
    for kind, cases in {"value": VALUES, "key": KEYS, "thread": THREADS, "geometry": GEOMETRY, "file": FILES}.items()
    for name, case in cases.items()
}


def apply(demo, change):
    return type(demo)(change) if isinstance(change, str) else demo.swap(*change)


def same(says, told):
    return says.startswith(told[:-3]) if told.endswith("...") else says == told


def faults(text):
    with pytest.raises(JobError) as caught:
        check(text)
    return caught.value.faults


def topend(*arguments):
    return guarded(app, [str(a) for a in arguments])


@pytest.mark.parametrize("name", CASES)
def test_a_wrong_job_is_told_by_key_line_and_rule(demo, name):
    change, told = CASES[name]
    job = apply(demo, change)
    found = faults(job)
    assert [(f.key, f.line) for f in found] == [(key, part and job.line_of(part)) for key, part, _ in told]
    for fault, (_, _, says) in zip(found, told, strict=True):
        assert same(fault.says, says), f"{fault.says!r} is not {says!r}"
        assert "\n" not in str(fault)


@pytest.mark.parametrize("name", CASES)
def test_a_wrong_job_writes_nothing_and_ends_with_2(demo, name, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    change, told = CASES[name]
    file = tmp_path / "job.toml"
    file.write_bytes(apply(demo, change).encode())
    for verb in (["check", file], ["make", file]):
        assert topend(*verb) == 2
        out, err = capsys.readouterr()
        assert out == ""
        lines = err.splitlines()
        assert [line.startswith(f"topend: {key}") for line, (key, *_) in zip(lines, told, strict=True)] == [True] * len(
            told
        )
    assert topend("check", file, "--json") == 2
    out, err = capsys.readouterr()
    assert err == ""
    errors = json.loads(out)["errors"]
    assert [set(e) for e in errors] == [{"key", "line", "says"}] * len(told)
    assert [e["key"] for e in errors] == [key for key, *_ in told]
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


def test_there_are_more_than_fifty():
    assert len(CASES) > 50


# several at once ------------------------------------------------------------------------------------------------------


def test_every_fault_is_told_in_one_run_in_the_order_of_the_lines(demo):
    job = demo.swap(
        BORE, 'bore = "57,2 mm"', "stroke = ", "strok = ", '"112 mm"', '"112"', TAP, '"M10x9"', '"1.20 mm"', "1.2 # new",
        'fit = "bonded"', 'fit = "glue"', "count = 3                ", "count = 0 # none ", "rings = 3", "rings = 99", "[lathe]", "[lathes]",
    )  # fmt: skip
    told = [
        ("engine.bore", "57,2"), ("engine.strok", "strok ="), ("barrel.outline.circle", '"112"'), ("stud.tap_end", "M10x9"),
        ("gasket.thickness", "# new"), ("plug.fit", "glue"), ("ring.count", "# none"), ("mandrel.rings", "rings = 99"),
        ("lathes", "[lathes]"),
    ]  # fmt: skip
    assert [(f.key, f.line) for f in faults(job)] == [(key, job.line_of(part)) for key, part in told]


def test_faults_of_sizing_and_of_shapes_are_told_together_with_their_lines(demo):
    job = demo.swap(
        '"ISO 4032 class 10"',
        '"ISO 1"',
        '"ISO 7089 300 HV"',
        '"ISO 2"',
        'fit = "bonded"',
        'fit = "press"\ntolerance = "k9"',
    )
    told = [("stud.washer", "ISO 2"), ("stud.nut", "ISO 1"), ("plug.tolerance", "k9")]
    assert [(f.key, f.line) for f in faults(job)] == [(key, job.line_of(part)) for key, part in told]
    job = demo.swap(
        SHANK, f'{SHANK}\nnut_end_length = "70 mm"', 'length = "12 mm"', 'length = "12 mm"\nchamfer = "5 mm"'
    )
    told = [("stud.nut_end_length", "70 mm"), ("plug.chamfer", "chamfer")]
    assert [(f.key, f.line) for f in faults(job)] == [(key, job.line_of(part)) for key, part in told]


def test_a_fault_in_one_table_is_no_reason_to_miss_it_in_another(demo):
    """A ring does not lack its engine, nor a plug its passage, because those have a fault of their own."""
    job = demo.swap(
        BORE, 'bore = "57.20"', "count = 3, first", "count = 0, first", "set_fraction = 0.95", "set_fraction = 0"
    )
    assert [f.key for f in faults(job)] == [
        "engine.bore",
        "barrel.old_holes.pattern.count",
        "ring.heat_set.set_fraction",
    ]


def test_lines_are_those_of_the_file_whatever_ends_them(demo):
    for job in (demo.replace("\n", "\r\n"), "\ufeff" + demo, demo.replace("# The engine", "# The\u2028engine\x85")):
        (fault,) = faults(job.replace("57.20 mm", "57,20 mm"))
        assert (fault.key, fault.line) == ("engine.bore", demo.line_of(BORE))
        assert load(job).engine.bore == 57.2


TITLES = [
    r""" "its \" [[ { here" """,
    """ 'its " [[ { here' """,
    """ "'''" """,
    r""" "its \"\"\" here" """,
    '''"""\nbore = 1\n[engine]\n"""''',
    """'''\nbore = 1'''  # '''""",
]


@pytest.mark.parametrize("title", TITLES)
def test_quotes_in_a_text_do_not_hide_the_lines_below(demo, title):
    text = demo.swap('"Orchard sprayer engine: four-stud head on a three-stud barrel"', title)
    found = faults(text.swap(BORE, 'bore = "57,20 mm"'))
    assert [f.key for f in found if f.key != "job.title"] == ["engine.bore"]
    assert found[-1].line == text.line_of(BORE)


def test_a_key_in_a_later_table_of_a_list_has_its_own_line(demo):
    more = '[[barrel.passages]]\nname = "oil"\nat = ["-42.0 mm", "0.0 mm"]\ndiameter = "6 mn"\n\n'
    job = demo.swap(HEAD, more + HEAD)
    (fault,) = faults(job)
    assert (fault.key, fault.line) == ("barrel.passages.1.diameter", job.line_of("6 mn"))


# files that are none --------------------------------------------------------------------------------------------------


def told_of(path, capsys):
    assert topend("check", path) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert topend("make", path) == 2
    assert capsys.readouterr().err == err
    return err


def test_files_that_cannot_be_read(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bytes.toml").write_bytes(b"\x00\x01\xff\xfe" * 40)
    (tmp_path / "large.toml").write_bytes(b"# " + b"x" * 10_000_000)
    (tmp_path / "latin.toml").write_bytes('[job]\ntitle = "Köpfe"\n'.encode("latin-1"))
    (tmp_path / "folder.toml").mkdir()
    before = sorted(tmp_path.iterdir())
    assert told_of("bytes.toml", capsys) == "topend: bytes.toml is not UTF-8 text: byte 2 can't be read\n"
    assert told_of("latin.toml", capsys) == "topend: latin.toml is not UTF-8 text: byte 16 can't be read\n"
    assert told_of("large.toml", capsys) == "topend: large.toml is too large: a job file has at most 100000 bytes\n"
    assert told_of("folder.toml", capsys) == "topend: folder.toml is a folder, not a job file\n"
    assert told_of("nowhere.toml", capsys) == "topend: nowhere.toml can't be read: No such file or directory\n"
    assert sorted(tmp_path.iterdir()) == before


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no endless file here")
def test_an_endless_file_is_too_large(capsys):
    assert told_of("/dev/zero", capsys) == "topend: /dev/zero is too large: a job file has at most 100000 bytes\n"

"""Jobs about the worked one: every pair of its choices, for what stands on a page and what is made of it."""

import re
from itertools import combinations

BRAZE = 'fill = "bronze braze"                       # or "screwed iron plug"'
CHOICES = {  # what is chosen -> its ways: the worked job's first
    "cycle": ('cycle = "four-stroke"', 'cycle = "two-stroke"'),
    "barrel": ('material = "EN-GJL-250"\noutline', 'material = "AlSi7Mg0.3 T6"\noutline', 'material = "C45"\noutline'),
    "fill": (BRAZE, 'fill = "screwed iron plug"', 'fill = "screwed iron plug"\npinned = true'),
    "skim": ('skim = "0.12 mm"', 'skim = "0 mm"'),
    "proud": ('stands_proud = "0.30 mm"', 'stands_proud = "0 mm"'),
    "sheet": ('material = "copper, annealed"', 'material = "aluminium, annealed"', 'material = "CuZn39Pb3"'),
    "plug": ('fit = "bonded"', 'fit = "press"', 'fit = "bonded"\nshoulder = { diameter = "12 mm", thickness = "3 mm" }'),
    "purpose": ('purpose = "heat set"', 'purpose = "fit check"'),
    "form": ('form = "contoured"', 'form = "pin"', 'form = "round"'),
    "insert": ('insert = { length = "1.5 d", tap = "bottoming" }', ""),
    "held": ("friction = 0.14", 'friction = 0.14\nheld_by = "interference"', 'friction = 0.14\ntightened_by = "stretch"'),
    "units": ('print_units = "metric"', 'print_units = "inch"'),
    "gear": ('located_by = "dowels"', 'located_by = "dowels"\nvalve_gear = "side valves"', 'located_by = "dowels"\nvalve_gear = "chain"'),
    "tables": ("", "[plug]", "[ring]", "[mandrel]", "[gasket]", "[barrel.old_holes]", "[stud]"),
}  # fmt: skip
LEFT_OUT_WITH = {"[ring]": ["[mandrel]"], "[stud]": []}
WAYS = [
    dict([first, second])
    for first, second in combinations([(key, way) for key, ways in CHOICES.items() for way in ways[1:]], 2)
    if first[0] != second[0]
]


def without(text, table):
    """A job file without one of its tables, and what means nothing without it."""
    for name in (table, *LEFT_OUT_WITH.get(table, ())):
        text = re.sub(rf"(?ms)^{re.escape(name)}.*?(?=^\[|\Z)", "", text)
    return text.replace("blank = true ", "blank = false") if table == "[plug]" else text


def written(demo, ways):
    """The worked job with other choices."""
    text = demo
    for key, way in ways.items():
        if key != "tables":
            assert text.count(CHOICES[key][0]) == 1, key
            text = text.replace(CHOICES[key][0], way)
    return without(text, ways["tables"]) if "tables" in ways else text

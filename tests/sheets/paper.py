"""What the tests of sheets share: jobs of many kinds, and where letters and lines lie on the paper."""

import io
from itertools import pairwise
from math import hypot

import ezdxf

from parts.checked import check
from parts.register import PARTS, asked_for, load, shapes
from parts.sheets.drawing.compose import drawn
from parts.writers.fonts import WIDER, text_width
from parts.writers.marks import Letters, Stroke
from tests.conftest import JOBS, whole_text

CONTENT = {stem: load(part.drawing) for stem, part in PARTS.items() if part.drawing}
INCH = ('print_units = "metric"', 'print_units = "inch"')
LETTER = ('print_units = "metric"', 'print_units = "inch"\npage = "Letter"')
THREADS = 'tap_end = "M10x1.5" ', 'nut_end = "M8x1.25" '


def threads(tap, nut, *more):
    """Other threads; the insert, the nut and the washer of the worked job fit no other, so they go."""
    return (
        (THREADS[0], f'tap_end = "{tap}" '),
        (THREADS[1], f'nut_end = "{nut}" '),
        ('insert = { length = "1.5 d", tap = "bottoming" }', ""),
        ('washer = "ISO 7089 300 HV"', ""),
        ('nut = "ISO 4032 class 10"', ""),
        *more,
    )


VARIED = {  # name -> changes to the worked job, with all parts
    "demo": (),
    "inch": (INCH,),
    "letter": (LETTER,),
    "long title": (('title = "Orchard', 'title = "' + "A long and winding name of a job, and all of it, too. " * 2 + "Orchard"),),
    "long stud": (('thickness = "46 mm"', 'thickness = "150 mm"'), ('free_gap = "8.58 mm"', 'free_gap = "7.9 mm"')),
    "short stud": (('thickness = "46 mm"', 'thickness = "17 mm"'),),
    "fine": threads("M12x1.25", "M10x1", ('shank = "6.2 mm"', 'shank = "8 mm"')),
    "small": threads("M6", "M5", ('shank = "6.2 mm"', 'shank = "3.9 mm"'), ('thickness = "46 mm"', 'thickness = "30 mm"')),
    "unified": threads("7/16-14 UNC", "3/8-24 UNF", ('shank = "6.2 mm"', 'shank = "0.28 in"'), LETTER),
    "whitworth": threads("3/8 BSW", "5/16 BSF", ('shank = "6.2 mm"', 'thread_relief = "undercut"')),
    "cycle": threads("5/16-26 BSC", "1/4-26 BSC", ('shank = "6.2 mm"', 'shank = "6 mm"')),
    "ba": threads("0 BA", "2 BA", ('shank = "6.2 mm"', 'shank = "4 mm"'), INCH),
    "left-hand": threads("M10x1.5 LH", "M8x1 LH", ('shank = "6.2 mm"', "")),
    "run-out": ((('shank = "6.2 mm"', 'shank = "8 mm"')),),
    "shouldered": (
        ('stands_proud = "0.30 mm"', 'stands_proud = "0 mm"\nextraction_thread = "M4"\nshoulder = { diameter = "14 mm", thickness = "3 mm" }'),
        ('form = "contoured"', 'form = "round"'),
    ),
    "pressed": (
        ('fit = "bonded"', 'fit = "press"\nextraction_thread = "M5"\nchamfer = "0 mm"'),
        ('form = "contoured"', 'form = "pin"'),
        ('purpose = "heat set"', 'purpose = "fit check"'),
    ),
    "pressed inch": (('fit = "bonded"', 'fit = "press"'), ('form = "contoured"', 'form = "pin"'), INCH),
    "printed": (('purpose = "heat set"', 'purpose = "fit check"'), LETTER),
    "long plug": (('length = "12 mm"', 'length = "60 mm"'), ('diameter = "8.50 mm"\ndepth = "18 mm"', 'diameter = "8.50 mm"\ndepth = "70 mm"'), ('form = "contoured"', 'form = "round"'), INCH),
    "wide ring": (('axial_width = "2.38 mm"', 'axial_width = "4 mm"'), ("count = 3     ", "count = 12    "), INCH),
}  # fmt: skip


def text_of(name):
    """Text of one of the jobs."""
    if name not in VARIED:
        return (JOBS / f"{name.removesuffix(' job')}.toml").read_text(encoding="utf-8")
    text = str(whole_text())
    slow = any("contoured" in old for old, _ in VARIED[name]) or name in ("demo", "printed")
    for old, new in (*VARIED[name], *(() if slow else (('form = "contoured"', 'form = "round"'),))):
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the job"
        text = text.replace(old, new)
    return text


def sized(name):
    """Job, book, findings and shapes of a job."""
    job, book, found = check(text_of(name))
    return job, book, found, shapes(asked_for(job), book, job)


def contents_of(name):
    """What stands on each drawing of a job, by its stem: cautions are those about the part."""
    job, book, found, shaped = sized(name)
    for p in asked_for(job):
        if p.part.stem in CONTENT:
            about = [f for f in found if p.about(f.name)]
            yield CONTENT[p.part.stem](shaped[p.stem], p.book(book), p.job(job), about), job


def sheets_of(name):
    """Scale and sheet of each drawing of a job."""
    return {content.stem: drawn(content, job) for content, job in contents_of(name)}


def read_again(document):
    """The document as another program would get it."""
    text = io.StringIO()
    document.write(text)
    return ezdxf.read(io.StringIO(text.getvalue()))


def widened(document, factor):
    """The document with all its letters drawn wider, about the points that they are set by."""
    document.styles.get("LETTERING").dxf.width = factor
    for text in document.modelspace().query("TEXT"):
        text.dxf.width = factor
    return document


def boxes(marks, wider=1.0):
    """Text and four corners of every line of letters, that many times as wide as in our own font."""
    out = []
    for mark in marks:
        if isinstance(mark, Letters):
            wide, (a, b) = text_width(mark.text, mark.height) / WIDER * wider, mark.along
            feet, tops = -0.2 * mark.height, 1.02 * mark.height
            corners = [
                (mark.x + u * a - v * b, mark.y + u * b + v * a)
                for u, v in ((0, feet), (wide, feet), (wide, tops), (0, tops))
            ]
            xs, ys = [x for x, _ in corners], [y for _, y in corners]
            out.append((mark.text, (min(xs), min(ys), max(xs), max(ys))))
    return out


def segments(marks):
    """Every straight piece that is drawn; curves by points along them."""
    for mark in marks:
        if not isinstance(mark, Stroke):
            continue
        here = (0.0, 0.0)
        for kind, values in mark.steps:
            end = values[-2:]
            if kind == "L":
                yield here, end
            elif kind == "C":
                points = [here, values[:2], values[2:4], end]
                places = [bezier(points, n / 24) for n in range(25)]
                yield from pairwise(places)
            here = end


def bezier(points, t):
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    return tuple(sum(w * p[axis] for w, p in zip(weights, points, strict=True)) for axis in (0, 1))


def crossed(box, line, inset=0.1):
    """Whether a line runs into a box, by clipping it at the four sides."""
    (x0, y0), (x1, y1) = line
    first, last = 0.0, 1.0
    box = (box[0] + inset, box[1] + inset, box[2] - inset, box[3] - inset)
    for start, step, low, high in ((x0, x1 - x0, box[0], box[2]), (y0, y1 - y0, box[1], box[3])):
        if step == 0:
            if not low < start < high:
                return False
            continue
        enter, leave = sorted(((low - start) / step, (high - start) / step))
        first, last = max(first, enter), min(last, leave)
    return first < last and hypot((x1 - x0) * (last - first), (y1 - y0) * (last - first)) > 1e-6


def overlaps(marks, wider=1.0):
    """Texts that lie on another text or on a line."""
    letters = boxes(marks, wider)
    faults = [
        (one, other)
        for n, (one, a) in enumerate(letters)
        for other, b in letters[:n]
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]
    lines = list(segments(marks))
    return faults + [(text, line) for text, box in letters for line in lines if crossed(box, line)]


def outside(marks, width, height, margin, wider=1.0):
    """Texts that leave the sheet."""
    return [
        t
        for t, b in boxes(marks, wider)
        if b[0] < margin or b[1] < margin or b[2] > width - margin or b[3] > height - margin
    ]

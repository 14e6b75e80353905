"""The paper: a DXF document whose modelspace is a sheet, the part on it in true size, all else in mm of paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

import ezdxf
from ezdxf.enums import TextEntityAlignment

from parts.writers.fonts import FILE, plain, text_width

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from ezdxf.document import Drawing

    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop

PAPER = {"A4": (297.0, 210.0), "Letter": (279.4, 215.9)}
"""width and height lying on its side [mm]: ISO 216, ANSI/ASME Y14.1"""
LAYERS = {  # name -> colour, line type, width [mm/100]: ISO 128-2, group 0.5
    "OUTLINE": (7, "CONTINUOUS", 50),
    "THIN": (7, "CONTINUOUS", 25),
    "CUT": (7, "CONTINUOUS", 18),
    "HIDDEN": (8, "HIDDEN", 25),
    "CENTRE": (1, "CENTRE", 25),
    "DATUM": (6, "PHANTOM", 25),
    "HATCH": (8, "CONTINUOUS", 18),
    "DIM": (5, "CONTINUOUS", 18),
    "TEXT": (7, "CONTINUOUS", 25),
    "FRAME": (7, "CONTINUOUS", 50),
    "FRAME THIN": (7, "CONTINUOUS", 18),
}
LINES = {  # mm of paper: ISO 128-2, in multiples of the width
    "HIDDEN": (3.0, -0.75),
    "CENTRE": (6.0, -0.75, 0.15, -0.75),
    "PHANTOM": (6.0, -0.75, 0.15, -0.75, 0.15, -0.75),
}
LETTERING = "LETTERING"
TEXT = 3.5  # mm, height of a dimension's capitals: ISO 3098
SMALL = 2.5  # mm, of notes
AWAY, BEYOND = 0.6, 1.5  # mm from the part to an extension line, and of it past the dimension line
GAP = 1.2  # mm from a line to the text over it: clear of an arrow
MORE, SLACK = "...", 1e-6  # where a text is cut, being wider than its room by more than this [mm]
DIGITS = 9
STYLE = {  # in mm of paper, scaled by dimscale: ISO 129-1
    "dimtxt": TEXT,
    "dimasz": 2.5,
    "dimexe": BEYOND,
    "dimexo": AWAY,
    "dimgap": GAP,
    "dimtad": 1,
    "dimtih": 0,
    "dimtoh": 0,
    "dimtmove": 2,
    "dimtxsty": LETTERING,
    "dimblk": "",
    "dimclrd": 256,
    "dimclre": 256,
    "dimclrt": 7,
    "dimlwd": 18,
    "dimlwe": 18,
}


class Sheet:
    """One sheet. A point is given in mm of paper; `k` turns it into the document's mm."""

    def __init__(self, width: float, height: float, scale: float) -> None:
        self.width, self.height, self.scale, self.k = width, height, scale, 1 / scale
        ezdxf.options.write_fixed_meta_data_for_testing = True  # no clock and no random ids in the file
        self.document = _document(self.k)
        self.model = self.document.modelspace()

    def at(self, x: float, y: float) -> Point:
        """Return a point of the paper in the document."""
        return round(x * self.k, DIGITS) + 0.0, round(y * self.k, DIGITS) + 0.0

    def line(self, x0: float, y0: float, x1: float, y1: float, layer: str) -> None:
        """Draw a line."""
        self.model.add_line(self.at(x0, y0), self.at(x1, y1), dxfattribs={"layer": layer})

    def path(self, points: Iterable[Point], layer: str, *, close: bool = False) -> None:
        """Draw a line from point to point."""
        self.model.add_lwpolyline([self.at(*p) for p in points], close=close, dxfattribs={"layer": layer})

    def loop(self, loop: Loop, layer: str) -> None:
        """Draw a closed line of lines and arcs."""
        vertices = [(*self.at(x, y), round(bulge, DIGITS)) for x, y, bulge in loop]
        self.model.add_lwpolyline(vertices, format="xyb", close=True, dxfattribs={"layer": layer})

    def circle(self, x: float, y: float, radius: float, layer: str) -> None:
        """Draw a circle."""
        self.model.add_circle(self.at(x, y), round(radius * self.k, DIGITS), dxfattribs={"layer": layer})

    def rectangle(self, x0: float, y0: float, x1: float, y1: float, layer: str) -> None:
        """Draw a rectangle from corner to corner."""
        self.path([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], layer, close=True)

    def black(self, x0: float, y0: float, x1: float, y1: float) -> None:
        """Fill a rectangle."""
        self.fill([(x0, y0), (x1, y0), (x0, y1), (x1, y1)], "TEXT")

    def fill(self, corners: Iterable[Point], layer: str) -> None:
        """Fill a triangle, or a rectangle by its lower corners, then its upper ones."""
        self.model.add_solid([self.at(*p) for p in corners], dxfattribs={"layer": layer})

    def text(
        self, text: str, x: float, y: float, height: float = SMALL, *, align: str = "LEFT", turned: float = 0.0
    ) -> None:
        """Write a line of text, its foot at the point; `align` as ezdxf names it."""
        if not text:
            return
        attributes = {"layer": "TEXT", "style": LETTERING, "rotation": turned}
        letters = self.model.add_text(plain(text), height=round(height * self.k, DIGITS), dxfattribs=attributes)
        letters.set_placement(self.at(x, y), align=TextEntityAlignment[align])

    def fitted(self, text: str, x: float, y: float, width: float, height: float) -> None:
        """Write a line of text, smaller where it would be wider than this, cut where it would be under 1.8 mm."""
        text = plain(text)
        size = min(height, max(1.8, height * width / max(text_width(text, height), 1e-9)))
        while len(text) > len(MORE) and text_width(text, size) > width + SLACK:
            text = text[: -1 - len(MORE)] + MORE
        self.text(text, x, y, size)

    def hatch(self, polygons: Sequence[Sequence[Point]]) -> None:
        """Hatch the areas inside these polygons, as metal that is cut."""
        hatch = self.model.add_hatch(dxfattribs={"layer": "HATCH"})
        hatch.set_pattern_fill("ANSI31", scale=0.7 * self.k)
        for polygon in polygons:
            hatch.paths.add_polyline_path([self.at(*p) for p in polygon], is_closed=True)

    def dimension(
        self, ends: tuple[float, float], level: float, row: float, text_at: Point, text: str, *, upright: bool
    ) -> None:
        """Add a linear DIMENSION from end to end along the side, both measured at a level; its text is literal."""
        points = [(ends[0], level), (ends[1], level), (ends[0], row)]
        start, end, base = (self.at(*(p[::-1] if upright else p)) for p in points)
        made = self.model.add_linear_dim(
            base=base,
            p1=start,
            p2=end,
            angle=90 if upright else 0,
            text=plain(text),
            dimstyle="SHEET",
            dxfattribs={"layer": "DIM"},
        )
        made.set_location(self.at(*text_at))
        made.render()


def _document(k: float) -> Drawing:
    document = ezdxf.new("R2000", units=ezdxf.units.MM)
    document.header["$MEASUREMENT"] = 1
    document.header["$LTSCALE"] = k
    for name, dashes in LINES.items():
        document.linetypes.add(name, [sum(map(abs, dashes)), *dashes], description=name.lower())
    for name, (color, line, width) in LAYERS.items():
        document.layers.add(name, color=color, linetype=line, lineweight=width)
    document.styles.add(LETTERING, font=FILE.name)
    style = document.dimstyles.new("SHEET")
    for name, value in STYLE.items():
        style.set_dxf_attrib(name, value)
    style.dxf.dimscale = k
    style.copy_to_header(document)
    return document

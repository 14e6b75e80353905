"""Scans and photographs of the frame with a gasket on it, made by other libraries than those that trace them.

The frame's own PDF is drawn by pdfium, the gasket too, by way of reportlab; shapely has its true outline; OpenCV takes
the picture through a pinhole, a lens, blur, noise and JPEG. The gasket has its thickness: what is seen of it is its lower
face, its upper face and the wall between.
"""

from dataclasses import dataclass, field
from functools import lru_cache
from io import BytesIO
from pathlib import Path

import cv2
import numpy as np
import pypdfium2
from reportlab.pdfgen.canvas import Canvas
from shapely import affinity
from shapely.geometry import MultiPoint, Point, Polygon
from shapely.ops import unary_union

POINT = 72 / 25.4
FRAME = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}


# what lies on the sheet -----------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Gasket:
    """True outlines about the bore [mm]."""

    outer: Polygon
    bore: float
    holes: tuple
    """x, y, diameter"""
    openings: tuple = ()

    @property
    def cuts(self):
        return [
            Point(0, 0).buffer(self.bore / 2, 256),
            *(Point(x, y).buffer(d / 2, 128) for x, y, d in self.holes),
            *self.openings,
        ]


def slot(width, length, turned, at):
    """A slot, its length along X before it is turned."""
    ends = MultiPoint([(-(length - width) / 2, 0), ((length - width) / 2, 0)]).convex_hull
    return affinity.translate(affinity.rotate(ends.buffer(width / 2, 128), turned, origin=(0, 0)), *at)


def lobed(*circles):
    """The hull of each two circles that follow each other, and all that lies between."""
    rounds = [Point(x, y).buffer(r, 256) for x, y, r in circles]
    arms = [unary_union([a, b]).convex_hull for a, b in zip(rounds, rounds[1:] + rounds[:1], strict=True)]
    return unary_union([*arms, Polygon([c[:2] for c in circles])])


ODD = Gasket(  # five lobes, two push-rod slots, one of them askew, and an oil way
    lobed((40, 36, 15), (-40, 36, 15), (-44, -30, 14), (0, -52, 9), (44, -30, 14)),
    57.2,
    ((30, 29, 8.5), (-30, 29, 8.5), (-30, -29, 8.5), (30, -29, 8.5), (0, -46, 5)),
    (slot(6, 18, 90, (43, 0)), slot(6, 18, 110, (-43, 0))),
)
WAISTED = Gasket(  # a hollow on each side
    lobed(
        (34, 34, 12), (0, 40, 10), (-34, 34, 12), (-40, 0, 6), (-34, -34, 12), (0, -44, 8), (34, -34, 12), (40, 0, 6)
    ).difference(Point(66, 18).buffer(22, 256)),
    52.0,
    ((31, 31, 9), (-31, 31, 9), (-31, -31, 9), (31, -31, 9)),
)
PLAIN = Gasket(Point(0, 0).buffer(50, 512), 60.0, ((0, 40, 8), (-34.641, -20, 8), (34.641, -20, 8)))
GASKETS = (ODD, WAISTED, PLAIN)


# how it is taken ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Shot:
    """How a picture is taken."""

    gasket: Gasket = ODD
    at: tuple = (107.0, 156.0)
    """of the bore on the sheet, from its lower left corner [mm]"""
    turned: float = 7.0
    dpi: float = 0.0
    """of a scan; 0 is a photograph"""
    size: tuple = (3024, 4032)
    height: float = 450.0
    """of the lens over the sheet [mm]"""
    tilt: tuple = (0.0, 0.0)
    """deg"""
    roll: float = 0.0
    lens: float = 0.0
    blur: float = 0.8
    """dots"""
    noise: float = 3.0
    shadow: tuple = (0.2, 0.1)
    glare: tuple = ()
    """x, y on the sheet, width [mm]"""
    thick: float = 0.0
    curl: float = 0.0
    """mm that the sheet lies up at most"""
    curls: str = "sides"
    ink: int = 40
    lacking: tuple = ()
    """places on the sheet that are covered, with their radius and shade"""
    mirrored: bool = False
    quarters: int = 0
    printed: tuple = (1.0, 1.0)
    """by how much the printer is off"""
    paper: str = "A4"
    seed: int = 1
    more: dict = field(default_factory=dict)


@lru_cache(2)
def _page(pdf, dots):
    return _rendered(Path(pdf).read_bytes(), dots)


def _rendered(data, dots):
    image = pypdfium2.PdfDocument(data)[0].render(scale=dots / POINT).to_numpy()
    return (image[..., :3].mean(axis=2) if image.ndim == 3 else image).astype(np.float32)


@lru_cache(3)
def _covered(gasket, at, turned, size, dots):
    """Share of each dot that the gasket covers."""
    data = BytesIO()
    canvas = Canvas(data, pagesize=[side * POINT for side in size])
    path = canvas.beginPath()
    for shape in (gasket.outer, *gasket.cuts):
        lying = affinity.translate(affinity.rotate(shape, turned, origin=(0, 0)), *at)
        points = np.array(lying.exterior.coords) * POINT
        path.moveTo(*points[0])
        for point in points[1:-1]:
            path.lineTo(*point)
        path.close()
    canvas.drawPath(path, stroke=0, fill=1, fillMode=0)
    canvas.save()
    return 1 - _rendered(data.getvalue(), dots) / 255


def taken(shot, pdf, dots=16):
    """The picture, as shades from 0 to 255, y down. `dots` to a mm of the sheet that it is taken of."""
    page = _page(str(pdf), dots).copy()
    wide, tall = FRAME[shot.paper]
    for x, y, radius, shade in shot.lacking:
        cv2.circle(page, (round(x * dots), round((tall - y) * dots)), round(radius * dots), shade, -1)
    cover = _covered(shot.gasket, shot.at, shot.turned, (wide, tall), dots)
    if shot.dpi:
        seen, over = (_scan(shot, sheet, by, dots) for sheet, by in ((page, shot.printed), (cover, (1.0, 1.0))))
        picture = seen * (1 - over) + shot.ink * over
    else:
        picture = _photograph(shot, page, cover, dots)
    rng = np.random.default_rng(shot.seed)
    picture = picture + rng.normal(0, shot.noise, picture.shape).astype(np.float32)
    picture = np.clip(picture, 0, 255).astype(np.uint8)
    return np.ascontiguousarray(np.rot90(picture[:, ::-1] if shot.mirrored else picture, shot.quarters))


def _scan(shot, sheet, printed, dots):
    scale = shot.dpi / 25.4
    wide, tall = FRAME[shot.paper]
    a = np.deg2rad(shot.roll or 1.3)
    turn = np.array([[np.cos(a), -np.sin(a), 0], [np.sin(a), np.cos(a), 0], [0, 0, 1]])
    corners = turn @ np.array([[0, wide, 0, wide], [0, 0, tall, tall], [1, 1, 1, 1]]) * scale
    shift = np.array([[1, 0, 12 - corners[0].min()], [0, 1, 12 - corners[1].min()], [0, 0, 1]])
    stretch = np.diag([scale, scale, 1])
    grown = np.array([[printed[0], 0, 0], [0, printed[1], tall * (1 - printed[1])], [0, 0, 1]])
    whole = (
        shift
        @ stretch
        @ turn
        @ grown
        @ np.diag([1 / dots, 1 / dots, 1])
        @ np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, 1]])
    )
    whole = np.array([[1, 0, -0.5], [0, 1, -0.5], [0, 0, 1]]) @ whole
    size = tuple(int(np.ptp(c) * 1.01 + 24) for c in corners[:2])
    soft = cv2.GaussianBlur(sheet, (0, 0), shot.blur * dots / scale)
    return cv2.warpPerspective(soft, whole, size, flags=cv2.INTER_LINEAR, borderValue=240.0 if sheet.max() > 1 else 0.0)


def _photograph(shot, page, cover, dots):
    """Seen through a lens: for each dot of the picture, where its ray meets the sheet and the gasket's faces."""
    width, height = shot.size
    wide, tall = FRAME[shot.paper]
    focal = 0.75 * max(shot.size)
    middle = np.array([wide / 2 + shot.more.get("aside", 0.0), tall / 2, 0.0])
    (a, b), c = np.deg2rad(shot.tilt), np.deg2rad(shot.roll)
    about = [
        np.array([[1, 0, 0], [0, np.cos(a), -np.sin(a)], [0, np.sin(a), np.cos(a)]]),
        np.array([[np.cos(b), 0, np.sin(b)], [0, 1, 0], [-np.sin(b), 0, np.cos(b)]]),
        np.array([[np.cos(c), -np.sin(c), 0], [np.sin(c), np.cos(c), 0], [0, 0, 1]]),
    ]
    turn = about[0] @ about[1] @ about[2]
    eye = middle + turn @ np.array([0.0, 0.0, shot.height])
    x, y = np.arange(width, dtype=np.float32)[None], np.arange(height, dtype=np.float32)[:, None]
    u, v = (x - (width - 1) / 2) / focal, -(y - (height - 1) / 2) / focal
    bend = np.float32(1) + np.float32(shot.lens) * (u * u + v * v)
    ray = [(float(row[0]) * u + float(row[1]) * v) * bend - float(row[2]) for row in turn]
    lean = [ray[0] / ray[2], ray[1] / ray[2]]
    ex, ey, ez = map(float, eye)

    def met(z, printed=(1.0, 1.0)):
        """Where the rays are at a height over the sheet, in dots of the page, which the printer drew larger or smaller."""
        there = [e + (z - ez) * way for e, way in zip((ex, ey), lean, strict=True)]
        if shot.curl:
            up = (z - ez) + raised(shot, *there, wide, tall)
            there = [e + up * way for e, way in zip((ex, ey), lean, strict=True)]
        return there[0] * (dots / printed[0]) - 0.5, (tall - there[1]) * (dots / printed[1]) - 0.5

    dot = shot.height / focal * dots  # of the picture, in dots of the page
    soft = cv2.GaussianBlur(page, (0, 0), shot.blur * dot)
    seen = cv2.remap(soft, *met(0.0, shot.printed), cv2.INTER_LINEAR, borderValue=shot.more.get("table", 150.0))
    covers = cv2.GaussianBlur(cover, (0, 0), shot.blur * dot)
    over = np.max(
        [
            cv2.remap(covers, *met(z), cv2.INTER_LINEAR, borderValue=0.0)
            for z in np.linspace(0, shot.thick, 3 if shot.thick else 1).tolist()
        ],
        axis=0,
    )
    light = 1 - shot.shadow[0] * x / width - shot.shadow[1] * y / height
    picture = (seen * (1 - over) + shot.ink * over) * light * (shot.more.get("white", 0.92) / light.max())
    for gx, gy, wide_ in shot.glare:
        px, py = met(0.0)
        picture += 120 * np.exp(-(((px / dots - gx) ** 2 + (py / dots - (tall - gy)) ** 2) / wide_**2))
    return picture


def raised(shot, x, y, wide, tall):
    """How far the curled sheet lies up at a place [mm]."""
    a, b = (x - wide / 2) / (wide / 2), (y - tall / 2) / (tall / 2)
    return shot.curl * CURLS[shot.curls](a, b)


CURLS = {
    "sides": lambda a, _: a * a,
    "ends": lambda _, b: b * b,
    "bowed": lambda a, _: 1 - a * a,
    "askew": lambda a, b: ((a + b) / 2) ** 2,
    "a corner": lambda a, b: np.clip(a + b - 0.5, 0, None) ** 2 / 2.25,
    "waves": lambda a, _: (1 - np.cos(2 * np.pi * a)) / 2,
}


def write(shot, pdf, path, dots=16):
    """Take a picture and write it, JPEG at 70."""
    cv2.imwrite(str(path), taken(shot, pdf, dots), [cv2.IMWRITE_JPEG_QUALITY, 70])
    return path

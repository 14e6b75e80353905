"""The frame's rings found in a picture, and which of them is which."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt
from typing import TYPE_CHECKING

import numpy as np

from parts.errors import Fault, JobError
from parts.sheets.frame import BAND, RING, Frame
from parts.tracing.camera import CORNER, fitted, homography, through
from parts.tracing.contours import Contour, contours, levelled
from parts.tracing.rise import Rise

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from parts.tracing.camera import Camera
    from parts.tracing.contours import Points
    from parts.tracing.picture import Picture

LEVEL = 0.55  # of the paper's light: the edge of black ink
HOLE = (1 - BAND / RING) ** 2  # area of a ring's white middle over that of the whole
ROUND = 0.62  # 4 pi area / length^2, of a ring seen at 50 degrees
WINDOW = 1 / 14  # of the picture's longer side: wider than a ring, narrower than the light changes
REACHES = (26.0, 9.0, 2.5)  # mm within which a ring is taken for a mark, ever better known
LARGE = 5_000_000  # dots: in a larger picture the rings are found at half its size
WHITE, BURNT = 0.98, 0.1  # shade that is as light as can be; share of the picture from which it counts
HALVED = 0.25  # dots^2 of blur, that the mean of four dots adds
LEAST, SURE = 4, 12  # rings that are enough; so many on their places of one sheet are those of no other
CURLED = (
    0.5  # of what the rings miss by in a plane, below which the sheet is taken as curled: on a flat one it is over 0.9
)
SMUDGED = 0.35  # mm that a ring may be missed by: one that misses more is left out


@dataclass(frozen=True)
class Ring:
    """A ring as seen, by the edges of its line [dots]."""

    outer: Contour
    inner: Contour

    @property
    def middle(self) -> Points:
        """Middle of it."""
        return self.outer.middle

    @property
    def area(self) -> float:
        """Area of it with its white middle."""
        return abs(self.outer.area)


@dataclass(frozen=True)
class Found:
    """The marks that were found."""

    frame: Frame
    numbers: list[int]
    """of the frame's rings, in their order there"""
    seen: Points
    """the middle of each [dots]"""
    size: tuple[int, int]
    """of the picture"""
    blur: float
    """of the picture, the standard deviation as a square [mm^2]"""
    burnt: bool
    """the lightest is as light as a picture can be, over much of it"""


@dataclass(frozen=True)
class Laid:
    """How the sheet lies in the picture."""

    camera: Camera
    rms: float
    """root mean square of what the rings miss their places by [mm]"""

    @property
    def up(self) -> float:
        """How far the sheet curls up, or down [mm]; 0 of one that lies as well in a plane."""
        return self.camera.rise.most if self.camera.rise else 0.0


def find_marks(picture: Picture) -> Found:
    """Find the frame's marks; JobError where it is not in the picture, or too few of its rings are."""
    found = rings(picture.shades)
    if len(found) < LEAST:
        raise JobError(Fault("", _none(len(found))))
    tries = [_matched(found, Frame("A4"))]
    if len(tries[0][0]) < SURE:
        tries.append(_matched(found, Frame("Letter")))
    pairs, frame, _ = max(tries, key=lambda tried: (len(tried[0]), -tried[2]))
    if len(pairs) < LEAST or len(pairs) < len(found) / 2:
        raise JobError(Fault("", _none(len(pairs))))
    size = (picture.shades.shape[1], picture.shades.shape[0])
    while True:
        marks = np.array([frame.rings[n] for _, n in pairs])
        seen = np.array([found[r].middle for r, _ in pairs])
        camera, misses = fitted(marks, RING, seen, size)
        off = np.hypot(*misses.T)
        worst = int(off.argmax())
        if len(pairs) <= LEAST + 2 or off[worst] <= max(SMUDGED, 4 * float(np.median(off))):
            break
        del pairs[worst]
    halved = (picture.shades.size > LARGE) * HALVED * camera.dot(np.array(frame.rings).mean(axis=0)) ** 2
    blur = blur_of(camera, [found[r] for r, _ in pairs], halved)
    burnt = float(np.mean(picture.shades[::8, ::8] > WHITE)) > BURNT
    return Found(frame, [n for _, n in pairs], seen, size, blur, burnt)


def lay(found: Found, scale: Points, focal: float | None) -> Laid:
    """Fit a camera for the sheet as it was printed, so much wider and longer; curled where that fits far better.

    Seen aslant, a place that lies up is seen elsewhere, and everywhere one that lies up is seen larger.
    """
    marks, half = np.array(found.frame.rings)[found.numbers] * scale, np.array(found.frame.size) * scale / 2
    camera, misses = fitted(marks, RING, found.seen, found.size)
    flat = Laid(camera, float(np.sqrt(np.mean(np.sum(misses**2, axis=1)))))
    if len(marks) < SURE:
        return flat
    for _ in range(2):  # the lens's place is better known the second time
        camera, misses = fitted(marks, RING, found.seen, found.size, Rise(camera.eye(focal), half, half))
    curled = Laid(camera, float(np.sqrt(np.mean(np.sum(misses**2, axis=1)))))
    return curled if curled.rms < CURLED * flat.rms else flat


def _none(count: int) -> str:
    return (
        f"the frame of topend frame is not in the picture: {count} of its rings were found and {LEAST} are the least; "
        "is it sharp, the sheet whole in it, and the light even?"
    )


def rings(shades: NDArray[np.float32]) -> list[Ring]:
    """Every black ring with a white middle of the right size."""
    halved = shades.size > LARGE
    if halved:
        height, width = (n // 2 for n in shades.shape)
        shades = shades[: 2 * height, : 2 * width].reshape(height, 2, width, 2).mean(axis=(1, 3))
    flat = levelled(shades, int(max(shades.shape) * WINDOW))
    lines = sorted((c for c in contours(flat, LEVEL)[0] if _roundness(c) > ROUND), key=lambda c: abs(c.area))
    if halved:
        lines = [Contour(2 * line.points + 0.5) for line in lines]
    found = []
    for n, outer in enumerate(lines):
        inner = [c for c in lines[:n] if _within(c, outer) and _concentric(c, outer)]
        if inner:
            found.append(Ring(outer, inner[-1]))
    return found


def blur_of(camera: Camera, rings: list[Ring], halved: float) -> float:
    """How far the picture is blurred, the standard deviation as a square [mm^2]; `halved`: what halving it added.

    The half-way shade of a blurred round edge lies nearer to its middle by the square over twice the radius; ink that
    ran makes a ring wider outward and inward alike, which drops out of the sum.
    """
    sums = []
    for ring in rings:
        outer, inner = (sqrt(abs(Contour(camera.sheet(line.points)).area) / pi) for line in (ring.outer, ring.inner))
        sums.append((RING - outer) + (RING - BAND - inner))
    square = float(np.median(sums)) / (1 / (2 * RING) + 1 / (2 * (RING - BAND)))
    return max(0.0, square - halved)


def _roundness(line: Contour) -> float:
    return 4 * np.pi * abs(line.area) / line.length**2


def _within(inner: Contour, outer: Contour) -> bool:
    (a, b, c, d), (e, f, g, h) = outer.box, inner.box
    return a < e and b < f and c > g and d > h


def _concentric(inner: Contour, outer: Contour) -> bool:
    off, share = np.hypot(*(inner.middle - outer.middle)), abs(inner.area / outer.area)
    return bool(off < 0.12 * np.sqrt(abs(outer.area) / np.pi) and 0.55 * HOLE < share < 1.6 * HOLE)


def _matched(found: list[Ring], frame: Frame) -> tuple[list[tuple[int, int]], Frame, float]:
    """Pairs of a ring and the number of its mark: of all ways to lay two rings on two marks the one that fits most."""
    seen, marks = np.array([r.middle for r in found]), np.array(frame.rings)
    dots = np.sqrt(np.median([r.area for r in found]) / np.pi) / RING  # to a mm
    best: tuple[list[tuple[int, int]], Frame, float] = ([], frame, np.inf)
    tried: set[tuple[tuple[int, int], ...]] = set()
    for plane in _ways(seen, marks, dots):
        pairs = _near(plane @ marks.T, seen, REACHES[0] * dots)
        if len(pairs) < LEAST or len(pairs) < len(best[0]) * 0.7 or tuple(pairs) in tried:
            continue
        tried.add(tuple(pairs))
        pairs, off = _closer(pairs, seen, marks, found)
        if (len(pairs), -off) > (len(best[0]), -best[2]):
            best = (pairs, frame, off)
        if len(best[0]) == min(len(found), len(marks)) and best[2] < 0.1:  # noqa: PLR2004 - mm
            break
    return best


class Way:
    """A move, turn and scale, maybe mirrored, as a function on columns of points."""

    def __init__(self, turn: complex, shift: complex, *, mirrored: bool) -> None:
        self.turn, self.shift, self.mirrored = turn, shift, mirrored

    def __matmul__(self, columns: Points) -> Points:
        """Carry points."""
        z = columns[0] + 1j * columns[1]
        z = self.turn * (z.conj() if not self.mirrored else z) + self.shift
        return np.stack([z.real, z.imag], axis=1)


def _ways(seen: Points, marks: Points, dots: float) -> list[Way]:
    """Ways to lay two marks on two rings, without much change of scale, furthest pairs first."""
    ways = []
    a, b = (p[:, 0] + 1j * p[:, 1] for p in (seen, marks))
    first = [(abs(a[i] - a[j]), i, j) for i in range(len(a)) for j in range(len(a)) if i != j]
    for apart, i, j in sorted(first, reverse=True)[:24]:
        for k in range(len(b)):
            for m in range(len(b)):
                if k != m and 0.7 < apart / (dots * abs(b[k] - b[m])) < 1.4:  # noqa: PLR2004
                    for mirrored in (False, True):
                        p, q = (b[n] if mirrored else b[n].conjugate() for n in (k, m))
                        turn = (a[i] - a[j]) / (p - q)
                        ways.append(Way(turn, a[i] - turn * p, mirrored=mirrored))
    return ways


def _near(there: Points, seen: Points, reach: float) -> list[tuple[int, int]]:
    """Each ring with the mark nearest to it, and that mark's nearest ring is that one."""
    apart = np.hypot(seen[:, None, 0] - there[None, :, 0], seen[:, None, 1] - there[None, :, 1])
    mark, ring = apart.argmin(axis=1), apart.argmin(axis=0)
    return [(r, int(m)) for r, m in enumerate(mark) if ring[m] == r and apart[r, m] < reach]


def _closer(
    pairs: list[tuple[int, int]], seen: Points, marks: Points, found: list[Ring]
) -> tuple[list[tuple[int, int]], float]:
    """Pair again by the perspective that the pairs make, ever closer; and how far they miss at the end [mm]."""
    off = np.inf
    for reach in REACHES[1:]:
        if len(pairs) < LEAST:
            return [], np.inf
        back = homography(seen[[r for r, _ in pairs]], marks[[m for _, m in pairs]])
        lying = through(back, seen)
        apart = np.hypot(lying[:, None, 0] - marks[None, :, 0], lying[:, None, 1] - marks[None, :, 1])
        mark, ring = apart.argmin(axis=1), apart.argmin(axis=0)
        pairs = [
            (r, int(m)) for r, m in enumerate(mark) if ring[m] == r and apart[r, m] < reach and _of_size(back, found[r])
        ]
        off = float(np.mean([apart[r, m] for r, m in pairs])) if pairs else np.inf
    return pairs, off


def _of_size(back: NDArray[np.float64], ring: Ring) -> bool:
    """Whether a ring is as large as a mark would be there."""
    lying = through(back, ring.middle + CORNER)
    area = abs(np.linalg.det(lying[1:] - lying[0])) * ring.area
    return bool(0.7 < area / (np.pi * RING**2) < 1.4)  # noqa: PLR2004

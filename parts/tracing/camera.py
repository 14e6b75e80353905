"""How the sheet came to lie in the picture: perspective, scale, and the bend of the lens."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from parts.tracing.contours import Points
    from parts.tracing.rise import Rise

ROUND = np.linspace(0, 2 * np.pi, 24, endpoint=False)
ENOUGH = 8  # marks from which on the bend of the lens is fitted too
STEPS, STEP, CLOSE = 30, 1e-6, 1e-9  # of the fit: rounds at most, change by which slopes are told, last change
CORNER = np.array([(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)])
"""a point, and one beside it each way"""
ROUNDS = 12  # by which the bend of a lens is undone
USUAL_FOCAL, USUAL = 0.75, 0.15  # of the longer side, and its spread: a telephone's main camera (memory)
TOLD = 0.05  # spread of what a file tells: whole mm, and the picture may be cut to another form (memory)
FOCALS = -0.7, 1.2, 381  # logarithms of the share of the likely one, from and to, and how many are tried
TRUE = 1e-3  # that squares may be off by on paper whose two lengths were measured


@dataclass(frozen=True)
class Camera:
    """From mm on the sheet, Y up, to dots of the picture, y down."""

    plane: NDArray[np.float64]
    """3 x 3, from the sheet to the picture of a lens that bends nothing"""
    bend: tuple[float, float]
    """k1 and k2 of Brown's model, the radius as a share of half the diagonal"""
    size: tuple[int, int]
    """of the picture: width, height"""
    rise: Rise | None = None
    """of a sheet that curls"""

    @property
    def middle(self) -> Points:
        """Middle of the picture [dots]."""
        return np.asarray((np.array(self.size, dtype=np.float64) - 1) / 2)

    @property
    def reach(self) -> float:
        """Half the diagonal [dots]."""
        return float(np.hypot(*self.size)) / 2

    def picture(self, points: Points) -> Points:
        """Where points of the sheet are seen."""
        flat = through(self.plane, self.rise.flat(points) if self.rise else points)
        off = (flat - self.middle) / self.reach
        square = np.sum(off**2, axis=1, keepdims=True)
        return np.asarray(self.middle + (flat - self.middle) * (1 + self.bend[0] * square + self.bend[1] * square**2))

    def sheet(self, points: Points) -> Points:
        """Which points of the sheet are seen there."""
        bent = (points - self.middle) / self.reach
        flat: NDArray[np.float64] = np.asarray(bent, dtype=np.float64)
        for _ in range(ROUNDS):
            square = np.sum(flat**2, axis=1, keepdims=True)
            flat = bent / (1 + self.bend[0] * square + self.bend[1] * square**2)
        back: NDArray[np.float64] = np.linalg.inv(self.plane).astype(np.float64)
        seen = through(back, np.asarray(flat * self.reach + self.middle, dtype=np.float64))
        return self.rise.back(seen) if self.rise else seen

    def dot(self, at: Points) -> float:
        """Size of a dot at a place of the sheet [mm]."""
        steps = at + CORNER
        seen = self.picture(steps)
        return 1 / float(np.sqrt(abs(np.linalg.det(seen[1:] - seen[0]))))

    @property
    def mirrored(self) -> bool:
        """Whether the picture is a mirror image."""
        return bool(np.linalg.det(self.plane) > 0)

    def tilt(self, sides: tuple[float, float]) -> float:
        """By how much the scale changes over a sheet of these sides, as a share."""
        a, b = self.plane[2, :2] / self.plane[2, 2]
        return float(abs(a) * sides[0] + abs(b) * sides[1])

    def eye(self, focal: float | None) -> NDArray[np.float64]:
        """Where the lens was: X, Y and height [mm]; by the focal length that the file tells, if it does [dots]."""
        plane = np.array([[1, 0, -self.middle[0]], [0, 1, -self.middle[1]], [0, 0, 1]]) @ self.plane
        f = _focal(plane, focal or USUAL_FOCAL * max(self.size), TOLD if focal else USUAL)
        a, b, c = (np.diag([1 / f, 1 / f, 1.0]) @ plane).T
        scale = (np.linalg.norm(a) + np.linalg.norm(b)) / 2
        a, b, c = a / scale, b / scale, c / scale
        turn = np.stack([a, b, np.cross(a, b)], axis=1)
        eye = -np.linalg.inv(turn) @ c
        return np.array([eye[0], eye[1], abs(eye[2])])


def _focal(plane: NDArray[np.float64], likely: float, spread: float) -> float:
    """Focal length by which the sheet's sides are square and of one scale, as far as its tilt tells it [dots].

    What is likely is as good a witness as its spread, a share; the sheet's sides are as good as paper is true.
    """
    a, b = plane[:, 0], plane[:, 1]
    f = likely * np.exp(np.linspace(*FOCALS))
    one, other = ((v[0] ** 2 + v[1] ** 2) / f**2 + v[2] ** 2 for v in (a, b))
    askew = 2 * ((a[0] * b[0] + a[1] * b[1]) / f**2 + a[2] * b[2]) / (one + other)
    uneven = (one - other) / (one + other)
    return float(f[np.argmin((askew**2 + uneven**2) / TRUE**2 + (np.log(f / likely) / spread) ** 2)])


def through(plane: NDArray[np.float64], points: Points) -> Points:
    """Carry points by a 3 x 3 matrix; those on its horizon lie nowhere."""
    seen = np.column_stack([points, np.ones(len(points))]) @ plane.T
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(seen[:, :2] / seen[:, 2:])


def homography(sheet: Points, picture: Points) -> NDArray[np.float64]:
    """The 3 x 3 matrix that carries four or more points of a plane to those of another, by least squares.

    By the normalised direct linear transformation: Hartley and Zisserman, Multiple View Geometry, algorithm 4.2.
    """
    (a, ta), (b, tb) = _normal(sheet), _normal(picture)
    rows = []
    for (x, y), (u, v) in zip(a, b, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y, -u], [0, 0, 0, x, y, 1, -v * x, -v * y, -v]]
    plane = np.linalg.svd(np.array(rows))[2][-1].reshape(3, 3)
    plane = np.linalg.inv(tb) @ plane @ ta
    return np.asarray(plane / plane[2, 2])


def _normal(points: Points) -> tuple[Points, NDArray[np.float64]]:
    middle = points.mean(axis=0)
    scale = np.sqrt(2) / np.hypot(*(points - middle).T).mean()
    return (points - middle) * scale, np.array(
        [[scale, 0, -scale * middle[0]], [0, scale, -scale * middle[1]], [0, 0, 1]]
    )


def fitted(
    marks: Points, radius: float, seen: Points, size: tuple[int, int], rise: Rise | None = None
) -> tuple[Camera, Points]:
    """Fit a camera to the middles of the marks' pictures [dots]; also by how much each is missed [mm].

    A circle's picture has its middle beside the picture of the circle's middle: whole circles are compared. With a rise
    its heights are fitted too.
    """
    plane = homography(marks, seen).ravel()[:8]
    values = np.append(plane, np.zeros(5))
    scales = np.concatenate([np.maximum(np.abs(plane), [1e-9] * 6 + [1e-5] * 2), [0.01, 0.01, 1.0, 1.0, 1.0]])
    bends = 0 if len(marks) < ENOUGH else 1 if len(marks) <= ENOUGH + 2 else 2
    free = np.r_[: 8 + bends, 10 : 13 if rise else 10]

    def camera(values: NDArray[np.float64]) -> Camera:
        risen = rise and replace(rise, bent=(float(values[10]), float(values[11]), float(values[12])))
        return Camera(np.append(values[:8], 1.0).reshape(3, 3), (float(values[8]), float(values[9])), size, risen)

    def miss(values: NDArray[np.float64]) -> NDArray[np.float64]:
        return (_middles(camera(values), marks, radius) - seen).ravel()

    for _ in range(STEPS):
        off = miss(values)
        slopes = np.stack([(miss(values + step) - off) / STEP for step in (STEP * np.diag(scales))[free]], axis=1)
        change = np.linalg.lstsq(slopes, -off, rcond=None)[0]
        values[free] += change * scales[free]
        if np.all(np.abs(change) < CLOSE):
            break
    found = camera(values)
    return found, miss(values).reshape(-1, 2) * np.array([[found.dot(mark)] for mark in marks])


def _middles(camera: Camera, marks: Points, radius: float) -> Points:
    """Middles of the pictures of circles."""
    circle = radius * np.stack([np.cos(ROUND), np.sin(ROUND)], axis=1)
    seen = camera.picture((marks[:, None] + circle).reshape(-1, 2)).reshape(len(marks), -1, 2)
    x, y = seen[..., 0] - seen[:, :1, 0], seen[..., 1] - seen[:, :1, 1]
    cross = x * np.roll(y, -1, axis=1) - np.roll(x, -1, axis=1) * y
    area = cross.sum(axis=1)
    middle = [((v + np.roll(v, -1, axis=1)) * cross).sum(axis=1) / (3 * area) for v in (x, y)]
    return np.asarray(np.stack(middle, axis=1) + seen[:, 0])

"""A z-buffer in plain array arithmetic: no GL, no matrix library, so the same dots on every processor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from parts.pictures.mesh import unit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from parts.pictures.camera import Camera, Vector
    from parts.pictures.mesh import Floats, Ints, Mesh

    Picture = NDArray[np.uint8]
    Singles = NDArray[np.float32]

SIZE = (720, 480)
MARGIN = 26  # dots
SAMPLES = 2  # each way, of a dot
PAPER = (247, 246, 242)
INK = (38, 40, 44)
KEY: Vector = (-0.42, 0.66, 0.62)  # the lights, as seen from the eye
FILL: Vector = (0.80, 0.10, 0.59)
BELOW = (np.s_[:-1, :], np.s_[1:, :])  # each sample and the one below it
BESIDE = (np.s_[:, :-1], np.s_[:, 1:])  # each sample and the one on its right
JUMP = 0.05  # of the picture's depth: a step that counts as an outline


@dataclass(frozen=True, slots=True)
class Scene:
    """All triangles as the camera sees them: x to the right, y down [samples], z towards the eye [mm]."""

    x: Floats
    y: Floats
    z: Floats
    normals: Singles
    triangles: Ints
    faces: Ints
    colors: Singles
    """(m, 3) of each triangle"""


def render(meshes: Sequence[Mesh], camera: Camera, size: tuple[int, int] = SIZE) -> Picture:
    """Return the picture (height, width, 3), no larger than `size` and trimmed to what it shows."""
    scene, (width, height) = _scene(meshes, camera, size)
    seen = _nearest(scene, width, height)
    picture = _shaded(scene, seen, width * height)
    picture[_outlines(scene, seen, width, height)] = INK
    fine = picture.reshape(height, width, 3)
    dots = sum(fine[n::SAMPLES, m::SAMPLES].astype(np.uint16) for n in range(SAMPLES) for m in range(SAMPLES))
    return np.asarray((dots + SAMPLES**2 // 2) // SAMPLES**2, dtype=np.uint8)


def _scene(meshes: Sequence[Mesh], camera: Camera, size: tuple[int, int]) -> tuple[Scene, tuple[int, int]]:
    first = np.cumsum([0, *(len(m.points) for m in meshes)])
    base = np.cumsum([0, *(m.faces.max() + 1 for m in meshes)])
    points = _seen(np.concatenate([m.points for m in meshes]), camera)
    low, high = points.min(axis=0), points.max(axis=0)
    scale = min((size[n] - 2 * MARGIN) / max(high[n] - low[n], 1e-9) for n in (0, 1)) * SAMPLES
    wide, tall = (int((high[n] - low[n]) * scale / SAMPLES + 2 * MARGIN) * SAMPLES for n in (0, 1))
    scene = Scene(
        (points[:, 0] - low[0]) * scale + MARGIN * SAMPLES,
        (high[1] - points[:, 1]) * scale + MARGIN * SAMPLES,
        points[:, 2] / max(high[2] - low[2], 1e-9),
        _seen(np.concatenate([m.normals for m in meshes]), camera).astype(np.float32),
        np.concatenate([m.triangles + n for m, n in zip(meshes, first, strict=False)]),
        np.concatenate([m.faces + n for m, n in zip(meshes, base, strict=False)]),
        np.concatenate([np.tile(np.array(m.color, dtype=np.float32), (len(m.triangles), 1)) for m in meshes]),
    )
    return scene, (wide, tall)


def _seen(vectors: Floats, camera: Camera) -> Floats:
    """Turn vectors into the camera's axes."""
    x, y, z = vectors[:, 0], vectors[:, 1], vectors[:, 2]
    return np.stack([x * a + y * b + z * c for a, b, c in camera], axis=1)


# which triangle is nearest --------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Seen:
    """What is nearest at each sample that shows anything."""

    place: Ints
    """of the sample, row by row"""
    triangle: Ints
    shares: tuple[Floats, Floats, Floats]
    """of the triangle's corners in that point"""
    depth: Floats


def _nearest(scene: Scene, width: int, height: int) -> Seen:
    triangle, row = _rows(scene, _towards(scene), height)
    first, last = _spans(scene, triangle, row, width)
    starts, slope = _depth(scene, triangle, _middle(first), _middle(row))
    where, along = _each(last - first + 1)
    place = (row * width + first)[where] + along
    depth = starts[where] + slope[where] * along
    nearest = np.full(width * height, -np.inf)
    np.maximum.at(nearest, place, depth)
    shown = np.full(width * height, -1, dtype=np.int64)
    won = depth == nearest[place]
    shown[place[won]] = triangle[where[won]]
    found = np.flatnonzero(shown >= 0)
    shares = _shares(scene, shown[found], _middle(found % width), _middle(found // width))
    return Seen(found, shown[found], shares, nearest[found])


def _middle(samples: Ints) -> Floats:
    """Middle of each sample along a row or a column."""
    return np.asarray(samples + 0.5, dtype=np.float64)


def _depth(scene: Scene, triangle: Ints, x: Floats, y: Floats) -> tuple[Floats, Floats]:
    """Depth of a triangle's plane at (x, y), and how much it grows from sample to sample along x."""
    corners = scene.triangles[triangle].T
    here, next_one = (_shares(scene, triangle, x + n, y) for n in (0, 1))
    z, beside = (
        sum(share * scene.z[corner] for share, corner in zip(shares, corners, strict=True))
        for shares in (here, next_one)
    )
    return np.asarray(z), np.asarray(beside - z)


def _towards(scene: Scene) -> Ints:
    """Triangles that face the eye."""
    (xa, ya), (xb, yb), (xc, yc) = ((scene.x[t], scene.y[t]) for t in scene.triangles.T)
    return np.flatnonzero((xb - xa) * (yc - ya) - (xc - xa) * (yb - ya) < -1e-9)  # noqa: PLR2004 - y runs down


def _each(counts: Ints) -> tuple[Ints, Ints]:
    """For counts 2, 0, 3 return 0 0 2 2 2 and 0 1 0 1 2."""
    counts = np.maximum(counts, 0)
    where = np.repeat(np.arange(len(counts)), counts)
    starts = np.concatenate([[0], np.cumsum(counts)[:-1]])
    return where, np.arange(len(where)) - starts[where]


def _rows(scene: Scene, front: Ints, height: int) -> tuple[Ints, Ints]:
    """Every row of samples that a triangle reaches over."""
    y = scene.y[scene.triangles[front]]
    first = np.clip(np.ceil(y.min(axis=1) - 0.5), 0, height).astype(np.int64)
    last = np.clip(np.floor(y.max(axis=1) - 0.5), -1, height - 1).astype(np.int64)
    where, step = _each(last - first + 1)
    return front[where], first[where] + step


def _spans(scene: Scene, triangle: Ints, row: Ints, width: int) -> tuple[Ints, Ints]:
    """First and last sample of a triangle in a row: where the row's middle crosses its sides."""
    middle = row + 0.5
    low, high = np.full(len(row), np.inf), np.full(len(row), -np.inf)
    corners = scene.triangles[triangle]
    for a, b in ((0, 1), (1, 2), (2, 0)):
        ya, yb = scene.y[corners[:, a]], scene.y[corners[:, b]]
        xa, xb = scene.x[corners[:, a]], scene.x[corners[:, b]]
        crossed = (np.minimum(ya, yb) <= middle) & (middle <= np.maximum(ya, yb)) & (ya != yb)
        at = xa + (middle - ya) / np.where(ya == yb, 1.0, yb - ya) * (xb - xa)
        low, high = np.where(crossed, np.minimum(low, at), low), np.where(crossed, np.maximum(high, at), high)
    found = low <= high
    first = np.where(found, np.clip(np.ceil(np.where(found, low, 0) - 0.5), 0, width), 1).astype(np.int64)
    last = np.where(found, np.clip(np.floor(np.where(found, high, 0) - 0.5), -1, width - 1), 0).astype(np.int64)
    return first, last


def _shares(scene: Scene, triangle: Ints, x: Floats, y: Floats) -> tuple[Floats, Floats, Floats]:
    """Share of each corner in a point of its triangle."""
    a, b, c = scene.triangles.T
    xa, ya, xb, yb, xc, yc = scene.x[a], scene.y[a], scene.x[b], scene.y[b], scene.x[c], scene.y[c]
    whole = (yb - yc) * (xa - xc) + (xc - xb) * (ya - yc)
    whole = np.where(whole == 0, 1.0, whole)
    sides = ((yb - yc) / whole, (xc - xb) / whole, (yc - ya) / whole, (xa - xc) / whole)
    x, y = x - xc[triangle], y - yc[triangle]
    p, q, r, s = (side[triangle] for side in sides)
    u, v = p * x + q * y, r * x + s * y
    return u, v, 1 - u - v


# light and lines ------------------------------------------------------------------------------------------------------


def _shaded(scene: Scene, seen: Seen, samples: int) -> Picture:
    normal = _normal(scene, seen)
    light = 0.36 + 0.56 * _lit(normal, KEY) + 0.20 * _lit(normal, FILL) + 0.06 * np.clip(normal[:, 2], 0, None)
    shine = _lit(normal, _half(KEY))
    for _ in range(5):
        shine = shine * shine  # to the power of 32, by multiplication alone
    picture = np.empty((samples, 3), dtype=np.uint8)
    picture[:] = PAPER
    color = np.float32(255) * scene.colors[seen.triangle] * light[:, None] + np.float32(70) * shine[:, None]
    picture[seen.place] = np.clip(color, 0, 255)
    return picture


def _normal(scene: Scene, seen: Seen) -> Singles:
    """Normal at each sample, between those of its triangle's corners."""
    corners = scene.triangles[seen.triangle].T
    shares = [share.astype(np.float32) for share in seen.shares]
    along = [sum(s * axis[c] for s, c in zip(shares, corners, strict=True)) for axis in scene.normals.T]
    return unit(np.stack(along, axis=1)).astype(np.float32)


def _lit(normal: Singles, light: Vector) -> Singles:
    length = (light[0] ** 2 + light[1] ** 2 + light[2] ** 2) ** 0.5
    x, y, z = (np.float32(v / length) for v in light)
    return np.asarray(np.clip(normal[:, 0] * x + normal[:, 1] * y + normal[:, 2] * z, 0, None))


def _half(light: Vector) -> Vector:
    """Half way between a light and the eye, where a surface shines."""
    return light[0], light[1], light[2] + 1.0


def _outlines(scene: Scene, seen: Seen, width: int, height: int) -> NDArray[np.bool_]:
    """Samples at which another face begins, or the same one further back."""
    face = np.full(width * height, -1, dtype=np.int32)
    near = np.full(width * height, -10, dtype=np.float32)
    face[seen.place], near[seen.place] = scene.faces[seen.triangle], seen.depth
    faces, nears = face.reshape(height, width), near.reshape(height, width)
    line = np.zeros((height, width), dtype=bool)
    for here, there in (BELOW, BESIDE):
        new = (faces[here] != faces[there]) | (np.abs(nears[here] - nears[there]) > JUMP)
        front = nears[here] >= nears[there]
        line[here] |= new & front
        line[there] |= new & ~front
    return line.reshape(-1)

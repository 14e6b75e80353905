"""A z-buffer in plain array arithmetic: no GL, no matrix library, so the same dots on every processor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

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
BAND = 64  # rows of samples that are worked out at a time: few enough that all of it stays near the processor
JUMP = 0.05  # of the picture's depth: a step that counts as an outline


@dataclass(frozen=True, slots=True)
class Scene:
    """All triangles as the camera sees them: x to the right, y down [samples], z towards the eye [mm]."""

    x: Floats
    y: Floats
    z: Floats
    normals: Sequence[Singles]
    """along x, y and z"""
    triangles: Ints
    faces: Ints
    colors: Singles
    """(3, m) of each triangle"""


def render(meshes: Sequence[Mesh], camera: Camera, size: tuple[int, int] = SIZE) -> Picture:
    """Return the picture (height, width, 3), no larger than `size` and trimmed to what it shows."""
    scene, (width, height) = _scene(meshes, camera, size)
    fine, line = _painted(scene, width, height)
    for channel, ink in zip(fine, INK, strict=True):
        channel[line] = ink
    samples = [fine[:, n::SAMPLES, m::SAMPLES] for n in range(SAMPLES) for m in range(SAMPLES)]
    dots = np.asarray(np.sum(samples, axis=0, dtype=np.uint16))
    return np.moveaxis((dots + SAMPLES**2 // 2) // SAMPLES**2, 0, 2).astype(np.uint8)


def _painted(scene: Scene, width: int, height: int) -> tuple[Picture, NDArray[np.bool_]]:
    """Red, green and blue of every sample, and where there is a line."""
    spans = _spans(scene, width, height)
    fine = np.full((3, height, width), np.array(PAPER, dtype=np.uint8)[:, None, None])
    line = np.zeros((height, width), dtype=bool)
    for top in range(0, height, BAND):
        band = slice(max(top - 1, 0), top + BAND)  # with the row above it, for the line between
        rows = range(height)[band]
        seen = _nearest(scene, spans, width, rows)
        for channel, color in zip(fine, _shaded(scene, seen), strict=True):
            channel[band].reshape(-1)[seen.place] = color
        line[band] |= _outlines(scene, seen, width, len(rows))
    return fine, line


def _scene(meshes: Sequence[Mesh], camera: Camera, size: tuple[int, int]) -> tuple[Scene, tuple[int, int]]:
    first = np.cumsum([0, *(len(m.points) for m in meshes)])
    base = np.cumsum([0, *(m.faces.max() + 1 for m in meshes)])
    x, y, z = _seen(np.concatenate([m.points for m in meshes]), camera)
    low, high = [v.min() for v in (x, y, z)], [v.max() for v in (x, y, z)]
    scale = min((size[n] - 2 * MARGIN) / max(high[n] - low[n], 1e-9) for n in (0, 1)) * SAMPLES
    wide, tall = (int((high[n] - low[n]) * scale / SAMPLES + 2 * MARGIN) * SAMPLES for n in (0, 1))
    scene = Scene(
        (x - low[0]) * scale + MARGIN * SAMPLES,
        (high[1] - y) * scale + MARGIN * SAMPLES,
        z / max(high[2] - low[2], 1e-9),
        [v.astype(np.float32) for v in _seen(np.concatenate([m.normals for m in meshes]), camera)],
        np.concatenate([m.triangles + n for m, n in zip(meshes, first, strict=False)]),
        np.concatenate([m.faces + n for m, n in zip(meshes, base, strict=False)]),
        np.repeat(np.array([m.color for m in meshes], dtype=np.float32).T, [len(m.triangles) for m in meshes], axis=1),
    )
    return scene, (wide, tall)


def _seen(vectors: Floats, camera: Camera) -> list[Floats]:
    """Turn vectors into the camera's axes."""
    x, y, z = vectors.T
    return [x * a + y * b + z * c for a, b, c in camera]


# which triangle is nearest --------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Spans:
    """Rows of samples, a triangle each: from which column to which it reaches, and how deep."""

    triangle: Ints
    row: Ints
    first: Ints
    last: Ints
    depth: Floats
    """at the first"""
    slope: Floats
    """from each sample to the next"""


@dataclass(frozen=True, slots=True)
class Seen:
    """What is nearest at each sample of a band of rows that shows anything."""

    place: Ints
    """of the sample in the band, row by row"""
    triangle: Ints
    shares: tuple[Floats, Floats, Floats]
    """of the triangle's corners in that point"""
    depth: Floats


def _spans(scene: Scene, width: int, height: int) -> Spans:
    triangle, row = _rows(scene, _towards(scene), height)
    first, last = _ends(scene, triangle, row, width)
    return Spans(triangle, row, first, last, *_depth(scene, triangle, _middle(first), _middle(row)))


def _nearest(scene: Scene, spans: Spans, width: int, rows: range) -> Seen:
    there = np.flatnonzero((spans.row >= rows.start) & (spans.row < rows.stop))
    first = spans.first[there]
    which, along = _each(spans.last[there] - first + 1)
    span = there[which]
    place = ((spans.row[there] - rows.start) * width + first)[which] + along
    depth = spans.depth[span] + spans.slope[span] * along
    nearest = np.full(width * len(rows), -np.inf)
    np.maximum.at(nearest, place, depth)
    shown = np.full(width * len(rows), -1, dtype=np.int64)
    won = depth == nearest[place]
    shown[place[won]] = spans.triangle[span[won]]
    found = np.flatnonzero(shown >= 0)
    shares = _shares(scene, shown[found], _middle(found % width), _middle(found // width + rows.start))
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


def _ends(scene: Scene, triangle: Ints, row: Ints, width: int) -> tuple[Ints, Ints]:
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


def _shaded(scene: Scene, seen: Seen) -> Iterator[Singles]:
    """Red, green and blue of each sample, 0 to 255."""
    normal = _normal(scene, seen)
    light = 0.36 + 0.56 * _lit(normal, KEY) + 0.20 * _lit(normal, FILL) + 0.06 * np.clip(normal[2], 0, None)
    shine = _lit(normal, _half(KEY))
    for _ in range(5):
        shine = shine * shine  # to the power of 32, by multiplication alone
    for share in scene.colors:
        yield np.clip((np.float32(255) * share)[seen.triangle] * light + np.float32(70) * shine, 0, 255)


def _normal(scene: Scene, seen: Seen) -> list[Singles]:
    """Normal at each sample, between those of its triangle's corners."""
    corners = [corner[seen.triangle] for corner in scene.triangles.T]
    shares = [share.astype(np.float32) for share in seen.shares]
    x, y, z = (sum(s * axis[c] for s, c in zip(shares, corners, strict=True)) for axis in scene.normals)
    length = np.sqrt(x**2 + y**2 + z**2)
    return [axis / np.where(length > 0, length, np.float32(1)) for axis in (x, y, z)]


def _lit(normal: Sequence[Singles], light: Vector) -> Singles:
    length = (light[0] ** 2 + light[1] ** 2 + light[2] ** 2) ** 0.5
    x, y, z = (np.float32(v / length) for v in light)
    return np.asarray(np.clip(normal[0] * x + normal[1] * y + normal[2] * z, 0, None))


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
    return line

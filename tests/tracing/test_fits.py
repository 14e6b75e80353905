"""Circles and perspective by least squares, against the bias of plain fits in print and against OpenCV."""

import cv2
import numpy as np
import pytest

from parts.sheets.frame import RING, Frame
from parts.tracing.camera import fitted, homography, through
from parts.tracing.loops import circle

MARKS = np.array(Frame("A4").rings)


def test_a_clean_circle_is_exact():
    angle = np.linspace(0.3, 2.0, 40)
    found = circle(np.stack([3 + 7 * np.cos(angle), -2 + 7 * np.sin(angle)], axis=1))
    assert (found.x, found.y, found.radius) == pytest.approx((3, -2, 7))
    assert found.worst == pytest.approx(0, abs=1e-9)


def test_no_heavy_bias_on_a_noisy_arc():
    """Taubin 1991, Chernov 2010: on a short arc the plain fit of x^2 + y^2 (Kasa) comes out far too small, Taubin's hardly.

    A quarter of a circle, noise of 1/50 of its radius, mean of 400.
    """
    rng = np.random.default_rng(11)
    ours, plain = [], []
    for _ in range(400):
        angle = np.linspace(0, np.pi / 2, 60)
        points = np.stack([np.cos(angle), np.sin(angle)], axis=1) + rng.normal(0, 0.02, (60, 2))
        ours.append(circle(points).radius)
        a, b, c = np.linalg.lstsq(np.column_stack([2 * points, np.ones(60)]), np.sum(points**2, axis=1), rcond=None)[0]
        plain.append(np.sqrt(c + a * a + b * b))
    assert abs(np.mean(ours) - 1) < 0.006
    assert np.mean(plain) - 1 < -0.008


def test_perspective_is_opencv_s_own():
    rng = np.random.default_rng(5)
    true = np.array([[11, 0.8, 300], [-0.5, -12, 3900], [2e-4, -1e-4, 1]])
    seen = through(true, MARKS)
    assert homography(MARKS, seen) == pytest.approx(cv2.findHomography(MARKS, seen, 0)[0], rel=1e-6, abs=1e-9)
    noisy = seen + rng.normal(0, 0.3, seen.shape)
    ours, theirs = homography(MARKS, noisy), cv2.findHomography(MARKS, noisy, 0)[0]
    assert through(ours, MARKS) == pytest.approx(through(theirs, MARKS), abs=0.05)


def test_the_bend_of_a_lens_is_found_and_undone():
    """Points through OpenCV's own camera, radial terms k1 and k2; a circle's picture has its middle beside its centre."""
    size = (3024, 4032)
    focal, middle = 3000.0, (np.array(size) - 1) / 2
    inner = np.array([[focal, 0, middle[0]], [0, focal, middle[1]], [0, 0, 1]])
    turn, shift = np.array([2.85, 0.1, 0.2]), np.array([-100.0, 150.0, 420.0])

    def seen(points):
        return cv2.projectPoints(
            np.column_stack([points, np.zeros(len(points))]), turn, shift, inner, np.array([0.08, -0.03, 0, 0])
        )[0][:, 0]

    angle = np.linspace(0, 2 * np.pi, 400, endpoint=False)
    middles = []
    for mark in MARKS:
        ring = seen(mark + RING * np.stack([np.cos(angle), np.sin(angle)], axis=1))
        moments = cv2.moments((ring - ring[0]).astype(np.float32))
        middles.append(ring[0] + np.array([moments["m10"], moments["m01"]]) / moments["m00"])
    camera, misses = fitted(MARKS, RING, np.array(middles), size)
    assert np.abs(misses).max() < 2e-3
    inside = np.array([(x, y) for x in (40, 105, 180) for y in (60, 150, 250)], dtype=float)
    assert camera.sheet(seen(inside)) == pytest.approx(inside, abs=0.01)
    assert camera.eye(None)[2] == pytest.approx(abs((-cv2.Rodrigues(turn)[0].T @ shift)[2]), rel=0.02)
    assert not camera.mirrored

"""True threads: a stud with helical faces, built face by face and joined at shared edges, without a cut."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from cadquery.func import Shape

from parts.builders import checked, kernel
from parts.builders.thread_shell import Rim, Shell
from parts.builders.thread_zone import ThreadFaces

if TYPE_CHECKING:
    from parts.shapes.threaded_stud import ThreadedStud


def build(shape: ThreadedStud, part: str = "threaded stud") -> Shape:
    """Return the solid of a stud with true threads: axis on Z, z as in the shape [mm]; BuildError names the part."""
    with kernel(part):
        shell = Shell()
        low, high = (ThreadFaces(shell, zone) for zone in shape.zones)
        _close(shell, low.rings[0], up=False)
        _join(shell, shape, low.rings[1], high.rings[0])
        _close(shell, high.rings[1], up=True)
        solid = Shape.cast(shell.solid())
    return checked(solid, part, shape.volume)


def _close(shell: Shell, ring: Rim | None, *, up: bool) -> None:
    """Face an end, where its thread does not reach the face itself."""
    if ring is not None:
        shell.disc(ring, up=up)


def _join(shell: Shell, shape: ThreadedStud, low: Rim | None, high: Rim | None) -> None:
    """Make what is plainly turned, from the lower thread's end to the upper one's."""
    if low is None or high is None:
        raise AssertionError("the inner ends have rings")
    rings = [low, *(shell.ring(radius, z) for z, radius in shape.between[1:-1]), high]
    for one, other in pairwise(rings):
        shell.turned(one, other)

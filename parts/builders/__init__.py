"""Builders: named dimensions in, one checked solid out. A builder never sizes and never writes."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from parts.errors import BuildError, TopendError
from parts.runtime.loading import load_kernel

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cadquery import Shape

load_kernel()
CLOSE = 1e-6
"""Relative difference allowed between the kernel's volume and the closed form."""


@contextmanager
def kernel(part: str) -> Iterator[None]:
    """Turn whatever the kernel throws while it builds `part` into a BuildError that names the part."""
    try:
        yield
    except TopendError:
        raise
    except Exception as error:
        raise BuildError(f"{part}: the kernel could not build it ({type(error).__name__}: {error})") from error


def checked(shape: Shape, part: str, volume: float) -> Shape:
    """Return the one solid of a shape; BuildError unless it is valid and of this volume [mm^3] to a millionth."""
    with kernel(part):
        solids = shape.Solids()
        measured = [solid.Volume() for solid in solids]
        valid = shape.isValid()
    if len(solids) != 1 or not valid:
        raise BuildError(
            f"{part}: expected one valid solid, the kernel made {len(solids)}{'' if valid else ', invalid'}"
        )
    if not abs(measured[0] - volume) <= CLOSE * volume or volume <= 0:
        raise BuildError(f"{part}: the solid's volume is {measured[0]:.9g} mm^3, by its dimensions {volume:.9g} mm^3")
    return solids[0]

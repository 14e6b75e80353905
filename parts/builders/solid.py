"""Any shape as a solid: turned, flat, put together from such pieces, or by the builder of the shape's own name."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from cadquery.func import cut, fuse

from parts.builders import checked, kernel
from parts.builders.flat import flat
from parts.builders.turned import turned
from parts.geometry.profile import Profile
from parts.shapes.pieces import Flat, Piece, Pieces

if TYPE_CHECKING:
    from cadquery.func import Shape

    from parts.shapes.pieces import Form


def solid(shape: Any, part: str) -> Shape:  # noqa: ANN401 - of any part's kind
    """Return the solid of a shape, in the shape's own coordinates [mm]; BuildError names the part."""
    if isinstance(shape, Pieces):
        return pieces(shape, part)
    if isinstance(shape, Profile | Flat):
        return plain(shape, part)
    builder = type(shape).__module__.replace("parts.shapes.", "parts.builders.")
    return import_module(builder).build(shape, part)


def plain(form: Form, part: str) -> Shape:
    """Return the solid of a turned or flat form."""
    return turned(form, part) if isinstance(form, Profile) else flat(form, part)


def pieces(shape: Pieces, part: str) -> Shape:
    """Join the pieces, then take out what is to be taken out."""
    with kernel(part):
        joined = [_placed(piece, part) for piece in shape.joined]
        whole = fuse(*joined) if len(joined) > 1 else joined[0]
        for piece in shape.cut:
            whole = cut(whole, _placed(piece, part))
    return checked(whole, part, shape.volume)


def _placed(piece: Piece, part: str) -> Shape:
    return plain(piece.form, part).moved(x=piece.x, y=piece.y, z=piece.z)

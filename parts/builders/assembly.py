"""Assembly: each body's solid in its own coordinates; bodies of one form share one solid."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from cadquery.func import Shape, circle, compound, extrude, intersect, polygon
from cadquery.func import face as plane_face

from parts.builders import kernel
from parts.builders.flat import plate
from parts.builders.turned import turned
from parts.geometry.profile import Profile
from parts.shapes.bodies import Hexagon, Slug

if TYPE_CHECKING:
    from parts.shapes.bodies import Body, Form, Tool

MANY = 32
"""bodies that are kept where the kernel is: those that stand are not built again for the next assembly"""
CORNERS = ((0.5, 0.8660254037844386), (1.0, 0.0), (0.5, -0.8660254037844386))


def build(bodies: tuple[Body, ...]) -> list[tuple[Body, Shape]]:
    """Return each body with its solid, not yet moved to its place; a body cut away altogether is left out.

    BuildError names the body that the kernel could not build.
    """
    made: dict[tuple[Form, tuple[Tool | Slug, ...]], Shape] = {}
    for body in bodies:
        key = (body.form, body.cuts)
        if key not in made:
            made[key] = _body(*key, body.name)
    return [(body, shape) for body in bodies if (shape := made[body.form, body.cuts]).Solids()]


@lru_cache(MANY)
def _body(form: Form, cuts: tuple[Tool | Slug, ...], name: str) -> Shape:
    solid = _whole(form, name)
    if not cuts:
        return solid
    with kernel(name):
        return compound(solid.cut(*(_tool(cut, name) for cut in cuts)).Solids())


def _tool(cut: Tool | Slug, name: str) -> Shape:
    if isinstance(cut, Slug):
        return plate(cut.flat.sheet, cut.flat.thickness, name).moved(z=cut.z)
    return turned(cut.profile, name).moved(x=cut.x, y=cut.y)


def _whole(form: Form, name: str) -> Shape:
    if isinstance(form, Profile):
        return turned(form, name)
    if isinstance(form, Hexagon):
        return _nut(form, name)
    return plate(form.sheet, form.thickness, name)


def _nut(nut: Hexagon, name: str) -> Shape:
    corner = nut.blank.points[2][1]
    half = [(corner * x, corner * y) for x, y in CORNERS]
    points = [*half, *((-x, -y) for x, y in half)]
    with kernel(name):
        across = plane_face(polygon(*((x, y, 0.0) for x, y in points)), circle(nut.hole / 2))
        return intersect(extrude(across, (0, 0, nut.height)), turned(nut.blank, name)).Solids()[0]

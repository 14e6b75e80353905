"""What the page's viewer shows: every model once, and the views that place them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.register import ASSEMBLY, pieces

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from parts.job import Job
    from parts.pictures.filled import Filled
    from parts.shapes.bodies import Body


def model_data(job: Job, bodies: Sequence[Body], filled: Mapping[str, Filled]) -> dict[str, Any]:
    """Return the models, and the views: the assembly first, then part by part."""
    models: list[dict[str, Any]] = []
    titles = {ASSEMBLY: ASSEMBLY} | {piece.stem: piece.title for piece in pieces(job)}
    views = []
    for stem in (s for s in titles if s in filled):
        one = filled[stem]
        placed = _placed(bodies, one) if stem == ASSEMBLY else [_body(0, titles[stem])]
        shown = [{**body, "mesh": body["mesh"] + len(models)} for body in placed]
        models += one.models
        views.append({"id": stem, "title": titles[stem], "bodies": shown})
    return {"meshes": models, "views": views}


def _placed(bodies: Sequence[Body], one: Filled) -> list[dict[str, Any]]:
    """Bodies of the assembly that are still there when all is cut, each with its model."""
    return [
        _body(model, bodies[n].name, [round(v, 4) for v in bodies[n].place], round(bodies[n].lift, 4))
        for n, model in one.bodies
    ]


def _body(model: int, name: str, at: Sequence[float] = (0, 0, 0), lift: float = 0) -> dict[str, Any]:
    return {"mesh": model, "name": name, "at": list(at), "lift": lift}

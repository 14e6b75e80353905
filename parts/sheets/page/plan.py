"""Plan of the deck as SVG: what is there, what is new, and where nuts and gasket come to lie."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import cos, hypot, inf, pi, sin, sqrt
from typing import TYPE_CHECKING

from markupsafe import Markup

from parts.geometry import outline
from parts.geometry.outline import figure, svg_path
from parts.sheets.coordinates import rows
from parts.sheets.page.places import hole_names
from parts.writers import svg_marks

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop
    from parts.shapes.pieces import Flat
    from parts.sheets.coordinates import Row
    from parts.sheets.page.words import Words

ROOM = 7.0  # mm round the deck
TEXT = 4.2  # mm, height of a label
UNKNOWN = 5.0  # mm, a hole whose diameter nobody has given
LAYERS = ("bore", "passage", "new", "old")  # what is drawn over what
WAYS = 24  # directions in which a label may stand


@dataclass
class Ink:
    """What is drawn so far: its elements, and the circles and labels that the next label keeps clear of."""

    parts: list[str] = field(default_factory=list)
    rounds: list[tuple[float, float, float]] = field(default_factory=list)
    labels: list[tuple[float, float, float]] = field(default_factory=list)
    """x, y and half the width of each"""

    def circle(self, kind: str, x: float, y: float, radius: float) -> None:
        """Draw a circle."""
        self.rounds.append((x, y, radius))
        self.parts.append(svg_marks.circle(kind, figure(x), figure(-y), figure(radius)))

    def path(self, kind: str, data: str) -> None:
        """Draw a path."""
        self.parts.append(svg_marks.path(kind, data))

    def text(self, kind: str, x: float, y: float, words: str, size: float = TEXT) -> None:
        """Write a word, its middle at (x, y)."""
        self.labels.append((x, y, 0.32 * size * len(words)))
        self.parts.append(svg_marks.text(kind, figure(x), figure(-y + 0.36 * size), figure(size), words))


def deck_plan(words: Words, gasket: Flat | None) -> str:
    """Return the plan as an SVG element, empty where the deck's outline is not known."""
    barrel = words.job.barrel
    if barrel is None or barrel.outline is None:
        return ""
    loop = barrel.outline.loop()
    ink = Ink()
    ink.path("deck", svg_path(loop))
    if gasket is not None:
        ink.path("gasket", _gasket(gasket))
    if words.has("job.head.joint_face"):
        ink.circle("face", 0.0, 0.0, words.value("job.head.joint_face") / 2)
    _axes(ink, loop)
    _holes(ink, words, loop)
    left, low, right, high = outline.bounds(loop)
    box = (left - ROOM, -high - ROOM, right - left + 2 * ROOM, high - low + 2 * ROOM)
    label = "Plan of the deck from above: bore, edge, old and new holes, passages, nuts and the gasket's land"
    drawn = svg_marks.inline("plan", map(figure, box), label, ink.parts)
    return Markup(drawn)  # noqa: S704 - names are escaped, the rest is numbers


def legend(words: Words, shapes: Mapping[str, object]) -> list[tuple[str, str]]:
    """Kind and meaning of what the plan shows."""
    kinds = {row.kind for row in rows(words.book, words.job)}
    nuts = words.has("stud.washer_outside", "stud.nut_across_flats")
    wanted = (
        ("new", f"new hole, at the tapped diameter{', with washer and nut' if nuts else ''}", "new" in kinds),
        ("old", "O: old hole, filled", "old" in kinds),
        ("passage", "P: passage", "passage" in kinds),
        ("gasket", "gasket", "head-gasket" in shapes),
        ("face", "face of the head that presses", words.has("job.head.joint_face")),
    )
    return [(kind, says) for kind, says, there in wanted if there]


def _gasket(gasket: Flat) -> str:
    """Outline and holes as one path, to be filled by the even-odd rule."""
    rounds = [outline.circle(h.x, h.y, h.diameter / 2) for h in gasket.sheet.holes]
    return "".join(svg_path(loop) for loop in (gasket.sheet.outer, *rounds))


def _axes(ink: Ink, loop: Loop) -> None:
    left, low, right, high = outline.bounds(loop)
    reach = ROOM * 0.6
    ink.path(
        "axis",
        f"M{figure(left - reach)} 0H{figure(right + reach)}M0 {figure(-high - reach)}V{figure(-low + reach)}",
    )
    ink.text("axis-name", right + reach, 2.6, "X", 3.4)
    ink.text("axis-name", 3.2, high + reach - 1.2, "Y", 3.4)


def _holes(ink: Ink, words: Words, loop: Loop) -> None:
    table = rows(words.book, words.job)
    drawn = [(name, row, _radius(words, row)) for name, row in zip(hole_names(table), table, strict=True)]
    for _, row, radius in sorted(drawn, key=lambda d: LAYERS.index(d[1].kind)):
        ink.circle(row.kind, row.x, row.y, radius)
        if row.kind == "new":
            _nut(ink, words, row.x, row.y)
    for name, row, radius in (d for d in drawn if d[1].kind == "new"):
        ink.text("number", row.x, row.y, name, min(6.0, 1.1 * radius))
    for name, row, radius in (d for d in drawn if d[1].kind in ("old", "passage")):
        _label(ink, name, (row.x, row.y), radius, loop)


def _radius(words: Words, row: Row) -> float:
    """Of a hole as the plan shows it: a new one at its tapped diameter."""
    names = {"old": ["job.barrel.old_holes.diameter"], "new": ["deck.tapped_major", "gasket.hole_diameter"]}
    known = [words.value(name) for name in names.get(row.kind, []) if words.has(name)]
    return (known[0] if known else row.diameter or UNKNOWN) / 2


def _nut(ink: Ink, words: Words, x: float, y: float) -> None:
    """Washer and nut over a new hole, and its centre."""
    if words.has("stud.washer_outside", "stud.nut_across_flats"):
        ink.circle("washer", x, y, words.value("stud.washer_outside") / 2)
        ink.path("nut", _hexagon(x, y, words.value("stud.nut_across_flats") / sqrt(3)))
    arm = 1.2 * TEXT
    ink.path(
        "centre",
        f"M{figure(x - 2.6 * arm)} {figure(-y)}h{figure(arm)}m{figure(3.2 * arm)} 0h{figure(arm)}"
        f"M{figure(x)} {figure(-y - 2.6 * arm)}v{figure(arm)}m0 {figure(3.2 * arm)}v{figure(arm)}",
    )


def _hexagon(x: float, y: float, corner: float) -> str:
    points = [(x + corner * cos(n * pi / 3), -y + corner * sin(n * pi / 3)) for n in range(6)]
    return "M" + "L".join(f"{figure(px)} {figure(py)}" for px, py in points) + "Z"


def _label(ink: Ink, name: str, centre: Point, radius: float, loop: Loop) -> None:
    """Write a label beside a hole, where it keeps furthest from every line and label."""
    wide = 0.32 * TEXT * len(name)
    around = _around(centre, radius + 0.7 * TEXT + 0.4 * wide)
    x, y = max(around, key=lambda p: (_clear(ink, p, wide, loop), -around.index(p)))
    ink.text("name", x, y, name)


def _around(centre: Point, reach: float) -> list[Point]:
    turns = [2 * pi * n / WAYS for n in range(WAYS)]
    return [
        (round(centre[0] + far * reach * cos(t), 6), round(centre[1] + far * reach * sin(t), 6))
        for far in (1.0, 1.35)
        for t in turns
    ]


def _clear(ink: Ink, point: Point, wide: float, loop: Loop) -> float:
    """Least room from a label's corners and middle to any line, up to half a letter."""
    x, y = point
    spots = [(x, y), *((x + sx * wide, y + sy * TEXT / 2) for sx in (-1, 1) for sy in (-1, 1))]
    return round(min(min(_gaps(ink, x0, y0, loop), default=inf) for x0, y0 in spots), 6)


def _gaps(ink: Ink, x: float, y: float, loop: Loop) -> Iterator[float]:
    yield min(outline.distance(loop, x, y), TEXT)
    yield min(abs(x), abs(y), TEXT / 2)
    for cx, cy, r in ink.rounds:
        yield min(abs(hypot(x - cx, y - cy) - r), TEXT)
    for lx, ly, half in ink.labels:
        yield min(max(abs(x - lx) - half, abs(y - ly) - TEXT / 2), TEXT)

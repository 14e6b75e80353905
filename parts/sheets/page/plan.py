"""Plan of the deck as SVG: what is there, what is new, and where nuts and gasket come to lie."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import cos, hypot, inf, pi, sin, sqrt
from typing import TYPE_CHECKING

from markupsafe import Markup

from parts.geometry import outline
from parts.geometry.outline import figure, svg_path
from parts.job.outline_models import Outline
from parts.sheets.coordinates import rows
from parts.sheets.page.marks import SIZE, marked, marks, old_holes, plug_holes, stud_holes
from parts.sheets.page.places import hole_names
from parts.sheets.page.words import hole_list, listed
from parts.writers import svg_marks

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop
    from parts.shapes.pieces import Flat
    from parts.sheets.coordinates import Row
    from parts.sheets.page.marks import Mark
    from parts.sheets.page.words import Words

    Round = tuple[float, float, float]

ROOM = 7.0  # mm round the deck
TEXT = 4.2  # mm, height of a label
UNKNOWN = 5.0  # mm, a hole whose diameter nobody has given
LAYERS = ("bore", "passage", "new", "old")  # what is drawn over what
NUT = ("stud.washer_outside", "stud.nut_across_flats")
WAYS = 24  # directions in which a label may stand
FAR = (1.0, 1.35)  # shares of its reach


@dataclass
class Ink:
    """What is drawn so far: its elements, and the circles and labels that the next label keeps clear of."""

    parts: list[str] = field(default_factory=list)
    rounds: list[Round] = field(default_factory=list)
    labels: list[Round] = field(default_factory=list)
    """x, y and half the width of each"""
    loops: list[Loop] = field(default_factory=list)
    """openings that are not round"""

    def circle(self, kind: str, x: float, y: float, radius: float, **data: str) -> None:
        """Draw a circle; `data`: what it says to a script."""
        self.rounds.append((x, y, radius))
        self.parts.append(svg_marks.circle(kind, figure(x), figure(-y), figure(radius), **data))

    def path(self, kind: str, data: str) -> None:
        """Draw a path."""
        self.parts.append(svg_marks.path(kind, data))

    def loop(self, kind: str, loop: Loop) -> None:
        """Draw an opening that is not round."""
        self.loops.append(loop)
        self.path(kind, svg_path(loop))

    def lead(self, hole: Point, radius: float, label: Point, half: float) -> None:
        """Draw a line from a hole's rim to its label."""
        along, up = label[0] - hole[0], label[1] - hole[1]
        far = hypot(along, up)
        ends = [(hole[0] + along * d / far, hole[1] + up * d / far) for d in (radius, max(far - half, radius))]
        self.path("lead", "M" + "L".join(f"{figure(x)} {figure(-y)}" for x, y in ends))

    def text(self, kind: str, x: float, y: float, words: str, size: float = TEXT) -> None:
        """Write a word, its middle at (x, y)."""
        self.labels.append((x, y, 0.32 * size * len(words)))
        self.parts.append(svg_marks.text(kind, figure(x), figure(-y + 0.36 * size), figure(size), words))

    def near(self, x: float, y: float, far: float) -> Ink:
        """Only what a label keeps clear of, and of that what comes nearer to a point than this."""
        rounds = [one for one in self.rounds if _from_round(one, x, y) < far]
        labels = [one for one in self.labels if _from_label(one, x, y) < far]
        return Ink([], rounds, labels, [one for one in self.loops if outline.distance(one, x, y) < far])


def deck_plan(words: Words, gasket: Flat | None) -> str:
    """Return the plan as an SVG element, empty where the deck's outline is not known."""
    barrel = words.job.barrel
    return plan_within(words, gasket, barrel.outline.loop()) if barrel and barrel.outline else ""


def plan_so_far(words: Words) -> str:
    """Return the plan of what is known yet, in a page that asks for the rest; empty where that is nothing."""
    barrel, table = words.job.barrel, rows(words.book, words.job)
    if barrel and barrel.outline:
        return plan_within(words, None, barrel.outline.loop(), name="deck")
    reach = max((row.radius + (row.diameter or UNKNOWN) for row in table), default=0.0)
    return plan_within(words, None, outline.circle(0.0, 0.0, reach), "beyond", "deck") if table else ""


def plan_within(words: Words, gasket: Flat | None, loop: Loop, edge: str = "deck", name: str = "") -> str:
    """Return the plan of what lies within an outline, which is drawn as of the class `edge`; `name`: the element's id."""
    ink = Ink()
    ink.path(edge, svg_path(loop))
    if gasket is not None:
        ink.path("gasket", _gasket(gasket))
    face = words.job.head.joint_face if words.job.head else None
    if isinstance(face, Outline):
        ink.path("face", svg_path(face.loop()))
    elif face is not None:
        ink.circle("face", 0.0, 0.0, face / 2)
    _axes(ink, loop)
    _holes(ink, words, loop)
    left, low, right, high = outline.bounds(loop)
    box = (left - ROOM, -high - ROOM, right - left + 2 * ROOM, high - low + 2 * ROOM)
    label = "Plan of the deck from above: bore, edge, old and new holes, passages, nuts and the gasket's land"
    drawn = svg_marks.inline("plan", map(figure, box), label, ink.parts, name)
    return Markup(drawn)  # noqa: S704 - names are escaped, the rest is numbers


def legend(words: Words, shapes: Mapping[str, object]) -> list[tuple[str, str]]:
    """Kind and meaning of what the plan shows."""
    kinds = {row.kind for row in rows(words.book, words.job)}
    nuts = any(own.has(*NUT) for own in words.each("stud"))
    wanted = (
        ("new", f"new hole, at the tapped diameter{', with washer and nut' if nuts else ''}", "new" in kinds),
        ("old", _filled(words), "old" in kinds),
        ("passage", "P: passage", "passage" in kinds),
        ("gasket", "gasket", "head-gasket" in shapes),
        ("face", "face of the head that presses", words.job.head is not None and words.job.head.joint_face is not None),
    )
    return [(kind, says) for kind, says, there in wanted if there]


def _filled(words: Words) -> str:
    olds = [(own, own.job.old) for own in words.each("old") if own.name]
    fills = [f"{listed(old_holes(own))} {old.fill}" for own, old in olds if old]
    return f"O: old hole, filled{': ' * bool(fills)}{'; '.join(fills)}"


def mark_legend(words: Words) -> list[tuple[Mark, str]]:
    """Meaning of the letters, where there are several studs or plugs."""
    studs, plugs = ([(own, own.name) for own in words.each(kind) if own.name] for kind in ("stud", "plug"))
    says = {("stud", name): _stud(own) for own, name in studs} | {("plug", name): _plug(own) for own, name in plugs}
    return [(mark, says[which]) for which, mark in marks(words).items()]


def _stud(own: Words) -> str:
    stud = own.job.stud
    if stud is None:
        return ""
    insert = " in a wire insert" if stud.insert else ""
    threads = f"{stud.tap_end.label}{insert} in the barrel, {stud.nut_end.label} through the head"
    return f"{own.name} studs, {hole_list(stud_holes(own))}: {threads}"


def _plug(own: Words) -> str:
    fit = own.job.plug.fit if own.job.plug else ""
    return f"{own.name} plug, {listed(plug_holes(own))}: {'press fit' if fit == 'press' else fit}"


def _gasket(gasket: Flat) -> str:
    """Outline and openings as one path, to be filled by the even-odd rule."""
    return "".join(svg_path(loop) for loop in (gasket.sheet.outer, *(cut.loop for cut in gasket.sheet.cuts)))


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
    table, mark = rows(words.book, words.job), marked(words)
    studs = {name: own for own in words.each("stud") for name in stud_holes(own)}
    drawn = [(name, row, _radius(row, studs.get(name))) for name, row in zip(hole_names(table), table, strict=True)]
    for name, row, radius in sorted(drawn, key=lambda d: LAYERS.index(d[1].kind)):
        for opening in row.loops:
            ink.loop(row.kind, opening)
        if not row.loops:
            ink.circle(row.kind, row.x, row.y, radius, **_told(row))
        if row.kind == "new":
            _nut(ink, studs[name], row.x, row.y)
    for name, row, radius in (d for d in drawn if d[1].kind == "new"):
        ink.text("number", row.x, row.y, name, min(6.0, 1.1 * radius))
    for name, row, radius in (d for d in drawn if d[0] in mark):
        _mark(ink, mark[name], row, radius, _reach(studs.get(name), radius), loop)
    for name, row, radius in (d for d in drawn if d[1].kind in ("old", "passage")):
        _label(ink, name, (row.x, row.y), radius, loop, led=bool(mark))


def _told(row: Row) -> dict[str, str]:
    """What a hole says to a script: which it is."""
    told = {"passage": ("passage", row.hole), "new": ("hole", f"new {row.hole}"), "old": ("hole", f"old {row.hole}")}
    return dict([told[row.kind]]) if row.kind in told else {}


def _radius(row: Row, own: Words | None) -> float:
    """Of a hole as the plan shows it: a new one at its tapped diameter, by the words of its stud."""
    names = ("deck.tapped_major", "gasket.hole_diameter")
    known = [own.value(name) for name in names if own.has(name)] if own else []
    if row.loops:
        return min(outline.distance(loop, row.x, row.y) for loop in row.loops)
    return (known[0] if known else row.diameter or UNKNOWN) / 2


def _reach(own: Words | None, radius: float) -> float:
    """Radius of all that is drawn round a new hole."""
    return max(radius, own.value(NUT[0]) / 2) if own and own.has(*NUT) else radius


def _mark(ink: Ink, mark: Mark, row: Row, bare: float, radius: float, loop: Loop) -> None:
    """Draw which plug closes a passage into it; which stud stands in a hole, beside nut and washer with a line to it."""
    x, y = row.x, row.y
    if mark.kind == "stud":
        x, y = _beside(ink, (x, y), radius + 0.5 + SIZE, (SIZE, SIZE), loop)
        ink.lead((row.x, row.y), bare, (x, y), SIZE)
    ink.labels.append((x, y, SIZE))
    ink.parts += mark.elements(x, -y, SIZE)


def _nut(ink: Ink, own: Words, x: float, y: float) -> None:
    """Washer and nut over a new hole, and its centre."""
    if own.has(*NUT):
        ink.circle("washer", x, y, own.value(NUT[0]) / 2)
        ink.path("nut", _hexagon(x, y, own.value(NUT[1]) / sqrt(3)))
    arm = 1.2 * TEXT
    ink.path(
        "centre",
        f"M{figure(x - 2.6 * arm)} {figure(-y)}h{figure(arm)}m{figure(3.2 * arm)} 0h{figure(arm)}"
        f"M{figure(x)} {figure(-y - 2.6 * arm)}v{figure(arm)}m0 {figure(3.2 * arm)}v{figure(arm)}",
    )


def _hexagon(x: float, y: float, corner: float) -> str:
    points = [(x + corner * cos(n * pi / 3), -y + corner * sin(n * pi / 3)) for n in range(6)]
    return "M" + "L".join(f"{figure(px)} {figure(py)}" for px, py in points) + "Z"


def _label(ink: Ink, name: str, centre: Point, radius: float, loop: Loop, *, led: bool) -> None:
    """Write a label beside a hole, where it keeps furthest from every line and label; with a line to it where it is full."""
    wide = 0.32 * TEXT * len(name)
    x, y = _beside(ink, centre, radius + 0.7 * TEXT + 0.4 * wide, (wide, TEXT / 2), loop)
    if led:
        ink.lead(centre, radius, (x, y), TEXT / 2)
    ink.text("name", x, y, name)


def _beside(ink: Ink, centre: Point, reach: float, half: Point, loop: Loop) -> Point:
    """Place beside a hole, with the most room for what is so wide and high to either side of its middle."""
    around = _around(centre, reach)
    far = FAR[-1] * reach + hypot(*half) + TEXT  # what is further off gives each place the same room
    near = ink.near(*centre, far)
    return max(around, key=lambda p: (_clear(near, p, half, loop), -around.index(p)))


def _around(centre: Point, reach: float) -> list[Point]:
    turns = [2 * pi * n / WAYS for n in range(WAYS)]
    return [
        (round(centre[0] + far * reach * cos(t), 6), round(centre[1] + far * reach * sin(t), 6))
        for far in FAR
        for t in turns
    ]


def _clear(ink: Ink, point: Point, half: Point, loop: Loop) -> float:
    """Least room from a label's corners and middle to any line, up to half a letter."""
    (x, y), (wide, high) = point, half
    spots = [(x, y), *((x + sx * wide, y + sy * high) for sx in (-1, 1) for sy in (-1, 1))]
    return round(min(min(_gaps(ink, x0, y0, loop), default=inf) for x0, y0 in spots), 6)


def _gaps(ink: Ink, x: float, y: float, loop: Loop) -> Iterator[float]:
    for one in (loop, *ink.loops):
        yield min(outline.distance(one, x, y), TEXT)
    yield min(abs(x), abs(y), TEXT / 2)
    for round_one in ink.rounds:
        yield min(_from_round(round_one, x, y), TEXT)
    for label in ink.labels:
        yield min(_from_label(label, x, y), TEXT)


def _from_round(one: Round, x: float, y: float) -> float:
    return abs(hypot(x - one[0], y - one[1]) - one[2])


def _from_label(one: Round, x: float, y: float) -> float:
    return max(abs(x - one[0]) - one[2], abs(y - one[1]) - TEXT / 2)

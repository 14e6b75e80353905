"""Ports of a two-stroke: width, opening and what the piston still traps after them; the ring's ends and the ports."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import ports as relation
from parts.relations.press import least_of, thinnest
from parts.sizing.compression import old_thickness, skim_name
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

ROD = 2.0  # of the stroke
BLOW_DOWN = 0.4  # MPa behind the ring as the exhaust opens


def given(number: int, key: str) -> str:
    """Name of a port's own value, ports numbered from 1."""
    return f"job.engine.ports.{number - 1}.{key}"


def size_ports(book: Book, job: Job) -> None:
    """Add each port's sizes, and the travel that is left after the last is shut."""
    if job.engine is None or not job.engine.ports:
        return
    _crown(book)
    book.enter("port.rod_multiple", ROD, "1", "assumed", PRACTICE)
    book.add("port.rod", relation.rod_length, stroke="job.engine.stroke", multiple="port.rod_multiple")
    ports = range(1, len(job.engine.ports) + 1)
    for number in ports:
        _port(book, number)
        _next(book, job, number)
    travels = {f"port_{n}": f"port.{n}.travel" for n in ports}
    book.add("compression.trapped_stroke", thinnest, **travels)


def _crown(book: Book) -> None:
    """Add where the crown stands at top dead centre; level with the deck, where the squish does not tell."""
    old = old_thickness(book)
    if book.has("job.engine.squish", old):
        book.add("port.crown", relation.crown_below, squish="job.engine.squish", gasket=old)
    else:
        book.enter("port.crown", 0.0, "mm", "assumed", "crown taken as level with the deck at top dead centre")


def _port(book: Book, number: int) -> None:
    name, top = f"port.{number}", given(number, "top")
    book.add(f"{name}.span", relation.span, begin=given(number, "from"), end=given(number, "to"))
    barred = given(number, "bridge") in book
    bridge: dict[str, str | float] = {"bridge": given(number, "bridge") if barred else 0.0, "parts": 1.0 + barred}
    book.add(f"{name}.opening", relation.opening, bore="job.engine.bore", span=f"{name}.span", **bridge)
    book.add(f"{name}.top_after", relation.top_after, top=top, skim=skim_name(book))
    book.add(f"{name}.travel", relation.travel, top=top, crown="port.crown")
    crank = {"stroke": "job.engine.stroke", "rod": "port.rod"}
    book.add(f"{name}.duration", relation.duration, travel=f"{name}.travel", **crank)


def _next(book: Book, job: Job, number: int) -> None:
    """Add the bar to the next port, anticlockwise, of those at the same height."""
    ports = job.engine.ports if job.engine else []
    own = ports[number - 1]
    beside = [n for n, p in enumerate(ports, 1) if n != number and p.top < own.bottom and own.top < p.bottom]
    bars = {}
    for other in beside:
        bar = f"port.{number}.to_{other}"
        places = {"begin": given(number, "from"), "span": f"port.{number}.span", "other": given(other, "from")}
        book.add(bar, relation.gap_between, bore="job.engine.bore", **places)
        bars[f"port_{other}"] = bar
    if bars:
        book.add(f"port.{number}.to_next", thinnest, **bars)


def size_ring_ports(book: Book, job: Job) -> None:
    """Add how far a ring's ends stay from the ports, and how far it springs into the widest."""
    if job.ring is None or job.engine is None or not job.engine.ports:
        return
    ports = range(1, len(job.engine.ports) + 1)
    rooms = {}
    for number in ports:
        room = f"ring.end_to_port_{number}"
        port = {"begin": given(number, "from"), "span": f"port.{number}.span"}
        ring = {"peg": "job.ring.peg", "bore": "job.engine.bore", "gap": "ring.closed_gap"}
        book.add(room, relation.end_to_port, **ring, **port)
        rooms[f"port_{number}"] = room
    book.add("ring.end_to_port", least_of, **rooms)
    _bulge(book, [f"port.{n}.opening" for n in ports])


def _bulge(book: Book, openings: list[str]) -> None:
    widest = max((n for n in openings if n in book), key=lambda n: book[n].value, default=openings[0])
    book.enter("ring.blow_down", BLOW_DOWN, "MPa", "assumed", "gas as the exhaust opens, 3 to 5 bar (memory)")
    ring = {"pressure": "ring.contact_pressure", "modulus": "ring.modulus", "moment": "ring.second_moment"}
    ring |= {"gas": "ring.blow_down", "width": "job.ring.axial_width"}
    book.add("ring.port_bulge", relation.bulge, **ring, opening=widest)

"""What stands on a bench anyway and serves several steps: named by each step that needs it, listed once."""

from __future__ import annotations

from parts.sheets.page.stock import Item


def _thing(what: str, note: str = "", size: str = "") -> Item:
    return Item(what, size, note, shared=True)


MICROMETER = _thing("micrometer and callipers", "the micrometer checked against its standard")
BORE_GAUGE = _thing("bore gauge", "or an inside micrometer")
DYE = _thing("crack dye", "penetrant and developer")
BURETTE = _thing("burette", "and a glass plate with a small hole, greased round the rim")
INDICATOR = _thing("dial indicator", "and a stand for it")
PLATE = _thing("surface plate", "or plate glass, with marking blue")
STRAIGHT_EDGE = _thing("straight-edge")
FEELERS = _thing("feelers")
DEPTH_GAUGE = _thing("depth gauge")
STONE = _thing("fine stone", "for edges and burrs")
FILE = _thing("flat file", "fine cut")
TORQUE_WRENCH = _thing("torque wrench", "checked, with its range in the middle of the torques")
TORCH = _thing("torch", "and a dry hearth")
THERMOMETER = _thing("second thermometer", "up to the oven's heat")
RETAINING = _thing("retaining compound", "its data sheet at hand: gap, primer, cure", "rated for the barrel's heat")
CLAY = _thing("modelling clay", "to feel the room over the piston")
GAUGE = _thing("compression gauge")
SOAP = _thing("soapy water")

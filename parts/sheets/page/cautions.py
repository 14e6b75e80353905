"""The usual cautions, each to stand at the step it belongs to. They defer to local rules and licensed practice."""

from __future__ import annotations

from dataclasses import dataclass

from parts.judging.rules import WEAKENS, caution_of


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution."""

    about: str
    says: str
    again: str = ""
    """where it stands at an earlier step in full"""


def _both(low: float, high: float) -> str:
    """Print a range of heat [degC] in both units, in round figures."""
    cold, warm = (round(1.8 * heat + 32, -1) for heat in (low, high))
    return f"{low:g} to {high:g} °C ({cold:g} to {warm:g} °F)"


HOT = _both(WEAKENS, caution_of("job.engine.hot.barrel"))
LOCAL = "Local rules come first; where they ask for a licensed hand, get one."

MEASURING = Caution(
    "Old gaskets and solvents",
    "An old gasket may hold asbestos: never scrape, sand or brush it dry; wet it, bag it, dispose of it as your local "
    "rules say. Degrease in the open air; no part washed in chlorinated solvent goes near heat.",
)
BRAZING = Caution(
    "Brazing and hot iron",
    "Zinc fume gives metal fume fever, some fillers hold cadmium, fluxes fluoride: ventilate well and stay out of the "
    "plume. Oil trapped in a blind hole flares, a sealed pocket bursts. Dry hearth, eye and hand protection, a fire watch "
    "for an hour after; hot iron looks like cold iron, mark it. Iron heated or cooled unevenly cracks. " + LOCAL,
)
IRON_PLUGS = Caution(
    "Screwed plugs",
    "A plug driven in with force splits the metal beside it: it seals by its compound, not by torque. Eyes covered when a "
    "stub is sawn off.",
)
IRON_DUST = Caution(
    "Iron swarf and dust",
    "Iron is cut dry: its dust belongs in no one's lungs, and burnt-on sand in it is silica. Mask or extraction, a vacuum with a "
    "fine filter, never compressed air. Swarf by a brush, not a hand. Cover the slides, it is abrasive.",
    "Mask or extraction, no compressed air, swarf by a brush.",
)
SWARF = Caution(
    "Swarf",
    "Long swarf cuts and is dragged round by the tool: stop before you clear it, by hook and brush, not by hand. Eyes covered. Fine dust "
    "of light metal burns: none near sparks or a grinding wheel.",
    "Stop before you clear it; hook and brush; eyes covered.",
)
INTERRUPTED = Caution(
    "Interrupted cut",
    "A fly cutter on a deck with holes knocks: clamp on the barrel's flange with packing, never on fins; guard fitted, "
    "spindle by hand once round, stand out of its plane.",
)
DRILLING = Caution(
    "Drilling",
    "A drill snatches as it breaks through or runs from one metal into another: work clamped, light feed, no gloves. Clear the "
    "chips often. Eyes covered.",
)
TAPPING = Caution(
    "Tapping",
    "Taps are brittle and break without warning: square, never forced, backed off often. Eyes covered.",
    "Never forced, backed off often, eyes covered.",
)
TANGS = Caution(
    "Tangs",
    "Break each insert's tang and take it out with tweezers: count them. One left in ends in the bore. Eyes covered.",
    "Count the tangs; eyes covered.",
)
ADHESIVE = Caution(
    "Anaerobic compound",
    f"It sensitises skin and hurts eyes: gloves, fresh air. It needs clean bare metal and its full cure. Above some {HOT} it "
    "lets go, and gives fumes where it is heated to dismantle.",
    "Gloves, fresh air; clean bare metal, full cure.",
)
PRESS = Caution(
    "Press fit",
    "Iron bursts without warning: a guard between you and the press, eyes covered, the pressure read all the way, "
    "stop where it rises early. Gloves where a part is warmed; no flame.",
    "Guard, eyes covered, stop where the pressure rises early.",
)
HONING = Caution(
    "Honing",
    "A hone pulled out of the bore while it turns flies apart. Low speed, plenty of oil, rags away from it. Wash with hot "
    "soapy water till a white cloth stays white: grit left in eats rings, oil at once.",
)
TURNING = Caution(
    "Turning",
    "No bar stands out behind the spindle: it bends and whips. No sleeves, no gloves, no rag near it. File left-handed or "
    "not at all. A centre is let off before a part comes free.",
    "No bar out behind the spindle, no gloves, no rag.",
)
STUD_HOLD = Caution(
    "A stud that lets go",
    "A stud that is bottomed, half engaged or stretched leaves the engine like a shot: stay out of its line. Full thread as sized, never run "
    "to the bottom, never re-used once it has yielded.",
    "Stay out of its line; full thread, never to the bottom.",
)
GASKET = Caution(
    "Cutting sheet",
    "Sheet edges cut: gloves, deburr both faces. A punch is struck with eyes covered.",
)
ANNEALING = Caution(
    "Annealing sheet",
    "Hot sheet looks cold: tongs, nothing that burns near. Quenched in water it spits: at arm's length, eyes covered, ventilate.",
)
BY_HAND = Caution(
    "Turning over by hand",
    "Ignition off and its lead earthed, fuel off, spark plug out: a warm engine can fire. By hand only, slowly, and stop where "
    "anything touches. Fingers out of the gear.",
    "Ignition and fuel off, spark plug out, stop where anything touches.",
)
PARTING = Caution(
    "Parting off rings",
    "A ring comes off sharp and can catch and break: eyes covered, a rod or a catcher in the bore, not a finger.",
    "Eyes covered, a rod in the bore, not a finger.",
)
WHEELS = Caution(
    "Saws and abrasive wheels",
    "A thin saw or cutting wheel shatters when it jams: guard on, wheel looked at and ring-tested, speed within its mark, no "
    "side load, stand out of its plane, eyes covered. The ring sits in a fixture, not in fingers.",
    "Guard, eyes covered, no side load, out of its plane.",
)
MANDREL = Caution(
    "Sharp edges and thin walls",
    "Deburr the flange; a seat is cut with the spindle guarded.",
    "Deburr it; spindle guarded.",
)
PRINTED = Caution(
    "A printed mandrel",
    "What is printed is never heated: it burns, and its fumes are poison.",
    "It is never heated.",
)
HEAT = Caution(
    "Heat setting",
    "Iron at setting heat burns through gloves in no time and shows no colour in daylight: tongs, face shield, dry iron to set it down "
    "on, nothing that burns near. The oven's own reading may be 20 °C (36 °F) off: a second thermometer. Never quench. "
    + LOCAL,
    "Tongs, face shield, nothing that burns near; never quench.",
)
BRITTLE = Caution(
    "Brittle rings",
    "Iron rings snap and the ends are sharp: eyes covered, ring pliers or a thin sleeve, opened no wider than it needs. "
    "Fine abrasive dust: wet, and washed off.",
    "Eyes covered, opened no wider than it needs.",
)
TIGHTENING = Caution(
    "Tightening",
    "Keep your face away from the studs' line: one that yields can part under the wrench. A checked torque wrench, pulled "
    "smoothly; stop and look where a nut turns and the torque does not rise.",
    "Face out of the studs' line; stop where the torque does not rise.",
)
COMPRESSION = Caution(
    "Compression test",
    "Ignition off and earthed, fuel off. Stand clear of the spark plug's hole and the head joint: fuel mist sprayed out burns. A leak test "
    "with air can spin the engine: lock it, low pressure; water is safer than air.",
)
WATER_TEST = Caution(
    "Test by water",
    "Water, never air or gas: what lets go under gas is a shot. No air left inside, a gauge that was checked, stand aside of the plate, eyes "
    "covered, pressure up in steps and off before anything is loosened.",
    "Water, never air; no air left inside; pressure off before a nut is touched.",
)
FIRST_RUN = Caution(
    "First run",
    "In the open: carbon monoxide kills. Rotating parts guarded, the machine chocked, nothing loose about you, an "
    "extinguisher at hand, a way to stop it within reach. Stand clear of the head joint; a leak "
    "there is flame. " + LOCAL,
)

"""What is said wherever a guard or keeper is cut, bent or fitted."""

import math

from beltwright.quantity import Kind, show_inches
from beltwright.quantity.units import INCH
from beltwright.review.case import Case

KEEPER_CAUTION = (
    "A keeper is no guard: it keeps the belt in, not fingers out. Every belt and pulley needs a "
    "guard before the engine runs. Take the lead off the spark plug before you set it."
)
EDGE_CAUTION = (
    "Cut strip has sharp edges: gloves and safety glasses on, file the edges and corners round. A "
    "strip that comes loose goes into the belt: two screws with lock nuts at least."
)
CRACK_CAUTION = (
    "A strip that cracks in its bend breaks off and is thrown by the belt. Look at the outside of "
    "every bend; throw away a strip that shows a crack."
)
TAPE_PARTS = 16
"""Parts of an inch in which a slot is told, narrower and deeper than it is."""

SLOTS = ((0.006, 0.010), (0.008, 0.020), (0.012, 0.100), (0.020, 0.120))
"""How wide a slot is and how far a finger gets into it [m] (ISO 13857, from memory)."""


def guard_caution(case: Case) -> str:
    """Why every belt needs a guard, and how far its openings let a finger in."""
    (wide, far), *others = (_slot(case, *slot) for slot in SLOTS)
    more = ", ".join(f"{reach} through {width}" for width, reach in others)
    return (
        "A running belt pulls a finger, a sleeve or a lace in before you can let go. Every belt "
        f"needs a guard. A finger gets {far} deep through a slot {wide} wide, {more}: every slot "
        "must be farther from the belt than that (ISO 13857, from memory). Local codes come first."
    )


def _slot(case: Case, width: float, reach: float) -> tuple[str, str]:
    """A slot's width and the reach through it; on a tape's marks on the safe side of both."""
    if case.units.caliper() == "mm":
        return case.units.show(width, Kind.LENGTH, "mm"), case.units.show(reach, Kind.LENGTH, "mm")
    mark = float(INCH) / TAPE_PARTS
    return (
        show_inches(math.floor(width / mark) * mark, TAPE_PARTS),
        show_inches(math.ceil(reach / mark) * mark, TAPE_PARTS),
    )

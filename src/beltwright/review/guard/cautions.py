"""What is said wherever a guard or keeper is cut, bent or fitted."""

from beltwright.quantity import Kind
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
SLOTS = ((0.006, 0.010), (0.008, 0.020), (0.012, 0.100), (0.020, 0.120))
"""How wide a slot is and how far a finger gets into it [m] (ISO 13857, from memory)."""


def guard_caution(case: Case) -> str:
    """Why every belt needs a guard, and how far its openings let a finger in."""
    unit = case.units.caliper()  # a slot shown on the tape's marks would be rounded up
    shown = [[case.units.show(each, Kind.LENGTH, unit) for each in slot] for slot in SLOTS]
    (wide, far), *others = shown
    more = ", ".join(f"one of {width} {reach}" for width, reach in others)
    return (
        "A running belt pulls a finger, a sleeve or a lace in before you can let go. Every belt "
        f"needs a guard: an opening {wide} wide lets a finger {far} in, {more} (slots, ISO 13857, "
        "from memory). Local codes come first."
    )

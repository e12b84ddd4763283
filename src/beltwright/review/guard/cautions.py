"""What is said wherever a guard or keeper is cut, bent or fitted."""

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
GUARD_CAUTION = (
    "A running belt pulls a finger, a sleeve or a lace in before you can let go. Every belt needs "
    "a guard: an opening 6 mm wide lets a finger 10 mm in, one of 8 mm 20 mm, one of 12 mm 100 mm, "
    "one of 20 mm 120 mm (slots, ISO 13857, from memory). Local codes come first."
)

"""How each kind of input is measured in a home shop."""

from beltwright.quantity import Kind, Quantity

_WARM_UP = (
    "Measure a warm-up of the gearbox and write it as measured; it stands in for all such guesses."
)

_GROUND = (
    "No tool settles it: it differs this much from day to day and place to place. Try the real "
    "ground slowly before you count on it."
)

_TREATMENT = (
    "No tool settles it: it tells how roughly the belt is treated. Let the clutch up with care."
)

_TYRE = (
    "Chalk the tyre and the floor, and roll it one full turn with the driver seated. Of a driven "
    "wheel write that as roll_out under wheels; else it is 3.1416 times the diameter."
)

_BY_KEY_END = {
    "outside": "Close a caliper over the rim, or wrap a paper strip round it and divide by 3.1416.",
    "pitch": "Measure the outside diameter over the rim instead, and write it as outside.",
    "length": "Hook a tape, read it twice, and write the difference as ±.",
    "length_tolerance": "Lay a tape round the belt's back, and write what it shows as its length, "
    'with ±, and length_is = "outside".',
    "mass": "Put a bathroom scale under each wheel in turn, the others on blocks of its height.",
    "front": "Put a bathroom scale under each front wheel, the rear ones on blocks of its height.",
    "rear": "Put a bathroom scale under each rear wheel, the front ones on blocks of its height.",
    "rear_raised": "Lift the front on a block, chock the wheels, and read the rear scales again.",
    "roll_out": "Chalk the tyre and the floor, roll one full turn with the driver seated, measure.",
    "idle": "Hold a cheap inductive rev counter to the spark lead at idle, or record its sound.",
    "no_load": (
        "Hold a cheap inductive rev counter to the spark lead, governed, clutch down; or record "
        "its sound."
    ),
    "stock_input": "Take the donor's engine speed times its pulley ratio, measured over the rims.",
    "rate": "Hang two known weights on the spring; rate is their difference over the stretch.",
    "initial": "Pull the spring with a fish scale until the coils just begin to open.",
    "friction": "Drag the part over its partner with a fish scale: pull over weight.",
    "diameter": "Close a caliper on it twice, a quarter turn apart, and write the difference as ±.",
    "k_factor": "Bend a scrap by 90° and measure both legs over their outsides: "
    "K = ((flat − both legs + 2 r + 2 t) / 1.571 − r) / t.",
    "thickness": "Close a caliper on it, away from a burr.",
    "stand_off": "Lay a straight-edge on the belt, and measure down to the plate at right angles.",
    "droop": "Hold a rev counter to the spark lead, clutch down, and write no_load under engine.",
    "made_for": "Read it off the engine's label, or ask its maker.",
    "service": _TREATMENT,
    "creep": "Chalk a line across a belt and its pulley, drive it under load, and see how far the "
    "marks have walked apart.",
    "seal_friction": _WARM_UP,
    "duty": "Watch an hour of usual work, and guess how much of it the engine pulls hard.",
    "rolling": _GROUND,
    "grip": _GROUND,
    "mesh_share": _WARM_UP,
    "churning": _WARM_UP,
    "air_reached": _WARM_UP,
    "free_area": _WARM_UP,
    "rear_share": "Weigh the rear of a machine like the donor, with its rider, on bathroom scales.",
    "pedal_force": "Press a bathroom scale with the foot as hard as you would in an emergency.",
}

_BY_KIND = {
    Kind.LENGTH: "Measure it with a tape or caliper, twice, and write the difference as ±.",
    Kind.ANGLE: "Lay a phone's level on it, or measure rise over run with a straight-edge.",
    Kind.MASS: "Weigh it on a bathroom scale.",
    Kind.ROTATION: "Count it with a rev counter, or against a known speed.",
    Kind.FORCE: "Pull it with a fish scale.",
    Kind.TEMPERATURE: "Hold a cheap infrared or oven thermometer to it.",
    Kind.SPRING_RATE: "Hang two known weights on it and measure how far it stretches.",
    Kind.VOLUME: "Fill it from a measuring jug.",
    Kind.TIME: "Time it with a phone, three times.",
}


def can_be_measured(quantity: Quantity) -> bool:
    """Whether any tool settles an input; none does a day's ground or how a belt is treated."""
    return how_to_measure(quantity) not in (_GROUND, _TREATMENT)


def how_to_measure(quantity: Quantity) -> str:
    """How to get a better value of an input with what a home shop has."""
    return how_for(quantity.key, quantity.kind)


def how_for(key: str, kind: Kind) -> str:
    """How to get the value of a dotted key, also where none is written yet."""
    end = key.rsplit(".", 1)[-1]
    if key.startswith("throttle.") and end == "friction":
        return "Take its springs off, and move it slowly with a fish scale."
    if key in ("wheels.front", "wheels.rear"):
        return "Read it off the sidewall of the tyre."
    if key in ("wheels.front.outside", "wheels.rear.outside"):
        return _TYRE
    return _BY_KEY_END.get(end) or _BY_KIND.get(kind, "Look it up on the part, or ask its maker.")

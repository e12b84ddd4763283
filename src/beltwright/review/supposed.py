"""What a supposed number is called in the builder's words, and shown in the builder's units."""

from dataclasses import replace

from beltwright.quantity import Quantity, Units, show_quantity, unit_named

NAMES = {
    "belt.creep": "creep of loaded V-belts",
    "belt.efficiency": "power that a V-belt passes on",
    "belt.*.back_friction": "friction of a pulley on the back of the {}",
    "belt.*.friction": "friction of the {} in its grooves",
    "belt.*.length_tolerance": "what the {} may be off the length printed on it",
    "belt.*.service": "service factor of the {}",
    "belt.*.stretch": "growth of the {} over its life",
    "brake.efficiency": "share of the pedal force that reaches the brake",
    "brake.friction": "friction of the brake lining",
    "brake.pedal_force": "force of the foot on the brake",
    "brake.reaction": "time from seeing to braking",
    "brake.shoe.begins": "angle at which the brake shoe's lining begins",
    "brake.shoe.ends": "angle at which the brake shoe's lining ends",
    "brake.shoe_pivot_share": "distance of the shoe's pivot over the drum's radius",
    "chain.*.efficiency": "power that the {} passes on",
    "driver.above_hip": "how high above the hip the driver's weight sits",
    "driver.ahead_of_hip": "how far ahead of the hip the driver's weight sits",
    "engine.droop": "how much faster the engine turns without load",
    "engine.idle": "engine speed at idle",
    "engine.made_for": "highest speed that the engine's maker allows",
    "engine.peak_torque_at": "speed of the engine's best torque over its rated speed",
    "engine.torque_rise": "rise of the engine's best torque over its rated torque",
    "gear.*.efficiency": "power that the {} passes on",
    "gearbox.air_reached": "speed of the air at the gearbox over the ground speed",
    "gearbox.air_space": "air in the gearbox above its oil",
    "gearbox.aluminium_share": "share of aluminium in the gearbox",
    "gearbox.bearing": "bore of the gearbox's fast bearings",
    "gearbox.bearings": "number of the gearbox's fast bearings",
    "gearbox.big_gear.dip": "how deep the largest gear hangs in the oil",
    "gearbox.big_gear.outside": "outside of the largest gear in the oil",
    "gearbox.big_gear.turns": "input turns for one turn of the largest gear",
    "gearbox.big_gear.width": "width of the largest gear in the oil",
    "gearbox.churning": "loss by churned oil, times its formula",
    "gearbox.closed_at": "air temperature when the gearbox was closed",
    "gearbox.donor.height_share": "height of the donor's weight over its wheelbase",
    "gearbox.donor.rear_share": "share of the donor's weight on its drive wheels",
    "gearbox.duty": "share of full power that a working hour takes",
    "gearbox.efficiency": "power that the gearbox passes on",
    "gearbox.emissivity": "how well the gearbox sheds heat by radiation",
    "gearbox.free_area": "share of the gearbox's faces that air reaches",
    "gearbox.humidity": "dampness of the air in the gearbox",
    "gearbox.measured.cooling_left": "doubt that a measured warm-up leaves of the cooling",
    "gearbox.measured.loss_left": "doubt that a measured warm-up leaves of the loss",
    "gearbox.mesh_share": "share of the power that one pair of gears loses",
    "gearbox.meshes": "pairs of gears that carry the power",
    "gearbox.seal_friction": "friction of the seals, from lowest (-1) to highest (+1) estimate",
    "gearbox.vent_bore": "bore of the gearbox's vent",
    "gearbox.vent_length": "length of the gearbox's vent",
    "ground.*.grip": "grip of the tyres on {}",
    "ground.*.rolling": "rolling drag on {}",
    "guard.*.bending.grip": "what the jaws need of the {} between two bends",
    "guard.*.bending.inside_radius": "inside radius of the bends of the {}",
    "guard.*.ends.0": "straight end of the {} before the pulley",
    "guard.*.ends.1": "straight end of the {} after the pulley",
    "guard.*.gap": "gap between belt and {}",
    "guard.*.bending.k_factor": "where the {} keeps its length in a bend, over its thickness",
    "guard.*.strip.width": "width of the strip of the {}",
    "hub.yield_strength": "yield strength of the softest of key, shaft and hub",
    "idler.*.arm.furthest": "angle at which the arm of the {} meets its stop",
    "idler.*.arm.width": "width of the arm of the {}",
    "idler.*.bearing_limit": "speed that the bearing of the {} is made for",
    "linkage.*.arm.position.within": "how near the arm of the {} must come to each place",
    "linkage.*.efficiency": "share of the force that the {} passes on",
    "linkage.*.lever.effort": "force of the hand or foot on the {}",
    "linkage.*.rod.diameter": "thickness of the rod of the {}",
    "linkage.*.rod.joint_limit": "how far the joints of the {} tilt",
    "machine.air": "hottest air that it works in",
    "machine.drag_area": "drag area of machine and driver, in m²",
    "machine.left_of_middle": "how far left of the middle its weight sits",
    "machine.slope": "steepest slope that it is driven on",
    "obstacle.*.gap": "gap wanted between belt and {}",
    "shaft.*.tensile_strength": "tensile strength of the shaft “{}”",
    "shaft.bearing_span": "distance between the two bearings of a shaft",
    "steering.kingpin_inclination": "lean of the kingpins",
    "throttle.arm.free_wire": "free wire between housing and hole at the arm",
    "throttle.arm.friction": "friction of the throttle's arm",
    "throttle.cable.bends": "bends of the throttle's cable, added up",
    "throttle.cable.clearance": "room of the throttle's wire in its housing",
    "throttle.cable.friction": "friction of the throttle's wire in its housing",
    "throttle.cable.least_slack": "slack of the throttle's wire, beside what the bends take",
    "throttle.cable.length": "length of the throttle's wire",
    "throttle.cable.stiffness": "stiffness of the throttle's cable over that of a steel rod",
    "throttle.cable.wire": "diameter of the throttle's wire",
    "throttle.hard_push": "hardest push on the throttle",
    "throttle.pedal.free_wire": "free wire between housing and hole at the pedal",
    "throttle.pedal.friction": "friction of the throttle's pedal",
    "wheels.rolling_share": "radius that a loaded tyre rolls on over its free radius",
}
"""By dotted key; * stands for the builder's own name of a row, and {} for where it goes."""

_INCH_UNITS = {"in", "ft", "thou", "yd", "mi", "lb", "oz", "mph", "hp", "lbf", "psi", "°F"}
"""What an inch builder reads beside inches."""


def pattern_of(key: str) -> tuple[str, str]:
    """A key as it stands in the list of names, and the builder's own name in it."""
    if key in NAMES:
        return key, ""
    table, _, rest = key.partition(".")
    for pattern in NAMES:
        first, star, last = pattern.partition(".*.")
        if star and first == table and rest.endswith(f".{last}"):
            return pattern, rest.removesuffix(f".{last}")
    return "", ""


def supposed_name(key: str) -> str:
    """What a supposed number is called, "" where the list has no name for it."""
    pattern, own = pattern_of(key)
    return NAMES[pattern].format(own) if pattern else ""


def in_units(quantity: Quantity, units: Units) -> str:
    """A supposed number as it was put down, or in the builder's units where those are others.

    Inches for who measures in inches and the other way round; shares and angles stay.
    """
    wanted = units[quantity.kind]
    if (unit_named(quantity.unit, quantity.kind).symbol in _INCH_UNITS) == (
        wanted.symbol in _INCH_UNITS
    ):
        return quantity.text
    return show_quantity(replace(quantity, unit=wanted.symbol), digits=3)

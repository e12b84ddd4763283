"""Which sketch shows how a value is measured."""

_BY_PLACE = {
    "engine": {"at": ""},
    "shaft": {"at": "place", "slot_to": "place", "diameter": "caliper"},
    "obstacle": {"outline": "place", "from_height": "height", "to_height": "height"},
    "machine": {
        "wheelbase": "wheelbase",
        "track_front": "track",
        "track_rear": "track",
        "hip": "hip",
        "slope": "slope",
    },
    "belt": {"length": "belt_print", "section": "belt_print"},
    "guard": {
        "gap": "keeper",
        "over": "keeper",
        "ends": "keeper",
        "angle": "keeper",
        "length": "strip",
        "from_end": "strip",
        "width": "strip",
        "thickness": "caliper",
        "diameter": "inside",
    },
    "throttle": {
        "arm": "throttle",
        "radius": "throttle",
        "foot": "lever",
        "rest": "throttle",
        "full": "throttle",
        "closed": "throttle",
        "open": "throttle",
        "housing_end": "throttle",
        "slack": "wire_slack",
        "bends": "wire_bends",
        "wire": "caliper",
        "lever_hook": "throttle_spring",
        "fixed_hook": "throttle_spring",
        "friction": "",
        "at": "",
    },
    "hole": {"diameter": "inside", "depth": "depth"},
}

_BY_NAME = {
    "outside": "caliper",
    "bore": "inside",
    "pivot": "place",
    "at": "place",
    "frame_hook": "place",
    "height": "height",
    "front": "scales",
    "rear": "scales",
    "left": "scales",
    "right": "scales",
    "raised_by": "raised",
    "rear_raised": "raised",
    "released": "angle",
    "furthest": "angle",
    "driving": "angle",
    "roll_out": "roll_out",
    "idle": "revs",
    "no_load": "revs",
    "rate": "spring",
    "free": "spring",
    "initial": "spring",
    "pedal_force": "pedal",
    "pushed": "lever",
    "pushing": "lever",
}

SKETCHES = {
    "caliper": "A caliper closed over the rim of a pulley",
    "inside": "The inner jaws of a caliper opened in a hole",
    "depth": "The depth rod of a caliper in a hole",
    "place": "From above: forwards from the rear axle is x, to the left of the middle is y",
    "height": "A rule on the ground beside the pulley, read at the middle of its groove",
    "wheelbase": "From the middle of the rear axle to the middle of the front axle",
    "track": "From the middle of one tyre to the middle of the other",
    "scales": "One wheel on a scale, the others on blocks of the same height",
    "raised": "The front wheels on a block, the rear ones on the scale",
    "hip": "From the rear axle forwards, and from the ground up, to the hip joint",
    "slope": "A straight-edge on the slope: rise over run",
    "angle": "From straight ahead, counter-clockwise, to the arm",
    "roll_out": "A chalk mark on the tyre, rolled one full turn along the floor",
    "revs": "A rev counter clipped to the spark lead",
    "spring": "A known weight on the spring, its length measured between the hooks",
    "belt_print": "The size is printed on the back of the belt",
    "throttle": "A lever seen squarely: pivot, hole of the wire, end of its housing, and its angle",
    "throttle_spring": "From the pivot to the hole, left of that line; the other end right and up",
    "wire_slack": "The wire drawn out of its housing by hand until the arm moves",
    "wire_bends": "Two quarter bends of the housing make half a turn",
    "keeper": "From above: a strip round the belt on its pulley, a gap off, a foot at each end",
    "strip": "The strip laid flat: its length, and the middle of each hole from the first end",
    "pedal": "The foot on the pedal, a scale between them",
    "lever": "Both arms of a lever, square to the force",
}
"""What each sketch shows, for who can't see it."""


def sketch_for(key: str) -> str:
    """The name of the sketch for a dotted key, "" where words do."""
    names = [name for name in key.split(".") if not name.isdigit()]
    own = _BY_PLACE.get(names[0], {})
    return own.get(names[-1], _BY_NAME.get(names[-1], ""))

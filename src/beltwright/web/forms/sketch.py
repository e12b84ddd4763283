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


def sketch_for(key: str) -> str:
    """The name of the sketch for a dotted key, "" where words do."""
    names = [name for name in key.split(".") if not name.isdigit()]
    own = _BY_PLACE.get(names[0], {})
    return own.get(names[-1], _BY_NAME.get(names[-1], ""))

"""Names of what is cut, bent, drilled and bought, and of what was read on a drive."""

from beltwright.review.names.sides import FROM_THE_AXLE, SEEN_SQUARELY, placed

_CORNER = "corner {number} of the {}"

IN_THE_WAY = {
    **placed("obstacle.*.outline.*", _CORNER, FROM_THE_AXLE[:2]),
    "obstacle.*.from_height": "height of the underside of the {}",
    "obstacle.*.to_height": "height of the top of the {}",
    "obstacle.*.gap": "gap wanted between belt and {}",
    "guard.*.gap": "gap between belt and {}",
    "guard.*.over": "angle that the {} goes round",
    "guard.*.ends.0": "straight end of the {} before the pulley",
    "guard.*.ends.1": "straight end of the {} after the pulley",
    "guard.*.strip.thickness": "strip thickness of the {}",
    "guard.*.strip.width": "strip width of the {}",
    "guard.*.strip.length": "length of the strip at hand for the {}",
    "guard.*.strip.holes.*.from_end": "distance of hole {number} from the strip's end, {}",
    "guard.*.strip.holes.*.diameter": "diameter of hole {number} in the strip of the {}",
    "guard.*.bending.inside_radius": "inside radius of the bends of the {}",
    "guard.*.bending.grip": "flat strip that the jaws need beside a bend of the {}",
    "guard.*.bending.k_factor": "K factor of the bends of the {}",
    "guard.*.feet.*.length": "length of foot {number} of the {}",
    "guard.*.feet.*.angle": "angle of foot {number} of the {}",
}

METAL = {
    "hole.*.diameter": "diameter of the hole “{}”",
    "hole.*.depth": "depth of the hole “{}”",
    "hole.*.room": "metal round the hole “{}”",
    "hole.*.material": "metal that the hole “{}” is in",
    "hole.*.thread": "thread wanted in the hole “{}”",
    "plate.*.material": "metal of the {}",
    "plate.*.thickness": "thickness of the {}",
    "plate.*.rectangle.0": "width of the {}",
    "plate.*.rectangle.1": "height of the {}",
    "plate.*.outline": "outline of the {}",
    **placed("plate.*.outline.*", _CORNER, SEEN_SQUARELY),
    **placed("plate.*.at", "the lower left corner of the {}", FROM_THE_AXLE[:2]),
    "plate.*.turned": "angle by which the {} is turned",
    "plate.*.height": "height of the {} above ground",
    "plate.*.gap": "gap wanted between belt and {}",
    "plate.*.hole": "holes that bolt the {} to the frame",
    **placed("plate.*.hole.*.place", "the hole “{1}” of the {0}", SEEN_SQUARELY),
    "plate.*.hole.*.diameter": "diameter of the hole “{1}” of the {0}",
    "plate.*.hole.*.thread": "thread of the hole “{1}” of the {0}",
    "plate.*.hole.*.slot.0": "how far right the slot “{1}” of the {0} runs on",
    "plate.*.hole.*.slot.1": "how far up the slot “{1}” of the {0} runs on",
    "plate.*.hole.*.stand_off": "distance from the {0} to the belt at the hole “{1}”",
}

BOUGHT = {
    "part": "parts list",
    "part.*.price": "price of “{}”",
    "part.*.outside": "outside diameter of “{}”",
    "part.*.length": "printed length of “{}”",
    "part.*.bore": "bore of “{}”",
    "choose.vary.*.low": "least value that choice {number} may take",
    "choose.vary.*.high": "largest value that choice {number} may take",
    "choose.vary.*.step": "steps of choice {number}",
}

DRIVES = {
    "drive.*.engine": "engine speed, drive “{}”",
    "drive.*.gear": "gear, drive “{}”",
    "drive.*.air": "air temperature, drive “{}”",
    "drive.*.slope": "slope, drive “{}”",
    "drive.*.speed": "ground speed, drive “{}”",
    "drive.*.distance": "marked distance, drive “{}”",
    "drive.*.time": "time for the marked distance, drive “{}”",
    "drive.*.engine_turns": "turns of the engine, drive “{}”",
    "drive.*.wheel_turns": "turns of the driven wheels, drive “{}”",
    "drive.*.rolled": "distance rolled, drive “{}”",
    "drive.*.braked_from": "speed as the brake bit, drive “{}”",
    "drive.*.stopped_in": "stopping distance, drive “{}”",
    "drive.*.case": "temperature of the gearbox case, drive “{}”",
    "drive.*.after": "driving time since the cold start, drive “{}”",
    "drive.*.duty": "share of full power, drive “{}”",
    "drive.*.slack": "belt to spare, clutch down, drive “{}”",
    "drive.*.press": "press on the belt, drive “{}”",
    "drive.*.moved": "how far the press moved the belt, drive “{}”",
    "drive.*.reached": "speed reached from standing, drive “{}”",
    "drive.*.reached_in": "time to reach that speed, drive “{}”",
}

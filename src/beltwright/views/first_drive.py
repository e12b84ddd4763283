"""The steps of a first drive, in order: what is done, what the plan expects, when to stop."""

from fnmatch import fnmatchcase
from typing import NamedTuple


class Step(NamedTuple):
    """One step.

    key       by which forms and drives know it
    title     what it is called
    what      what is done
    look      when to stop and look
    caution   where it can hurt
    findings  ids of the findings that say what to expect, with * for names
    notes     what is written down beside the expected numbers
    beware    ids of the findings that say what must not be reached: nobody tries to read those
    """

    key: str
    title: str
    what: str
    look: str
    caution: str
    findings: tuple[str, ...]
    notes: tuple[str, ...] = ()
    beware: tuple[str, ...] = ()

    def speaks(self, id_: str) -> bool:
        """Whether a finding says what to expect at this step, or what must not be reached."""
        return any(fnmatchcase(id_, pattern) for pattern in (*self.findings, *self.beware))

    def reads(self, id_: str) -> bool:
        """Whether what a finding says is read at this step."""
        return self.speaks(id_) and not any(fnmatchcase(id_, pattern) for pattern in self.beware)


STEPS = (
    Step(
        "blocks",
        "On blocks, engine off",
        "Driven wheels off the ground, front chocked. Turn the belt once round by hand in both "
        "clutch positions. It must rub nowhere, and lie loose with the clutch down.",
        "Stop where it rubs, climbs out of a groove or stays tight with the clutch down.",
        "Spark lead off before hands go near belt, pulleys or spring. Blocks that bear the weight, "
        "never a jack alone.",
        ("belt.*.slack", "belt.*.press_test"),
        ("turns of the engine for one of the wheels, gear ……",),
    ),
    Step(
        "running",
        "On blocks, engine running",
        "Guards on, nobody beside the wheels. Read the engine speed at idle and governed, then let "
        "the clutch up at idle. First gear must turn the wheels forwards.",
        "Stop where the wheels creep with the clutch down, or turn the wrong way.",
        "Outdoors only: exhaust kills in a closed room. A belt that jumps off whips, and a machine "
        "that slips off its blocks drives away: stand clear of the belt and of the wheels, never "
        "in front, and keep the stop switch in hand.",
        ("engine.speed", "drive.direction"),
        ("engine speed at idle",),
    ),
    Step(
        "walking",
        "Level ground, walking pace",
        "Slowest gear, idle, helmet and boots on, a stop switch that you have tried. Brake hard "
        "three times.",
        "Stop where the brake pulls to one side, or it rolls on with the clutch down.",
        "A wide, level place with nobody near. If it will not stop, press the stop switch first; "
        "if you must get off, then to the side, never in front.",
        ("speed.crawl",),
        ("distance of four turns of a driven wheel",),
    ),
    Step(
        "gears",
        "Each gear, short and straight",
        "Time a marked 20 m or 60 ft in each gear. Stop between gears. Stay off the next gear "
        "until the last one braked as it should.",
        "Stop where it jumps out of gear, the belt squeals or smells, or it is off its expected "
        "speed by more than the range.",
        "It may go faster than its donor was made to: brakes, steering and frame were not made for "
        "that. Go on only while it still brakes well.",
        ("speed.gear.*",),
        ("engine speed in the fastest gear",),
    ),
    Step(
        "stopping",
        "Stopping",
        "From the fastest gear on level, dry ground that you know. Mark where you brake, measure "
        "to where it stands.",
        "Stop where it needs more than expected, or a wheel alone slides.",
        "Keep a second way to stop: a stop switch in reach and a clear run-out.",
        ("brake.stopping_distance", "brake.deceleration"),
        ("from the mark to where it stood", "did the wheels slide?"),
    ),
    Step(
        "warm",
        "Warm",
        "Half an hour of easy work, then hold a thermometer to the gearbox case. Look for oil at "
        "the seals.",
        "Stop where it is hotter than expected, or oil comes out anywhere.",
        "Exhaust, brake and gearbox burn. Never open a hot gearbox: let it cool first.",
        ("gearbox.oil_temperature",),
        ("air", "case after …… minutes"),
        ("gearbox.case_pressure",),
    ),
    Step(
        "slopes",
        "Slopes last",
        "Straight up and straight down, never across, half of what the plan allows first.",
        "Stop where the front gets light, the wheels spin or the belt slips: back down in gear, "
        "clutch up, brake ready.",
        "It falls over backwards in less than a second, and sideways without a warning. Nobody "
        "downhill of it; get off on the uphill side.",
        ("climb.*",),
        ("steepest climbed, and how it ended",),
        ("climb.front_lift", "stability.side_slope"),
    ),
)

FIRST_DRIVE_CAUTION = (
    "It was not made for this. Drive alone, off public roads, with nobody near. Local codes and "
    "licensed practice go first."
)

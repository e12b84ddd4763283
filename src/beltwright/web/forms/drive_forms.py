"""The forms of a first drive: for each of its steps, what is read there, as a row of its own."""

from typing import Any

from beltwright.build.drive import Drive, Sign
from beltwright.tables.surfaces import surfaces
from beltwright.views.first_drive import STEPS
from beltwright.web.forms.form import Data, fields_of

_ASKED: dict[str, tuple[str, tuple[str, ...], tuple[Sign, ...]]] = {
    "blocks": (
        "on blocks",
        ("gear", "engine_turns", "wheel_turns", "belt", "slack", "press", "moved"),
        ("belt rubs",),
    ),
    "running": (
        "running on blocks",
        (),
        ("creeps with clutch down", "drives the wrong way", "engine hunts", "belt jumped off"),
    ),
    "walking": (
        "walking pace",
        ("gear", "engine", "distance", "time", "rolled", "wheel_turns"),
        (
            "creeps with clutch down",
            "stalls when clutch goes up",
            "jerks when clutch goes up",
            "brake pulls to one side",
            "drives the wrong way",
        ),
    ),
    "gears": (
        "gear",
        ("gear", "engine", "ground", "laden", "distance", "time", "reached", "reached_in"),
        ("belt squeals", "belt smells", "belt jumped off", "jumps out of gear", "engine hunts"),
    ),
    "stopping": (
        "stop",
        ("braked_from", "gear", "ground", "laden", "stopped_in", "locked"),
        ("brake pulls to one side", "brake smells"),
    ),
    "warm": (
        "warm",
        ("gear", "air", "after", "case", "duty"),
        ("oil at a seal", "oil out of the vent", "belt smells", "brake smells"),
    ),
    "slopes": (
        "slope",
        ("slope", "climbed", "gear", "engine", "ground", "laden", "distance", "time"),
        ("belt squeals", "belt smells", "wheels spin", "front lifts", "jumps out of gear"),
    ),
}
"""What each step's row is called at first, what is asked, and which signs may show there."""


def drive_forms(values: Data) -> dict[str, Data]:
    """A form for each step, with the gears, belts and grounds of this build to choose from."""
    # on the ground there is no time to read how a watch is read
    asked = {field["name"]: {**field, "how": ""} for field in fields_of(Drive, {}, "drive.")}
    choices = {
        "gear": _gears(values),
        "belt": [belt.get("name", "") for belt in values.get("belt", [])],
        "ground": [surface.name for surface in surfaces()],
    }
    for name, listed in choices.items():
        asked[name] = {**asked[name], "kind": "choice", "choices": listed, "example": ""}
    taken = {drive.get("name") for drive in values.get("drive", [])}
    return {
        step.key: {
            "step": step.key,
            "told": step,
            "fields": [
                {**asked["name"], "text": _free(name, taken), "about": ""},
                *(asked[each] for each in names),
            ],
            "signs": signs,
        }
        for step in STEPS
        for name, names, signs in [_ASKED[step.key]]
    }


def _gears(values: Data) -> list[str]:
    box: Any = values.get("gearbox") or {}
    forward, reverse = (box.get(way) or [] for way in ("forward", "reverse"))
    numbers = range(1, max(len(forward), 1) + 1)
    return [*map(str, numbers), *(f"reverse {n}" for n in range(1, len(reverse) + 1))]


def _free(name: str, taken: set[Any]) -> str:
    """A name that no drive has yet."""
    if name not in taken:
        return name
    return next(f"{name} {n}" for n in range(2, len(taken) + 3) if f"{name} {n}" not in taken)

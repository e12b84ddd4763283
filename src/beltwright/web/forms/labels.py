"""What a field of a form is called where the word of the build file says too little by itself."""

from pydantic import BaseModel

_LABELS = {
    "Engine.at": "Rated speed",
    "TorquePoint.at": "Engine speed",
    "ThrottleSpring.at": "Pulls at",
    "ThrottleArm.open": "Angle at the full-speed stop",
    "adjusts": "Adjustment",
    "at": "Place",
    "bin": "From the bin",
    "closed": "Angle at the idle stop",
    "driving": "Angle in drive",
    "ends": "Straight ends",
    "free": "Free length",
    "from": "Comes from",
    "full": "Angle, fully pressed",
    "furthest": "Angle at its stop",
    "have": "On the bench",
    "high": "To",
    "initial": "Pull that opens it",
    "k_factor": "K factor",
    "longest": "Greatest length",
    "low": "From",
    "made_for": "Highest speed allowed",
    "no_load": "Speed without load",
    "notch": "Angle at the notch",
    "of": "Part that may change",
    "outside": "Outside diameter",
    "over": "Goes round by",
    "pitch": "Pitch diameter",
    "prices": "From the price list",
    "pushed": "Arm that is pushed",
    "pushing": "Arm that pushes on",
    "raised_by": "Front lifted by",
    "rear_raised": "Rear wheels, front lifted",
    "released": "Angle, clutch down",
    "rest": "Angle, let go",
    "room": "Metal round it",
    "round": "Goes round",
    "slot_to": "Other end of its slot",
    "step": "In steps of",
    "stock_input": "Donor's input speed",
    "use": "Serves",
    "what": "What may change",
    "within": "How near it must come",
}
"""By name, or by table and name where a name means several things."""


def label_of(model: type[BaseModel], name: str) -> str:
    """What a field of a table is called."""
    return _LABELS.get(f"{model.__name__}.{name}") or _LABELS.get(name) or in_words(name)


def in_words(name: str) -> str:
    """A word of the build file as it begins a line."""
    words = name.replace("_", " ")
    return words[0].upper() + words[1:]

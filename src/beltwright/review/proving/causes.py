"""What could make a drive differ from the plan: inputs of the prediction that may be wrong."""

from collections.abc import Iterator
from fnmatch import fnmatchcase
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.physics.arrays import Array
from beltwright.physics.proving.agreement import AGREES
from beltwright.quantity import Kind
from beltwright.review.belt.force import pulls
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.pulleys import roll_out
from beltwright.review.driveline.routes import gears, route_to
from beltwright.review.engine.torque import no_load, peak_torque
from beltwright.review.measuring import how_for
from beltwright.review.nominal import nominal
from beltwright.review.proving.comparing import comparisons
from beltwright.review.proving.conditions import ratio_key
from beltwright.review.proving.written import Place, at_place, key_of

SLIPS = 0.04
"""How much of its speed a belt may well lose whose grip just meets the engine's best torque [1]
(assumed): a belt that has less grip slips more."""

TOLD = 3.0
"""How much more a belt may well slip that squealed, or that a press found too loose [1] (assumed).
"""

MISREAD = 0.01
"""Share by which a size that was written as exact may be wrong (assumed)."""


class Cause(NamedTuple):
    """One input that may be wrong.

    words    what it is called
    kind     of the input
    place    where the build file has it, () where it has no place of its own
    key      under which candidates are put in
    drawn    key of the prediction that it stands for, and
    draws    its values over the samples [SI]
    nominal  value that the plan takes [SI]
    doubt    how far off it may well be, half-width [SI]
    least    what it can never be below, and
    most     above [SI]
    check    what tells it from other causes
    readings that it can explain: last steps of their ids, () for all
    """

    words: str
    kind: Kind
    place: Place
    key: str
    drawn: str
    draws: Array
    nominal: float
    doubt: float
    least: float
    most: float
    check: str
    readings: tuple[str, ...] = ()


def causes(case: Case, inputs: frozenset[str]) -> tuple[Cause, ...]:
    """Every cause among the inputs of some predictions, in the order of those that follow."""
    found: dict[str, Cause] = {}
    for cause in _all(case, sorted(inputs)):
        if cause.doubt > 0.0:
            found.setdefault(cause.key, cause)
    return tuple(found.values())


def _all(case: Case, inputs: list[str]) -> Iterator[Cause]:
    for key in inputs:
        yield from _slips(case, key)
        yield from _derived(case, key)
        yield from _plain(case, key)
    if any(key.startswith(("pulley.", "belt.creep")) for key in inputs):
        yield from _gear_ratios(case)


def slipping_belts(case: Case) -> tuple[Belt, ...]:
    """The belts between the engine and the wheels."""
    names = [stage.name for stage in route_to(case, case.build.wheels.shaft).stages]
    return tuple(belt for belt in case.build.belt if belt.name in names)


def _slips(case: Case, key: str) -> Iterator[Cause]:
    for belt in slipping_belts(case):
        place = ("belt", belt.name, "slip")
        if (key == "belt.creep" and belt.slip is None) or key == key_of(place):
            yield Cause(
                words=f"slip of the {belt.name}",
                kind=Kind.RATIO,
                place=place,
                key=key_of(place),
                drawn=key,
                draws=case.drawn[key],
                nominal=float(case.drawn[key][0]),
                doubt=SLIPS * _strain(case, belt) * (TOLD if _told_of(case, belt) else 1.0),
                least=0.0,
                most=0.5,
                check="Chalk a line across each belt and its pulleys, drive it under load, and see "
                "whether the marks have walked apart",
                readings=("speed",),
            )


def _strain(case: Case, belt: Belt) -> float:
    """The engine's best torque over the torque at which the belt slips; 1 where not known."""
    try:
        best, grip = nominal(peak_torque(case)), nominal(pulls(case, belt).grip)
    except NotKnownError:
        return 1.0
    return best / grip if np.isfinite(grip) and grip > 0.0 else 1.0


def _told_of(case: Case, belt: Belt) -> bool:
    """Whether something else on a drive speaks of a belt that slips."""
    for drive in case.build.drive:
        heard = {"belt squeals", "belt smells"} & set(drive.signs)
        if (heard or drive.climbed == "belt slipped") and drive.belt in (None, belt.name):
            return True
    loose = (each for each in comparisons(case) if each.reading.what == "press")
    return any(each.reading.drive.belt == belt.name and each.error < -AGREES for each in loose)


def _derived(case: Case, key: str) -> Iterator[Cause]:
    """Inputs that the plan only guesses, by the number that a builder would measure instead."""
    if key in ("engine.no_load", "engine.droop"):
        yield _of(case, no_load(case), ("engine", "no_load"), key, "governed engine speed", _REVS)
    if key in ("wheels.roll_out", "wheels.rolling_share"):
        check = how_for("wheels.roll_out", Kind.LENGTH).rstrip(".")
        yield _of(case, roll_out(case), ("wheels", "roll_out"), key, "roll-out", check)


def _of(case: Case, values: Array, place: Place, drawn: str, words: str, check: str) -> Cause:
    stands = at_place(case.build, place)
    stands_at = nominal(values)
    spread = float(np.ptp(values[1:])) / 2.0 if values.size > 1 else 0.0
    spread = max(spread, _CHANGES[key_of(place)] * stands_at)
    kind = Kind.ROTATION if place[0] == "engine" else Kind.LENGTH
    key = key_of(place) if stands is None else stands.key
    ends = _around(stands_at)
    return Cause(words, kind, place, key, drawn, values, stands_at, spread, *ends, check)


def _around(nominal: float) -> tuple[float, float]:
    """Half to twice: a positive number that is farther off than that is another machine's."""
    return 0.5 * nominal, 2.0 * nominal


def _tolerance(case: Case, key: str, nominal: float) -> float:
    quantity = case.quantities.get(key)
    written = 0.0 if quantity is None else 0.5 * (quantity.minus + quantity.plus)
    return max(written, MISREAD * abs(nominal))


_REVS = "Put a rev counter on the spark lead and read it in that gear, lever at full speed"
_FRICTION = (
    "Bed the lining in with ten hard stops from walking pace, let it cool, look for oil on it, and "
    "measure again"
)
_HEAT = "Drive it once more for an hour and read the case every ten minutes"

_PLAIN: dict[str, tuple[str, str]] = {
    "engine.idle": ("idle speed", "Read a rev counter at idle, clutch down"),
    "engine.power": (
        "power of the engine",
        "See that the throttle opens fully and the air filter is clean, and read the engine speed "
        "where it labours",
    ),
    "pulley.*.outside": ("outside of the {1}", "Close a caliper over the rim, twice"),
    "pulley.*.pitch": ("pitch diameter of the {1}", "Close a caliper over the rim, twice"),
    "ground.*.rolling": (
        "rolling drag on {1}",
        "Drive the same gear on hard, level ground: what is left there is not the ground's drag",
    ),
    "ground.*.grip": (
        "grip on {1}",
        "Lock the wheels once more on a dry and on a wet patch: only grip changes with it",
    ),
    "brake.friction": ("friction of the lining", _FRICTION),
    "brake.pedal_force": (
        "force on the pedal",
        "Press a bathroom scale with the foot as hard as in that stop",
    ),
    "brake.efficiency": (
        "what cable and pins leave of the force",
        "Oil cable and pins, and see whether the brake lets go by itself",
    ),
    "gearbox.efficiency": (
        "what the gearbox passes on",
        "Lift the driven wheels and turn the input by hand in gear: what drags is felt",
    ),
    "gearbox.duty": ("share of power that those minutes took", _HEAT),
    "drive.*.duty": ("share of power that those minutes took", _HEAT),
    "gearbox.churning": (
        "churned loss, times the plan's",
        "Check the oil's level and grade: too much or too thick oil churns",
    ),
    "gearbox.free_area": (
        "cooling face of the case, times its plain faces",
        "Clean grass and mud off the case, look what shrouds it, and drive it again",
    ),
    "gearbox.air_reached": (
        "air that reaches the case, times the ground speed",
        "Lay a strip of cloth beside the case and see whether the wind of driving moves it",
    ),
    "drive.*.engine": (
        "engine speed as read",
        "See that the rev counter is set to the engine's sparks a turn: a wrong setting reads "
        "twice or half",
    ),
    "drive.*.braked_from": ("speed as the brake bit", "Time the last marked metres before it"),
    "drive.*.moved": ("how far the press moved it", "Press again, a straight-edge along the belt"),
    "belt.*.length": ("length of the {1}", "Lay it flat beside a new one of its size"),
    "belt.*.tension": (
        "pull of the {1} at rest",
        "Press it again in the middle of a span; slide it tight and see whether it stays",
    ),
    "belt.*.friction": ("friction of the {1}", "Look for glaze, oil or water in the grooves"),
    "idler.*.arm.released": ("released angle of the {1}", "Read the arm's angle, clutch down"),
    "idler.*.arm.spring.rate": ("rate of the spring of the {1}", "Hang two known weights on it"),
    "idler.*.arm.spring.free": ("free length of the spring of the {1}", "Unhook it and measure"),
}
"""Inputs as they stand in the file or as they are supposed, with what each is called and what
tells it from the others."""

_ONLY = {"belt.*.length": ("slack",)}
"""Readings that an input can explain, where it is not all that rest on it."""

_CHANGES = {"belt.*.tension": 0.3, "engine.no_load": 0.02, "wheels.roll_out": MISREAD}
"""Share by which an input changes after it was measured: a new belt loses about a third of its pull
in its first hours, a governed speed wanders with its spring and its linkage, a roll-out with the
tyre's pressure (common practice, no source)."""

_PARTS = ("efficiency", "duty")
"""Ends of the keys of what is never more than the whole."""

_NO_PLACE = ("gearbox.churning", "gearbox.free_area", "gearbox.air_reached")
"""Supposed numbers that a measured warm-up stands in for as a whole."""


def _plain(case: Case, key: str) -> Iterator[Cause]:
    wanted = next((pattern for pattern in _PLAIN if fnmatchcase(key, pattern)), None)
    if wanted is None or key not in case.quantities:
        return
    quantity = case.quantities[key]
    if key in _NO_PLACE and _corrected(case):
        return
    place = () if key in _NO_PLACE else _place(key, wanted)
    words, check = _PLAIN[wanted]
    if quantity.kind is Kind.ANGLE:
        least, most = quantity.value - 1.0, quantity.value + 1.0
    else:
        least, most = 0.1 * quantity.value, (1.0 if key.endswith(_PARTS) else 4.0 * quantity.value)
    yield Cause(
        words=words.format(*place) if place else words,
        kind=quantity.kind,
        place=place,
        key=key,
        drawn=key,
        draws=case.drawn[key],
        nominal=quantity.value,
        doubt=max(
            _tolerance(case, key, quantity.value), _CHANGES.get(wanted, 0.0) * quantity.value
        ),
        least=least,
        most=most,
        check=check,
        readings=_ONLY.get(wanted, ()),
    )


def _corrected(case: Case) -> bool:
    return case.build.gearbox is not None and case.build.gearbox.measured is not None


def _place(key: str, pattern: str) -> Place:
    """The steps of a key, its row's name in one piece even where it has dots."""
    head, star, tail = pattern.partition("*")
    if not star:
        return tuple(key.split("."))
    name = key[len(head) : len(key) - len(tail)]
    return (head.rstrip("."), name, *tail.lstrip(".").split("."))


def _gear_ratios(case: Case) -> Iterator[Cause]:
    """The ratio of each gear, as counted or read off its donor's papers."""
    for gear in gears(case) if case.build.gearbox is not None else ():
        yield Cause(
            words=f"ratio of gear {gear.name}",
            kind=Kind.RATIO,
            place=(),
            key=ratio_key(gear),
            drawn=ratio_key(gear),
            draws=np.array([gear.ratio]),
            nominal=gear.ratio,
            doubt=MISREAD * gear.ratio,
            least=0.5 * gear.ratio,
            most=2.0 * gear.ratio,
            check="Lift the driven wheels and count turns of the input for ten of the wheels",
            readings=("ratio", "speed"),
        )

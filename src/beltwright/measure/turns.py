"""Turns counted by hand to ratios, and wheel turns along a tape to a rolling circumference."""

import math
import re
from dataclasses import dataclass

from beltwright.measure.measured import Measured
from beltwright.measure.refusal import NotMeasuredError
from beltwright.quantity import Kind, Quantity

CHALK = math.radians(5.0)
"""How well a chalk mark on a wheel is read against the ground by eye [rad]; common practice."""

TAPE = 0.005
"""How well a tape is laid along two chalk marks on the floor [m]; common practice."""

_COUNT = re.compile(
    r"\s*(?P<turned>[0-9]+(?:\.[0-9]+)?)\s*=\s*(?P<whole>[0-9]+(?:\.[0-9]+)?)"
    r"(?:\s*\+\s*(?P<rest>[0-9]+(?:\.[0-9]+)?)\s*(?:°|deg)?)?\s*"
)


@dataclass(frozen=True)
class Count:
    """Turns of the pulley, and what the wheel made meanwhile: whole turns and a rest [rad]."""

    turned: float
    whole: float
    rest: float


def read_count(text: str) -> Count:
    """Read a count such as "20 = 1 + 115°": twenty turns of the pulley, one and a bit of the wheel.

    >>> read_count("20 = 1").turned
    20.0
    """
    found = _COUNT.fullmatch(text[:60])
    if found is None:
        raise NotMeasuredError(
            f'"{text[:60]}" is no count. Write turns of the pulley = turns of the wheel + degrees, '
            'as "20 = 1 + 115°".'
        )
    rest = math.radians(float(found["rest"] or 0.0))
    return Count(float(found["turned"]), float(found["whole"]), rest)


def ratio(
    count: Count, chalk: float = CHALK, belt: float = 1.0, one_wheel_held: bool = False
) -> Measured:
    """Turns of the pulley for one of the wheel.

    ratio = turned / wheel; its ± is what the chalk mark may be misread by, once at each end.

    Parameters: chalk, how well the mark is read [rad]; belt, turns of the pulley that was turned
    for one of the gearbox's input [1]; one_wheel_held, whether one wheel of an open differential
    stood on the ground, so that the other made twice the turns of the axle.
    """
    share = 0.5 if one_wheel_held else 1.0
    wheel = share * (count.whole + count.rest / math.tau)
    misread = share * math.sqrt(2.0) * chalk / math.tau
    if count.turned <= 0.0 or wheel <= misread or belt <= 0.0:
        raise NotMeasuredError(
            "The wheel turned too little to tell a ratio. Turn the pulley until the wheel has made "
            "a whole turn at least."
        )
    value = count.turned / wheel / belt
    notes = ["Turn slowly with the belt tight: one that slips makes the ratio look larger."]
    if one_wheel_held:
        notes.append("The turns of the free wheel are halved, as an open differential makes them.")
    else:
        notes.append("Both wheels must turn together, else hold one still and say so.")
    return Measured(
        value,
        value * misread / wheel,
        Kind.RATIO,
        f"{count.turned:g} turns over {wheel:.4g}, the mark read to {math.degrees(chalk):.2g}°.",
        tuple(notes),
    )


def roll_out(distance: Quantity, turns: float) -> Measured:
    """Rolling circumference of a wheel: the distance of so many turns, over their number.

    The ± written with the distance holds, else what a tape and two chalk marks give.
    """
    if turns < 1.0 or not math.isfinite(turns):
        raise NotMeasuredError("Roll the wheel one whole turn at least; five are better.")
    if distance.value <= 0.0:
        raise NotMeasuredError("The wheel must have rolled some distance.")
    loose = max(distance.minus, distance.plus) or math.sqrt(2.0) * TAPE
    return Measured(
        distance.value / turns,
        loose / turns,
        Kind.LENGTH,
        f"{turns:g} turns along the tape.",
        ("With the driver seated, tyres at the pressure they are driven at, on hard ground.",),
    )


def rolling_outside(circumference: Measured) -> Measured:
    """Outside diameter of a hard wheel that would roll as far: circumference / π."""
    return Measured(
        circumference.value / math.pi,
        circumference.spread / math.pi,
        Kind.LENGTH,
        "Circumference over π; a loaded tyre stands lower than its sidewall says.",
    )

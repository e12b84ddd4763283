"""The speed of an engine from the sound that it makes."""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from beltwright.measure.comb import LINES, Spacing, spacing
from beltwright.measure.measured import Measured
from beltwright.measure.recording import Recording
from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.spectrum import spectrum
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind

RPM = math.pi / 30.0
SLOWEST = 800 * RPM
"""No engine of such a machine idles slower [rad/s]."""

FASTEST = 6000 * RPM
"""None of them is governed faster, by far [rad/s]."""

LEAST_SPREAD = 0.003
"""The clock of a phone, and what lines that are missing pull it aside [1]."""

LEAST_SHARE = 0.5
"""Of the sounding part, this much must be at one speed [1]."""

LEAST_STRETCHES = 5
MOST_CYLINDERS = 4

NEAR = 0.2
"""How far the expected speed may be off to tell one reading from another [1]."""

Strokes = Literal[2, 4]


@dataclass(frozen=True)
class Reading:
    """One speed that the sound may mean, and what it would take for it to be so."""

    speed: Measured
    if_so: str


@dataclass(frozen=True)
class Heard:
    """What a recording says of an engine.

    readings  as if every firing sounded alike first; several where sound alone cannot tell them
              apart
    at        middle of each stretch that was used, shape (n,) [s]
    speed     engine speed in each of them, as the first reading has it, shape (n,) [rad/s]
    share     of the sounding part that was at this speed [1]
    """

    readings: tuple[Reading, ...]
    at: Array
    speed: Array
    share: float

    def near(self, about: float) -> Reading:
        """The reading that fits the speed which is expected [rad/s]; refuse where none does."""
        nearest = min(self.readings, key=lambda one: abs(math.log(one.speed.value / about)))
        if abs(nearest.speed.value / about - 1.0) <= NEAR:
            return nearest
        said = " or ".join(f"{one.speed.value / RPM:.0f}" for one in self.readings)
        raise NotMeasuredError(
            f"The sound says {said} rpm, and none of these is near {about / RPM:.0f} rpm. "
            "Look at the cylinders and strokes that you gave."
        )


def engine_speed(recording: Recording, cylinders: int, strokes: Strokes = 4) -> Heard:
    """Find the steady speed of an engine in a recording; raise NotMeasuredError where none is.

    A four-stroke cylinder fires every other turn, a two-stroke one every turn: lines in the sound
    are n / 2 or n a turn, or all multiples of one cycle where the cylinders sound unlike.
    """
    if not 1 <= cylinders <= MOST_CYLINDERS:
        raise NotMeasuredError(f"An engine here has 1 to {MOST_CYLINDERS} cylinders.")
    heard = spectrum(recording.samples, recording.rate)
    if not heard.loud.any():
        raise NotMeasuredError("There is nothing to hear in this recording. Hold the phone nearer.")
    a_turn = _lines_a_turn(cylinders, strokes)
    lowest = min(a_turn) * SLOWEST / math.tau
    highest = max(a_turn) * FASTEST / math.tau
    found = spacing(heard, lowest, highest)
    _check(found)
    readings = tuple(_readings(found, a_turn, heard.step))
    if not readings:
        raise NotMeasuredError("The tone in this recording fits no engine of this kind.")
    first = next(one for one in a_turn if _possible(found, one))
    return Heard(readings, found.at + 0.5, math.tau * found.hertz / first, found.share)


def _lines_a_turn(cylinders: int, strokes: Strokes) -> dict[float, str]:
    """How many lines one turn of the engine may have, and what would make it so many."""
    one = 0.5 if strokes == 4 else 1.0
    words = {cylinders * one: "if every firing sounds alike"}
    if cylinders > 1:
        words[one] = "if one cylinder sounds louder than the others"
    words.setdefault(1.0, "if the tone comes once a turn")
    return words


def _possible(found: Spacing, a_turn: float) -> bool:
    return SLOWEST <= math.tau * float(np.median(found.hertz)) / a_turn <= FASTEST


def _readings(found: Spacing, a_turn: dict[float, str], step: float) -> list[Reading]:
    """Every speed that the spacing may mean, with what the speed itself wandered as its ±.

    A line is two bins wide, so the top one that is looked at may lie a bin aside, which a slow
    engine's lines, near together, feel most.
    """
    low, middle, high = np.quantile(found.hertz, (0.05, 0.5, 0.95))
    wander = max(high - middle, middle - low, LEAST_SPREAD * middle) + step / LINES
    how = (
        f"From its sound: lines {middle:.2f} Hz apart, {found.hertz.size} stretches of 1 s, "
        f"{100 * found.share:.0f} % of what sounds"
    )
    return [
        Reading(
            Measured(
                math.tau * middle / lines,
                math.tau * wander / lines,
                Kind.ROTATION,
                f"{how}; {lines:g} a turn.",
            ),
            words,
        )
        for lines, words in a_turn.items()
        if _possible(found, lines)
    ]


def _check(found: Spacing) -> None:
    if found.hertz.size >= LEAST_STRETCHES and found.share >= LEAST_SHARE:
        return
    if found.hertz.size == 0:
        raise NotMeasuredError(
            "There is no steady tone of an engine in this recording. Hold the phone near the "
            "exhaust, out of the wind, and record ten seconds at one speed."
        )
    raise NotMeasuredError(
        f"Only {100 * found.share:.0f} % of this recording is at one speed. Record ten seconds in "
        "which nobody touches the throttle."
    )

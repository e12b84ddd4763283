"""What a track says of a drive: the top speed that was held, the stops, and slopes if at all."""

from dataclasses import dataclass

import numpy as np

from beltwright.measure.measured import Measured
from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.rolling_fit import Lines, lines
from beltwright.measure.track import Track
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind

HELD = 8.0
"""A top speed is one that was held straight on for so long [s]."""

SHORT = 2.0
"""Stretch from which the speed at one time is read [s]."""

FEWEST = 3
"""Points without which a stretch says nothing."""

LOST = 4.0
"""A line through the places that misses them by more is a lost signal, or a bend [m]."""

DRIFT = 0.1
"""What the places of a phone drift by while they look steady [m/s]; common practice, no source."""

ALIKE = 0.95
"""Stretches this near to the fastest were driven at the same speed [1]."""

STANDS = 0.4
"""Slower than this it stands; the places of a standing phone wander so fast [m/s]."""

DRIVES = 1.5
"""A stop from less than a walk says nothing of the brake [m/s]."""

FALLING = 0.85
"""Below this share of the speed before, the brake is on [1]."""

LONGEST_STOP = 15.0
"""What takes longer to come to a standstill was no braking [s]."""

IMPOSSIBLE = 40.0
"""Faster than any such machine: a place that jumped [m/s]."""

RUN = 50.0
"""Distance over which a slope is looked for [m]."""

USEFUL = 0.03
"""A slope known less well than this is not worth writing [1]."""


@dataclass(frozen=True)
class Stop:
    """One stop: when it began [s], the speed before, and the way to standstill."""

    at: float
    speed: Measured
    way: Measured


def top_speed(track: Track) -> Measured:
    """Find the highest speed that was held straight on."""
    east, north = (lines(track.seconds, place, HELD) for place in (track.east, track.north))
    speed = np.hypot(east.slope, north.slope)
    doubt, scatter = np.hypot(east.doubt, north.doubt), np.hypot(east.scatter, north.scatter)
    good = _good(east, HELD) & (scatter < LOST) & (speed < IMPOSSIBLE) & _even(track, HELD)
    if not good.any() or float(speed[good].max()) < 2.0 * STANDS:
        raise NotMeasuredError(
            f"Nowhere in this track was one speed held straight on for {HELD:g} s. Drive "
            "straight at full governed speed for ten seconds, phone with a clear view of the sky."
        )
    held = good & (speed + doubt > ALIKE * speed[good].max())
    known = float(np.hypot(speed[held].std(), DRIFT))
    first = float(track.seconds[held.argmax()])
    return Measured(
        float(np.median(speed[held])),
        2.0 * known,
        Kind.SPEED,
        f"Held straight on for {HELD:g} s, first {first:.0f} s into the track; the places scatter "
        f"by {np.median(scatter[held]):.2g} m.",
        ("It is the speed over the ground, downhill too. Drive it both ways and take the mean.",),
    )


def stops(track: Track) -> tuple[Stop, ...]:
    """Find every stop: the speed before, and the distance to standstill."""
    speed, middle = speeds(track)
    standing = speed < STANDS
    ends = np.flatnonzero(standing[1:] & ~standing[:-1]) + 1
    before = np.concatenate(([0], ends))[:-1]
    found = (
        _stop(track, speed, middle, int(begin), int(end))
        for begin, end in zip(before, ends, strict=True)
    )
    return tuple(stop for stop in found if stop is not None)


def speeds(track: Track) -> tuple[Array, Array]:
    """Speed over the ground [m/s] and the middle of the stretch it is read from [s]."""
    east, north = (lines(track.seconds, place, SHORT) for place in (track.east, track.north))
    good = _good(east, SHORT) & (np.hypot(east.slope, north.slope) < IMPOSSIBLE)
    return np.hypot(east.slope, north.slope)[good], east.middle[good]


def _stop(track: Track, speed: Array, middle: Array, begin: int, end: int) -> Stop | None:
    """One stop, from when the speed began to fall; None where it only crept to a standstill."""
    begin = max(begin, int(np.searchsorted(middle, middle[end] - LONGEST_STOP)))
    before = float(np.quantile(speed[begin : end + 1], 0.75))
    if before < DRIVES:
        return None
    start = begin + int(np.flatnonzero(speed[begin : end + 1] > FALLING * before)[-1])
    step = float(np.median(np.diff(track.seconds)))
    ends = (float(middle[start]), float(middle[end]) + SHORT / 2.0)
    east, north = (np.interp(ends, track.seconds, place) for place in (track.east, track.north))
    loose = float(np.hypot(before * (step + SHORT / 2.0) / 2.0, 1.0))
    how = f"From {ends[0]:.0f} s to {ends[1]:.0f} s in the track."
    note = "A phone tells a stop to a second or so. Chalk where you brake, and measure with a tape."
    return Stop(
        ends[0],
        Measured(before, 2.0 * DRIFT, Kind.SPEED, how),
        Measured(
            float(np.hypot(np.diff(east)[0], np.diff(north)[0])), loose, Kind.LENGTH, how, (note,)
        ),
    )


def slope(track: Track) -> Measured:
    """Find the steepest slope; raise NotMeasuredError where the heights do not tell it.

    A phone's height is two to three times worse than its place and is often rounded to a metre, so
    mostly they do not.
    """
    if track.height is None:
        raise NotMeasuredError("This track has no heights, so it tells no slope. Use a level.")
    steps = np.diff(track.height)
    jump = float(np.quantile(np.abs(np.diff(steps)), 0.9)) if steps.size > 2 else 0.0
    rounded = bool(np.all(track.height == np.round(track.height)))
    known = 2.0 * np.hypot(jump, 0.3) / RUN
    if rounded or known > USEFUL:
        why = "are whole metres" if rounded else f"jump by {jump:.1f} m from point to point"
        raise NotMeasuredError(
            f"The heights in this track {why}, so it tells no slope. Lay a phone's level on a "
            "straight-edge on the ground."
        )
    along = np.concatenate(([0.0], np.cumsum(np.hypot(np.diff(track.east), np.diff(track.north)))))
    end = np.searchsorted(along, along + RUN)
    whole = np.flatnonzero(end < along.size)
    if whole.size == 0:
        raise NotMeasuredError(f"This track is shorter than {RUN:g} m, so it tells no slope.")
    run = along[end[whole]] - along[whole]
    grade = np.abs(track.height[end[whole]] - track.height[whole]) / run
    steepest = float(grade.max())
    return Measured(
        float(np.arctan(steepest)),
        float(known),
        Kind.ANGLE,
        f"Steepest {RUN:g} m of the track.",
        ("Heights of a phone drift; a level on a straight-edge is surer.",),
    )


def _good(line: Lines, length: float) -> np.ndarray:
    """Stretches with enough points over enough of their length."""
    return (line.count >= FEWEST) & (line.span > 0.7 * length)


def _even(track: Track, length: float) -> np.ndarray:
    """Stretches without a hole; a phone that lost the sky draws a straight line over it."""
    gap = np.concatenate(([0.0], np.cumsum(np.diff(track.seconds) > SHORT)))
    end = np.searchsorted(track.seconds, track.seconds + length, side="right") - 1
    holes: np.ndarray = gap[end] == gap
    return holes

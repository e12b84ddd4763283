"""Speed against time with the clutch down, to the rolling drag of machine and ground."""

import numpy as np

from beltwright.measure.driving import DRIVES, STANDS, speeds
from beltwright.measure.measured import Measured
from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.track import Track
from beltwright.physics.arrays import Array
from beltwright.physics.gravity import STANDARD_GRAVITY
from beltwright.quantity import Kind

UNLEVEL = 0.01
"""Ground that the eye takes for level falls by so much [1]; common practice, no source."""

SMOOTH = 5
"""Points over which the speed is smoothed to see whether it falls."""

SLOWS = 0.03
"""Less than this is a steady speed [m/s²]."""

BRAKED = 1.5
"""No ground of such machines slows them faster by itself; the brake does [m/s²]."""

BOTH_WAYS = (
    "Slope of the ground counts in full: 1 % of fall takes 0.01 off. Coast the same stretch both "
    "ways and give both."
)


def rolling_drag(seconds: Array, speed: Array) -> Measured:
    """Rolling drag over weight, from one run.

    f = -(dv/dt) / g by least squares; air and the turning wheels are left in.
    Source: SAE J1263, Road Load Measurement and Dynamometer Simulation Using Coastdown Techniques,
    for the method; at these speeds the air takes a tenth or less.

    Parameters: seconds [s], speed [m/s], shape (n,).
    """
    fall, doubt = _fall(seconds, speed)
    value, spread = fall / STANDARD_GRAVITY, 2.0 * doubt / STANDARD_GRAVITY
    if value <= spread:
        raise NotMeasuredError(
            "The speed falls too little in this run to tell a drag. Coast from higher speed, on "
            "level ground, until it nearly stands."
        )
    return Measured(
        value,
        float(np.hypot(spread, UNLEVEL)),
        Kind.RATIO,
        f"{seconds.size} speeds from {speed.max():.2g} to {speed.min():.2g} m/s over "
        f"{seconds[-1] - seconds[0]:.0f} s.",
        (BOTH_WAYS, "The drag of the air is in it; at walking pace that is little."),
    )


def both_ways(there: Measured, back: Measured) -> Measured:
    """Mean of two runs over the same stretch, which leaves its slope out."""
    own = [max(run.spread**2 - UNLEVEL**2, 0.0) for run in (there, back)]
    fall = (there.value - back.value) / 2.0
    return Measured(
        (there.value + back.value) / 2.0,
        float(np.sqrt(sum(own))) / 2.0,
        Kind.RATIO,
        f"Mean of two runs; the ground falls by {100 * abs(fall):.1f} % between them.",
        there.notes[1:],
    )


def coasting_part(track: Track) -> tuple[Array, Array]:
    """The longest part of a track in which the machine slows down by itself, to [s] and [m/s]."""
    speed, seconds = speeds(track)
    wide = np.pad(speed, SMOOTH // 2, mode="edge")
    smooth = np.convolve(wide, np.ones(SMOOTH) / SMOOTH, mode="valid")
    falls = np.diff(smooth) < -SLOWS * np.diff(seconds)
    falling = np.concatenate(([False], falls & (speed[1:] > STANDS), [False]))
    edges = np.flatnonzero(np.diff(falling.astype(int)))
    begins, ends = edges[::2], edges[1::2]
    lost, took = smooth[begins] - smooth[ends], seconds[ends] - seconds[begins]
    coasts = (lost > DRIVES / 2.0) & (lost < BRAKED * took)
    if not coasts.any():
        raise NotMeasuredError(
            "Nowhere in this track does the machine coast. Let it roll out on level ground, "
            "clutch down, brake off."
        )
    longest = int(np.where(coasts, took, 0.0).argmax())
    part = slice(int(begins[longest]), int(ends[longest]) + 1)
    return seconds[part] - seconds[part][0], speed[part]


def _fall(seconds: Array, speed: Array) -> tuple[float, float]:
    """How fast the speed falls, and the standard deviation of that [m/s²]."""
    if seconds.size < 4 or float(np.ptp(seconds)) <= 0.0:
        raise NotMeasuredError("Give four times and speeds at least.")
    if float(speed.max()) < DRIVES:
        raise NotMeasuredError("Coast from more than a walking pace.")
    time = seconds - seconds.mean()
    rate = float(time @ speed / (time @ time))
    missed = speed - speed.mean() - rate * time
    doubt = float(np.sqrt(missed @ missed / (seconds.size - 2) / (time @ time)))
    return -rate, doubt

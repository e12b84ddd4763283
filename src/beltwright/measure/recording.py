"""A sound recording read from a file: one channel, as many samples as an engine's lines need."""

from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import BinaryIO

import numpy as np

from beltwright.measure.refusal import NotMeasuredError
from beltwright.physics.arrays import Array

LONGEST = 120
"""What is heard of a recording; an engine that has not settled by then does not settle [s]."""

SHORTEST = 3.0
"""Below it there are too few stretches to tell how steady the speed was [s]."""

FINE = 5000.0
"""Samples a second that are kept at least; the lines lie far below [1/s]."""

COARSEST = 4000.0
"""Samples a second that a recording must have [1/s]."""

FINEST = 192_000
"""No phone takes more samples a second [1/s]."""

MOST_CHANNELS = 8
FORMATS = "WAV, FLAC, OGG or MP3"


@dataclass(frozen=True)
class Recording:
    """Sound: samples, shape (n,) [share of full scale], and how many of them a second [1/s]."""

    samples: Array
    rate: float


def read_recording(source: Path | BinaryIO) -> Recording:
    """Read the first two minutes of a recording; raise NotMeasuredError if it is none."""
    import soundfile

    try:
        with soundfile.SoundFile(source if not isinstance(source, Path) else str(source)) as file:
            _check(file.samplerate, file.channels)
            rate = float(file.samplerate)
            # A second at a time, so that channels without end never stand in memory together.
            seconds = file.blocks(file.samplerate, dtype="float32", always_2d=True)
            sound = [second.mean(axis=1) for second in islice(seconds, LONGEST)]
    except (soundfile.SoundFileError, RuntimeError, TypeError, ValueError, OSError):
        raise NotMeasuredError(
            f"This is not a recording that can be read. Give it as {FORMATS}, with its sound whole."
        ) from None
    return thinned(np.concatenate(sound or [np.zeros(0, np.float32)]), rate)


def _check(rate: float, channels: int) -> None:
    if not COARSEST <= rate <= FINEST or channels > MOST_CHANNELS:
        raise NotMeasuredError(
            f"This recording has {rate:g} samples a second on {channels} channels. "
            "Record it again as a phone does it: 44,100 a second, one channel or two."
        )


def thinned(samples: np.ndarray, rate: float) -> Recording:
    """Take the mean of neighbours, so that no more is worked through than tells an engine's speed.

    Raises NotMeasuredError where too little is left, or something that is no sound.
    """
    if not np.all(np.isfinite(samples)):
        raise NotMeasuredError("This recording is damaged. Take it again.")
    if samples.size < SHORTEST * rate:
        raise NotMeasuredError(
            f"This recording is {samples.size / rate:.1f} s long. Record ten seconds at one speed."
        )
    together = max(int(rate / FINE), 1)
    whole = samples[: samples.size // together * together].reshape(-1, together)
    return Recording(whole.mean(axis=1), rate / together)

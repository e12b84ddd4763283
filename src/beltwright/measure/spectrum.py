"""Short stretches of sound as lines above the noise between them."""

from dataclasses import dataclass

import numpy as np

from beltwright.physics.arrays import Array

FRAME = 1.0
"""Length of a stretch: tells lines 4 Hz apart, half of what the slowest idle gives [s]."""

HOP = 0.25
"""From the beginning of a stretch to that of the next [s]."""

HIGHEST = 960.0
"""Above it, an engine's lines run into each other when its speed wanders by a hundredth [Hz]."""

BAND = 80.0
"""Width over which the noise is taken to be even; many lines of an engine fit into it [Hz]."""

STRONGEST = 5.0
"""Where the height of a line is cut off, so that one loud line does not outvote many [neper]."""

QUIET = 0.05
"""A stretch below this share of the loud ones is taken for silence [1]."""

FAINTEST = 1e-4
"""A loudness below this share of full scale is the hiss of the microphone [1]."""


@dataclass(frozen=True)
class Spectrum:
    """Stretches of sound, and how far each frequency stands out of the noise around it.

    start   when each stretch begins, shape (frames,) [s]
    height  logarithm of power over the noise, cut at 0 and STRONGEST, shape (frames, bins) [neper]
    step    from one bin to the next [Hz]
    loud    whether a stretch is more than silence, shape (frames,) [bool]
    """

    start: Array
    height: Array
    step: float
    loud: np.ndarray


def spectrum(sound: Array, rate: float) -> Spectrum:
    """Take a recording apart into stretches and frequencies.

    Twice as many bins are made as the stretch has, so that a line between two is not lost.

    Parameters: sound, shape (n,) [share of full scale]; rate [Hz].
    """
    sound = sound - sound.mean()
    length = int(rate * FRAME)
    starts = np.arange(0, max(sound.size - length, 0) + 1, int(rate * HOP))
    frames = np.lib.stride_tricks.sliding_window_view(sound, length)[starts]
    loudness = np.sqrt(np.mean(np.square(frames), axis=-1, dtype=np.float64))
    window = np.hanning(length).astype(np.float32)
    bins = int(HIGHEST * 2 * FRAME)
    lines = np.fft.rfft(frames * window, 2 * length, axis=-1)[:, :bins]
    power = np.square(lines.real) + np.square(lines.imag)
    loud = (loudness > QUIET * np.quantile(loudness, 0.95)) & (loudness > FAINTEST)
    return Spectrum(starts / rate, _height(power), rate / (2 * length), loud)


def _height(power: np.ndarray) -> Array:
    """How far each bin stands above the middle one of its band."""
    wide = int(BAND * 2 * FRAME)
    bands = power.reshape(power.shape[0], -1, wide)
    middle = np.log(np.median(bands, axis=-1) + np.finfo(np.float32).tiny)
    centres = (np.arange(bands.shape[1]) + 0.5) * wide
    place = np.clip((np.arange(power.shape[1]) + 0.5 - centres[0]) / wide, 0, bands.shape[1] - 1)
    below = np.minimum(place.astype(int), bands.shape[1] - 2)
    share = place - below
    noise = middle[:, below] * (1.0 - share) + middle[:, below + 1] * share
    height = np.log(power + np.finfo(np.float32).tiny) - noise
    above: Array = np.clip(height, 0.0, STRONGEST).astype(np.float64)
    return above

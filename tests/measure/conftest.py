"""Sound of engines, made here: every line of a cycle, with noise."""

from collections.abc import Callable

import numpy as np
import pytest

from beltwright.measure.recording import Recording, thinned

RATE = 44_100


def engine_sound(
    rpm: float,
    cylinders: int = 1,
    strokes: int = 4,
    *,
    seconds: float = 8.0,
    noise: float = 0.3,
    lowest: float = 0.0,
    uneven: float = 0.0,
    wander: float = 0.003,
    seed: int = 7,
) -> np.ndarray:
    """Samples of an engine: lines at all multiples of its cycle, those between firings weaker.

    noise   white noise over the sound [1]; lowest   nothing is heard below it [Hz];
    uneven  how loud the lines between firings are [1]; wander  of the speed, either way [1].
    """
    random = np.random.default_rng(seed)
    time = np.arange(int(seconds * RATE)) / RATE
    cycle = rpm / 60.0 / (2.0 if strokes == 4 else 1.0)
    phase = 2.0 * np.pi * np.cumsum(cycle * (1.0 + wander * np.sin(2.4 * time))) / RATE
    sound = np.zeros_like(time)
    for line in range(1, 50):
        loud = random.uniform(0.5, 1.5) / (1.0 + line / 10.0)
        if line % cylinders:
            loud *= uneven
        if line * cycle >= lowest:
            sound += loud * np.cos(line * phase + random.uniform(0.0, 6.0))
    samples: np.ndarray = 0.1 * (sound / sound.std() + noise * random.standard_normal(time.size))
    return samples


@pytest.fixture
def engine() -> Callable[..., Recording]:
    """A recording of such an engine."""

    def record(*given: float, **wishes: float) -> Recording:
        return thinned(engine_sound(*given, **wishes).astype(np.float32), float(RATE))  # type: ignore[arg-type]

    return record

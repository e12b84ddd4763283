"""Engine speed from sound: found, told where it is in doubt, refused where there is none."""

import io
import math
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import soundfile
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from beltwright.measure.recording import Recording, read_recording, thinned
from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.sound import RPM, Heard, engine_speed

Engine = Callable[..., Recording]
RATE = 44_100


def _said(heard: Heard) -> list[float]:
    return [one.speed.value / RPM for one in heard.readings]


def test_the_octave_is_told_and_not_hidden(engine: Engine) -> None:
    heard = engine_speed(engine(3300.0), 1)
    assert _said(heard) == pytest.approx([3300.0, 1650.0], rel=3e-3)
    assert heard.near(1600 * RPM).speed.value == pytest.approx(1650 * RPM, rel=3e-3)


def test_what_cannot_be_is_left_out(engine: Engine) -> None:
    assert _said(engine_speed(engine(1500.0), 1)) == pytest.approx([1500.0], rel=3e-3)


def test_an_expectation_that_nothing_fits_is_refused(engine: Engine) -> None:
    with pytest.raises(NotMeasuredError, match="none of these is near 2400 rpm"):
        engine_speed(engine(3300.0), 1).near(2400 * RPM)


def test_the_wander_of_the_speed_is_its_spread(engine: Engine) -> None:
    calm = engine_speed(engine(1600.0, wander=0.001), 1).readings[0].speed
    restless = engine_speed(engine(1600.0, wander=0.02), 1).readings[0].speed
    assert restless.spread > 0.012 * restless.value
    assert restless.spread > 3.0 * calm.spread
    assert abs(restless.value - 1600 * RPM) < restless.spread


def test_silence_before_and_after_is_ignored() -> None:
    sound = _engine_samples(1700.0)
    padded = np.concatenate([np.zeros(3 * RATE), sound, np.zeros(6 * RATE)])
    heard = engine_speed(thinned(padded.astype(np.float32), RATE), 1)
    assert heard.readings[0].speed.value == pytest.approx(1700 * RPM, rel=3e-3)
    assert heard.at.min() > 2.4
    assert heard.at.max() < 12.0


def test_two_speeds_in_one_recording_are_refused_or_the_longer_is_taken() -> None:
    short, long = _engine_samples(1600.0)[: 3 * RATE], _engine_samples(3400.0)
    heard = engine_speed(thinned(np.concatenate([short, long]).astype(np.float32), RATE), 1)
    assert heard.near(3400 * RPM).speed.value == pytest.approx(3400 * RPM, rel=3e-3)
    assert heard.share < 0.8


def test_a_speed_that_runs_up_is_refused() -> None:
    time = np.arange(12 * RATE) / RATE
    phase = 2 * np.pi * np.cumsum(np.linspace(12.0, 30.0, time.size)) / RATE
    sound = np.cos(np.arange(2, 30)[:, None] * phase).sum(axis=0) * 0.01
    with pytest.raises(NotMeasuredError, match="at one speed"):
        engine_speed(thinned(sound.astype(np.float32), RATE), 1)


@pytest.mark.parametrize("kind", ["white noise", "wind", "whistle", "silence", "hiss"])
def test_what_is_no_engine_is_refused(kind: str) -> None:
    random, time = np.random.default_rng(3), np.arange(8 * RATE) / RATE
    sound = {
        "white noise": 0.1 * random.standard_normal(time.size),
        "wind": 1e-3 * np.cumsum(random.standard_normal(time.size)),
        "whistle": 0.2 * np.sin(2 * np.pi * 440 * time) + 0.01 * random.standard_normal(time.size),
        "silence": np.zeros(time.size),
        "hiss": 2e-5 * random.standard_normal(time.size),
    }[kind]
    with pytest.raises(NotMeasuredError, match=r"no steady tone|nothing to hear"):
        engine_speed(thinned(sound.astype(np.float32), RATE), 1)


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    rpm=st.floats(1000.0, 3800.0),
    noise=st.floats(0.0, 1.5),
    lowest=st.sampled_from([0.0, 80.0, 120.0]),
    seed=st.integers(0, 1000),
)
@example(rpm=1106.0, noise=0.0, lowest=80.0, seed=0)
def test_any_single_lies_within_the_spread_of_a_reading(
    engine: Engine, rpm: float, noise: float, lowest: float, seed: int
) -> None:
    heard = engine_speed(
        engine(rpm, seconds=4.0, noise=noise, lowest=lowest, seed=seed, wander=0.0), 1
    )
    speeds = [one.speed for one in heard.readings]
    assert any(abs(speed.value - rpm * RPM) < speed.spread for speed in speeds)


@pytest.mark.parametrize("cylinders", [0, 5, -1])
def test_cylinders_are_bounded(engine: Engine, cylinders: int) -> None:
    with pytest.raises(NotMeasuredError, match="1 to 4 cylinders"):
        engine_speed(engine(3300.0), cylinders)


def _engine_samples(rpm: float) -> np.ndarray:
    time = np.arange(8 * RATE) / RATE
    lines = np.arange(2, 40)[:, None]
    sound: np.ndarray = np.cos(2 * np.pi * lines * rpm / 120 * time + lines**2).sum(axis=0)
    return 0.01 * sound


def _written(kind: str, seconds: float = 4.0, rate: int = RATE) -> bytes:
    written = io.BytesIO()
    soundfile.write(written, _engine_samples(2000.0)[: int(seconds * rate)], rate, format=kind)
    return written.getvalue()


@pytest.mark.parametrize("kind", ["WAV", "FLAC", "OGG", "MP3"])
def test_recordings_of_every_kind_are_read(kind: str, tmp_path: Path) -> None:
    file = tmp_path / "engine"
    file.write_bytes(_written(kind))
    heard = engine_speed(read_recording(file), 1)
    assert heard.near(2000 * RPM).speed.value == pytest.approx(2000 * RPM, rel=3e-3)


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        (b"", "not a recording"),
        (b"RIFF", "not a recording"),
        (_written("WAV")[:44], "0.0 s long"),
        (_written("WAV")[:50_000], "Record ten seconds"),
        (_written("FLAC")[:100], "not a recording"),
        (b"\x89PNG\r\n\x1a\n" + bytes(300), "not a recording"),
        (_written("WAV", 1.0), "1.0 s long"),
    ],
)
def test_a_broken_recording_gives_one_plain_sentence(sent: bytes, says: str) -> None:
    with pytest.raises(NotMeasuredError, match=says) as refused:
        read_recording(io.BytesIO(sent))
    assert "Traceback" not in str(refused.value)


@settings(max_examples=60)
@given(st.binary(max_size=400), st.integers(0, 4000))
def test_no_bytes_break_the_reader(noise: bytes, at: int) -> None:
    whole = bytearray(_SHORT)
    whole[at : at + len(noise)] = noise
    try:
        recording = read_recording(io.BytesIO(bytes(whole)))
    except NotMeasuredError:
        return
    assert np.all(np.isfinite(recording.samples))


_SHORT = _written("WAV", 3.2)


def test_a_recording_that_never_ends_is_heard_for_two_minutes() -> None:
    written = io.BytesIO()
    soundfile.write(written, np.zeros(8000 * 180), 8000, format="WAV")
    written.seek(0)
    assert read_recording(written).samples.size == 8000 * 120


def test_samples_that_are_no_numbers_are_refused() -> None:
    with pytest.raises(NotMeasuredError, match="damaged"):
        thinned(np.full(RATE * 4, math.nan, np.float32), RATE)

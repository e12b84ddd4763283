"""Tracks of a phone: read within bounds; speeds and stops out of places that scatter."""

import io
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beltwright.measure.driving import slope, speeds, stops, top_speed
from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.rolling_fit import lines
from beltwright.measure.track import MOST_BYTES, Track, read_track
from beltwright.physics.arrays import Array

DAY = datetime(2031, 5, 4, 8, tzinfo=UTC)


def gpx(rows: list[tuple[str, str, str, str]], space: str = "1/1") -> bytes:
    """A track of points: latitude, longitude, seconds since the start, height."""
    points = "".join(
        f'<trkpt lat="{lat}" lon="{lon}">'
        + (f"<ele>{ele}</ele>" if ele else "")
        + f"<time>{(DAY + timedelta(seconds=float(at))).isoformat()}</time></trkpt>"
        for lat, lon, at, ele in rows
    )
    return (
        f'<?xml version="1.0"?><gpx xmlns="http://www.topografix.com/GPX/{space}" version="1.1">'
        f"<trk><trkseg>{points}</trkseg></trk></gpx>"
    ).encode()


def _straight(count: int = 30) -> list[tuple[str, str, str, str]]:
    return [(f"{48 + 3e-5 * at:.7f}", "11", f"{at}", "") for at in range(count)]


@pytest.mark.parametrize("space", ["1/0", "1/1"])
def test_both_versions_are_read(space: str) -> None:
    track = read_track(io.BytesIO(gpx(_straight(), space)))
    assert track.seconds[-1] == 29.0
    assert track.height is None
    assert track.east == pytest.approx(np.zeros(30), abs=1e-9)


def test_points_are_put_in_order_and_doubles_left_out() -> None:
    rows = _straight()
    mixed = [*rows[10:], *rows[:10], rows[5]]
    assert read_track(io.BytesIO(gpx(mixed))).seconds.tolist() == list(range(30))


def test_points_without_time_or_place_are_left_out() -> None:
    bad = [("nonsense", "11", "3.5", ""), ("95", "11", "4.5", ""), ("48", "nan", "5.5", "")]
    assert read_track(io.BytesIO(gpx(_straight() + bad))).seconds.size == 30


BOMB = (
    b'<?xml version="1.0"?><!DOCTYPE b [<!ENTITY a "aaaaaaaaaa">'
    + b"".join(b'<!ENTITY a%d "%s">' % (n, b"&a;" * 10) for n in range(9))
    + b"]><gpx>&a8;</gpx>"
)
OUTSIDE = (
    b'<?xml version="1.0"?><!DOCTYPE g [<!ENTITY x SYSTEM "file:///etc/hostname">]><gpx>&x;</gpx>'
)


@pytest.mark.parametrize(
    "sent",
    [b"", b"nonsense", gpx(_straight())[:400], BOMB, OUTSIDE, b"\x00" * 100, b"<gpx>" * 3000],
)
def test_what_is_no_track_gives_one_plain_sentence(sent: bytes) -> None:
    with pytest.raises(NotMeasuredError, match="not a GPX file"):
        read_track(io.BytesIO(sent))


@pytest.mark.parametrize("rows", [[], _straight(9), [("48", "11", "0", "")] * 30])
def test_a_track_with_too_little_in_it_is_refused(rows: list[tuple[str, str, str, str]]) -> None:
    with pytest.raises(NotMeasuredError, match="Record it again"):
        read_track(io.BytesIO(gpx(rows)))


def test_another_kind_of_xml_is_refused() -> None:
    with pytest.raises(NotMeasuredError, match="fewer than ten"):
        read_track(io.BytesIO(b"<svg><trkpt lat='1' lon='1'/></svg>"))


def test_a_track_that_is_too_large_is_refused() -> None:
    with pytest.raises(NotMeasuredError, match="too large"):
        read_track(io.BytesIO(b" " * (MOST_BYTES + 1)))


@settings(max_examples=80)
@given(st.binary(max_size=60), st.integers(0, 2000))
def test_no_bytes_break_the_reader(noise: bytes, at: int) -> None:
    whole = bytearray(gpx(_straight(12)))
    whole[at : at + len(noise)] = noise
    try:
        track = read_track(io.BytesIO(bytes(whole)))
    except NotMeasuredError:
        return
    assert np.all(np.diff(track.seconds) > 0.0)
    assert np.all(np.isfinite(track.east + track.north))


def driven(speed: Array, noise: float = 0.3, seed: int = 1, height: Array | None = None) -> Track:
    """A straight drive at so many m/s each second, its places scattered."""
    random = np.random.default_rng(seed)
    along = np.concatenate(([0.0], np.cumsum((speed[1:] + speed[:-1]) / 2.0)))
    east, north = (random.normal(0.0, noise, speed.size) for _ in range(2))
    return Track(
        np.arange(speed.size, dtype=float), 0.6 * along + east, 0.8 * along + north, height
    )


@settings(max_examples=40)
@given(fast=st.floats(1.5, 12.0), noise=st.floats(0.0, 0.6), seed=st.integers(0, 500))
def test_a_held_speed_lies_within_what_is_told(fast: float, noise: float, seed: int) -> None:
    speed = np.interp(np.arange(120.0), [0, 20, 100, 110, 119], [0, fast, fast, 0, 0])
    found = top_speed(driven(speed, noise, seed))
    assert abs(found.value - fast) < found.spread
    assert found.spread < 0.6


def test_a_place_that_jumped_is_no_speed() -> None:
    track = driven(np.full(60, 3.0), 0.1)
    track.east[30] += 400.0
    assert top_speed(track).value == pytest.approx(3.0, abs=0.2)


def test_a_hole_in_the_track_is_no_speed() -> None:
    track = driven(np.full(60, 3.0), 0.1)
    kept = np.r_[0:20, 45:60]
    holed = Track(track.seconds[kept], track.east[kept] * 1.0, track.north[kept], None)
    holed.east[20:] += 300.0
    assert top_speed(holed).value == pytest.approx(3.0, abs=0.2)


def test_a_track_that_only_stands_has_no_top_speed() -> None:
    with pytest.raises(NotMeasuredError, match="held straight on"):
        top_speed(driven(np.zeros(60), 0.2))


@pytest.mark.parametrize("rate", [1.0, 2.0, 3.0])
def test_a_stop_lies_within_what_is_told(rate: float) -> None:
    speed = np.clip(5.0 - rate * np.clip(np.arange(90.0) - 50.0, 0.0, None), 0.0, 5.0)
    (found,) = stops(driven(speed, 0.15))
    assert abs(found.speed.value - 5.0) < found.speed.spread + 0.1
    assert abs(found.way.value - 25.0 / (2.0 * rate)) < found.way.spread
    assert found.at == pytest.approx(50.0, abs=2.5)


def test_two_stops_are_two_and_creeping_is_none() -> None:
    speed = np.interp(
        np.arange(160.0),
        [0, 10, 40, 43, 60, 70, 100, 104, 120, 130, 140, 145],
        [0, 4, 4, 0, 0, 3, 3, 0, 0, 0.8, 0.8, 0],
    )
    assert len(stops(driven(speed, 0.1))) == 2


def test_speeds_are_read_all_along() -> None:
    speed, middle = speeds(driven(np.full(40, 2.0), 0.0))
    assert speed == pytest.approx(np.full(speed.size, 2.0))
    assert np.all(np.diff(middle) > 0.0)


def test_heights_that_tell_nothing_are_refused_with_the_reason() -> None:
    steady, random = np.full(100, 3.0), np.random.default_rng(2)
    with pytest.raises(NotMeasuredError, match="no heights"):
        slope(driven(steady))
    with pytest.raises(NotMeasuredError, match="whole metres"):
        slope(driven(steady, height=np.round(np.linspace(500, 520, 100))))
    with pytest.raises(NotMeasuredError, match="jump by"):
        slope(driven(steady, height=500 + random.normal(0, 2.0, 100)))
    with pytest.raises(NotMeasuredError, match="shorter than 50 m"):
        slope(driven(np.full(12, 3.0), height=np.linspace(500.1, 500.9, 12)))


def test_smooth_heights_tell_a_slope() -> None:
    track = driven(np.full(100, 3.0), 0.0, height=400.05 + 0.12 * 3.0 * np.arange(100.0))
    found = slope(track)
    assert np.tan(found.value) == pytest.approx(0.12, rel=0.02)
    assert 0.005 < found.spread <= 0.03


@settings(max_examples=40)
@given(
    st.lists(st.floats(-50.0, 50.0), min_size=8, max_size=40),
    st.floats(2.5, 9.0),
)
def test_rolling_lines_are_those_of_a_plain_fit(values: list[float], length: float) -> None:
    seconds, value = np.arange(len(values), dtype=float), np.array(values)
    found = lines(seconds, value, length)
    for place in range(len(values) - int(length)):
        part = slice(place, int(found.last[place]) + 1)
        if part.stop - part.start >= 3:
            (rate, _), rest, *_ = np.polyfit(seconds[part], value[part], 1, full=True)
            assert found.slope[place] == pytest.approx(rate, abs=1e-6)
            left = float(rest[0]) if rest.size else 0.0
            missed = np.sqrt(left / max(part.stop - part.start - 2, 1))
            assert found.scatter[place] == pytest.approx(missed, abs=1e-4)

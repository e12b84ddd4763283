"""Measuring against formulas and libraries that are not ours.

Sources:
- Firing frequency of an engine: f = n N / 120 for four strokes, n N / 60 for two (n cylinders,
  N rpm). Printed in handbooks of engine noise; the rows are worked from it exactly.
- scipy.optimize.curve_fit (Levenberg-Marquardt) and scipy.stats.linregress as independent fits.
- P. Heckbert, Fundamentals of Texture Mapping and Image Warping (1989), section 2.2.3: closed form
  of the projective map of a unit square to a quadrilateral. From memory.
- WGS 84 ellipsoid, NIMA TR8350.2 (3rd edition): a = 6 378 137 m, 1/f = 298.257223563; earth-centred
  coordinates from latitude and longitude, equation 4-14.
- Great circle by haversines on the mean radius 6 371 008.8 m (IUGG, Moritz 2000).
- gpxpy, an independent reader of the GPX format.
"""

import io
from datetime import UTC, datetime, timedelta

import gpxpy
import gpxpy.gpx
import numpy as np
import pytest
from scipy.optimize import curve_fit
from scipy.stats import linregress

from beltwright.measure.coasting import rolling_drag
from beltwright.measure.homography import homography
from beltwright.measure.recording import thinned
from beltwright.measure.sound import RPM, Strokes, engine_speed
from beltwright.measure.track import metres, read_track
from beltwright.measure.warming import warm_up
from beltwright.physics.arrays import Array

RATE = 44_100


def _tone(spacing: float, first: int, noise: float) -> np.ndarray:
    """Lines at all multiples of a frequency from the first that is heard, with white noise [Hz]."""
    random = np.random.default_rng(11)
    time = np.arange(6 * RATE) / RATE
    lines = np.arange(first, int(1800 / spacing))[:, None]
    sound = np.cos(2 * np.pi * spacing * lines * time + random.uniform(0, 6, lines.shape))
    whole = (sound * random.uniform(0.5, 1.5, lines.shape)).sum(axis=0)
    samples: np.ndarray = 0.1 * (whole / whole.std() + noise * random.standard_normal(time.size))
    return samples


@pytest.mark.parametrize(
    ("spacing", "cylinders", "strokes", "rpm"),
    [
        (30.0, 1, 4, 3600.0),  # n N / 120: 1 x 3600 / 120
        (27.5, 1, 4, 3300.0),  # 1 x 3300 / 120
        (27.5, 1, 4, 1650.0),  # the same tone, were it the second line of each cycle
        (60.0, 2, 4, 3600.0),  # mean firing frequency of a twin: 2 x 3600 / 120
        (60.0, 1, 2, 3600.0),  # two-stroke: 1 x 3600 / 60
        (13.75, 1, 4, 1650.0),  # an idle
        (75.0, 3, 4, 3000.0),  # 3 x 3000 / 120
    ],
)
@pytest.mark.parametrize("first", [1, 2, 4])
@pytest.mark.parametrize("noise", [0.1, 1.0])
def test_firing_frequency(
    spacing: float, cylinders: int, strokes: Strokes, rpm: float, first: int, noise: float
) -> None:
    """Also with the lowest one and the lowest three lines missing; 0.2 % is 3 to 7 rpm."""
    heard = engine_speed(
        thinned(_tone(spacing, first, noise).astype(np.float32), RATE), cylinders, strokes
    )
    assert min(abs(one.speed.value / (rpm * RPM) - 1.0) for one in heard.readings) < 2e-3


@pytest.mark.parametrize("seed", range(4))
def test_warm_up_against_another_fit(seed: int) -> None:
    seconds = np.linspace(0.0, 3600.0, 25)
    noise = np.random.default_rng(seed).normal(0.0, 0.8, 25)
    temperature = 353.0 - 60.0 * np.exp(-seconds / 1200.0) + noise

    def approach(time: Array, steady: float, rise: float, constant: float) -> Array:
        exact: Array = steady - rise * np.exp(-time / constant)
        return exact

    best, spread = curve_fit(approach, seconds, temperature, p0=(340.0, 50.0, 900.0))
    found = warm_up(seconds, temperature, 293.0)
    assert found.steady.value == pytest.approx(best[0], abs=0.01)
    assert found.constant.value == pytest.approx(best[2], rel=1e-3)
    assert found.constant.spread == pytest.approx(2.0 * np.sqrt(spread[2, 2]), rel=0.02)
    assert found.steady.spread == pytest.approx(
        np.hypot(2.0 * np.sqrt(spread[0, 0]), 1.0), rel=0.02
    )


def test_coast_down_against_another_fit() -> None:
    seconds = np.linspace(0.0, 8.0, 17)
    speed = 5.0 - 0.4 * seconds + np.random.default_rng(3).normal(0.0, 0.05, 17)
    other = linregress(seconds, speed)
    found = rolling_drag(seconds, speed)
    assert found.value == pytest.approx(-other.slope / 9.80665, rel=1e-9)
    assert found.spread == pytest.approx(np.hypot(2 * other.stderr / 9.80665, 0.01), rel=1e-9)


@pytest.mark.parametrize(
    "corners",
    [
        [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]],
        [[310.0, 240.0], [1700.0, 180.0], [2100.0, 1500.0], [120.0, 1320.0]],
        [[1200.0, 400.0], [1500.0, 420.0], [1480.0, 700.0], [1190.0, 640.0]],
    ],
)
def test_homography_against_the_closed_form(corners: list[list[float]]) -> None:
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = corners
    one, three = np.array([x1 - x2, y1 - y2]), np.array([x3 - x2, y3 - y2])
    rest = np.array([x0 - x1 + x2 - x3, y0 - y1 + y2 - y3])

    def cross(first: Array, second: Array) -> float:
        return float(first[0] * second[1] - first[1] * second[0])

    g, h = cross(rest, three) / cross(one, three), cross(one, rest) / cross(one, three)
    expected = np.array(
        [
            [x1 - x0 + g * x1, x3 - x0 + h * x3, x0],
            [y1 - y0 + g * y1, y3 - y0 + h * y3, y0],
            [g, h, 1.0],
        ]
    )
    square = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    found = homography(square, np.array(corners))
    assert found == pytest.approx(expected, rel=1e-8, abs=1e-8)


PLACES = [0.0, 12.5, 47.3, -33.9, 65.0]


def _earth_centred(latitude: Array, longitude: Array) -> Array:
    """X, Y, Z on the ellipsoid, shape (n, 3) [m]."""
    squared = (2.0 - 1.0 / 298.257223563) / 298.257223563
    at, turned = np.radians(latitude), np.radians(longitude)
    radius = 6_378_137.0 / np.sqrt(1.0 - squared * np.sin(at) ** 2)
    return np.column_stack(
        [
            radius * np.cos(at) * np.cos(turned),
            radius * np.cos(at) * np.sin(turned),
            radius * (1.0 - squared) * np.sin(at),
        ]
    )


@pytest.mark.parametrize("latitude", PLACES)
def test_metres_against_earth_centred_coordinates(latitude: float) -> None:
    """Chords of a few hundred metres: 1 part in 10,000, by which the plane bends away."""
    at = latitude + np.array([0.0, 1e-3, 2e-3, 0.0, -1e-3])
    turned = 11.0 + np.array([0.0, 0.0, 2e-3, 2e-3, 3e-3])
    east, north = metres(at, turned)
    chord = np.linalg.norm(np.diff(_earth_centred(at, turned), axis=0), axis=1)
    assert np.hypot(np.diff(east), np.diff(north)) == pytest.approx(chord, rel=1e-4)


@pytest.mark.parametrize("latitude", PLACES)
def test_metres_against_the_great_circle(latitude: float) -> None:
    """0.6 %: a sphere is that far from the ellipsoid."""
    at, turned = np.array([latitude, latitude + 2e-3]), np.array([179.999, -179.999])
    east, north = metres(at, turned)
    first, second = np.radians(at)
    half = np.sin((second - first) / 2) ** 2
    half += np.cos(first) * np.cos(second) * np.sin(np.radians(0.002) / 2) ** 2
    circle = 2.0 * 6_371_008.8 * np.arcsin(np.sqrt(half))
    assert np.hypot(east[1], north[1]) == pytest.approx(circle, rel=6e-3)


def test_gpx_against_another_reader() -> None:
    random = np.random.default_rng(4)
    day = datetime(2031, 5, 4, 8, tzinfo=UTC)
    written = gpxpy.gpx.GPX()
    segment = gpxpy.gpx.GPXTrackSegment()
    written.tracks.append(gpxpy.gpx.GPXTrack())
    written.tracks[0].segments.append(segment)
    for at, (lat, lon) in enumerate(np.cumsum(random.normal(0, 2e-5, (200, 2)), axis=0)):
        point = gpxpy.gpx.GPXTrackPoint(47.0 + lat, 9.0 + lon, 400.0 + at / 8.0)
        point.time = day + timedelta(seconds=at, milliseconds=250 * (at % 3))
        segment.points.append(point)
    text = written.to_xml()
    ours, theirs = read_track(io.BytesIO(text.encode())), gpxpy.parse(text)
    points = theirs.tracks[0].segments[0].points
    times = [each.time.timestamp() - day.timestamp() for each in points if each.time]
    assert ours.seconds == pytest.approx(times, abs=1e-6)
    assert ours.height == pytest.approx([each.elevation for each in points])
    along = np.hypot(np.diff(ours.east), np.diff(ours.north)).sum()
    assert along == pytest.approx(theirs.length_2d(), rel=6e-3)

"""The plane of a sheet in a photo: exact where the taps are, honest where they are not."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from beltwright.measure.homography import (
    SHEETS,
    Plane,
    homography,
    plane_of,
    remaining_error,
    sheet_corners,
)
from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.squared_up import ASIDE, LARGEST, squared_up
from beltwright.physics.arrays import Array

SHEET = sheet_corners(SHEETS["A4"], long_side_forwards=True)


def camera(tilt: float, turn: float, height: float, aside: float = 0.0) -> Array:
    """Projection of the plane z = 0 into a photo of 4000 x 3000 pixels by a pinhole camera.

    It hangs over the plane, is turned about its own axis and tilted off straight down [rad].
    """
    cosine, sine = np.cos(tilt), np.sin(tilt)
    down = np.array([[1.0, 0.0, 0.0], [0.0, -cosine, -sine], [0.0, sine, -cosine]])
    c, s = np.cos(turn), np.sin(turn)
    turned = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
    inner = np.array([[3200.0, 0.0, 2000.0], [0.0, 3200.0, 1500.0], [0.0, 0.0, 1.0]])
    centre = np.array([aside, -height * np.tan(tilt), height])
    rotation = turned @ down
    projection: Array = inner @ np.column_stack(
        [rotation[:, 0], rotation[:, 1], -rotation @ centre]
    )
    return projection


def seen(projection: Array, places: Array) -> Array:
    """Where places of the plane lie in the photo [pixels]."""
    whole = np.column_stack([places, np.ones(len(places))]) @ projection.T
    pixels: Array = whole[:, :2] / whole[:, 2:]
    return pixels


@given(
    tilt=st.floats(0.0, 0.7),
    turn=st.floats(-3.1, 3.1),
    height=st.floats(0.8, 2.5),
    x=st.floats(-0.6, 0.6),
    y=st.floats(-0.6, 0.6),
)
def test_the_plane_goes_there_and_back(
    tilt: float, turn: float, height: float, x: float, y: float
) -> None:
    projection = camera(tilt, turn, height)
    plane = plane_of(seen(projection, SHEET), SHEET)
    place = np.array([[x, y]])
    assert plane.pixels(place) == pytest.approx(seen(projection, place), abs=1e-5)
    assert plane.metres(plane.pixels(place)) == pytest.approx(place, abs=1e-9)


@given(st.floats(0.0, 0.6), st.integers(0, 10_000))
def test_taps_that_miss_move_places_about_as_far_as_told(tilt: float, seed: int) -> None:
    """Two pixels off in any way moves a place by hardly more than two of the told deviations."""
    corners = seen(camera(tilt, 0.3, 1.6), SHEET)
    plane = plane_of(corners, SHEET)
    missed = np.random.default_rng(seed).uniform(-2.0, 2.0, (4, 2))
    place = np.array([[ASIDE, 0.0], [0.0, -ASIDE]])
    wrong = plane_of(corners + missed, SHEET).metres(plane.pixels(place))
    error = np.hypot(*(wrong - place).T)
    assert np.all(error < 2.5 * remaining_error(plane, place))


def test_a_larger_sheet_is_surer() -> None:
    projection = camera(0.2, 0.0, 1.6)
    large = sheet_corners(SHEETS["A3"], long_side_forwards=True)
    place = np.array([[ASIDE, 0.0]])
    errors = [
        remaining_error(plane_of(seen(projection, sheet), sheet), place)[0]
        for sheet in (SHEET, large)
    ]
    assert errors[1] < 0.6 * errors[0]


@pytest.mark.parametrize(
    "corners",
    [
        SHEET[::-1],
        SHEET[[0, 2, 1, 3]],
        np.zeros((4, 2)),
        np.array([[0.0, 0.0], [900.0, 0.0], [1800.0, 0.0], [0.0, 900.0]]),
        np.full((4, 2), np.nan),
    ],
)
def test_what_is_no_sheet_is_refused(corners: Array) -> None:
    pixels = corners if np.abs(corners).max() > 1.0 else seen(camera(0.1, 0.0, 1.5), corners)
    with pytest.raises(NotMeasuredError, match=r"[Tt]ap"):
        plane_of(pixels, SHEET)


def test_many_points_are_fitted_together() -> None:
    projection = camera(0.4, 1.0, 1.5, 0.2)
    places = np.random.default_rng(5).uniform(-0.5, 0.5, (30, 2))
    found = homography(places, seen(projection, places))
    assert found == pytest.approx(projection / projection[2, 2], rel=1e-7, abs=1e-9)


def _marked(plane: Plane, places: Array) -> Image.Image:
    """A photo with a dark spot at each place."""
    pixels = np.full((3000, 4000, 3), 230, np.uint8)
    for x, y in np.round(plane.pixels(places)).astype(int):
        pixels[max(y - 9, 0) : y + 10, max(x - 9, 0) : x + 10] = 0
    return Image.fromarray(pixels)


@pytest.mark.parametrize("tilt", [0.0, 0.25, 0.5])
def test_spots_lie_where_they_are_once_it_is_squared_up(tilt: float) -> None:
    plane = plane_of(seen(camera(tilt, 0.0, 1.6), SHEET), SHEET)
    places = np.array([[0.3, 0.2], [-0.4, -0.25], [0.1, 0.35], [0.45, -0.1]])
    found = squared_up(_marked(plane, places), plane)
    assert max(found.picture.size) <= LARGEST
    dark = np.asarray(found.picture.convert("L")) < 110
    rows, columns = np.nonzero(dark)
    shown = np.column_stack(
        [
            found.corner[0] + (columns + 0.5) / found.scale,
            found.corner[1] - (rows + 0.5) / found.scale,
        ]
    )
    for place in places:
        near = shown[np.hypot(*(shown - place).T) < 0.02]
        assert near.mean(axis=0) == pytest.approx(place, abs=1.5e-3)
    assert np.all(np.min(np.hypot(*(shown[:, None] - places).transpose(2, 0, 1)), axis=1) < 0.02)


def test_a_photo_with_its_horizon_in_it_is_bounded() -> None:
    projection = camera(1.0, 0.0, 1.2)
    plane = plane_of(seen(projection, SHEET), SHEET)
    found = squared_up(Image.new("RGB", (4000, 3000)), plane)
    assert max(found.picture.size) <= LARGEST
    far = np.array([[found.corner[0], found.corner[1]]])
    assert plane.depth(far)[0] > 0.3

"""The plane of a sheet of paper from a photo of it: which place lies under which pixel."""

from dataclasses import dataclass

import numpy as np

from beltwright.measure.refusal import NotMeasuredError
from beltwright.physics.arrays import Array

SHEETS = {"A4": (0.210, 0.297), "A3": (0.297, 0.420), "Letter": (0.2159, 0.2794)}
"""Short and long side [m]. Sources: ISO 216; ANSI/ASME Y14.1, size A."""

TAPPED = 2.0
"""How far off a corner is tapped on a photo that fills a phone [pixels]; common practice."""

SMALLEST = 40.0
"""A sheet whose side is shorter in the photo tells no plane [pixels]."""


@dataclass(frozen=True)
class Plane:
    """A plane in a photo.

    to_photo   takes (x, y, 1) in the plane to pixels times a scale, shape (3, 3)
    corners    of the sheet in the photo, shape (4, 2) [pixels]
    places     of the same corners in the plane, shape (4, 2) [m]
    """

    to_photo: Array
    corners: Array
    places: Array

    def pixels(self, places: Array) -> Array:
        """Where places of the plane lie in the photo, shape (..., 2) [pixels]."""
        return _mapped(self.to_photo, places)

    def metres(self, pixels: Array) -> Array:
        """Which places of the plane lie under pixels, shape (..., 2) [m]."""
        return _mapped(_inverse(self.to_photo), pixels)

    def depth(self, places: Array) -> Array:
        """How far away places lie, 1 in the middle of the sheet; 0 at the horizon [1]."""
        row = self.to_photo[2]
        middle = self.places.mean(axis=0) @ row[:2] + row[2]
        away: Array = (places @ row[:2] + row[2]) / middle
        return away


def sheet_corners(size: tuple[float, float], long_side_forwards: bool) -> Array:
    """Corners of a sheet about its middle: x forward, y left; front left first, clockwise [m]."""
    short, long = size
    forward, left = (long, short) if long_side_forwards else (short, long)
    return np.array([[1.0, 1.0], [1.0, -1.0], [-1.0, -1.0], [-1.0, 1.0]]) * (
        np.array([forward, left]) / 2.0
    )


def plane_of(corners: Array, places: Array) -> Plane:
    """Find the plane from the four corners of a sheet, front left first, clockwise as seen.

    Raises NotMeasuredError where the corners make no such sheet.

    Parameters: corners, shape (4, 2) [pixels]; places, shape (4, 2) [m].
    """
    if not np.all(np.isfinite(corners)):
        raise NotMeasuredError("Tap all four corners of the sheet.")
    sides = np.roll(corners, -1, axis=0) - corners
    turn = sides[:, 0] * np.roll(sides[:, 1], -1) - sides[:, 1] * np.roll(sides[:, 0], -1)
    if np.hypot(*sides.T).min() < SMALLEST or not np.all(turn > SMALLEST):
        raise NotMeasuredError(
            "These are not the corners of a sheet. Tap front left, front right, rear right, rear "
            "left, and take the photo from nearer if the sheet is small in it."
        )
    return Plane(homography(places, corners), corners, places)


def homography(here: Array, there: Array) -> Array:
    """The projective map that takes points of one plane to points of another, shape (3, 3).

    Two equations a point, least squares by singular values, both sides first brought about their
    middle to size one. Source: Hartley and Zisserman, Multiple View Geometry in Computer Vision,
    2nd edition, algorithm 4.2.

    Parameters: here, there, shape (n, 2), n at least 4.
    """
    start, goal = _about_middle(here), _about_middle(there)
    x, y = _mapped(start, here).T
    u, v = _mapped(goal, there).T
    zero, one = np.zeros_like(x), np.ones_like(x)
    first = np.stack([x, y, one, zero, zero, zero, -u * x, -u * y, -u], axis=-1)
    second = np.stack([zero, zero, zero, x, y, one, -v * x, -v * y, -v], axis=-1)
    _, _, rows = np.linalg.svd(np.concatenate([first, second]))
    found: Array = _inverse(goal) @ rows[-1].reshape(3, 3) @ start
    scaled: Array = found / found[2, 2]
    return scaled


def remaining_error(plane: Plane, places: Array, tapped: float = TAPPED) -> Array:
    """What a tap that misses its corner moves a place by, shape (...) [m].

    Each coordinate of each corner is moved in turn, and what that does is added in squares.
    """
    moved = np.repeat(plane.corners[None], 8, axis=0)
    moved[np.arange(8), np.arange(8) // 2, np.arange(8) % 2] += tapped
    there = plane.pixels(places)
    back = [_inverse(homography(plane.places, each)) for each in moved]
    away = [_mapped(each, there) - places for each in back]
    error: Array = np.sqrt(np.sum(np.square(away), axis=(0, -1)))
    return error


def _inverse(of: Array) -> Array:
    """The map back."""
    return np.asarray(np.linalg.inv(of), dtype=np.float64)


def _mapped(by: Array, points: Array) -> Array:
    """Points through a projective map, shape (..., 2)."""
    whole = points @ by[:, :2].T + by[:, 2]
    mapped: Array = whole[..., :2] / whole[..., 2:]
    return mapped


def _about_middle(points: Array) -> Array:
    """The map that brings points about their middle, to a mean distance of √2 from it."""
    middle = points.mean(axis=0)
    scale = np.sqrt(2.0) / np.mean(np.hypot(*(points - middle).T))
    return np.array([[scale, 0.0, -scale * middle[0]], [0.0, scale, -scale * middle[1]], [0, 0, 1]])

"""A photo squared up: drawn anew as if it had been taken from straight above the sheet."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from beltwright.measure.homography import Plane, remaining_error
from beltwright.physics.arrays import Array

if TYPE_CHECKING:
    from PIL import Image

FARTHEST = 1.5
"""What lies farther from the sheet is not drawn: the error there is many times the sheet's [m]."""

DEEPEST = 0.35
"""Of the sheet's nearness to the camera; what is farther away shows no detail [1]."""

ASIDE = 0.5
"""Where the error is told: about as far as the next pulley [m]."""

LARGEST = 3000
"""Pixels of the longer side that is drawn; finer than a tape on a machine 2 m long."""


@dataclass(frozen=True)
class SquaredUp:
    """A squared-up photo, the machine's front to the right, its left side up.

    picture  what is drawn
    scale    [pixels/m]
    corner   place of its upper left corner in the sheet's plane, x forward and y left [m]
    error    what taps that miss by two pixels do ASIDE from the sheet, at most [m]
    """

    picture: "Image.Image"
    scale: float
    corner: tuple[float, float]
    error: float


def squared_up(photo: "Image.Image", plane: Plane) -> SquaredUp:
    """Draw what the photo shows of a plane, at one scale throughout."""
    from PIL import Image

    rear, right, front, left = _shown(photo.size, plane)
    size = np.array([front - rear, left - right])
    scale = min(_finest(plane), LARGEST / float(size.max()))
    wide, high = (max(int(side * scale), 1) for side in size)
    to_place = np.array([[1.0 / scale, 0.0, rear], [0.0, -1.0 / scale, left], [0.0, 0.0, 1.0]])
    by = plane.to_photo @ to_place
    picture = photo.transform(
        (wide, high),
        Image.Transform.PERSPECTIVE,
        tuple((by / by[2, 2]).ravel()[:8]),
        Image.Resampling.BILINEAR,
        fillcolor=(255, 255, 255),
    )
    around = np.array([[ASIDE, 0.0], [-ASIDE, 0.0], [0.0, ASIDE], [0.0, -ASIDE]])
    error = float(remaining_error(plane, around).max())
    return SquaredUp(picture, scale, (rear, left), error)


def _shown(size: tuple[int, int], plane: Plane) -> tuple[float, float, float, float]:
    """What of the plane is drawn: rear, right, front, left of the sheet's middle [m].

    All that the photo shows, but no farther than it is good for, and short of the horizon.
    """
    ways = np.array([[1.0, 1.0], [1.0, -1.0], [-1.0, -1.0], [-1.0, 1.0]]) * FARTHEST
    reach = _reach(plane, ways)
    box = ways * reach[:, None]
    wide, high = size
    edge = np.array([[0.0, 0.0], [wide, 0.0], [wide, high], [0.0, high]])
    seen = plane.metres(edge)
    whole = plane.depth(seen) >= DEEPEST
    # A corner of the photo beyond the horizon bounds nothing.
    low = np.where(whole.all(), seen.min(axis=0), -np.inf)
    top = np.where(whole.all(), seen.max(axis=0), np.inf)
    short = np.abs(box).min()
    rear, right = np.maximum(low, -short)
    front, left = np.minimum(top, short)
    return float(rear), float(right), float(front), float(left)


def _reach(plane: Plane, ways: Array) -> Array:
    """The share of each way from the sheet's middle that is near enough to be drawn."""
    depth = plane.depth(ways)
    return np.minimum(1.0, (1.0 - DEEPEST) / np.maximum(1.0 - depth, 1e-9))


def _finest(plane: Plane) -> float:
    """Pixels of the photo in a metre along the longest side of the sheet."""
    sides = np.hypot(*(np.roll(plane.corners, -1, axis=0) - plane.corners).T)
    lengths = np.hypot(*(np.roll(plane.places, -1, axis=0) - plane.places).T)
    return float((sides / lengths).max())

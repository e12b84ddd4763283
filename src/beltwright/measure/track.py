"""A track that a phone wrote, as metres on a plane against seconds."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import BinaryIO
from xml.etree.ElementTree import Element, ParseError

import numpy as np

from beltwright.measure.refusal import NotMeasuredError
from beltwright.physics.arrays import Array

MOST_BYTES = 32 * 1024 * 1024
"""Ten hours at one point a second are 4 to 10 MB."""

FEWEST = 10

Row = tuple[float, float, float, float]
"""Time [s], latitude [deg], longitude [deg], height [m]."""

SEMI_MAJOR = 6_378_137.0
"""Equatorial radius of the WGS 84 ellipsoid [m]. Source: NIMA TR8350.2, table 3.1."""

FLATTENING = 1.0 / 298.257223563
"""Flattening of the WGS 84 ellipsoid [1]. Source: as above."""


@dataclass(frozen=True)
class Track:
    """Points of a track, in the order of time.

    seconds  since the first point, shape (n,) [s]
    east     of the first point, shape (n,) [m]
    north    of the first point, shape (n,) [m]
    height   shape (n,) [m], None where the phone wrote none
    """

    seconds: Array
    east: Array
    north: Array
    height: Array | None


def read_track(source: Path | BinaryIO) -> Track:
    """Read a GPX file; raise NotMeasuredError if it is none, or says nothing of time."""
    rows = list(_rows(_text(source)))
    if len(rows) < FEWEST:
        raise NotMeasuredError(
            "This track has fewer than ten points with a place and a time. Record it again, one "
            "point a second, and export it as GPX."
        )
    table = np.array(rows)
    table = table[np.argsort(table[:, 0], kind="stable")]
    table = table[np.concatenate(([True], np.diff(table[:, 0]) > 0.0))]
    if len(table) < FEWEST:
        raise NotMeasuredError("The points of this track all have one time. Record it again.")
    seconds, latitude, longitude, height = table.T
    east, north = metres(latitude, longitude)
    heights = height if np.all(np.isfinite(height)) else None
    return Track(seconds - seconds[0], east, north, heights)


def metres(latitude: Array, longitude: Array) -> tuple[Array, Array]:
    """Metres east and north of the first point, on the plane that touches the ellipsoid there.

    M = a (1 - e²) / (1 - e² sin² φ)^1.5 along the meridian, N = a / √(1 - e² sin² φ) across it.
    Good to 0.1 % within 10 km of the first point. Source: Snyder, Map Projections: A Working
    Manual, USGS Professional Paper 1395 (1987), equations 4-18 to 4-20.

    Parameters: latitude, longitude, shape (n,) [deg].
    """
    squared = FLATTENING * (2.0 - FLATTENING)
    at = np.radians(latitude[0])
    inner = 1.0 - squared * np.sin(at) ** 2
    along = SEMI_MAJOR * (1.0 - squared) / inner**1.5
    across = SEMI_MAJOR / np.sqrt(inner) * np.cos(at)
    turned = np.mod(longitude - longitude[0] + 180.0, 360.0) - 180.0
    return np.radians(turned) * across, np.radians(latitude - latitude[0]) * along


def _text(source: Path | BinaryIO) -> bytes:
    if isinstance(source, Path):
        with source.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    else:
        data = source.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise NotMeasuredError(f"This track is too large. The most is {MOST_BYTES >> 20} MB.")
    return data


def _rows(text: bytes) -> Iterator[Row]:
    """Every point of the tracks in a file, whatever version of the format it is written in."""
    from defusedxml.common import DefusedXmlException
    from defusedxml.ElementTree import fromstring

    try:
        root = fromstring(text, forbid_dtd=True)
    except (ParseError, DefusedXmlException, ValueError, LookupError):
        raise NotMeasuredError(
            "This is not a GPX file that can be read. Export it again."
        ) from None
    space = root.tag.removesuffix("gpx") if root.tag.endswith("gpx") else "none"
    for point in root.iter(f"{space}trkpt"):
        row = _row(point, space)
        if row is not None:
            yield row


def _row(point: Element, space: str) -> Row | None:
    """One point; None where its place or time is missing or is none."""
    try:
        latitude, longitude = float(point.get("lat", "")), float(point.get("lon", ""))
        time = datetime.fromisoformat(point.findtext(f"{space}time", "").strip())
        height = float(point.findtext(f"{space}ele", "nan"))
    except ValueError:
        return None
    if not (abs(latitude) < 89.0 and abs(longitude) <= 180.0):
        return None
    at = time if time.tzinfo else time.replace(tzinfo=UTC)
    return at.timestamp(), latitude, longitude, height

"""A photo under the belt layout: decoded with care, squared up, kept beside the build."""

import io
import json
import os
import warnings
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from beltwright.measure.homography import SHEETS, plane_of, sheet_corners
from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.squared_up import squared_up
from beltwright.web.refusal import NotThere, Refusal

if TYPE_CHECKING:
    from PIL import Image

MOST_PIXELS = 40_000_000
"""Larger than any phone takes by default; bounds memory to 120 MB and time to about a second."""

MOST_AWAY = 40.0
"""The machine's origin lies no farther from the photo [m]."""

FORMATS = ("JPEG", "PNG", "WEBP")


@dataclass(frozen=True)
class Tapped:
    """What was tapped on the photo.

    corners             of the sheet, front left first, clockwise [pixels]
    known               a place that is known [pixels]
    place               where on the machine that is, x forward and y left [m]
    sheet               its name in SHEETS
    long_side_forwards  how it lies
    """

    corners: tuple[tuple[float, float], ...]
    known: tuple[float, float]
    place: tuple[float, float]
    sheet: str
    long_side_forwards: bool


@dataclass(frozen=True)
class Placed:
    """How the squared-up photo lies under the drawing.

    scale     [pixels per mm of the machine]
    origin_x  where the machine's origin is in the photo, from its left [pixels]
    origin_y  the same from its top [pixels]
    error     what the taps may be off by, half a metre from the sheet [mm]
    """

    scale: float
    origin_x: float
    origin_y: float
    width: int
    height: int
    error: float


def keep_photo(build: Path, sent: bytes, tapped: Tapped) -> Placed:
    """Squares up a photo, writes it anew beside the build, and says how it lies."""
    picture, placed = _squared_up(_decoded(sent), tapped)
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=85)
    _keep(build, written.getvalue(), json.dumps(asdict(placed)).encode())
    return placed


def _squared_up(photo: "Image.Image", tapped: Tapped) -> "tuple[Image.Image, Placed]":
    """The photo as seen from straight above, and where the machine's origin lies in it."""
    size = SHEETS.get(tapped.sheet)
    if size is None:
        raise Refusal(422, f"The sheet is one of {', '.join(SHEETS)}.")
    try:
        places = sheet_corners(size, tapped.long_side_forwards)
        plane = plane_of(np.array(tapped.corners), places)
        found = squared_up(photo, plane)
    except NotMeasuredError as refused:
        raise Refusal(422, str(refused)) from None
    known = plane.metres(np.array([tapped.known]))[0]
    origin = known - np.array(tapped.place) - np.array(found.corner)
    if not np.all(np.abs(origin) < MOST_AWAY):
        raise Refusal(422, "The known place lies too far from the sheet in this photo.")
    return found.picture, Placed(
        scale=found.scale / 1000.0,
        origin_x=float(origin[0] * found.scale),
        origin_y=float(-origin[1] * found.scale),
        width=found.picture.width,
        height=found.picture.height,
        error=found.error * 1000.0,
    )


def photo_of(build: Path) -> bytes:
    """The photo under a build."""
    try:
        return _file(build).read_bytes()
    except FileNotFoundError:
        raise NotThere("There is no photo under this build.") from None


def placed_of(build: Path) -> Placed | None:
    """How the photo under a build lies, None where there is none."""
    try:
        return Placed(**json.loads(_file(build).with_suffix(".json").read_text(encoding="utf-8")))
    except (FileNotFoundError, ValueError, TypeError):
        return None


def _keep(build: Path, picture: bytes, placed: bytes) -> None:
    """Puts both files in place whole, or says that the disk would not take them."""
    file = _file(build)
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        for target, data in ((file, picture), (file.with_suffix(".json"), placed)):
            aside = target.with_suffix(".part")
            aside.write_bytes(data)
            os.replace(aside, target)
    except OSError as failed:
        raise Refusal(503, f"The photo could not be kept: {failed.strerror}.") from None


def _file(build: Path) -> Path:
    return build.parent / ".beltwright" / "photos" / f"{build.stem}.jpg"


def _decoded(sent: bytes) -> "Image.Image":
    """The picture alone, upright, without what the camera wrote into it."""
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            opened = Image.open(io.BytesIO(sent), formats=FORMATS)
            if opened.width * opened.height > MOST_PIXELS:
                raise Refusal(413, "This photo has too many pixels. The most is 40 million.")
            return ImageOps.exif_transpose(opened).convert("RGB")
    except (
        UnidentifiedImageError,
        Image.DecompressionBombError,
        Image.DecompressionBombWarning,
        OSError,
        SyntaxError,
        ValueError,
    ):
        raise Refusal(422, "This is not a photo that can be read. Send a JPEG or PNG.") from None

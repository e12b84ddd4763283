"""A photo under the belt layout: decoded with care, written anew, kept beside the build."""

import io
import json
import math
import os
import warnings
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from beltwright.web.refusal import NotThere, Refusal

if TYPE_CHECKING:
    from PIL import Image

MOST_PIXELS = 40_000_000
"""Larger than any phone takes by default; bounds memory to 120 MB and time to about a second."""

LONGEST_SIDE = 3000
"""Pixels that are kept: finer than a tape can be read on a machine 2 m long."""

FORMATS = ("JPEG", "PNG", "WEBP")


@dataclass(frozen=True)
class Placed:
    """How the photo lies under the drawing.

    scale     [pixels per mm of the machine]
    origin_x  where the machine's origin is in the photo, from its left [pixels]
    origin_y  the same from its top [pixels]
    """

    scale: float
    origin_x: float
    origin_y: float
    width: int
    height: int


def keep_photo(build: Path, sent: bytes, scale: float, origin: tuple[float, float]) -> Placed:
    """Checks a photo, writes it anew beside the build, and says how it lies."""
    numbers = (scale, *origin)
    if not all(math.isfinite(n) and abs(n) < 1e6 for n in numbers) or scale <= 0.0:
        raise Refusal(422, "Give the scale in pixels per millimetre, above zero, and the origin.")
    picture, shrunk = _decoded(sent)
    placed = Placed(
        scale * shrunk, origin[0] * shrunk, origin[1] * shrunk, picture.width, picture.height
    )
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=85)
    _keep(build, written.getvalue(), json.dumps(asdict(placed)).encode())
    return placed


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


def _decoded(sent: bytes) -> "tuple[Image.Image, float]":
    """The picture alone, upright, without what the camera wrote into it; and how it was shrunk."""
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            opened = Image.open(io.BytesIO(sent), formats=FORMATS)
            if opened.width * opened.height > MOST_PIXELS:
                raise Refusal(413, "This photo has too many pixels. The most is 40 million.")
            longest = max(opened.size)
            opened.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
            upright = ImageOps.exif_transpose(opened).convert("RGB")
    except (
        UnidentifiedImageError,
        Image.DecompressionBombError,
        Image.DecompressionBombWarning,
        OSError,
        SyntaxError,
        ValueError,
    ):
        raise Refusal(422, "This is not a photo that can be read. Send a JPEG or PNG.") from None
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    return upright, max(upright.size) / longest

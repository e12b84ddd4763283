"""How long a minute of sound, a ten-hour track and a photo of twelve megapixels take.

Run with `python benchmarks/measure.py`. Aims: under 1 s, under 2 s and under 2 s. The files are
made here; reading them is in the times.
"""

import io
import statistics
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import numpy as np
import soundfile
from PIL import Image

from beltwright.measure.driving import stops, top_speed
from beltwright.measure.homography import SHEETS, plane_of, sheet_corners
from beltwright.measure.recording import read_recording
from beltwright.measure.sound import engine_speed
from beltwright.measure.squared_up import squared_up
from beltwright.measure.track import read_track

RUNS = 5
RATE = 44_100
HOURS = 10
SIZE = (4000, 3000)


def main() -> None:
    """Measure each, and print the middle and the longest of a few runs."""
    for kind in ("WAV", "FLAC", "OGG", "MP3"):
        _tell(f"a minute of sound, {kind}", _listen, sound(kind), 1.0)
    _tell(f"a track of {HOURS} hours", _drive, track(), 2.0)
    _tell("a photo of 12 megapixels", _square_up, photo(), 2.0)


def sound(kind: str) -> bytes:
    """A minute of a single four-stroke at 3,300 rpm in two channels, with noise."""
    random = np.random.default_rng(1)
    at = np.arange(60 * RATE) / RATE
    lines = sum(np.cos(2 * np.pi * 27.5 * line * at + line**2) for line in range(2, 30))
    loud = 0.01 * (lines + 3.0 * random.standard_normal(at.size))
    written = io.BytesIO()
    with soundfile.SoundFile(written, "w", RATE, 2, format=kind) as file:
        for second in np.column_stack([loud, loud]).reshape(60, RATE, 2):
            file.write(second)
    return written.getvalue()


def track() -> bytes:
    """A point a second for ten hours, driving and standing."""
    begun = datetime(2031, 5, 4, 6, tzinfo=UTC)
    along = np.cumsum(np.clip(3.0 * np.sin(np.arange(HOURS * 3600) / 40.0), 0.0, 2.5))
    points = "".join(
        f'<trkpt lat="{48.0 + metre / 111_000:.7f}" lon="11.0"><ele>{500 + second % 3}</ele>'
        f"<time>{(begun + timedelta(seconds=second)):%Y-%m-%dT%H:%M:%SZ}</time></trkpt>"
        for second, metre in enumerate(along)
    )
    space = "http://www.topografix.com/GPX/1/1"
    return f'<gpx xmlns="{space}"><trk><trkseg>{points}</trkseg></trk></gpx>'.encode()


def photo() -> bytes:
    """A photo full of detail, as a phone writes it."""
    written = io.BytesIO()
    Image.effect_noise(SIZE, 60).convert("RGB").save(written, "JPEG", quality=90)
    return written.getvalue()


def _listen(file: bytes) -> None:
    engine_speed(read_recording(io.BytesIO(file)), 1)


def _drive(file: bytes) -> None:
    path = read_track(io.BytesIO(file))
    top_speed(path)
    stops(path)


def _square_up(file: bytes) -> None:
    corners = np.array([[2400.0, 1300.0], [2360.0, 1900.0], [1500.0, 1880.0], [1520.0, 1310.0]])
    plane = plane_of(corners, sheet_corners(SHEETS["A4"], long_side_forwards=True))
    squared_up(Image.open(io.BytesIO(file)).convert("RGB"), plane)


def _tell(what: str, work: Callable[[bytes], None], file: bytes, aim: float) -> None:
    taken = []
    for _ in range(RUNS):
        begun = time.perf_counter()
        work(file)
        taken.append(time.perf_counter() - begun)
    print(f"{what:28} {statistics.median(taken):6.2f} s, at most {max(taken):.2f}; aim {aim:g} s")


if __name__ == "__main__":
    main()

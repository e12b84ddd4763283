"""The photo under a build: read with care, written anew, bounded."""

import io
import json
import struct
import zlib
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from beltwright.measure.squared_up import LARGEST
from beltwright.web.door import TOKEN_HEADER

TAPPED = [[300.0, 200.0], [300.0, 410.0], [3.0, 410.0], [3.0, 200.0], [103.0, 205.0]]
"""A sheet of A4 at one pixel a millimetre, its long side forwards; then the known place."""

WHERE = {"sheet": "A4", "long_side": "forwards", "known": "", "tapped": json.dumps(TAPPED)}


def _send(tab: Any, photo: bytes, where: dict[str, str] = WHERE) -> Any:
    return tab.client.post(
        "/api/builds/orchard/photo",
        files={"photo": ("../../shop.jpg", photo, "image/jpeg")},
        data=where,
        headers={TOKEN_HEADER: tab.token},
    )


def _photo(size: tuple[int, int], kind: str = "JPEG", **more: Any) -> bytes:
    written = io.BytesIO()
    Image.linear_gradient("L").resize(size).convert("RGB").save(written, kind, **more)
    return written.getvalue()


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_photo_is_kept_and_given_back(tab: Any, folder: Path, kind: str) -> None:
    assert tab.client.get("/api/builds/orchard/photo").status_code == 404
    answer = _send(tab, _photo((800, 600), kind))
    assert answer.status_code == 201, answer.text
    placed = answer.json()
    assert placed["scale"] == pytest.approx(1.0, rel=0.01)
    assert placed["origin_x"] == pytest.approx(103.0, abs=0.01)
    assert placed["origin_y"] == pytest.approx(205.0, abs=0.01)
    assert (placed["width"], placed["height"]) == pytest.approx((800, 600), abs=1)
    assert 0.0 < placed["error"] < 100.0
    given = tab.client.get("/api/builds/orchard/photo")
    assert given.headers["content-type"] == "image/jpeg"
    assert Image.open(io.BytesIO(given.content)).size == (placed["width"], placed["height"])
    assert tab.get("/builds/orchard")["photo"] == placed
    assert [row["name"] for row in tab.get("/builds")] == ["orchard"]
    assert not (folder.parent / "shop.jpg").exists()


def test_what_the_camera_wrote_into_it_is_not_kept(tab: Any) -> None:
    exif = Image.Exif()
    exif[0x0110] = "camera of somebody"
    assert b"somebody" in _photo((800, 600), exif=exif)
    _send(tab, _photo((800, 600), exif=exif))
    assert b"somebody" not in tab.client.get("/api/builds/orchard/photo").content


def test_a_photo_taken_sideways_is_turned_upright(tab: Any) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    placed = _send(tab, _photo((600, 800), exif=exif)).json()
    assert placed["width"] > placed["height"]


def test_a_photo_lies_where_the_known_shaft_is(tab: Any) -> None:
    """The engine's shaft stands 905 mm before the axle and 20 mm right of the middle."""
    placed = _send(tab, _photo((800, 600)), {**WHERE, "known": "engine"}).json()
    forward = (103.0 - placed["origin_x"] / placed["scale"]) / 1.0
    assert forward == pytest.approx(905.0, abs=0.1)
    assert placed["origin_y"] / placed["scale"] == pytest.approx(205.0 - 20.0, abs=0.1)


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_a_large_photo_is_shrunk_and_its_scale_with_it(tab: Any, kind: str) -> None:
    """A millimetre of the machine must lie under the same millimetre of the drawing."""
    finer = {**WHERE, "tapped": json.dumps([[8 * x, 8 * y] for x, y in TAPPED])}
    placed = _send(tab, _photo((LARGEST * 2, 900 * 4), kind), finer).json()
    assert max(placed["width"], placed["height"]) <= LARGEST
    assert placed["origin_x"] / placed["scale"] == pytest.approx(103.0, abs=0.01)
    assert placed["origin_y"] / placed["scale"] == pytest.approx(205.0, abs=0.01)


def _bomb(side: int) -> bytes:
    """A PNG of a few kilobytes that says it has side x side pixels."""

    def chunk(name: bytes, data: bytes) -> bytes:
        checked = name + data
        return struct.pack(">I", len(data)) + checked + struct.pack(">I", zlib.crc32(checked))

    head = struct.pack(">IIBBBBB", side, side, 8, 0, 0, 0, 0)
    data = zlib.compress(b"\0" * 1_000_000, 9)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", data) + chunk(b"IEND", b"")


@pytest.mark.parametrize("side", [7_000, 20_000, 2_000_000_000])
def test_a_small_file_that_unfolds_is_refused_unopened(tab: Any, side: int) -> None:
    answer = _send(tab, _bomb(side))
    assert answer.status_code in {413, 422}
    assert tab.client.get("/api/builds/orchard/photo").status_code == 404


@pytest.mark.parametrize(
    "sent",
    [
        b"",
        b"not a picture",
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
        b"GIF89a" + b"\0" * 50,
        _photo((80, 60))[:200],
        _photo((80, 60), "PNG")[:100],
        _photo((80, 60), "BMP"),
    ],
)
def test_what_is_no_photo_is_refused(tab: Any, sent: bytes) -> None:
    assert _send(tab, sent).status_code == 422
    assert tab.client.get("/api/builds/orchard/photo").status_code == 404


@pytest.mark.parametrize(
    "wrong",
    [
        {"tapped": ""},
        {"tapped": "[]"},
        {"tapped": "[[1, 2]]"},
        {"tapped": "nonsense"},
        {"tapped": "[" * 5000},
        {"tapped": json.dumps([*TAPPED, [0, 0]])},
        {"tapped": json.dumps(TAPPED[:4]) + "}"},
        {"tapped": json.dumps([[1, 1], [2, 1], [2, 2], [1, 2], [3, 3]])},
        {"tapped": json.dumps(TAPPED[3::-1] + TAPPED[4:])},
        {"tapped": "[[NaN, 1], [300, 410], [3, 410], [3, 200], [103, 205]]"},
        {"tapped": json.dumps([*TAPPED[:4], [1e12, 1.0]])},
        {"tapped": json.dumps([[1e200, 1.0], [2.0, -1e200], *TAPPED[2:]])},
        {"sheet": "A9"},
        {"sheet": ""},
        {"long_side": "up"},
        {"known": "no such shaft"},
    ],
)
def test_a_photo_needs_its_sheet_tapped(tab: Any, wrong: dict[str, str]) -> None:
    answer = _send(tab, _photo((800, 600)), {**WHERE, **wrong})
    assert answer.status_code == 422
    assert answer.json()["error"]["reason"].endswith(".")
    assert tab.client.get("/api/builds/orchard/photo").status_code == 404


def test_a_photo_over_the_bound_is_refused(tab: Any) -> None:
    answer = _send(tab, b"\xff" * (25 * 1024 * 1024))
    assert answer.status_code == 413


def test_a_form_without_a_photo_is_refused(tab: Any) -> None:
    headers = {TOKEN_HEADER: tab.token}
    address = "/api/builds/orchard/photo"
    assert tab.client.post(address, data=WHERE, headers=headers).status_code == 415
    files = {"other": ("x", b"x")}
    assert tab.client.post(address, files=files, data=WHERE, headers=headers).status_code == 422
    many = [("photo", ("x", b"x")), ("photo", ("y", b"y"))]
    assert tab.client.post(address, files=many, data=WHERE, headers=headers).status_code == 400
    kind = {"Content-Type": "multipart/form-data; boundary=x", **headers}
    broken = tab.client.post(address, content=b"--x\r\nnonsense", headers=kind)
    assert broken.status_code in {400, 422}
    assert broken.json()["error"]["reason"]


def test_a_full_disk_keeps_the_photo_that_was_there(
    tab: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    _send(tab, _photo((800, 600)))
    first = tab.client.get("/api/builds/orchard/photo").content

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    assert _send(tab, _photo((900, 600))).status_code == 503
    assert tab.client.get("/api/builds/orchard/photo").content == first

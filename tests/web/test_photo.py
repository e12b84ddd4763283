"""The photo under a build: read with care, written anew, bounded."""

import io
import struct
import zlib
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from beltwright.web.door import TOKEN_HEADER
from beltwright.web.photo import LONGEST_SIDE

WHERE = {"scale": "2", "origin_x": "10", "origin_y": "20"}


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
    assert answer.json() == {
        "scale": 2.0,
        "origin_x": 10.0,
        "origin_y": 20.0,
        "width": 800,
        "height": 600,
    }
    given = tab.client.get("/api/builds/orchard/photo")
    assert given.headers["content-type"] == "image/jpeg"
    assert Image.open(io.BytesIO(given.content)).size == (800, 600)
    assert tab.get("/builds/orchard")["photo"] == answer.json()
    assert [row["name"] for row in tab.get("/builds")] == ["orchard"]
    assert not (folder.parent / "shop.jpg").exists()


def test_what_the_camera_wrote_into_it_is_not_kept(tab: Any) -> None:
    exif = Image.Exif()
    exif[0x0110] = "camera of somebody"
    assert b"somebody" in _photo((80, 60), exif=exif)
    _send(tab, _photo((80, 60), exif=exif))
    assert b"somebody" not in tab.client.get("/api/builds/orchard/photo").content


def test_a_photo_taken_sideways_is_turned_upright(tab: Any) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    assert _send(tab, _photo((80, 60), exif=exif)).json()["height"] == 80


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_a_large_photo_is_shrunk_and_its_scale_with_it(tab: Any, kind: str) -> None:
    """A millimetre of the machine must lie under the same millimetre of the drawing."""
    wide = LONGEST_SIDE * 2
    placed = _send(tab, _photo((wide, 900), kind)).json()
    assert placed["width"] == LONGEST_SIDE
    assert placed["width"] / placed["scale"] == pytest.approx(wide / 2.0, rel=1e-12)
    assert placed["origin_x"] / placed["scale"] == pytest.approx(10.0 / 2.0, rel=1e-12)


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


@pytest.mark.parametrize("scale", ["0", "-1", "nan", "inf", "two", "", "1e99"])
def test_a_photo_needs_a_scale(tab: Any, scale: str) -> None:
    assert _send(tab, _photo((80, 60)), {**WHERE, "scale": scale}).status_code == 422


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
    _send(tab, _photo((80, 60)))
    first = tab.client.get("/api/builds/orchard/photo").content

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    assert _send(tab, _photo((90, 60))).status_code == 503
    assert tab.client.get("/api/builds/orchard/photo").content == first

"""A recording that the page sends: listened to within bounds, refused in words, never kept."""

import io
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import soundfile

from beltwright.web.door import TOKEN_HEADER

RATE = 16_000
ONE = {"cylinders": "1", "strokes": "4"}


def _engine(rpm: float, kind: str = "WAV", seconds: float = 6.0) -> bytes:
    """A single four-stroke: all multiples of half a turn."""
    time = np.arange(int(RATE * seconds)) / RATE
    lines = np.arange(2, 40)[:, None]
    sound = np.cos(2 * np.pi * lines * rpm / 120.0 * time + lines**2).sum(axis=0)
    written = io.BytesIO()
    soundfile.write(written, 0.3 * sound / np.abs(sound).max(), RATE, format=kind)
    return written.getvalue()


def _send(tab: Any, sound: bytes, words: dict[str, str] = ONE) -> Any:
    return tab.client.post(
        "/api/builds/orchard/recording",
        files={"recording": ("../engine.wav", sound, "audio/wav")},
        data=words,
        headers={TOKEN_HEADER: tab.token},
    )


@pytest.mark.parametrize("kind", ["WAV", "FLAC", "OGG", "MP3"])
def test_a_recording_gives_every_speed_that_it_may_mean(tab: Any, folder: Path, kind: str) -> None:
    before = sorted(file for file in folder.rglob("*") if file.is_file())
    answer = _send(tab, _engine(3300.0, kind))
    assert answer.status_code == 200, answer.text
    first, second = answer.json()["readings"]
    assert float(first["text"].split(" ")[0]) == pytest.approx(3300.0, rel=0.003)
    assert float(second["text"].split(" ")[0]) == pytest.approx(1650.0, rel=0.003)
    assert first["text"].endswith(" rpm")
    assert sorted(file for file in folder.rglob("*") if file.is_file()) == before


def test_what_is_heard_can_be_put_into_the_build(tab: Any) -> None:
    reading = _send(tab, _engine(1600.0)).json()["readings"][0]
    shown = tab.edit("engine.idle", reading["text"])
    assert shown["values"]["engine"]["idle"] == reading["text"]


@pytest.mark.parametrize(
    "sent",
    [b"", b"nonsense", _engine(3300.0)[:40], _engine(3300.0, "FLAC")[:60], b"RIFF" + b"\0" * 200],
)
def test_what_is_no_recording_is_refused(tab: Any, sent: bytes) -> None:
    answer = _send(tab, sent)
    assert answer.status_code == 422
    assert answer.json()["error"]["reason"].endswith(".")


@pytest.mark.parametrize("words", [{}, {"cylinders": "0"}, {"cylinders": "9"}, {"strokes": "3"}])
def test_cylinders_and_strokes_have_bounds(tab: Any, words: dict[str, str]) -> None:
    given = {**ONE, **words} if words else {}
    assert _send(tab, _engine(3300.0), given).status_code == 422


def test_a_recording_over_the_bound_is_refused(tab: Any) -> None:
    assert _send(tab, b"\0" * (25 * 1024 * 1024)).status_code == 413


def test_a_recording_comes_as_a_form_with_a_file(tab: Any) -> None:
    headers = {TOKEN_HEADER: tab.token}
    address = "/api/builds/orchard/recording"
    assert tab.client.post(address, json={}, headers=headers).status_code == 415
    files = {"other": ("x", b"x")}
    assert tab.client.post(address, files=files, headers=headers).status_code == 422
    assert tab.client.post("/api/builds/nothing/recording", headers=headers).status_code == 404

"""`beltwright measure`: shown as it is to stand, written only where it was said."""

import re
import shutil
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import soundfile

from beltwright.build.saving import list_history
from beltwright.cli import main

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"
RATE = 16_000


@pytest.fixture
def build(tmp_path: Path) -> Path:
    """A copy of the example."""
    return Path(shutil.copy(EXAMPLE, tmp_path / "cart.toml"))


@pytest.fixture
def engine(tmp_path: Path) -> Callable[[float], str]:
    """A recording of a single four-stroke at a speed."""

    def record(rpm: float) -> str:
        time = np.arange(6 * RATE) / RATE
        lines = np.arange(2, 40)[:, None]
        sound = np.cos(2 * np.pi * lines * rpm / 120.0 * time + lines**2).sum(axis=0)
        file = tmp_path / f"{rpm:g}.wav"
        soundfile.write(file, 0.3 * sound / np.abs(sound).max(), RATE)
        return str(file)

    return record


def _at(build: Path, table: str, name: str) -> Any:
    return tomllib.loads(build.read_text())[table][name]


def test_every_reading_of_a_sound_is_shown(
    engine: Callable[[float], str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["measure", "sound", engine(3400.0)]) == 0
    told = capsys.readouterr().out
    said = [float(line.split(": ")[1].split(" ")[0]) for line in told.splitlines() if "±" in line]
    assert said == pytest.approx([3400.0, 1700.0], rel=2e-3)
    assert "--about" in told


def test_a_speed_is_written_where_it_was_said(
    build: Path, engine: Callable[[float], str], capsys: pytest.CaptureFixture[str]
) -> None:
    before = build.read_text()
    given = [engine(3400.0), "--about", "3300 rpm", "--into", str(build), "--as", "engine.no_load"]
    assert main(["measure", "sound", *given]) == 0
    shown = _at(build, "engine", "no_load")
    assert float(shown.split(" ± ")[0]) == pytest.approx(3400.0, rel=2e-3)
    assert shown.endswith(" rpm")
    assert shown in capsys.readouterr().out
    after = build.read_text()
    assert [a for a, b in zip(before.splitlines(), after.splitlines(), strict=True) if a != b] == [
        'no_load = "3450 ± 30 rpm"'
    ]
    assert list_history(build)[0].note == "measured: engine.no_load"


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (["--as", "engine.no_load"], "--into BUILD --as KEY"),
        (["--into", "BUILD"], "--into BUILD --as KEY"),
        (["--into", "BUILD", "--as", "engine.no_load"], "does not tell these apart"),
        (["--about", "3300 rpm", "--into", "BUILD", "--as", "engine.bore"], "Nothing here belongs"),
        (["--about", "3300 rpm", "--into", "BUILD", "--as", "pulley.9.at"], "There is no place"),
        (
            ["--about", "2400 rpm", "--into", "BUILD", "--as", "engine.idle"],
            "none of these is near",
        ),
        (["--about", "fast"], "has no number"),
    ],
)
def test_nothing_is_written_unasked(
    build: Path,
    engine: Callable[[float], str],
    capsys: pytest.CaptureFixture[str],
    more: list[str],
    says: str,
) -> None:
    before = build.read_text()
    given = [str(build) if each == "BUILD" else each for each in more]
    assert main(["measure", "sound", engine(3400.0), *given]) == 2
    assert says in capsys.readouterr().err
    assert build.read_text() == before


def test_gears_are_written_as_a_list(build: Path) -> None:
    counts = ["20 = 0 + 115", "20 = 0 + 180", "20 = 1"]
    given = [*counts, "--into", str(build), "--as", "gearbox.forward"]
    assert main(["measure", "turns", *given]) == 0
    assert _at(build, "gearbox", "forward") == [62.6, 40.0, 20.0]


def test_roll_out_is_written_in_the_builders_unit(build: Path, tmp_path: Path) -> None:
    given = ["7.42 m ± 5 mm", "--turns", "5", "--into", str(build), "--as", "wheels.roll_out"]
    assert main(["measure", "roll-out", *given]) == 0
    assert _at(build, "wheels", "roll_out") == "1484 ± 1 mm"
    inches = tmp_path / "inches.toml"
    inches.write_text('format = 1\nname = "x"\n[machine]\nwheelbase = "48 in"\n[wheels]\n')
    given[4] = str(inches)
    assert main(["measure", "roll-out", *given]) == 0
    assert _at(inches, "wheels", "roll_out") == "58.425 ± 0.04 in"


def test_a_coast_down_both_ways(capsys: pytest.CaptureFixture[str]) -> None:
    there = ["0s=12km/h", "5s=9.2km/h", "10s=6.1km/h", "15s=3.0km/h"]
    back = ["0s=12km/h", "5s=8km/h", "10s=4.1km/h", "12s=2.4km/h"]
    assert main(["measure", "coast", *there, "--back", *back]) == 0
    assert 'both ways: rolling = "0.0198' in capsys.readouterr().out


def test_a_coast_down_stands_in_for_the_tables_range(build: Path) -> None:
    there = ["0s=12km/h", "5s=9.2km/h", "10s=6.1km/h", "15s=3.0km/h"]
    given = [*there, "--into", str(build), "--as", "ground.mown grass.rolling"]
    for _ in range(2):
        assert main(["measure", "coast", *given]) == 0
        (ground,) = tomllib.loads(build.read_text())["ground"]
        assert ground["name"] == "mown grass"
        assert ground["rolling"].startswith("0.017")


def test_a_warm_up_is_written_with_its_readings(build: Path) -> None:
    readings = ["0 min=18 °C", "10 min=35 °C", "20 min=47 °C", "30 min=55 °C", "60 min=66 °C"]
    more = ["--air", "18 °C", "--gear", "3", "--duty", "40 %"]
    given = [*readings, *more, "--into", str(build), "--as", "gearbox.measured"]
    assert main(["measure", "warm-up", *given]) == 0
    table = _at(build, "gearbox", "measured")
    assert table["gear"] == 3
    assert table["reading"][1] == {"after": "10 min", "oil": "35 °C"}
    assert main(["check", str(build), "--nominal"]) in {0, 1}


def test_a_warm_up_that_was_too_short_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    readings = [f"{5 * at}min={18 + 4 * at}C" for at in range(5)]
    assert main(["measure", "warm-up", *readings, "--air", "18C"]) == 0
    assert "too short to tell" in capsys.readouterr().out


def test_a_track_tells_what_it_can(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    points = "".join(
        f'<trkpt lat="{48 + 3e-5 * at:.7f}" lon="11"><ele>400</ele>'
        f"<time>2031-05-04T08:00:{at:02d}Z</time></trkpt>"
        for at in range(40)
    )
    file = tmp_path / "drive.gpx"
    file.write_text(
        f'<gpx xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>{points}</trkseg></trk></gpx>'
    )
    assert main(["measure", "track", str(file)]) == 0
    told = capsys.readouterr().out
    assert 'Top speed held: speed = "12' in told
    assert "tells no slope" in told


def test_a_drive_that_is_not_there_yet_begins(build: Path, engine: Callable[[float], str]) -> None:
    build.write_text(build.read_text().partition("[[drive]]")[0])
    given = [engine(3400.0), "--about", "3300 rpm", "--into", str(build)]
    assert main(["measure", "sound", *given, "--as", "drive.first.engine"]) == 0
    assert main(["measure", "sound", *given, "--as", "drive.second.engine"]) == 0
    first, second = tomllib.loads(build.read_text())["drive"]
    assert (first["name"], second["name"]) == ("first", "second")
    assert first["engine"] == second["engine"]


@pytest.mark.parametrize("what", ["sound", "track"])
@pytest.mark.parametrize("content", [b"", b"RIFF", b"<?xml version='1.0'?><gpx", b"\x89PNG\r\n"])
def test_a_broken_file_gives_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], what: str, content: bytes
) -> None:
    file = tmp_path / "broken"
    file.write_bytes(content)
    assert main(["measure", what, str(file)]) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "Traceback" not in told


@pytest.mark.parametrize(
    "given",
    [["sound", "nowhere.wav"], ["track", "nowhere.gpx"], ["coast", "--track", "nowhere.gpx"]],
)
def test_a_file_that_is_not_there_is_told(
    capsys: pytest.CaptureFixture[str], given: list[str]
) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["measure", *given])
    assert stopped.value.code == 2
    assert "there is no file" in capsys.readouterr().err


@pytest.mark.parametrize(
    "given",
    [
        ["turns", "twenty"],
        ["turns", "20 = 1", "--mark", "5 mm"],
        ["roll-out", "seven"],
        ["coast"],
        ["coast", "5s"],
        ["coast", "5s=1km/h"],
        ["warm-up", "5=1", "--air", "20 °C"],
    ],
)
def test_readings_that_say_nothing_are_refused(
    capsys: pytest.CaptureFixture[str], given: list[str]
) -> None:
    assert main(["measure", *given]) == 2
    assert capsys.readouterr().err.strip().endswith((".", '".'))


@pytest.mark.parametrize(
    ("given", "unit", "never"),
    [
        (["roll-out", "24 ft 4 in", "--turns", "5"], "in", "mm"),
        (["roll-out", "7.42 m", "--turns", "5"], "mm", "in"),
        (
            [
                "warm-up",
                "0min=64F",
                "10min=95F",
                "20min=117F",
                "30min=131F",
                "60min=151F",
                "--air",
                "64F",
            ],
            "°F",
            " K.",
        ),
    ],
)
def test_without_a_build_what_was_typed_sets_the_unit(
    given: list[str], unit: str, never: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["measure", *given]) == 0
    told = capsys.readouterr().out
    assert re.search(rf"± [0-9./ ]+ {unit}\b", told)
    assert not re.search(rf"± [0-9./ ]+ {never}\b", told)
    assert " K." not in told

"""`beltwright check`: exit codes, messages, and what it prints."""

import json
import os
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from beltwright.build.starter import starter_text
from beltwright.cli import main

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "examples" / "orchard-hauler" / "build.toml"
SCHEMA = ROOT / "src" / "beltwright" / "review" / "review.schema.json"

COMMAND = [sys.executable, "-c", "import sys; from beltwright.cli import main; sys.exit(main())"]

Captured = pytest.CaptureFixture[str]


@pytest.fixture
def starter(tmp_path: Path) -> Path:
    """The starter as a file."""
    path = tmp_path / "mine.toml"
    path.write_text(starter_text(), encoding="utf-8")
    return path


def test_the_starter_checks_without_a_stop(starter: Path, capsys: Captured) -> None:
    assert main(["check", str(starter)]) == 0
    out = capsys.readouterr().out
    assert "My cart" in out
    assert "■ 0 stop" in out


def test_a_stop_gives_exit_code_1(starter: Path, capsys: Captured) -> None:
    text = starter.read_text(encoding="utf-8").replace(
        'stock_input = "1650 ± 50 rpm"', 'stock_input = "600 rpm"'
    )
    starter.write_text(text, encoding="utf-8")
    assert main(["check", str(starter)]) == 1
    out = capsys.readouterr().out
    assert "■ stop" in out
    assert "Caution:" in out
    assert "gearbox.overspeed" in out


@pytest.mark.parametrize("text", ["", "format = 1\n", "\x00", "a = = b"])
def test_a_bad_file_gives_exit_code_2_and_a_message(
    tmp_path: Path, capsys: Captured, text: str
) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(text, encoding="utf-8")
    assert main(["check", str(path)]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("bad.toml")
    assert "Traceback" not in said.err


def test_a_missing_file_gives_exit_code_2(tmp_path: Path, capsys: Captured) -> None:
    assert main(["check", str(tmp_path / "none.toml")]) == 2
    assert "no such file" in capsys.readouterr().err


def test_json_holds_the_schema(capsys: Captured) -> None:
    main(["check", str(EXAMPLE), "--json"])
    review = json.loads(capsys.readouterr().out)
    jsonschema.validate(review, json.loads(SCHEMA.read_text(encoding="utf-8")))
    ids = [finding["id"] for finding in review["findings"]]
    assert len(ids) == len(set(ids))
    top = next(finding for finding in review["findings"] if finding["id"] == "speed.top")
    assert top["unit"] == "m/s"
    assert top["low"] < top["value"] < top["high"]
    assert sum(review["counts"].values()) == len(ids)


def test_nominal_leaves_the_ranges_out(capsys: Captured) -> None:
    main(["check", str(EXAMPLE), "--json", "--nominal"])
    findings = json.loads(capsys.readouterr().out)["findings"]
    assert all(finding["low"] == finding["high"] == finding["value"] for finding in findings)


def test_why_shows_working_and_source(capsys: Captured) -> None:
    assert main(["check", str(EXAMPLE), "--why", "speed.top"]) == 0
    out = capsys.readouterr().out
    for word in ("formula", "working", "source", "km/h", "assumed"):
        assert word in out


def test_why_of_an_unknown_finding_names_the_near_ones(capsys: Captured) -> None:
    assert main(["check", str(EXAMPLE), "--why", "sped.top"]) == 2
    assert "speed.top" in capsys.readouterr().err


@pytest.mark.parametrize("columns", [60, 80, 120])
def test_the_report_fits_its_width_without_colour_when_piped(columns: int) -> None:
    env = {**os.environ, "COLUMNS": str(columns)}
    run = subprocess.run(
        [*COMMAND, "check", str(EXAMPLE), "--nominal"],
        capture_output=True,
        env=env,
        check=False,
    )
    out = run.stdout.decode()
    assert run.returncode in (0, 1)
    assert "\x1b" not in out
    assert max(len(line) for line in out.splitlines()) <= columns
    for mark_and_word in ("■", "◐", "◌", "○ sound", "km/h", "limit:"):
        assert mark_and_word in out


def test_a_terminal_without_unicode_does_not_stop_it() -> None:
    env = {**os.environ, "PYTHONIOENCODING": "ascii"}
    run = subprocess.run(
        [*COMMAND, "check", str(EXAMPLE), "--nominal"],
        capture_output=True,
        env=env,
        check=False,
    )
    assert b"Traceback" not in run.stderr
    assert b"sound" in run.stdout


def test_a_closed_pipe_is_no_error() -> None:
    with subprocess.Popen(
        [*COMMAND, "check", str(EXAMPLE), "--json"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as run:
        assert run.stdout is not None
        assert run.stderr is not None
        run.stdout.read(1)
        run.stdout.close()
        assert b"Traceback" not in run.stderr.read()


def test_a_full_disk_is_told(starter: Path) -> None:
    with Path("/dev/full").open("w") as full:
        run = subprocess.run(
            [*COMMAND, "check", str(starter), "--nominal"],
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert run.returncode == 2
    assert run.stderr.decode() == "This could not be written: No space left on device.\n"


def test_json_and_why_are_not_asked_together(starter: Path, capsys: Captured) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["check", str(starter), "--json", "--why", "speed.top"])
    assert ended.value.code == 2
    assert "not allowed with" in capsys.readouterr().err


def test_arithmetic_without_an_answer_does_not_reach_the_terminal(starter: Path) -> None:
    """NumPy warns of what a finding says in words; Python's own switch still brings it out."""
    after = "import numpy as np; np.array([1.0]) / 0.0"
    command = f"import sys; from beltwright.cli import main; main(['check', sys.argv[1]]); {after}"
    for switches, said in (([], False), (["-W", "default"], True)):
        run = [sys.executable, *switches, "-c", command, str(starter)]
        done = subprocess.run(run, capture_output=True, text=True, check=True)
        assert ("RuntimeWarning" in done.stderr) is said

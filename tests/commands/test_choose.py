"""`beltwright choose` from the command line."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from beltwright.build.reading import read_build
from beltwright.cli import main
from beltwright.commands.choose import MERITS
from beltwright.options import merit
from beltwright.review.review import review

SMALL = Path(__file__).parents[1] / "options" / "small_build.toml"
CHOICES = """
[[choose.vary]]
of = "engine pulley"
what = "outside"
values = ["90 mm", "96 mm", "102 mm"]

[[choose.vary]]
of = "traction belt"
what = "length"
prices = true
"""
MANY = """
[[choose.vary]]
of = "engine pulley"
what = "outside"
low = "60 mm"
high = "160 mm"
step = "0.02 mm"
[[choose.vary]]
of = "input pulley"
what = "outside"
low = "130 mm"
high = "260 mm"
step = "0.02 mm"
[[choose.vary]]
of = "guide idler"
what = "at y"
low = "100 mm"
high = "140 mm"
step = "0.05 mm"
"""
COMMAND = [sys.executable, "-c", "import sys; from beltwright.cli import main; sys.exit(main())"]

Captured = pytest.CaptureFixture[str]


@pytest.fixture
def build(tmp_path: Path) -> Path:
    """A build with a pulley and the belt left open."""
    path = tmp_path / "hauler.toml"
    path.write_text(SMALL.read_text(encoding="utf-8") + CHOICES, encoding="utf-8")
    return path


def test_the_names_of_merits_are_those_of_the_options() -> None:
    assert tuple(each.name for each in merit.MERITS) == MERITS


def test_it_prints_options_and_reasons(build: Path, capsys: Captured) -> None:
    assert main(["choose", str(build)]) == 0
    out = capsys.readouterr().out
    assert "Crate hauler on trial" in out
    assert "printed length of the traction belt" in " ".join(out.split())
    assert "Why the others are out" in out
    assert "is too short to go round" in out


def test_json_holds_every_option(build: Path, capsys: Captured) -> None:
    assert main(["choose", str(build), "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["format"] == 1
    assert data["finished"] is True
    assert data["disposed"] == data["candidates"]
    assert data["options"][0]["number"] == 1
    costs = [each["merits"]["cost"] for each in data["options"]]
    assert costs == sorted(costs)


def test_it_ranks_by_what_is_asked_for(build: Path, capsys: Captured) -> None:
    assert main(["choose", str(build), "--json", "--by", "clearance"]) == 0
    data = json.loads(capsys.readouterr().out)
    gaps = [each["merits"]["clearance"] for each in data["options"]]
    assert gaps == sorted(gaps, reverse=True)


def test_apply_writes_a_copy_that_the_review_agrees_with(build: Path, capsys: Captured) -> None:
    before = build.read_bytes()
    assert main(["choose", str(build), "--json"]) == 0
    first = json.loads(capsys.readouterr().out)["options"][0]
    assert main(["choose", str(build), "--apply", "1"]) == 0
    assert build.read_bytes() == before
    copy = build.with_name("hauler-option-1.toml")
    assert copy.read_text(encoding="utf-8").startswith("# A small build to choose parts for.")
    total = review(read_build(copy), samples=0).finding("money.total")
    assert total is not None
    assert total.value == pytest.approx(first["merits"]["cost"], rel=1e-12)


@pytest.mark.parametrize(
    ("arguments", "says"), [(["--apply", "999"], "no option 999"), (["--apply", "0"], "no option")]
)
def test_an_option_that_is_not_there(
    build: Path, capsys: Captured, arguments: list[str], says: str
) -> None:
    assert main(["choose", str(build), *arguments]) == 2
    assert says in capsys.readouterr().err


def test_a_build_that_leaves_nothing_open(build: Path, capsys: Captured) -> None:
    build.write_text(SMALL.read_text(encoding="utf-8"), encoding="utf-8")
    assert main(["choose", str(build)]) == 2
    assert "[[choose.vary]]" in capsys.readouterr().err


def test_nothing_fits_gives_exit_code_1(build: Path, capsys: Captured) -> None:
    text = build.read_text(encoding="utf-8").replace('"70 EUR"', '"12 EUR"')
    build.write_text(text, encoding="utf-8")
    assert main(["choose", str(build)]) == 1
    assert "Budget: allow" in capsys.readouterr().out


def test_ctrl_c_gives_the_best_so_far(build: Path) -> None:
    build.write_text(SMALL.read_text(encoding="utf-8") + MANY, encoding="utf-8")
    started = subprocess.Popen(
        [*COMMAND, "choose", str(build), "--json", "--processes", "1"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    )
    # long enough to be searching, far from enough to finish
    time.sleep(4.0)
    assert started.poll() is None
    started.send_signal(signal.SIGINT)
    out, _ = started.communicate(timeout=60)
    data = json.loads(out)
    assert data["finished"] is False
    assert 0 < data["disposed"] < data["candidates"]

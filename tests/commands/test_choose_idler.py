"""`beltwright choose --idler-for` from the command line."""

import json
from pathlib import Path

import pytest

from beltwright.build.reading import read_build
from beltwright.cli import main
from beltwright.options import new_idler
from beltwright.review.finding import Verdict
from beltwright.review.review import review

SMALL = Path(__file__).parents[1] / "options" / "small_build.toml"
FREE = '["560 mm", "98 mm"], ["590 mm", "98 mm"], ["590 mm", "128 mm"], ["560 mm", "128 mm"]'
IN_THE_WAY = '["560 mm", "72 mm"], ["590 mm", "72 mm"], ["590 mm", "102 mm"], ["560 mm", "102 mm"]'
LEVER = "clearance.traction belt.shift lever"
BELT = ["--idler-for", "traction belt"]

Captured = pytest.CaptureFixture[str]


@pytest.fixture
def build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A build whose belt rubs on the shift lever; looked at in coarse steps, to be quick."""
    defaults = new_idler.new_idler.__defaults__
    assert defaults is not None
    coarse = (*defaults[:-3], 0.012, 50, None)
    monkeypatch.setattr(new_idler.new_idler, "__defaults__", coarse)
    path = tmp_path / "hauler.toml"
    path.write_text(SMALL.read_text(encoding="utf-8").replace(FREE, IN_THE_WAY), encoding="utf-8")
    return path


def test_it_tells_places_what_they_mend_and_where_nothing_helps(
    build: Path, capsys: Captured
) -> None:
    assert main(["choose", str(build), *BELT]) == 0
    out = " ".join(capsys.readouterr().out.split())
    for said in (
        "76 mm over its rim (assumed, a common one)",
        "Past its limit now: Room between the traction belt and the shift lever",
        "1 After the guide idler, before the engine pulley",
        "the hole may be",
        "mends: Room between the traction belt and the shift lever (stop → sound)",
        "Where nothing helps Between the engine pulley and the clutch idler, on either side",
        "guard the new place before the engine starts",
    ):
        assert said in out


def test_apply_writes_a_copy_in_which_nothing_rubs(build: Path, capsys: Captured) -> None:
    before = build.read_bytes()
    assert main(["choose", str(build), *BELT, "--json"]) == 0
    first = json.loads(capsys.readouterr().out)["places"][0]
    assert LEVER in {turn["id"] for turn in first["mends"]}
    assert main(["choose", str(build), *BELT, "--apply", "1"]) == 0
    assert build.read_bytes() == before
    copy = build.with_name("hauler-idler-1.toml")
    assert copy.read_text(encoding="utf-8").startswith("# A small build to choose parts for.")
    written = read_build(copy)
    assert written.belt[0].length.text == first["belt"]["length"]
    assert written.belt[0].run[4] == written.idler[-1].name == "new idler"
    found = review(written, samples=0).finding(LEVER)
    assert found is not None
    assert found.verdict is not Verdict.STOP


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ([*BELT, "--apply", "99"], "no place 99"),
        ([*BELT, "--outside", "wide"], "wide"),
        (["--idler-for", "fan belt"], 'there are: "traction belt"'),
    ],
)
def test_what_is_not_there(build: Path, capsys: Captured, arguments: list[str], says: str) -> None:
    assert main(["choose", str(build), *arguments]) == 2
    assert says in capsys.readouterr().err


def test_nothing_helps_gives_exit_code_1(
    build: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(new_idler, "LEAST", 1.0)
    assert main(["choose", str(build), *BELT]) == 1
    out = " ".join(capsys.readouterr().out.split())
    assert "no place helps" in out
    assert "only strips too narrow to drill in" in out


def test_ctrl_c_gives_the_best_so_far(
    build: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("beltwright.options.new_idler.turns", interrupted)
    main(["choose", str(build), *BELT, "--json"])
    assert json.loads(capsys.readouterr().out)["finished"] is False


def test_what_lies_in_the_bin_need_not_be_bought(build: Path, capsys: Captured) -> None:
    text = build.read_text(encoding="utf-8")
    part = '\n[[part]]\nname = "deck idler"\nkind = "idler"\noutside = "76 mm"\nsection = "A"\n'
    build.write_text(f"{text}{part}have = true\n", encoding="utf-8")
    assert main(["choose", str(build), *BELT]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "(the deck idler in the bin)" in out
    assert "to buy: belt" in out

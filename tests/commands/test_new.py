"""`beltwright new` and the help."""

import subprocess
import sys
from pathlib import Path

import pytest

from beltwright.cli import COMMANDS, main

Captured = pytest.CaptureFixture[str]


def test_new_writes_the_starter_and_says_what_next(tmp_path: Path, capsys: Captured) -> None:
    path = tmp_path / "mine.toml"
    assert main(["new", str(path)]) == 0
    assert f"beltwright check {path}" in capsys.readouterr().out
    assert main(["check", str(path), "--nominal"]) == 0


def test_new_leaves_a_file_alone(tmp_path: Path, capsys: Captured) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("mine", encoding="utf-8")
    assert main(["new", str(path)]) == 2
    assert path.read_text() == "mine"
    assert "left alone" in capsys.readouterr().err


def test_new_makes_the_folder(tmp_path: Path) -> None:
    assert main(["new", str(tmp_path / "carts" / "mine.toml")]) == 0
    assert (tmp_path / "carts" / "mine.toml").is_file()


def test_new_where_nothing_can_be_written(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "a file").write_text("mine", encoding="utf-8")
    assert main(["new", str(tmp_path / "a file" / "mine.toml")]) == 2
    told = capsys.readouterr().err
    assert "could not be saved" in told
    assert "Nothing was written" in told


def test_new_in_place_of_a_folder(tmp_path: Path, capsys: Captured) -> None:
    assert main(["new", str(tmp_path)]) == 2
    assert f"Name the file in it: {tmp_path / 'mine.toml'}" in capsys.readouterr().err
    assert not tmp_path.with_suffix(".toml").exists()


def test_a_stop_while_it_loads_is_no_traceback(
    monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    def stopped(_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("beltwright.cli._parser", stopped)
    assert main(["check", "mine.toml"]) == 130
    assert capsys.readouterr().err == "Stopped.\n"


def test_help_names_every_command(capsys: Captured) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["--help"])
    assert ended.value.code == 0
    out = capsys.readouterr().out
    assert all(name in out for name in COMMANDS)


def test_no_command_is_told(capsys: Captured) -> None:
    with pytest.raises(SystemExit) as ended:
        main([])
    assert ended.value.code == 2
    assert "COMMAND" in capsys.readouterr().err


def test_help_loads_nothing_heavy() -> None:
    script = (
        "import sys\n"
        "from beltwright.cli import main\n"
        "try:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        "heavy = {'numpy', 'pydantic', 'rich', 'tomlkit', 'scipy'} & set(sys.modules)\n"
        "sys.exit(f'loaded {heavy}' if heavy else 0)\n"
    )
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, check=False)
    assert run.returncode == 0, run.stderr.decode()

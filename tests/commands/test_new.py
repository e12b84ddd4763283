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


def test_new_where_nothing_can_be_written(tmp_path: Path, capsys: Captured) -> None:
    assert main(["new", str(tmp_path / "no folder" / "mine.toml")]) == 2
    assert "could not be saved" in capsys.readouterr().err


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

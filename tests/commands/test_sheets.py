"""`beltwright sheets` writes the shop sheets."""

from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from beltwright.cli import main
from beltwright.sheets.binder import SHEETS

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"


@pytest.mark.parametrize(("paper", "size"), [("A4", {595, 842}), ("Letter", {612, 792})])
def test_the_sheets_come_on_the_paper_asked_for(tmp_path: Path, paper: str, size: set[int]) -> None:
    assert main(["sheets", str(EXAMPLE), "-o", str(tmp_path), "--paper", paper]) == 0
    names = sorted(file.name for file in tmp_path.iterdir())
    assert set(names) == {f"orchard-hauler-{sheet}.pdf" for sheet in SHEETS}
    for name in names:
        for page in PdfReader(BytesIO((tmp_path / name).read_bytes())).pages:
            assert {round(float(side)) for side in page.mediabox[2:]} == size


@pytest.mark.parametrize(("length", "size"), [("mm", {595, 842}), ("in 1/16", {612, 792})])
@pytest.mark.parametrize("command", ["sheets", "draw"])
def test_who_measures_in_inches_has_letter_in_the_printer(
    tmp_path: Path, command: str, length: str, size: set[int]
) -> None:
    build, folder = tmp_path / "cart.toml", tmp_path / "paper"
    text = EXAMPLE.read_text(encoding="utf-8")
    build.write_text(f'{text}\n[show]\nlength = "{length}"\n', encoding="utf-8")
    folder.mkdir()
    place = folder if command == "sheets" else folder / "layout.pdf"
    assert main([command, str(build), "-o", str(place)]) == 0
    for path in folder.iterdir():
        page = PdfReader(BytesIO(path.read_bytes())).pages[0]
        assert {round(float(side)) for side in page.mediabox[2:]} == size


def test_the_layout_sheet_tells_where_an_idler_may_stand(tmp_path: Path) -> None:
    arguments = ["sheets", str(EXAMPLE), "-o", str(tmp_path), "--idler", "guide idler"]
    assert main(arguments) == 0
    pages = PdfReader(BytesIO((tmp_path / "orchard-hauler-belt-layout.pdf").read_bytes())).pages
    words = " ".join(page.extract_text() for page in pages)
    assert "Where the guide idler may stand" in words

"""Draws the pictures of the handbook from the examples: layouts, charts and sheets."""

from io import BytesIO
from pathlib import Path

import pypdfium2

from beltwright.build.model import Build
from beltwright.build.reading import read_build
from beltwright.drawing.charts import chart_svg
from beltwright.drawing.svg import svg
from beltwright.review.case import Case
from beltwright.review.review import SAMPLES, review
from beltwright.sheets.binder import shop_sheets
from beltwright.views.charts.gathered import charts
from beltwright.views.layout.belt_layout import belt_layout_pages

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "examples"
PICTURES = ROOT / "docs" / "pictures"
CHARTED = "orchard-hauler"
"""The example whose charts and sheets are shown; of the others only the layout is."""

DRAWN_ON = "2031-05-04"
"""A fixed date, so that the same examples give the same pictures."""

SHEETS_SHOWN = {"belt-layout": 4, "review": 2}
"""How many pages of each sheet are shown."""

DPI = 100


def main() -> None:
    """Draw everything and say what was drawn."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    for path in sorted(EXAMPLES.glob("*/build.toml")):
        name, build = path.parent.name, read_build(path)
        _layouts(name, build)
        if name == CHARTED:
            _charts(name, build)
            _sheets(name, build)


def _layouts(name: str, build: Build) -> None:
    pages = belt_layout_pages(Case(build), review(build), DRAWN_ON)
    for number, page in enumerate(pages, start=1):
        ending = "" if number == 1 else f"-{number}"
        _write(f"{name}-belt-layout{ending}.svg", svg(page).encode())


def _charts(name: str, build: Build) -> None:
    drawn, _ = charts(Case(build, SAMPLES))
    for chart, data in drawn.items():
        _write(f"{name}-chart-{chart}.svg", chart_svg(data).encode())


def _sheets(name: str, build: Build) -> None:
    sheets = shop_sheets(build, DRAWN_ON)
    for sheet, shown in SHEETS_SHOWN.items():
        document = pypdfium2.PdfDocument(sheets[sheet])
        for number in range(min(shown, len(document))):
            picture = document[number].render(scale=DPI / 72).to_pil().convert("P")
            out = BytesIO()
            picture.save(out, "PNG", optimize=True)
            _write(f"{name}-sheet-{sheet}-{number + 1}.png", out.getvalue())
        document.close()


def _write(name: str, data: bytes) -> None:
    path = PICTURES / name
    path.write_bytes(data)
    print(f"{path.relative_to(ROOT)}, {len(data) / 1024:.0f} kB")


if __name__ == "__main__":
    main()

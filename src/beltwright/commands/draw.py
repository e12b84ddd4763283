"""`beltwright draw BUILD`: the belt layout to scale as SVG or PDF, or as DXF at true size."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from beltwright.build.model import Build
    from beltwright.drawing.ink import Page
    from beltwright.drawing.shapes import Scene
    from beltwright.options.idler_place import IdlerMap
    from beltwright.review.case import Case

ENDINGS = (".svg", ".pdf", ".dxf")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    parser.add_argument("build", metavar="BUILD", help="the build file")
    parser.add_argument(
        "-o",
        metavar="FILE",
        dest="file",
        help="where to write the drawing: .svg, .pdf, or .dxf for a cutting table; beside you by "
        "default",
    )
    parser.add_argument(
        "--paper",
        choices=("A4", "A3", "Letter"),
        help="the sheet to draw on; Letter for a build in inches, else A4, if left out",
    )
    parser.add_argument(
        "--idler", metavar="NAME", help="hatch every place where this idler may stand"
    )
    parser.add_argument(
        "--plate", metavar="NAME", help="draw this plate at true size in place of the belt layout"
    )


def run(given: argparse.Namespace) -> int:
    """Draw the build, or one of its plates, and say where the drawing went."""
    from beltwright.build.errors import BuildFileError
    from beltwright.build.reading import read_build

    path = Path(given.file) if given.file else _beside_you(given)
    ending = path.suffix.lower()
    if ending not in ENDINGS:
        raise BuildFileError(f"{path}: a drawing is written as .svg, .pdf or .dxf. Name it so.")
    build = read_build(given.build)
    if given.plate is None and not build.belt:
        raise BuildFileError(
            f"{given.build}: there is no belt to draw. Describe its shafts, pulleys and the "
            "[[belt]] that goes round them; beltwright new FILE writes a starter that shows how."
        )
    if ending == ".dxf":
        written = _written(path, _contours(build, given))
    else:
        written = _written(path, _sheets(build, given, ending))
    sys.stdout.write("".join(f"Drawn: {place}\n" for place in written))
    return 0


def _beside_you(given: argparse.Namespace) -> Path:
    """A file named after the build, and after the plate where one is drawn."""
    from beltwright.commands.writing import name_after

    plate = "" if given.plate is None else f"-{given.plate.replace(' ', '-')}"
    return Path(f"{name_after(Path(given.build))}{plate}.svg")


def _written(path: Path, drawings: Sequence[bytes]) -> list[Path]:
    """Write one file a drawing."""
    from beltwright.commands.writing import write_whole

    places = _places(path, len(drawings))
    return [write_whole(place, data) for place, data in zip(places, drawings, strict=True)]


def _contours(build: Build, given: argparse.Namespace) -> list[bytes]:
    """The lines at true size, in millimetres."""
    from beltwright.drawing.dxf import dxf
    from beltwright.review.case import Case

    case = Case(build)
    if given.plate is not None:
        return [dxf(_plate_scene(case, given))]
    from beltwright.sheets.belt_layout_sheet import true_size_scenes

    return [dxf(scene) for scene in true_size_scenes(case, _idler_map(build, given))]


def _sheets(build: Build, given: argparse.Namespace, ending: str) -> list[bytes]:
    """Sheets of paper: one document, or a picture of each."""
    from beltwright.drawing.pdf import pdf
    from beltwright.drawing.svg import svg

    pages = _pages(build, given)
    if ending == ".pdf":
        return [pdf(pages, build.name)]
    return [svg(page).encode() for page in pages]


def _pages(build: Build, given: argparse.Namespace) -> list[Page]:
    from datetime import date

    from beltwright.drawing.sheet import PAPERS
    from beltwright.drawing.tile_pages import true_size_pages
    from beltwright.review.case import Case

    case = Case(build)
    paper = PAPERS[given.paper or case.units.paper()]
    if given.plate is not None:
        return true_size_pages(_plate_scene(case, given), paper)
    from beltwright.review.review import review
    from beltwright.views.layout.belt_layout import belt_layout_pages

    made_on = date.today().isoformat()
    return belt_layout_pages(case, review(build), made_on, paper, _idler_map(build, given))


def _idler_map(build: Build, given: argparse.Namespace) -> IdlerMap | None:
    from beltwright.options.idler_place import places_of

    return None if given.idler is None else places_of(build, given.idler)


def _plate_scene(case: Case, given: argparse.Namespace) -> Scene:
    """The plate that was asked for, at true size."""
    from beltwright.build.errors import BuildFileError
    from beltwright.review.case import NotKnownError
    from beltwright.views.plate_drawing import plate_scene

    plates = {plate.name: plate for plate in case.build.plate}
    if given.plate not in plates:
        there = ", ".join(repr(name) for name in plates) or "none yet"
        raise BuildFileError(
            f"{given.build}: there is no plate {given.plate!r}. There are: {there}."
        )
    try:
        return plate_scene(case, plates[given.plate])
    except NotKnownError as missing:
        raise BuildFileError(f"{given.build}: {missing}") from missing


def _places(path: Path, count: int) -> list[Path]:
    """One file a view: the name as given, then with -2, -3, …"""
    more = [path.with_name(f"{path.stem}-{number}{path.suffix}") for number in range(2, count + 1)]
    return [path, *more]

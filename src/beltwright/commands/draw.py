"""`beltwright draw BUILD`: the belt layout to scale, as SVG or PDF."""

import argparse
import sys
from pathlib import Path

ENDINGS = (".svg", ".pdf")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    parser.add_argument("build", metavar="BUILD", help="the build file")
    parser.add_argument(
        "-o",
        metavar="FILE",
        dest="file",
        help="where to write the drawing, .svg or .pdf; beside you by default",
    )
    parser.add_argument(
        "--paper", choices=("A4", "A3", "Letter"), default="A4", help="the sheet to draw on"
    )
    parser.add_argument(
        "--idler", metavar="NAME", help="hatch every place where this idler may stand"
    )


def run(given: argparse.Namespace) -> int:
    """Draw the build and say where the drawing went."""
    from datetime import date

    from beltwright.build.errors import BuildFileError
    from beltwright.build.reading import read_build
    from beltwright.commands.writing import name_after, write_whole
    from beltwright.drawing.pdf import pdf
    from beltwright.drawing.sheet import PAPERS
    from beltwright.drawing.svg import svg
    from beltwright.options.idler_place import places_of
    from beltwright.review.case import Case
    from beltwright.review.review import review
    from beltwright.views.belt_layout import belt_layout_pages

    path = Path(given.file) if given.file else Path(f"{name_after(Path(given.build))}.svg")
    if path.suffix.lower() not in ENDINGS:
        raise BuildFileError(f"{path}: a drawing is written as .svg or .pdf. Name it so.")
    build = read_build(given.build)
    if not build.belt:
        raise BuildFileError(
            f"{given.build}: there is no belt to draw. Describe its shafts, pulleys and the "
            "[[belt]] that goes round them; beltwright new FILE writes a starter that shows how."
        )
    pages = belt_layout_pages(
        Case(build),
        review(build),
        date.today().isoformat(),
        PAPERS[given.paper],
        None if given.idler is None else places_of(build, given.idler),
    )
    if path.suffix.lower() == ".pdf":
        written = [write_whole(path, pdf(pages, build.name))]
    else:
        written = [
            write_whole(place, svg(page).encode())
            for place, page in zip(_places(path, len(pages)), pages, strict=True)
        ]
    sys.stdout.write("".join(f"Drawn: {place}\n" for place in written))
    return 0


def _places(path: Path, count: int) -> list[Path]:
    """One file a view: the name as given, then with -2, -3, …"""
    more = [path.with_name(f"{path.stem}-{number}{path.suffix}") for number in range(2, count + 1)]
    return [path, *more]

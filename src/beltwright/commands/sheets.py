"""`beltwright sheets BUILD`: the belt layout at true size and the review, as PDF."""

import argparse
import sys
from pathlib import Path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    parser.add_argument("build", metavar="BUILD", help="the build file")
    parser.add_argument(
        "-o", metavar="DIR", dest="folder", default=".", help="folder to write the sheets to"
    )
    parser.add_argument(
        "--paper",
        choices=("A4", "Letter"),
        help="the paper in the printer; Letter for a build in inches, else A4, if left out",
    )
    parser.add_argument(
        "--idler", metavar="NAME", help="hatch every place where this idler may stand"
    )


def run(given: argparse.Namespace) -> int:
    """Write every sheet and say where it went."""
    from datetime import date

    from beltwright.build.reading import read_build
    from beltwright.build.walking import units_of
    from beltwright.commands.writing import name_after, write_whole
    from beltwright.drawing.sheet import PAPERS
    from beltwright.sheets.binder import shop_sheets

    build = read_build(given.build)
    paper = PAPERS[given.paper or units_of(build).paper()]
    sheets = shop_sheets(build, date.today().isoformat(), paper, given.idler)
    stem = name_after(Path(given.build))
    for name, data in sheets.items():
        path = write_whole(Path(given.folder) / f"{stem}-{name}.pdf", data)
        sys.stdout.write(f"Written: {path}\n")
    sys.stdout.write("Print at actual size and lay a rule on the rulers before you cut.\n")
    return 0

"""`beltwright chart BUILD [NAME…]`: charts as SVG or PNG."""

import argparse
import sys
from pathlib import Path

UNKNOWN_NAME = 2


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    parser.add_argument("build", metavar="BUILD", help="the build file")
    parser.add_argument(
        "names", metavar="NAME", nargs="*", help="which charts; all of them by default"
    )
    parser.add_argument(
        "-o", metavar="DIR", dest="folder", default=".", help="folder to write the charts to"
    )
    parser.add_argument("--png", action="store_true", help="write PNG pictures in place of SVG")


def run(given: argparse.Namespace) -> int:
    """Draw the charts; say what has to be measured for those that cannot be drawn."""
    from beltwright.build.reading import read_build
    from beltwright.commands.writing import name_after, write_whole
    from beltwright.drawing.charts import chart_png, chart_svg
    from beltwright.review.case import Case
    from beltwright.review.review import SAMPLES
    from beltwright.views.charts.gathered import CHARTS, charts

    unknown = [name for name in given.names if name not in CHARTS]
    if unknown:
        sys.stderr.write(f"No chart is called {unknown[0]}. There are: {', '.join(CHARTS)}.\n")
        return UNKNOWN_NAME
    drawn, missing = charts(Case(read_build(given.build), SAMPLES), given.names)
    ending = "png" if given.png else "svg"
    for name, chart in drawn.items():
        data = chart_png(chart) if given.png else chart_svg(chart).encode()
        path = Path(given.folder) / f"{name_after(Path(given.build))}-{name}.{ending}"
        sys.stdout.write(f"Drawn: {write_whole(path, data)}\n")
    for name, how in missing.items():
        sys.stdout.write(f"Not drawn: {name}. {how}\n")
    return 0

"""`beltwright choose BUILD`: what else could be bolted on, and which of it fits best."""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from beltwright.commands.copying import write_copy

if TYPE_CHECKING:
    from beltwright.build.errors import BuildFileError
    from beltwright.build.model import Build
    from beltwright.build.shop import Part
    from beltwright.options.option import Choice
    from beltwright.options.outcome import Outcome
    from beltwright.options.progress import Progress

TOP = 8
NOTHING_FITS = 1
MERITS = ("cost", "parts", "overspeed", "grip", "clearance")
"""The names in options/merit.py, here without loading it, so that help stays quick."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    parser.add_argument("build", metavar="BUILD", help="the build file, with its [[choose.vary]]")
    parser.add_argument("--json", action="store_true", help="write the outcome as JSON, in SI")
    parser.add_argument("--top", type=int, default=TOP, metavar="N", help="how many to show")
    parser.add_argument(
        "--by", choices=MERITS, default=MERITS[0], help="what to rank by before the others"
    )
    parser.add_argument(
        "--apply", type=int, metavar="N", help="write option N into a copy of the build file"
    )
    parser.add_argument(
        "--idler-for", metavar="BELT", help="look where one more idler helps this belt instead"
    )
    parser.add_argument(
        "--outside",
        default="",
        metavar="DIAMETER",
        help="of that idler; one in the bin or a common one if left out",
    )
    parser.add_argument(
        "-o", "--output", metavar="FILE", help="the copy; beside the build file if left out"
    )
    parser.add_argument(
        "--processes", type=int, metavar="N", help="processes for long searches; one a core"
    )


def run(given: argparse.Namespace) -> int:
    """Search; 1 where nothing fits."""
    if given.idler_for is not None:
        from beltwright.commands.choose_idler import run_idler

        return run_idler(given)
    from beltwright.options.offering import choices
    from beltwright.options.search import search

    build, prices = _read(Path(given.build))
    found = choices(build, prices)
    if not found:
        raise _nothing_left_open(given.build)
    watched = sys.stderr.isatty()
    outcome = search(
        build,
        found,
        report=_tell if watched else lambda _: None,
        processes=given.processes or os.cpu_count() or 1,
        by=given.by,
    )
    if watched:
        sys.stderr.write("\r\033[K")
    if given.apply is not None:
        return _apply(given, build, found, outcome)
    if given.json:
        _write_json(outcome, build)
    else:
        from beltwright.views.options_table import print_options

        print_options(outcome, build, given.build, given.top)
    return 0 if outcome.found else NOTHING_FITS


def _read(file: Path) -> "tuple[Build, tuple[Part, ...]]":
    """The build, and the price list that it names or the starter's."""
    from beltwright.build.reading import read_build
    from beltwright.options.price_list import prices_for

    build = read_build(file)
    return build, prices_for(build, file.parent)


def _nothing_left_open(file: str) -> "BuildFileError":
    from beltwright.build.errors import BuildFileError

    return BuildFileError(
        f"{file}: nothing is left open. Add a [[choose.vary]] table, for example with "
        'of = "engine pulley", what = "outside", prices = true.'
    )


def _tell(progress: "Progress") -> None:
    """Show how far the search is on one line."""
    left = progress.seconds_left
    wait = "" if left is None else f", {left:.0f} s left"
    sys.stderr.write(
        f"\r\033[K{progress.disposed:,} of {progress.candidates:,} candidates, "
        f"{progress.rate:,.0f} a second{wait}, {progress.fitting} stand out. Ctrl-C gives the best."
    )
    sys.stderr.flush()


def _write_json(outcome: "Outcome", build: "Build") -> None:
    import json

    from beltwright.options.output import outcome_data

    text = json.dumps(outcome_data(outcome, build.name), ensure_ascii=False, indent=2)
    sys.stdout.write(f"{text}\n")


def _apply(
    given: argparse.Namespace, build: "Build", found: "Sequence[Choice]", outcome: "Outcome"
) -> int:
    from beltwright.build.errors import BuildFileError
    from beltwright.options.applying import applied

    if not 1 <= given.apply <= len(outcome.found):
        raise BuildFileError(
            f"There is no option {given.apply}: {len(outcome.found)} stand out. Look at them "
            f"first with beltwright choose {given.build}."
        )
    chosen = outcome.found[given.apply - 1].candidate
    copy = write_copy(
        given,
        f"option-{given.apply}",
        lambda text: applied(text, build, found, chosen),
        f"option {given.apply} of {Path(given.build).name}",
    )
    sys.stdout.write(
        f"Option {given.apply} is written to {copy}. Review it: beltwright check {copy}\n"
    )
    return 0

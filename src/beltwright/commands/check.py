"""`beltwright check BUILD`: the review, on the screen, as JSON, or one finding with its working."""

import argparse
import sys


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    parser.add_argument("build", metavar="BUILD", help="the build file")
    shown = parser.add_mutually_exclusive_group()
    shown.add_argument("--json", action="store_true", help="write the findings as JSON, in SI")
    shown.add_argument("--why", metavar="ID", help="show one finding with its working and source")
    parser.add_argument(
        "--nominal", action="store_true", help="leave the tolerances out: quicker, no ranges"
    )


def run(given: argparse.Namespace) -> int:
    """Review the build; 1 where something says stop."""
    from beltwright.build.reading import read_build
    from beltwright.review.finding import Verdict
    from beltwright.review.review import SAMPLES, review

    found = review(read_build(given.build), 0 if given.nominal else SAMPLES)
    if given.json:
        from beltwright.review.output import json_text

        sys.stdout.write(json_text(found))
    elif given.why:
        from beltwright.views.why import print_why

        return print_why(found, given.why)
    else:
        from beltwright.views.report import print_report

        print_report(found, given.build)
    return 1 if found.count(Verdict.STOP) else 0

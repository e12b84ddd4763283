"""`beltwright new FILE`: a starter build file that explains itself."""

import argparse
import sys
from pathlib import Path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    parser.add_argument("file", metavar="FILE", help="the build file to write, such as mine.toml")


def run(given: argparse.Namespace) -> int:
    """Write the starter where no file stands yet."""
    from beltwright.build.starter import write_starter

    path = write_starter(Path(given.file))
    sys.stdout.write(
        f"Written: {path}\n"
        "It is a whole small machine. Put your own numbers in place of its numbers, table by\n"
        "table, and check after each:\n\n"
        f"  beltwright check {path}\n"
    )
    return 0

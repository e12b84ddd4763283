"""`beltwright choose BUILD --idler-for BELT`: where one more idler helps a belt."""

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from beltwright.commands.copying import write_copy

if TYPE_CHECKING:
    from beltwright.build.errors import BuildFileError
    from beltwright.build.model import Build
    from beltwright.options.idler_offer import Going, NewIdler

NOTHING_HELPS = 1


def run_idler(given: argparse.Namespace) -> int:
    """Look for places; 1 where nothing helps."""
    from beltwright.build.reading import read_build

    build = read_build(Path(given.build))
    found = _searched(given, build)
    if given.apply is not None:
        return _apply(given, build, found)
    if given.json:
        _write_json(found, build)
    else:
        from beltwright.views.new_idler import print_places

        print_places(found, build, given.build, given.top)
    return 0 if found.offers else NOTHING_HELPS


def _searched(given: argparse.Namespace, build: "Build") -> "NewIdler":
    from beltwright.build.errors import BuildFileError
    from beltwright.options.new_idler import new_idler

    if given.idler_for not in [belt.name for belt in build.belt]:
        raise _no_such_belt(given.idler_for, build)
    watched = sys.stderr.isatty()
    try:
        found = new_idler(
            build, given.idler_for, given.outside, report=_tell if watched else lambda _: None
        )
    except ValueError as refused:
        raise BuildFileError(f"--outside {given.outside}: {refused}") from None
    if watched:
        sys.stderr.write("\r\033[K")
    return found


def _no_such_belt(name: str, build: "Build") -> "BuildFileError":
    from beltwright.build.errors import BuildFileError

    there = ", ".join(f'"{belt.name}"' for belt in build.belt) or "none"
    return BuildFileError(f"There is no belt called {name!r}; there are: {there}.")


def _tell(going: "Going") -> None:
    """Show how far the search is on one line."""
    so_far = "1 place" if going.found == 1 else f"{going.found} places"
    sys.stderr.write(
        f"\r\033[K{going.share:.0%}, after the {going.way.after}: {so_far} so far. "
        "Ctrl-C gives the best."
    )
    sys.stderr.flush()


def _write_json(found: "NewIdler", build: "Build") -> None:
    import json

    from beltwright.options.idler_output import new_idler_data

    text = json.dumps(new_idler_data(found, build.name), ensure_ascii=False, indent=2)
    sys.stdout.write(f"{text}\n")


def _apply(given: argparse.Namespace, build: "Build", found: "NewIdler") -> int:
    from beltwright.build.errors import BuildFileError
    from beltwright.options.idler_output import text_with_idler

    if not 1 <= given.apply <= len(found.offers):
        raise BuildFileError(
            f"There is no place {given.apply}: {len(found.offers)} were found. Look at them first "
            f'with beltwright choose {given.build} --idler-for "{given.idler_for}".'
        )
    offer = found.offers[given.apply - 1]
    copy = write_copy(
        given,
        f"idler-{given.apply}",
        lambda text: text_with_idler(text, build, found, offer),
        f"{Path(given.build).name} with one more idler",
    )
    sys.stdout.write(f"The idler is written into {copy}. Review it: beltwright check {copy}\n")
    return 0

"""`beltwright measure WHAT …`: a recording, a track, counts and readings to values with their ±."""

import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from beltwright.build.toml_writing import Value
    from beltwright.commands.measured_values import Found
    from beltwright.quantity import Units

NOT_MEASURED = 2
BEGUN = ("drive", "ground")
"""Tables whose rows are begun by what is measured of them."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    kinds = parser.add_subparsers(metavar="WHAT", required=True)
    for name, summary, describe, find in _KINDS:
        kind = kinds.add_parser(name, help=summary, description=f"{summary.capitalize()}.")
        describe(kind)
        kind.set_defaults(find=find)
        kind.add_argument(
            "--into", metavar="BUILD", help="write it into this build file; comments are kept"
        )
        kind.add_argument(
            "--as",
            metavar="KEY",
            dest="keys",
            action="append",
            default=[],
            help="where it is to stand, such as engine.idle",
        )


def run(given: argparse.Namespace) -> int:
    """Find the values, show them, and write those that were asked for."""
    from beltwright.measure.refusal import NotMeasuredError

    if bool(given.into) != bool(given.keys):
        sys.stderr.write("Say both where to write and as what: --into BUILD --as KEY.\n")
        return NOT_MEASURED
    try:
        found = given.find(given)
        units = _units(given.into)
        for one in found:
            _show(one, units)
        if given.into:
            _put_in(given, found, units)
    except NotMeasuredError as refused:
        sys.stderr.write(f"{refused}\n")
        return NOT_MEASURED
    return 0


def _units(build: str | None) -> "Units":
    """The builder's units where there is a build, else the usual ones."""
    from beltwright.quantity import Units

    if build is None:
        return Units()
    from beltwright.build.reading import read_build
    from beltwright.build.walking import units_of

    return units_of(read_build(build))


def _show(found: "Found", units: "Units") -> None:
    """The value as it is to stand in the build file, how it was found, and what to know of it."""
    from beltwright.build.toml_writing import toml_of

    if found.value(units) != "":
        shown = toml_of(found.value(units))
        line = f"{found.ends[0]} = {shown}" if len(found.ends) == 1 else shown.strip('"')
        sys.stdout.write(f"{found.title}: {line}\n")
    else:
        sys.stdout.write(f"{found.title}: not known.\n")
    told = [found.measured.how, *found.measured.notes] if found.measured else []
    for sentence in [*told, found.note]:
        if sentence:
            sys.stdout.write(f"    {sentence}\n")


def _put_in(given: argparse.Namespace, found: "Sequence[Found]", units: "Units") -> None:
    """Write what was asked for into the build file, all of it or none."""
    from beltwright.build.saving import open_text, save
    from beltwright.measure.refusal import NotMeasuredError

    path = Path(given.into)
    text, seen = open_text(path)
    for key in given.keys:
        one = _for_key(key, found)
        try:
            text = _with(text, key, one.value(units))
        except (KeyError, IndexError, TypeError, ValueError):
            raise NotMeasuredError(
                f"There is no place {key} in {path}. Add its table first. Nothing was written."
            ) from None
    save(path, text, seen, f"measured: {', '.join(given.keys)}")
    sys.stdout.write(f"Written to {path}: {', '.join(given.keys)}. Comments are kept.\n")


def _with(text: str, key: str, value: "Value") -> str:
    """The text with a value at a key; a row that is not there yet begins with its name."""
    import tomllib

    from beltwright.build.editing import add_table, set_value

    table, _, rest = key.partition(".")
    name, _, end = rest.rpartition(".")
    rows = tomllib.loads(text).get(table, []) if table in BEGUN else [{"name": name}]
    if any(row.get("name") == name for row in rows):
        return set_value(text, key, value)
    return add_table(text, table, {"name": name, end: value})


def _for_key(key: str, found: "Sequence[Found]") -> "Found":
    """The value that may stand at a key."""
    from beltwright.measure.refusal import NotMeasuredError

    end = key.rsplit(".", 1)[-1]
    fitting = [one for one in found if end in one.ends]
    if not fitting:
        ends = sorted({each for one in found for each in one.ends})
        known = f"It may stand as {', '.join(ends)}." if ends else "No key of the build takes it."
        raise NotMeasuredError(f"Nothing here belongs at {key}. {known} Nothing was written.")
    if not fitting[0].sure:
        raise NotMeasuredError(f"{fitting[0].note} Nothing was written.")
    return fitting[0]


def _file(name: str) -> Path:
    """A file that is there."""
    if not Path(name).is_file():
        raise argparse.ArgumentTypeError(f"there is no file {name}")
    return Path(name)


def _sound(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", type=_file, help="WAV, FLAC, OGG or MP3")
    parser.add_argument("--cylinders", type=int, default=1, metavar="N", help="1 if left out")
    parser.add_argument("--strokes", type=int, choices=(2, 4), default=4, help="4 if left out")
    parser.add_argument(
        "--about", metavar="SPEED", help="about how fast it ran, to tell one reading from another"
    )


def _find_sound(given: argparse.Namespace) -> "list[Found]":
    from beltwright.commands.measured_values import from_sound

    return from_sound(given.file, given.cylinders, given.strokes, given.about)


def _track(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", type=_file, help="GPX that a phone wrote")


def _find_track(given: argparse.Namespace) -> "list[Found]":
    from beltwright.commands.measured_values import from_track

    return from_track(given.file)


def _turns(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "counts",
        metavar="COUNT",
        nargs="+",
        help='turns of the pulley = turns of the wheel + degrees, a gear each: "20=1+115"',
    )
    parser.add_argument(
        "--belt",
        type=float,
        default=1.0,
        metavar="RATIO",
        help="engine pulley turns for one of the gearbox input, if the engine was turned",
    )
    parser.add_argument(
        "--one-wheel-held",
        action="store_true",
        help="one wheel of an open differential stood still, so the other made double turns",
    )
    parser.add_argument(
        "--mark", metavar="ANGLE", default="5 deg", help="how well the mark is read; 5 deg"
    )


def _find_turns(given: argparse.Namespace) -> "list[Found]":
    from beltwright.commands.measured_values import from_turns, read_as
    from beltwright.quantity import Kind

    chalk = read_as(given.mark, Kind.ANGLE)
    return from_turns(given.counts, given.belt, given.one_wheel_held, chalk)


def _roll_out(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("distance", metavar="DISTANCE", help='with its unit: "7.42 m ± 5 mm"')
    parser.add_argument("--turns", type=float, default=1.0, metavar="N", help="turns of the wheel")


def _find_roll_out(given: argparse.Namespace) -> "list[Found]":
    from beltwright.commands.measured_values import from_roll_out

    return from_roll_out(given.distance, given.turns)


def _coast(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("readings", metavar="T=V", nargs="*", help="time = speed: 5s=9km/h")
    parser.add_argument("--back", metavar="T=V", nargs="+", default=[], help="the same way back")
    parser.add_argument("--track", metavar="FILE", type=_file, help="a GPX file in place of pairs")


def _find_coast(given: argparse.Namespace) -> "list[Found]":
    from beltwright.commands.measured_values import from_coasting

    return from_coasting(given.readings, given.back, given.track)


def _warm_up(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("readings", metavar="T=V", nargs="+", help="time = temperature: 5min=31C")
    parser.add_argument("--air", required=True, metavar="T", help="temperature of the air")
    parser.add_argument("--gear", type=int, metavar="N", help="gear that was driven")
    parser.add_argument("--duty", metavar="SHARE", help="share of full power that it took")


def _find_warm_up(given: argparse.Namespace) -> "list[Found]":
    from beltwright.commands.measured_values import from_warm_up

    return from_warm_up(given.readings, given.air, given.gear, given.duty)


_Describe = Callable[[argparse.ArgumentParser], None]
_Find = Callable[[argparse.Namespace], "list[Found]"]
_KINDS: tuple[tuple[str, str, _Describe, _Find], ...] = (
    ("sound", "engine speed from a recording", _sound, _find_sound),
    ("track", "top speed, stops and slope from a phone's track", _track, _find_track),
    ("turns", "ratios from turns counted by hand", _turns, _find_turns),
    ("roll-out", "rolling circumference from a tape", _roll_out, _find_roll_out),
    ("coast", "rolling drag from a coast-down", _coast, _find_coast),
    ("warm-up", "steady temperature from a warm-up", _warm_up, _find_warm_up),
)

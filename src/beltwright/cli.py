"""The command line: a table of commands, each in its own module."""

import argparse
import gc
import importlib
import os
import sys
import warnings
from collections.abc import Sequence

COMMANDS = {
    "new": "write a starter build file that explains itself",
    "check": "review a build: every finding with its range, limit and verdict",
    "choose": "find other pulleys, belts and tyres that fit, ranked",
    "measure": "turn recordings, tracks and counted turns into values with their ±",
    "draw": "draw the belt layout to scale",
    "sheets": "print the shop sheets at true size",
    "chart": "draw charts: speed by gear, pull, warm-up, turning and slopes",
    "open": "open the builds of a folder in the browser",
}

CANNOT_BE_USED = 2
STOPPED = 130
RARELY = 50_000
"""New objects after which rubbish among them is looked for."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code."""
    _start_quickly()
    given = list(sys.argv[1:] if arguments is None else arguments)
    try:
        parsed = _parser(given[:1]).parse_args(given)
        _never_fail_on_a_letter()
        _keep_warnings_for_tests()
        return _run(parsed)
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)  # noqa: T201
        return STOPPED


def _start_quickly() -> None:
    """Leave out what finds or helps nothing here and takes a fifth of a short command's time.

    What a command loads stays until it ends, so looking through it for rubbish every few hundred
    objects is in vain; the model needs none of the plug-ins that Pydantic looks for in every
    package that is installed; and no matrix here is large enough for more threads than one, which
    would be started with NumPy and then keep a core busy with waiting.
    """
    gc.set_threshold(RARELY)
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")


def _parser(chosen: Sequence[str]) -> argparse.ArgumentParser:
    """Describe the commands; only the chosen one is loaded."""
    parser = argparse.ArgumentParser(
        prog="beltwright",
        description="Plan, check, draw and prove a cart built from scrapped belt-drive machines.",
    )
    commands = parser.add_subparsers(metavar="COMMAND", required=True)
    for name, summary in COMMANDS.items():
        command = commands.add_parser(name, help=summary, description=_sentence(summary))
        if name in chosen:
            module = importlib.import_module(f"beltwright.commands.{name}")
            module.add_arguments(command)
            command.set_defaults(run=module.run)
    return parser


def _sentence(summary: str) -> str:
    """Begin with a capital and end with a full stop."""
    return f"{summary[:1].upper()}{summary[1:]}."


def _run(parsed: argparse.Namespace) -> int:
    """Run the chosen command; tell what is wrong with a file in plain words."""
    from beltwright.build.errors import BuildFileError

    try:
        code: int = parsed.run(parsed)
        sys.stdout.flush()
    except BuildFileError as error:
        print(error, file=sys.stderr)  # noqa: T201
        return CANNOT_BE_USED
    except BrokenPipeError:
        # The reader of the pipe has had enough; nothing more can be said to it.
        _say_no_more()
        return 0
    except OSError as error:
        print(f"This could not be written: {error.strerror or error}.", file=sys.stderr)  # noqa: T201
        _say_no_more()
        return CANNOT_BE_USED
    return code


def _say_no_more() -> None:
    """Let what is still waiting to be written go nowhere."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _keep_warnings_for_tests() -> None:
    """Say nothing of what NumPy warns of: a finding says in words that a number has no answer.

    Python's own switch, as `python -W error`, shows them all the same.
    """
    if not sys.warnoptions:
        warnings.simplefilter("ignore", RuntimeWarning)


def _never_fail_on_a_letter() -> None:
    """Let a terminal that lacks a letter show a question mark instead."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure:
            reconfigure(errors="replace")

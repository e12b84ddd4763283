"""`beltwright open [FOLDER]`: the builds of a folder as a page in the browser."""

import argparse
import sys
from pathlib import Path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    parser.add_argument(
        "folder",
        metavar="FOLDER",
        nargs="?",
        default=".",
        help="the folder with the build files, or one build file; this folder if left out",
    )
    parser.add_argument(
        "--lan",
        action="store_true",
        help="let phones on the local network in, each with a code that is shown here",
    )
    parser.add_argument("--port", type=int, metavar="N", help="listen on this port")
    parser.add_argument(
        "--no-browser", action="store_true", help="print the address and open no browser"
    )


def run(given: argparse.Namespace) -> int:
    """Serve the folder until stopped; 2 where it cannot be served."""
    from beltwright.web.serving import (
        CannotServeError,
        make_server,
        open_browser,
        serve,
        take_place,
    )

    where = Path(given.folder)
    folder = where.parent if where.is_file() else where
    if not folder.is_dir():
        return _refuse(f"There is no folder {given.folder}.")
    try:
        place = take_place(given.lan, given.port)
    except CannotServeError as refused:
        return _refuse(str(refused))

    def way_in() -> str:
        return place.landing(where) if where.is_file() else place.entrance()

    def started() -> None:
        _say(_words(way_in(), place.lan_address, place.code))
        place.door.key.when_taken = lambda: _say(f"A browser came in. The next: {way_in()}\n")
        if not given.no_browser:
            open_browser(way_in())

    serve(make_server(folder, place), place, started)
    return 0


def _say(words: str) -> None:
    sys.stdout.write(words)
    sys.stdout.flush()


def _words(way_in: str, lan_address: str, code: str) -> str:
    """Say where the page is, and how a phone gets in."""
    words = (
        f"The page is at {way_in}\n"
        "This address lets one browser in; then the next one is shown. Stop it with Ctrl-C.\n"
    )
    if not code:
        return words
    from beltwright.web.local_network import qr_text

    link = f"{lan_address}/enter?code={code.replace(' ', '')}"
    return (
        f"{words}\nOn a phone in the same network: {lan_address}/enter\n"
        f"The code, good for one phone: {code}\n"
        "The first page here shows the next one.\n\n"
        f"{qr_text(link)}\n"
        "Whoever enters the code can see and change these builds. Stop the page when done.\n"
    )


def _refuse(why: str) -> int:
    sys.stderr.write(f"{why}\n")
    return 2

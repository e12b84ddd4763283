"""The program is killed in the middle of a save while a page is open."""

import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

CHILD = """
import os, sys
from pathlib import Path
from beltwright.web.serving import make_server, serve, take_place

place = take_place(lan=False, port=0)

def dies(*given, **named):
    os._exit(9)

def started():
    os.replace = dies
    print(place.entrance(), flush=True)

serve(make_server(Path(sys.argv[1]), place), place, started)
"""


@pytest.fixture
def served(folder: Path, let_in: Any) -> Iterator[Any]:
    """A server that dies at the rename of its first save, after it has written aside."""
    arguments = [sys.executable, "-c", CHILD, str(folder)]
    with subprocess.Popen(arguments, stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        yield let_in(child.stdout.readline().strip())
        child.send_signal(signal.SIGKILL)


def test_the_page_says_so_and_keeps_what_was_typed(opened: Any, file: Path) -> None:
    before = file.read_text()
    tab = opened("/b/orchard/measure")
    tab.open_table("machine")
    entry = tab.field("machine.slope").locator("input").first
    entry.fill("18 %")
    entry.press("Tab")
    expect(tab.field("machine.slope").locator(".error")).to_contain_text("does not answer")
    expect(entry).to_have_value("18 %")
    assert file.read_text() == before

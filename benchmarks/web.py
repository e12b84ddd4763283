"""How quickly the page answers: first view, drag to redraw, many pages at once.

Run with `python benchmarks/web.py [BUILD ...]`; without one, with every example.
Aims: first view under 1 s from the command; 95 of 100 drags redrawn within 50 ms; twenty pages
at once with nothing lost and no error.
"""

import os
import shutil
import socket
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
from playwright.sync_api import Page, sync_playwright

from beltwright.web.door import TOKEN_HEADER

EXAMPLES = Path(__file__).parents[1] / "examples"
DRAGS = 200
PAGES = 20
RUN = "import sys; from beltwright.cli import main; sys.exit(main())"
EDITS_EACH = 5
KEPT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""The environment as a builder has it, where Python keeps its compiled modules."""

CHROMIUM = "/usr/bin/chromium"
WATCH = """() => {
  globalThis.moves = [];
  let begun = null;
  for (const told of ["pointerrawupdate", "pointermove"]) {
    addEventListener(told, (event) => { begun ??= event.timeStamp; }, true);
  }
  new MutationObserver(() => {
    const from = begun;
    begun = null;
    if (from === null) return;
    requestAnimationFrame(() => {
      moves.push(performance.now() - from);
      globalThis.shown?.();
    });
  }).observe(document.getElementById("scene"), { childList: true, subtree: true });
}"""

DRAWN = """before => moves.length > before || new Promise(done => {
  globalThis.shown = () => moves.length > before && done();
})"""
"""Waits without looking again and again, which would itself keep a core busy."""


def main(builds: list[Path]) -> None:
    """Measures each build."""
    for build in builds:
        print(build.relative_to(build.parents[1]))
        first_view(build)
        drags(build)
        hand_to_drawing(build)
        many_pages(build)


@contextmanager
def served(build: Path) -> Iterator[tuple[str, float]]:
    """The way in to a copy of a build, as the command serves it; when the command was given.

    The printed address lets one browser in; it ends in the page that is to be opened first, "/".
    """
    with tempfile.TemporaryDirectory() as folder:
        shutil.copy(build, Path(folder) / "cart.toml")
        port = free_port()
        command = [sys.executable, "-c", RUN, "open", folder, "--no-browser", "--port", str(port)]
        begun = time.perf_counter()
        with subprocess.Popen(command, env=KEPT, stdout=subprocess.PIPE, text=True) as server:
            assert server.stdout is not None
            way_in = server.stdout.readline().split()[-1]
            try:
                yield way_in, begun
            finally:
                server.terminate()


def free_port() -> int:
    """A port that nobody listens on."""
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return int(asked.getsockname()[1])


def first_view(build: Path) -> None:
    """From the command to the whole page with all findings."""
    times = []
    for _ in range(5):
        with served(build) as (way_in, begun), httpx.Client(follow_redirects=True) as browser:
            page = browser.get(f"{way_in}b/cart/check")
            assert page.status_code == 200
            times.append(time.perf_counter() - begun)
    print(f"  first view            {min(times):.2f} s best, {max(times):.2f} s worst of 5")


def drags(build: Path) -> None:
    """The time from sending a moved pulley to having the new drawing."""
    with served(build) as (way_in, _), open_page(way_in) as page:
        token = token_of(page)
        shown = page.get("/api/builds/cart").json()
        key, start = dragged(shown["values"])
        times = []
        for step in range(DRAGS):
            edit = {"key": key, "text": f"{start + step * 0.05:.2f} mm"}
            body = {"version": shown["version"], "edits": [edit], "moving": True}
            begun = time.perf_counter()
            answer = page.post("/api/builds/cart/try", json=body, headers={TOKEN_HEADER: token})
            answer.read()
            times.append(time.perf_counter() - begun)
            assert answer.status_code == 200, answer.text
    report("drag to redraw", times[5:])


def hand_to_drawing(build: Path) -> None:
    """A drag in a real browser: from the hand's move to the frame with the new drawing.

    Each move is made once the one before has been drawn.
    """
    with served(build) as (way_in, _), sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"]
        )
        page = browser.new_page(viewport={"width": 1440, "height": 900})
        page.goto(f"{way_in}b/cart/check")
        report("hand to drawing, in a browser", moves_drawn(page)[5:])
        browser.close()


def moves_drawn(page: Page) -> list[float]:
    """Moves the first idler, or else the first thing that can be moved, to and fro [s]."""
    idlers = page.locator('#scene [data-drag^="idler"]')
    things = page.locator("#scene [data-drag]")
    box = (idlers if idlers.count() else things).first.bounding_box()
    assert box is not None
    page.evaluate(WATCH)
    x, y = box["x"] + box["width"] / 2 + 4, box["y"] + box["height"] / 2 + 4
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(DRAGS):
        page.mouse.move(x + 8 + step % 2 * 12, y + step % 24)
        page.evaluate(DRAWN, step)
    times: list[float] = page.evaluate("moves")
    return [time / 1e3 for time in times]


def many_pages(build: Path) -> None:
    """Twenty pages read and edit at once; every edit must stand in the end."""
    with served(build) as (way_in, _), open_page(way_in) as first:
        times: list[float] = []
        errors: list[str] = []
        again: list[int] = []
        everyone = [
            threading.Thread(target=one_page, args=(first, number, times, errors, again))
            for number in range(PAGES)
        ]
        begun = time.perf_counter()
        for page in everyone:
            page.start()
        for page in everyone:
            page.join()
        took = time.perf_counter() - begun
        parts = first.get("/api/builds/cart").json()["values"]["part"]
    wanted = {f"{number} {turn}" for number in range(PAGES) for turn in range(EDITS_EACH)}
    lost = len(wanted - {part["name"] for part in parts})
    report(f"an edit, {PAGES} pages at once", times)
    print(
        f"    {len(times)} edits in {took:.1f} s, {lost} lost, {len(errors)} errors, "
        f"{len(again)} told to look again first"
    )


def one_page(
    first: httpx.Client, number: int, times: list[float], errors: list[str], again: list[int]
) -> None:
    """One page: looks, edits, and looks again where another was first."""
    with httpx.Client(base_url=first.base_url, cookies=first.cookies, timeout=60.0) as page:
        token = token_of(page)
        for turn in range(EDITS_EACH):
            while True:
                now = page.get("/api/builds/cart").json()
                edit = {"key": "part", "text": {"name": f"{number} {turn}"}}
                begun = time.perf_counter()
                answer = page.post(
                    "/api/builds/cart/edit",
                    json={"version": now["version"], "edits": [edit]},
                    headers={TOKEN_HEADER: token},
                )
                if answer.status_code == 409:
                    again.append(turn)
                    continue
                times.append(time.perf_counter() - begun)
                if answer.status_code != 200:
                    errors.append(answer.text)
                break


@contextmanager
def open_page(way_in: str) -> Iterator[httpx.Client]:
    """A browser that came in."""
    here = way_in.partition("/enter")[0]
    with httpx.Client(base_url=here, timeout=60.0, follow_redirects=True) as page:
        page.get(way_in)
        yield page


def token_of(page: httpx.Client) -> str:
    """Loads the page; gives its token."""
    text: str = page.get("/").text
    return text.partition('name="token" content="')[2].partition('"')[0]


def dragged(values: dict[str, list[dict[str, object]]]) -> tuple[str, float]:
    """The x of something that can be dragged, and where it is [mm]."""
    for table in ("idler", "shaft"):
        for row in values.get(table, []):
            at = row.get("at")
            if isinstance(at, list):
                number = str(at[0]).split()[0]
                return f"{table}.{row['name']}.at.0", float(number)
    raise SystemExit("nothing in this build can be dragged")


def report(what: str, times: list[float]) -> None:
    """The middle and the slow end of some times."""
    slow = statistics.quantiles(times, n=20)[-1]
    middle = statistics.median(times)
    print(f"  {what:<30}{middle * 1e3:7.1f} ms median, {slow * 1e3:7.1f} ms 95th percentile")


if __name__ == "__main__":
    given = [Path(name).resolve() for name in sys.argv[1:]]
    main(given or sorted(EXAMPLES.glob("*/build.toml")))

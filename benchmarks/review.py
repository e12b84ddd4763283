"""The review: cold start of each command, and a warm review with and without tolerances.

Processor time, the least of several runs, so that other work on the machine counts as little as
it can.  Run: python benchmarks/review.py

Aims: `check` from a cold start under 0.6 s, `--help` under 0.15 s; a warm review under 20 ms, with
2,000 samples of its tolerances under 250 ms.
"""

import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from beltwright.build.reading import read_build
from beltwright.review.review import SAMPLES, review

EXAMPLES = Path(__file__).parents[1] / "examples"
HAULER = EXAMPLES / "orchard-hauler" / "build.toml"
RUN = "import sys; from beltwright.cli import main; sys.exit(main())"
KEPT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""The environment as a builder has it, where Python keeps its compiled modules."""
COLD_STARTS, WARM_REVIEWS, SAMPLED_REVIEWS = 3, 40, 8


def main() -> None:
    """Print both tables."""
    with tempfile.TemporaryDirectory() as folder:
        cold_starts(Path(folder))
    warm_reviews()


def cold_starts(folder: Path) -> None:
    """How long each command works from its start to its end."""
    commands = {
        "--help": ["--help"],
        "check": ["check", str(HAULER)],
        "check --nominal": ["check", str(HAULER), "--nominal"],
        "check --json": ["check", str(HAULER), "--json"],
        "draw": ["draw", str(HAULER), "-o", str(folder / "layout.svg")],
        "chart speed": ["chart", str(HAULER), "speed", "-o", str(folder)],
        "sheets": ["sheets", str(HAULER), "-o", str(folder)],
    }
    bare = least_start(["-c", "pass"])
    print(f"{'cold start':20}{'processor':>12}{'of python alone':>18}")
    for name, words in commands.items():
        took = least_start(["-c", RUN, *words])
        print(f"{name:20}{took * 1e3:9.0f} ms{took / bare:16.0f} ×")
    print()


def least_start(words: list[str]) -> float:
    """Least processor time of a new Python with these words [s]."""
    return min(start(words) for _ in range(COLD_STARTS))


def start(words: list[str]) -> float:
    """Processor time of one new Python [s]; a review that says stop ends with 1."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    ended = subprocess.run([sys.executable, *words], env=KEPT, capture_output=True, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if ended.returncode not in (0, 1) or ended.stderr:
        raise SystemExit(ended.stderr.decode())
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def warm_reviews() -> None:
    """How long a review takes once everything is loaded, as on the page after a drag."""
    print(
        f"{'warm review':20}{'findings':>9}{'as written':>13}{f'{SAMPLES} samples':>15}{'ratio':>8}"
    )
    for file in sorted(EXAMPLES.glob("*/build.toml")):
        build = read_build(file)
        findings = len(review(build).findings)
        plain = least(partial(review, build, 0), WARM_REVIEWS)
        sampled = least(partial(review, build, SAMPLES), SAMPLED_REVIEWS)
        print(
            f"{file.parent.name:20}{findings:9}{plain * 1e3:10.1f} ms{sampled * 1e3:12.1f} ms"
            f"{sampled / plain:8.1f}"
        )


def least(job: Callable[[], object], rounds: int) -> float:
    """Least processor time of several rounds [s]."""
    times = []
    for _ in range(rounds):
        begun = time.process_time()
        job()
        times.append(time.process_time() - begun)
    return min(times)


if __name__ == "__main__":
    main()

"""The search against the review of every single candidate."""

from collections.abc import Callable, Sequence
from itertools import product
from threading import Event

import numpy as np
import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.build.shop import Part
from beltwright.options.applying import applied
from beltwright.options.assembly import assembled
from beltwright.options.front import Candidate
from beltwright.options.merit import CLEARANCE, COST, GRIP, MERITS, OVERSPEED, PARTS, scores
from beltwright.options.offering import choices
from beltwright.options.option import Choice
from beltwright.options.outcome import Outcome
from beltwright.options.progress import Progress
from beltwright.options.referee import goal_ids
from beltwright.options.search import search
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import Review, review

Make = Callable[..., Build]

FEW = """
[[choose.vary]]
of = "engine pulley"
what = "outside"
values = ["90 mm", "96 mm", "102 mm"]

[[choose.vary]]
of = "input pulley"
what = "outside"
bin = true
prices = true

[[choose.vary]]
of = "traction belt"
what = "length"
prices = true
low = "75 in"
high = "77 in"
step = "1 in"

[[choose.vary]]
of = "guide idler"
what = "at y"
values = ["112 mm", "131 mm"]
"""


def _out(build: Build, found: Review, standing: set[str]) -> bool:
    """Whether a review speaks against a candidate: a stop, a goal missed, too dear."""
    goals = goal_ids(build)
    return any(
        (f.verdict is Verdict.STOP and not f.id.startswith("money.") and f.id not in standing)
        or (f.id in goals and _missed(f))
        or (f.id == "money.total" and _missed(f))
        for f in found.findings
    )


def _missed(finding: Finding) -> bool:
    if finding.limit is None or finding.value is None:
        return False
    low, high = finding.limit.at_least, finding.limit.at_most
    return (low is not None and finding.value < low) or (high is not None and finding.value > high)


def _merits(found: Review) -> list[float]:
    """The merits as a reader would take them off the printed review."""
    by_id = {f.id: f for f in found.findings}
    parts = {f"clearance.{b.name}.{o.name}" for b in found.build.belt for o in found.build.obstacle}
    clear = [f.value for f in found.findings if f.id in parts and f.value is not None]
    grips = [
        f.value / f.limit.at_least - 1.0
        for f in found.findings
        if f.id.startswith("belt.")
        and f.id.endswith(".grip")
        and f.value
        and f.limit
        and f.limit.at_least
    ]
    total, over = by_id["money.total"].value, by_id["gearbox.overspeed"].value
    assert total is not None
    assert over is not None
    to_buy = sum(1 for part in found.build.part if not part.have and part.source != "make")
    values = {
        COST: total,
        PARTS: float(to_buy),
        OVERSPEED: over,
        GRIP: min(grips) if grips else np.nan,
        CLEARANCE: min(clear) if clear else np.nan,
    }
    return [values[merit] for merit in MERITS]


def _one_by_one(
    build: Build, found: Sequence[Choice], standing: set[str]
) -> dict[Candidate, list[float]]:
    """Every candidate that its own review lets pass, with its merits."""
    kept = {}
    for candidate in product(*(range(len(choice)) for choice in found)):
        reviewed = review(assembled(build, found, candidate), samples=0)
        if not _out(build, reviewed, standing):
            kept[candidate] = _merits(reviewed)
    return kept


def _unbeaten(kept: dict[Candidate, list[float]]) -> set[Candidate]:
    candidates = sorted(kept)
    table = scores(MERITS, np.array([kept[candidate] for candidate in candidates]))
    best = set()
    for n, mine in enumerate(table):
        as_good = np.all(table <= mine, axis=1)
        equal = np.all(table == mine, axis=1)
        if not np.any(as_good & ~equal) and n == int(np.flatnonzero(equal)[0]):
            best.add(candidates[n])
    return best


@pytest.fixture
def few(make: Make) -> Build:
    """A build with so few candidates that each can be reviewed by itself."""
    return make(FEW)


def test_it_finds_what_reviewing_each_finds(few: Build, prices: tuple[Part, ...]) -> None:
    found = choices(few, prices)
    outcome = search(few, found)
    kept = _one_by_one(few, found, {stop.id for stop in outcome.standing})
    assert len(kept) > 1
    assert {each.candidate for each in outcome.found} == _unbeaten(kept)
    for each in outcome.found:
        told = [each.merits[merit] for merit in MERITS]
        assert told == pytest.approx(kept[each.candidate], rel=1e-9, nan_ok=True)


def test_every_candidate_is_disposed_of(few: Build, prices: tuple[Part, ...]) -> None:
    found = choices(few, prices)
    outcome = search(few, found)
    assert outcome.finished
    assert outcome.disposed == outcome.candidates == np.prod([len(c) for c in found])


def test_an_option_written_into_the_file_is_the_option_that_was_found(
    few: Build, prices: tuple[Part, ...], small_text: str
) -> None:
    text = f"{small_text}\n{FEW}"
    found = choices(few, prices)
    outcome = search(few, found)
    for each in outcome.found:
        written = applied(text, few, found, each.candidate)
        assert "# A small build to choose parts for." in written
        build = read_text(written)
        reviewed = review(build, samples=0)
        assert not _out(build, reviewed, {stop.id for stop in outcome.standing})
        told = [each.merits[merit] for merit in MERITS]
        assert told == pytest.approx(_merits(reviewed), rel=1e-9, nan_ok=True)


def test_two_processes_find_what_one_finds(few: Build, prices: tuple[Part, ...]) -> None:
    from beltwright.options.sharing import shared_hunt

    found = choices(few, prices)
    alone = search(few, found)
    shared = shared_hunt(few, found, lambda *_: False, 2)
    assert set(shared.front.candidates) == {each.candidate for each in alone.found}
    assert shared.disposed == alone.disposed


def test_a_stopped_search_gives_the_best_so_far(few: Build, prices: tuple[Part, ...]) -> None:
    stopping = Event()
    told: list[Progress] = []

    def report(progress: Progress) -> None:
        told.append(progress)
        stopping.set()

    stopping.set()
    outcome = search(few, choices(few, prices), report, stopping)
    assert not outcome.finished
    assert outcome.disposed < outcome.candidates
    assert told[-1].disposed == outcome.disposed


def test_progress_tells_rate_and_time_left() -> None:
    progress = Progress(disposed=250, candidates=1000, fitting=1, seconds=0.5)
    assert progress.rate == 500.0
    assert progress.seconds_left == pytest.approx(1.5)
    assert Progress(0, 10, 0, 0.0).seconds_left is None


def test_the_reasons_add_up(open_build: Build, prices: tuple[Part, ...]) -> None:
    outcome = search(open_build, choices(open_build, prices))
    assert sum(each.count for each in outcome.rejections) <= outcome.candidates
    counts = [each.count for each in outcome.rejections]
    assert counts == sorted(counts, reverse=True)


def _relaxed(make: Make, old: str, new: str) -> Outcome:
    build = make(FEW, old, new)
    return search(build, choices(build))


def test_nothing_fits_a_budget_that_is_too_small(make: Make) -> None:
    outcome = _relaxed(make, 'budget = "70 EUR"', 'budget = "20 EUR"')
    assert outcome.found == ()
    nearest = outcome.relaxation
    assert nearest is not None
    assert not nearest.stops
    assert any("Budget: allow 30 EUR instead of 20 EUR" in each for each in nearest.says) or any(
        "Budget" in each for each in nearest.says
    )


def test_nothing_meets_a_speed_goal_that_is_too_high(make: Make) -> None:
    outcome = _relaxed(make, "9 to 14 km/h", "30 to 31 km/h")
    assert outcome.found == ()
    assert outcome.relaxation is not None
    reasons = {each.id for each in outcome.rejections}
    assert "speed.top" in reasons
    sentences = [s for each in outcome.rejections for s in each.sentences]
    assert any(s.startswith("Every engine pulley") and "slower" in s for s in sentences)

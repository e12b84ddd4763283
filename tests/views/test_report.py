"""The printed review: worst first, cautions where they belong, readable when narrow."""

import io

import pytest
from rich.console import Console

from beltwright.build.reading import read_text
from beltwright.quantity import Kind, Units, read_quantity
from beltwright.review.finding import Assumption, Finding, Limit, Measurement, Verdict
from beltwright.review.review import Review
from beltwright.views.report import print_report
from beltwright.views.verdict_text import MARKS, STYLES
from beltwright.views.why import print_why

GOOD = Finding(
    id="speed.top",
    title="Top speed",
    topic="Speed",
    verdict=Verdict.SOUND,
    kind=Kind.SPEED,
    value=4.0,
    low=3.9,
    high=4.1,
    limit=Limit(at_most=5.0),
    shown="14.4 km/h",
    shown_range="14 to 14.8 km/h",
    shown_limit="at most 18 km/h",
    meaning="Meets the goal.",
    remedy="",
    formula="v = n u",
    working="1 × 2 = 3",
    source="kinematics",
    leaves_out="slip",
    caution="Drive slowly first.",
    assumed=("belt.creep",),
    inputs=("engine.idle",),
    place=None,
)
BAD = GOOD._replace(
    id="gearbox.overspeed",
    title="Overspeed",
    verdict=Verdict.STOP,
    meaning="Far too fast.",
    remedy="Use a smaller pulley.",
    caution="It can burst.",
)
UNKNOWN = GOOD._replace(
    id="speed.crawl", title="Crawling", verdict=Verdict.NOT_KNOWN, value=None, caution=""
)


def a_review(*findings: Finding) -> Review:
    """Give a review with these findings."""
    return Review(
        build=read_text('format = 1\nname = "Trial"\n'),
        units=Units(),
        findings=findings,
        assumptions=(
            Assumption("belt.creep", read_quantity("1 % ± 1 %", Kind.RATIO), "common practice"),
        ),
        measure_next=(Measurement("engine.idle", "idle", "Count it.", 0.5, ("speed.top",)),),
    )


def printed(review: Review, width: int = 80, colour: bool = False) -> str:
    """Give what the report prints."""
    out = io.StringIO()
    print_report(
        review, "trial.toml", Console(file=out, width=width, force_terminal=colour, highlight=False)
    )
    return out.getvalue()


def test_the_worst_comes_first_in_its_topic() -> None:
    _, text = printed(a_review(GOOD, UNKNOWN, BAD)).split("\nSpeed\n")
    assert text.index("Overspeed") < text.index("Crawling") < text.index("Top speed")


def test_a_stop_shows_what_it_means_what_to_do_and_its_caution() -> None:
    _, text = printed(a_review(GOOD, BAD)).split("\nSpeed\n")
    lines = [line.strip() for line in text.splitlines()]
    at = next(n for n, line in enumerate(lines) if "Overspeed" in line)
    assert lines[at + 2 : at + 6] == [
        "Far too fast.",
        "Do: Use a smaller pulley.",
        "Caution: It can burst.",
        "id: gearbox.overspeed",
    ]


def test_the_title_counts_the_verdicts() -> None:
    text = printed(a_review(GOOD, UNKNOWN, BAD))
    assert "■ 1 stop   ◐ 0 marginal   ◌ 1 not known   ○ 1 sound" in text


def test_what_to_measure_and_what_was_assumed_is_listed() -> None:
    text = printed(a_review(GOOD))
    assert "1. Idle: Count it." in text
    assert "  Speed\n    Creep of loaded V-belts: 1 % ± 1 %. Common practice." in text


def test_the_review_defers_to_codes_and_trades() -> None:
    assert "Local codes" in printed(a_review(GOOD))


@pytest.mark.parametrize("width", [50, 80, 140])
def test_no_line_is_wider_than_asked(width: int) -> None:
    text = printed(a_review(GOOD, UNKNOWN, BAD), width)
    assert max(len(line) for line in text.splitlines()) <= width


def test_colour_never_stands_alone() -> None:
    text = printed(a_review(GOOD, UNKNOWN, BAD), colour=True)
    assert "\x1b[" in text
    assert len(set(MARKS.values())) == len(set(STYLES.values())) == len(Verdict)
    for verdict in (Verdict.STOP, Verdict.NOT_KNOWN, Verdict.SOUND):
        assert f"{MARKS[verdict]} {verdict.value}" in text


def test_why_shows_everything() -> None:
    out = io.StringIO()
    code = print_why(a_review(GOOD, BAD), "gearbox.overspeed", Console(file=out, width=80))
    assert code == 1
    for words in ("v = n u", "1 × 2 = 3", "kinematics", "slip", "It can burst.", "speed at idle"):
        assert words in out.getvalue()
    assert "Creep of loaded V-belts: 1 % ± 1 %. Common practice." in out.getvalue()


def test_what_stops_it_stands_before_all_topics() -> None:
    text = printed(a_review(GOOD, BAD))
    assert "What stops it" in text
    assert text.index("■ Overspeed: 14.4 km/h") < text.index("Top speed")
    assert "What stops it" not in printed(a_review(GOOD))


def test_of_many_stops_the_rest_is_counted() -> None:
    text = printed(a_review(*(BAD._replace(id=f"x.{n}", title=f"Nr {n}") for n in range(20))))
    assert "and 12 more below" in text


def test_findings_that_say_the_same_say_it_once() -> None:
    same = UNKNOWN._replace(id="speed.gear.1", title="Gear 1", remedy="Measure the idle.")
    text = printed(a_review(same, same._replace(id="speed.gear.2", title="Gear 2"), BAD))
    assert text.count("Measure the idle.") == 1
    assert "speed.gear.1, speed.gear.2" in text
    many = [same._replace(id=f"speed.gear.{n}") for n in range(1, 6)]
    assert "speed.gear.1, and 4 more" in printed(a_review(*many))


def test_in_a_narrow_window_the_value_stands_under_its_title() -> None:
    lines = printed(a_review(GOOD), width=40).splitlines()
    at = next(n for n, line in enumerate(lines) if line.endswith("Top speed"))
    assert lines[at + 1].strip().startswith("14.4 km/h")
    assert max(map(len, lines)) <= 40


def test_the_working_is_shown_however_narrow_the_window() -> None:
    out = io.StringIO()
    print_why(a_review(GOOD), "speed.top", Console(file=out, width=10, highlight=False))
    assert "kinematics" in out.getvalue()

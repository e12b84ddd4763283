"""The charts say what the findings say."""

import re
from pathlib import Path

import pytest

from beltwright.build.editing import set_value
from beltwright.build.reading import read_build, read_text
from beltwright.drawing.charts import chart_svg
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.review import review
from beltwright.views.charts.gathered import charts
from beltwright.views.charts.pull import pull_chart
from beltwright.views.charts.speed import speed_chart
from beltwright.views.charts.turning import turning_chart
from beltwright.views.charts.warm_up import warm_up_chart

EXAMPLE = Path(__file__).parents[3] / "examples" / "orchard-hauler" / "build.toml"


@pytest.fixture(scope="module")
def case() -> Case:
    return Case(read_build(EXAMPLE), 200)


def test_the_speed_chart_ends_where_the_findings_say(case: Case) -> None:
    chart = speed_chart(case)
    findings = review(case.build, 200)
    for series in chart.series:
        name = series.name.replace("gear ", "").replace("reverse ", "r")
        finding = findings.finding(f"speed.gear.{name}")
        assert finding is not None
        assert finding.value is not None
        assert series.y[-1] == pytest.approx(case.units[Kind.SPEED].from_si(finding.value))


def test_bands_hold_the_nominal_line(case: Case) -> None:
    for series in speed_chart(case).series:
        assert series.low is not None
        assert series.high is not None
        for low, y, high in zip(series.low, series.y, series.high, strict=True):
            assert low <= y <= high


def test_a_build_without_samples_has_no_bands() -> None:
    chart = speed_chart(Case(read_build(EXAMPLE)))
    assert all(series.low is None for series in chart.series)


def test_what_cannot_be_drawn_says_what_to_measure(case: Case) -> None:
    build = case.build.model_copy(
        update={"engine": case.build.engine.model_copy(update={"idle": None})}
    )
    drawn, missing = charts(Case(build))
    assert "speed" not in drawn
    assert "idle" in missing["speed"]


def test_every_chart_of_the_example_can_be_drawn_and_says_its_caution(case: Case) -> None:
    drawn, missing = charts(case)
    assert missing == {}
    for chart in drawn.values():
        assert chart.caution
        for series in chart.series:
            assert len(series.x) > 5


def test_a_machine_whose_tyres_never_spin_still_has_its_charts() -> None:
    top_heavy = set_value(EXAMPLE.read_text(), "machine.scales.raised_by", "4 ± 0.05 mm")
    drawn, _ = charts(Case(read_text(top_heavy), 40))
    assert "tyres spin" not in [limit.name for limit in drawn["pull"].limits]
    for chart in drawn.values():
        assert not re.search(r"(?<![a-z])(?:nan|inf)(?![a-z])", chart_svg(chart))


def test_the_pull_chart_shows_what_the_tyres_can_take(case: Case) -> None:
    chart = pull_chart(case)
    spins = next(limit.value for limit in chart.limits if limit.name == "tyres spin")
    assert chart.y.high is not None
    assert 0.0 < spins < chart.y.high
    assert "needed, level" in [series.name for series in chart.series]


def test_the_warm_up_starts_at_the_air_and_never_falls(case: Case) -> None:
    (oil,) = warm_up_chart(case).series
    assert oil.y[0] == pytest.approx(30.0, abs=0.5)
    assert list(oil.y) == sorted(oil.y)


def test_a_slope_makes_a_turn_slower(case: Case) -> None:
    level, _, sloping, _ = turning_chart(case).series
    assert all(low < high for low, high in zip(sloping.y, level.y, strict=True))

"""The charts say what the findings say."""

from pathlib import Path

import pytest

from beltwright.build.reading import read_build
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.review import review
from beltwright.views.charts import charts
from beltwright.views.speed_chart import speed_chart

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"


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

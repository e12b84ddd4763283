"""The throttle's charts say what the findings say, and stand only where there is a throttle."""

from pathlib import Path

import numpy as np
import pytest

from beltwright.build.reading import read_build
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.throttle.stroke import foot_push, return_springs
from beltwright.views.charts.gathered import charts
from beltwright.views.charts.throttle import throttle_force_chart, throttle_return_chart

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def case() -> Case:
    return Case(read_build(EXAMPLES / "orchard-hauler" / "build.toml"), 100)


def test_every_broken_spring_has_its_curve(case: Case) -> None:
    names = [s.name for at in ("arm", "pedal") for s in return_springs(case, at)]
    wanted = ["all springs", *(f"without the {name}" for name in names)]
    for chart in (throttle_return_chart(case), throttle_force_chart(case)):
        assert [series.name for series in chart.series] == wanted
        assert chart.caution


def test_the_force_chart_ends_where_the_finding_says(case: Case) -> None:
    series = throttle_force_chart(case).series[0]
    unit = case.units[Kind.FORCE]
    assert series.y[-1] == pytest.approx(unit.from_si(float(foot_push(case)[0, -1])))
    assert np.all(np.diff(series.x) > 0.0)


def test_a_broken_spring_leaves_less_to_close_with(case: Case) -> None:
    whole, *without = throttle_return_chart(case).series
    for series in without:
        assert all(left < all_on for left, all_on in zip(series.y, whole.y, strict=True))


def test_a_build_without_a_throttle_is_not_asked_for_one() -> None:
    build = read_build(EXAMPLES / "puller" / "build.toml")
    bare = Case(build.model_copy(update={"throttle": None}))
    drawn, missing = charts(bare)
    assert not any(name.startswith("throttle") for name in (*drawn, *missing))
    _, asked = charts(bare, ["throttle-return"])
    assert "throttle-return" in asked


def test_a_throttle_without_springs_says_what_to_measure(case: Case) -> None:
    assert case.build.throttle is not None
    bare = case.build.throttle.model_copy(update={"spring": ()})
    with pytest.raises(NotKnownError, match="two that close it"):
        throttle_return_chart(Case(case.build.model_copy(update={"throttle": bare})))

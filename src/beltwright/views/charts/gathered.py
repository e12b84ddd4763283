"""The charts of a build, in the builder's units, with the tolerances as bands."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from beltwright.drawing.chart import Chart
from beltwright.review.case import Case, NotKnownError
from beltwright.review.examples import in_their_units
from beltwright.views.charts.pull import pull_chart
from beltwright.views.charts.speed import speed_chart
from beltwright.views.charts.throttle import throttle_force_chart, throttle_return_chart
from beltwright.views.charts.turning import turning_chart
from beltwright.views.charts.warm_up import warm_up_chart

CHARTS: dict[str, Callable[[Case], Chart]] = {
    "speed": speed_chart,
    "pull": pull_chart,
    "turning": turning_chart,
    "warm-up": warm_up_chart,
    "throttle-return": throttle_return_chart,
    "throttle-force": throttle_force_chart,
}
"""Every chart by its name."""

ONLY_WITH = {"throttle-return": "throttle", "throttle-force": "throttle"}
"""Charts that a build without a table has no use for."""


def charts(case: Case, names: Sequence[str] = ()) -> tuple[dict[str, Chart], dict[str, str]]:
    """The charts that can be drawn, and for each of the others what has to be measured.

    All that the build has a use for, unless some are named.
    """
    drawn: dict[str, Chart] = {}
    missing: dict[str, str] = {}
    for name in names or _of_use(case):
        try:
            drawn[name] = CHARTS[name](case)
        except NotKnownError as unknown:
            missing[name] = in_their_units(str(unknown), case.units)
    return drawn, missing


def _of_use(case: Case) -> list[str]:
    """The charts whose table the build has."""
    return [
        name
        for name in CHARTS
        if name not in ONLY_WITH or getattr(case.build, ONLY_WITH[name]) is not None
    ]

"""Temperature of the gearbox oil from a cold start."""

import numpy as np

from beltwright.drawing.chart import Axis, Chart, Limit
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.gearbox.heat import oil_limit, warm_up
from beltwright.review.gearbox.heat_findings import HOT_CAUTION
from beltwright.views.charts.band import banded

_MINUTE = 60.0
_POINTS = 40


def warm_up_chart(case: Case) -> Chart:
    """How warm the oil gets, against the limit of oil and seals."""
    if case.build.gearbox is None:
        raise NotKnownError("gearbox", "Describe the gearbox.", "There is no gearbox to warm up.")
    followed = warm_up(case)
    temperature = np.atleast_2d(followed.temperature)
    time = np.atleast_2d(followed.time)[0]
    kept = np.unique(np.linspace(0, time.size - 1, _POINTS).astype(int))
    unit = case.units[Kind.TEMPERATURE]
    limit = unit.from_si(oil_limit(case))
    return Chart(
        title="Gearbox oil from a cold start",
        x=Axis("time", "min", low=0.0),
        y=Axis("oil temperature", unit.symbol),
        series=[
            banded(
                "oil",
                [float(time[point]) / _MINUTE for point in kept],
                [temperature[:, point] for point in kept],
                unit,
            )
        ],
        limits=(Limit(f"limit of oil and seals, {limit:.0f} {unit.symbol}", limit),),
        notes=(
            "Steady work in a middle gear. The band shows what tolerances and assumptions allow; "
            "a measured warm-up narrows it.",
        ),
        caution=HOT_CAUTION,
    )

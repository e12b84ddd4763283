"""Ground speed against engine speed, a line for each gear, from idle to governed."""

from collections.abc import Iterator

import numpy as np

from beltwright.drawing.chart import Axis, Chart, Limit
from beltwright.quantity import Goal, Kind
from beltwright.quantity.units import Unit
from beltwright.review.case import Case
from beltwright.review.driveline.routes import gears
from beltwright.review.driveline.speed import FAST_CAUTION, governed, idle, speed_in
from beltwright.review.nominal import nominal
from beltwright.views.charts.band import banded

_POINTS = 9


def speed_chart(case: Case) -> Chart:
    """How fast every gear goes between idle and governed speed."""
    turning, speed = case.units[Kind.ROTATION], case.units[Kind.SPEED]
    slow, fast = nominal(idle(case)), nominal(governed(case))
    rotations = np.linspace(slow, fast, _POINTS)
    series = [
        banded(
            f"gear {gear.name}" if gear.forward else f"reverse {gear.name[1:]}",
            [turning.from_si(float(rotation)) for rotation in rotations],
            [speed_in(case, gear, np.array([rotation])) for rotation in rotations],
            speed,
        )
        for gear in gears(case)
    ]
    return Chart(
        title="Ground speed in every gear",
        x=Axis("engine speed", turning.symbol),
        y=Axis("ground speed", speed.symbol, low=0.0),
        series=series,
        limits=tuple(_goals(case, speed)),
        notes=("From idle to governed speed. Bands show what the tolerances allow.",),
        caution=FAST_CAUTION,
    )


def _goals(case: Case, unit: Unit) -> Iterator[Limit]:
    """The goals as limits: top speed at both ends, crawling speed at its upper one."""
    goals = case.build.goals
    yield from _ends(goals.top_speed, unit, "top speed wanted")
    if goals.crawl_speed is not None and goals.crawl_speed.high is not None:
        high = unit.from_si(goals.crawl_speed.high)
        yield Limit(f"crawl wanted, {high:.3g} {unit.symbol}", high, broken="neither")


def _ends(goal: Goal | None, unit: Unit, what: str) -> Iterator[Limit]:
    if goal is None:
        return
    if goal.high is not None:
        high = unit.from_si(goal.high)
        yield Limit(f"{what}, at most {high:.3g} {unit.symbol}", high)
    if goal.low is not None and goal.low != goal.high:
        low = unit.from_si(goal.low)
        yield Limit(f"{what}, at least {low:.3g} {unit.symbol}", low, broken="neither")

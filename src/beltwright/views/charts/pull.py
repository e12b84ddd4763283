"""Pull against speed in every forward gear, against what holds the machine back."""

import math

from beltwright.drawing.chart import Axis, Chart, Limit
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.motion.findings import BACKWARDS_CAUTION
from beltwright.review.motion.pull import pull_curves
from beltwright.review.nominal import nominal
from beltwright.views.charts.band import banded

SHOWN_PULL = 3.0
"""The chart ends at this many times what the tyres can take; more cannot be used."""


def pull_chart(case: Case) -> Chart:
    """What the tyres can push with in each gear, and what they have to push against."""
    curves = pull_curves(case)
    speed, force = case.units[Kind.SPEED], case.units[Kind.FORCE]
    spins = force.from_si(nominal(curves.spins))
    series = [
        banded(
            f"gear {curve.gear.name}",
            [speed.from_si(nominal(row)) for row in curve.speed],
            list(curve.pull),
            force,
        )
        for curve in curves.gears
    ]
    series += [
        banded(
            f"needed, {holding.words}",
            [speed.from_si(nominal(row)) for row in holding.speed],
            list(holding.force),
            force,
        )
        for holding in curves.holding
    ]
    limits = (
        Limit("tyres spin", spins),
        Limit("front lifts", force.from_si(nominal(curves.lifts)), broken="neither"),
    )
    return Chart(
        title=f"Pull against speed, laden, on {curves.ground}",
        x=Axis("ground speed", speed.symbol, low=0.0),
        y=Axis("pull at the tyres", force.symbol, low=0.0, high=_shown_up_to(spins)),
        series=series,
        limits=tuple(limit for limit in limits if math.isfinite(limit.value)),
        notes=(
            "From idle to no load. It climbs what lies under its gear's line. Bands show what the "
            "tolerances allow at the same engine speed.",
        ),
        caution=BACKWARDS_CAUTION,
    )


def _shown_up_to(spins: float) -> float | None:
    """Where the chart ends; where no pull spins the tyres, with the largest there is."""
    return SHOWN_PULL * spins if math.isfinite(spins) else None

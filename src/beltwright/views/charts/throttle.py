"""The throttle over its stroke: what is left to close it, and how hard the foot pushes."""

import numpy as np

from beltwright.build.throttle import Throttle
from beltwright.drawing.chart import Axis, Chart, Limit, Series
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.quantity.units import Unit
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal
from beltwright.review.throttle.findings import CLOSING_CAUTION, FORCES
from beltwright.review.throttle.levers import arm_lever
from beltwright.review.throttle.spring_findings import RETURN_CAUTION, no_springs
from beltwright.review.throttle.stroke import closings, foot_push, stroke
from beltwright.views.charts.band import banded


def throttle_return_chart(case: Case) -> Chart:
    """What the springs at the arm have left over friction, all whole and each broken in turn."""
    _described(case)
    unit = case.units[Kind.TORQUE]
    return Chart(
        title="What is left to close the throttle",
        x=_opening(case),
        y=Axis("closing torque over friction", unit.symbol),
        series=[
            _over_stroke(case, _name(one.broken), one.springs - one.resists, unit)
            for one in closings(case)
        ],
        limits=(Limit("stays open", 0.0, broken="below"),),
        notes=("Foot off, engine end of the cable; each spring taken off in turn.",),
        caution=RETURN_CAUTION,
    )


def throttle_force_chart(case: Case) -> Chart:
    """How hard the foot pushes, all springs whole and each broken in turn."""
    throttle = _described(case)
    unit, show = case.units[Kind.FORCE], case.units.show
    least, most = FORCES[throttle.worked_by]
    broken = [one.broken for one in closings(case)]
    return Chart(
        title=f"Push of the {throttle.worked_by} on the throttle",
        x=_opening(case),
        y=Axis("push", unit.symbol, low=0.0),
        series=[_over_stroke(case, _name(name), foot_push(case, name), unit) for name in broken],
        notes=(
            f"Below {show(least, Kind.FORCE)} bumps press it, above {show(most, Kind.FORCE)} it "
            "tires. A throttle that turns light all at once has lost a spring: stop and look.",
        ),
        caution=CLOSING_CAUTION,
    )


def _described(case: Case) -> Throttle:
    throttle = case.build.throttle
    if throttle is None:
        raise NotKnownError("throttle", "Describe the throttle.", "There is no throttle yet.")
    if not throttle.spring:
        raise no_springs()
    return throttle


def _name(broken: str) -> str:
    return f"without the {broken}" if broken else "all springs"


def _opening(case: Case) -> Axis:
    arm = arm_lever(case)
    swing = nominal(np.degrees(np.abs(arm.end - arm.start)))
    return Axis("arm opened", "°", low=0.0, high=swing)


def _over_stroke(case: Case, name: str, values: Array, unit: Unit) -> Series:
    """Places of the stroke as the build is written; the samples give the band."""
    opened = np.abs(stroke(case).arm[0] - stroke(case).arm[0, 0])
    whole = np.broadcast_to(values, (values.shape[0], opened.size))
    return banded(name, np.degrees(opened).tolist(), list(whole.T), unit)

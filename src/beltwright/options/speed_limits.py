"""The limits of speed, as the review holds them: cheap, and needing few of the choices."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.model import Build
from beltwright.options.limit import Limit, Term
from beltwright.physics.arrays import Array
from beltwright.physics.gearing import overspeed
from beltwright.quantity import Goal
from beltwright.review.case import Case
from beltwright.review.driveline.routes import route_to, routes
from beltwright.review.driveline.speed import (
    OVERSPEED_LIMIT,
    gearbox_input_speed,
    governed,
    idle,
    low_gear,
    speed_in,
    top_gear,
)


def speed_limits(build: Build) -> Iterator[Limit]:
    """What the speeds of a build are held to."""
    yield from _goal("speed.top", _top_speed, build.goals.top_speed)
    yield from _goal("speed.crawl", _crawl_speed, build.goals.crawl_speed)
    if build.gearbox and build.gearbox.stock_input:
        yield Limit(
            "gearbox.overspeed",
            "turns the gearbox too fast",
            _overspeed,
            at_most=partial(_constant, OVERSPEED_LIMIT),
        )
    for shaft in build.shaft:
        if shaft.bearing_limit is not None:
            yield Limit(
                f"speed.shaft.{shaft.name}",
                f"turns the bearings of the {shaft.name} shaft too fast",
                partial(_shaft_speed, shaft.name),
                at_most=partial(_bearing_limit, shaft.name),
            )


def _goal(id_: str, speed: Term, goal: Goal | None) -> Iterator[Limit]:
    if goal is not None and goal.low is not None:
        least = partial(_constant, goal.low)
        yield Limit(id_, "is slower than the goal", speed, at_least=least, goal=True)
    if goal is not None and goal.high is not None:
        most = partial(_constant, goal.high)
        yield Limit(id_, "is faster than the goal", speed, at_most=most, goal=True)


def _constant(value: float, _: Case) -> Array:
    return np.array([value])


def _top_speed(case: Case) -> Array:
    return speed_in(case, top_gear(case), governed(case))


def _crawl_speed(case: Case) -> Array:
    return speed_in(case, low_gear(case), idle(case))


def _overspeed(case: Case) -> Array:
    box = case.build.gearbox
    assert box is not None
    assert box.stock_input is not None
    return overspeed(gearbox_input_speed(case), case.si(box.stock_input))


def _shaft_speed(name: str, case: Case) -> Array:
    if name not in routes(case):
        return np.zeros(1)
    return np.asarray(governed(case) / route_to(case, name).total_ratio(top_gear(case)))


def _bearing_limit(name: str, case: Case) -> Array:
    shaft = next(shaft for shaft in case.build.shaft if shaft.name == name)
    assert shaft.bearing_limit is not None
    return case.si(shaft.bearing_limit)

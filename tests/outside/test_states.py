"""A load on the front hides how light the front is without it: every state by moments.

Sources
-------
Statics: moments about the rear wheels' contact with the ground (ISO 10392 weighs by them; J. Y.
    Wong, Theory of Ground Vehicles, section 3.1, from memory, for a machine that speeds up).
SciPy: brentq finds the push at which the moment about the rear contact is nothing.
"""

from collections.abc import Callable, Iterator

import numpy as np
import pytest
from scipy.optimize import brentq

from beltwright.build.reading import read_text
from beltwright.build.starter import starter_text
from beltwright.review.case import Case
from beltwright.review.draft import Ask
from beltwright.review.finding import Finding
from beltwright.review.judging import judge
from beltwright.review.motion import findings as motion
from beltwright.review.nominal import nominal
from beltwright.review.stability import findings as stability
from beltwright.review.stability.centre_of_gravity import State, states

GRAVITY = 9.80665
SLOPE = np.arctan(0.12)
ROLLING_ASPHALT, GRIP_ASPHALT = 0.015, 0.75
"""Rolling drag and best grip on dry asphalt: J. Y. Wong, Theory of Ground Vehicles, tables 1.3 and
1.1, from memory, medium."""

AHEAD = (
    "[engine]\n",
    '[[machine.load]]\nname = "front tray"\nmass = "60 kg"\n'
    'at = ["1300 mm", "0 mm", "500 mm"]\n[engine]\n',
)


def case_of(change: tuple[str, str]) -> Case:
    old, new = change
    assert old in starter_text()
    return Case(read_text(starter_text().replace(old, new, 1), "build.toml"), 0)


def answer(case: Case, questions: Callable[[Case], Iterator[Ask]], id_: str) -> Finding:
    ask = next(ask for ask in questions(case) if ask.id == id_)
    return judge(case, "", ask)[0]


def front_load(state: State, push: float, rolling: float) -> float:
    """Load on the front wheels nose up on the slope, the machine speeding up by what is left."""
    balance = state.balance
    mass, ahead, height = (nominal(part) for part in (balance.mass, balance.x, balance.z))
    across, along = mass * GRAVITY * np.cos(SLOPE), mass * GRAVITY * np.sin(SLOPE)
    speeding_up = push - rolling * across - along
    moment = across * ahead - height * (along + speeding_up)
    return float(moment / nominal(state.chassis.wheelbase))


def test_the_front_is_lightest_without_the_load_ahead() -> None:
    """Standing nose up: push = weight down the slope, no rolling drag."""
    case = case_of(AHEAD)
    shares = {}
    for state in states(case):
        weight = nominal(state.balance.mass) * GRAVITY
        shares[state.name] = front_load(state, weight * np.sin(SLOPE), 0.0) / (
            weight * np.cos(SLOPE)
        )
    assert shares["driver alone"] < shares["fully laden"]
    found = answer(case, stability.questions, "stability.front_share")
    assert found.value == pytest.approx(shares["driver alone"], rel=1e-9)
    assert "driver alone" in found.meaning


def test_the_front_lifts_soonest_without_the_load_ahead() -> None:
    """The push at which the front wheels carry nothing, against the one that spins the tyres."""
    case = case_of(AHEAD)
    lifts = {
        state.name: brentq(lambda push, s=state: front_load(s, push, ROLLING_ASPHALT), 0.0, 5e4)
        for state in states(case)
    }
    spins = {}
    for state in states(case):
        across = nominal(state.balance.mass) * GRAVITY * np.cos(SLOPE)

        def short_of_grip(push: float, s: State = state, load: float = across) -> float:
            rear = load - front_load(s, push, ROLLING_ASPHALT)
            return push - GRIP_ASPHALT * rear

        spins[state.name] = brentq(short_of_grip, 0.0, 5e4)
    reserve = {name: lifts[name] / spins[name] for name in lifts}
    assert reserve["driver alone"] < reserve["fully laden"]
    found = answer(case, motion.questions, "climb.front_lift")
    assert found.value == pytest.approx(lifts["driver alone"], rel=1e-6)
    assert found.limit is not None
    assert found.limit.at_least == pytest.approx(spins["driver alone"], rel=1e-6)
    assert "driver alone" in found.working

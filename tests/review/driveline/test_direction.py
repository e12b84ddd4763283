"""Which way a machine drives: every turn that a driveline can give it."""

import pytest

from beltwright.build.reading import read_text
from beltwright.review.case import Case
from beltwright.review.driveline import direction
from beltwright.review.driveline.direction import drives_forwards
from beltwright.review.finding import Verdict
from beltwright.review.judging import judge

CART = """
format = 1
name = "Test cart"

[engine]
power = "9 kW"
at = "3300 rpm"
turns = "clockwise"

[[shaft]]
name = "engine"
at = ["800 mm", "0 mm"]

[[shaft]]
name = "gearbox input"
at = ["200 mm", "0 mm"]

[[shaft]]
name = "axle"
at = ["0 mm", "250 mm"]
axis = "cross"

[[pulley]]
name = "engine pulley"
shaft = "engine"
outside = "100 mm"
groove = "A"

[[pulley]]
name = "input pulley"
shaft = "gearbox input"
outside = "200 mm"
groove = "A"

[[belt]]
name = "traction belt"
section = "A"
length = "64 in"
length_is = "inside"
run = ["engine pulley", "input pulley"]

[gearbox]
input = "gearbox input"
output = "gearbox output"
forward = [40.0, 20.0]
donor_input_turns = "clockwise"

[[chain]]
name = "axle chain"
size = "08B"
driver = { shaft = "gearbox output", teeth = 12 }
driven = { shaft = "axle", teeth = 24 }

[wheels]
shaft = "axle"
roll_out = "1500 mm"
"""

OTHER_ENGINE = ('turns = "clockwise"\n\n[[shaft]]', 'turns = "counter-clockwise"\n\n[[shaft]]')
ON_BACK = ('name = "input pulley"', 'name = "input pulley"\nruns_on = "back"')
TURNED_ROUND = ("forward = [", 'mounted = "turned round"\nforward = [')
UPSIDE_DOWN = ("forward = [", 'mounted = "upside down"\nforward = [')
GEAR_PAIR = (
    '[[chain]]\nname = "axle chain"\nsize = "08B"',
    '[[gear]]\nname = "axle gears"',
)
RING_GEAR = (GEAR_PAIR[0], f"{GEAR_PAIR[1]}\ninside = true")


def case_of(*changes: tuple[str, str]) -> Case:
    text = CART
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return Case(read_text(text, "build.toml"))


@pytest.mark.parametrize(
    ("changes", "forwards"),
    [
        ([], True),
        ([OTHER_ENGINE], False),
        ([ON_BACK], False),
        ([TURNED_ROUND], False),
        # rolled over, the input is reversed for the gears and the axle for the machine
        ([UPSIDE_DOWN], True),
        ([GEAR_PAIR], False),
        ([RING_GEAR], True),
        ([OTHER_ENGINE, ON_BACK], True),
        ([TURNED_ROUND, GEAR_PAIR], True),
        ([UPSIDE_DOWN, OTHER_ENGINE, GEAR_PAIR], True),
        ([TURNED_ROUND, ON_BACK, GEAR_PAIR], False),
    ],
)
def test_every_turn_of_the_driveline_counts(changes: list[tuple[str, str]], forwards: bool) -> None:
    case = case_of(*changes)
    assert drives_forwards(case) is forwards
    (ask,) = direction.questions(case)
    found = judge(case, "Direction", ask)[0]
    assert found.verdict is (Verdict.SOUND if forwards else Verdict.STOP)
    assert found.shown == ("forwards" if forwards else "backwards")
    assert bool(found.remedy) is not forwards


def test_the_donors_direction_is_asked_for() -> None:
    case = case_of(('donor_input_turns = "clockwise"\n', ""))
    (ask,) = direction.questions(case)
    found = judge(case, "Direction", ask)[0]
    assert found.verdict is Verdict.NOT_KNOWN
    assert "turn its input by hand" in found.remedy


def test_a_machine_without_a_gearbox_is_not_asked() -> None:
    build = case_of().build.model_copy(update={"gearbox": None})
    assert list(direction.questions(Case(build))) == []

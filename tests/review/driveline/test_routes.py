"""The driveline as a graph."""

import pytest
from numpy.testing import assert_allclose

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.routes import gears, route_to, routes

TWO_BELTS = """
format = 1
name = "two belts and a chain"
[engine]
turns = "clockwise"
[[shaft]]
name = "engine"
at = ["800 mm", "0 mm"]
[[shaft]]
name = "middle"
at = ["500 mm", "0 mm"]
[[shaft]]
name = "box input"
at = ["200 mm", "0 mm"]
[[shaft]]
name = "wheel axle"
at = ["0 mm", "0 mm"]
[[pulley]]
name = "one"
shaft = "engine"
pitch = "80 mm"
groove = "A"
[[pulley]]
name = "two"
shaft = "middle"
pitch = "160 mm"
groove = "A"
[[pulley]]
name = "three"
shaft = "middle"
pitch = "100 mm"
groove = "A"
[[pulley]]
name = "four"
shaft = "box input"
pitch = "150 mm"
groove = "A"
[[belt]]
name = "first"
section = "A"
length = "40 in"
length_is = "inside"
run = ["one", "two"]
[[belt]]
name = "second"
section = "A"
length = "40 in"
length_is = "inside"
run = ["three", "four"]
[gearbox]
input = "box input"
output = "box output"
forward = [20.0, 10.0]
reverse = [25.0]
[[chain]]
name = "drive chain"
size = "08B"
driver = { shaft = "box output", teeth = 12 }
driven = { shaft = "wheel axle", teeth = 36 }
[wheels]
shaft = "wheel axle"
roll_out = "1500 mm"
"""


@pytest.fixture(scope="module")
def build() -> Build:
    return read_text(TWO_BELTS, "two-belts.toml")


def test_ratios_multiply_from_the_engine_to_the_ground(build: Build) -> None:
    case = Case(build)
    route = route_to(case, "wheel axle")
    ratio = route.ratio
    creep = float(case.drawn["belt.creep"][0])
    assert_allclose(ratio, 2.0 * 1.5 * 3.0 / (1.0 - creep) ** 2, rtol=1e-12)
    assert [stage.kind for stage in route.stages] == ["belt", "belt", "gearbox", "chain"]


def test_gears_count_only_behind_the_gearbox(build: Build) -> None:
    case = Case(build)
    first = gears(case)[0]
    before, after = route_to(case, "box input"), route_to(case, "wheel axle")
    assert_allclose(before.total_ratio(first), before.ratio)
    assert_allclose(after.total_ratio(first), after.ratio * 20.0)


def test_gears_are_named_in_file_order(build: Build) -> None:
    assert [(g.name, g.ratio, g.forward) for g in gears(Case(build))] == [
        ("1", 20.0, True),
        ("2", 10.0, True),
        ("r1", 25.0, False),
    ]


def test_a_shaft_that_nothing_drives_is_not_known(build: Build) -> None:
    with pytest.raises(NotKnownError, match="Nothing leads from the engine"):
        route_to(Case(build), "winch")


def test_every_shaft_is_reached_once(build: Build) -> None:
    assert set(routes(Case(build))) == {"engine", "middle", "box input", "box output", "wheel axle"}


def test_efficiencies_multiply_and_stay_below_one(build: Build) -> None:
    efficiency = float(route_to(Case(build), "wheel axle").efficiency[0])
    assert_allclose(efficiency, 0.95 * 0.95 * 0.85 * 0.96, rtol=1e-12)


def test_an_outside_gear_pair_turns_the_other_way() -> None:
    text = TWO_BELTS.replace(
        "[wheels]",
        '[[gear]]\nname = "reversal"\ndriver = { shaft = "wheel axle", teeth = 20 }\n'
        'driven = { shaft = "last", teeth = 20 }\n'
        '[[shaft]]\nname = "last"\nat = ["0 mm", "100 mm"]\n[wheels]',
    )
    case = Case(read_text(text, "reversal.toml"))
    assert route_to(case, "last").sense == -route_to(case, "wheel axle").sense

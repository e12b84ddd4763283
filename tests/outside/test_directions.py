"""Which way belts pull and gearboxes drive, against rotations in space.

Sources
-------
Axes: ISO 8855: x forward, y to the left, z up (from memory, high).
Right-hand rule: what turns counter-clockwise for an onlooker has its rotation vector pointing at
    him; a point of it moves with v = ω × r.
Belt drives: the driver pays its slack side out and draws its tight side in (any textbook, as
    Shigley, Mechanical Engineering Design, section 17-1).
SciPy: Rotation turns a gearbox as it is bolted in.
"""

from itertools import product

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.spatial.transform import Rotation

from beltwright.build.reading import read_text
from beltwright.physics.arrays import Array
from beltwright.review.belt.layout import belt_run
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.direction import drives_forwards

CART = """
format = 1
name = "Test cart"

[engine]
power = "9 kW"
at = "3300 rpm"
turns = "{turns}"

[[shaft]]
name = "engine"
at = ["800 mm", "60 mm"]
axis = "{axis}"

[[shaft]]
name = "gearbox input"
at = ["200 mm", "0 mm"]
axis = "{input_axis}"

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
length = "66 in"
length_is = "inside"
run = ["engine pulley", "input pulley"]

[gearbox]
input = "gearbox input"
output = "axle"
forward = [40.0, 20.0]
donor_input_turns = "{donor}"
mounted = "{mounted}"

[wheels]
shaft = "axle"
roll_out = "1500 mm"
"""

LOOKS_ALONG = {"upright": np.array([0.0, 0.0, 1.0]), "cross": np.array([0.0, -1.0, 0.0])}
"""From the machine to the onlooker: above it, or on its right."""

SENSE = {"counter-clockwise": 1.0, "clockwise": -1.0}
TURNINGS, AXES = tuple(SENSE), tuple(LOOKS_ALONG)

BOLTED = {
    "as in the donor": Rotation.identity(),
    "turned round": Rotation.from_euler("z", 180.0, degrees=True),
    "upside down": Rotation.from_euler("x", 180.0, degrees=True),
}


def case_of(**words: str) -> Case:
    usual = {
        "turns": "clockwise",
        "axis": "upright",
        "donor": "clockwise",
        "mounted": "as in the donor",
    }
    usual |= words
    return Case(read_text(CART.format(**({"input_axis": usual["axis"]} | usual)), "build.toml"), 0)


def in_space(axis: str, x: float, other: float) -> Array:
    """A point of a belt's plane, of which the second number is y or z."""
    return np.array([x, other, 0.0] if axis == "upright" else [x, 0.0, other])


@pytest.mark.parametrize(("axis", "turns"), list(product(AXES, TURNINGS)))
def test_the_side_that_the_driver_pays_out_is_slack(axis: str, turns: str) -> None:
    """v = ω × r where each span leaves the engine pulley, against the way to the other pulley."""
    case = case_of(axis=axis, turns=turns)
    layout = belt_run(case, case.build.belt[0])
    turning = SENSE[turns] * LOOKS_ALONG[axis]
    centre = in_space(axis, 0.8, 0.06)
    onward = in_space(axis, 0.2, 0.0) - centre
    leaves, meets = layout.path.spans
    for place, x, y in ((0, leaves.start_x, leaves.start_y), (1, meets.end_x, meets.end_y)):
        touches = in_space(axis, float(np.ravel(x)[0]), float(np.ravel(y)[0]))
        paid_out = np.cross(turning, touches - centre) @ onward > 0.0
        assert layout.strand(place) == ("slack" if paid_out else "tight")


@pytest.mark.parametrize(
    ("axis", "turns", "donor", "mounted"), list(product(AXES, TURNINGS, TURNINGS, BOLTED))
)
def test_a_gearbox_drives_as_it_is_bolted_in(
    axis: str, turns: str, donor: str, mounted: str
) -> None:
    """The gears tie the axle to the input; bolting turns both, the engine stays as it is.

    Wheels roll forwards where the axle's rotation vector points to the left: their tops, at r =
    +z, then move with ω × r forwards.
    """
    forwards = np.array([0.0, 1.0, 0.0])
    shaft = LOOKS_ALONG[axis]
    ties = SENSE[donor]  # turns of the axle, forwards in the donor, for one of the input
    bolted = BOLTED[mounted]
    input_in_the_gearbox = bolted.inv().apply(SENSE[turns] * shaft) @ shaft
    axle = bolted.apply(ties * input_in_the_gearbox * forwards)
    case = case_of(axis=axis, turns=turns, donor=donor, mounted=mounted)
    assert drives_forwards(case) is bool(axle @ forwards > 0.0)


@pytest.mark.parametrize(("axis", "input_axis"), [("upright", "cross"), ("cross", "upright")])
def test_a_twisted_belt_is_not_worked_out(axis: str, input_axis: str) -> None:
    """A quarter turn leaves its plane: a V-belt rolls over in its groove unless its spans are long
    and its grooves deep (Machinery's Handbook, quarter-turn drives, from memory)."""
    case = case_of(axis=axis, input_axis=input_axis)
    with pytest.raises(NotKnownError, match="twisted"):
        belt_run(case, case.build.belt[0])
    with pytest.raises(NotKnownError, match="twisted"):
        drives_forwards(case)


def test_nobody_guesses_which_way_an_engine_turns_that_lies_across() -> None:
    """Small engines with a level shaft turn counter-clockwise as one looks at the end of it (SAE
    J609, from memory, medium): from the right either way, as it comes out left or right."""
    lying = case_of(axis="cross")
    text = CART.format(
        axis="cross",
        input_axis="cross",
        donor="clockwise",
        mounted="as in the donor",
        turns="clockwise",
    )
    unsaid = Case(read_text(text.replace('turns = "clockwise"\n', "", 1), "build.toml"), 0)
    layout = belt_run(unsaid, unsaid.build.belt[0])
    assert_allclose(layout.path.length, belt_run(lying, lying.build.belt[0]).path.length)
    with pytest.raises(NotKnownError, match="starter cord"):
        _ = layout.travel
    assert layout.strand(0) == "between"

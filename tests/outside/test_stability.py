"""Centre of gravity, tipping and cornering against standards and independent computing.

Sources
-------
NHTSA: definition of the Static Stability Factor, 49 CFR part 575 (definition seen in print).
ISO 10392: Road vehicles, determination of centre of gravity, axle lift method (from memory).
Manuals: makers' manuals of ride-on mowers (seen in print): never above 15°, 26.8 %; 10° with
    attachments or trailer; 15° is about 1.6 m in 6.1 m.
Gillespie: T. D. Gillespie, Fundamentals of Vehicle Dynamics, SAE 1992, section 9 (from memory).
Statics: moments about the tip axis, solved by SciPy brentq on turned coordinates.
"""

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation

from beltwright.physics.stability.centre_of_gravity import (
    Balance,
    ahead_of_rear_axle,
    height_from_raised_end,
    put_together,
)
from beltwright.physics.stability.cornering import (
    fastest_turn,
    sideways_limit,
    tightest_turn,
)
from beltwright.physics.stability.slope import (
    FRONT,
    LEFT,
    NEVER_STEEPER,
    NEVER_STEEPER_LOADED,
    REAR,
    RIGHT,
    TipAxis,
    pivoting_axes,
    rigid_axes,
    static_limit,
    tip_slope,
)

GRAVITY = 9.80665


def balance(x: float, y: float, z: float) -> Balance:
    """A machine of 300 kg with its weight at that place."""
    return Balance(np.asarray(300.0), np.asarray(x), np.asarray(y), np.asarray(z))


def test_stability_factor() -> None:
    """NHTSA: t / 2h with 0.90 and 0.55 m: 0.8182, and tan of the tilt 39.289°."""
    tilt = static_limit(rigid_axes(1.25, 0.90, 0.90), balance(0.45, 0.0, 0.55), LEFT)
    assert np.degrees(tilt) == pytest.approx(39.289, abs=5e-4)
    assert np.tan(tilt) == pytest.approx(0.8182, abs=5e-5)
    assert np.tan(tilt) == pytest.approx(0.90 / (2 * 0.55), rel=1e-12)


def test_pivoting_front_axle() -> None:
    """Statics, root-finding: pivot 0.25 m up, weight 0.45 m ahead, 0.55 m up: 32.050°."""
    axes = pivoting_axes(1.25, 0.90, 0.90, 0.25)
    for side in (LEFT, RIGHT):
        found = static_limit(axes, balance(0.45, 0.0, 0.55), side)
        assert np.degrees(found) == pytest.approx(32.050, abs=5e-4)


@pytest.mark.parametrize("side", [LEFT, RIGHT])
def test_up_and_down_hill(side: float) -> None:
    """Statics: nose up tan θ = b/h, nose down tan θ = (L − b)/h, whatever the sides do."""
    axes = rigid_axes(1.25, 0.90, 0.90)
    weight = balance(0.45, 0.0, 0.55)
    assert static_limit(axes, weight, REAR) == pytest.approx(np.arctan(0.45 / 0.55), rel=1e-12)
    assert static_limit(axes, weight, FRONT) == pytest.approx(np.arctan(0.80 / 0.55), rel=1e-12)
    assert static_limit(axes, weight, side) < static_limit(axes, weight, FRONT)


@pytest.mark.parametrize("downhill", [-2.9, -1.9, -1.2, -0.4, 0.3, 1.1, 2.0, 2.7])
def test_any_direction_by_turning_the_machine(downhill: float) -> None:
    """The machine turned with its slope until the weight stands over a tip line (brentq)."""
    place = np.array([0.45, 0.03, 0.55])
    axes = pivoting_axes(1.25, 0.80, 0.90, 0.25)
    tilting = np.array([-np.sin(downhill), np.cos(downhill), 0.0])

    def over(axis: TipAxis, slope: float) -> float:
        turned = Rotation.from_rotvec(slope * tilting)
        start, end = (
            turned.apply(np.array(point, dtype=float)) for point in (axis.start, axis.end)
        )
        weight = turned.apply(place)
        along, out = end - start, weight - start
        return float(along[0] * out[1] - along[1] * out[0])

    roots = [
        brentq(lambda s, axis=axis: over(axis, s), 0.0, 1.5, xtol=1e-14)
        for axis in axes
        if over(axis, 1.5) < 0.0
    ]
    found = static_limit(axes, balance(*place), downhill)
    assert found == pytest.approx(min(roots), abs=1e-11)


def test_tip_line_of_unlike_tracks_by_distance() -> None:
    """Statics: the level distance of the weight from the tip line over its height."""
    axes = rigid_axes(1.25, 0.60, 0.90)
    start, end = np.array([0.0, 0.45]), np.array([1.25, 0.30])
    along = (end - start) / np.linalg.norm(end - start)
    out = np.array([0.45, 0.0]) - start
    distance = abs(along[0] * out[1] - along[1] * out[0])
    square_to_line = np.arctan2(along[0], -along[1])
    found = tip_slope(axes[2], balance(0.45, 0.0, 0.55), square_to_line)
    assert found == pytest.approx(np.arctan(distance / 0.55), rel=1e-12)


def test_turn_on_the_level() -> None:
    """NHTSA factor 0.8182, R 3 m: 4.9062 m/s."""
    limit = sideways_limit(np.arctan(0.90 / (2 * 0.55)))
    assert fastest_turn(3.0, limit) == pytest.approx(4.9062, abs=5e-5)
    assert tightest_turn(4.9062, limit) == pytest.approx(3.0, abs=5e-5)


@pytest.mark.parametrize("side_slope", [-0.15, 0.0, 0.1, 0.25])
def test_turn_on_a_side_slope_by_moments(side_slope: float) -> None:
    """Gillespie: moments about the outer tyres, weight and turning force, solved by brentq."""
    half, height, radius = 0.45, 0.55, 6.0

    def keeping(speed: float) -> float:
        weight_in = GRAVITY * (np.cos(side_slope) * half - np.sin(side_slope) * height)
        return float(weight_in - speed**2 / radius * height)

    root = brentq(keeping, 0.0, 20.0, xtol=1e-13)
    assert fastest_turn(radius, half / height, side_slope) == pytest.approx(root, rel=1e-11)


def test_ceilings_of_the_manuals() -> None:
    """Manuals: 15° = 26.8 %, 1.6 m in 6.1 m; 10° with attachments or trailer."""
    assert np.tan(NEVER_STEEPER) == pytest.approx(0.268, abs=5e-4)
    # 6.1 m is measured along the slope and both are rounded to a decimetre
    assert 6.1 * np.sin(NEVER_STEEPER) == pytest.approx(1.6, abs=0.05)
    assert np.degrees(NEVER_STEEPER_LOADED) == pytest.approx(10.0, abs=1e-12)


@pytest.mark.parametrize("raised", [-0.45, -0.2, 0.3, 0.5])
@pytest.mark.parametrize(("front_radius", "rear_radius"), [(0.19, 0.23), (0.22, 0.22)])
def test_height_by_turning_the_machine(
    raised: float, front_radius: float, rear_radius: float
) -> None:
    """A machine of known height is tilted point by point and weighed by moments."""
    wheelbase, ahead, height = 1.235, 0.508, 0.47

    def front_ground(tilt: float) -> float:
        turned = Rotation.from_rotvec([0.0, -tilt, 0.0])
        axle = turned.apply([wheelbase, 0.0, front_radius - rear_radius])
        return float(rear_radius + axle[2] - front_radius - raised)

    tilt = brentq(front_ground, -0.9, 0.9, xtol=1e-15)
    turned = Rotation.from_rotvec([0.0, -tilt, 0.0])
    front_contact = turned.apply([wheelbase, 0.0, front_radius - rear_radius])[0]
    weight = turned.apply([ahead, 0.0, height - rear_radius])[0]
    share = weight / front_contact
    found = height_from_raised_end(share, ahead, wheelbase, front_radius, rear_radius, raised)
    assert found == pytest.approx(height, abs=1e-12)


def test_height_with_like_wheels() -> None:
    """ISO 10392: z = r + (Δw) L / tan φ with like wheels, sin φ = H / L."""
    wheelbase, radius, raised, level, lifted = 1.235, 0.22, 0.4, 0.411, 0.352
    tilt = np.arcsin(raised / wheelbase)
    expected = radius + (level - lifted) * wheelbase / np.tan(tilt)
    found = height_from_raised_end(lifted, level * wheelbase, wheelbase, radius, radius, raised)
    assert found == pytest.approx(expected, rel=1e-12)


def test_scales_and_parts_agree() -> None:
    """ISO 10392 level weighing of two known weights gives their centre of mass."""
    both = put_together([214.0, 82.0], [0.5, 0.25], [0.01, -0.02], [0.42, 0.85])
    wheelbase = 1.235
    front = (214.0 * 0.5 + 82.0 * 0.25) / wheelbase
    assert ahead_of_rear_axle(front, 296.0 - front, wheelbase) == pytest.approx(both.x, rel=1e-12)
    assert both.z == pytest.approx(np.average([0.42, 0.85], weights=[214.0, 82.0]), rel=1e-12)
    assert both.y == pytest.approx(np.average([0.01, -0.02], weights=[214.0, 82.0]), rel=1e-12)

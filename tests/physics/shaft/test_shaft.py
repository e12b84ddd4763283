"""Pulleys on shafts, overhung shafts and chain: trends and limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.shaft.axle_torque import against_donor, axle_torque
from beltwright.physics.shaft.chain import speed_swing, sprocket_pitch_diameter, working_pull
from beltwright.physics.shaft.fit import (
    bush_wall,
    fit_gap,
    key_torque,
    rim_wobble,
    set_screw_torque,
    torque_of_power,
)
from beltwright.physics.shaft.overhung import (
    Overhang,
    bearing_life_ratio,
    bearing_moment,
    endurance_limit,
    fatigue_factor,
    lean,
    yield_factor,
)


@given(st.floats(0.01, 0.05), st.floats(0.01, 0.05), st.floats(100e6, 900e6))
def test_key_torque_is_where_a_stress_reaches_its_limit(
    diameter: float, length: float, strength: float
) -> None:
    torque = key_torque(strength, diameter, 0.006, 0.006, length)
    force = float(torque) / (diameter / 2.0)
    shear = force / (0.006 * length) / (strength / np.sqrt(3.0))
    side = force / (0.006 / 2.0 * length) / strength
    assert max(float(shear), float(side)) == pytest.approx(1.0)


def test_two_screws_hold_twice() -> None:
    assert set_screw_torque(4448.0, 0.025, 2) == 2 * set_screw_torque(4448.0, 0.025)


def test_a_press_fit_does_not_wobble() -> None:
    assert fit_gap(0.0253, 0.0254) < 0.0
    assert rim_wobble(fit_gap(0.0253, 0.0254), 0.025, 0.2) == 0.0
    assert rim_wobble(fit_gap(0.0255, 0.0254), 0.025, 0.2) == pytest.approx(0.8e-3)


def test_plain_geometry() -> None:
    assert bush_wall(0.025, 0.019) == pytest.approx(0.003)
    assert torque_of_power(9300.0, 3300 * np.pi / 30) == pytest.approx(26.9, abs=0.02)


def test_steady_torque_alone_is_judged_by_the_tensile_strength() -> None:
    factor = fatigue_factor(0.02, 0.0, 50.0, 170e6, 440e6, 2.0, 1.0)
    assert factor == pytest.approx(440e6 / (np.sqrt(3.0) * 16.0 * 50.0 / (np.pi * 0.02**3)))


def test_stronger_and_thinner_shafts_tire_later() -> None:
    assert endurance_limit(700e6, 0.02) > endurance_limit(440e6, 0.02)
    assert endurance_limit(440e6, 0.015) > endurance_limit(440e6, 0.03)


def test_overhang_against_the_donor() -> None:
    new, old = bearing_moment(700.0, 0.055), bearing_moment(500.0, 0.042)
    assert new / old == pytest.approx(1.8333, abs=1e-4)
    assert bearing_life_ratio(new / old, 1.2) == pytest.approx((21.0 / 38.5) ** 3 / 1.2)


def test_no_overhang_no_lean() -> None:
    assert float(lean(Overhang(0.02, 0.08, 0.0), 700.0)) == 0.0


@given(st.floats(0.0, 500.0), st.floats(0.1, 500.0), st.floats(0.01, 0.06))
def test_yield_is_that_of_the_stress_tensor(moment: float, torque: float, diameter: float) -> None:
    """Distortion energy of the principal stresses at the surface, by NumPy's eigenvalues."""
    bend = 32.0 * moment / (np.pi * diameter**3)
    shear = 16.0 * torque / (np.pi * diameter**3)
    one, two, three = np.linalg.eigvalsh([[bend, shear, 0.0], [shear, 0.0, 0.0], [0.0, 0.0, 0.0]])
    mises = np.sqrt(((one - two) ** 2 + (two - three) ** 2 + (three - one) ** 2) / 2.0)
    assert yield_factor(diameter, moment, torque, 300e6) == pytest.approx(300e6 / mises, rel=1e-9)


@given(st.integers(8, 120))
def test_sprockets_of_many_teeth_are_round(teeth: int) -> None:
    assert sprocket_pitch_diameter(0.0127, teeth) > teeth * 0.0127 / np.pi
    assert speed_swing(teeth) > speed_swing(teeth + 1)


def test_chain_pull_and_axle() -> None:
    assert working_pull(100.0, 0.1, 0.7, 2.0) == pytest.approx(2000.0 + 0.7 * 4.0)
    assert axle_torque(np.array([300.0, 900.0]), 400.0).tolist() == [300.0, 400.0]
    assert against_donor(600.0, 400.0) == 1.5

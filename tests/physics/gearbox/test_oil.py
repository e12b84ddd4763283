"""Oil: what the viscosity line must keep, and what is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.gearbox.oil import density, kinematic_viscosity, swelling, walther_line


@given(st.floats(20.0, 600.0), st.floats(0.05, 0.4), st.floats(0.0, 140.0))
def test_hotter_is_thinner_and_the_points_are_met(at_40: float, share: float, t: float) -> None:
    at_100 = max(at_40 * share, 2.5)
    line = walther_line(at_40 * 1e-6, 313.15, at_100 * 1e-6, 373.15)
    assert kinematic_viscosity(line, 313.15) == pytest.approx(at_40 * 1e-6, rel=1e-9)
    assert kinematic_viscosity(line, 373.15) == pytest.approx(at_100 * 1e-6, rel=1e-9)
    assert kinematic_viscosity(line, 274.15 + t) < kinematic_viscosity(line, 273.15 + t)


@pytest.mark.parametrize(("at_40", "at_100"), [(100e-6, 100e-6), (80e-6, 90e-6), (5e-6, 1.5e-6)])
def test_impossible_oils_are_refused(at_40: float, at_100: float) -> None:
    with pytest.raises(ValueError, match="thinner when hot"):
        walther_line(at_40, 313.15, at_100, 373.15)


@given(st.floats(250.0, 420.0))
def test_mass_is_kept_when_oil_swells(kelvin: float) -> None:
    assert density(890.0, kelvin) * swelling(288.15, kelvin) == pytest.approx(890.0)


def test_lines_over_samples() -> None:
    line = walther_line(np.array([140e-6, 220e-6]), 313.15, np.array([14.8e-6, 18.8e-6]), 373.15)
    assert kinematic_viscosity(line, 333.15).shape == (2,)

"""Stress in a bracket: what it grows and shrinks with."""

import numpy as np
import pytest

from beltwright.physics.plate.bracket import bracket_stress

CASE = {"along": 200.0, "across": 150.0, "lever": 0.06, "stand_off": 0.03, "width": 0.04}


def test_the_parts_make_the_whole() -> None:
    found = bracket_stress(**CASE, thickness=0.006)
    along = float(found.pull + found.upright + found.flat)
    across = float(found.twist + found.shear)
    assert float(found.together) == pytest.approx(np.hypot(along, np.sqrt(3.0) * across))


def test_which_way_it_is_pulled_does_not_matter() -> None:
    there = bracket_stress(**CASE, thickness=0.006).together
    back = bracket_stress(**{**CASE, "along": -200.0, "across": -150.0}, thickness=0.006).together
    assert there == back


def test_thicker_wider_and_closer_strain_less() -> None:
    base = float(bracket_stress(**CASE, thickness=0.006).together)
    assert bracket_stress(**CASE, thickness=0.008).together < base
    assert bracket_stress(**{**CASE, "width": 0.05}, thickness=0.006).together < base
    assert bracket_stress(**{**CASE, "lever": 0.03}, thickness=0.006).together < base
    assert bracket_stress(**{**CASE, "stand_off": 0.01}, thickness=0.006).together < base


def test_no_metal_bears_nothing() -> None:
    widths = np.array([0.0, 0.04])
    found = bracket_stress(200.0, 150.0, 0.06, 0.03, widths, 0.006).together
    assert np.isinf(found[0])
    assert np.isfinite(found[1])

"""Angles are told to a tenth of a degree, whole ones without it."""

import numpy as np
import pytest

from beltwright.review.angle_words import degrees


@pytest.mark.parametrize(("angle", "words"), [(12.5, "12.5°"), (-30.0, "-30°"), (0.04, "0°")])
def test_an_angle_is_told_in_degrees(angle: float, words: str) -> None:
    assert degrees(float(np.radians(angle))) == words

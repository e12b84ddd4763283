"""The build as written is what stands first, whatever the shape."""

import numpy as np
import pytest

from beltwright.physics.arrays import ArrayLike
from beltwright.review.nominal import nominal, nominal_alone

SHAPES = [2.5, np.array(2.5), np.array([2.5, 2.4, 2.6]), np.array([[2.5, 2.4], [9.0, 9.0]])]


@pytest.mark.parametrize("values", SHAPES)
def test_the_value_as_written_is_the_first(values: ArrayLike) -> None:
    assert nominal(values) == 2.5


@pytest.mark.parametrize("values", SHAPES[:3])
def test_the_build_as_written_is_an_axis_of_one_sample(values: ArrayLike) -> None:
    alone = nominal_alone(values)
    assert alone.shape == (1,)
    assert alone[0] == 2.5


def test_a_build_without_samples_has_no_value() -> None:
    with pytest.raises(IndexError):
        nominal(np.array([]))

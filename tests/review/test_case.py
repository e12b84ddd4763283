"""A build's numbers along the leading axis."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_array_equal

from beltwright.build.model import Build
from beltwright.quantity import Kind, read_quantity
from beltwright.review.case import Case, NotKnownError, latin_hypercube

EMPTY = Build(format=1, name="empty")


def test_a_number_without_tolerance_is_worked_out_once() -> None:
    case = Case(EMPTY, samples=100)
    assert case.si(read_quantity("118 mm", Kind.LENGTH, "a.b")).shape == (1,)


def test_the_nominal_build_stands_first() -> None:
    case = Case(EMPTY, samples=100)
    drawn = case.si(read_quantity("118 ± 2 mm", Kind.LENGTH, "a.b"))
    assert drawn.shape == (101,)
    assert drawn[0] == 0.118


@given(st.integers(2, 300), st.floats(1.0, 100.0), st.floats(0.001, 0.9))
def test_every_stratum_of_a_tolerance_is_drawn_once(
    samples: int, middle: float, half: float
) -> None:
    quantity = read_quantity(f"{middle:.6f} ± {half:.6f} mm", Kind.LENGTH, "pulley.p.outside")
    draws = latin_hypercube(quantity, samples)[1:]
    share = (draws - quantity.low) / (quantity.high - quantity.low)
    strata = np.clip(np.floor(share * samples + 1e-6), 0, samples - 1)
    assert_array_equal(np.sort(strata), np.arange(samples))


def test_draws_depend_on_the_key_alone() -> None:
    one, two = (read_quantity("118 ± 2 mm", Kind.LENGTH, key) for key in ("a.b", "a.c"))
    assert_array_equal(latin_hypercube(one, 50), latin_hypercube(one, 50))
    assert not np.array_equal(latin_hypercube(one, 50), latin_hypercube(two, 50))


def test_candidates_take_the_place_of_what_stands_in_the_file() -> None:
    candidates = np.array([0.1, 0.2, 0.3])
    case = Case(EMPTY, replaced={"a.b": candidates})
    assert_array_equal(case.si(read_quantity("118 mm", Kind.LENGTH, "a.b")), candidates)


def test_a_missing_number_says_how_to_measure_it() -> None:
    with pytest.raises(NotKnownError) as missing:
        Case(EMPTY).need(None, "engine.idle", "Hold a rev counter to the spark lead.")
    assert missing.value.key == "engine.idle"
    assert missing.value.how == "Hold a rev counter to the spark lead."


def test_an_assumption_is_kept_with_its_reason() -> None:
    case = Case(EMPTY, samples=10)
    drawn = case.suppose(None, "belt.creep", "1 % ± 1 %", Kind.RATIO, "common practice")
    assert drawn.shape == (11,)
    assert case.assumptions["belt.creep"].why == "common practice"


def test_the_builders_own_number_is_no_assumption() -> None:
    case = Case(EMPTY)
    given_value = read_quantity("2 %", Kind.RATIO, "belt.creep")
    assert case.suppose(given_value, "belt.creep", "1 %", Kind.RATIO, "no")[0] == 0.02
    assert not case.assumptions


def test_work_done_once_still_tells_what_it_used() -> None:
    case = Case(EMPTY)
    quantity = read_quantity("118 mm", Kind.LENGTH, "a.b")
    runs = []

    def work() -> float:
        runs.append(1)
        return float(case.si(quantity)[0])

    for _ in range(2):
        with case.watching() as used:
            assert case.once("work", work) == 0.118
        assert used == {"a.b"}
    assert len(runs) == 1

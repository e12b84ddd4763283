"""A build's numbers along the leading axis."""

import zlib

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_array_equal

from beltwright.build.model import Build
from beltwright.quantity import Kind, read_quantity
from beltwright.review.case import SEED, Case, NotKnownError, _strata, latin_hypercube

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


def test_the_draws_of_an_input_are_kept_for_its_next_tolerance() -> None:
    """Of a key not drawn before: the same stream as NumPy's own, scaled, and no second one."""
    key = "pulley.drawn once.outside"
    narrow, wide = (read_quantity(f"100 ± {by} mm", Kind.LENGTH, key) for by in (1, 4))
    first = latin_hypercube(narrow, 60)
    stream = np.random.default_rng([SEED, zlib.crc32(key.encode())])
    places = (stream.permutation(60) + stream.random(60)) / 60
    assert_array_equal(first[1:], narrow.low + places * (narrow.minus + narrow.plus))
    made = _strata.cache_info().misses
    assert_array_equal(latin_hypercube(wide, 60)[1:], wide.low + places * (wide.minus + wide.plus))
    assert _strata.cache_info().misses == made
    latin_hypercube(wide, 61)
    assert _strata.cache_info().misses == made + 1


def test_nobody_writes_over_the_draws_that_are_kept() -> None:
    with pytest.raises(ValueError, match="read-only"):
        _strata("a.b", 20)[0] = 0.5


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

"""A finding's bar, also where its range is open."""

import pytest

from beltwright.web.range_bar import range_bar


@pytest.mark.parametrize(
    ("low", "high", "ends"), [(1.0, None, (None, 100.0)), (None, 3.0, (0.0, None))]
)
def test_an_open_range_runs_to_the_end_of_the_bar(
    low: float | None, high: float | None, ends: tuple[float | None, float | None]
) -> None:
    at = range_bar({"value": 2.0, "low": low, "high": high, "limit": None})
    assert at is not None
    for name, end in zip(("low", "high"), ends, strict=True):
        if end is not None:
            assert at[name] == end
        else:
            assert at[name] is not None


def test_a_value_without_a_range_has_no_ends() -> None:
    at = range_bar({"value": 2.0, "low": None, "high": None, "limit": {"at_least": 1.0}})
    assert at is not None
    assert at["low"] is None
    assert at["high"] is None

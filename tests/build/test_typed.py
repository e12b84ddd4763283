"""What is typed into a field, as the model wants it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.build.typed import as_written


@pytest.mark.parametrize(
    ("path", "typed", "written"),
    [
        (("pulley", 0, "outside"), "95 mm", "95 mm"),
        (("pulley", 0, "outside"), "95", "95"),
        (("belt", 0, "count"), "2", 2),
        (("belt", 0, "count"), " 2 ", 2),
        (("belt", 0, "count"), "2.5", 2.5),
        (("belt", 0, "count"), "two", "two"),
        (("belt", 0, "count"), "true", "true"),
        (("gearbox", "forward", 0), "16", 16.0),
        (("gearbox", "forward", 0), "NaN", "NaN"),
        (("gearbox", "forward"), "[16, 12.1]", [16, 12.1]),
        (("gearbox", "forward"), "16, 12.1", "16, 12.1"),
        (("part", 0, "have"), "true", True),
        (("part", 0, "have"), "False", False),
        (("part", 0, "have"), "yes", "yes"),
        (("part", 0, "teeth"), "12", 12),
        (("part", 0, "name"), "12", "12"),
        (("engine", "governor"), "as made", "as made"),
        (("nothing", "of", "that"), "12", "12"),
    ],
)
def test_as_the_model_wants_it(path: tuple[str | int, ...], typed: str, written: object) -> None:
    found = as_written(path, typed)
    assert found == written
    assert type(found) is type(written)


@given(
    st.text(), st.sampled_from([("belt", 0, "count"), ("gearbox", "forward"), ("part", 0, "have")])
)
def test_no_text_breaks_it(text: str, path: tuple[str | int, ...]) -> None:
    found = as_written(path, text)
    assert found is text or not isinstance(found, str)

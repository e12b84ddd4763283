"""A small build to choose parts for."""

from collections.abc import Callable
from pathlib import Path

import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.build.shop import Part
from beltwright.options.price_list import load_prices

HERE = Path(__file__).parent

Make = Callable[..., Build]


@pytest.fixture
def small_text() -> str:
    """The build file without anything left open."""
    return (HERE / "small_build.toml").read_text(encoding="utf-8")


@pytest.fixture
def vary_text() -> str:
    """What is left open: pulleys, belt and tyre."""
    return (HERE / "vary_pulleys_and_belt.toml").read_text(encoding="utf-8")


@pytest.fixture
def prices() -> tuple[Part, ...]:
    """A short price list."""
    return load_prices(HERE / "prices.csv")


@pytest.fixture
def make(small_text: str) -> Make:
    """Makes the build with something left open, and texts replaced."""

    def made(vary: str = "", old: str = "", new: str = "") -> Build:
        assert old in small_text
        return read_text(f"{small_text.replace(old, new)}\n{vary}")

    return made


@pytest.fixture
def open_build(make: Make, vary_text: str) -> Build:
    """The build with pulleys, belt and tyre left open."""
    return make(vary_text)

"""The limits of every belt, as the review holds them."""

from collections.abc import Iterator

from beltwright.build.model import Build
from beltwright.options.limit import Limit


def belt_limits(build: Build) -> Iterator[Limit]:
    """What the belts of a build are held to."""
    yield from ()

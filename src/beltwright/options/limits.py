"""Every limit that is judged before the whole review is: cheap ones first."""

from beltwright.build.model import Build
from beltwright.options.belt_limits import belt_limits
from beltwright.options.limit import Limit
from beltwright.options.speed_limits import speed_limits


def limits_of(build: Build) -> tuple[Limit, ...]:
    """The limits of a build, in the order in which they are judged."""
    return (*speed_limits(build), *belt_limits(build))

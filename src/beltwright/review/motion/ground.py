"""The ground that a build is to run on: its grip and its rolling drag."""

from typing import Literal, NamedTuple

from beltwright.build.fields import Share
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.tables.surfaces import Surface, surface

HARD = "asphalt"
"""The dry, hard ground that every machine meets sooner or later: a yard, a road, a ramp."""


class Ground(NamedTuple):
    """One kind of ground as the case sees it.

    Its numbers are read when asked for, so that a finding about one ground does not rest on the
    numbers of the others.
    """

    case: Case
    name: str
    row: Surface

    @property
    def grip(self) -> Array:
        """Best thrust over load [1], over its whole range."""
        return self.case.suppose(
            self._tried("grip"),
            f"ground.{self.name}.grip",
            _range(self.row.grip_low, self.row.grip_usual, self.row.grip_high),
            Kind.RATIO,
            f"{self.row.grip_source} ({self.row.grip_status})",
        )

    @property
    def rolling(self) -> Array:
        """Rolling drag over load [1], over its whole range."""
        return self.case.suppose(
            self._tried("rolling"),
            f"ground.{self.name}.rolling",
            _range(self.row.rolling_low, self.row.rolling_usual, self.row.rolling_high),
            Kind.RATIO,
            f"{self.row.rolling_source} ({self.row.rolling_status})",
        )

    def _tried(self, what: Literal["grip", "rolling"]) -> Share | None:
        """What the builder found out about it."""
        rows = (row for row in self.case.build.ground if row.name == self.name)
        return next((getattr(row, what) for row in rows), None)


def grounds(case: Case) -> tuple[Ground, ...]:
    """Every ground that the builder names, the usual one first."""
    return tuple(ground(case, name) for name in case.build.machine.ground)


def ground(case: Case, name: str) -> Ground:
    """One kind of ground, whether the builder names it or not."""
    return Ground(case, name, surface(name))


def grippiest(case: Case) -> Ground:
    """The ground named that usually grips best."""
    return max(grounds(case), key=lambda each: each.row.grip_usual)


def poorest(case: Case) -> Ground:
    """The ground named that usually grips least."""
    return min(grounds(case), key=lambda each: each.row.grip_usual)


def freest(case: Case) -> Ground:
    """The ground named that usually drags least."""
    return min(grounds(case), key=lambda each: each.row.rolling_usual)


def steepest(case: Case) -> Array:
    """The steepest slope that the build will be driven on [rad]."""
    return case.suppose(
        case.build.machine.slope,
        "machine.slope",
        "15 %",
        Kind.ANGLE,
        "no slope is given: a yard of 15 % is taken (assumed); write the steepest slope that you "
        'will drive on, for example slope = "20 %"',
    )


def _range(low: float, usual: float, high: float) -> str:
    return f"{usual:g} +{high - usual:.6g} -{usual - low:.6g}"

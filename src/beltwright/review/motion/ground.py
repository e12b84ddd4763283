"""The ground that a build is to run on: its grip and its rolling drag."""

from dataclasses import dataclass

from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.tables.surfaces import Surface, surface


@dataclass(frozen=True)
class Ground:
    """One kind of ground as the case sees it.

    grip     best thrust over load [1], over its whole range
    rolling  rolling drag over load [1], over its whole range
    """

    name: str
    grip: Array
    rolling: Array
    row: Surface


def grounds(case: Case) -> tuple[Ground, ...]:
    """Every ground that the builder names, the usual one first."""
    return case.once("ground", lambda: tuple(_ground(case, n) for n in case.build.machine.ground))


def ground(case: Case, name: str) -> Ground:
    """One kind of ground, whether the builder names it or not."""
    return case.once(("ground", name), lambda: _ground(case, name))


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


def _ground(case: Case, name: str) -> Ground:
    row = surface(name)
    grip = case.suppose(
        None,
        f"ground.{name}.grip",
        _range(row.grip_low, row.grip_usual, row.grip_high),
        Kind.RATIO,
        f"grip on {name}: {row.grip_source} ({row.grip_status})",
    )
    rolling = case.suppose(
        None,
        f"ground.{name}.rolling",
        _range(row.rolling_low, row.rolling_usual, row.rolling_high),
        Kind.RATIO,
        f"rolling drag on {name}: {row.rolling_source} ({row.rolling_status})",
    )
    return Ground(name, grip, rolling, row)


def _range(low: float, usual: float, high: float) -> str:
    return f"{usual:g} +{high - usual:.6g} -{usual - low:.6g}"

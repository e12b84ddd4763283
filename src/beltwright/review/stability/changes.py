"""What a lift, wider wheels and a heavier driver do to tipping, as numbers."""

from typing import NamedTuple

from beltwright.physics.arrays import ArrayLike
from beltwright.physics.customary import INCH, POUND
from beltwright.physics.stability.centre_of_gravity import Balance, put_together
from beltwright.physics.stability.slope import LEFT, RIGHT
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.nominal import nominal, nominal_alone
from beltwright.review.road_words import thinks_in_inches
from beltwright.review.stability.centre_of_gravity import driver, states
from beltwright.review.stability.tipping import (
    least_limit,
    with_tracks_wider,
    with_weight_lowered,
)

LIFT, WIDER, HEAVIER = 0.050, 0.100, 20.0
"""Changes tried [m, m, kg], and the same for who thinks in inches and pounds:"""

LIFT_INCHES, WIDER_INCHES, HEAVIER_POUNDS = 2 * INCH, 4 * INCH, 50 * POUND


class Change(NamedTuple):
    """One thing changed on the nominal build.

    words   what was changed
    static  slope across which the machine then tips [rad]
    """

    words: str
    static: float


def changes(case: Case) -> tuple[Change, Change, Change]:
    """The side limit after a lift, with wider wheels, with a heavier driver."""
    inches = thinks_in_inches(case)
    lift, wider, heavier = (
        (LIFT_INCHES, WIDER_INCHES, HEAVIER_POUNDS) if inches else (LIFT, WIDER, HEAVIER)
    )
    show = case.units.show
    return (
        Change(f"A lift of {show(lift, Kind.LENGTH)}", nominal(with_weight_lowered(case, -lift))),
        Change(
            f"wheels {show(wider, Kind.LENGTH)} wider apart",
            nominal(with_tracks_wider(case, wider)),
        ),
        Change(f"a driver {show(heavier, Kind.MASS)} heavier", _with_heavier_driver(case, heavier)),
    )


def _with_heavier_driver(case: Case, more: float) -> float:
    seated = _as_written(driver(case))
    extra = (more, seated.x, seated.y, seated.z)
    heavier = [_with(_as_written(state.balance), extra) for state in states(case)]
    return min(nominal(least_limit(case, each, LEFT, RIGHT)) for each in heavier)


def _with(balance: Balance, extra: tuple[ArrayLike, ...]) -> Balance:
    parts = (balance.mass, balance.x, balance.y, balance.z)
    return put_together(*([part, added] for part, added in zip(parts, extra, strict=True)))


def _as_written(balance: Balance) -> Balance:
    """A balance of the build as written alone."""
    return Balance(
        *(nominal_alone(part) for part in (balance.mass, balance.x, balance.y, balance.z))
    )

"""Which belt lengths a run takes, what is left of its take-up, and what the trade sells, as
numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Idler
from beltwright.physics.arrays import Array
from beltwright.physics.belt.arm import TakeUp, take_up
from beltwright.physics.belt.fit import Fit
from beltwright.physics.belt.path import belt_path
from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout, belt_layout, belt_run, loose_belt
from beltwright.review.belt.mover import Mover
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal
from beltwright.tables.belts import SoldLength, nearest_lengths, sold_lengths

STRETCHED_ON = 0.005
"""How far a V-belt may be stretched where nothing takes it up, as a share of its length [1]:
common practice, no source."""

SAME_LENGTH = 0.003
"""A belt this near to a sold length is taken to be it [m]: sold belts differ by more (RMA IP-20
allows 15 mm and more) but are named by whole inches."""


class Lengths(NamedTuple):
    """The pitch lengths that a run takes [m]: the shortest that goes on, the longest made tight."""

    shortest: Array
    longest: Array


def lengths_taken(case: Case, belt: Belt) -> Lengths:
    """The pitch lengths that a run takes; NaN where it has no path."""
    return case.once(("lengths_taken", belt.name), lambda: _lengths_taken(case, belt))


def belt_take_up(case: Case, belt: Belt) -> TakeUp:
    """What is left for stretch beyond the position in drive.

    Raises NotKnownError where nothing moves to take it up.
    """
    return case.once(("belt_take_up", belt.name), lambda: _take_up(case, belt))


def slot_travel(case: Case, belt: Belt) -> Array:
    """How far a shaft in a slot comes towards the others to lay the belt on [m].

    Raises NotKnownError where no shaft of the belt slides.
    """
    layout = belt_layout(case, belt)
    if layout.mover is None or isinstance(layout.mover.of, Idler):
        raise NotKnownError(
            f"belt.{belt.name}.run",
            "Write the slot's other end at the shaft that slides, for example "
            'slot_to = ["885 mm", "-20 mm"].',
            f"No shaft of the {belt.name} slides in a slot.",
        )
    return np.abs(layout.position - layout.mover.loose)


def growth(case: Case, belt: Belt) -> Array:
    """How much longer a belt may grow by wear [m]."""
    share = case.suppose(
        belt.stretch,
        f"belt.{belt.name}.stretch",
        "1 % ± 0.5 %",
        Kind.RATIO,
        "a V-belt grows by about 1 % over its life (common practice, no source)",
    )
    return share * belt_run(case, belt).pitch_length


def sold_as(case: Case, belt: Belt) -> SoldLength | None:
    """The sold belt that this one is, if it is one (build as written)."""
    length = nominal(belt_run(case, belt).pitch_length)
    nearest = nearest_lengths(belt.section, length, 1)
    if not nearest or abs(nearest[0].pitch_length - length) > SAME_LENGTH:
        return None
    return nearest[0]


def sold_between(belt: Belt, shortest: float, longest: float) -> tuple[SoldLength, ...]:
    """The sold belts of a section that a run takes, shortest first."""
    return tuple(
        sold for sold in sold_lengths(belt.section) if shortest <= sold.pitch_length <= longest
    )


def _lengths_taken(case: Case, belt: Belt) -> Lengths:
    layout = belt_run(case, belt)
    mover = layout.mover
    if mover is None or mover.fixed:
        return Lengths(layout.path.length / (1.0 + STRETCHED_ON), layout.path.length)
    if isinstance(mover.of, Idler):
        loose = layout.pitch_length - loose_belt(case, belt).belt.slack
    else:
        loose = _length_at(layout, mover, mover.loose)
    fits = layout.fit == Fit.FITS
    at_stop = np.nan if np.all(fits) else _length_at(layout, mover, mover.tight)
    grown = layout.pitch_length + belt_take_up(case, belt).stretch if np.any(fits) else np.nan
    return Lengths(np.atleast_1d(loose), np.atleast_1d(np.where(fits, grown, at_stop)))


def _length_at(layout: Layout, mover: Mover, position: Array) -> Array:
    """The length of the path with the wheel that moves at a position."""
    stands = mover.mount.motion(position)
    run = layout.path.run.moved(mover.place, stands.x, stands.y)
    return belt_path(run, layout.path.sense).length


def _take_up(case: Case, belt: Belt) -> TakeUp:
    layout = belt_run(case, belt)
    mover = layout.mover
    if mover is None:
        raise NotKnownError(
            f"belt.{belt.name}.run",
            "Describe the arm of its idler, or the slot in which a shaft slides, for example "
            'slot_to = ["885 mm", "-20 mm"].',
            f"Nothing takes up the {belt.name}.",
        )
    return take_up(layout.position, layout.path, mover.place, mover.mount, mover.tight)

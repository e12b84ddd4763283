"""What one hole, or one turn of an arm on its shaft, would do for a linkage: found by trying."""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.build.linkage import Linkage
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.linkage.link import (
    Link,
    arm_follows,
    lever_for,
    put_together,
    rod_angles,
)
from beltwright.physics.linkage.rod import turning_ratio
from beltwright.physics.linkage.swing import Swing
from beltwright.physics.linkage.train import follow
from beltwright.quantity import Kind
from beltwright.review.angle_words import DEGREES
from beltwright.review.case import Case
from beltwright.review.linkage.motion import (
    STEPS,
    as_written,
    hand_travel,
    link_of,
    reach,
    room_left,
    written_train,
)
from beltwright.review.nominal import nominal

FREE_ANGLE = np.radians(40.0)
"""Angle off the dead point that a linkage keeps over its travel [rad]: R. L. Norton, Design of
Machinery, section 3.3, transmission angle, from memory."""

HARDLY = np.radians(20.0)
"""Angle that a remedy may go down to where nothing else helps [rad] (assumed, no source)."""

RADII = np.linspace(0.4, 1.8, 141)
"""Holes that are tried, as shares of the radius of the one that is there."""

TURNS = np.radians(np.linspace(-45.0, 45.0, 91))
"""Turns of the lever's rod arm on its shaft that are tried [rad]."""

LEAST_RADIUS = 0.012
"""A hole nearer to the pivot has no metal round it [m] (assumed, no source)."""


NO_CHANGE = 1.0e-6
"""A change that is none [m or rad]."""


class Tried(NamedTuple):
    """What a change would give, shape (tried,).

    changes  by how much the linkage is changed [m or rad]
    rod      rod length to go with it [m]
    inside   how far inside of the travel the worst position lies [rad]
    margin   least angle off the dead point over the travel [rad]
    effort   most force on the handle over that now [1]
    """

    changes: Array
    rod: Array
    inside: Array
    margin: Array
    effort: Array


def cure(case: Case, linkage: Linkage, most_effort: float = np.inf) -> str:
    """The least single change after which all is well, in words; "" where none of them does it, or
    none is needed.

    `most_effort` is what the handle may need over what it needs now.
    """
    show = case.units.show
    link = as_written(link_of(case, linkage))
    lever, arm = nominal(link.lever.radius), nominal(link.arm.radius)
    ways: tuple[tuple[Tried, Callable[[float], str]], ...] = (
        (
            _holes_in_arm(case, linkage, link),
            lambda by: (
                f"drill the arm's hole at {show(arm + by, Kind.LENGTH)} in place of "
                f"{show(arm, Kind.LENGTH)}"
            ),
        ),
        (
            _holes_in_lever(case, linkage, link),
            lambda by: (
                f"drill the lever's hole at {show(lever + by, Kind.LENGTH)} in place of "
                f"{show(lever, Kind.LENGTH)}"
            ),
        ),
        (
            _turned(case, linkage, link),
            lambda by: (
                f"turn the lever's rod arm {show(abs(by), Kind.ANGLE, DEGREES)} "
                f"{'counter-clockwise' if by > 0.0 else 'clockwise'} on its shaft"
            ),
        ),
    )
    for least in (FREE_ANGLE, HARDLY):
        for tried, words in ways:
            place = _nearest(tried, least, most_effort)
            if place is not None:
                if abs(tried.changes[place]) < NO_CHANGE:
                    return ""
                rod = show(float(tried.rod[place]), Kind.LENGTH)
                said = words(float(tried.changes[place]))
                return f"{said[0].upper()}{said[1:]}, and make the rod {rod} eye to eye."
    return ""


def _nearest(tried: Tried, least: float, most_effort: float) -> int | None:
    """The smallest change that keeps everything, None where none does."""
    kept: NDArray[np.bool_] = (
        (tried.inside >= 0.0) & (tried.margin >= least) & (tried.effort <= most_effort)
    )
    if not np.any(kept):
        return None
    return int(np.argmin(np.where(kept, np.abs(tried.changes), np.inf)))


def _holes_in_arm(case: Case, linkage: Linkage, link: Link) -> Tried:
    radii = _radii(link.arm)
    return _tried(case, linkage, link, radii - link.arm.radius, arm=link.arm._replace(radius=radii))


def _holes_in_lever(case: Case, linkage: Linkage, link: Link) -> Tried:
    radii = _radii(link.lever)
    changes = radii - link.lever.radius
    return _tried(case, linkage, link, changes, lever=link.lever._replace(radius=radii))


def _radii(swing: Swing) -> Array:
    return np.maximum(RADII * swing.radius, LEAST_RADIUS)


def _turned(case: Case, linkage: Linkage, link: Link) -> Tried:
    return _tried(case, linkage, link, TURNS, turn=TURNS)


def _tried(
    case: Case,
    linkage: Linkage,
    link: Link,
    changes: Array,
    lever: Swing | None = None,
    arm: Swing | None = None,
    turn: ArrayLike = 0.0,
) -> Tried:
    changed = put_together(
        lever or link.lever, link.neutral + np.asarray(turn), arm or link.arm, link.arm_neutral
    )
    low, high = _own_travel(case, linkage)
    steps = np.asarray(turn) + low + np.linspace(0.0, 1.0, STEPS)[:, None] * (high - low)
    rod = rod_angles(changed, steps, arm_follows(changed, steps))
    inside, turns = _positions(case, linkage, changed, (low + turn, high + turn))
    _, turns_now = _positions(case, linkage, link, (low, high))
    shape = np.broadcast_shapes(np.shape(changes), changed.needed.shape)
    return Tried(
        np.broadcast_to(changes, shape),
        np.broadcast_to(changed.needed, shape),
        np.broadcast_to(inside, shape),
        np.broadcast_to(np.min(np.minimum(rod.at_lever, rod.at_arm), axis=0), shape),
        np.broadcast_to(turns / turns_now, shape),
    )


def _own_travel(case: Case, linkage: Linkage) -> tuple[Array, Array]:
    """The ends of the travel of the linkage's own lever, the lower one first [rad]."""
    train = written_train(case, linkage)
    one, other = (follow(train, end[:1])[0] for end in hand_travel(case, linkage))
    return np.minimum(one, other), np.maximum(one, other)


def _positions(
    case: Case, linkage: Linkage, link: Link, travel: tuple[Array, Array]
) -> tuple[Array, Array]:
    """How far inside of the travel the worst position lies, and the most turn of the arm a turn of
    the lever there."""
    if not linkage.arm.position:
        return np.zeros(1), np.ones(1)
    found = reach(case, linkage)
    wanted, within = found.wanted[:, :1], found.within[:, :1]
    enough = wanted - np.sign(wanted - link.arm_neutral) * within
    lever = lever_for(link, enough)
    at_rest = np.abs(wanted - link.arm_neutral) <= within
    inside = np.min(room_left(lever, link.neutral, travel, at_rest), axis=0)
    return inside, np.max(np.abs(turning_ratio(link.lever, lever, link.arm, enough)), axis=0)

"""How every linkage of a build moves, from the hand to the last arm, as numbers."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.build.fields import Place
from beltwright.build.linkage import ArmPosition, Linkage
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.linkage.link import Link, RodAngles, put_together, rod_angles
from beltwright.physics.linkage.rod import rod_length
from beltwright.physics.linkage.swing import Swing, Vector
from beltwright.physics.linkage.train import Carried, follow, hand_for, turning
from beltwright.quantity import Kind, Quantity
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal, nominal_alone

PLANES: dict[str, tuple[Vector, Vector]] = {
    "cross": ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    "upright": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
    "along": ((0.0, -1.0, 0.0), (0.0, 0.0, 1.0)),
}
"""The ways to the angles 0 and 90° for each way in which a pivot lies."""

STEPS = 9
"""Places along the travel that are looked at."""


class Moved(NamedTuple):
    """A linkage over the travel of its hand lever, shape (steps, ...).

    hand     angle of the lever that hand or foot moves [rad]
    lever    angle of the linkage's own lever, the same but on a bell crank [rad]
    arm      angle of its arm [rad]; NaN where the rod has jammed
    rod      how the rod stands to both [rad]
    """

    hand: Array
    lever: Array
    arm: Array
    rod: RodAngles


class Reach(NamedTuple):
    """The positions of an arm, shape (positions, ...).

    wanted  angle of the arm [rad]
    within  how far off it may stand [rad]
    hand    angle of the hand lever that gives it [rad]; NaN where none does
    inside  how far before the end of its travel the hand lever then stands [rad], the leeway of
            the arm taken into account; below 0 by how much it falls short
    """

    wanted: Array
    within: Array
    hand: Array
    inside: Array


def by_name(case: Case, name: str) -> Linkage:
    """The linkage of that name."""
    return next(linkage for linkage in case.build.linkage if linkage.name == name)


def chain(case: Case, linkage: Linkage) -> tuple[Linkage, ...]:
    """The linkages from the hand to this one, this one last."""
    before = () if linkage.driven_by is None else chain(case, by_name(case, linkage.driven_by))
    return (*before, linkage)


def drives_another(case: Case, linkage: Linkage) -> bool:
    """Whether its arm turns the lever of another linkage."""
    return any(other.driven_by == linkage.name for other in case.build.linkage)


def link_of(case: Case, linkage: Linkage) -> Link:
    """The lever, rod and arm of a linkage, the rod screwed as near to centred as it goes.

    A rod that is still to be made is made for the build as written.
    """
    return case.once(("linkage.link", linkage.name), lambda: _link(case, linkage))


def _link(case: Case, linkage: Linkage) -> Link:
    lever, arm = lever_swing(case, linkage), arm_swing(case, linkage)
    neutral, arm_neutral = lever_neutral(case, linkage), neutral_of_arm(case, linkage)
    needed = rod_length(lever, neutral, arm, arm_neutral)
    low, high = _rod_ends(case, linkage, needed)
    return put_together(lever, neutral, arm, arm_neutral, np.clip(needed, low, high))


def _rod_ends(case: Case, linkage: Linkage, needed: Array) -> tuple[Array, Array]:
    """The shortest and the longest that the rod can be screwed [m]."""
    rod = linkage.rod
    made = needed if case.replaced else needed[:1]
    middle = made if rod.length is None else case.si(rod.length)
    by = np.zeros(1) if rod.adjusts is None else case.si(rod.adjusts)
    return middle - by, middle + by


def rod_range(case: Case, linkage: Linkage) -> tuple[Array, Array]:
    """The shortest and the longest that the rod can be screwed [m]."""
    return _rod_ends(case, linkage, link_of(case, linkage).needed)


def lever_swing(case: Case, linkage: Linkage) -> Swing:
    """The lever of a linkage; a bell crank's stands where the driving arm does, if not written."""
    lever, pivot, key = linkage.lever, linkage.lever.pivot, f"linkage.{linkage.name}.lever"
    if pivot is None and linkage.driven_by is not None:
        return arm_swing(case, by_name(case, linkage.driven_by))._replace(
            radius=_radius(case, lever.radius, key)
        )
    return _swing(case, key, pivot, lever.axis, lever.radius)


def arm_swing(case: Case, linkage: Linkage) -> Swing:
    """The arm of a linkage."""
    arm = linkage.arm
    return _swing(case, f"linkage.{linkage.name}.arm", arm.pivot, arm.axis, arm.radius)


def _swing(case: Case, key: str, pivot: Place | None, axis: str, radius: Quantity | None) -> Swing:
    if pivot is None:
        raise NotKnownError(
            f"{key}.pivot",
            "Measure where its pivot stands, from the rear axle, the middle and the ground, in the "
            "plane of the rod's end, and write it, for example "
            'pivot = ["905 mm", "-240 mm", "190 mm"].',
        )
    x, y, z = (case.si(each) for each in pivot)
    ahead, beside = PLANES[axis]
    return Swing((x, y, z), ahead, beside, _radius(case, radius, key))


def _radius(case: Case, radius: Quantity | None, key: str) -> Array:
    return case.need(
        radius,
        f"{key}.radius",
        "Measure from the middle of its pivot to the middle of the rod's hole and write it, for "
        'example radius = "55 mm".',
    )


def lever_neutral(case: Case, linkage: Linkage) -> Array:
    """The angle of a linkage's lever in neutral [rad]."""
    return _neutral(case, linkage.lever.neutral, f"linkage.{linkage.name}.lever")


def neutral_of_arm(case: Case, linkage: Linkage) -> Array:
    """The angle of a linkage's arm in neutral [rad]."""
    return _neutral(case, linkage.arm.neutral, f"linkage.{linkage.name}.arm")


def _neutral(case: Case, written: Quantity | None, key: str) -> Array:
    return case.need(
        written,
        f"{key}.neutral",
        "Put it in neutral, or let it go, lay a phone's level along pivot and hole, and write the "
        'angle, for example neutral = "252 deg".',
    )


def hand_neutral(case: Case, linkage: Linkage) -> Array:
    """The angle of the hand lever in neutral [rad]."""
    return lever_neutral(case, chain(case, linkage)[0])


def hand_travel(case: Case, linkage: Linkage) -> tuple[Array, Array]:
    """The angles of the hand lever at the lower and the upper end of its travel [rad]."""
    first = chain(case, linkage)[0]
    if first.lever.travel is None:
        raise NotKnownError(
            f"linkage.{first.name}.lever.travel",
            "Move the lever from stop to stop, lay a phone's level on it at both ends, and write "
            'the angles to its rod hole, for example travel = ["245 deg", "300 deg"].',
        )
    one, other = (case.si(end) for end in first.lever.travel)
    return np.minimum(one, other), np.maximum(one, other)


def train_of(case: Case, linkage: Linkage) -> tuple[Carried, ...]:
    """The rods from the hand to this linkage, this one last."""
    return case.once(("linkage.train", linkage.name), lambda: _train(case, linkage))


def _train(case: Case, linkage: Linkage) -> tuple[Carried, ...]:
    if linkage.driven_by is None:
        return (Carried(link_of(case, linkage), 0.0),)
    driver = by_name(case, linkage.driven_by)
    ahead_by = lever_neutral(case, linkage) - neutral_of_arm(case, driver)
    return (*train_of(case, driver), Carried(link_of(case, linkage), ahead_by))


def written_train(case: Case, linkage: Linkage) -> tuple[Carried, ...]:
    """The same in the build as written."""
    return tuple(
        Carried(as_written(link), nominal_alone(ahead_by))
        for link, ahead_by in train_of(case, linkage)
    )


def moved(case: Case, linkage: Linkage) -> Moved:
    """The linkage over the whole travel of its hand lever."""
    return case.once(("linkage.moved", linkage.name), lambda: _moved(case, linkage))


def _moved(case: Case, linkage: Linkage) -> Moved:
    low, high = hand_travel(case, linkage)
    hand = low + np.linspace(0.0, 1.0, STEPS)[:, None] * (high - low)
    lever, arm = follow(train_of(case, linkage), hand)
    return Moved(hand, lever, arm, rod_angles(link_of(case, linkage), lever, arm))


def reach(case: Case, linkage: Linkage) -> Reach:
    """What the hand lever must do for every position of the arm."""
    return case.once(("linkage.reach", linkage.name), lambda: _reach(case, linkage))


def _reach(case: Case, linkage: Linkage) -> Reach:
    positions = linkage.arm.position
    if not positions:
        raise NotKnownError(
            f"linkage.{linkage.name}.arm.position",
            "Turn the arm by hand to each of its positions, measure its angle there and write, for "
            'example, position = [{ name = "on", angle = "74 deg" }].',
        )
    low, high = hand_travel(case, linkage)
    wanted = _stacked([case.si(position.angle) for position in positions])
    within = _stacked([leeway(case, linkage, position) for position in positions])
    neutral = neutral_of_arm(case, linkage)
    train = train_of(case, linkage)
    hand = hand_for(train, wanted)
    # short of its position by what it may be off, the arm has still done its work
    enough = hand_for(train, wanted - np.sign(wanted - neutral) * within)
    at_rest = np.abs(wanted - neutral) <= within
    inside = room_left(enough, hand_neutral(case, linkage), (low, high), at_rest)
    jammed = np.isnan(moved_to(case, linkage, hand[:, :1]))
    return Reach(wanted, within, np.where(jammed, np.nan, hand), np.where(jammed, np.nan, inside))


def room_left(
    lever: Array, neutral: ArrayLike, travel: tuple[Array, Array], at_rest: NDArray[np.bool_]
) -> Array:
    """How far before the end of its travel a lever stands that comes from neutral [rad].

    Where the arm needs nothing but to rest, no end is in the way.
    """
    low, high = lever - travel[0], travel[1] - lever
    ahead = np.where(lever > neutral, high, low)
    return np.where(at_rest, np.maximum(low, high), ahead)


def moved_to(case: Case, linkage: Linkage, hand: ArrayLike) -> Array:
    """The arm's angle, in the build as written, for a hand lever that comes from neutral [rad].

    NaN where the rod jams on the way, which is looked at in thirds, so that no gap is leapt over.
    """
    train = written_train(case, linkage)
    start = nominal(hand_neutral(case, linkage))
    whole = np.asarray(hand)
    shares = np.array([1.0 / 3.0, 2.0 / 3.0, 1.0]).reshape(-1, *(1,) * whole.ndim)
    arm = follow(train, start + shares * (whole - start))[1]
    return np.where(np.isnan(arm).any(axis=0), np.nan, arm[-1])


def leeway(case: Case, linkage: Linkage, position: ArmPosition | None) -> Array:
    """How far off an arm may stand in a position and still do its work [rad]."""
    return case.suppose(
        None if position is None else position.within,
        f"linkage.{linkage.name}.arm.position.within",
        "3 deg",
        Kind.ANGLE,
        "a detent still draws the arm in from about 3° (assumed, no source)",
    )


def turned_per_hand(case: Case, linkage: Linkage, hand: ArrayLike) -> Array:
    """How much the arm turns for a little turn of the hand lever [1], without sign."""
    return np.abs(turning(train_of(case, linkage), hand))


def handle_radius(case: Case, linkage: Linkage) -> Array:
    """From the pivot of the hand lever to where hand or foot pushes [m]."""
    first = chain(case, linkage)[0]
    return case.need(
        first.lever.handle,
        f"linkage.{first.name}.lever.handle",
        "Measure from the lever's pivot to the middle of the knob or the pedal's pad, square to "
        'the push, and write it, for example handle = "300 mm".',
    )


def working_angle(case: Case, linkage: Linkage) -> Array:
    """The angle of the hand lever at which the linkage does its work [rad].

    That of the arm's last position; where none is written, the end of the travel that is farther
    from neutral.
    """
    if linkage.arm.position:
        return np.asarray(reach(case, linkage).hand[-1])
    low, high = hand_travel(case, linkage)
    neutral = hand_neutral(case, linkage)
    return np.where(neutral - low > high - neutral, low, high)


def force_ratio(case: Case, linkage: Linkage) -> Array:
    """Force at the arm's hole, square to the arm, over that on the handle [1], at work.

    Raises NotKnownError where the linkage never comes to work.
    """
    hand = working_angle(case, linkage)
    low, high = hand_travel(case, linkage)
    reached = np.isfinite(hand)
    if linkage.arm.position:
        reached = reached & (reach(case, linkage).inside[-1] >= 0.0)
    if not np.atleast_1d(reached)[0]:
        raise NotKnownError(
            f"linkage.{linkage.name}",
            "Put the linkage right first; its own findings say how.",
            f"The {linkage.name} does not bring its arm to where it works.",
        )
    turns = turned_per_hand(case, linkage, np.clip(hand, low, high))
    ratio = handle_radius(case, linkage) / (link_of(case, linkage).arm.radius * turns)
    # a sample in which the arm is not reached passes nothing on
    return np.where(reached, ratio, 0.0)


def pull_needed(case: Case, linkage: Linkage) -> Array:
    """Pull at the arm's hole that moves it [N]."""
    return case.need(
        linkage.arm.force,
        f"linkage.{linkage.name}.arm.force",
        "Hook a fish scale into the arm's hole, pull square to the arm until it moves, and write "
        'the most that it needs, for example force = "60 ± 10 N".',
    )


def passed_on(case: Case, linkage: Linkage) -> Array:
    """What the joints of all rods up to this one leave of the force [1]."""
    share: Array = np.ones(1)
    for each in chain(case, linkage):
        share = share * _efficiency(case, each.name, each.efficiency)
    return share


def _efficiency(case: Case, name: str, written: Quantity | None) -> Array:
    return case.suppose(
        written,
        f"linkage.{name}.efficiency",
        "90 % ± 5 %",
        Kind.RATIO,
        "what greased pivots and joints of one rod leave of the force (common practice, no source)",
    )


def effort(case: Case, linkage: Linkage, hand: ArrayLike) -> Array:
    """Force on the handle that moves the arm, at an angle of the hand lever [N]."""
    arm = link_of(case, linkage).arm
    torque = pull_needed(case, linkage) * arm.radius * turned_per_hand(case, linkage, hand)
    return np.asarray(torque / (handle_radius(case, linkage) * passed_on(case, linkage)))


def most_effort(case: Case, linkage: Linkage) -> Array:
    """The most force that the handle needs over the positions that the arm reaches [N]."""
    hand = reach(case, linkage).hand
    if not np.any(np.isfinite(hand[:, 0])):
        raise NotKnownError(
            f"linkage.{linkage.name}",
            "Put its travel right first.",
            "No lever angle brings the arm to any of its positions.",
        )
    needed = effort(case, linkage, hand)
    return np.asarray(np.max(np.where(np.isfinite(needed), needed, 0.0), axis=0))


def as_written(link: Link) -> Link:
    """A linkage in the build as written."""
    return Link(
        _nominal_swing(link.lever),
        _nominal_swing(link.arm),
        nominal_alone(link.neutral),
        nominal_alone(link.arm_neutral),
        nominal_alone(link.needed),
        nominal_alone(link.length),
        nominal_alone(link.arm_side),
        nominal_alone(link.lever_side),
    )


def _nominal_swing(swing: Swing) -> Swing:
    x, y, z = (nominal_alone(each) for each in swing.pivot)
    return swing._replace(pivot=(x, y, z), radius=nominal_alone(swing.radius))


def _stacked(rows: list[Array]) -> Array:
    return np.stack(np.broadcast_arrays(*rows))

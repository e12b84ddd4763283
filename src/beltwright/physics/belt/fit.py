"""Where a movable pulley stands when a belt of a given length goes round tightly."""

from enum import IntEnum
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.fault import path_faults
from beltwright.physics.belt.loop import BeltPath
from beltwright.physics.belt.mount import Mount
from beltwright.physics.belt.moving import MovingPulley, Reach
from beltwright.physics.belt.path import belt_path, loop_sense
from beltwright.physics.belt.run import Run, taken

CLOSE = 1e-6
"""A step from here ends on the root to rounding, because the step's own error falls with the third
power; as a share of the belt's length and of the squared slope [1]."""

STEPS_TOGETHER = 3
"""Steps that all candidates take together before the unfinished ones go on alone."""

NARROW = 1e-13
"""A bracket this narrow holds no root, as a share of the travel [1]."""


class Fit(IntEnum):
    """Whether a belt of the given length can be made tight within the travel."""

    FITS = 0
    TOO_SHORT = 1
    """The belt is too short even with the pulley released."""
    TOO_LONG = 2
    """The belt stays loose over the whole travel."""
    NO_PATH = 3
    """No belt fits between the pulleys at the released position."""


class Released(NamedTuple):
    """The belt with the movable pulley at the released end of its travel.

    Attributes
    ----------
    slack : array, shape (...) [m]
        Belt length less the path that it then has; the path leaves the pulley out where it no
        longer touches the belt.  Negative where the belt is too short.
    touches : array of bool, shape (...) [1]
        Whether the path still bends round the movable pulley.
    mean_gap : array, shape (...) [m]
        How far the slack would lift the belt off every pulley if it spread evenly.
    """

    slack: Array
    touches: NDArray[np.bool_]
    mean_gap: Array


class FittedPath(NamedTuple):
    """A path that has the belt's length.

    Attributes
    ----------
    position : array, shape (...) [rad or m]
        Angle of the arm, or place along the slot; NaN where there is none.
    path : BeltPath [m]
        The path there.
    fit : array of uint8, shape (...) [1]
        A value of `Fit` for each candidate.
    released : Released [m]
        What the belt does at the other end of the travel.
    """

    position: Array
    path: BeltPath
    fit: NDArray[np.uint8]
    released: Released


def fit_to_length(
    run: Run,
    pulley: int,
    mount: Mount,
    released: ArrayLike,
    full: ArrayLike,
    pitch_length: ArrayLike,
    sense: ArrayLike | None = None,
) -> FittedPath:
    """Find the position of a movable pulley at which the path has the belt's length.

    L(p) = pitch length, solved by Halley's step p - 2 f f' / (2 f'^2 - f f''), f = L(p) - pitch
    length, with exact derivatives, kept inside a bracket that shrinks at every step.

    From the released end the path's length stays what it is without the pulley until the pulley
    touches, then grows as it is pushed on, up to the top of an arm's swing.  Only this first rising
    branch is searched, because the spring comes to rest on it; past the top the arm would run on
    to its stop by itself.

    Parameters
    ----------
    run : Run [m]
        The pulleys; the entry of the movable one gives its radius and side, its centre is not used.
    pulley : int [1]
        Place of the movable pulley in the run.
    mount : Arm or Slot [m, rad]
        What carries it.
    released : array, shape (...) [rad or m]
        Position at the loose end of the travel.
    full : array, shape (...) [rad or m]
        Position at the tight end of the travel; smaller or larger than `released`.
    pitch_length : array, shape (...) [m]
        Pitch length of the belt.
    sense : array, shape (...), optional [1]
        +1 where the order of the run goes round counter-clockwise, -1 where clockwise; found by
        `loop_sense` when left out: for a back-side idler at the released end, for a pulley inside
        the loop at the full end.

    Returns
    -------
    FittedPath [rad or m, m]
        NaN with a reason where there is no such position.

    Notes
    -----
    Range of validity: as for `belt_loop.path_in_sense`; a fitted path can still have a fault that
    `belt_fault.path_faults` tells.  Less than one full turn of an arm.

    Source: own derivation from the envelope of tangents; Halley's step as in J. F. Traub,
    Iterative Methods for the Solution of Equations, 1964, chapter 5.

    Examples
    --------
    >>> from beltwright.physics.belt.mount import Slot
    >>> pulleys = Run([0.0, 0.0], [0.0, 0.0], [6.2, 10.55], [1, 1])
    >>> slot = Slot(0.0, 0.0, 0.0)
    >>> round(float(fit_to_length(pulleys, 1, slot, 20.0, 30.0, 100.0).position), 4)
    23.2816
    """
    if sense is None:
        sense = _sense_of_travel(run, pulley, mount, released, full)
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        search = _Search(
            MovingPulley(run, pulley, np.asarray(sense, dtype=np.float64)),
            mount,
            np.asarray(released, dtype=np.float64),
            np.subtract(full, released),
            np.asarray(pitch_length, dtype=np.float64),
        )
        loose, tight = search.reach(np.zeros(())), search.reach(np.ones(()))
        freed = _slack(search.moving, loose, search.pitch_length)
        over = tight.length - search.pitch_length
        never = ~np.isnan(over) & (~tight.touches | ((over < 0.0) & (tight.rate > 0.0)))
        hopeless = ~(freed.slack >= 0.0) | never
        share = _first_root(
            search,
            low=np.zeros(hopeless.shape),
            high=np.ones(hopeless.shape),
            guess=_stepped(np.ones(()), over, tight, np.zeros(()), np.ones(())),
            done=hopeless,
        )
        position = search.released + share * search.travel
        motion = mount.motion(position)
        path = search.moving.path(motion.x, motion.y)
    fit = np.where(
        np.isnan(freed.slack),
        Fit.NO_PATH,
        np.where(
            freed.slack < 0.0, Fit.TOO_SHORT, np.where(np.isnan(share), Fit.TOO_LONG, Fit.FITS)
        ),
    ).astype(np.uint8)
    return FittedPath(position, path, fit, freed)


def released_belt(
    run: Run,
    pulley: int,
    mount: Mount,
    position: ArrayLike,
    pitch_length: ArrayLike,
    sense: ArrayLike,
) -> Released:
    """Find how loose a belt is with its movable pulley let off.

    Slack = pitch length - path, without the pulley where the belt no longer touches it.  Spread
    evenly it lifts the belt off every pulley by slack / sum of the wraps, because dL/dr = wrap.

    Parameters
    ----------
    run : Run [m]
        The pulleys; where the movable one stands in it does not matter.
    pulley : int [1]
        Place of the movable pulley in the run.
    mount : Arm or Slot [m, rad]
        What carries it.
    position : array, shape (...) [rad or m]
        Position with the clutch down.
    pitch_length : array, shape (...) [m]
        Pitch length of the belt.
    sense : array, shape (...) [1]
        +1 where the order of the run goes round counter-clockwise, -1 where clockwise.

    Returns
    -------
    Released [m]
        Slack and mean gap, NaN where there is no path.

    Notes
    -----
    Range of validity: small gaps; whether the belt keeps clear of a turning pulley also depends on
    its guides.

    Source: own derivation from the derivative of the path's length.

    Examples
    --------
    >>> from beltwright.physics.belt.mount import Slot
    >>> pulleys = Run([0.0, 0.0], [0.0, 0.0], [0.1, 0.1], [1, 1])
    >>> loose = released_belt(pulleys, 1, Slot(0.0, 0.0, 0.0), 0.5, 1.65, 1.0)
    >>> round(float(loose.mean_gap), 6)
    0.003451
    """
    moving = MovingPulley(run, pulley, np.asarray(sense, dtype=np.float64))
    with np.errstate(invalid="ignore", divide="ignore"):
        loose = moving.reach(mount.motion(position))
        return _slack(moving, loose, np.asarray(pitch_length, dtype=np.float64))


class _Search(NamedTuple):
    """A belt length looked for along a mount's travel; positions are shares of the travel."""

    moving: MovingPulley
    mount: Mount
    released: Array
    travel: Array
    pitch_length: Array

    def reach(self, share: Array) -> Reach:
        found = self.moving.reach(self.mount.motion(self.released + share * self.travel))
        return found._replace(
            rate=found.rate * self.travel, bend=found.bend * (self.travel * self.travel)
        )

    def taken(self, shape: tuple[int, ...], index: NDArray[np.intp]) -> "_Search":
        moving = self.moving
        return _Search(
            MovingPulley(
                moving.run.taken(shape, index),
                moving.pulley,
                np.asarray(taken(moving.sense, shape, index)),
            ),
            self.mount.taken(shape, index),
            np.asarray(taken(self.released, shape, index)),
            np.asarray(taken(self.travel, shape, index)),
            np.asarray(taken(self.pitch_length, shape, index)),
        )


def _first_root(
    search: _Search, low: Array, high: Array, guess: Array, done: NDArray[np.bool_]
) -> Array:
    """Return the share of the travel at the first root, NaN where a bracket closes without one.

    A round of steps that does not at least halve the excess of length halves the bracket instead.
    """
    share = np.where(done, np.nan, guess)
    at_first = np.asarray(np.inf)
    for step in range(STEPS_TOGETHER):
        here = search.reach(share)
        over = here.length - search.pitch_length
        touches = here.touches
        beyond = np.isnan(over) | (touches & ((over >= 0.0) | (here.rate <= 0.0)))
        high = np.where(beyond, share, high)
        low = np.where(beyond, low, share)
        size = np.abs(over)
        close = (
            touches
            & (here.rate > 0.0)
            & (size <= CLOSE * search.pitch_length)
            & (np.abs(over * here.bend) <= CLOSE * here.rate * here.rate)
        )
        stepped = _stepped(share, over, here, low, high)
        if step == 0:
            at_first = size
        elif step == STEPS_TOGETHER - 1:
            stepped = np.where(close | (size <= 0.5 * at_first), stepped, 0.5 * (low + high))
        ended = ~close & (high - low < NARROW)
        share = np.where(done, share, np.where(ended, np.nan, stepped))
        done = done | close | ended
        if np.all(done):
            return share
    shape = np.broadcast_shapes(low.shape, share.shape)
    index = np.flatnonzero(np.broadcast_to(~done, shape))
    rest = _first_root(
        search.taken(shape, index),
        taken(low, shape, index),
        taken(high, shape, index),
        taken(share, shape, index),
        np.zeros(index.shape, dtype=np.bool_),
    )
    share = np.array(np.broadcast_to(share, shape))
    share.reshape(-1)[index] = rest
    return share


def _stepped(share: Array, over: Array, here: Reach, low: Array, high: Array) -> Array:
    """Return Halley's step on the rising branch, else the middle of the bracket."""
    step = 2.0 * over * here.rate / (2.0 * here.rate * here.rate - over * here.bend)
    stepped = share - step
    inside = here.touches & (here.rate > 0.0) & (stepped >= low) & (stepped <= high)
    return np.where(inside, stepped, 0.5 * (low + high))


def _slack(moving: MovingPulley, loose: Reach, pitch_length: Array) -> Released:
    touches = loose.touches | np.isnan(loose.length)
    length, wraps = loose.length, loose.all_wraps
    if len(moving.run) > 2 and not np.all(touches):
        bare = belt_path(moving.run.without(moving.pulley), moving.sense)
        length = np.where(touches, length, bare.length)
        wraps = np.where(touches, wraps, sum(bare.wrap))
    slack = pitch_length - length
    return Released(slack, touches, slack / wraps)


def _sense_of_travel(
    run: Run, pulley: int, mount: Mount, released: ArrayLike, full: ArrayLike
) -> Array:
    """Find the loop's sense at the end of the travel where it is plain.

    A released back-side idler stands off its own run of the belt, and so beyond both runs of the
    other sense; a pulley inside the loop pushes only one run out at the end of its travel.
    """
    loose, tight = mount.motion(released), mount.motion(full)
    at_loose = loop_sense(run.moved(pulley, loose.x, loose.y))
    if run.side[pulley] < 0:
        return at_loose
    pushed = run.moved(pulley, tight.x, tight.y)
    at_tight = loop_sense(pushed)
    usable = path_faults(belt_path(pushed, at_tight)) == 0
    return at_tight if np.all(usable) else np.where(usable, at_tight, at_loose)

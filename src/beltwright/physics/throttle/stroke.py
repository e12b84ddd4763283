"""Forces over the stroke of a throttle: what opens it, and what closes it when the foot is off."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def opening_pull(closing: ArrayLike, friction: ArrayLike, lever: ArrayLike) -> Array:
    """Answer how hard the wire must pull the arm at the engine to open it further.

    T = (M + M_f) / h

    Parameters
    ----------
    closing : array, shape (...) [N m]
        Moment of all springs at the arm, positive where they close it.
    friction : array, shape (...) [N m]
        Of the arm's pivot.
    lever : array, shape (...) [m]
        Of the wire about the arm's pivot, positive where its pull opens the arm.

    Returns
    -------
    pull : array, shape (...) [N]
        0 where the springs open it by themselves, infinite where the wire cannot open it.

    Range of validity: slow motion.
    Source: law of the lever.

    Examples
    --------
    >>> print(f"{opening_pull(0.45, 0.05, 0.025):.1f}")
    20.0
    """
    needed = np.maximum(np.asarray(closing) + friction, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(
            np.asarray(lever) > 0.0, needed / lever, np.where(needed == 0.0, 0.0, np.inf)
        )


def pedal_push(
    pull: ArrayLike,
    lever: ArrayLike,
    returning: ArrayLike,
    friction: ArrayLike,
    foot: ArrayLike,
) -> Array:
    """Answer how hard the foot must push the pedal.

    P = (T h + M + M_f) / l

    Parameters
    ----------
    pull : array, shape (...) [N]
        In the wire at the pedal: that at the arm over the efficiency of the cable.
    lever : array, shape (...) [m]
        Of the wire about the pedal's pivot, positive where its pull lifts the pedal.
    returning : array, shape (...) [N m]
        Moment of the springs at the pedal, positive where they lift it.
    friction : array, shape (...) [N m]
        Of the pedal's pivot.
    foot : array, shape (...) [m]
        From the pivot to where the foot presses, square to it.

    Returns
    -------
    push : array, shape (...) [N]
        Infinite where no pull in the wire is enough.

    Range of validity: slow motion; a pedal of little weight.
    Source: law of the lever.

    Examples
    --------
    >>> print(f"{pedal_push(40.0, 0.06, 1.8, 0.36, 0.18):.2f}")
    25.33
    """
    enough = np.isfinite(pull)
    moment = np.where(enough, pull, 0.0) * np.asarray(lever) + returning + friction
    return np.where(enough, np.maximum(moment, 0.0) / foot, np.inf)


def pull_to_lift(
    returning: ArrayLike, friction: ArrayLike, lever: ArrayLike, efficiency: ArrayLike
) -> Array:
    """Answer how hard the arm must pull its end of the wire to bring the pedal back with it.

    T = max(M_f − M, 0) / (h η): the drag of the pedal that its own springs leave, through the
    bends the other way.

    Parameters
    ----------
    returning : array, shape (...) [N m]
        Moment of the springs at the pedal, positive where they lift it.
    friction : array, shape (...) [N m]
        Of the pedal's pivot.
    lever : array, shape (...) [m]
        Of the wire about the pedal's pivot.
    efficiency : array, shape (...) [1]
        Of the cable.

    Returns
    -------
    pull : array, shape (...) [N]
        0 where the pedal comes back by itself and leaves the wire slack.

    Range of validity: foot off the pedal; a wire with no pull in it drags little of itself.
    Source: law of the lever; rope friction (Euler).

    Examples
    --------
    >>> print(f"{pull_to_lift(0.0, 0.36, 0.06, 0.5):.1f}")
    12.0
    """
    left = np.maximum(np.asarray(friction) - returning, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        pull = left / (np.asarray(lever) * efficiency)
    return np.where(left == 0.0, 0.0, np.where(np.asarray(lever) > 0.0, pull, np.inf))


def resisting_torque(friction: ArrayLike, pull: ArrayLike, lever: ArrayLike) -> Array:
    """Answer what the springs at the arm must overcome to close it with the foot off.

    M = M_f + T h; no spring closes it where no pull brings the pedal back.

    Parameters
    ----------
    friction : array, shape (...) [N m]
        Of the arm's pivot.
    pull : array, shape (...) [N]
        That brings the pedal back, as from `pull_to_lift`.
    lever : array, shape (...) [m]
        Of the wire about the arm's pivot.

    Returns
    -------
    torque : array, shape (...) [N m]

    Range of validity: slow motion. A sheathed wire only pulls: a spring at the pedal can take its
    drag away but never closes the arm.
    Source: law of the lever.

    Examples
    --------
    >>> print(f"{resisting_torque(0.05, 12.0, 0.025):.2f}")
    0.35
    """
    comes_back = np.isfinite(pull)
    drag = np.where(comes_back, pull, 0.0) * np.asarray(lever)
    return np.where(comes_back, friction + drag, np.inf)

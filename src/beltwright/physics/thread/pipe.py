"""Taper pipe threads: sizes by formula, and how far a male end seats in the hole that is there."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.customary import INCH

TAPER = 1.0 / 16.0
"""Change of diameter over length, both standards [1]."""

NPT_DEPTH = 0.8
"""Greatest thread height over the pitch in ASME B1.20.1 [1]."""

WHITWORTH_DEPTH = 0.640327
"""Thread height over the pitch of the 55° thread of ISO 7-1 [1]."""


class TaperThread(NamedTuple):
    """A taper male pipe thread; lengths count from its small end.

    Attributes
    ----------
    small_pitch_diameter : array, shape (...) [m]
        Pitch diameter at the small end.
    pitch : array, shape (...) [m]
    hand_length : array, shape (...) [m]
        Length that enters by hand in a hole to size.
    useful_length : array, shape (...) [m]
        Length of thread that is whole enough to seal.
    depth : array, shape (...) [m]
        Height of the thread on one side.
    """

    small_pitch_diameter: Array
    pitch: Array
    hand_length: Array
    useful_length: Array
    depth: Array


def npt(outside_diameter: ArrayLike, pitch: ArrayLike, hand_length: ArrayLike) -> TaperThread:
    """Answer the dimensions of an American taper pipe thread.

    E0 = D − (0.05 D + 1.1 in) p, L2 = (0.8 D + 6.8 in) p / in, h = 0.8 p.

    Parameters
    ----------
    outside_diameter : array, shape (...) [m]
        Of the pipe.
    pitch : array, shape (...) [m]
    hand_length : array, shape (...) [m]
        L1, normal engagement by hand, from the standard's table.

    Returns
    -------
    thread : TaperThread, shape (...) [m]

    Range of validity: 1/16 to 24 inch.
    Source: ASME B1.20.1, table 2 and its notes.

    Examples
    --------
    >>> male = npt(0.405 * 0.0254, 0.0254 / 27, 0.1615 * 0.0254)
    >>> round(float(male.small_pitch_diameter) / 0.0254, 5)
    0.36351
    """
    pipe = np.asarray(outside_diameter, dtype=np.float64) / INCH
    step = np.asarray(pitch, dtype=np.float64) / INCH
    return TaperThread(
        small_pitch_diameter=(pipe - (0.05 * pipe + 1.1) * step) * INCH,
        pitch=step * INCH,
        hand_length=np.asarray(hand_length, dtype=np.float64),
        useful_length=(0.8 * pipe + 6.8) * step * INCH,
        depth=NPT_DEPTH * step * INCH,
    )


def iso_taper(
    gauge_diameter: ArrayLike,
    pitch: ArrayLike,
    gauge_length: ArrayLike,
    useful_length: ArrayLike,
) -> TaperThread:
    """Answer the dimensions of a taper male pipe thread of ISO 7-1 (R).

    d2 at the small end = d − h − gauge length / 16, h = 0.640327 p.

    Parameters
    ----------
    gauge_diameter : array, shape (...) [m]
        Major diameter at the gauge plane.
    pitch : array, shape (...) [m]
    gauge_length : array, shape (...) [m]
        From the small end to the gauge plane.
    useful_length : array, shape (...) [m]
        Useful thread at nominal gauge length, from the standard's table.

    Returns
    -------
    thread : TaperThread, shape (...) [m]

    Range of validity: 1/16 to 6 inch.
    Source: ISO 7-1, clause 4 and table 1.

    Examples
    --------
    >>> male = iso_taper(9.728e-3, 0.0254 / 28, 4.0e-3, 6.5e-3)
    >>> round(float(male.small_pitch_diameter) * 1e3, 3)
    8.897
    """
    step = np.asarray(pitch, dtype=np.float64)
    gauge = np.asarray(gauge_length, dtype=np.float64)
    depth = WHITWORTH_DEPTH * step
    return TaperThread(
        small_pitch_diameter=np.asarray(gauge_diameter) - depth - TAPER * gauge,
        pitch=step,
        hand_length=gauge,
        useful_length=np.asarray(useful_length, dtype=np.float64),
        depth=depth,
    )


def seat_depth(thread: TaperThread, mouth_pitch_diameter: ArrayLike) -> Array:
    """Answer how far a taper male enters by hand before it binds at the mouth of the hole.

    x = 16 (E mouth − E0): the same for a straight and a taper hole, since both bind at the mouth
    first or together.

    Parameters
    ----------
    thread : TaperThread, shape (...) [m]
    mouth_pitch_diameter : array, shape (...) [m]
        Pitch diameter of the hole at its mouth; bore plus one thread height.

    Returns
    -------
    depth : array, shape (...) [m]
        Zero where it does not enter.

    Range of validity: hole deep enough; straight or 1 in 16.
    Source: geometry.

    Examples
    --------
    >>> male = npt(0.405 * 0.0254, 0.0254 / 27, 0.1615 * 0.0254)
    >>> round(float(seat_depth(male, 0.3736 * 0.0254)) / 0.0254, 3)
    0.161
    """
    gap = np.asarray(mouth_pitch_diameter, dtype=np.float64) - thread.small_pitch_diameter
    return np.asarray(np.maximum(gap, 0.0) / TAPER)


def mouth_pitch_diameter(thread: TaperThread, bore: ArrayLike) -> Array:
    """Answer the pitch diameter at the mouth of a hole that has been tapped, from its bore.

    E = bore + h.

    Parameters
    ----------
    thread : TaperThread, shape (...) [m]
    bore : array, shape (...) [m]
        Across the crests at the mouth, with threads that are whole there.

    Returns
    -------
    pitch_diameter : array, shape (...) [m]

    Range of validity: threads whole to their crests; crests worn away read too large.
    Source: geometry of the profiles of ASME B1.20.1 and ISO 7-1.

    Examples
    --------
    >>> male = npt(0.405 * 0.0254, 0.0254 / 27, 0.1615 * 0.0254)
    >>> round(float(mouth_pitch_diameter(male, 0.344 * 0.0254)) / 0.0254, 4)
    0.3736
    """
    return np.asarray(np.asarray(bore, dtype=np.float64) + thread.depth)


def tap_drill(thread: TaperThread) -> Array:
    """Answer which straight hole a taper tap wants without a reamer.

    drill = E0 − h: the minor diameter at the small end.

    Parameters
    ----------
    thread : TaperThread, shape (...) [m]

    Returns
    -------
    drill : array, shape (...) [m]

    Range of validity: within 0.2 mm of the usual charts, which disagree among themselves by more.
    Source: geometry; ASME B1.20.1, minor diameter at the small end, K0.

    Examples
    --------
    >>> round(float(tap_drill(npt(0.405 * 0.0254, 0.0254 / 27, 0.1615 * 0.0254))) / 0.0254, 4)
    0.3339
    """
    return np.asarray(thread.small_pitch_diameter - thread.depth)

"""Straight screw threads: how much thread a hole still holds, and what it can carry."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike

SHARP_HEIGHT = np.sqrt(3.0) / 2.0
"""Height of the fundamental 60° triangle over the pitch, H/P [1]."""

SHOP_DEPTH = 1.5 * SHARP_HEIGHT
"""Full thread on a diameter over the pitch, 2 · ¾ H = 1.299 P: the basis of shop charts [1]."""


class BasicThread(NamedTuple):
    """Basic diameters of a 60° straight thread.

    Attributes
    ----------
    pitch_diameter : array, shape (...) [m]
    minor_diameter : array, shape (...) [m]
        Of the nut thread.
    root_diameter : array, shape (...) [m]
        Of the bolt thread at its rounded root.
    """

    pitch_diameter: Array
    minor_diameter: Array
    root_diameter: Array


class InsertHole(NamedTuple):
    """The hole that a wire thread insert sits in.

    Attributes
    ----------
    drill : array, shape (...) [m]
        Basic minor diameter: drill this, or a little over.
    pitch_diameter : array, shape (...) [m]
    tap_major : array, shape (...) [m]
        Basic major diameter of the insert's own tap.
    """

    drill: Array
    pitch_diameter: Array
    tap_major: Array


def basic_thread(major_diameter: ArrayLike, pitch: ArrayLike) -> BasicThread:
    """Answer the basic diameters of a thread from its size and pitch.

    D2 = D − 2·⅜ H, D1 = D − 2·⅝ H, d3 = D1 − H/6, with H = √3/2 P.

    Parameters
    ----------
    major_diameter : array, shape (...) [m]
    pitch : array, shape (...) [m]

    Returns
    -------
    thread : BasicThread, shape (...) [m]

    Range of validity: unified and ISO metric threads, exact.
    Source: ISO 68-1 and ASME B1.1 (basic profile); ISO 898-1 (root diameter d1 − H/6).

    Examples
    --------
    >>> round(float(basic_thread(0.010, 0.0015).pitch_diameter) * 1e3, 3)
    9.026
    """
    major = np.asarray(major_diameter, dtype=np.float64)
    height = SHARP_HEIGHT * np.asarray(pitch, dtype=np.float64)
    return BasicThread(
        pitch_diameter=major - 0.75 * height,
        minor_diameter=major - 1.25 * height,
        root_diameter=major - 1.25 * height - height / 6.0,
    )


def thread_share(
    hole_diameter: ArrayLike,
    major_diameter: ArrayLike,
    pitch: ArrayLike,
) -> Array:
    """Answer which share of a full thread a measured hole still holds.

    s = (D − hole) / (1.299 P): full as shop charts have it.

    Parameters
    ----------
    hole_diameter : array, shape (...) [m]
        Bore across the crests of the thread, or of the plain hole.
    major_diameter : array, shape (...) [m]
    pitch : array, shape (...) [m]

    Returns
    -------
    share : array, shape (...) [1]
        Zero or less: the bolt falls through. The basic profile reads 1.2 times the shop figure.

    Range of validity: round, straight holes; a worn thread may be thinner than its bore tells.
    Source: Machinery's Handbook, 31st edition, tapping, table 2 (shop basis); ASME B1.1 (basic
    profile).

    Examples
    --------
    >>> round(float(thread_share(0.201 * 0.0254, 0.250 * 0.0254, 0.0254 / 20)), 3)
    0.754
    """
    depth = np.asarray(major_diameter, dtype=np.float64) - hole_diameter
    return np.asarray(depth / (SHOP_DEPTH * np.asarray(pitch)))


def hole_for_share(
    share: ArrayLike,
    major_diameter: ArrayLike,
    pitch: ArrayLike,
) -> Array:
    """Answer which hole leaves a wanted share of thread: the tap drill.

    hole = D − s · 1.299 P.

    Parameters
    ----------
    share : array, shape (...) [1]
        0.75 is usual; 0.6 to 0.65 taps easily in steel.
    major_diameter : array, shape (...) [m]
    pitch : array, shape (...) [m]

    Returns
    -------
    hole_diameter : array, shape (...) [m]

    Range of validity: cutting taps; forming taps need a larger hole.
    Source: as ``thread_share``.

    Examples
    --------
    >>> round(float(hole_for_share(0.75, 0.25 * 0.0254, 0.0254 / 20)) / 0.0254, 4)
    0.2013
    """
    depth = np.asarray(share, dtype=np.float64) * SHOP_DEPTH * pitch
    return np.asarray(np.asarray(major_diameter) - depth)


def takes_next_size(
    hole_diameter: ArrayLike,
    major_diameter: ArrayLike,
    pitch: ArrayLike,
    least_share: ArrayLike = 0.6,
    tap_share: ArrayLike = 0.75,
) -> Array:
    """Answer which larger threads a worn hole will take once it is drilled for their tap.

    The hole takes a thread if max(hole, D − s k P) still leaves the least share.

    Parameters
    ----------
    hole_diameter : array, shape (...) [m]
        Widest place of the worn hole.
    major_diameter : array, shape (...) [m]
        Of the larger threads; put them on their own axis.
    pitch : array, shape (...) [m]
    least_share : array, shape (...) [1]
        Least share of thread, shop basis, that is put up with (common practice: 0.5 to 0.6).
    tap_share : array, shape (...) [1]
        Share that the tap drill leaves in sound metal, shop basis.

    Returns
    -------
    drill : array, shape (...) [m]
        Hole to drill; not a number where the worn hole is too wide for that thread.

    Range of validity: as ``thread_share``; look at the metal around the hole before drilling.
    Source: geometry.

    Examples
    --------
    >>> sizes, pitches = np.array([8.0, 10.0]) * 1e-3, np.array([1.25, 1.5]) * 1e-3
    >>> (takes_next_size(0.0078, sizes, pitches) * 1e3).round(2).tolist()
    [nan, 8.54]
    """
    drill = np.maximum(hole_for_share(tap_share, major_diameter, pitch), hole_diameter)
    left = thread_share(drill, major_diameter, pitch)
    return np.where(left >= np.asarray(least_share) - 1e-12, drill, np.nan)


def insert_hole(major_diameter: ArrayLike, pitch: ArrayLike) -> InsertHole:
    """Answer which hole a wire thread insert needs to bring back the old thread.

    drill D + ¼ H, pitch diameter D + ¾ H, tap major D + 1½ H.

    Parameters
    ----------
    major_diameter : array, shape (...) [m]
        Of the thread that the insert brings back.
    pitch : array, shape (...) [m]

    Returns
    -------
    hole : InsertHole, shape (...) [m]

    Range of validity: basic sizes by geometry, without the tolerances of the insert's standard;
    drill as the packet says where it differs.
    Source: geometry of a 60° wire one pitch wide, as ASME B18.29.1 (from memory, high confidence).

    Examples
    --------
    >>> hole = insert_hole(0.25 * 0.0254, 0.0254 / 20)
    >>> round(float(hole.tap_major) / 0.0254, 4), round(float(hole.drill) / 0.0254, 4)
    (0.315, 0.2608)
    """
    major = np.asarray(major_diameter, dtype=np.float64)
    height = SHARP_HEIGHT * np.asarray(pitch, dtype=np.float64)
    return InsertHole(
        drill=major + 0.25 * height,
        pitch_diameter=major + 0.75 * height,
        tap_major=major + 1.5 * height,
    )


def wall_left(
    tap_major: ArrayLike, edge_distance: ArrayLike, neighbour_radius: ArrayLike = 0.0
) -> Array:
    """Answer how much metal is left beside a larger hole.

    w = e − D/2 − r.

    Parameters
    ----------
    tap_major : array, shape (...) [m]
        Major diameter of the larger thread.
    edge_distance : array, shape (...) [m]
        From the hole's centre to the nearest edge, or to the centre of a hole beside it.
    neighbour_radius : array, shape (...) [m]
        Radius of that hole beside it; 0 for an edge.

    Returns
    -------
    wall : array, shape (...) [m]

    Range of validity: exact.
    Source: geometry; half the thread's diameter is the usual least wall in cast metal (common
    practice).

    Examples
    --------
    >>> round(float(wall_left(0.010, 0.011)), 4)
    0.006
    """
    half = 0.5 * np.asarray(tap_major, dtype=np.float64)
    return np.asarray(np.asarray(edge_distance) - half - neighbour_radius)

"""Limits of size of ordinary bolts and nuts: how loose a thread may be and still pass."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.customary import INCH
from beltwright.physics.thread.share import basic_thread


class ThreadLimits(NamedTuple):
    """The loosest bolt and nut that their class allows.

    Attributes
    ----------
    bolt_major : array, shape (...) [m]
        Least major diameter of the bolt.
    bolt_pitch : array, shape (...) [m]
        Least pitch diameter of the bolt.
    nut_pitch : array, shape (...) [m]
        Greatest pitch diameter of the nut.
    """

    bolt_major: Array
    bolt_pitch: Array
    nut_pitch: Array


def unified_limits(
    major_diameter: ArrayLike, pitch: ArrayLike, engagement: ArrayLike | None = None
) -> ThreadLimits:
    """Answer the loosest class 2A bolt and class 2B nut.

    Td2 = 0.0015 (∛D + √Le + 10 ∛P²), allowance 0.3 Td2, nut 1.3 Td2, Td = 0.06 ∛P², all in inches.

    Parameters
    ----------
    major_diameter : array, shape (...) [m]
    pitch : array, shape (...) [m]
    engagement : array, shape (...) [m] or None
        Length of engagement; the basic major diameter if it is not given, as coarse and fine
        series tabulate.

    Returns
    -------
    limits : ThreadLimits, shape (...) [m]

    Range of validity: unified coarse and fine series.
    Source: ASME B1.1, tolerances and allowances (from memory, high confidence; checked against
    printed limits).

    Examples
    --------
    >>> round(float(unified_limits(0.25 * 0.0254, 0.0254 / 20).bolt_pitch) / 0.0254, 4)
    0.2127
    """
    major = np.asarray(major_diameter, dtype=np.float64) / INCH
    step = np.asarray(pitch, dtype=np.float64) / INCH
    length = major if engagement is None else np.asarray(engagement, dtype=np.float64) / INCH
    tolerance = 0.0015 * (np.cbrt(major) + np.sqrt(length) + 10.0 * np.cbrt(step**2))
    allowance = 0.3 * tolerance
    basic = basic_thread(major, step).pitch_diameter
    return ThreadLimits(
        bolt_major=(major - allowance - 0.06 * np.cbrt(step**2)) * INCH,
        bolt_pitch=(basic - allowance - tolerance) * INCH,
        nut_pitch=(basic + 1.3 * tolerance) * INCH,
    )


def metric_limits(major_diameter: ArrayLike, pitch: ArrayLike) -> ThreadLimits:
    """Answer the loosest 6g bolt and 6H nut.

    Td2 = 90 P^0.4 d^0.1, TD2 = 1.32 Td2, Td = 180 ∛P² − 3.15/√P, es = −(15 + 11 P), in µm with
    P and d in mm, d the middle (geometric mean) of its diameter step.

    Parameters
    ----------
    major_diameter : array, shape (...) [m]
    pitch : array, shape (...) [m]

    Returns
    -------
    limits : ThreadLimits, shape (...) [m]

    Range of validity: M3 to M45; the standard rounds to preferred numbers, so it may differ by
    5 % of the tolerance.
    Source: ISO 965-1, clauses on tolerances and fundamental deviations (from memory, high
    confidence; checked against printed limits).

    Examples
    --------
    >>> round(float(metric_limits(0.010, 0.0015).bolt_pitch) * 1e3, 2)
    8.86
    """
    major = np.asarray(major_diameter, dtype=np.float64) * 1e3
    step = np.asarray(pitch, dtype=np.float64) * 1e3
    tolerance = 90.0 * step**0.4 * _middle_of_step(major) ** 0.1
    deviation = 15.0 + 11.0 * step
    crest = 180.0 * np.cbrt(step**2) - 3.15 / np.sqrt(step)
    basic = basic_thread(major, step).pitch_diameter
    return ThreadLimits(
        bolt_major=(major - (deviation + crest) * 1e-3) * 1e-3,
        bolt_pitch=(basic - (deviation + tolerance) * 1e-3) * 1e-3,
        nut_pitch=(basic + 1.32 * tolerance * 1e-3) * 1e-3,
    )


def _middle_of_step(major: Array) -> Array:
    """Geometric mean of the diameter step of ISO 965-1 that holds a size [mm]."""
    edges = np.array([1.5, 2.8, 5.6, 11.2, 22.4, 45.0])
    above = np.clip(np.searchsorted(edges, major), 1, len(edges) - 1)
    return np.asarray(np.sqrt(edges[above - 1] * edges[above]))

"""What a screwed joint carries: bolt, stripping of either thread, tightening torque."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.thread.share import SHARP_HEIGHT

TAN_30 = np.tan(np.pi / 6.0)
"""Slope of a 60° flank [1]."""


def tensile_area(major_diameter: ArrayLike, pitch: ArrayLike, metric: bool) -> Array:
    """Answer the area on which a bolt pulls apart.

    A = π/4 (D − 9√3/16 P)² for inch threads; A = π/4 (D − 13/12 · √3/2 P)² for metric threads.

    Parameters
    ----------
    major_diameter : array, shape (...) [m]
    pitch : array, shape (...) [m]
    metric : bool [1]
        Metric threads have a rounder root.

    Returns
    -------
    area : array, shape (...) [m²]

    Range of validity: steel bolts up to 100,000 psi (690 MPa) for the inch form.
    Source: ASME B1.1, nonmandatory appendix B (0.9743/n); ISO 898-1, mean of pitch and root
    diameters (0.9382 P).

    Examples
    --------
    >>> round(float(tensile_area(0.010, 0.0015, metric=True)) * 1e6, 2)
    57.99
    """
    depth = 13.0 / 12.0 * SHARP_HEIGHT if metric else 9.0 / 8.0 * SHARP_HEIGHT
    core = np.asarray(major_diameter, dtype=np.float64) - depth * np.asarray(pitch)
    return np.asarray(np.pi / 4.0 * core**2)


def bolt_strip_area(
    hole_diameter: ArrayLike,
    bolt_pitch_diameter: ArrayLike,
    pitch: ArrayLike,
    engagement: ArrayLike,
) -> Array:
    """Answer on which area the bolt's thread strips in a hole of a given bore.

    A = π Le K (1/2 + tan 30° (E − K) / P), with K the bore.

    Parameters
    ----------
    hole_diameter : array, shape (...) [m]
        Bore across the crests of the nut thread, K; a worn hole makes it larger.
    bolt_pitch_diameter : array, shape (...) [m]
        Least pitch diameter of the bolt, E.
    pitch : array, shape (...) [m]
    engagement : array, shape (...) [m]
        Length over which full turns meet.

    Returns
    -------
    area : array, shape (...) [m²]
        Zero where bolt and bore no longer meet.

    Range of validity: share of thread above about a half; shallower threads bend and ride over
    before they shear.
    Source: ASME B1.1, nonmandatory appendix B; FED-STD-H28/2B.

    Examples
    --------
    >>> area = bolt_strip_area(0.2067 * 0.0254, 0.2127 * 0.0254, 0.0254 / 20, 0.25 * 0.0254)
    >>> round(float(area) / 0.0254**2, 4)
    0.0924
    """
    bore = np.asarray(hole_diameter, dtype=np.float64)
    thickness = 0.5 + TAN_30 * (np.asarray(bolt_pitch_diameter) - bore) / pitch
    return np.asarray(np.pi * bore * engagement * np.maximum(thickness, 0.0))


def nut_strip_area(
    bolt_major_diameter: ArrayLike,
    nut_pitch_diameter: ArrayLike,
    pitch: ArrayLike,
    engagement: ArrayLike,
    hole_diameter: ArrayLike = 0.0,
) -> Array:
    """Answer on which area the thread in the hole strips.

    A = π Le D (1/2 + tan 30° (D − E) / P), nothing where the bore reaches the bolt's crests.

    Parameters
    ----------
    bolt_major_diameter : array, shape (...) [m]
        Least major diameter of the bolt, D.
    nut_pitch_diameter : array, shape (...) [m]
        Greatest pitch diameter of the nut, E.
    pitch : array, shape (...) [m]
    engagement : array, shape (...) [m]
    hole_diameter : array, shape (...) [m]
        Bore across the crests of the nut thread.

    Returns
    -------
    area : array, shape (...) [m²]

    Range of validity: share of thread above about a half.
    Source: ASME B1.1, nonmandatory appendix B; FED-STD-H28/2B.

    Examples
    --------
    >>> area = nut_strip_area(0.2408 * 0.0254, 0.2224 * 0.0254, 0.0254 / 20, 0.25 * 0.0254)
    >>> round(float(area) / 0.0254**2, 4)
    0.1347
    """
    crest = np.asarray(bolt_major_diameter, dtype=np.float64)
    thickness = 0.5 + TAN_30 * (crest - np.asarray(nut_pitch_diameter)) / pitch
    area = np.pi * crest * engagement * np.maximum(thickness, 0.0)
    return np.where(np.asarray(hole_diameter) < crest, area, 0.0)


def strip_load(area: ArrayLike, shear_strength: ArrayLike) -> Array:
    """Answer at which pull a thread strips.

    F = A τ.

    Parameters
    ----------
    area : array, shape (...) [m²]
    shear_strength : array, shape (...) [Pa]

    Returns
    -------
    load : array, shape (...) [N]

    Range of validity: static pull; keep a half or less of it in a cast case (common practice).
    Source: FED-STD-H28/2B.

    Examples
    --------
    >>> float(strip_load(1e-4, 2e8))
    20000.0
    """
    return np.asarray(np.asarray(area, dtype=np.float64) * shear_strength)


def tightening_torque(
    preload: ArrayLike, major_diameter: ArrayLike, nut_factor: ArrayLike = 0.2
) -> Array:
    """Answer how hard to tighten for a wanted pull in the bolt.

    T = K F D.

    Parameters
    ----------
    preload : array, shape (...) [N]
        Usually 0.75 of proof strength times tensile area for a joint that is taken apart.
    major_diameter : array, shape (...) [m]
    nut_factor : array, shape (...) [1]
        0.2 as received, 0.15 to 0.18 oiled, 0.3 rough or rusty.

    Returns
    -------
    torque : array, shape (...) [N·m]

    Range of validity: the pull scatters by 25 % either way at the same torque.
    Source: Shigley, Mechanical Engineering Design, 8th edition, section 8-8, equation 8-27.

    Examples
    --------
    >>> round(float(tightening_torque(20e3, 0.010)), 1)
    40.0
    """
    return np.asarray(np.asarray(nut_factor, dtype=np.float64) * preload * major_diameter)


def usual_preload(
    proof_strength: ArrayLike,
    area: ArrayLike,
    weakest_thread: ArrayLike = np.inf,
    proof_share: ArrayLike = 0.75,
    thread_share: ArrayLike = 0.5,
) -> Array:
    """Answer how hard a bolt may be drawn, for the bolt and for the thread that holds it.

    F = min(0.75 Sp A, 0.5 F strip).

    Parameters
    ----------
    proof_strength : array, shape (...) [Pa]
    area : array, shape (...) [m²]
        Tensile area.
    weakest_thread : array, shape (...) [N]
        Pull at which the weaker of the two threads strips.
    proof_share : array, shape (...) [1]
        0.75 for joints that are taken apart, 0.9 for lasting ones.
    thread_share : array, shape (...) [1]
        Share of the stripping pull that is put on it (common practice).

    Returns
    -------
    preload : array, shape (...) [N]

    Range of validity: ordinary joints with a torque wrench.
    Source: Shigley, Mechanical Engineering Design, 8th edition, equation 8-31 (0.75); the share of
    the stripping pull is common practice, no source.

    Examples
    --------
    >>> float(usual_preload(600e6, 58e-6, 40e3))
    20000.0
    """
    bolt = np.asarray(proof_share, dtype=np.float64) * proof_strength * area
    thread = np.asarray(thread_share) * np.asarray(weakest_thread)
    return np.asarray(np.minimum(bolt, thread))

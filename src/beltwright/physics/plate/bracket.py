"""A flat bracket that holds a loaded bolt away from its fixing: stress in its cross-section."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike

SPREAD = np.tan(np.radians(30.0))
"""How far the pull of a bolt spreads to each side, over the way from it [1]."""

WASHER = 2.0
"""Width of a bolt's washer over the hole under it [1] (common practice, no source)."""


class Stress(NamedTuple):
    """What strains a cross-section of a bracket, by size.

    Attributes
    ----------
    pull, upright, flat : array, shape (...) [Pa]
        Along the bracket: from the pull itself, from bending in its own plane, and from bending
        out of it.
    twist, shear : array, shape (...) [Pa]
        Across it.
    """

    pull: Array
    upright: Array
    flat: Array
    twist: Array
    shear: Array

    @property
    def together(self) -> Array:
        """All of it as one stress to be set against the yield strength, shape (...) [Pa]."""
        along = self.pull + self.upright + self.flat
        across = self.twist + self.shear
        return np.sqrt(along * along + 3.0 * across * across)


def bracket_stress(
    along: ArrayLike,
    across: ArrayLike,
    lever: ArrayLike,
    stand_off: ArrayLike,
    width: ArrayLike,
    thickness: ArrayLike,
) -> Stress:
    """Answer how a force on a bolt that stands up from a bracket strains a cross-section of it.

    pull = F∥ / (b t), upright = 6 F⊥ l / (t b²), flat = 6 F∥ e / (b t²),
    twist = F⊥ e (3 + 1.8 c / w) / (w c²) with w the larger and c the smaller of b and t,
    shear = 1.5 F⊥ / (b t); together √((pull + upright + flat)² + 3 (twist + shear)²).

    Parameters
    ----------
    along : array, shape (...) [N]
        Part of the force that points along the bracket.
    across : array, shape (...) [N]
        Part in its plane, square to it.
    lever : array, shape (...) [m]
        From the bolt to the cross-section, along the bracket.
    stand_off : array, shape (...) [m]
        From the middle of the bracket's thickness to the force.
    width : array, shape (...) [m]
        Of the cross-section, holes taken off; 0 gives an infinite stress.
    thickness : array, shape (...) [m]

    Returns
    -------
    stress : Stress, shape (...) [Pa]

    Range of validity: a flat bracket of ductile metal under a steady load, clamped stiffly at its
    fixing; all stresses are added as if they met in one corner, which errs on the safe side.
    Source: Shigley, Mechanical Engineering Design, 8th edition, sections 3-10 (bending), 3-11
    (shear of a rectangle), equation 3-40 (twist of a rectangle) and 5-5 (distortion energy).

    Examples
    --------
    >>> stress = bracket_stress(0.0, 100.0, 0.05, 0.0, 0.04, 0.005)
    >>> round(float(stress.upright) / 1e6, 6), round(float(stress.together) / 1e6, 3)
    (3.75, 3.969)
    """
    pull, side = np.abs(along), np.abs(across)
    off = np.abs(stand_off)
    b, t = np.asarray(width, dtype=np.float64), np.asarray(thickness, dtype=np.float64)
    long, short = np.maximum(b, t), np.minimum(b, t)
    with np.errstate(divide="ignore", invalid="ignore"):
        parts = (
            pull / (b * t),
            6.0 * side * lever / (t * b * b),
            6.0 * pull * off / (b * t * t),
            side * off * (3.0 + 1.8 * short / long) / (long * short * short),
            1.5 * side / (b * t),
        )
    return Stress(*(np.where(b > 0.0, part, np.inf) for part in parts))


def spread_width(distance: ArrayLike, diameter: ArrayLike) -> Array:
    """Answer how much of a wide plate helps to bear a bolt's pull at a distance from it.

    w = 2 d + 2 x tan 30°, with x no less than d: under its washer the plate is clamped.

    Parameters
    ----------
    distance : array, shape (...) [m]
        From the bolt to the cross-section.
    diameter : array, shape (...) [m]
        Of its hole.

    Returns
    -------
    width : array, shape (...) [m]

    Range of validity: flat plates; where less metal is there, that is what bears.
    Source: Whitmore's section, AISC Manual of Steel Construction, part 9 (30° to each side, from
    memory, high), which is made for pull in the plane; used for bending out of it too, where a
    plate spreads no less. The washer is common practice.

    Examples
    --------
    >>> round(float(spread_width(0.03, 0.01)), 6)
    0.054641
    """
    far = np.maximum(distance, diameter)
    return np.asarray(WASHER * np.asarray(diameter) + 2.0 * SPREAD * far)

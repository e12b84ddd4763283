"""Where a belt's pitch line runs on the pulleys that a builder can measure.

The pitch line is the line in the belt that keeps its length when the belt bends.  It lies a little
below the outside of a grooved pulley, and the belt's own height away from a smooth idler.
"""

from beltwright.physics.arrays import ArrayLike


def grooved_radius(outside_diameter: ArrayLike, offset: ArrayLike) -> ArrayLike:
    """Find the pitch line's radius in the groove of an inside pulley.

    r = OD / 2 - offset.

    Parameters
    ----------
    outside_diameter : array, shape (...) [m]
        Over the rim of the pulley.
    offset : array, shape (...) [m]
        Depth of the pitch line under the rim, half of what the section's table gives for the
        diameter (outside less pitch or datum diameter); negative where the belt stands proud.

    Returns
    -------
    array, shape (...) [m]
        Radius of the pitch line.

    Notes
    -----
    Range of validity: a belt of the groove's own section, neither worn nor bottomed.

    Source: definition of the offset in ANSI/RMA IP-20, groove tables.

    Examples
    --------
    >>> round(grooved_radius(0.095, 0.003175), 6)
    0.044325
    """
    return 0.5 * outside_diameter - offset


def flat_inside_radius(outside_diameter: ArrayLike, height_below: ArrayLike) -> ArrayLike:
    """Find the pitch line's radius on a smooth idler inside the loop.

    r = OD / 2 + height of the belt under its pitch line.

    Parameters
    ----------
    outside_diameter : array, shape (...) [m]
        Over the face of the idler.
    height_below : array, shape (...) [m]
        From the belt's narrow side to its pitch line.

    Returns
    -------
    array, shape (...) [m]
        Radius of the pitch line.

    Notes
    -----
    Range of validity: a face without grooves, wide enough for the belt.

    Source: plane geometry.

    Examples
    --------
    >>> round(flat_inside_radius(0.08, 0.0055), 6)
    0.0455
    """
    return 0.5 * outside_diameter + height_below


def back_side_radius(outside_diameter: ArrayLike, height_above: ArrayLike) -> ArrayLike:
    """Find the pitch line's radius on a smooth idler that runs on the belt's back.

    r = OD / 2 + height of the belt above its pitch line.

    Parameters
    ----------
    outside_diameter : array, shape (...) [m]
        Over the face of the idler.
    height_above : array, shape (...) [m]
        From the pitch line to the belt's wide side.

    Returns
    -------
    array, shape (...) [m]
        Radius of the pitch line.

    Notes
    -----
    Range of validity: a face without grooves, wide enough for the belt.

    Source: plane geometry.

    Examples
    --------
    >>> round(back_side_radius(0.083, 0.0025), 6)
    0.044
    """
    return 0.5 * outside_diameter + height_above

"""The belt's true width in the plane in which it runs.

A V-belt on a vertical shaft stands on edge: seen from above its height is the width of the band,
and its top width is what it takes up in height.
"""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.loop import BeltPath
from beltwright.physics.belt.run import Run
from beltwright.physics.belt.span import Span


def offset_path(path: BeltPath, outward: ArrayLike) -> BeltPath:
    """Follow a line in the belt that runs beside its pitch line.

    Radius on an inside pulley r + a, on a back-side pulley r - a; headings, spans and wraps stay as
    they are, and the length grows by a times the sum of side times wrap.

    Parameters
    ----------
    path : BeltPath [m]
        The pitch line.
    outward : array, shape (...) [m]
        a, towards the belt's back; the height above the pitch line gives the back, minus the height
        under it the narrow side.

    Returns
    -------
    BeltPath [m]
        The line beside it; its run carries the changed radii.

    Notes
    -----
    Range of validity: |a| smaller than every radius on whose inner side the line runs.

    Source: parallel curves, exact.

    Examples
    --------
    >>> from beltwright.physics.belt.path import belt_path
    >>> path = belt_path(Run([0.0, 2.0], [0.0, 0.0], [0.5, 0.5], [1, 1]))
    >>> round(float(offset_path(path, 0.1).length - path.length), 6)
    0.628319
    """
    run = path.run
    radii = [radius + side * outward for radius, side in zip(run.radius, run.side, strict=True)]
    arcs = tuple(radius * wrap for radius, wrap in zip(radii, path.wrap, strict=True))
    return path._replace(
        run=Run(run.x, run.y, radii, run.side),
        spans=tuple(_beside(span, path.sense * outward) for span in path.spans),
        arc=arcs,
        length=path.length + sum(arcs) - sum(path.arc),
    )


class Bend(NamedTuple):
    """The middle of the belt's band on one pulley.

    Attributes
    ----------
    x, y : array, shape (...) [m]
        The pulley's centre.
    radius : array, shape (...) [m]
        Radius of the band's middle.
    toward_x, toward_y : array, shape (...) [1]
        Unit vector from the centre to the middle of the arc.
    half_cosine : array, shape (...) [1]
        Cosine of half the wrap: a unit vector lies within the arc when its product with `toward` is
        at least this.
    """

    x: ArrayLike
    y: ArrayLike
    radius: ArrayLike
    toward_x: Array
    toward_y: Array
    half_cosine: Array


class Band(NamedTuple):
    """The belt in its true width: everything within `half` of a middle line.

    Attributes
    ----------
    middle : BeltPath [m]
        The middle of the band.
    half : array, shape (...) [m]
        Half its width in the plane.
    bends : tuple of n Bend [m]
        The arcs of the middle line, one a pulley.
    """

    middle: BeltPath
    half: ArrayLike
    bends: tuple[Bend, ...]


def belt_band(path: BeltPath, above: ArrayLike, below: ArrayLike) -> Band:
    """Give a belt its true width in the plane.

    Middle line (above - below) / 2 outward of the pitch line, half width (above + below) / 2.

    Parameters
    ----------
    path : BeltPath [m]
        The pitch line.
    above : array, shape (...) [m]
        Height of the belt from its pitch line to its back.
    below : array, shape (...) [m]
        Height of the belt from its pitch line to its narrow side.

    Returns
    -------
    Band [m]
        The band.

    Notes
    -----
    Range of validity: as for `offset_path`.

    Source: parallel curves, exact.

    Examples
    --------
    >>> from beltwright.physics.belt.path import belt_path
    >>> path = belt_path(Run([0.0, 2.0], [0.0, 0.0], [0.5, 0.5], [1, 1]))
    >>> band = belt_band(path, 0.002, 0.006)
    >>> round(float(band.half), 6), round(float(band.bends[0].radius), 6)
    (0.004, 0.498)
    """
    middle = offset_path(path, 0.5 * (above - below))
    with np.errstate(invalid="ignore", divide="ignore"):
        bends = tuple(_bend(middle, pulley) for pulley in range(len(path.run)))
    return Band(middle, 0.5 * (above + below), bends)


def _bend(middle: BeltPath, pulley: int) -> Bend:
    """Describe an arc; the heading in less the heading out points to its middle."""
    run, meets, leaves = middle.run, middle.spans[pulley - 1], middle.spans[pulley]
    push_x, push_y = meets.heading_x - leaves.heading_x, meets.heading_y - leaves.heading_y
    size = np.sqrt(push_x * push_x + push_y * push_y)
    return Bend(
        run.x[pulley],
        run.y[pulley],
        run.radius[pulley],
        push_x / size,
        push_y / size,
        np.cos(0.5 * middle.wrap[pulley]),
    )


def _beside(span: Span, right: ArrayLike) -> Span:
    """Shift a span to the right of its heading [m]."""
    x, y = right * span.heading_y, -right * span.heading_x
    return span._replace(
        start_x=span.start_x + x,
        start_y=span.start_y + y,
        end_x=span.end_x + x,
        end_y=span.end_y + y,
    )

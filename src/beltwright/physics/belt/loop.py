"""A belt's path round its pulleys in a given sense: spans, wraps, arcs and length.

The belt is followed along its pitch line: straight spans that touch two pitch circles, and arcs
between them.  What does not vary is worked out once: every pulley brings its own arrays, and a span
between two fixed pulleys stays a single number however many candidates the others have.
"""

from functools import reduce
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.run import Run
from beltwright.physics.belt.span import Span, span_from, wrap_on

TURN_ERROR = 1e-6
"""How far the headings may fall short of one full turn and still close [rad]; far above rounding,
far below the next possible value, which is a full turn away."""


class BeltPath(NamedTuple):
    """The whole path.

    Attributes
    ----------
    run : Run [m]
        The pulleys that it goes round.
    sense : array, shape (...) [1]
        +1 where the order of the run goes round counter-clockwise, -1 where clockwise.
    spans : tuple of n Span [m]
        Span i leaves pulley i and meets pulley i + 1; the last meets pulley 0.
    wrap : tuple of n arrays, shape (...) [rad]
        Angle over which the belt lies on each pulley; negative where the belt misses it.
    arc : tuple of n arrays, shape (...) [m]
        Length of pitch line on each pulley, radius times wrap.
    length : array, shape (...) [m]
        Pitch length of a belt that just fits.
    """

    run: Run
    sense: Array
    spans: tuple[Span, ...]
    wrap: tuple[Array, ...]
    arc: tuple[Array, ...]
    length: Array


def path_in_sense(run: Run, sense: ArrayLike) -> BeltPath:
    """Follow a belt round its pulleys: tangent points, spans, wraps, arcs and length.

    Span: l = sqrt(D^2 - q^2), with D the distance of the centres and q the difference of the
    radii signed by the way each pulley turns the belt; unit heading u = (l d + q J^T d) / D^2, with
    d the vector between the centres and J a quarter turn counter-clockwise.  Wrap: the change of
    heading.  Length: sum of the spans and of radius times wrap.

    Parameters
    ----------
    run : Run [m]
        Pulleys in the order in which the belt goes round.
    sense : array, shape (...) [1]
        +1 where this order goes round counter-clockwise, -1 where clockwise.

    Returns
    -------
    BeltPath [m, rad]
        NaN in every part that depends on two pulleys without a common tangent.

    Notes
    -----
    Range of validity: pulleys in one plane, belt without bending stiffness.  Wraps are read between
    -90 and +270 degrees.  `belt_fault.path_faults` says which candidates make no usable loop.

    Source: plane geometry of common tangents, exact; the open belt as in Shigley's Mechanical
    Engineering Design, 10th ed., eq. 17-1 and 17-2.

    Examples
    --------
    >>> path = path_in_sense(Run([0.0, 96.0], [0.0, 0.0], [3.0, 9.0], [1, 1]), 1.0)
    >>> round(float(path.length), 3)
    230.074
    """
    way = np.asarray(sense, dtype=np.float64)
    with np.errstate(invalid="ignore", divide="ignore"):
        spans = tuple(span_from(run, pulley, way) for pulley in range(len(run)))
        wraps = tuple(wrap_on(run, pulley, way, spans) for pulley in range(len(run)))
        return joined(run, way, spans, wraps)


def joined(run: Run, sense: Array, spans: tuple[Span, ...], wraps: tuple[Array, ...]) -> BeltPath:
    """Join spans and wraps that are already known to a path.

    Length = sum of the spans + sum of radius times wrap.

    Parameters
    ----------
    run : Run [m]
        The pulleys.
    sense : array, shape (...) [1]
        +1 counter-clockwise, -1 clockwise.
    spans : tuple of n Span [m]
        All spans.
    wraps : tuple of n arrays, shape (...) [rad]
        All wraps.

    Returns
    -------
    BeltPath [m, rad]
        The path.

    Notes
    -----
    Range of validity: as for `path_in_sense`.

    Source: definition.

    Examples
    --------
    >>> path = path_in_sense(Run([0.0, 2.0], [0.0, 0.0], [0.5, 0.5], [1, 1]), 1.0)
    >>> bool(joined(path.run, path.sense, path.spans, path.wrap).length == path.length)
    True
    """
    arcs = tuple(np.asarray(radius * wrap) for radius, wrap in zip(run.radius, wraps, strict=True))
    length = reduce(np.add, [span.length for span in spans]) + reduce(np.add, arcs)
    return BeltPath(run, sense, spans, wraps, arcs, np.asarray(length))


def length_gradient(path: BeltPath) -> tuple[tuple[Array, Array], ...]:
    """Say how the path's length grows as each pulley's centre is moved.

    dL/dc = u_in - u_out, the heading that meets the pulley less the heading that leaves it.  It
    points from the centre to the middle of the arc, its size is 2 sin(wrap / 2), and it is also the
    direction of the pull of two equal span tensions, reversed.  (The length grows with the
    pulley's radius by its wrap: dL/dr = wrap.)

    Parameters
    ----------
    path : BeltPath [m]
        The path.

    Returns
    -------
    tuple of n pairs of arrays, shape (...) [1]
        dL/dx and dL/dy of each pulley [m/m].

    Notes
    -----
    Range of validity: as for `path_in_sense`.

    Source: derivative of the formulas of `belt_path`, exact.

    Examples
    --------
    >>> path = path_in_sense(Run([0.0, 20.0], [0.0, 0.0], [1.5, 4.5], [1, 1]), 1.0)
    >>> round(float(length_gradient(path)[1][0]), 6)
    1.977372
    """
    return tuple(
        (
            path.spans[i - 1].heading_x - path.spans[i].heading_x,
            path.spans[i - 1].heading_y - path.spans[i].heading_y,
        )
        for i in range(len(path.run))
    )


def turning(path: BeltPath) -> Array:
    """Say through what angle the headings turn in one round, in the path's own sense.

    Turning = sum of side times wrap.

    Parameters
    ----------
    path : BeltPath [m]
        The path.

    Returns
    -------
    array, shape (...) [rad]
        One full turn for a plain loop, 0 for a crossed (half-twist) belt.

    Notes
    -----
    Range of validity: as for `path_in_sense`.

    Source: definition.

    Examples
    --------
    >>> crossed = path_in_sense(Run([0.0, 24.0], [0.0, 0.0], [2.0, 4.0], [1, -1]), 1.0)
    >>> round(float(turning(crossed)), 6)
    0.0
    """
    return np.asarray(
        reduce(np.add, [side * wrap for side, wrap in zip(path.run.side, path.wrap, strict=True)])
    )

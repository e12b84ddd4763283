"""The exact path of a belt round any number of pulleys and back-side idlers.

The belt is followed along its pitch line: straight spans that touch two pitch circles, and arcs
between them.  What does not vary is worked out once: every pulley brings its own arrays, and a span
between two fixed pulleys stays a single number however many candidates the others have.
"""

from dataclasses import dataclass
from functools import reduce

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt_run import Run
from beltwright.physics.belt_span import FULL_TURN, Span, span_from, wrap_on

TURN_ERROR = 1e-6
"""How far the headings may fall short of one full turn and still close [rad]; far above rounding,
far below the next possible value, which is a full turn away."""


@dataclass(frozen=True)
class BeltPath:
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


def belt_path(run: Run, sense: ArrayLike | None = None) -> BeltPath:
    """Follow a belt round its pulleys: tangent points, spans, wraps, arcs and length.

    Span: l = sqrt(D^2 - q^2), with D the distance of the centres and q the difference of the
    radii signed by the way each pulley turns the belt; unit heading u = (l d + q J^T d) / D^2, with
    d the vector between the centres and J a quarter turn counter-clockwise.  Wrap: the change of
    heading.  Length: sum of the spans and of radius times wrap.

    Parameters
    ----------
    run : Run [m]
        Pulleys in the order in which the belt goes round.
    sense : array, shape (...), optional [1]
        +1 counter-clockwise, -1 clockwise; found by `loop_sense` when left out.

    Returns
    -------
    BeltPath [m, rad]
        NaN in every part that depends on two pulleys without a common tangent.

    Notes
    -----
    Range of validity: pulleys in one plane, belt without bending stiffness.  Wraps are read between
    -90 and +270 degrees.  `beltwright.physics.belt_fault.path_faults` says which candidates make
    no usable loop.

    Source: plane geometry of common tangents, exact; the open belt as in Shigley's Mechanical
    Engineering Design, 10th ed., eq. 17-1 and 17-2.

    Examples
    --------
    >>> path = belt_path(Run([0.0, 96.0], [0.0, 0.0], [3.0, 9.0], [1, 1]))
    >>> round(float(path.length), 3)
    230.074
    """
    chosen = np.asarray(loop_sense(run) if sense is None else sense, dtype=np.float64)
    with np.errstate(invalid="ignore", divide="ignore"):
        spans = tuple(span_from(run, pulley, chosen) for pulley in range(len(run)))
        wraps = tuple(wrap_on(run, pulley, chosen, spans) for pulley in range(len(run)))
        return joined(run, chosen, spans, wraps)


def loop_sense(run: Run) -> Array:
    """Find which way the order of a run goes round its loop.

    The right sense is the one in which the headings turn through one full turn and no pulley is
    missed.  Where both senses do that (a back-side idler near the line of centres can press on
    either run), it is the one with the shorter belt, in which the idler presses less; where both
    miss a pulley, the one that misses it by less.  Two inside pulleys fit both; +1 is taken.

    Parameters
    ----------
    run : Run [m]
        Pulleys in the order in which the belt goes round.

    Returns
    -------
    array, shape () or (...) [1]
        +1 counter-clockwise, -1 clockwise; +1 where neither closes.  A single number where all
        candidates agree.

    Notes
    -----
    Range of validity: as for `belt_path`.

    Source: a closed curve that does not cross itself turns through one full turn (the theorem of
    turning tangents; M. P. do Carmo, Differential Geometry of Curves and Surfaces, 1976,
    section 5-7).

    Examples
    --------
    >>> float(loop_sense(Run([0.0, 1.0, 0.5], [0.0, 0.0, -0.6], [0.1] * 3, [1, 1, 1])))
    -1.0
    """
    counter_clockwise, clockwise = _closing(run, 1.0), _closing(run, -1.0)
    both = (counter_clockwise.least_wrap > 0.0) & (clockwise.least_wrap > 0.0)
    turned = np.where(
        both,
        clockwise.length < counter_clockwise.length,
        clockwise.least_wrap > counter_clockwise.least_wrap,
    )
    if np.all(turned):
        return np.asarray(-1.0)
    if not np.any(turned):
        return np.asarray(1.0)
    return np.where(turned, -1.0, 1.0)


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
    Range of validity: as for `belt_path`.

    Source: derivative of the formulas of `belt_path`, exact.

    Examples
    --------
    >>> path = belt_path(Run([0.0, 20.0], [0.0, 0.0], [1.5, 4.5], [1, 1]))
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
    Range of validity: as for `belt_path`.

    Source: definition.

    Examples
    --------
    >>> crossed = belt_path(Run([0.0, 24.0], [0.0, 0.0], [2.0, 4.0], [1, -1]))
    >>> round(float(turning(crossed)), 6)
    0.0
    """
    return np.asarray(
        reduce(np.add, [side * wrap for side, wrap in zip(path.run.side, path.wrap, strict=True)])
    )


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
    Range of validity: as for `belt_path`.

    Source: definition.

    Examples
    --------
    >>> path = belt_path(Run([0.0, 2.0], [0.0, 0.0], [0.5, 0.5], [1, 1]))
    >>> bool(joined(path.run, path.sense, path.spans, path.wrap).length == path.length)
    True
    """
    arcs = tuple(np.asarray(radius * wrap) for radius, wrap in zip(run.radius, wraps, strict=True))
    length = reduce(np.add, [span.length for span in spans]) + reduce(np.add, arcs)
    return BeltPath(run, sense, spans, wraps, arcs, np.asarray(length))


@dataclass(frozen=True)
class _Closing:
    """Smallest wrap [rad] in one sense, -inf where the loop does not close in it; length [m]."""

    least_wrap: Array
    length: Array


def _closing(run: Run, sense: float) -> _Closing:
    path = belt_path(run, sense)
    closes = np.abs(turning(path) - FULL_TURN) < TURN_ERROR
    return _Closing(np.where(closes, reduce(np.minimum, path.wrap), -np.inf), path.length)

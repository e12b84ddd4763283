"""A run in which one pulley moves: what stays is worked out once, the rest anew at each place."""

from functools import reduce
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.loop import TURN_ERROR, BeltPath, joined
from beltwright.physics.belt.mount import Motion
from beltwright.physics.belt.run import Run, signed_radius
from beltwright.physics.belt.span import (
    FULL_TURN,
    Span,
    common_tangent,
    signed_wrap,
    span_from,
    wrap_on,
)


class Reach(NamedTuple):
    """The path's length with the moving pulley at one place.

    Attributes
    ----------
    length : array, shape (...) [m]
        Pitch length of the path.
    rate : array, shape (...) [m/rad or 1]
        Its derivative by the position of the mount.
    bend : array, shape (...) [m/rad² or 1/m]
        Its second derivative.
    wrap : array, shape (...) [rad]
        Wrap on the moving pulley; negative where the belt misses it.
    all_wraps : array, shape (...) [rad]
        Sum of the wraps on all pulleys.
    turning : array, shape (...) [rad]
        Sum of side times wrap: one full turn for a loop that closes.
    """

    length: Array
    rate: Array
    bend: Array
    wrap: Array
    all_wraps: Array
    turning: Array

    @property
    def touches(self) -> NDArray[np.bool_]:
        """Whether the belt really bends round the moving pulley.

        An idler far off the belt would be read as almost wrapped round; the loop then fails to
        close.
        """
        return np.asarray((self.wrap > 0.0) & (np.abs(self.turning - FULL_TURN) < TURN_ERROR))


class MovingPulley:
    """A run that is looked at with one of its pulleys in many places.

    Parameters
    ----------
    run : Run [m]
        The pulleys; where the moving one stands in it does not matter.
    pulley : int [1]
        Place of the moving pulley in the run.
    sense : array, shape (...) [1]
        +1 counter-clockwise, -1 clockwise.
    """

    def __init__(self, run: Run, pulley: int, sense: Array) -> None:
        count = len(run)
        self.run, self.pulley, self.sense = run, pulley, sense
        self._before, self._after = (pulley - 1) % count, (pulley + 1) % count
        self._touched = sorted({self._before, pulley, self._after})
        self._turning = [sense * side for side in run.side]
        radius = signed_radius(run, pulley, sense)
        self._rise_in = np.asarray(radius - signed_radius(run, self._before, sense))
        self._rise_out = np.asarray(signed_radius(run, self._after, sense) - radius)
        # fixed pulleys may overlap in some candidates, which then have no span between them
        with np.errstate(invalid="ignore", divide="ignore"):
            self._still = {
                i: span_from(run, i, sense) for i in range(count) if i not in (self._before, pulley)
            }
        self._wraps = {
            i: signed_wrap(self._turning[i], _heading(self._still[(i - 1) % count]), _heading(span))
            for i, span in self._still.items()
            if i not in self._touched
        }
        self._still_length = sum(
            (span.length for span in self._still.values()), start=np.zeros(())
        ) + sum((run.radius[i] * wrap for i, wrap in self._wraps.items()), start=np.zeros(()))
        self._still_wraps = sum(self._wraps.values(), start=np.zeros(()))
        self._still_turning = sum(
            (run.side[i] * wrap for i, wrap in self._wraps.items()), start=np.zeros(())
        )

    def reach(self, motion: Motion) -> Reach:
        """Return the length, its derivatives by the mount's position, and the wraps.

        dL/dp = c' . (u_in - u_out); d2L/dp2 = c'' . (u_in - u_out) + (c' x u_in)^2 / l_in +
        (c' x u_out)^2 / l_out, with c the centre of the moving pulley, u the headings and l the
        lengths of its two spans (exact: the length is an envelope of its own tangents).
        """
        run, k = self.run, self.pulley
        span_in, in_x, in_y = common_tangent(
            np.asarray(motion.x - run.x[self._before]),
            np.asarray(motion.y - run.y[self._before]),
            self._rise_in,
        )
        span_out, out_x, out_y = common_tangent(
            np.asarray(run.x[self._after] - motion.x),
            np.asarray(run.y[self._after] - motion.y),
            self._rise_out,
        )
        headings = {i: _heading(span) for i, span in self._still.items()}
        headings[self._before], headings[k] = (in_x, in_y), (out_x, out_y)
        wraps = {
            i: signed_wrap(self._turning[i], headings[(i - 1) % len(run)], headings[i])
            for i in self._touched
        }
        arcs = reduce(np.add, [run.radius[i] * wrap for i, wrap in wraps.items()])
        push_x, push_y = in_x - out_x, in_y - out_y
        across_in = motion.rate_y * in_x - motion.rate_x * in_y
        across_out = motion.rate_y * out_x - motion.rate_x * out_y
        return Reach(
            length=self._still_length + span_in + span_out + arcs,
            rate=motion.rate_x * push_x + motion.rate_y * push_y,
            bend=motion.bend_x * push_x
            + motion.bend_y * push_y
            + across_in * across_in / span_in
            + across_out * across_out / span_out,
            wrap=wraps[k],
            all_wraps=self._still_wraps + reduce(np.add, list(wraps.values())),
            turning=self._still_turning
            + reduce(np.add, [run.side[i] * wrap for i, wrap in wraps.items()]),
        )

    def path(self, x: ArrayLike, y: ArrayLike) -> BeltPath:
        """Return the whole path with the moving pulley's centre at (x, y) [m]."""
        run, count = self.run.moved(self.pulley, x, y), len(self.run)
        spans = tuple(
            self._still[i] if i in self._still else span_from(run, i, self.sense)
            for i in range(count)
        )
        wraps = tuple(
            self._wraps[i] if i in self._wraps else wrap_on(run, i, self.sense, spans)
            for i in range(count)
        )
        return joined(run, self.sense, spans, wraps)


def _heading(span: Span) -> tuple[Array, Array]:
    return span.heading_x, span.heading_y

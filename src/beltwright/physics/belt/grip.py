"""The pulls round a whole loop, which pulley slips first, and what pull holds them all.

Span i runs from pulley i to the next one in the order of the run. Every span's pull grows in a
straight line with the engine's torque, so a pulley's slip torque has a closed form.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike


class SpanPulls(NamedTuple):
    """The pull in every span as a straight line over the driver's torque.

    Attributes
    ----------
    at_rest : tuple of n arrays, shape (...) [N]
        With the belt running and no torque, centrifugal pull included.
    per_torque : tuple of n arrays, shape (...) [1/m]
        Change of pull with the torque on the driver.
    centrifugal : array, shape (...) [N]
    """

    at_rest: tuple[Array, ...]
    per_torque: tuple[Array, ...]
    centrifugal: ArrayLike

    def at(self, torque: ArrayLike) -> tuple[Array, ...]:
        """Give the pull in every span, shape (...) [N], at a torque on the driver [N m]."""
        pairs = zip(self.at_rest, self.per_torque, strict=True)
        return tuple(rest + slope * torque for rest, slope in pairs)


def _per_torque(share: Sequence[float], driver_radius: ArrayLike, travel: int) -> list[Array]:
    """Give the change of each span's pull with torque, the span before the first pulley at 0."""
    taken = np.cumsum(share)
    if abs(taken[-1]) > 1e-9:
        raise ValueError(f"the shares of all pulleys must add up to 0, not {taken[-1]:g}")
    return [np.asarray(travel * part / np.asarray(driver_radius)) for part in taken]


def spring_set_pulls(
    share: Sequence[float],
    driver_radius: ArrayLike,
    travel: int,
    spring_span: int,
    spring_pull: ArrayLike,
    centrifugal: ArrayLike = 0.0,
) -> SpanPulls:
    """Answer the pulls round a loop in which a sprung idler keeps one span's pull.

    In the direction of travel each pulley changes the pull by the share of the engine's power
    that it takes: ΔT = s Q / r. The idler feels T − Fc, so its spring holds that part, and the
    belt's speed costs no grip.

    Parameters
    ----------
    share : sequence of n numbers [1]
        Power taken by each pulley over the engine's: −1 for the driver, 0 for idlers, the driven
        ones together 1.
    driver_radius : array, shape (...) [m]
        Pitch radius of the driver.
    travel : 1 or −1 [1]
        1 where the belt travels in the order of the run.
    spring_span : index [1]
        A span beside the sprung idler.
    spring_pull : array, shape (...) [N]
        Belt pull that balances the spring at rest.
    centrifugal : array, shape (...) [N]

    Returns
    -------
    pulls : SpanPulls, n spans, shape (...) [N, 1/m]

    Raises
    ------
    ValueError
        The shares do not add up to 0.

    Range of validity: idlers without friction; the arm finds its place freely.
    Source: statics and momentum; R. G. Budynas and J. K. Nisbett, Shigley's Mechanical
    Engineering Design, 9th ed., section 17-2, for the two-pulley case.

    Examples
    --------
    >>> pulls = spring_set_pulls((-1, 1), 0.05, 1, 0, 80.0)
    >>> [float(pull) for pull in pulls.at(20.0)]
    [80.0, 480.0]
    """
    slopes = _per_torque(share, driver_radius, travel)
    rest = np.asarray(spring_pull) + centrifugal
    kept = slopes[spring_span]
    return SpanPulls(
        at_rest=tuple(rest for _ in slopes),
        per_torque=tuple(slope - kept for slope in slopes),
        centrifugal=centrifugal,
    )


def fixed_centre_pulls(
    share: Sequence[float],
    driver_radius: ArrayLike,
    travel: int,
    span_lengths: Sequence[ArrayLike],
    static_pull: ArrayLike,
    centrifugal: ArrayLike = 0.0,
) -> SpanPulls:
    """Answer the pulls round a loop whose pulleys all stand still, by the stretch of the belt.

    The belt's whole stretch does not change, so its mean pull over the spans stays the static
    pull: Σ lᵢ Tᵢ = T₀ Σ lᵢ. Unlike with a sprung idler, centrifugal pull comes out of the grip.

    Parameters
    ----------
    share : sequence of n numbers [1]
        As in `spring_set_pulls`.
    driver_radius : array, shape (...) [m]
    travel : 1 or −1 [1]
    span_lengths : sequence of n arrays, shape (...) [m]
    static_pull : array, shape (...) [N]
        Pull in the belt at rest, as the press test finds it.
    centrifugal : array, shape (...) [N]

    Returns
    -------
    pulls : SpanPulls, n spans, shape (...) [N, 1/m]

    Raises
    ------
    ValueError
        The shares do not add up to 0.

    Range of validity: a belt that stretches in proportion to its pull, stiff shafts; the stretch
    on the wraps is taken to follow the spans. Two equal spans give T1 + T2 = 2 T₀.
    Source: elasticity; Shigley, Mechanical Engineering Design, 9th ed., eq. 17-10 (two pulleys).

    Examples
    --------
    >>> pulls = fixed_centre_pulls((-1, 1), 0.05, 1, (0.4, 0.4), 250.0)
    >>> [float(pull) for pull in pulls.at(20.0)]
    [50.0, 450.0]
    """
    slopes = _per_torque(share, driver_radius, travel)
    lengths = [np.asarray(length) for length in span_lengths]
    pairs = zip(lengths, slopes, strict=True)
    mean = sum(length * slope for length, slope in pairs) / sum(lengths)
    return SpanPulls(
        at_rest=tuple(np.asarray(static_pull) + 0.0 for _ in slopes),
        per_torque=tuple(slope - mean for slope in slopes),
        centrifugal=centrifugal,
    )


def _tight_and_slack(pulls: SpanPulls, pulley: int) -> tuple[Array, Array]:
    before, after = pulls.per_torque[pulley - 1], pulls.per_torque[pulley]
    return np.maximum(before, after), np.minimum(before, after)


def slip_torques(pulls: SpanPulls, capstan_ratios: Sequence[ArrayLike]) -> tuple[Array, ...]:
    """Answer at which torque on the driver each pulley begins to slip.

    With T_tight = T₀ + t Q and T_slack = T₀ + s Q, slip is T_tight − Fc = E (T_slack − Fc), so
    Q = (E − 1)(T₀ − Fc) / (t − E s).

    Parameters
    ----------
    pulls : SpanPulls, n spans, shape (...) [N, 1/m]
    capstan_ratios : sequence of n arrays, shape (...) [1]
        E of each pulley.

    Returns
    -------
    torques : tuple of n arrays, shape (...) [N m]
        Infinite for a pulley that never slips (idlers; or where pull tightens its own grip).

    Range of validity: torque in the engine's direction, slowly put on; gross slip.
    Source: Euler's capstan equation over linear span pulls; Shigley, Mechanical Engineering
    Design, 9th ed., section 17-2.

    Examples
    --------
    >>> pulls = spring_set_pulls((-1, 1), 0.05, 1, 0, 80.0)
    >>> [float(torque) for torque in slip_torques(pulls, (5.0, 9.0))]
    [16.0, 32.0]
    """
    found = []
    for pulley, ratio in enumerate(capstan_ratios):
        tight, slack = _tight_and_slack(pulls, pulley)
        grip = np.maximum(pulls.at_rest[pulley] - pulls.centrifugal, 0.0) * (ratio - 1.0)
        use = tight - ratio * slack
        with np.errstate(divide="ignore", invalid="ignore"):
            # written so that a missing path (NaN) stays missing and never reads as endless grip
            found.append(np.where((use <= 0.0) | (tight <= slack), np.inf, grip / use))
    return tuple(found)


def loosening_torque(pulls: SpanPulls) -> Array:
    """Answer at which torque on the driver a span goes loose, however well the belt grips.

    Q = min over the spans that slacken of (T₀ − Fc)/(−s): a belt cannot push.

    Parameters
    ----------
    pulls : SpanPulls, n spans, shape (...) [N, 1/m]

    Returns
    -------
    torque : array, shape (...) [N m]
        Infinite where no span slackens. Beyond it the straight lines of the pulls end.

    Range of validity: as `slip_torques`, of which it is the limit for endless friction.
    Source: statics.

    Examples
    --------
    >>> float(loosening_torque(fixed_centre_pulls((-1, 1), 0.05, 1, (0.4, 0.4), 250.0)))
    25.0
    """
    least: Array = np.asarray(np.inf)
    for rest, slope in zip(pulls.at_rest, pulls.per_torque, strict=True):
        grip = np.maximum(rest - pulls.centrifugal, 0.0)
        with np.errstate(divide="ignore", invalid="ignore"):
            least = np.minimum(least, np.where(slope >= 0.0, np.inf, grip / -slope))
    return least


class FirstSlip(NamedTuple):
    """Which pulley slips first.

    Attributes
    ----------
    torque : array, shape (...) [N m]
        On the driver, when it happens.
    pulley : array of indices, shape (...) [1]
    """

    torque: Array
    pulley: NDArray[np.intp]


def first_to_slip(slip_torques: Sequence[Array]) -> FirstSlip:
    """Answer which pulley of the loop slips first and at which torque on the driver.

    Parameters
    ----------
    slip_torques : sequence of n arrays, shape (...) [N m]

    Returns
    -------
    first : FirstSlip, shape (...) [N m, 1]

    Range of validity: as `slip_torques`.
    Source: the least of them.

    Examples
    --------
    >>> first = first_to_slip((np.array(16.0), np.array(32.0)))
    >>> float(first.torque), int(first.pulley)
    (16.0, 0)
    """
    together = np.stack(np.broadcast_arrays(*slip_torques))
    return FirstSlip(torque=together.min(axis=0), pulley=together.argmin(axis=0))


def pull_needed(
    pulls: SpanPulls,
    capstan_ratios: Sequence[ArrayLike],
    torque: ArrayLike,
    margin: ArrayLike = 1.0,
) -> Array:
    """Answer which pull at rest keeps every pulley from slipping at a torque, with a margin.

    T₀ = Fc + max over the pulleys of k Q (t − E s)/(E − 1)

    Parameters
    ----------
    pulls : SpanPulls, n spans, shape (...) [N, 1/m]
        Its pulls at rest are not used.
    capstan_ratios : sequence of n arrays, shape (...) [1]
    torque : array, shape (...) [N m]
        On the driver.
    margin : array, shape (...) [1]
        Torque to hold over the torque given.

    Returns
    -------
    pull : array, shape (...) [N]
        Centrifugal pull included. Infinite where a working pulley has no wrap.

    Range of validity: as `slip_torques`.
    Source: the same equation, solved for the pull.

    Examples
    --------
    >>> pulls = spring_set_pulls((-1, 1), 0.05, 1, 0, 0.0)
    >>> float(pull_needed(pulls, (5.0, 9.0), 16.0))
    80.0
    """
    need: Array = np.zeros(())
    for pulley, ratio in enumerate(capstan_ratios):
        tight, slack = _tight_and_slack(pulls, pulley)
        use = np.asarray(torque) * margin * (tight - ratio * slack)
        with np.errstate(divide="ignore", invalid="ignore"):
            each = np.where(tight <= slack, 0.0, use / (np.asarray(ratio) - 1.0))
        need = np.maximum(need, each)
    return need + pulls.centrifugal

"""What one input would have to be for the drives to agree with the plan, as numbers.

Candidates for the input go on the leading axis of the very formulas that predict, for all readings
together: an engine that runs too slowly shows in every gear alike.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beltwright.build.drive import Drive
from beltwright.physics.arrays import Array
from beltwright.physics.motion.top_speed import resisting_force
from beltwright.physics.proving.agreement import AGREES, Fit, best_fit, normalized_error
from beltwright.quantity import Quantity
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.routes import Gear, gears
from beltwright.review.motion.pull import geared, resistance
from beltwright.review.nominal import nominal
from beltwright.review.proving.causes import Cause, causes
from beltwright.review.proving.comparing import Comparison, comparisons, one_sided
from beltwright.review.proving.conditions import (
    as_shifted,
    driven,
    gear_of,
    ground_of,
    ratio_key,
    slope_of,
)
from beltwright.review.proving.readings import expected_speed
from beltwright.review.proving.written import with_quantity

CANDIDATES = 161
"""Values tried of each input; between two of them the prediction is taken as straight."""

MOST_CAUSES = 5
"""How many causes to tell of one reading."""

FARTHEST = 30.0
"""A normalized error that is larger says no more than this one: nothing agrees [1]."""

LEAST_DRAWS = 20
"""Draws from which the part of one input in a prediction's range can be told."""

FAR_FETCHED = 10.0
"""Times what an input may well be off beyond which it is no explanation any more (assumed)."""

MISCOUNTED = 1.0
"""How unlikely it is that a gear was miscounted, as the edge of a tolerance is (assumed)."""


class Explanation(NamedTuple):
    """An input that would make some readings agree.

    cause     the input, None where another gear was driven
    gear      that gear, as it is shifted
    value     what it would have to be [SI], and
    doubt     how closely the readings say so, half-width [SI]
    explains  places of the readings that then agree and did not before
    spoils    places of those that agreed before and then do not
    strain    how far that is from what the plan takes, over how far off it may well be [1]
    score     sum of the squared errors left and of the strain: the lower, the likelier
    """

    cause: Cause | None
    gear: str
    value: float
    doubt: float
    explains: tuple[int, ...]
    spoils: tuple[int, ...]
    strain: float
    score: float


def explanations(case: Case) -> dict[tuple[str, str], tuple[Explanation, ...]]:
    """What would explain each reading that does not agree, the likeliest first, by drive and
    reading."""
    return case.once("proving.explanations", lambda: _explanations(case))


def _explanations(case: Case) -> dict[tuple[str, str], tuple[Explanation, ...]]:
    compared = comparisons(case)
    off = [at for at, each in enumerate(compared) if not each.agrees]
    if not off:
        return {}
    inputs = frozenset().union(*(compared[at].inputs for at in off))
    tried = [(cause, *_errors(case, cause, compared)) for cause in causes(case, inputs)]
    found = {}
    for at in off:
        fitted = [_explanation(cause, compared, off, at, *rest) for cause, *rest in tried]
        every = [*(each for each in fitted if each is not None), *_other_gears(case, compared, at)]
        ranked = sorted(every, key=lambda each: each.score)[:MOST_CAUSES]
        found[compared[at].reading.drive.name, compared[at].reading.what] = tuple(ranked)
    return found


def _errors(case: Case, cause: Cause, compared: Sequence[Comparison]) -> tuple[Array, Array]:
    """Candidates for an input, and the error of each reading with them, shape (readings, n)."""
    candidates = np.linspace(cause.least, cause.most, CANDIDATES)
    rows = [
        _row(case, cause, candidates, each)
        if _concerns(case, cause, each)
        else np.full(CANDIDATES, each.error)
        for each in compared
    ]
    known = np.nan_to_num(np.stack(rows), nan=np.inf)
    return candidates, np.clip(known, -FARTHEST, FARTHEST)


def _concerns(case: Case, cause: Cause, compared: Comparison) -> bool:
    reading = compared.reading
    if cause.readings and reading.what not in cause.readings:
        return False
    if cause.drawn in compared.inputs:
        return True
    try:
        return cause.drawn == ratio_key(gear_of(driven(case, reading.drive), reading.drive))
    except NotKnownError:
        return False


def _row(case: Case, cause: Cause, candidates: Array, compared: Comparison) -> Array:
    """The error of one reading over the candidates."""
    reading = compared.reading
    if cause.place and cause.place[-1] == "slip":
        # creep grows with the pull: what slips on a hill slips little on the level
        candidates = cause.nominal + (candidates - cause.nominal) * _pull_share(case, reading.drive)
    build = case.build
    if cause.place and cause.place[0] != "drive":
        stands = Quantity(cause.nominal, 0.0, 0.0, cause.kind, "", "", cause.key)
        build = with_quantity(build, cause.place, stands)
    trial = Case(build, 0, {cause.key: candidates}, case.units)
    predicted = reading.predicted(driven(trial, reading.drive))
    error = normalized_error(
        compared.measured[0], predicted, compared.measured_doubt, _doubt_left(cause, compared)
    )
    return np.broadcast_to(one_sided(error, reading.side), candidates.shape)


def _doubt_left(cause: Cause, compared: Comparison) -> float:
    """The prediction's doubt without the part that comes from the input itself."""
    draws, predicted = cause.draws, compared.predicted
    if draws.size != predicted.size:
        return compared.predicted_doubt
    good = np.isfinite(predicted)
    good[0] = False
    if np.count_nonzero(good) < LEAST_DRAWS or 0.0 in (
        np.ptp(predicted[good]),
        np.ptp(draws[good]),
    ):
        return compared.predicted_doubt
    share = float(np.corrcoef(draws[good], predicted[good])[0, 1]) ** 2
    return compared.predicted_doubt * float(np.sqrt(max(1.0 - share, 0.0)))


def _pull_share(case: Case, drive: Drive) -> float:
    """How hard the belts pull on a drive, over the hardest of all drives with a speed [1]."""
    torques = case.once("proving.torques", lambda: _torques(case))
    most = max(torques.values(), default=0.0)
    return torques[drive.name] / most if most > 0.0 and drive.name in torques else 1.0


def _torques(case: Case) -> dict[str, float]:
    """Torque on the engine's shaft at the steady speed of each drive [N m], where known."""
    found = {}
    for drive in case.build.drive:
        if drive.speed is None and drive.distance is None:
            continue
        there = driven(case, drive)
        try:
            gear = gear_of(there, drive)
            held = resistance(there, ground_of(there), slope_of(there, drive))
            force = resisting_force(held, expected_speed(drive, there))
            push = geared(there, gear).thrust(1.0)
        except NotKnownError:
            continue
        found[drive.name] = max(nominal(force / push), 0.0)
    return found


def _explanation(
    cause: Cause,
    compared: Sequence[Comparison],
    off: Sequence[int],
    at: int,
    candidates: Array,
    errors: Array,
) -> Explanation | None:
    """How an input explains a reading: with all the others that are off, or it alone."""
    alone = [each for each in range(len(compared)) if each == at or each not in off]
    for rows in (list(range(len(compared))), alone):
        if np.ptp(errors[at]) == 0.0:
            return None
        fit = best_fit(candidates, errors[rows])
        left = np.array([np.interp(fit.value, candidates, row) for row in errors])
        if abs(left[at]) <= AGREES and abs(fit.value - cause.nominal) <= FAR_FETCHED * cause.doubt:
            return _explained(cause, compared, off, fit, left)
    return None


def _explained(
    cause: Cause, compared: Sequence[Comparison], off: Sequence[int], fit: Fit, left: Array
) -> Explanation:
    agrees = np.abs(left) <= AGREES
    strain = abs(fit.value - cause.nominal) / cause.doubt
    before = np.clip([each.error for each in compared], -FARTHEST, FARTHEST)
    # a reading that this input does not explain waits for another cause
    waiting = [at for at in off if not agrees[at]]
    squares = np.where(np.isin(np.arange(left.size), waiting), before, left) ** 2
    return Explanation(
        cause=cause,
        gear="",
        value=fit.value,
        doubt=max(fit.high - fit.value, fit.value - fit.low),
        explains=tuple(at for at in off if agrees[at]),
        spoils=tuple(at for at in range(len(compared)) if at not in off and not agrees[at]),
        strain=strain,
        score=float(np.sum(squares)) + strain**2,
    )


def _other_gears(case: Case, compared: Sequence[Comparison], at: int) -> list[Explanation]:
    """The other gears in which a reading would agree."""
    each = compared[at]
    reading = each.reading
    if reading.what not in ("speed", "ratio") or case.build.gearbox is None:
        return []
    told = gear_of(driven(case, reading.drive), reading.drive)
    others = [g for g in gears(case) if g.name != told.name and g.forward == told.forward]
    found = []
    for gear in others:
        left = _error_in(case, each, gear)
        if abs(left) <= AGREES:
            rest = sum(min(abs(o.error), FARTHEST) ** 2 for o in compared if o is not each)
            score = rest + left**2 + MISCOUNTED
            found.append(
                Explanation(None, as_shifted(gear), gear.ratio, 0.0, (at,), (), MISCOUNTED, score)
            )
    return found


def _error_in(case: Case, compared: Comparison, gear: Gear) -> float:
    """The error of a reading, had it been driven in another gear."""
    reading = compared.reading
    there = driven(case, reading.drive)
    trial = Case(
        case.build,
        0,
        {ratio_key(gear_of(there, reading.drive)): np.array([gear.ratio])},
        case.units,
    )
    predicted = nominal(reading.predicted(driven(trial, reading.drive)))
    told = nominal(compared.predicted)
    doubt = compared.predicted_doubt * (predicted / told if told else 1.0)
    error = normalized_error(compared.measured[0], predicted, compared.measured_doubt, doubt)
    return float(one_sided(error, reading.side))

"""What the review says about a drive: each reading against the plan, and what would explain it."""

from collections.abc import Callable, Iterator
from functools import partial

import numpy as np

from beltwright.build.drive import Drive
from beltwright.physics.proving.agreement import AGREES
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Explained, Verdict
from beltwright.review.nominal import nominal
from beltwright.review.proving.comparing import Comparison, comparison, comparisons
from beltwright.review.proving.conditions import sampled
from beltwright.review.proving.danger import danger_of
from beltwright.review.proving.fitting import explanations
from beltwright.review.proving.readings import Reading, readings
from beltwright.review.proving.signs import sign_asks
from beltwright.review.proving.wording import explained
from beltwright.review.road_words import SLOPE_UNIT, distance_unit, slope_words, warmer_by

FORMULA = "E = (read − expected) / √(U read² + U expected²); |E| ≤ 1 agrees"
SOURCE = (
    "normalized error: ISO/IEC Guide 43-1 and ISO 13528, from memory; uncertainties hold 95 % of "
    "what the tolerances allow (JCGM 101:2008, 7.7.2); expected: the formulas of the plan under "
    "the conditions of the drive"
)
DRIVE_CAUTION = (
    "Find the cause before you go faster, steeper or heavier laden. Drive alone, off public roads; "
    "local codes and licensed practice go first."
)


STEEPEST = 1.56
"""A slope that the plan cannot end is steeper than this [rad]."""

_NEVER_BELOW_NOUGHT = (Kind.SPEED, Kind.FORCE, Kind.TIME)


def questions(case: Case, others: Callable[[], Iterator[Ask]]) -> Iterator[Ask]:
    """The questions about the drives; signs are looked up in the answers to the others."""
    for reading in readings(case):
        title = f"{reading.drive.name}: {reading.words}"
        id_ = f"drive.{reading.drive.name}.{reading.what}"
        yield Ask(id_, title, partial(_answer, case, reading))
    yield from sign_asks(case, others)


def _answer(case: Case, reading: Reading) -> Draft:
    searched = case.samples > 0
    case = sampled(case)
    compared = comparison(case, reading)
    danger = danger_of(case, compared)
    # while something is dragged there is no time to look for causes
    causes = case.aside(lambda: _causes(case, compared)) if searched else ()
    side = reading.side
    least, most = (
        float(compared.predicted[0] + sign * compared.predicted_doubt) for sign in (-1, 1)
    )
    if reading.kind in _NEVER_BELOW_NOUGHT:
        least = max(least, 0.0)
    plain = reading.what == "ratio"  # a count of turns has no unit to show a limit in
    foreseen = compared.agrees and not _by_tolerances_alone(compared)
    verdict = Verdict.SOUND if foreseen else Verdict.MARGINAL
    return Draft(
        kind=reading.kind,
        value=compared.measured[:1],
        at_least=None if plain or side > 0 else least,
        at_most=None if plain or side < 0 else most,
        verdict=Verdict.STOP if danger else verdict,
        unit=_unit(case, reading),
        says=_shown(case, reading, nominal(compared.measured)),
        meaning=_meaning(case, compared, danger.why if danger else "")
        + (_cause_words(compared, causes) if searched else ""),
        remedy=danger.remedy if danger else _remedy(compared, causes, searched=searched),
        formula=FORMULA,
        working=_working(case, compared),
        source=SOURCE,
        leaves_out="errors that reading and plan share; wind, ruts, a cold or a hot machine",
        caution=danger.caution if danger else DRIVE_CAUTION if not foreseen else "",
        causes=causes,
    )


def _causes(case: Case, compared: Comparison) -> tuple[Explained, ...]:
    if compared.agrees:
        return ()
    reading = compared.reading
    found = explanations(case).get((reading.drive.name, reading.what), ())
    others = comparisons(case)
    return tuple(explained(case, compared, each, others) for each in found)


def _unit(case: Case, reading: Reading) -> str:
    if reading.kind is Kind.ANGLE:
        return SLOPE_UNIT
    return distance_unit(case) if reading.what == "stop" else ""


def _shown(case: Case, reading: Reading, value: float) -> str:
    if reading.kind is Kind.ANGLE:
        return slope_words(value)
    if reading.kind is Kind.RATIO:
        return f"{value:.4g}"
    return case.units.show(value, reading.kind, _unit(case, reading))


def _ranged(case: Case, reading: Reading, value: float, doubt: float) -> str:
    """A number with what it may be."""
    shown = _shown(case, reading, value)
    if doubt == 0.0 or not np.isfinite(value):
        return shown
    if reading.kind is Kind.RATIO:
        return f"{shown} ± {doubt:.2g}"
    low, high = value - doubt, value + doubt
    between = case.units.show_range(low, high, reading.kind, _unit(case, reading))
    return f"{shown} ({between})"


def _meaning(case: Case, compared: Comparison, danger: str) -> str:
    reading = compared.reading
    expected = _ranged(case, reading, nominal(compared.predicted), compared.predicted_doubt)
    if not np.isfinite(compared.predicted[0]):
        expected = "that it never gets there"
    ended = reading.drive.climbed if reading.side else None
    if _as_written_at_no_slope(compared):
        expected = "no slope"
    how = "it agrees" if compared.agrees else _apart(case, compared)
    if _by_tolerances_alone(compared):
        how = "only its tolerances leave room for it"
    told = f"{_conditions(case, reading.drive, reading.what)}{_EXPECTS[ended]} {expected}: {how}."
    told = f"{told[:1].upper()}{told[1:]}"
    return f"{danger} {told}" if danger else told


def _as_written_at_no_slope(compared: Comparison) -> bool:
    """Whether no slope ends a climb as this one ended, with the plan as it is written."""
    return compared.reading.side < 0 and nominal(compared.predicted) > STEEPEST


def _by_tolerances_alone(compared: Comparison) -> bool:
    """Whether a climb ended in a way that the plan as written rules out."""
    return compared.agrees and _as_written_at_no_slope(compared)


def _cause_words(compared: Comparison, causes: tuple[Explained, ...]) -> str:
    """The likeliest cause."""
    if compared.agrees:
        return ""
    if not causes:
        return " No single number of the plan explains it: two may be off, or the reading."
    best = causes[0]
    return f" Likeliest: {best.what}, {best.needed}; {best.likely}."


_EXPECTS = {
    None: "the plan expects",
    "yes": "the plan has it climb",
    "stalled": "the plan has the engine give up at",
    "wheels spun": "the plan has the tyres spin at",
    "belt slipped": "the plan has a belt slip at",
    "front lifted": "the plan has the front lift at",
}
"""How the plan's number is told, by how a climb ended."""


def _apart(case: Case, compared: Comparison) -> str:
    """How far a reading is from the plan, in words."""
    read, expected = nominal(compared.measured), nominal(compared.predicted)
    kind = compared.reading.kind
    if kind is Kind.TEMPERATURE:
        hotter = "hotter" if read > expected else "colder"
        return f"it is {warmer_by(case, abs(read - expected))} {hotter}"
    if kind is Kind.ANGLE or not np.isfinite(expected) or expected == 0.0:
        return "it does not agree"
    share = abs(read / expected - 1.0)
    way = "more" if read > expected else "less"
    return f"it is {share:.0%} {way}".replace("%", " %")


def _conditions(case: Case, drive: Drive, what: str) -> str:
    """How it was driven, as far as the reading depends on it."""
    told = []
    if what not in ("roll_out", "slack", "press") and drive.gear is not None:
        told.append(f"in {'gear ' if drive.gear[0].isdigit() else ''}{drive.gear}")
    if what == "speed":
        told.append(
            drive.engine
            if isinstance(drive.engine, str)
            else f"with the engine at {case.written(drive.engine)}"
        )
    if what in ("speed", "stop", "climb", "run_up"):
        told += [f"on {drive.ground}"] if drive.ground else []
        told += (
            [f"up a slope of {case.written(drive.slope)}"]
            if drive.slope and what != "climb"
            else []
        )
        told += ["laden"] if drive.laden else []
    if what == "temperature" and drive.after is not None and drive.air is not None:
        after, air = case.written(drive.after), case.written(drive.air)
        told.append(f"after {after} in air of {air}")
    return f"{', '.join(told)}, " if told else ""


def _remedy(compared: Comparison, causes: tuple[Explained, ...], *, searched: bool) -> str:
    if _by_tolerances_alone(compared):
        return (
            "Measure first what the plan leaves open, worst first as listed under “Measure this "
            "next”: until then count on it to happen again."
        )
    if compared.agrees:
        return ""
    if not searched:
        return "Check it with its tolerances: they tell what would explain it."
    if not causes:
        return "Read it once more; then measure what the plan only supposes for it."
    told = f"Tell the causes apart: {'; or '.join(_checks(causes[:2]))}."
    best = causes[0]
    if best.line:
        return f"{told} If it is the {best.what}, write {best.line}: the plan then agrees."
    if best.what.startswith("slip of"):
        return f"{told} A belt that slips so much burns: give it more pull, and drive again."
    return told


def _checks(causes: tuple[Explained, ...]) -> list[str]:
    """What tells causes apart, each check once with the causes that it is for."""
    whats: dict[str, list[str]] = {}
    for each in causes:
        whats.setdefault(each.check, []).append(each.what)
    return [f"{check} ({' or '.join(what)})" for check, what in whats.items()]


def _working(case: Case, compared: Comparison) -> str:
    reading = compared.reading
    read = _ranged(case, reading, nominal(compared.measured), compared.measured_doubt)
    expected = _ranged(case, reading, nominal(compared.predicted), compared.predicted_doubt)
    limit = "≤" if abs(compared.error) <= AGREES else ">"
    return f"read {read}, expected {expected}: |E| = {abs(compared.error):.2g} {limit} 1"

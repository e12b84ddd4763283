"""What the review says about the load, speed, bending and life of a belt."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.physics.belt.force import belt_speed
from beltwright.quantity import Kind
from beltwright.review.belt.layout import belt_layout
from beltwright.review.belt.power import (
    BACK_BEND,
    HALF_DIGIT,
    Allowed,
    Bend,
    Life,
    allowed,
    flexes,
    life,
    smaller_pulley,
    tightest_bend,
)
from beltwright.review.belt.task import belt_section, task
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal
from beltwright.tables.belt_factors import belt_speed_limit, light_duty_rating

RATING_REMEDY = (
    "Use a larger driving pulley with a larger driven one, a wider section or two belts; else keep "
    "a spare belt with the machine and look at the belt every day."
)
NEAR = 0.1
"""Share of the belt's speed limit within which it is marginal."""

HOUR = 3600.0
MANY_TIMES = 100
"""Ratings that are passed so often over are passed for another reason, as a mistyped size."""

KNOWN_PASSES = (1e8, 1e9)
"""Between so many passes the textbook's life is good; outside only "less" or "more" can be said."""


def questions(case: Case, belt: Belt) -> Iterator[Ask]:
    """The questions about the load on one belt."""
    head = f"belt.{belt.name}"
    yield Ask(f"{head}.rating", f"Long-life power of the {belt.name}", partial(_rating, case, belt))
    yield Ask(f"{head}.speed", f"Speed of the {belt.name}", partial(_speed, case, belt))
    yield Ask(
        f"{head}.bend", f"Smallest bend diameter, {belt.name}", partial(_bend, case, belt, False)
    )
    if _has_back_idler(case, belt):
        yield Ask(
            f"{head}.back_bend",
            f"Smallest bend diameter over the back, {belt.name}",
            partial(_bend, case, belt, True),
        )
    yield Ask(f"{head}.life", f"Life of the {belt.name}", partial(_life, case, belt))


def _has_back_idler(case: Case, belt: Belt) -> bool:
    backs = {idler.name for idler in case.build.idler if idler.runs_on == "back"}
    return bool(backs.intersection(belt.run))


def _rating(case: Case, belt: Belt) -> Draft:
    may, carries = allowed(case, belt), task(case, belt).power
    over = nominal(carries) / max(nominal(may.power), 1e-9)
    return Draft(
        kind=Kind.POWER,
        value=belt_layout(case, belt).where_it_runs(may.power),
        at_least=carries,
        near=0.0,
        worst=Verdict.MARGINAL,
        meaning=_rating_meaning(case, belt, over),
        remedy=RATING_REMEDY if falls_short(may.power, carries, 0.0) else "",
        formula="allowed power = belts × rating × arc factor × length factor / service factor",
        working=_rating_working(case, belt, may),
        source=_rating_source(belt, may),
        leaves_out="heat under a cowl, dirt, and a groove worn dished; ride-on machines are known "
        "to run some 10 hp through one such belt for less than 1000 h (Machine Design magazine)",
        caution="A worn or burnt belt can break or jump off without warning, and the drive is gone "
        "with it. Carry a spare, and never count on the belt to hold the machine on a slope.",
    )


def _rating_meaning(case: Case, belt: Belt, over: float) -> str:
    show = partial(case.units.show, kind=Kind.POWER)
    may, carries = allowed(case, belt), nominal(task(case, belt).power)
    if over <= 1.0:
        return (
            f"Published ratings let it carry {show(nominal(may.power))} for years of work; the "
            f"engine puts {show(carries)} through it at full load."
        )
    return (
        f"The engine puts {show(carries)} through it at full load, {_times(over)} what published "
        "ratings allow for a long life: it will work, get hot and wear out early."
    )


def _times(over: float) -> str:
    return f"{over:.1f} times" if over < MANY_TIMES else f"more than {MANY_TIMES} times"


def _rating_working(case: Case, belt: Belt, may: Allowed) -> str:
    show = partial(case.units.show, kind=Kind.POWER)
    small = smaller_pulley(case, belt)
    ratings = f"rating {show(nominal(may.rated))}"
    if may.ratings is not None:
        ratings = (
            f"industrial rating {show(nominal(may.ratings.industrial))}, older textbook rating "
            f"{show(nominal(may.ratings.textbook))}; the lower counts"
        )
    return (
        f"{belt.run[small.place]}, {case.units.show(nominal(small.diameter), Kind.LENGTH)} pitch "
        f"diameter, at {case.units.show(nominal(small.speed), Kind.ROTATION)}: {ratings}; "
        f"{belt.count} × {show(nominal(may.rated))} × {nominal(may.arc):.2f} × "
        f"{nominal(may.length):.2f} / {_service_words(may)} = {show(nominal(may.power))}"
    )


def _service_words(may: Allowed) -> str:
    duty = f"{nominal(may.duty):.2f}"
    return f"({duty} + {may.idlers:.2f} for idlers)" if may.idlers else duty


def _rating_source(belt: Belt, may: Allowed) -> str:
    if may.ratings is not None:
        return (
            "ANSI/RMA IP-20-1988 and Faires, Design of Machine Elements, ch. 17 (constants from "
            "memory, high); they differ by up to two on small sheaves"
        )
    if belt.section.endswith("L"):
        row = light_duty_rating(belt.section)
        return f"{row.source} ({row.status})"
    return "ANSI/RMA IP-20-1988 (constants from memory, high)"


def _speed(case: Case, belt: Belt) -> Draft:
    job, limit = task(case, belt), belt_speed_limit()
    speed = np.atleast_1d(belt_speed(job.radius, job.fastest))
    show, unit = case.units.show, case.units.rim()
    shown = show(nominal(speed), Kind.SPEED, unit)
    return Draft(
        kind=Kind.SPEED,
        unit=unit,
        value=speed,
        at_most=limit.speed,
        near=NEAR,
        worst=Verdict.STOP,
        meaning=f"The belt runs {shown}; classical belts on ordinary pulleys are held "
        f"to {show(limit.speed, Kind.SPEED, unit)}.",
        remedy="Use a smaller pulley on the shaft that drives it."
        if goes_over(speed, limit.speed, NEAR)
        else "",
        formula="belt speed = pitch radius × speed of the driver, without load",
        working=f"{show(nominal(job.radius), Kind.LENGTH)} × "
        f"{show(nominal(job.fastest), Kind.ROTATION)} = {shown}",
        source=f"kinematics; {limit.source}",
        caution="A belt that breaks whips, and a pulley that bursts goes through its guard.",
    )


def _bend(case: Case, belt: Belt, back: bool) -> Draft:
    bend = tightest_bend(case, belt, back=back)
    assert bend is not None
    show = partial(case.units.show, kind=Kind.LENGTH)
    diameter = nominal(bend.diameter)
    where = "over its back" if back else "on its pulleys"
    least = bend.least - HALF_DIGIT
    return Draft(
        kind=Kind.LENGTH,
        value=np.atleast_1d(bend.diameter),
        at_least=least,
        near=0.0,
        worst=Verdict.MARGINAL,
        meaning=f"The {bend.name} bends the belt to {show(diameter)}; {show(least)} or more "
        f"is usual {where} for section {belt.section}.",
        remedy=_bend_remedy(case, belt, bend, back)
        if falls_short(bend.diameter, least, 0.0)
        else "",
        formula="pitch diameter against the smallest usual one"
        + (f", times {BACK_BEND:g} for a bend over the back" if back else ""),
        working=f"{show(diameter)} against {show(bend.least)}, less half of its last digit",
        source=f"{belt_section(belt).bending.source} ({belt_section(belt).bending.status})"
        + ("; the share for back idlers is common practice, no source" if back else ""),
    )


def _bend_remedy(case: Case, belt: Belt, bend: Bend, back: bool) -> str:
    above = belt_section(belt).belt_above_pitch
    if back:
        outside = case.units.show(bend.least - 2.0 * above, Kind.LENGTH)
        return f"Wheels of {outside} outside or more over its back cost less belt life."
    return (
        f"Pulleys of {case.units.show(bend.least, Kind.LENGTH)} pitch diameter or more cost less "
        "belt life."
    )


def _life(case: Case, belt: Belt) -> Draft:
    rate = nominal(flexes(case, belt))
    estimate = life(case, belt)
    wheels, length = len(belt.run), nominal(belt_layout(case, belt).pitch_length)
    runs = case.units.show(rate * length / wheels, Kind.SPEED, case.units.rim())
    return Draft(
        verdict=Verdict.SOUND,
        says=f"bent {rate:.0f} times a second",
        meaning=f"The belt meets {wheels} wheels in a round. {_life_words(belt, estimate)}",
        formula="bends a second = wheels × belt speed / length; passes to failure = 1 / Σ((tight "
        "pull + Kb/d) / K)^b over the wheels",
        working=f"{wheels} × {runs} / "
        f"{case.units.show(length, Kind.LENGTH)} = {rate:.0f} a second"
        + ("" if estimate is None else f"; {max(nominal(estimate.passes), 1.0):.2g} passes"),
        source="kinematics; Shigley, Mechanical Engineering Design, eq. 17-27 and Table 17-17 "
        "(from memory, high)",
        leaves_out="heat, dirt, slip, bends over the back and grooves that are worn",
    )


def _life_words(belt: Belt, estimate: Life | None) -> str:
    if estimate is None:
        return f"No life formula is published for section {belt.section}."
    passes, hours = nominal(estimate.passes), nominal(estimate.time) / HOUR
    ends = [hours / passes * known for known in KNOWN_PASSES]
    if passes < KNOWN_PASSES[0]:
        return (
            f"At full load all the time it does not reach the {ends[0]:.0f} h from which the "
            "textbook's formula is good: expect to renew it."
        )
    if passes > KNOWN_PASSES[1]:
        return f"At full load all the time a textbook lets it last more than {ends[1]:.0f} h."
    return f"At full load all the time a textbook lets it last about {hours:.2g} h."

"""Which belts and chains run bare: the places where one draws a hand in and no guard goes over."""

from collections.abc import Iterator, Sequence
from functools import partial
from math import atan2, hypot
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Chain
from beltwright.build.guards import Guard
from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout, belt_run
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.guard.cautions import guard_caution
from beltwright.review.nominal import nominal

ARM_REACH = 0.85
"""How far an arm reaches past an edge that stops the shoulder [m] (ISO 13857:2019, table 4, from
memory); here it counts from the hip of whoever sits there."""

GUARDED_BELOW = 2.1336
"""Below this height drives are to be guarded: 7 ft [m] (29 CFR 1910.219, from memory)."""

Open = tuple[float | None, float | None, float | None]
"""Where something stands on the machine: x forward, y left, z up [m]; None where not known."""


class Nip(NamedTuple):
    """Where a belt or chain runs on to a wheel and draws in whatever touches it.

    wheel   its name
    at      its place
    far     how far it lies from the driver's hip [m]; None where that is not known
    """

    wheel: str
    at: Open
    far: float | None


def questions(case: Case) -> Iterator[Ask]:
    """The questions which belts and chains run bare."""
    for belt in case.build.belt:
        work = partial(_belt, case, belt)
        yield Ask(f"belt.{belt.name}.guard", f"Guard over the {belt.name}", work)
    for chain in case.build.chain:
        work = partial(_chain, case, chain)
        yield Ask(f"chain.{chain.name}.guard", f"Guard over the {chain.name}", work)


def bare_nips(case: Case, belt: Belt) -> tuple[Nip, ...]:
    """The in-running nips of a belt that no guard goes over, nearest to the driver first."""
    guards = _guards(case, belt)
    try:
        layout = belt_run(case, belt)
    except NotKnownError:
        return _nearest_first(_nip(case, name, (None, None, None)) for name in belt.run)
    return _nearest_first(
        _nip(case, name, _runs_on(layout, place))
        for place, name in enumerate(belt.run)
        if not any(_goes_over(case, guard, layout) for guard in guards if guard.round == name)
    )


def _guards(case: Case, belt: Belt) -> list[Guard]:
    """The guards of a belt; a keeper is none."""
    return [one for one in case.build.guard if one.belt == belt.name and one.kind == "guard"]


def _goes_over(case: Case, guard: Guard, layout: Layout) -> bool:
    """Whether a guard reaches over the point where the belt runs on to the guard's wheel."""
    from beltwright.review.guard.bent import bent

    try:
        shape = bent(case, guard)
    except NotKnownError:
        return False
    first, last = (atan2(nominal(end), nominal(shape.curve)) for end in shape.ends)
    least = {1: first, -1: last}.get(layout.along, min(first, last))
    return 0.5 * (shape.wrap - shape.total) <= least


def _runs_on(layout: Layout, place: int) -> Open:
    """Where the belt meets a wheel in its travel; the wheel's middle where it has no run."""
    path, height = layout.path, layout.wheels[place].height
    before, after = path.spans[place - 1], path.spans[place]
    x, y = (
        (nominal(before.end_x), nominal(before.end_y))
        if layout.along >= 0
        else (nominal(after.start_x), nominal(after.start_y))
    )
    if not np.isfinite((x, y)).all():
        x, y = nominal(layout.wheels[place].x), nominal(layout.wheels[place].y)
    along = None if height is None else nominal(height)
    if layout.plane == "cross":
        return x, along, y
    return x, y, along


def _nip(case: Case, wheel: str, at: Open) -> Nip:
    """A nip with its distance from the hip; what is not known of its place counts as none."""
    driver = case.build.machine.driver
    known = [place is not None for place in at]
    if driver is None or sum(known) < 2:
        return Nip(wheel, at, None)
    hip = (nominal(case.si(each)) for each in driver.hip)
    return Nip(
        wheel,
        at,
        hypot(*(there - here for there, here in zip(at, hip, strict=True) if there is not None)),
    )


def _nearest_first(nips: Iterator[Nip]) -> tuple[Nip, ...]:
    return tuple(sorted(nips, key=lambda nip: np.inf if nip.far is None else nip.far))


def _chain_nips(case: Case, chain: Chain) -> tuple[Nip, ...]:
    """Where a chain runs on to its sprockets; the shafts' middles, as its run is not described."""
    shafts = {shaft.name: shaft for shaft in case.build.shaft}
    nips = []
    for name in (chain.driver.shaft, chain.driven.shaft):
        at: Open = (None, None, None)
        if name in shafts:
            x, other = (nominal(case.si(each)) for each in shafts[name].at)
            at = (x, None, other) if shafts[name].axis == "cross" else (x, other, None)
        nips.append(_nip(case, f"sprocket on the shaft “{name}”", at))
    return _nearest_first(iter(nips))


def _belt(case: Case, belt: Belt) -> Draft:
    if belt.covered_by:
        return _covered(case, belt, belt.covered_by)
    nips, over = bare_nips(case, belt), _listed([guard.name for guard in _guards(case, belt)])
    if not nips:
        return _covered(case, belt, over)
    return _bare(
        case,
        nips,
        says=f"bare at {len(nips)} of {len(belt.run)} wheels",
        meaning=f"The {over} leaves a part of the {belt.name} bare"
        if over
        else f"Nothing covers the {belt.name}",
        first=f"Begin at the {nips[0].wheel}: bend a guard round it, as far as the belt lies on "
        'it, and describe it as a [[guard]] with kind = "guard".',
        clause="(d) pulleys, (e) belts",
        place=_placed(nips[0].at),
    )


def _chain(case: Case, chain: Chain) -> Draft:
    if chain.covered_by:
        return _covered(case, chain, chain.covered_by)
    return _bare(
        case,
        _chain_nips(case, chain),
        says="bare",
        meaning=f"Nothing covers the {chain.name}",
        first="Fold a case of sheet over the whole chain, closed on both sides.",
        clause="(f) sprockets and chains",
    )


def _covered(case: Case, of: Belt | Chain, by: str) -> Draft:
    return _draft(
        case,
        verdict=Verdict.SOUND,
        says=by,
        meaning=f"Covered where the {of.name} can draw a hand in: {by}. See for yourself that no "
        "hand gets round it.",
    )


def _bare(
    case: Case,
    nips: Sequence[Nip],
    *,
    says: str,
    meaning: str,
    first: str,
    clause: str,
    place: tuple[float, float, float] | None = None,
) -> Draft:
    """What is said of a belt or chain that runs bare: a stop within reach of the seat."""
    nearest, show = nips[0], partial(case.units.show, kind=Kind.LENGTH)
    within = nearest.far is not None and nearest.far < ARM_REACH
    where = _listed([nip.wheel for nip in nips])
    far = "" if nearest.far is None else f"; the nearest lies {show(nearest.far)} from your hip"
    return _draft(
        case,
        verdict=Verdict.STOP if within else Verdict.MARGINAL,
        says=says,
        meaning=f"{meaning}: a hand or a sleeve is drawn in at the {where}{far}.",
        remedy=f"Cover it before the engine runs. {first} Where a hood, a footboard or a tunnel "
        'keeps hands out of all of it, write so, for example covered_by = "hood and footboard".',
        working="the driver's hip is not written, or the places of the wheels"
        if nearest.far is None
        else f"{nearest.wheel}: {show(nearest.far)} from the hip, "
        f"{'within' if within else 'beyond'} {show(ARM_REACH)}",
        clause=clause,
        place=place,
    )


def _draft(
    case: Case,
    *,
    says: str,
    meaning: str,
    verdict: Verdict,
    remedy: str = "",
    working: str = "",
    clause: str = "(d) pulleys, (e) belts, (f) chains",
    place: tuple[float, float, float] | None = None,
) -> Draft:
    show = partial(case.units.show, kind=Kind.LENGTH)
    return Draft(
        verdict=verdict,
        says=says,
        meaning=meaning,
        remedy=remedy,
        formula="a guard lies over every place in reach where it runs on to a wheel",
        working=working or "no such place lies bare",
        source=f"29 CFR 1910.219{clause} within {show(GUARDED_BELOW)} of the floor; ISO 14120 for "
        f"guards; an arm's reach of {show(ARM_REACH)}: ISO 13857:2019, table 4; all from memory",
        leaves_out="whether a strip keeps a hand out from the side and from below: it covers the "
        "belt's back; spans between the wheels",
        caution=guard_caution(case),
        place=place,
    )


def _placed(at: Open) -> tuple[float, float, float] | None:
    """A place for the drawing; what is not known of it counts as 0, as everywhere."""
    if all(each is None for each in at):
        return None
    x, y, z = (0.0 if each is None else each for each in at)
    return x, y, z


def _listed(names: Sequence[str]) -> str:
    """Names in a sentence."""
    if len(names) < 2:
        return "".join(names)
    return f"{', the '.join(names[:-1])} and the {names[-1]}"

"""What the review says about the room round every belt: parts beside it, its own runs, its flap."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.build.shop import Obstacle
from beltwright.physics.arrays import Array
from beltwright.physics.belt.own_gap import OwnGap
from beltwright.quantity import Kind
from beltwright.quantity.showing import STEPS
from beltwright.review.belt import wheel_room
from beltwright.review.belt.clearance import (
    driving_gap,
    least,
    loose_gap,
    loose_own_gap,
    nearest_place,
    own_gap,
    rims_apart,
    wanted_gap,
)
from beltwright.review.belt.layout import Layout, belt_layout, belt_run
from beltwright.review.belt.near_parts import FAR
from beltwright.review.belt.wheels import place_missing
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.judging import HIGH_PERCENT, percentiles, too_often
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal

OWN_GAP = 0.003
"""Gap that a belt keeps from its own runs and from pulleys that it passes [m] (assumed)."""

GEOMETRY = "plane geometry, exact"
RUB_CAUTION = (
    "A belt that rubs gets hot enough to smoke and burn, and cuts what it rubs on: wires, hoses "
    "and fuel lines first."
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the room round every belt."""
    for belt in case.build.belt:
        head = f"clearance.{belt.name}"
        for part in case.build.obstacle:
            yield Ask(
                f"{head}.{part.name}",
                f"Room between the {belt.name} and the {part.name}",
                partial(_part, case, belt, part),
            )
        yield Ask(
            f"{head}.itself",
            f"Room between strands of the {belt.name}",
            partial(_itself, case, belt),
        )
        yield from wheel_room.questions(case, belt)
        if case.build.obstacle and _lets_go(case, belt):
            yield Ask(
                f"{head}.flap",
                f"Room beside the slack {belt.name}",
                partial(_flap, case, belt),
            )


def _lets_go(case: Case, belt: Belt) -> bool:
    return any(idler.name in belt.run and idler.arm is not None for idler in case.build.idler)


def _part(case: Case, belt: Belt, part: Obstacle) -> Draft:
    layout = belt_layout(case, belt)
    gap, wanted = driving_gap(case, belt, part), wanted_gap(case, part)
    nearest = gap.trembling
    resting = None
    if _lets_go(case, belt):
        resting = loose_gap(case, belt, part).at_rest
        nearest = np.minimum(nearest, resting)
    nearest = layout.where_it_runs(nearest)
    if falls_short(nearest, wanted):
        _sides_known(layout, [part.name])
    show = partial(case.units.show, kind=Kind.LENGTH)
    missing = nominal(wanted) - nominal(nearest)
    return Draft(
        kind=Kind.LENGTH,
        value=nearest,
        below_zero="overlap of",
        at_least=wanted,
        worst=Verdict.STOP if nominal(nearest) <= 0.0 else Verdict.MARGINAL,
        stops=np.atleast_1d(nearest <= 0.0),
        meaning=_part_meaning(case, part, nominal(nearest), resting, gap.trembling),
        remedy=f"Move the {part.name} or the belt {show(missing)} apart, or turn this part of the "
        "belt aside with a guide. Choose looks where one more idler would do that."
        if missing > 0.0
        else "Measure the gap with the belt on, or give it more room; Choose looks where one more "
        "idler would do that."
        if falls_short(nearest, wanted)
        else "",
        formula="gap = distance of the outline from the belt's middle − half its height − bow",
        working=f"taut {show(nominal(gap.taut))}, trembling {show(nominal(gap.trembling))}"
        + ("" if resting is None else f", clutch down {show(nominal(resting))}"),
        source=f"{GEOMETRY}; bow of slack spans in drive 1/64 of the span: common practice",
        leaves_out=_left_out(part, layout) + range_left_out(case, gap.trembling),
        caution=RUB_CAUTION if missing > 0.0 else "",
        place=_where(case, belt, part),
    )


def _part_meaning(
    case: Case, part: Obstacle, gap: float, resting: Array | None, trembling: Array
) -> str:
    where = (
        "with the clutch down"
        if resting is not None and nominal(resting) < nominal(trembling)
        else "in drive"
    )
    if gap <= 0.0:
        return f"The belt runs into the {part.name} {where}."
    return f"The belt passes the {part.name} at {case.units.show(gap, Kind.LENGTH)} {where}."


def _left_out(part: Obstacle, layout: Layout) -> str:
    if layout.plane == "upright" and part.from_height is None and part.to_height is None:
        return f"the heights of the {part.name}, which is taken to stand in the belt's way"
    if layout.plane == "upright" and all(wheel.height is None for wheel in layout.wheels):
        return "the heights of the pulleys, so that the belt is taken to pass at every height"
    return "vibration of the frame; parts that move"


def _sides_known(layout: Layout, names: Sequence[str]) -> None:
    """What seems to touch an upright belt is told once it is known where both stand across."""
    if layout.plane == "cross" and all(wheel.height is None for wheel in layout.wheels):
        why = (
            f"Seen from the right the {layout.belt.name} and the {' and the '.join(names)} overlap."
        )
        raise place_missing(layout.wheels[0], "cross", why)


def range_left_out(case: Case, gap: Array) -> str:
    """What is said where a gap is told as written, without the range of its tolerances."""
    if not case.samples or gap.size > 1 or nominal(gap) <= FAR:
        return ""
    return f"; the range: no tolerance brings it nearer than {case.units.show(FAR, Kind.LENGTH)}"


def _where(case: Case, belt: Belt, part: Obstacle) -> tuple[float, float, float]:
    near, layout = nearest_place(case, belt, part), belt_run(case, belt)
    return layout.on_machine(near.part_x, near.part_y, layout.wheels[0].height)


def _itself(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    gaps = [("passes", gap) for gap in own_gap(case, belt)]
    gaps += [("rims", gap) for gap in rims_apart(case, belt)]
    if _lets_go(case, belt):
        gaps += [("released rims", gap) for gap in loose_own_gap(case, belt)]
    narrowest = least([gap for _, gap in gaps])
    assert narrowest is not None
    what = next(name for name, gap in gaps if gap is narrowest)
    smallest = np.atleast_1d(narrowest.gap)
    for _, gap in gaps:
        smallest = np.minimum(smallest, gap.gap)
    smallest = layout.where_it_runs(smallest)
    show = partial(case.units.show, kind=Kind.LENGTH)
    missing = OWN_GAP - nominal(smallest)
    return Draft(
        kind=Kind.LENGTH,
        value=smallest,
        below_zero="overlap of",
        at_least=OWN_GAP,
        worst=Verdict.STOP if nominal(smallest) <= 0.0 else Verdict.MARGINAL,
        stops=np.atleast_1d(smallest <= 0.0),
        meaning=_own_words(belt, what, narrowest, nominal(smallest), show),
        remedy=f"Move them {show(missing)} further apart."
        if missing > 0.0
        else _more_room(case, OWN_GAP - smallest)
        if falls_short(smallest, OWN_GAP)
        else "",
        formula="gap = distance of the two − what each reaches towards the other",
        working=f"narrowest of {len(gaps)} gaps: {show(nominal(smallest))}",
        source=f"{GEOMETRY}; 3 mm: assumed, no source",
        leaves_out="the bow of slack spans; flanges wider than the rim",
        caution=RUB_CAUTION if missing > 0.0 else "",
        place=None if np.isnan(nominal(layout.path.length)) else _where_itself(case, belt),
    )


def _more_room(case: Case, missing: Array) -> str:
    """What is to be done where only the tolerances, or hardly anything, leave too little room."""
    (short,) = percentiles(missing, HIGH_PERCENT)
    more = max(short, OWN_GAP)
    told = case.units.show(more, Kind.LENGTH, step=more / STEPS)
    return f"Measure their places and the belt closer, or set them {told} further apart."


def _own_words(
    belt: Belt, what: str, gap: OwnGap, wide: float, show: Callable[[float], str]
) -> str:
    first, second, shown = belt.run[gap.first], belt.run[gap.second], show(wide)
    if wide < 0.0:
        return _overlap_words(belt, what, gap, show(-wide))
    if what == "rims":
        return f"The rims of the {first} and the {second} stand {shown} apart."
    if what == "released rims":
        return f"With the clutch down the rims of the {first} and the {second} are {shown} apart."
    following = belt.run[(gap.first + 1) % len(belt.run)]
    return f"Between the {first} and the {following} the belt passes the {second} at {shown}."


def _overlap_words(belt: Belt, what: str, gap: OwnGap, shown: str) -> str:
    first, second = belt.run[gap.first], belt.run[gap.second]
    if what == "rims":
        return f"The rims of the {first} and the {second} overlap by {shown}."
    if what == "released rims":
        return f"With the clutch down the rims of the {first} and the {second} overlap by {shown}."
    following = belt.run[(gap.first + 1) % len(belt.run)]
    return (
        f"Between the {first} and the {following} the belt runs into the {second}, "
        f"or the belt on it, by {shown}."
    )


def _where_itself(case: Case, belt: Belt) -> tuple[float, float, float]:
    layout = belt_run(case, belt)
    gaps = (*own_gap(case, belt), *rims_apart(case, belt))
    narrowest = least(gaps)
    assert narrowest is not None
    return layout.stands(narrowest.second)


def _flap(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    gaps = {part.name: loose_gap(case, belt, part).flapping for part in case.build.obstacle}
    reached = [name for name, gap in gaps.items() if nominal(gap) <= 0.0]
    if reached:
        _sides_known(layout, reached)
    smallest = np.full(1, np.inf)
    for gap in gaps.values():
        smallest = np.minimum(smallest, gap)
    name = min(gaps, key=lambda one: nominal(gaps[one]))
    show = partial(case.units.show, kind=Kind.LENGTH)
    return Draft(
        kind=Kind.LENGTH,
        value=layout.where_it_runs(smallest),
        says="can strike" if reached else "",
        at_least=0.0,
        worst=Verdict.MARGINAL,
        meaning=f"If all its slack gathers beside it, the loose belt reaches the "
        f"{' and the '.join(reached)}."
        if reached
        else f"Even with all its slack in one span the belt stays clear of the {name}"
        + (
            ", but its tolerances may let it strike."
            if too_often(layout.where_it_runs(smallest) < 0.0)
            else "."
        ),
        remedy="Set a guide pin or a keeper beside the belt there, a belt's thickness off it in "
        "drive."
        if reached or too_often(layout.where_it_runs(smallest) < 0.0)
        else "",
        formula="bow = √(3 · span · slack / 8); gap = distance − bow",
        working=f"{name}: {show(nominal(gaps[name]))} left",
        source="arc of a flat parabola, own derivation; worst case",
        leaves_out="the belt's own stiffness, which holds it straighter",
        caution=RUB_CAUTION if reached else "",
        place=_where(case, belt, next(p for p in case.build.obstacle if p.name == name)),
    )

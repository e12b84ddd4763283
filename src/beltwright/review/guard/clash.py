"""What a guard stands too near to: pulleys, idlers on their way, arms, belts, parts, other guards.

As in `gaps`, all of it is the build as written; nothing here has a range.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Idler
from beltwright.physics.arrays import Array
from beltwright.physics.belt.wheel_gap import wheel_gap
from beltwright.physics.outline import Outline, gap_in_space, height_gap, heights_apart
from beltwright.physics.sheet_metal.apart import outlines_apart
from beltwright.quantity import Kind
from beltwright.review.belt.clearance import band_as_written, driving_plan
from beltwright.review.belt.layout import Layout, belt_run
from beltwright.review.belt.obstacles import grouped_parts
from beltwright.review.case import Case, NotKnownError
from beltwright.review.guard.bent import Bent, bent, strip_outline, strip_width
from beltwright.review.nominal import nominal

REACH = 0.025
"""What stands further off than this is not told [m] (assumed)."""

SWING_STEPS = 13
"""Places of an idler on its way between which the next is straight: 0.2 mm on an arm of 200 mm."""

What = Literal["pulley", "idler", "arm", "belt", "part", "guard"]


class Clash(NamedTuple):
    """How near a guard comes to something that is not what it follows [m]."""

    name: str
    what: What
    gap: Array


def clashes(case: Case, shape: Bent) -> tuple[Clash, ...]:
    """What a guard comes near to, the nearest first."""
    return case.once(("guard_clashes", shape.guard.name), lambda: _near(case, shape))


def _near(case: Case, shape: Bent) -> tuple[Clash, ...]:
    nearest: dict[str, Clash] = {}
    for clash in sorted(_all(case, shape), key=lambda clash: nominal(clash.gap)):
        if clash.gap[0] < REACH:
            nearest.setdefault(clash.name, clash)
    return tuple(nearest.values())


def _all(case: Case, shape: Bent) -> Iterator[Clash]:
    outline, low, high = strip_outline(shape), *_heights(case, shape)
    standing = strip_outline(shape, feet=False)
    for layout in _layouts(case, shape):
        run = layout.path.run
        for place, wheel in enumerate(layout.wheels):
            over = _over_wheel(low, high, layout, place)
            what: What = "idler" if isinstance(wheel.of, Idler) else "pulley"
            rim = wheel.rim[:1]
            own_arm = shape.guard.fixed_to == "arm" and wheel.name == shape.guard.round
            if layout.swinging == place and not own_arm:
                yield from _swinging(case, layout, rim, over, outline)
            else:
                x, y = (np.atleast_1d(at[place])[:1] for at in (run.x, run.y))
                yield Clash(wheel.name, what, gap_in_space(wheel_gap(x, y, rim, outline), over))
        if layout is not shape.layout and layout.usable[0]:
            gap = driving_plan(layout, band_as_written(layout, layout.path), outline).trembling
            over = _over_wheel(low, high, layout, 0)
            yield Clash(layout.belt.name, "belt", gap_in_space(gap, over))
    yield from _parts(case, shape, standing, low, high)
    yield from _guards(case, shape, outline, low, high)


def _layouts(case: Case, shape: Bent) -> Iterator[Layout]:
    """The runs of all belts in the guard's plane that are described; each wheel comes once."""
    yield shape.layout
    for belt in case.build.belt:
        if belt is not shape.belt:
            layout = _run(case, belt)
            if layout is not None and layout.plane == shape.layout.plane:
                yield layout


def _run(case: Case, belt: Belt) -> Layout | None:
    try:
        return belt_run(case, belt)
    except NotKnownError:
        return None


def _heights(case: Case, shape: Bent) -> tuple[Array, Array]:
    """Between which heights a strip stands, its middle at that of its pulley; on a shaft that lies
    across, how far left [m]."""
    height = shape.layout.wheels[shape.place].height
    if height is None:
        return np.full(1, -np.inf), np.full(1, np.inf)
    half = 0.5 * strip_width(case, shape.guard)[:1]
    return height[:1] - half, height[:1] + half


def _over_wheel(low: Array, high: Array, layout: Layout, place: int) -> Array:
    """How far a wheel passes above or below a strip [m]."""
    return heights_apart(low, high, *(each[:1] for each in layout.wheel_heights(place)))


def _swinging(
    case: Case, layout: Layout, rim: Array, over: Array, outline: Outline
) -> Iterator[Clash]:
    """Room between a strip and the idler and its arm, anywhere on their way."""
    mover = layout.mover
    assert mover is not None
    idler = mover.of
    assert isinstance(idler, Idler)
    assert idler.arm is not None
    ends = np.linspace(mover.loose[:1], np.atleast_1d(mover.tight)[:1], SWING_STEPS)
    there = mover.mount.motion(ends)
    x, y = np.asarray(there.x)[:, :1], np.asarray(there.y)[:, :1]
    way = _outline(np.concatenate([x, x[-2:0:-1]]), np.concatenate([y, y[-2:0:-1]]))
    if _close(way, outline, nominal(rim)):
        yield Clash(idler.name, "idler", gap_in_space(outlines_apart(way, outline) - rim, over))
    pivot_x, pivot_y = (case.si(each)[:1] for each in idler.arm.pivot)
    sector = _outline(np.concatenate([pivot_x[None], x]), np.concatenate([pivot_y[None], y]))
    half = 0.5 * case.suppose(
        idler.arm.width,
        f"idler.{idler.name}.arm.width",
        "25 mm",
        Kind.LENGTH,
        "an arm is made from a bar of about an inch (assumed)",
    )
    if _close(sector, outline, nominal(half)):
        yield Clash(f"arm of the {idler.name}", "arm", outlines_apart(sector, outline) - half[:1])


def _outline(x: Array, y: Array) -> Outline:
    return Outline(x, y, 0.0, 0.0)


def _close(one: Outline, other: Outline, more: float = 0.0) -> bool:
    """Whether the boxes round two outlines come within reach of each other."""
    room = REACH + more
    return all(
        bool(a.min() < b.max() + room and b.min() < a.max() + room)
        for a, b in ((one.x, other.x), (one.y, other.y))
    )


def _parts(case: Case, shape: Bent, outline: Outline, low: Array, high: Array) -> Iterator[Clash]:
    """Room between a strip without its feet, which are screwed to something, and each part."""
    for group in grouped_parts(case, shape.layout.plane):
        whole = group.as_written()
        over = height_gap(low, high, whole)
        for row, name in enumerate(group.names):
            part = _outline(whole.x[:, row], whole.y[:, row])
            if _close(part, outline):
                over_it = np.broadcast_to(over, (len(group.names), 1))[row]
                yield Clash(name, "part", gap_in_space(outlines_apart(part, outline), over_it))


def _guards(case: Case, shape: Bent, outline: Outline, low: Array, high: Array) -> Iterator[Clash]:
    """Room between a strip and every other guard in its plane."""
    for guard in case.build.guard:
        if guard is shape.guard:
            continue
        try:
            other = bent(case, guard)
        except NotKnownError:
            continue
        edge = strip_outline(other)
        if other.layout.plane == shape.layout.plane and _close(edge, outline):
            ends = _heights(case, other)
            over = heights_apart(low, high, *ends)
            gap = outlines_apart(edge, outline)
            yield Clash(guard.name, "guard", gap_in_space(gap, over))

"""What the review says about the room that every rod has over its travel."""

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

import numpy as np

from beltwright.build.linkage import Linkage
from beltwright.build.shop import Obstacle
from beltwright.physics.arrays import Array
from beltwright.physics.linkage.rod_gap import place_on_rod, point_gap, rod_gap
from beltwright.physics.linkage.swing import rod_end
from beltwright.quantity import Kind
from beltwright.review.angle_words import degrees
from beltwright.review.belt.obstacles import outline_of
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.linkage.motion import as_written, link_of, moved
from beltwright.review.linkage.words import caution, hurts
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal

ROOM = 0.005
"""Gap that a rod keeps from what stands still [m] (assumed, no source)."""


class NearestPart(NamedTuple):
    """Where a rod comes nearest to a part over its travel.

    gap    between the rod's outside and the part [m], shape (...)
    place  on the rod's middle line, in the build as written [m]
    hand   angle of the hand lever there [rad]
    share  of the way from the lever's end of the rod to the arm's [1]
    """

    gap: Array
    place: tuple[float, float, float]
    hand: float
    share: float


def questions(case: Case, linkage: Linkage) -> Iterator[Ask]:
    """The questions about the parts that a rod may hit."""
    for part in case.build.obstacle:
        if part.name not in linkage.belongs:
            yield Ask(
                f"linkage.{linkage.name}.clash.{part.name}",
                f"Room between the {linkage.name} and the {part.name}",
                partial(_clash, case, linkage, part),
            )


def nearest_part(case: Case, linkage: Linkage, part: Obstacle) -> NearestPart:
    """How near a rod comes to a part over the whole travel of its hand lever."""
    whole, link = moved(case, linkage), link_of(case, linkage)
    written, outline = as_written(link), outline_of(case, "upright", part)
    near = rod_gap(
        rod_end(written.lever, whole.lever[:, :1]),
        rod_end(written.arm, whole.arm[:, :1]),
        outline.x[:, :1],
        outline.y[:, :1],
        nominal(outline.low),
        nominal(outline.high),
    )
    gaps = near.gap[:, 0]
    if not np.any(np.isfinite(gaps)):
        raise NotKnownError(
            f"linkage.{linkage.name}",
            "Put its dead points right first.",
            "The rod has no place anywhere over the lever's travel.",
        )
    at = int(np.nanargmin(gaps))
    share = float(near.share[at, 0])
    # where the gap is least it hardly changes along rod and travel, so the samples are looked at
    # where the build as written comes nearest
    place = place_on_rod(
        rod_end(link.lever, whole.lever[at]), rod_end(link.arm, whole.arm[at]), share
    )
    gap = point_gap(place, outline.x, outline.y, outline.low, outline.high)
    x, y, z = (nominal(each) for each in place)
    outside = np.atleast_1d(gap - 0.5 * thickness(case, linkage))
    return NearestPart(outside, (x, y, z), float(whole.hand[at, 0]), share)


def thickness(case: Case, linkage: Linkage) -> Array:
    """Diameter of the rod [m]."""
    return case.suppose(
        linkage.rod.diameter,
        f"linkage.{linkage.name}.rod.diameter",
        "10 ± 2 mm",
        Kind.LENGTH,
        "rods of such linkages are 8 to 12 mm thick (common practice, no source)",
    )


def _clash(case: Case, linkage: Linkage, part: Obstacle) -> Draft:
    near = nearest_part(case, linkage, part)
    show = partial(case.units.show, kind=Kind.LENGTH)
    gap, hits = nominal(near.gap), nominal(near.gap) <= 0.0
    along = nominal(link_of(case, linkage).length) * near.share
    return Draft(
        kind=Kind.LENGTH,
        value=near.gap,
        below_zero="overlap of",
        at_least=ROOM,
        near=0.0,
        worst=Verdict.STOP if hits and hurts(linkage) else Verdict.MARGINAL,
        stops=(near.gap <= 0.0) if hurts(linkage) else np.zeros(near.gap.shape, dtype=bool),
        meaning=f"The rod {'runs into' if hits else 'comes nearest to'} the {part.name} "
        f"{show(along)} from the lever's end, with the lever at {degrees(near.hand)}.",
        remedy=_clear(case, part, near) if falls_short(near.gap, ROOM, 0.0) else "",
        formula="gap = least distance of the rod's middle line from the part over the lever's "
        "travel − half the rod",
        working=f"{show(gap + 0.5 * nominal(thickness(case, linkage)))} − "
        f"{show(nominal(thickness(case, linkage)))} / 2 = {show(gap)}",
        source=f"geometry of a straight rod; room of {show(ROOM)}: assumed, no source",
        leaves_out="a bent rod, its ends and lock nuts, the lever itself; parts that move, such as "
        "road wheels and steering",
        caution=caution(linkage),
        place=near.place,
    )


def _clear(case: Case, part: Obstacle, near: NearestPart) -> str:
    by = case.units.show(ROOM - nominal(near.gap), Kind.LENGTH)
    return (
        f"Bring the rod {by} away from the {part.name} there: move the hole's side of lever and "
        f"arm, or set a joggle of {by} into the rod, its eyes as far apart as before. If the "
        f"{part.name} is part of this linkage, name it under belongs."
    )

"""Words that all findings about linkages share."""

from beltwright.build.linkage import Linkage
from beltwright.physics.linkage.rod_gap import place_on_rod
from beltwright.physics.linkage.swing import rod_end
from beltwright.review.case import Case
from beltwright.review.linkage.motion import link_of
from beltwright.review.nominal import nominal

GEOMETRY = "geometry of a rod with two ball joints, exact"
"""Angles show in degrees, whatever other angles are written in."""

_CAUTION = (
    "Work the lever through its whole travel by hand first, engine off, wheels chocked. Every "
    "joint gets its split pin or lock nut: a rod that drops off takes its lever with it."
)
_CAUTIONS = {
    "brake": " A brake is tried at walking pace on level ground, with a clear run-out; local codes "
    "and licensed practice come first.",
    "clutch": " Whoever cannot let the clutch go cannot stop the drive: keep a stop switch in "
    "reach.",
    "throttle": " A throttle must close by its spring alone when hand or foot lets go.",
}


def caution(linkage: Linkage) -> str:
    """What to mind where the linkage is worked on."""
    return _CAUTION + _CAUTIONS.get(linkage.works, "")


def hurts(linkage: Linkage) -> bool:
    """Whether someone may be hurt where it fails: it stops the machine or holds it back."""
    return linkage.works in ("brake", "clutch", "throttle")


def middle(case: Case, linkage: Linkage) -> tuple[float, float, float]:
    """The middle of the rod in neutral [m]."""
    link = link_of(case, linkage)
    start, end = rod_end(link.lever, link.neutral), rod_end(link.arm, link.arm_neutral)
    x, y, z = (nominal(each) for each in place_on_rod(start, end, 0.5))
    return x, y, z

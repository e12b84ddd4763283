"""Names between linkages, brake and other parts, and bell cranks whose arms share one pivot."""

from collections.abc import Iterator

from beltwright.build.linkage import Linkage
from beltwright.build.model import Build
from beltwright.build.places import Path
from beltwright.build.refusal import Refusal

_OFF_LINE = 0.002
"""Two arms of one shaft are measured to stand on one line within this [m]."""

_ON_LINE = {"cross": (0, 2), "upright": (0, 1), "along": (1, 2)}
"""Which of x, y, z must agree for two arms to turn on one line."""


def named_by_linkages(build: Build) -> Iterator[tuple[Path, str, tuple[str, ...], str]]:
    """Give every name that linkages and the brake use: where, the name, those known, their kind."""
    linkages = tuple(linkage.name for linkage in build.linkage)
    parts = (
        *(part.name for part in build.obstacle),
        *(pulley.name for pulley in build.pulley),
        *(idler.name for idler in build.idler),
    )
    for index, linkage in enumerate(build.linkage):
        if linkage.driven_by is not None:
            yield ("linkage", index, "driven_by"), linkage.driven_by, linkages, "linkage"
        for place, name in enumerate(linkage.belongs):
            yield ("linkage", index, "belongs", place), name, parts, "obstacle, pulley or idler"
    if build.brake and build.brake.linkage is not None:
        yield ("brake", "linkage"), build.brake.linkage, linkages, "linkage"


def linkage_refusals(build: Build) -> Iterator[Refusal]:
    """Find linkages that drive one another in a ring, and bell cranks of two pivots."""
    by_name = {linkage.name: linkage for linkage in build.linkage}
    for index, linkage in enumerate(build.linkage):
        driver = by_name.get(linkage.driven_by or "")
        if driver is None:
            continue
        path: Path = ("linkage", index, "driven_by")
        if _leads_back(linkage, by_name):
            yield Refusal(
                path, "These linkages drive one another in a ring.", f'"{linkage.driven_by}"'
            )
        elif linkage.lever.axis != driver.arm.axis:
            reason = f"The arm of the {driver.name} turns about another line: {driver.arm.axis}."
            yield Refusal(("linkage", index, "lever", "axis"), reason, f'"{linkage.lever.axis}"')
        elif not _on_one_line(linkage, driver):
            reason = (
                f"This lever does not stand on the pivot line of the {driver.name}'s arm, which "
                "turns it. Measure both again, or leave pivot out."
            )
            yield Refusal(("linkage", index, "lever", "pivot"), reason)


def _leads_back(linkage: Linkage, by_name: dict[str, Linkage]) -> bool:
    seen = {linkage.name}
    here = by_name.get(linkage.driven_by or "")
    while here is not None:
        if here.name in seen:
            return True
        seen.add(here.name)
        here = by_name.get(here.driven_by or "")
    return False


def _on_one_line(linkage: Linkage, driver: Linkage) -> bool:
    one, other = linkage.lever.pivot, driver.arm.pivot
    if one is None or other is None:
        return True
    return all(
        abs(one[at].value - other[at].value)
        <= _OFF_LINE + one[at].plus + one[at].minus + other[at].plus + other[at].minus
        for at in _ON_LINE[linkage.lever.axis]
    )

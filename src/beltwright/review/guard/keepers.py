"""Which belts let go without keepers."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.review.belt.layout import belt_layout, loose_belt
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.nominal import nominal

KEEPERS = "Keepers of the"
"""How the finding of a belt's keepers is called, before its name."""


def questions(case: Case) -> Iterator[Ask]:
    """The questions about belts that lack keepers."""
    for belt in case.build.belt:
        head = f"belt.{belt.name}"
        if any(idler.name in belt.run and idler.arm is not None for idler in case.build.idler):
            title = f"{KEEPERS} {belt.name}"
            yield Ask(f"{head}.keepers", title, partial(_keepers, case, belt))


def unkept(case: Case, belt: Belt) -> tuple[str, ...]:
    """The pulleys and idlers of a belt that no keeper or guard goes round."""
    kept = {guard.round for guard in case.build.guard if guard.belt == belt.name}
    return tuple(name for name in belt.run if name not in kept)


def keeper_words(case: Case, belt: Belt, slack: Array) -> str:
    """What a slack belt does that can leave its grooves; the finding of keepers tells where."""
    off = nominal(gathered(slack))
    if off <= belt_layout(case, belt).section.cross.height:
        return ""
    told = f" Gathered at one pulley it stands {case.units.show(off, Kind.LENGTH)} off, out of "
    if not unkept(case, belt):
        return f"{told}the groove, where the keepers hold it."
    return f"{told}the groove: see “{KEEPERS} {belt.name}”."


def gathered(slack: Array) -> Array:
    """How far a belt stands off with all its slack lifted off half a turn of one pulley [m]."""
    return np.atleast_1d(slack) / np.pi


def _keepers(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    loose, height = loose_belt(case, belt).belt, layout.section.cross.height
    stands_off = layout.where_it_runs(gathered(loose.slack))
    without = unkept(case, belt)
    show = partial(case.units.show, kind=Kind.LENGTH)
    kept = len(belt.run) - len(without)
    stays = stands_off <= height
    off = nominal(stands_off)
    return Draft(
        holds=stays | (not without),
        says="none needed" if np.all(stays) else f"{kept} of {len(belt.run)} kept",
        worst=Verdict.MARGINAL,
        meaning=f"Gathered at one pulley the slack belt stands {show(off)} off, and is "
        f"{show(height)} thick: "
        + (
            "it stays in its groove."
            if stays[0]
            else f"it can jump off the {_listed(without)}."
            if without
            else "keepers hold it."
        ),
        remedy=""
        if not without or np.all(stays)
        else f"Bend a keeper round the {_listed(without)}: describe it as a [[guard]], and the "
        "sheet of it shows where to bend.",
        formula="slack / π, half a turn's worth, against the belt's thickness",
        working=f"{show(off)} against {show(height)}; see “Slack of the {belt.name}, clutch down”",
        source="own derivation; keepers where a slack belt leaves its groove: common practice",
        leaves_out="idlers with flanges, rims that stand higher than the belt",
        caution="A belt that jumps off winds itself round a shaft and blocks it, or whips. Keep it "
        "in its grooves in both clutch positions.",
    )


def _listed(names: tuple[str, ...]) -> str:
    """Names in a sentence."""
    if len(names) < 2:
        return "".join(names)
    return f"{', the '.join(names[:-1])} and the {names[-1]}"

"""What a driver sees, hears or smells, tied to the numbers of the plan that speak of it."""

from collections.abc import Callable, Iterator
from fnmatch import fnmatchcase
from functools import partial
from typing import NamedTuple

import numpy as np

from beltwright.build.drive import Drive, Sign
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import WORST_FIRST, Finding, Verdict
from beltwright.review.judging import judge

Others = Callable[[], Iterator[Ask]]

MOST_QUOTED = 4


class Meant(NamedTuple):
    """What a sign may come from.

    findings  ids of the findings that speak of it, with * for names
    check     what to look at first
    stops     whether nothing is driven until it is gone
    caution   where it can hurt
    """

    findings: tuple[str, ...]
    check: str
    stops: bool = False
    caution: str = ""


_CREEP = (
    "A clutch that drags moves the machine when nobody expects it: engine off before you leave the "
    "seat, nobody in front of it."
)
_BELT_OFF = (
    "A belt that jumps off takes the drive with it, and a brake behind it too. Spark lead off "
    "before you reach in; guards on before it runs again."
)
_BACKWARDS = (
    "A machine whose front lifts falls over backwards in less than a second. Let the clutch up "
    "gently, never uphill with a load behind."
)
_BURNS = "A slipping belt gets hot enough to light dry grass: stop, let it cool, and look at it."
_OIL = "Oil on a brake or a belt takes its grip: wipe it off and stop driving until it is dry."

SIGNS: dict[Sign, Meant] = {
    "belt squeals": Meant(
        ("belt.*.grip", "belt.*.static_tension", "belt.*.wrap.*"),
        "Chalk the belt and both pulleys and see which mark walks under load; wipe the grooves dry",
        caution=_BURNS,
    ),
    "belt smells": Meant(
        ("belt.*.grip", "pull.clutch_heat", "belt.*.rating", "belt.*.back_bend"),
        "Feel for a glazed or hot spot on the belt, engine off",
        caution=_BURNS,
    ),
    "belt jumped off": Meant(
        ("belt.*.fleet", "belt.*.slack", "clearance.*.flap", "belt.*.arm", "guard.*"),
        "Lay a straight-edge over both pulleys, look for a keeper that is missing or bent, and "
        "turn the belt by hand in both clutch positions",
        True,
        _BELT_OFF,
    ),
    "belt rubs": Meant(
        ("clearance.*", "guard.*"),
        "Look for bright metal and black dust along the belt's way, clutch up and down",
        caution=_BELT_OFF,
    ),
    "stalls when clutch goes up": Meant(
        ("pull.clutch_heat", "pull.low_gear", "engine.torque", "climb.*"),
        "Try it in the slowest gear on level ground, throttle up first, and look whether the brake "
        "lets go",
    ),
    "jerks when clutch goes up": Meant(
        ("belt.*.spring", "belt.*.static_tension", "climb.front_lift"),
        "Let the pedal up over two seconds; look whether the arm sticks in its pivot",
        caution=_BACKWARDS,
    ),
    "creeps with clutch down": Meant(
        ("belt.*.slack", "belt.*.arm", "clearance.*.flap", "guard.*"),
        "On blocks, clutch down, turn the belt by hand: it must lie loose in every groove",
        True,
        _CREEP,
    ),
    "front lifts": Meant(
        ("climb.front_lift", "stability.front_share", "stability.up_slope"),
        "Weigh the front wheels as it was laden, and start on the level in a taller gear",
        True,
        _BACKWARDS,
    ),
    "wheels spin": Meant(
        ("pull.low_gear", "climb.*"),
        "Look at tyre pressure and tread, and whether one wheel alone spins",
    ),
    "drives the wrong way": Meant(
        ("drive.direction",),
        "On blocks, turn the input by hand in a forward gear, and see which way the wheels go",
        True,
        "It moves off where nobody looks: engine off until it is put right.",
    ),
    "brake pulls to one side": Meant(
        ("brake.torque", "brake.path"),
        "Compare tyre pressures, then look for oil on one lining",
        caution="A machine that pulls aside when braked runs off its track: walking pace only.",
    ),
    "brake smells": Meant(
        ("brake.stop_heat", "brake.descent_heat", "brake.torque"),
        "Lift the wheels and turn them by hand, pedal up: the brake must not drag",
        caution="A hot brake fades and can light dry grass. Let it cool before the next slope.",
    ),
    "oil at a seal": Meant(
        ("gearbox.case_pressure", "gearbox.vent", "gearbox.seal.*"),
        "Wipe it dry, drive ten minutes and look again; open the vent and see whether it stops",
        caution=_OIL,
    ),
    "oil out of the vent": Meant(
        ("gearbox.vent", "gearbox.oil_temperature", "gearbox.case_pressure"),
        "Check the oil's level cold and level; raise the end of the vent hose",
        caution=_OIL,
    ),
    "jumps out of gear": Meant(
        ("linkage.*", "gearbox.overspeed", "gearbox.axle_torque"),
        "Shift by hand at the box with the rod off: if it stays in, the rod is too long or short",
        caution="Out of gear the engine no longer holds it on a slope: keep a foot at the brake.",
    ),
    "engine hunts": Meant(
        ("engine.governor", "throttle.*"),
        "Move the governor's link by hand, engine off: it must run free over its whole way",
        caution="Never bend or wedge the governor: an engine that is over-revved can burst.",
    ),
}
"""Every sign with what the plan knows of it; what to look at first is common practice."""


def sign_asks(case: Case, others: Others) -> Iterator[Ask]:
    """A question for each sign of each drive."""
    for drive in case.build.drive:
        for sign in dict.fromkeys(drive.signs):
            title = f"{drive.name}: {sign}"
            answer = partial(_answer, case, drive, sign, others)
            yield Ask(f"drive.{drive.name}.{sign}", title, answer)


def _answer(case: Case, drive: Drive, sign: Sign, others: Others) -> Draft:
    meant = SIGNS[sign]
    quoted = _quoted(case, drive, meant, others)
    worst = [finding for finding in quoted if finding.verdict is not Verdict.SOUND]
    remedy = f"{meant.check}."
    if worst and worst[0].remedy:
        remedy += f" Then see to this: {worst[0].title}. {worst[0].remedy}"
    return Draft(
        holds=np.array([False]),
        worst=Verdict.STOP if meant.stops else Verdict.MARGINAL,
        stops=np.array([meant.stops]),
        says=sign,
        meaning=_meaning(quoted, worst),
        remedy=remedy,
        formula="what the plan knows of it, worst first",
        working="; ".join(_told(finding) for finding in quoted) or "nothing in the plan",
        source="which numbers a sign points to: common practice, no source; the numbers: their own "
        "findings",
        leaves_out="what no number of the plan speaks of: wear, dirt, a loose bolt",
        caution=meant.caution,
    )


def _quoted(case: Case, drive: Drive, meant: Meant, others: Others) -> list[Finding]:
    """The findings that speak of a sign, worst first."""
    asks = [ask for ask in others() if _speaks(ask.id, drive, meant)]
    found = [judge(case, "", ask)[0] for ask in asks]
    return sorted(found, key=lambda each: WORST_FIRST.index(each.verdict))[:MOST_QUOTED]


def _speaks(id_: str, drive: Drive, meant: Meant) -> bool:
    if not any(fnmatchcase(id_, pattern) for pattern in meant.findings):
        return False
    of_belt = id_.startswith(("belt.", "clearance."))
    return drive.belt is None or not of_belt or id_.split(".", 1)[1].startswith(f"{drive.belt}.")


def _meaning(quoted: list[Finding], worst: list[Finding]) -> str:
    if worst:
        first = worst[0]
        return f"Likeliest from the plan: {_told(first)}. {first.meaning}"
    if quoted:
        listed = "; ".join(_told(finding) for finding in quoted)
        return f"The plan is at ease with what it may come from: {listed}. Look at the machine."
    return "The plan has no number that speaks of it: look at the machine."


def _told(finding: Finding) -> str:
    limit = f", wanted {finding.shown_limit}" if finding.shown_limit else ""
    return f"{finding.title}: {finding.shown}{limit} ({finding.verdict})"

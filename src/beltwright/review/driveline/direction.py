"""Which way the machine drives in its forward gears."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.driveline import Gearbox
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.driveline.routes import Route, route_to
from beltwright.review.driveline.stages import Stage, runs_flat, twisted

TURNED = {"as in the donor": 1, "turned round": -1, "upside down": 1}
"""How the way that a gearbox is mounted changes which input direction drives forwards.

Turned round about an upright line its input still turns as before seen from above, but its axle
drives towards what is now the rear: -1.  Rolled over about the line of travel the input shaft
points down, so that seen from above the same turning is the other way for the gears inside; and the
axle, whose left end is now on the right, turns the other way seen from the machine.  The two
cancel: +1.  All this is for an upright input. One that lies across lies as the axle does: whichever
way the gearbox is turned, both turn with it, so that it always takes the donor's direction.
"""


def questions(case: Case) -> Iterator[Ask]:
    """The question which way the machine drives."""
    if case.build.gearbox is not None:
        yield Ask("drive.direction", "Way that the forward gears drive", partial(_direction, case))


def drives_forwards(case: Case) -> bool:
    """Whether the forward gears drive the machine forwards.

    Raises NotKnownError where the donor's direction is not written.
    """
    box = case.build.gearbox
    assert box is not None
    _see_that_no_belt_is_twisted(case)
    wanted = _donor_sense(box) * (1 if _lies_across(case, box) else TURNED[box.mounted])
    return route_to(case, box.input).sense * _after_gearbox(case) == wanted


def _see_that_no_belt_is_twisted(case: Case) -> None:
    """A belt between shafts that are not parallel turns them either way, as it is laid on."""
    stages = {stage.name for stage in _route_behind(case).stages if stage.kind == "belt"}
    for belt in case.build.belt:
        if belt.name in stages and not runs_flat(case, belt):
            raise twisted(belt)


def _lies_across(case: Case, box: Gearbox) -> bool:
    return any(shaft.name == box.input and shaft.axis == "cross" for shaft in case.build.shaft)


def _donor_sense(box: Gearbox) -> int:
    if box.donor_input_turns is None:
        raise NotKnownError(
            "gearbox.donor_input_turns",
            "Put the gearbox in a forward gear, turn its input by hand until its wheels roll "
            "forwards as they did in the donor, and write which way the input turns seen from "
            "above (from the right if it lies across), for example donor_input_turns = "
            '"clockwise".',
        )
    return 1 if box.donor_input_turns == "counter-clockwise" else -1


def _after_gearbox(case: Case) -> int:
    """-1 where the stages between gearbox and wheels turn the wheels the other way."""
    return _product(_route_behind(case))


def _route_behind(case: Case) -> Route:
    return route_to(case, case.build.wheels.shaft)


def _product(route: Route) -> int:
    kinds = [stage.kind for stage in route.stages]
    behind = route.stages[kinds.index("gearbox") + 1 :] if "gearbox" in kinds else ()
    return int(np.prod([stage.sense for stage in behind], dtype=int))


def _direction(case: Case) -> Draft:
    box = case.build.gearbox
    assert box is not None
    forwards = drives_forwards(case)
    return Draft(
        holds=np.array([forwards]),
        says="forwards" if forwards else "backwards",
        meaning="The forward gears drive the machine forwards."
        if forwards
        else "The forward gears drive the machine backwards, and it has only the reverse gears for "
        "going forwards.",
        remedy=""
        if forwards
        else "Turn the gearbox round, run the input pulley on the back of the belt, or put one "
        "gear pair between gearbox and wheels. Never run the engine backwards.",
        formula="input direction × stages behind the gearbox = the donor's direction × mounting",
        working=_working(case, box),
        source="kinematics; the direction of the engine as written",
        leaves_out="gearboxes whose forward and reverse gears are alike",
        caution="A machine that moves off the wrong way runs over what stands behind it. Try it "
        "with the driven wheels off the ground first.",
    )


def _working(case: Case, box: Gearbox) -> str:
    to_input = route_to(case, box.input)
    behind = _route_behind(case).stages[len(to_input.stages) + 1 :]
    return "; ".join(
        [
            f"engine {_named(route_to(case, case.build.engine.shaft).sense)}",
            *(_step(stage) for stage in to_input.stages),
            f"input {_named(to_input.sense)}",
            f"donor {box.donor_input_turns}, mounted {box.mounted}",
            *(_step(stage) for stage in behind),
        ]
    )


def _step(stage: Stage) -> str:
    return f"{stage.name} {'keeps' if stage.sense > 0 else 'turns'} it"


def _named(sense: int) -> str:
    return "counter-clockwise" if sense > 0 else "clockwise"

"""The pulls in a belt of the build: spring, spans, slip, shaft loads, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Idler, Pulley
from beltwright.physics.arrays import Array
from beltwright.physics.belt.force import Load, capstan_ratio, groove_friction, shaft_load
from beltwright.physics.belt.grip import (
    FirstSlip,
    SpanPulls,
    first_to_slip,
    fixed_centre_pulls,
    loosening_torque,
    pull_needed,
    slip_torques,
    spring_set_pulls,
)
from beltwright.physics.belt.tensioning import press_force
from beltwright.quantity import Kind
from beltwright.review.belt.layout import belt_layout
from beltwright.review.belt.spring import arm_spring, sprung_idler
from beltwright.review.belt.task import Task, centrifugal, task, wheel_named
from beltwright.review.case import Case
from beltwright.review.driveline.pulleys import pitch_diameter
from beltwright.review.nominal import nominal
from beltwright.tables.belt_factors import belt_friction
from beltwright.tables.belts import groove_angle

HOLD = 1.25
"""Torque that the belt's tension should hold over the engine's best [1]: common practice, for
damp grooves, wear and the jerk of a clutch that bites."""

PRESS_SHARE = 1 / 64
"""How far a press test moves the middle of a span, over the span [1] (maker manuals)."""


class Pulls(NamedTuple):
    """Everything about the pulls in one belt (all belts of the stage together).

    task        what it has to carry
    spans       pull in every span over the torque on the driver
    static      pull at rest, the belt standing still [N]
    needed      pull at rest that holds the engine's best torque `HOLD` times over [N]
    capstan     ratio of pulls at slip of each pulley [1]
    first       which pulley slips first, and the torque on the driver [N m]
    grip        the engine's torque at that slip, lowest gear [N m]
    """

    task: Task
    spans: SpanPulls
    static: Array
    needed: Array
    capstan: tuple[Array, ...]
    first: FirstSlip
    grip: Array

    def at_peak(self) -> tuple[Array, ...]:
        """Pull in every span with the engine at its best torque, lowest gear [N].

        No more than what leaves the slackest span loose: a belt cannot push.
        """
        return self.spans.at(np.minimum(self.task.torque, loosening_torque(self.spans)))


def pulls(case: Case, belt: Belt) -> Pulls:
    """The pulls in one belt.

    Raises NotKnownError where neither a spring nor a tension is described.
    """
    return case.once(("belt_pulls", belt.name), lambda: _pulls(case, belt))


def _pulls(case: Case, belt: Belt) -> Pulls:
    job, ratios = task(case, belt), capstan_ratios(case, belt)
    static = static_pull(case, belt)
    spans = _spans(case, belt, job, static)
    first = first_to_slip(slip_torques(spans, ratios))
    needed = pull_needed(spans, ratios, job.torque, HOLD)
    if sprung_idler(case, belt) is not None:  # a spring feels the pull less the belt mass
        needed = needed - spans.centrifugal
    grip = first.torque / (job.ratio * job.efficiency)
    return Pulls(job, spans, static, needed, ratios, first, grip)


def static_pull(case: Case, belt: Belt) -> Array:
    """The pull at rest of all belts: as a press test found it, else by the spring [N]."""
    if belt.tension is not None:
        return case.si(belt.tension) * belt.count
    return arm_spring(case, belt).pull


def _spans(case: Case, belt: Belt, job: Task, static: Array) -> SpanPulls:
    layout, mass_pull = belt_layout(case, belt), centrifugal(case, belt)
    sprung = sprung_idler(case, belt)
    if sprung is None:
        lengths = [span.length for span in layout.path.spans]
        return fixed_centre_pulls(job.share, job.radius, layout.travel, lengths, static, mass_pull)
    place = belt.run.index(sprung.name)
    return spring_set_pulls(job.share, job.radius, layout.travel, place, static, mass_pull)


def capstan_ratios(case: Case, belt: Belt) -> tuple[Array, ...]:
    """Ratio of tight to slack pull at slip on each pulley and idler of the run [1]."""
    layout = belt_layout(case, belt)
    return tuple(
        _capstan(case, belt, wheel_named(case, name), wrap)
        for name, wrap in zip(belt.run, layout.path.wrap, strict=True)
    )


def _capstan(case: Case, belt: Belt, wheel: Pulley | Idler, wrap: Array) -> Array:
    if isinstance(wheel, Idler):
        return np.ones(1)  # an idler passes no power, so it never slips
    if wheel.runs_on == "back":
        return capstan_ratio(_back_friction(case, belt), wrap)
    return capstan_ratio(groove_friction(_friction(case, belt), _angle(case, belt, wheel)), wrap)


def _back_friction(case: Case, belt: Belt) -> Array:
    row = belt_friction("back on flat steel")
    return case.suppose(
        None,
        f"belt.{belt.name}.back_friction",
        f"{row.usual:g} ± {row.high - row.usual:.2g}",
        Kind.RATIO,
        f"back of the belt on a flat rim; {row.source} ({row.status})",
    )


def _friction(case: Case, belt: Belt) -> Array:
    row = belt_friction("groove dry")
    return case.suppose(
        belt.friction,
        f"belt.{belt.name}.friction",
        f"{row.usual:g} +{row.high - row.usual:.2g} -{row.usual - row.low:.2g}",
        Kind.RATIO,
        f"dry belt on the groove's flanks; {row.source} ({row.status})",
    )


def _angle(case: Case, belt: Belt, pulley: Pulley) -> Array:
    if pulley.groove_angle is not None:
        return case.si(pulley.groove_angle)
    return groove_angle(pulley.groove, pitch_diameter(case, pulley, belt))


class Press(NamedTuple):
    """A press test: which span, how hard, how far.

    span        place of the pulley that the span leaves
    length      of the span [m]
    deflection  of its middle [m]
    force       that moves it so far, on one belt [N]
    """

    span: int
    length: Array
    deflection: Array
    force: Array


def press_test(case: Case, belt: Belt) -> Press:
    """The press test on the longest span, engine stopped and clutch up."""
    spans = belt_layout(case, belt).path.spans
    longest = int(np.argmax([nominal(span.length) for span in spans]))
    length = np.atleast_1d(spans[longest].length)
    deflection = length * PRESS_SHARE
    force = press_force(static_pull(case, belt) / belt.count, deflection, length)
    return Press(longest, length, deflection, force)


def shaft_loads(case: Case, belt: Belt) -> dict[str, Load]:
    """Pull on each shaft that the belt turns, engine at its best torque, as vectors [N]."""
    return case.once(("belt_shaft_loads", belt.name), lambda: _shaft_loads(case, belt))


def _shaft_loads(case: Case, belt: Belt) -> dict[str, Load]:
    spans = belt_layout(case, belt).path.spans
    found = pulls(case, belt)
    peak = found.at_peak()
    loads = {}
    for place, name in enumerate(belt.run):
        wheel = wheel_named(case, name)
        if isinstance(wheel, Pulley):
            before, after = spans[place - 1], spans[place]
            loads[wheel.shaft] = shaft_load(
                peak[place - 1],
                (before.heading_x, before.heading_y),
                peak[place],
                (after.heading_x, after.heading_y),
                found.spans.centrifugal,
            )
    return loads

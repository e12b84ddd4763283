"""The pulleys and idlers of a belt's run as the geometry sees them."""

from typing import Literal, NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Idler, Pulley, Shaft
from beltwright.physics.arrays import Array
from beltwright.physics.belt.pitch_line import back_side_radius, flat_inside_radius, grooved_radius
from beltwright.physics.belt.run import Run
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.pulleys import pitch_diameter
from beltwright.review.driveline.stages import belt_pulleys
from beltwright.tables.belts import Section, section


class BeltWheel(NamedTuple):
    """A pulley or idler in a belt's run.

    of            the pulley or idler of the build
    side          +1 inside the loop, -1 on the belt's back
    rim           outside radius [m]
    pitch_radius  radius of the belt's pitch line on it [m]
    x, y          centre in the belt's plane [m]; an idler on an arm stands at the arm's pivot
    height        of its middle above ground, or to the left of the machine's middle where the
                  shafts lie across [m]; None where it is not written
    """

    of: Pulley | Idler
    side: int
    rim: Array
    pitch_radius: Array
    x: Array
    y: Array
    height: Array | None

    @property
    def name(self) -> str:
        """Its name in the build."""
        return self.of.name


def belt_wheels(case: Case, belt: Belt) -> tuple[BeltWheel, ...]:
    """The pulleys and idlers of a belt, in the order of its run.

    Raises NotKnownError where one is not described.
    """
    return tuple(_wheel(case, belt, name) for name in belt.run)


def belt_plane(case: Case, belt: Belt) -> Literal["upright", "cross"]:
    """How the shafts of a belt lie."""
    return next((shaft_of(case, pulley).axis for pulley in belt_pulleys(case, belt)), "upright")


def run_round(wheels: tuple[BeltWheel, ...]) -> Run:
    """The run of a belt round its wheels, in belt order."""
    return Run(
        [wheel.x for wheel in wheels],
        [wheel.y for wheel in wheels],
        [wheel.pitch_radius for wheel in wheels],
        [wheel.side for wheel in wheels],
    )


def shaft_of(case: Case, pulley: Pulley) -> Shaft:
    """The shaft that a pulley sits on.

    Raises NotKnownError where its place is not written.
    """
    found = next((shaft for shaft in case.build.shaft if shaft.name == pulley.shaft), None)
    if found is None:
        raise NotKnownError(
            f"shaft.{pulley.shaft}.at",
            f"Measure where the shaft “{pulley.shaft}” stands, forward of the rear axle and to the "
            'left of the middle, and write it, for example at = ["180 mm", "30 mm"].',
        )
    return found


def place_missing(
    wheel: BeltWheel, plane: Literal["upright", "cross"], why: str = ""
) -> NotKnownError:
    """How to measure where a wheel sits along its shaft, and why that is asked for."""
    key = f"{'pulley' if isinstance(wheel.of, Pulley) else 'idler'}.{wheel.name}"
    edge = "Lay a straight-edge across the pulleys and measure"
    if plane == "cross":
        return NotKnownError(
            f"{key}.across",
            f"{edge} how far to the left of the machine's middle that of each groove runs (to the "
            'right with a minus); write it, for example across = "-140 ± 2 mm".',
            why,
        )
    return NotKnownError(
        f"{key}.height",
        f"{edge} how high the middle of each stands above the ground; write it, for example "
        'height = "341 ± 2 mm".',
        why,
    )


def _wheel(case: Case, belt: Belt, name: str) -> BeltWheel:
    pulley = next((one for one in case.build.pulley if one.name == name), None)
    if pulley is not None:
        return _pulley(case, belt, pulley)
    idler = next((one for one in case.build.idler if one.name == name), None)
    if idler is not None:
        return _idler(case, belt, idler)
    raise NotKnownError(
        f"belt.{belt.name}.run",
        "Describe it as one or the other.",
        f"The run names “{name}”, which is neither a pulley nor an idler.",
    )


def _pulley(case: Case, belt: Belt, pulley: Pulley) -> BeltWheel:
    radius = 0.5 * pitch_diameter(case, pulley, belt)
    at = shaft_of(case, pulley).at
    back = pulley.runs_on == "back"
    own = section(belt.section)
    if pulley.outside is not None:
        rim = 0.5 * case.si(pulley.outside)
    else:
        rim = radius - own.belt_above_pitch if back else radius + own.rim_above_pitch
    return BeltWheel(
        of=pulley,
        side=-1 if back else 1,
        rim=rim,
        pitch_radius=radius,
        x=case.si(at[0]),
        y=case.si(at[1]),
        height=_along(case, belt, pulley),
    )


def _idler(case: Case, belt: Belt, idler: Idler) -> BeltWheel:
    outside = case.si(idler.outside)
    at = idler.at if idler.arm is None else idler.arm.pivot
    assert at is not None
    return BeltWheel(
        of=idler,
        side=-1 if idler.runs_on == "back" else 1,
        rim=0.5 * outside,
        pitch_radius=np.asarray(_idler_radius(idler, outside, section(belt.section))),
        x=case.si(at[0]),
        y=case.si(at[1]),
        height=_along(case, belt, idler),
    )


def _idler_radius(idler: Idler, outside: Array, own: Section) -> Array:
    if idler.runs_on == "back":
        return np.asarray(back_side_radius(outside, own.belt_above_pitch))
    if idler.face == "grooved":
        return np.asarray(grooved_radius(outside, own.rim_above_pitch))
    return np.asarray(flat_inside_radius(outside, own.belt_below_pitch))


def _along(case: Case, belt: Belt, wheel: Pulley | Idler) -> Array | None:
    """Where a wheel sits along its shaft."""
    written = wheel.height if belt_plane(case, belt) == "upright" else wheel.across
    return None if written is None else case.si(written)

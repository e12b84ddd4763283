"""Pulleys and tyres as the physics sees them: pitch diameters and rolling circumferences."""

import numpy as np

from beltwright.build.driveline import Belt, Pulley
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.tables.belts import outside_to_pitch, section


def pitch_diameter(case: Case, pulley: Pulley, belt: Belt) -> Array:
    """Pitch diameter [m] of a belt on a pulley, shape (...)."""
    if pulley.pitch is not None:
        return case.si(pulley.pitch)
    assert pulley.outside is not None
    if pulley.runs_on == "back":
        return case.si(pulley.outside) + 2.0 * section(belt.section).belt_above_pitch
    return np.asarray(outside_to_pitch(belt.section, case.si(pulley.outside)))


def roll_out(case: Case) -> Array:
    """Distance [m] that the driven wheels roll in one turn, shape (...).

    Measured where the builder did so; else from the size on the sidewall, whose loaded rolling
    radius is 0.95 to 0.98 of the free one on bias tyres (common practice, no source).
    """
    wheels = case.build.wheels
    if wheels.roll_out is not None:
        return case.si(wheels.roll_out)
    tyre = wheels.front if wheels.driven == "front" else wheels.rear
    outside = case.need(
        None if tyre is None else tyre.outside,
        "wheels.roll_out",
        "Chalk the tyre and the floor, roll one full turn with the driver seated, and write the "
        'distance, for example roll_out = "1480 ± 5 mm".',
    )
    return np.pi * outside * rolling_share(case)


def rolling_share(case: Case) -> Array:
    """Loaded rolling radius of a tyre over its free radius [1]."""
    return case.suppose(
        None,
        "wheels.rolling_share",
        "0.965 ± 0.015",
        Kind.RATIO,
        "a loaded bias tyre rolls on 0.95 to 0.98 of its free radius (common practice, no source)",
    )

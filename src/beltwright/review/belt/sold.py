"""How long a belt is: as printed, give or take what its maker may be off."""

from functools import partial

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.tables.belt_tolerances import length_tolerance
from beltwright.tables.belts import pitch_length

_INCHES = ("in", "ft", "thou")


def belt_length(case: Case, belt: Belt) -> Array:
    """Pitch length of a belt [m], shape (...).

    A length without ± is the one printed on the belt, which may be as far off as its standard
    allows; one with ± was measured.
    """
    pitch = partial(pitch_length, belt.section, length_is=belt.length_is)
    given = np.asarray(pitch(case.si(belt.length)))
    if belt.length.minus or belt.length.plus:
        return given
    return given + _off(case, belt, float(pitch(belt.length.value)))


def _off(case: Case, belt: Belt, length: float) -> Array:
    allowed = length_tolerance(belt.section, length, belt.length.unit in _INCHES)
    return case.suppose(
        None,
        f"belt.{belt.name}.length_tolerance",
        allowed.text,
        Kind.LENGTH,
        f"a sold belt may be that much off the length printed on it ({allowed.source}); a belt "
        "that was measured has its own ±",
    )

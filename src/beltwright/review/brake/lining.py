"""How hard the brake's lining is pressed, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.vehicle import Brake
from beltwright.physics.arrays import Array
from beltwright.physics.brake.torque import pad_pressure
from beltwright.quantity import Quantity
from beltwright.review.brake.braking import (
    bands,
    brake_path,
    brake_torque,
    described,
    grip_force,
    pad_force,
    shoes,
)
from beltwright.review.case import Case
from beltwright.review.driveline.pulleys import roll_out
from beltwright.review.motion.ground import HARD, ground
from beltwright.review.nominal import nominal
from beltwright.review.stability.centre_of_gravity import laden
from beltwright.tables.brake_linings import LiningPressure, brake_lining_pressures

PADS = "resin pad"
"""What pads of an unnamed kind on a disc are taken for; a lining of shoe or band, for the kind that
stands least."""


class Pressed(NamedTuple):
    """How hard the lining is pressed.

    pressure     the highest on it [Pa], shape (...)
    locks_first  whether the wheels of the build as written lock before the pedal is down
    """

    pressure: Array
    locks_first: bool


def lining_size(brake: Brake) -> Quantity | None:
    """What tells how large the lining is, besides its radii: the pad's length, or the width."""
    return brake.pad if brake.kind == "disc" else brake.width


def allowed(case: Case) -> LiningPressure:
    """What the lining may be pressed with; one of an unnamed kind, what the usual one may."""
    brake, rows = described(case), brake_lining_pressures()
    named = next((row for row in rows if row.name == brake.material), None)
    if named is not None:
        return named
    return rows.named(PADS) if brake.kind == "disc" else min(rows, key=lambda row: row.pressure)


def lining_pressure(case: Case) -> Pressed:
    """How hard a lining whose size is known is pressed where it is pressed most.

    Driving forwards, the pedal pressed as in an emergency, or only as far as the wheels still turn
    on dry, hard ground: a locked brake rubs no more.
    """
    ways = _pressed(case, described(case))
    locks = grip_force(case, laden(case), ground(case, HARD)) * roll_out(case) / (2.0 * np.pi)
    locks = locks / brake_path(case).reduction
    each = np.broadcast_arrays(*(p * _rubbing(locks, torque) for torque, p in ways))
    most = np.atleast_1d(np.max(each, axis=0))
    return Pressed(most, nominal(most) < max(nominal(p) for _, p in ways))


def _rubbing(locks: Array, torque: Array) -> Array:
    """Share of the brake's torque up to which the wheels turn [1]; all of it where it grabs."""
    known = np.isfinite(torque) & (torque > 0.0)
    return np.where(known, np.minimum(locks / np.where(known, torque, 1.0), 1.0), 1.0)


def _pressed(case: Case, brake: Brake) -> list[tuple[Array, Array]]:
    """Torque on its shaft [N m] and pressure [Pa] at the full force, driving forwards; of a band of
    which nobody knows which end is pinned, both ways round."""
    size = lining_size(brake)
    assert size is not None
    if brake.kind == "disc":
        assert brake.inner is not None
        assert brake.outer is not None
        sizes = (case.si(size), case.si(brake.inner), case.si(brake.outer))
        return [(brake_torque(case).forwards, np.atleast_1d(pad_pressure(pad_force(case), *sizes)))]
    if brake.kind == "drum":
        leading, _ = shoes(case, brake, case.si(size))
        return [(brake_torque(case).forwards, np.atleast_1d(leading.peak_pressure))]
    helped, against = bands(case, brake, case.si(size))
    ways = {True: (helped,), False: (against,), None: (helped, against)}[brake.helped]
    return [(way.torque, np.atleast_1d(way.peak_pressure)) for way in ways]

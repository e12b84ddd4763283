"""What a gearbox turns into heat: tooth rubbing, churned oil, bearings.

Lip seals stand in ``shaft_seal``. The constants of gearbox losses scatter by a factor of two from
case to case, so a prediction is a range until a measured warm-up corrects it.
"""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gravity import STANDARD_GRAVITY

LAMINAR_CHURNING = 6000.0
TURBULENT_CHURNING = 9000.0
"""Reynolds numbers between which one churning regime gives way to the other [1]."""


class DippingGear(NamedTuple):
    """The largest gear that runs in the oil.

    Attributes
    ----------
    pitch_radius : array, shape (...) [m]
    face_width : array, shape (...) [m]
    dip : array, shape (...) [m]
        How deep the gear hangs in the oil at rest.
    oil_volume : array, shape (...) [m³]
    """

    pitch_radius: ArrayLike
    face_width: ArrayLike
    dip: ArrayLike
    oil_volume: ArrayLike


def mesh_loss(power: ArrayLike, loss_share: ArrayLike, meshes: ArrayLike = 1.0) -> Array:
    """Answer how much power the meshes in line turn into heat.

    P_loss = P (1 − (1 − s)^m), with s = μ Hv for one mesh, or a usual share.

    Parameters
    ----------
    power : array, shape (...) [W]
        Power that enters the gearbox.
    loss_share : array, shape (...) [1]
        Share that one mesh loses: 0.005 to 0.02 for spur and bevel gears, common practice.
    meshes : array, shape (...) [1]
        Meshes in line from input to axle in the gear that is used.

    Returns
    -------
    loss : array, shape (...) [W]

    Range of validity: meshes with about equal shares; not for worm gears.
    Source: energy balance.

    Examples
    --------
    >>> round(float(mesh_loss(5000.0, 0.01, 3)), 1)
    148.5
    """
    kept = (1.0 - np.asarray(loss_share, dtype=np.float64)) ** np.asarray(meshes)
    return np.asarray(np.asarray(power) * (1.0 - kept))


def churning_loss(
    gear: DippingGear, speed: ArrayLike, density: ArrayLike, viscosity: ArrayLike
) -> Array:
    """Answer how much power a gear loses by stirring the oil that it dips into.

    P = ½ ρ ω³ Sm R³ Cm, with Cm = 1.366 (h/D)^0.45 (V/D³)^0.1 Fr^−0.6 Re^−0.21 for Re < 6000,
    Cm = 3.644 (h/D)^0.1 (V/D³)^−0.35 Fr^−0.88 (b/D)^0.85 for Re > 9000, between them in proportion;
    Re = ω R b / ν, Fr = ω² R / g, Sm the wetted flanks and rim.

    Parameters
    ----------
    gear : DippingGear, shape (...) [m]
    speed : array, shape (...) [rad/s]
        Speed of this gear, not of the input shaft.
    density : array, shape (...) [kg/m³]
    viscosity : array, shape (...) [m²/s]
        Kinematic viscosity at the oil's temperature.

    Returns
    -------
    loss : array, shape (...) [W]

    Range of validity: one gear in a roomy case, dip up to the shaft, pitch-line speed 2 to 25 m/s;
    tight walls and a second dipping gear change it by up to a factor of two.
    Source: Changenet and Velex, Journal of Mechanical Design 129 (2007), 128–133 (from memory,
    medium-high confidence).

    Examples
    --------
    >>> gear = DippingGear(pitch_radius=0.06, face_width=0.015, dip=0.03, oil_volume=0.0006)
    >>> round(float(churning_loss(gear, 60.0, 860.0, 40e-6)), 2)
    2.87
    """
    radius = np.asarray(gear.pitch_radius, dtype=np.float64)
    turning = np.abs(np.asarray(speed, dtype=np.float64))
    reynolds = turning * radius * np.asarray(gear.face_width) / np.asarray(viscosity)
    # a standing gear churns nothing; the smallest Froude number only keeps 0 ** −0.88 away
    froude = np.maximum(turning**2 * radius / STANDARD_GRAVITY, 1e-12)
    drag = _churning_coefficient(gear, reynolds, froude)
    wetted = wetted_area(gear)
    return np.asarray(0.5 * np.asarray(density) * turning**3 * wetted * radius**3 * drag)


def wetted_area(gear: DippingGear) -> Array:
    """Answer how much of a gear's flanks and rim stands in the oil.

    S = R² (2 θ − sin 2θ) + 2 R b θ, with cos θ = 1 − h / R.

    Parameters
    ----------
    gear : DippingGear, shape (...) [m]

    Returns
    -------
    area : array, shape (...) [m²]

    Range of validity: smooth disc of the pitch radius; teeth are left out.
    Source: geometry of the circular segment.

    Examples
    --------
    >>> round(float(wetted_area(DippingGear(0.06, 0.015, 0.06, 0.0006))), 6)
    0.014137
    """
    radius = np.asarray(gear.pitch_radius, dtype=np.float64)
    half_angle = np.arccos(np.clip(1.0 - np.asarray(gear.dip) / radius, -1.0, 1.0))
    flanks = radius**2 * (2.0 * half_angle - np.sin(2.0 * half_angle))
    return np.asarray(flanks + 2.0 * radius * np.asarray(gear.face_width) * half_angle)


def bearing_loss(
    mean_diameter: ArrayLike,
    speed: ArrayLike,
    load: ArrayLike,
    viscosity: ArrayLike,
    oil_factor: ArrayLike = 2.0,
    load_factor: ArrayLike = 0.0006,
) -> Array:
    """Answer how much power one rolling bearing turns into heat.

    P = ω (M0 + M1); M0 = f0 1e-7 (ν n)^⅔ dm³ for ν n ≥ 2000, else f0 160e-7 dm³; M1 = f1 F dm,
    with M in N·mm, ν in cSt, n in rev/min, dm in mm, F in N.

    Parameters
    ----------
    mean_diameter : array, shape (...) [m]
        Half the sum of bore and outside diameter.
    speed : array, shape (...) [rad/s]
    load : array, shape (...) [N]
    viscosity : array, shape (...) [m²/s]
        Kinematic viscosity at the bearing's temperature.
    oil_factor : array, shape (...) [1]
        f0: about 1.5 to 2 for ball bearings that dip a little, 3 to 4 when drowned.
    load_factor : array, shape (...) [1]
        f1: 0.0002 to 0.0009 for ball bearings, by load.

    Returns
    -------
    loss : array, shape (...) [W]

    Range of validity: ball and roller bearings under half their static load rating.
    Source: Palmgren, Ball and Roller Bearing Engineering, 3rd edition, 1959; Harris, Rolling
    Bearing Analysis, friction chapter (from memory, high confidence).

    Examples
    --------
    >>> round(float(bearing_loss(0.04, 200.0, 1000.0, 40e-6)), 2)
    9.41
    """
    diameter = np.asarray(mean_diameter, dtype=np.float64) * 1e3
    turning = np.abs(np.asarray(speed, dtype=np.float64))
    product = np.asarray(viscosity) * 1e6 * turning * 30.0 / np.pi
    stirring = np.where(product >= 2000.0, product ** (2.0 / 3.0), 160.0)
    viscous = np.asarray(oil_factor) * 1e-7 * stirring * diameter**3
    rubbing = np.asarray(load_factor) * np.asarray(load) * diameter
    return np.asarray(turning * (viscous + rubbing) * 1e-3)


def _churning_coefficient(gear: DippingGear, reynolds: Array, froude: Array) -> Array:
    diameter = 2.0 * np.asarray(gear.pitch_radius, dtype=np.float64)
    dip = np.asarray(gear.dip, dtype=np.float64) / diameter
    volume = np.asarray(gear.oil_volume, dtype=np.float64) / diameter**3
    width = np.asarray(gear.face_width, dtype=np.float64) / diameter
    viscous = 1.366 * dip**0.45 * volume**0.1 * froude**-0.6 * np.maximum(reynolds, 1e-12) ** -0.21
    inertial = 3.644 * dip**0.1 * volume**-0.35 * froude**-0.88 * width**0.85
    share = np.clip((reynolds - LAMINAR_CHURNING) / (TURBULENT_CHURNING - LAMINAR_CHURNING), 0, 1)
    return np.asarray(viscous + share * (inertial - viscous))

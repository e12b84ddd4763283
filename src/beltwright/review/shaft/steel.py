"""What the shafts of a build are made of, and the jerk that they must stand, as numbers."""

from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.review.case import Case

JERK = 2.0
"""Strain by a load that comes on at once over that of the same load at rest [1]: Shigley,
Mechanical Engineering Design, 8th edition, section 4-17 (from memory). A clutch let up at once and
a wheel that strikes a kerb are counted so."""

RESERVE = 1.5
"""What a shaft stands over what it bears (common practice, no source) [1]."""

MADE_STEEL = "700 ± 150 MPa"
MADE_WHY = "crankshafts and gearbox shafts are taken as tempered steel (assumed)"
PLAIN_STEEL = "440 ± 60 MPa"
PLAIN_WHY = "other shafts are taken as plain carbon steel from the bar (assumed)"
YIELD_SHARE = "70 % ± 15 %"
YIELD_WHY = (
    "hot-rolled steel yields at about 55 % of its tensile strength, cold-drawn and tempered steel "
    "at 75 to 90 %: Shigley, tables A-20 and A-21 (from memory)"
)


def tensile_strength(case: Case, shaft: str) -> Array:
    """Stress at which a shaft breaks [Pa]."""
    box = case.build.gearbox
    made = (case.build.engine.shaft, *((box.input, box.output) if box else ()))
    text, why = (MADE_STEEL, MADE_WHY) if shaft in made else (PLAIN_STEEL, PLAIN_WHY)
    return case.suppose(None, f"shaft.{shaft}.tensile_strength", text, Kind.PRESSURE, why)


def yield_strength(case: Case, shaft: str) -> Array:
    """Stress at which a shaft stays bent or twisted [Pa]."""
    share = case.suppose(None, "shaft.yield_share", YIELD_SHARE, Kind.RATIO, YIELD_WHY)
    return share * tensile_strength(case, shaft)

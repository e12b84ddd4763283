"""Where belts and chains must be guarded, against the rules that say so.

Sources:
- ISO 13857:2019, Safety of machinery, safety distances to prevent hazard zones being reached by
  upper and lower limbs: table 4, reach with the arm limited at the shoulder alone, 850 mm; table 4
  of regular openings, slots (from memory, high; read again in print before relying on it).
- 29 CFR 1910.219, Mechanical power-transmission apparatus: (d) pulleys, (e) belts and (f) chains
  within 7 ft of the floor are to be guarded (from memory, high).
"""

from pathlib import Path

import pytest

from beltwright.build.reading import read_text
from beltwright.physics.customary import INCH
from beltwright.review.case import Case
from beltwright.review.finding import Verdict
from beltwright.review.guard.bare import ARM_REACH, GUARDED_BELOW, bare_nips, questions
from beltwright.review.judging import judge

HAULER = (Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml").read_text(
    encoding="utf-8"
)
HIP = 'hip = ["330 mm", "0 mm", "610 mm"]'


def test_reach_and_height_of_the_rules() -> None:
    """850 mm (ISO 13857:2019, table 4) and 7 ft of 12 in (29 CFR 1910.219), from memory."""
    assert ARM_REACH == 0.85
    assert pytest.approx(84 * INCH, abs=1e-12) == GUARDED_BELOW


# 29 CFR 1910.219(d) and (e) ask for a guard wherever the belt runs within 7 ft of the floor; how
# near somebody sits only tells how bad it is (ISO 13857:2019, table 4: 850 mm)
@pytest.mark.parametrize(("behind", "verdict"), [(0.849, Verdict.STOP), (0.851, Verdict.MARGINAL)])
def test_a_bare_belt_is_worst_within_an_arms_reach(behind: float, verdict: Verdict) -> None:
    at = bare_nips(case := Case(read_text(HAULER)), case.build.belt[0])
    x, y, z = next(nip.at for nip in at if nip.wheel == "input pulley")
    assert x is not None
    assert y is not None
    assert z is not None
    hip = f'hip = ["{1e3 * (x - behind):.6f} mm", "{1e3 * y:.6f} mm", "{1e3 * z:.6f} mm"]'
    assert HAULER.count(HIP) == 1
    seated = Case(read_text(HAULER.replace(HIP, hip)))
    (ask,) = questions(seated)
    assert judge(seated, "Guards", ask)[0].verdict is verdict
    assert z < GUARDED_BELOW

"""What the review says about the pressure on the brake's lining."""

from collections.abc import Callable

import numpy as np
import pytest

from beltwright.review.brake.braking import (
    axle_torque,
    brake_torque,
    grip_force,
    pad_force,
    pin_pull,
)
from beltwright.review.brake.findings import questions
from beltwright.review.brake.lining import lining_pressure
from beltwright.review.case import Case
from beltwright.review.driveline.pulleys import roll_out
from beltwright.review.finding import Finding, Verdict
from beltwright.review.motion.ground import HARD, ground
from beltwright.review.stability.centre_of_gravity import laden
from beltwright.tables.brake_linings import brake_lining_pressures

Cart = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]

ID = "brake.lining_pressure"
DISC = 'kind = "disc"'
PADDED = (DISC, f'{DISC}\npad = "40 mm"')
WEAK = ('pedal_force = "350 ± 30 N"', 'pedal_force = "50 N"')
LIGHT = ('pedal_force = "350 ± 30 N"', 'pedal_force = "100 N"')
NAMELESS = ('material = "moulded"\n', "")
RESIN = ('material = "moulded"', 'material = "resin pad"')


def drum(width: str) -> tuple[str, str]:
    return DISC, f'kind = "drum"\nradius = "60 mm"\nwidth = "{width}"\nshoe_pivot = "48 mm"'


def band(helped: str = "") -> tuple[str, str]:
    return DISC, f'kind = "band"\nradius = "60 mm"\nwrap = "270 deg"\nwidth = "40 mm"\n{helped}'


def locking(case: Case) -> float:
    """Torque that locks the wheels on dry asphalt, on the axle [N m]."""
    force = grip_force(case, laden(case), ground(case, HARD))
    return float(np.ravel(force * roll_out(case) / (2.0 * np.pi))[0])


@pytest.mark.parametrize("kind", ["disc", "drum", "band"])
def test_a_lining_of_unknown_size_is_not_asked(answers: Answers, kind: str) -> None:
    bare = {
        "disc": DISC,
        "drum": 'kind = "drum"\nradius = "60 mm"',
        "band": 'kind = "band"\nradius = "60 mm"\nwrap = "270 deg"',
    }[kind]
    assert ID not in answers(questions, (DISC, bare))


def test_a_pad_by_hand(cart: Cart) -> None:
    """50 N × 6 × the arm's lever, all of it: the wheels do not lock. Mean pressure times the middle
    radius over the inner one."""
    case = cart(PADDED, WEAK)
    mean = float(pad_force(case)[0]) / (0.040 * 0.020)
    assert not lining_pressure(case).locks_first
    assert lining_pressure(case).pressure == pytest.approx(mean * 0.060 / 0.050)


def test_a_locked_brake_rubs_no_more(cart: Cart) -> None:
    """However hard the pedal is pressed past the locking of the wheels."""
    hard, harder = (
        cart(PADDED, ('pedal_force = "350 ± 30 N"', f'pedal_force = "{force} N"'))
        for force in (1500, 3000)
    )
    assert lining_pressure(hard).locks_first
    assert lining_pressure(hard).pressure == pytest.approx(lining_pressure(harder).pressure)
    # the pressure at full force, times the share of it that locks
    whole = float(pad_force(hard)[0]) / (0.040 * 0.020) * 0.060 / 0.050
    share = locking(hard) / float(axle_torque(hard).forwards[0])
    assert lining_pressure(hard).pressure == pytest.approx(whole * share)


def test_a_band_of_which_nobody_knows_the_pin_is_pressed_as_the_worse_way(cart: Cart) -> None:
    unknown, helped, against = (
        lining_pressure(cart(band(way))).pressure[0]
        for way in ("", "helped = true", "helped = false")
    )
    assert unknown == max(helped, against)
    # against the pedal the tight end is the pedal's: its pull over width and radius
    case = cart(band("helped = false"), WEAK)
    assert lining_pressure(case).pressure == pytest.approx(pad_force(case) / (0.040 * 0.060))


def test_the_leading_shoe_is_pressed_most(cart: Cart) -> None:
    """Twice the width, half the pressure, and the same torque."""
    narrow, wide = cart(drum("25 mm"), WEAK), cart(drum("50 mm"), WEAK)
    assert lining_pressure(narrow).pressure == pytest.approx(2.0 * lining_pressure(wide).pressure)
    assert brake_torque(narrow).forwards == pytest.approx(brake_torque(wide).forwards)


def test_a_shoe_that_grabs_is_pressed_without_limit(answers: Answers) -> None:
    grabs = (
        DISC,
        'kind = "drum"\nradius = "60 mm"\nwidth = "30 mm"\nfriction = "0.9"\n'
        'shoe = ["10 deg", "170 deg"]',
    )
    found = answers(questions, grabs)[ID]
    assert found.shown == "unlimited"
    assert found.verdict is Verdict.MARGINAL


@pytest.mark.parametrize(
    ("changes", "verdict", "kind"),
    [
        ((PADDED,), Verdict.MARGINAL, "of the kind “moulded”"),
        ((PADDED, LIGHT, RESIN), Verdict.SOUND, "of the kind “resin pad”"),
        ((PADDED, LIGHT, NAMELESS), Verdict.SOUND, "of unknown kind, taken as “resin pad”"),
        ((drum("20 mm"), NAMELESS), Verdict.MARGINAL, "of unknown kind, taken as “woven cotton”"),
    ],
)
def test_the_kind_of_lining_turns_the_verdict(
    answers: Answers, changes: tuple[tuple[str, str], ...], verdict: Verdict, kind: str
) -> None:
    found = answers(questions, *changes)[ID]
    assert found.verdict is verdict
    assert kind in found.meaning
    assert bool(found.remedy) is (verdict is not Verdict.SOUND)
    assert ("Name the kind" in found.remedy) is (
        verdict is Verdict.MARGINAL and "unknown" in found.meaning
    )


def test_either_way_out_holds(answers: Answers) -> None:
    """Do what the remedy says, and ask again."""
    little = ('pedal_force = "350 ± 30 N"', 'pedal_force = "30 N"')
    told = answers(questions, PADDED, little)[ID].remedy
    assert "take a lining that stands it (" in told
    assert "resin pad" in told
    assert answers(questions, PADDED, little, RESIN)[ID].verdict is Verdict.SOUND
    longer = told.split("at least ")[1].split(" long")[0]
    mended = answers(questions, (DISC, f'{DISC}\npad = "{longer}"'), little)[ID]
    assert mended.value is not None
    moulded = brake_lining_pressures().named("moulded").pressure
    assert mended.value == pytest.approx(moulded, rel=0.02)  # told to the whole millimetre


def test_a_remedy_tells_no_pad_longer_than_the_disc_takes(answers: Answers) -> None:
    found = answers(questions, PADDED)[ID]
    assert "Fit a larger disc" in found.remedy
    assert "long" not in found.remedy


def test_pads_are_no_remedy_for_a_shoe(answers: Answers) -> None:
    found = answers(questions, drum("20 mm"))[ID]
    assert found.verdict is Verdict.MARGINAL
    assert "resin pad" not in found.remedy


def test_the_pin_of_a_band_is_told_its_pull(answers: Answers, cart: Cart) -> None:
    """P e^(μφ), whichever way the machine rolls."""
    case = cart(band())
    assert pin_pull(case) == pytest.approx(pad_force(case) * np.exp(0.35 * np.radians(270.0)))
    assert "pin of the band must hold" in answers(questions, band())["brake.torque"].meaning
    assert "pin" not in answers(questions)["brake.torque"].meaning


def test_candidates_give_what_each_gives_alone(cart: Cart) -> None:
    build, sizes = cart(PADDED).build, np.array([0.02, 0.04, 0.08])
    together = lining_pressure(Case(build, replaced={"brake.pad": sizes})).pressure
    alone = [
        lining_pressure(Case(build, replaced={"brake.pad": size[np.newaxis]})).pressure
        for size in sizes
    ]
    assert together == pytest.approx([float(each[0]) for each in alone])

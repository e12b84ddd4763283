"""What the review says about pulleys on their shafts, the axle and the chain."""

import re
from collections.abc import Callable

import numpy as np
import pytest

from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.shaft import axle_findings
from beltwright.review.shaft.axle import (
    donor_torque,
    engine_puts,
    jerk_at,
    torque_at,
    twist,
    wheel_grip,
)
from beltwright.review.shaft.findings import questions
from beltwright.review.shaft.hub import KEYWAY, SHOULDER, bending, overhung, torque_on

Cart = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]

KEY = 'key = { width = "5 mm", height = "5 mm", length = "20 mm" }'
SCREW = 'set_screw = "M8"'
HUB = f"""hub = {{ bore = "17.02 mm", length = "25 mm", outside = "34 mm", overhang = "30 mm", \
donor_overhang = "30 mm", donor_outside = "206 mm", {KEY} }}"""
ON_INPUT = ('pitch = "200 mm"\ngroove = "A"', f'pitch = "200 mm"\ngroove = "A"\n{HUB}')
THICK = ('at = ["150 mm", "0 mm"]', 'at = ["150 mm", "0 mm"]\ndiameter = "17 mm"')
DONOR = (
    "forward = [60.0, 30.0, 16.0]",
    'forward = [60.0, 30.0, 16.0]\nstock_input = "1600 rpm"\ndonor = { mass = "280 kg", power = '
    '"7 kW", tyre_outside = "500 mm" }',
)
TENSIONED = ('run = ["small", "large"]', 'run = ["small", "large"]\ntension = "350 N"')
LIGHTLY_TENSIONED = (TENSIONED[0], TENSIONED[1].replace("350", "220"))
ALL = (ON_INPUT, THICK, DONOR)
ON_WHEELS = 'shaft = "axle"\nfront_pivot_height = "250 mm"'
CHAINED = (
    'shaft = "axle"\nfront_pivot_height',
    'shaft = "rear axle"\nfront_pivot_height',
)
CHAIN = (
    "[brake]",
    '[[chain]]\nname = "last"\nsize = "08B"\ndriver = { shaft = "axle", teeth = 12 }\n'
    'driven = { shaft = "rear axle", teeth = 24 }\n[brake]',
)
REAR_AXLE = (
    '[[pulley]]\nname = "small"',
    '[[shaft]]\nname = "rear axle"\nat = ["0 mm", "0 mm"]\naxis = "cross"\n'
    '[[pulley]]\nname = "small"',
)


def axle(thick: str | None) -> tuple[str, str]:
    """The cart's axle described, with its diameter or without."""
    wide = "" if thick is None else f'diameter = "{thick}"\n'
    shaft = f'[[shaft]]\nname = "axle"\nat = ["0 mm", "250 mm"]\naxis = "cross"\n{wide}'
    return "[gearbox]", f"{shaft}[gearbox]"


def test_a_cart_whose_hubs_are_not_described_is_not_asked(answers: Answers) -> None:
    assert answers(questions) == {}


def test_a_well_fitted_pulley_is_sound(answers: Answers) -> None:
    found = answers(questions, *ALL, LIGHTLY_TENSIONED)
    assert set(found) == {
        f"shaft.large.{name}" for name in ("fit", "key", "hub", "wall", "bending", "overhang")
    }
    assert {finding.verdict for finding in found.values()} == {Verdict.SOUND}


@pytest.mark.parametrize(
    ("bore", "verdict", "remedy"),
    [
        ("17.05 mm", Verdict.SOUND, ""),
        ("17.18 mm", Verdict.MARGINAL, "Shim"),
        ("17.4 mm", Verdict.STOP, "Shim"),
        ("20 mm", Verdict.STOP, "bush with a wall of 1.5 mm"),
        ("16.9 mm", Verdict.STOP, "Ream"),
    ],
)
def test_the_gap_turns_the_verdict(
    answers: Answers, bore: str, verdict: Verdict, remedy: str
) -> None:
    found = answers(questions, *ALL, ('bore = "17.02 mm"', f'bore = "{bore}"'))["shaft.large.fit"]
    assert found.verdict is verdict
    assert remedy in found.remedy


def test_a_caliper_is_too_coarse(answers: Answers) -> None:
    change = ('bore = "17.02 mm"', 'bore = "17.05 ± 0.4 mm"')
    found = answers(questions, *ALL, change, samples=200)["shaft.large.fit"]
    assert found.verdict is Verdict.MARGINAL
    assert "micrometer" in found.remedy


def test_a_short_key_stops(answers: Answers) -> None:
    weak = answers(questions, *ALL, ('length = "20 mm"', 'length = "6 mm"'))["shaft.large.key"]
    assert weak.verdict is Verdict.STOP
    assert weak.remedy
    assert weak.caution


def test_an_odd_key_is_named(answers: Answers) -> None:
    odd = ('key = { width = "5 mm"', 'key = { width = "4 mm"')
    assert "standard key" in answers(questions, *ALL, odd)["shaft.large.key"].meaning
    assert "standard key" not in answers(questions, *ALL)["shaft.large.key"].meaning


def test_a_set_screw_alone_does_not_drive(answers: Answers) -> None:
    screwed = (
        'key = { width = "5 mm", height = "5 mm", length = "20 mm" }',
        'set_screw = "M6"',
    )
    found = answers(questions, *ALL, screwed)["shaft.large.set_screw"]
    assert found.verdict is Verdict.STOP
    assert "Fit a key" in found.remedy
    assert "tightened to 4.07 N·m" in found.meaning  # 36 lbf in of a #10, the next smaller
    unknown = ('set_screw = "M6"', 'set_screw = "M7"')
    assert (
        answers(questions, *ALL, screwed, unknown)["shaft.large.set_screw"].verdict
        is Verdict.NOT_KNOWN
    )


def test_short_hubs_and_thin_walls_are_marginal(answers: Answers) -> None:
    short = answers(questions, *ALL, ('length = "25 mm"', 'length = "12 mm"'))["shaft.large.hub"]
    thin = answers(questions, *ALL, ('outside = "34 mm"', 'outside = "28 mm"'))["shaft.large.wall"]
    assert short.verdict is thin.verdict is Verdict.MARGINAL
    assert short.remedy
    assert thin.remedy


@pytest.mark.parametrize(
    ("overhang", "verdict"),
    [("25 mm", Verdict.SOUND), ("45 mm", Verdict.MARGINAL), ("80 mm", Verdict.STOP)],
)
def test_overhang_turns_the_verdict(answers: Answers, overhang: str, verdict: Verdict) -> None:
    change = ('{ bore = "17.02 mm", length = "25 mm", outside = "34 mm", overhang = "30 mm"',) * 2
    changed = (change[0], change[1].replace("30 mm", overhang))
    assert answers(questions, *ALL, changed)["shaft.large.overhang"].verdict is verdict


def test_overhang_against_the_donor_by_hand(cart: Cart) -> None:
    """Equal power: torque as 1/speed, pull as torque/diameter, moment as pull times overhang."""
    case = cart(*ALL)
    found = overhung(case, case.build.pulley[1])
    now = 3500.0 / (2.0 / 0.99)
    assert found.pull == pytest.approx(1600.0 / now * 206.0 / 200.0, rel=1e-6)
    assert found.moment == pytest.approx(found.pull)
    assert found.life == pytest.approx(float(found.moment[0]) ** -3 * 1600.0 / now, rel=1e-6)


def test_bending_by_hand(cart: Cart) -> None:
    """Both strands pull nearly the same way: twice 350 N at rest, less a little for the wedge."""
    case = cart(*ALL, TENSIONED)
    found = bending(case, case.build.pulley[1])
    assert 0.9 * 700.0 < float(found.load[0]) <= 700.0
    assert found.moment == pytest.approx(found.load * 0.03)
    assert found.torque == pytest.approx(torque_on(case, case.build.pulley[1]))


@pytest.mark.parametrize(
    ("thick", "verdict"),
    [("19 mm", Verdict.SOUND), ("17 mm", Verdict.MARGINAL), ("14 mm", Verdict.STOP)],
)
def test_a_thinner_shaft_turns_the_verdict(answers: Answers, thick: str, verdict: Verdict) -> None:
    thinner = ('diameter = "17 mm"', f'diameter = "{thick}"')
    found = answers(questions, *ALL, TENSIONED, thinner)["shaft.large.bending"]
    assert found.verdict is verdict
    assert bool(found.remedy) is (verdict is not Verdict.SOUND)


def test_a_jerk_by_hand(cart: Cart) -> None:
    """Twice pull and torque in Shigley's equation 7-15, on steel of 700 MPa that yields at 70 %."""
    case = cart(*ALL, TENSIONED)
    found = bending(case, case.build.pulley[1])
    stress = 16.0 / (np.pi * 0.017**3) * np.sqrt(4.0 * found.moment**2 + 3.0 * found.torque**2)
    assert found.jerked == pytest.approx(2.0 * stress / (0.7 * 700e6))
    assert found.yields == pytest.approx(490e6)


def test_what_twists_a_plain_shaft_most_is_the_jerk(answers: Answers) -> None:
    """Without a keyway and close to its bearing a shaft is bent little: a jerk strains it more than
    the work of every day, and sets what is told."""
    close = (HUB, HUB.replace('overhang = "30 mm"', 'overhang = "2 mm"', 1).replace(KEY, SCREW))
    found = answers(questions, *ALL, TENSIONED, close)["shaft.large.bending"]
    told = re.search(r"bears (\d+) % .* strains it to (\d+) %", found.meaning)
    assert told is not None
    daily, jerked = (float(figure) for figure in told.groups())
    assert daily < jerked
    assert found.value == pytest.approx(jerked / 100.0, abs=0.01)


@pytest.mark.parametrize(
    ("thick", "verdict"),
    [("25 mm", Verdict.SOUND), ("17 mm", Verdict.MARGINAL), ("13 mm", Verdict.STOP)],
)
def test_a_thinner_axle_turns_the_verdict(answers: Answers, thick: str, verdict: Verdict) -> None:
    found = answers(axle_findings.questions, *ALL, axle(thick))["shaft.axle.twist"]
    assert found.verdict is verdict
    assert bool(found.remedy) is (verdict is not Verdict.SOUND)
    assert "each half" in found.meaning


def test_a_solid_axle_may_be_twisted_by_one_wheel_alone(cart: Cart) -> None:
    halves, solid = (
        twist(case, case.build.shaft[-1])
        for case in (
            cart(*ALL, axle("25 mm")),
            cart(*ALL, axle("25 mm"), (ON_WHEELS, f'{ON_WHEELS}\ndifferential = "locked"')),
        )
    )
    assert solid.used == pytest.approx(2.0 * halves.used)


def test_a_jerk_on_the_axle_by_hand(cart: Cart) -> None:
    """Tyres spin on dry asphalt before twice the engine's torque is reached, and not in a machine
    with little power."""
    case = cart(*ALL, axle("25 mm"))
    strong = float(jerk_at(case, "axle")[0])
    assert wheel_grip(case)[0] < strong < 2.0 * engine_puts(case, "axle")[0]
    weak = cart(*ALL, axle("25 mm"), ('power = "7 kW ± 5 %"', 'power = "0.3 kW"'))
    assert jerk_at(weak, "axle") == pytest.approx(2.0 * engine_puts(weak, "axle"))


def test_what_bounds_a_jerk_is_told(answers: Answers) -> None:
    strong = answers(axle_findings.questions, *ALL, axle("25 mm"))["shaft.axle.twist"]
    assert "tyres spin first" in strong.meaning
    weak = ('power = "7 kW ± 5 %"', 'power = "0.3 kW"')
    found = answers(axle_findings.questions, *ALL, axle("25 mm"), weak)["shaft.axle.twist"]
    assert "engine gives no more" in found.meaning


def test_an_axle_whose_diameter_is_not_known_is_not_asked(answers: Answers) -> None:
    assert "shaft.axle.twist" not in answers(axle_findings.questions, *ALL)
    assert "shaft.axle.twist" not in answers(axle_findings.questions, *ALL, axle(None))


def test_a_keyway_is_a_harsher_notch_than_a_shoulder(answers: Answers, cart: Cart) -> None:
    """A shaft with a key breaks at its keyway, one without at its shoulder."""
    screwed = (KEY, 'set_screw = "M8"')
    plain, keyed = (
        bending(case, case.build.pulley[1])
        for case in (cart(*ALL, TENSIONED, screwed), cart(*ALL, TENSIONED))
    )
    assert (plain.notch, keyed.notch) == (SHOULDER, KEYWAY)
    least, most = KEYWAY.bending / SHOULDER.bending, KEYWAY.twisting / SHOULDER.twisting
    assert least < float(keyed.used[0] / plain.used[0]) < most
    found = answers(questions, *ALL, TENSIONED, screwed)["shaft.large.bending"]
    assert "Kf 1.7, Kfs 1.5 (a rounded shoulder)" in found.working
    assert "write the hub's key" in found.leaves_out


def test_a_belt_that_cannot_run_leaves_the_bending_open(answers: Answers) -> None:
    unknown = answers(questions, *ALL)["shaft.large.bending"]
    assert unknown.verdict is Verdict.NOT_KNOWN
    assert unknown.remedy


def test_no_donor_no_comparison(answers: Answers) -> None:
    found = answers(questions, ON_INPUT, THICK)["shaft.large.overhang"]
    assert found.verdict is Verdict.NOT_KNOWN
    assert "donor" in found.remedy


@pytest.mark.parametrize(("missing", "ids"), [(THICK, ["fit", "key"])])
def test_what_is_missing_is_asked_for(
    answers: Answers, missing: tuple[str, str], ids: list[str]
) -> None:
    found = answers(questions, *(change for change in ALL if change != missing))
    for name in ids:
        assert found[f"shaft.large.{name}"].verdict is Verdict.NOT_KNOWN
        assert "caliper" in found[f"shaft.large.{name}"].remedy


def test_torque_on_the_input_by_hand(cart: Cart) -> None:
    """Peak torque (12 % over rated) times 2.02 at 95 %."""
    case = cart(*ALL)
    rated = 7000.0 / (3300.0 * np.pi / 30.0)
    assert torque_on(case, case.build.pulley[1]) == pytest.approx(
        1.12 * rated * (2.0 / 0.99) * 0.95, rel=1e-6
    )


def test_the_axle_against_its_donor(cart: Cart, answers: Answers) -> None:
    case = cart(*ALL)
    assert torque_at(case, "axle") == pytest.approx(
        np.minimum(engine_puts(case, "axle"), wheel_grip(case))
    )
    light = answers(axle_findings.questions, *ALL, ('mass = "280 kg"', 'mass = "90 kg"'))
    assert light["gearbox.axle_torque"].verdict is Verdict.STOP
    assert light["gearbox.axle_torque"].remedy
    heavy = answers(axle_findings.questions, *ALL, ('mass = "280 kg"', 'mass = "500 kg"'))
    assert heavy["gearbox.axle_torque"].verdict is Verdict.SOUND


def test_a_weak_donor_engine_bounds_its_torque(cart: Cart) -> None:
    strong = donor_torque(cart(*ALL))
    weak = donor_torque(cart(*ALL, ('power = "7 kW", tyre', 'power = "0.2 kW", tyre')))
    assert weak < strong
    assert weak == pytest.approx(200.0 / (1600.0 * np.pi / 30.0) * 60.0 * 0.85, rel=1e-6)


def test_without_a_donor_the_axle_is_not_known(answers: Answers) -> None:
    found = answers(axle_findings.questions)["gearbox.axle_torque"]
    assert found.verdict is Verdict.NOT_KNOWN
    assert "donor" in found.remedy


def test_the_chain_turns_with_its_size(answers: Answers) -> None:
    chained = (*ALL, CHAINED, CHAIN, REAR_AXLE)
    pull = {
        size: answers(axle_findings.questions, *chained, ('size = "08B"', f'size = "{size}"'))[
            "chain.last.pull"
        ]
        for size in ("16B", "08B", "05B", "99Z")
    }
    assert pull["16B"].verdict is Verdict.SOUND
    assert pull["08B"].verdict is Verdict.MARGINAL
    assert pull["05B"].verdict is Verdict.STOP
    assert pull["05B"].remedy
    assert pull["99Z"].verdict is Verdict.NOT_KNOWN


def test_either_way_out_of_a_weak_chain_holds(answers: Answers) -> None:
    """Do what the remedy says, and ask again."""
    chained = (*ALL, CHAINED, CHAIN, REAR_AXLE)
    told = answers(axle_findings.questions, *chained)["chain.last.pull"].remedy
    found = re.search(r"Use a (\w+) chain .* sprockets of (\d+) and (\d+) teeth", told)
    assert found is not None
    size, driver, driven = found.groups()
    stronger = (('size = "08B"', f'size = "{size}"'),)
    larger = (
        ('shaft = "axle", teeth = 12', f'shaft = "axle", teeth = {driver}'),
        ("teeth = 24", f"teeth = {driven}"),
    )
    for way in (stronger, larger):
        mended = answers(axle_findings.questions, *chained, *way)["chain.last.pull"]
        assert mended.verdict is Verdict.SOUND, way


def test_chain_and_gearbox_output_share_the_wheels_torque(cart: Cart) -> None:
    """A 2:1 chain at 96 % leaves half the wheels' grip torque, over 0.96, on the output."""
    case = cart(*ALL, CHAINED, CHAIN, REAR_AXLE)
    assert torque_at(case, "rear axle") == pytest.approx(wheel_grip(case))
    assert torque_at(case, "axle") == pytest.approx(wheel_grip(case) / (2.0 * 0.96))


def test_candidates_equal_single_builds(cart: Cart) -> None:
    build = cart(*ALL).build
    sizes = np.array([0.16, 0.2, 0.24])
    batch = overhung(Case(build, replaced={"pulley.large.pitch": sizes}), build.pulley[1]).moment
    alone = [
        overhung(Case(build, replaced={"pulley.large.pitch": size[np.newaxis]}), build.pulley[1])
        for size in sizes
    ]
    assert batch == pytest.approx([float(each.moment[0]) for each in alone])


def test_the_share_of_a_shaft_comes_out_of_its_own_working(answers: Answers) -> None:
    """Shigley, equation 7-8, from the figures shown."""
    found = answers(questions, *ALL, TENSIONED)["shaft.large.bending"]
    figures = re.match(
        r"pull [\d.]+ N, bending ([\d.]+) N·m, twist ([\d.]+) N·m on ([\d.]+) mm; Kf ([\d.]+), "
        r"Kfs ([\d.]+) \(an end-milled keyway\), Se (\d+) MPa, Sut (\d+) MPa: ",
        found.working,
    )
    assert figures is not None
    moment, twist, thick, bends, twists, stands, steel = (float(f) for f in figures.groups())
    strain = 2.0 * bends * moment / (stands * 1e6) + 3.0**0.5 * twists * twist / (steel * 1e6)
    used = 16.0 / (np.pi * (thick / 1e3) ** 3) * strain
    assert found.value == pytest.approx(used, rel=0.01)  # three digits each


def test_a_fit_is_shown_in_thousandths_to_who_works_in_inches(answers: Answers) -> None:
    """A gap of 0.23 mm is 0.009 in; fractions of a tape say nothing of a fit."""
    inches = ("format = 1", 'format = 1\nshow = { length = "in 1/16" }')
    loose = ('bore = "17.02 mm"', 'bore = "17.23 mm"')
    found = answers(questions, *ALL, inches, loose)["shaft.large.fit"]
    assert found.shown == "0.009 in"
    assert found.shown_limit == "-0.001 to 0.01 in"
    assert "mm" not in found.working + found.remedy.replace("foil", "") + found.meaning
    assert found.working == "0.678 in − 0.669 in = 0.009 in"

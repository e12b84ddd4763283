"""Belt pulls against textbook examples, exact statics and general-purpose solvers.

Sources:
[1] R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering Design, section 17-3: groove
    friction 0.5123, seen in print; Table 17-16 from memory, high.
[2] The same, problem 17-1, solution: seen in print.
[3] The same, Ex. 17-4: from memory, high; its geometry recomputed exactly.
[4] B. J. Hamrock and others, Fundamentals of Machine Elements, problem 19.14, solution: seen in
    print.
[5] Euler's capstan equation and statics, worked as expressions.
[6] The tensioning rules of belt makers' manuals: from memory, medium to high.
[7] SciPy: brentq, solve_ivp, quad and linprog, as independent references.
"""

from math import cos, exp, pi, radians, sin

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq, minimize_scalar

from beltwright.build.reading import read_text
from beltwright.build.starter import starter_text
from beltwright.physics.belt.force import (
    belt_speed,
    capstan_ratio,
    centrifugal_pull,
    groove_friction,
    shaft_load,
)
from beltwright.physics.belt.grip import (
    SpanPulls,
    first_to_slip,
    fixed_centre_pulls,
    pull_needed,
    slip_torques,
    spring_set_pulls,
)
from beltwright.physics.belt.life import passes_to_failure, peak_pull, running_time
from beltwright.physics.belt.spring_arm import balancing_pull, belt_lever
from beltwright.physics.belt.tensioning import (
    press_force,
)
from beltwright.physics.spring import spring_on_arm
from beltwright.review.belt.force_findings import questions
from beltwright.review.belt.layout import belt_layout
from beltwright.review.belt.spring import arm_spring
from beltwright.review.case import Case
from beltwright.review.finding import Verdict
from beltwright.review.judging import judge
from beltwright.tables.belts import section

INCH = 0.0254
POUND_FORCE = 0.45359237 * 9.80665
FT_MIN = 0.3048 / 60
RPM = pi / 30


def test_half_a_turn_at_the_design_friction() -> None:
    """[1]: groove friction 0.5123 is meant to give T1/T2 = 5 at half a turn."""
    assert float(capstan_ratio(0.5123, pi)) == pytest.approx(5.00, abs=0.005)


@pytest.mark.parametrize(("degrees", "wedged"), [(34, 0.5130), (36, 0.4854), (38, 0.4607)])
def test_groove_multiplies_friction(degrees: float, wedged: float) -> None:
    """[5] 0.15/sin(β/2), ±0.001."""
    assert float(groove_friction(0.15, radians(degrees))) == pytest.approx(wedged, abs=0.0001)


def test_hamrock_problem() -> None:
    """[4]: μ 0.2 in a 36° groove is 0.647; F1 257.1, F2 42.9 lbf at 1695 ft/min give 11.0 hp."""
    assert float(groove_friction(0.2, radians(36))) == pytest.approx(0.647, abs=0.001)
    pull = (257.1 - 42.9) * POUND_FORCE
    horsepower = pull * 1695 * FT_MIN / (550 * 12 * INCH * POUND_FORCE)
    assert horsepower == pytest.approx(11.0, abs=0.05)


def test_flat_belt_centrifugal_pull() -> None:
    """[2]: 0.126 lbf/ft at 916.3 ft/min pulls 0.913 lbf."""
    mass = 0.126 * 0.45359237 / 0.3048
    pull = float(centrifugal_pull(mass, 916.3 * FT_MIN)) / POUND_FORCE
    assert pull == pytest.approx(0.913, abs=0.002)


def test_flat_belt_friction_of_the_same_problem() -> None:
    """[2]: F1 147, F2 57, Fi 101.1 lbf. The print's f' = 0.307 is not what its own pulls give over
    3.0165 rad, which is 0.317; the pulls are kept."""
    grip = 90.0 / (float(capstan_ratio(0.3173, 3.0165)) - 1.0)
    assert (0.913 + grip + 90.0, 0.913 + grip) == pytest.approx((147.0, 57.0), abs=0.1)
    static = fixed_centre_pulls((-1, 1), 3 * INCH, 1, (1.0, 1.0), (101.1 + 0.913) * POUND_FORCE)
    torque = (147 - 57) * POUND_FORCE * 3 * INCH
    slack, tight = (float(pull) / POUND_FORCE for pull in static.at(torque))
    assert (tight, slack) == pytest.approx((147.0, 57.0), abs=0.1)


@pytest.mark.parametrize(("name", "kc"), [("A", 0.561), ("B", 0.965), ("C", 1.716)])
def test_belt_mass_gives_the_printed_centrifugal_pull(name: str, kc: float) -> None:
    """[1] Table 17-16: Fc = Kc (V/1000 ft/min)²; the table of masses is rounded to 0.1 g/m."""
    pull = centrifugal_pull(section(name).mass.linear_mass, 1000 * FT_MIN)
    assert float(pull) / POUND_FORCE == pytest.approx(kc, rel=0.001)


def test_shigley_example_17_4() -> None:
    """[3]: B112 on 7.4 and 11 in at 1750 rpm: V 3390 ft/min, exp(f'φ) 4.787, Fc 11.1 lbf, and a
    life beyond 10⁹ passes (46,600 h)."""
    speed = float(belt_speed(3.7 * INCH, 1750 * RPM))
    assert speed / FT_MIN == pytest.approx(3390, abs=2)
    assert float(capstan_ratio(0.5123, 3.0567)) == pytest.approx(4.787, abs=0.01)
    belt = section("B")
    centrifugal = float(centrifugal_pull(belt.mass.linear_mass, speed)) / POUND_FORCE
    assert centrifugal == pytest.approx(11.09, abs=0.02)
    assert float(peak_pull(0.0, belt.bending.kb, 7.4 * INCH)) / POUND_FORCE == pytest.approx(
        576 / 7.4, rel=1e-9
    )
    peaks = [pull * POUND_FORCE for pull in (170.1, 144.7)]
    passes = float(
        passes_to_failure(peaks, belt.bending.fatigue_pull, belt.bending.fatigue_exponent)
    )
    assert passes > 1e9
    hours = float(running_time(1e9, 113.8 * INCH, 3388 * FT_MIN)) / 3600
    assert hours == pytest.approx(46_600, abs=100)


def test_press_rule_of_one_sixty_fourth() -> None:
    """[6]: at 1/64 in per inch of span the press is T × 4/64; the exact form is within 0.1 %."""
    assert float(press_force(250.0, 0.5 / 64, 0.5)) == pytest.approx(250 * 4 / 64, rel=0.001)


def test_press_is_the_slope_of_the_stretch_energy() -> None:
    """[7]: the force of a press is where energy of belt, pre-pull and press is least."""
    pull, rate, span, force = 180.0, 40e3, 0.42, 20.0

    def energy(deflection: float) -> float:
        stretch = 2 * np.hypot(span / 2, deflection) - span
        return float(pull * stretch + rate * stretch**2 / 2 - force * deflection)

    found = minimize_scalar(energy, bounds=(0.0, 0.1), options={"xatol": 1e-12}).x
    assert float(press_force(pull, found, span, rate)) == pytest.approx(force, rel=1e-5)


def test_tight_and_slack_by_capstan() -> None:
    """[5]: 300 N, f 0.3, 38°, 150°: f' 0.9215, ratio 11.161, 329.53 and 29.53 N ±0.5 %."""
    wedged = groove_friction(0.3, radians(38))
    ratio = capstan_ratio(wedged, radians(150))
    assert float(wedged) == pytest.approx(0.9215, abs=0.0001)
    assert float(ratio) == pytest.approx(11.161, rel=0.0005)
    radius = 0.05
    pulls = spring_set_pulls((-1, 1), radius, 1, 0, 29.53)
    slips = first_to_slip(slip_torques(pulls, (ratio, ratio))).torque
    assert float(slips) / radius == pytest.approx(300.0, rel=0.0005)


def test_capstan_is_the_solution_of_its_differential_equation() -> None:
    """[7]: dT/dθ = f'(T − Fc), integrated."""
    wedged, wrap, fc, slack = 0.51, 2.6, 14.0, 60.0
    run = solve_ivp(lambda _, t: wedged * (t - fc), (0, wrap), [slack], rtol=1e-10, atol=1e-10)
    tight = fc + (slack - fc) * float(capstan_ratio(wedged, wrap))
    assert tight == pytest.approx(run.y[0, -1], rel=1e-8)


def test_idler_hub_force() -> None:
    """[5]: 40 lbf over 23.06° of wrap loads the hub by 2 T sin(θ/2) = 15.990 lbf."""
    half = radians(23.06) / 2
    load = shaft_load(40.0, (np.cos(half), np.sin(half)), 40.0, (np.cos(half), -np.sin(half)))
    assert float(load.size) == pytest.approx(2 * 40 * sin(half), rel=1e-12)
    assert float(load.size) == pytest.approx(15.990, abs=0.01)


def test_shaft_load_is_the_pressure_of_the_belt_summed_round_the_wrap() -> None:
    """[7]: normal pressure T − Fc and friction f'(T − Fc) on every piece of the wrap, by quad."""
    wedged, wrap, fc, slack = 0.45, 2.9, 10.0, 70.0

    def net(angle: float) -> float:
        return (slack - fc) * exp(wedged * angle)

    # the belt runs counter-clockwise from angle 0; its pressure points to the centre
    x = quad(lambda a: net(a) * (-np.cos(a) - wedged * np.sin(a)), 0, wrap)[0]
    y = quad(lambda a: net(a) * (-np.sin(a) + wedged * np.cos(a)), 0, wrap)[0]
    load = shaft_load(
        slack, (0.0, 1.0), net(wrap) + fc, (-np.sin(wrap), np.cos(wrap)), centrifugal=fc
    )
    assert float(load.x) == pytest.approx(x, rel=1e-9)
    assert float(load.y) == pytest.approx(y, rel=1e-9)


def _excess_over_capstan(torque: float, pulls: SpanPulls, pulley: int, ratio: float) -> float:
    spans = pulls.at(torque)
    sides = sorted(float(spans[k] - pulls.centrifugal) for k in (pulley - 1, pulley))
    return sides[1] - ratio * sides[0]


def test_which_pulley_slips_first_by_root_finding() -> None:
    """[7]: the torque at which a pulley's own pull ratio reaches its capstan ratio, by brentq."""
    share, ratios = (-1.0, 0.0, 0.35, 0.0, 0.65), (4.6, 2.0, 3.1, 1.5, 7.0)
    for travel in (1, -1):
        pulls = fixed_centre_pulls(share, 0.045, travel, (0.3, 0.2, 0.4, 0.25, 0.5), 220.0, 15.0)
        found = slip_torques(pulls, ratios)
        for pulley, ratio in enumerate(ratios):
            if share[pulley] == 0.0:
                assert found[pulley] == np.inf
                continue
            slip = brentq(_excess_over_capstan, 0.0, 200.0, args=(pulls, pulley, ratio))
            assert float(found[pulley]) == pytest.approx(slip, rel=1e-9)
        first = first_to_slip(found)
        need = pull_needed(pulls, ratios, first.torque)
        assert float(need) == pytest.approx(220.0, rel=1e-9)


def test_spring_balance_is_least_energy() -> None:
    """[7]: with a slack belt of constant pull the arm rests where spring energy and belt work
    are least; the belt pull that holds it there is the one that was put in."""
    pivot, hook, frame, length = (0.0, 0.0), (0.09, 0.02), (-0.02, 0.16), 0.12
    ends = np.array([[-0.4, -0.25], [0.5, -0.3]])

    def path(angle: float) -> float:
        idler = length * np.array([np.cos(angle), np.sin(angle)])
        return float(np.linalg.norm(ends - idler, axis=1).sum())

    def energy(angle: float) -> float:
        stretch = float(spring_on_arm(angle, pivot, hook, frame, 0.08, 2400.0).length) - 0.08
        return 2400.0 * stretch**2 / 2 + 12.0 * stretch + 55.0 * path(angle)

    angle = float(minimize_scalar(energy, bounds=(0.1, 2.5), options={"xatol": 1e-12}).x)
    spring = spring_on_arm(angle, pivot, hook, frame, 0.08, 2400.0, 12.0)
    idler = length * np.array([np.cos(angle), np.sin(angle)])
    before = (idler - ends[0]) / np.linalg.norm(idler - ends[0])
    after = (ends[1] - idler) / np.linalg.norm(ends[1] - idler)
    lever = belt_lever(angle, length, (before[0], before[1]), (after[0], after[1]))
    assert float(balancing_pull(spring.moment, lever)) == pytest.approx(55.0, rel=1e-5)


@pytest.mark.parametrize(
    ("released", "stays_away"), [(178.0, False), (250.0, False), (272.0, True)]
)
def test_a_spring_past_its_longest_holds_the_arm_off(released: float, stays_away: bool) -> None:
    """[7]: an arm let go runs to where the spring stores less: away from the belt once the spring
    has passed its longest, which is where its line crosses the pivot."""
    text = starter_text()
    assert 'released = "178 ± 2 deg"' in text
    assert 'furthest = "95 deg"' in text
    told = text.replace('"178 ± 2 deg"', f'"{released:g} deg"').replace(
        'longest = "240 mm"', 'longest = "400 mm"'
    )
    case = Case(read_text(told, "build.toml"), 0)
    belt = case.build.belt[0]
    spring = arm_spring(case, belt)
    driving = float(np.ravel(belt_layout(case, belt).arm_angle)[0])
    pivot, hook, frame = np.array([0.7, -0.16]), 0.09, np.array([0.72, 0.03])

    def stretched(angle: float) -> float:
        return float(np.hypot(*(frame - pivot - hook * np.array([cos(angle), sin(angle)]))))

    away = radians(released)
    step = 1e-4 * np.sign(driving - away)
    # the way that loses stretch from where the clutch lets it go
    leads_off = stretched(away + step) > stretched(away)
    assert leads_off is stays_away
    assert bool((spring.released.moment * spring.driving.moment < 0.0)[0]) is stays_away
    ask = next(ask for ask in questions(case) if ask.id == "belt.traction belt.spring")
    found = judge(case, "", ask)[0]
    assert (found.verdict is Verdict.STOP) is stays_away
    assert ("gone over the pivot" in found.meaning) is stays_away


def test_spring_set_pull_does_not_feel_the_speed_of_the_belt() -> None:
    """[5]: a chain of moving mass on a sprung idler: momentum m v² leaves it as it enters."""
    for fc in (0.0, 30.0):
        pulls = spring_set_pulls((-1, 1), 0.05, 1, 0, 80.0, fc)
        first = first_to_slip(slip_torques(pulls, (5.0, 9.0)))
        assert float(first.torque) == pytest.approx(80.0 * 4.0 * 0.05, rel=1e-12)


def test_torque_and_belt_speed_identities() -> None:
    """Seen in print on one page of a textbook: 1 hp at 1750 rpm is 36.0 lbf in (36.01); 4 in at
    1750 rpm runs 1832.6 ft/min, ±0.1 %."""
    horsepower = 550 * 12 * INCH * POUND_FORCE
    torque = horsepower / (1750 * RPM)
    assert torque / (POUND_FORCE * INCH) == pytest.approx(36.01, abs=0.01)
    assert float(belt_speed(2 * INCH, 1750 * RPM)) / FT_MIN == pytest.approx(1832.6, rel=0.001)

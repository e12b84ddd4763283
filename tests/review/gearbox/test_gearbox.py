"""What the review says about the gearbox: heat, pressure, vent, seals, a measured warm-up."""

from collections.abc import Callable

import numpy as np
import pytest

from beltwright.physics.gearbox.correction import corrected
from beltwright.physics.gearbox.heat import Stage, steady_temperature, temperature_at
from beltwright.physics.gearbox.heat import warm_up as follow
from beltwright.review.case import Case, NotKnownError
from beltwright.review.finding import Finding, Verdict
from beltwright.review.gearbox.at_work import Thermal, gearbox
from beltwright.review.gearbox.findings import questions
from beltwright.review.gearbox.heat import (
    donor_steady,
    rows,
    steady,
    thermal,
    time_constant,
    warm_up,
)
from beltwright.review.gearbox.pressure import closed_gauge, night_gauge, vented_gauge, wet_gauge

Cart = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]

GEARED = (
    "forward = [60.0, 30.0, 16.0]",
    """forward = [60.0, 30.0, 16.0]
stock_input = "1500 ± 50 rpm"
oil = { volume = "0.6 ± 0.05 L", grade = "SAE 90" }
vent = "none"
case_mass = "14 ± 1 kg"
case_size = ["320 mm", "180 mm", "160 mm"]
air_space = "0.5 ± 0.1 L"
seals = [{ where = "input", diameter = "17 mm", shaft = "input" }]
""",
)
HOSE = ('vent = "none"', 'vent = "hose"\nvent_bore = "5 mm"')
FULL_POWER = ('vent = "none"', 'vent = "none"\nduty = "100 %"\nefficiency = "75 %"')


def test_the_oil_settles_where_loss_and_cooling_balance(cart: Cart) -> None:
    case = cart(GEARED)
    box, hot = thermal(case), steady(case)
    assert box.loss(hot) == pytest.approx(box.conductance(hot) * (hot - box.air), rel=1e-6)
    assert 320.0 < float(hot[0]) < 370.0


def test_samples_give_the_nominal_build_first_and_bracket_it(cart: Cart) -> None:
    single, many = steady(cart(GEARED)), steady(cart(GEARED, samples=400))
    assert many.shape == (401,)
    assert many[0] == pytest.approx(single[0])
    assert np.percentile(many, 5) < many[0] < np.percentile(many, 95)


def test_candidates_equal_single_builds(cart: Cart) -> None:
    speeds = np.array([1200.0, 1500.0, 1900.0]) * np.pi / 30.0
    build = cart(GEARED).build
    batch = donor_steady(Case(build, replaced={"gearbox.stock_input": speeds[:1]}))
    ratios = np.array([0.09, 0.12])
    hot = steady(Case(build, replaced={"pulley.large.pitch": 2.0 * ratios}))
    alone = [
        steady(Case(build, replaced={"pulley.large.pitch": 2.0 * ratio[np.newaxis]}))[0]
        for ratio in ratios
    ]
    assert batch.shape == (1,)
    assert hot == pytest.approx(alone)


def test_a_faster_input_runs_hotter(cart: Cart) -> None:
    slow, fast = (
        float(steady(cart(GEARED, ('pitch = "200 mm"', f'pitch = "{size} mm"')))[0])
        for size in (240, 150)
    )
    assert fast > slow


def test_hard_work_turns_the_verdict(answers: Answers) -> None:
    easy = answers(questions, GEARED)["gearbox.oil_temperature"]
    hard = answers(questions, GEARED, FULL_POWER)["gearbox.oil_temperature"]
    assert easy.verdict is Verdict.SOUND
    assert hard.verdict is Verdict.STOP
    assert "larger input pulley" in hard.remedy


def test_a_wide_range_asks_for_a_measured_run(answers: Answers) -> None:
    warm = ('air = "30 °C"', 'air = "44 °C"')
    found = answers(questions, GEARED, warm, samples=400)["gearbox.oil_temperature"]
    assert found.verdict is Verdict.MARGINAL
    assert "measure a warm-up" in found.remedy


def test_without_a_vent_the_case_is_pressed(cart: Cart, answers: Answers) -> None:
    found = answers(questions, GEARED)
    assert found["gearbox.case_pressure"].verdict is Verdict.MARGINAL
    assert found["gearbox.vent"].verdict is Verdict.MARGINAL
    assert found["gearbox.water"].verdict is Verdict.MARGINAL
    case = cart(GEARED)
    assert (
        float(wet_gauge(case)[0]) > float(closed_gauge(case)[0]) > 0.0 > float(night_gauge(case)[0])
    )


def test_little_air_over_much_oil_stops(answers: Answers) -> None:
    full = ('air_space = "0.5 ± 0.1 L"', 'air_space = "0.05 L"')
    tight = answers(questions, GEARED, full)["gearbox.case_pressure"]
    brimful = answers(questions, GEARED, ('air_space = "0.5 ± 0.1 L"', 'air_space = "0.01 L"'))[
        "gearbox.case_pressure"
    ]
    assert tight.verdict is Verdict.STOP
    assert brimful.verdict is Verdict.STOP
    assert brimful.shown == "no air left in the case"


def test_a_hose_lets_it_breathe(cart: Cart, answers: Answers) -> None:
    found = answers(questions, GEARED, HOSE)
    for name in ("case_pressure", "vent", "water"):
        assert found[f"gearbox.{name}"].verdict is Verdict.SOUND, name
    assert float(vented_gauge(cart(GEARED, HOSE))[0]) < 10.0


def test_a_hose_that_dirt_closes_is_marginal(answers: Answers) -> None:
    narrow = ('vent = "none"', 'vent = "hose"\nvent_bore = "1.5 mm"')
    assert answers(questions, GEARED, narrow)["gearbox.vent"].verdict is Verdict.MARGINAL


@pytest.mark.parametrize(
    ("line", "ids"),
    [
        ('oil = { volume = "0.6 ± 0.05 L", grade = "SAE 90" }', ["oil_temperature", "water"]),
        ('vent = "none"', ["case_pressure", "vent", "water"]),
        ('case_mass = "14 ± 1 kg"', ["oil_temperature", "warm_up"]),
        ('case_size = ["320 mm", "180 mm", "160 mm"]', ["oil_temperature"]),
        ('air_space = "0.5 ± 0.1 L"', ["case_pressure"]),
    ],
)
def test_what_is_missing_is_asked_for(answers: Answers, line: str, ids: list[str]) -> None:
    found = answers(questions, GEARED, (line, ""))
    for name in ids:
        assert found[f"gearbox.{name}"].verdict is Verdict.NOT_KNOWN, name
        assert found[f"gearbox.{name}"].remedy


@pytest.mark.parametrize(("grade", "says"), [("NLGI 00", "Grease"), ("cooking", "oil cooking")])
def test_oil_that_no_table_has(answers: Answers, grade: str, says: str) -> None:
    found = answers(questions, GEARED, ("SAE 90", grade))["gearbox.oil_temperature"]
    assert found.verdict is Verdict.NOT_KNOWN
    assert says in found.meaning


def test_thin_oil_is_marginal(answers: Answers) -> None:
    thin = answers(questions, GEARED, ("SAE 90", "ISO VG 46"), FULL_POWER)["gearbox.oil_thickness"]
    assert thin.verdict is Verdict.MARGINAL
    assert answers(questions, GEARED)["gearbox.oil_thickness"].verdict is Verdict.SOUND


def test_a_large_seal_on_a_fast_shaft(answers: Answers) -> None:
    fine = answers(questions, GEARED)["gearbox.seal.input"]
    large = answers(questions, GEARED, ('diameter = "17 mm"', 'diameter = "200 mm"'))
    assert fine.verdict is Verdict.SOUND
    assert large["gearbox.seal.input"].verdict is Verdict.MARGINAL


def test_a_cart_without_a_gearbox_is_not_asked(cart: Cart) -> None:
    build = cart().build.model_copy(update={"gearbox": None})
    assert not list(questions(Case(build)))


def test_the_chart_follows_the_nominal_build_and_a_band(cart: Cart) -> None:
    course = warm_up(cart(GEARED, samples=600))
    alone = warm_up(cart(GEARED))
    assert course.temperature.shape[0] <= 62
    assert course.temperature[0] == pytest.approx(alone.temperature[0])
    assert np.all(np.diff(alone.temperature[0]) > 0.0)


def test_time_constant_is_that_of_the_course(cart: Cart) -> None:
    """Within a fifth: loss and cooling change as the oil warms."""
    case = cart(GEARED)
    slow = float(time_constant(case)[0])
    course = rows(warm_up(case), slice(0, 1))
    cold, hot = float(thermal(case).air[0]), float(steady(case)[0])
    there = float(temperature_at(course, np.array([slow]))[0, 0])
    assert (there - cold) / (hot - cold) == pytest.approx(0.632, rel=0.2)


def reading(box: Thermal, minutes: int, factor: float) -> str:
    """One reading of a cold start whose loss is so many times the predicted one."""
    stage = corrected(Stage(7200.0, box.loss, box.conductance), factor, 1.0)
    run = follow([stage], box.capacity, box.air, box.air)
    kelvin = float(temperature_at(run, np.array([minutes * 60.0]))[0, 0])
    return f'{{ after = "{minutes} min", oil = "{kelvin - 273.15:.3f} °C" }}'


def test_a_measured_run_corrects_the_prediction(cart: Cart) -> None:
    """Readings made with a known factor on the loss bring the settled heat to that factor's."""
    box = thermal(cart(GEARED))
    readings = ", ".join(reading(box, minutes, 1.5) for minutes in (20, 40, 80, 120))
    measured = (
        'vent = "none"',
        f'vent = "none"\nduty = "40 %"\nmeasured = {{ air = "30 °C", gear = 2, duty = "40 %", '
        f"reading = [{readings}] }}",
    )
    more = box._replace(loss_factor=np.array([1.5]))
    expected = steady_temperature(more.loss, more.conductance, more.air)
    found = steady(cart(GEARED, measured, samples=300))
    assert found[0] == pytest.approx(float(expected[0]), abs=3.0)
    assert np.ptp(found) < 0.7 * np.ptp(steady(cart(GEARED, samples=300)))


@pytest.mark.parametrize(
    ("factors", "told"),
    [
        ((1.5, 1.5, 1.5, 1.5), "corrects it, and is then missed by "),
        ((3.0, 0.2, 3.0, 0.2), "more than a thermometer is out"),
    ],
)
def test_what_a_measured_run_is_missed_by_is_told(
    cart: Cart, answers: Answers, factors: tuple[float, ...], told: str
) -> None:
    """Readings of one gearbox, and readings that jump up and down."""
    box = thermal(cart(GEARED))
    readings = ", ".join(
        reading(box, minutes, factor)
        for minutes, factor in zip((20, 40, 80, 120), factors, strict=True)
    )
    measured = (
        'vent = "none"',
        f'vent = "none"\nduty = "40 %"\nmeasured = {{ air = "30 °C", gear = 2, duty = "40 %", '
        f"reading = [{readings}] }}",
    )
    found = answers(questions, GEARED, measured)["gearbox.oil_temperature"]
    assert told in found.meaning
    assert ("thermometer is out" in found.meaning) is (factors[1] != factors[0])
    assert "measured" not in answers(questions, GEARED)["gearbox.oil_temperature"].meaning


def test_a_measured_run_in_a_gear_that_is_not_there(cart: Cart) -> None:
    measured = (
        'vent = "none"',
        'vent = "none"\nmeasured = { air = "20 °C", gear = 9, duty = "40 %", reading = [{ after = '
        '"30 min", oil = "50 °C" }] }',
    )
    case = cart(GEARED, measured)
    assert gearbox(case).measured is not None
    with pytest.raises(NotKnownError, match="from 1 to 3"):
        steady(case)

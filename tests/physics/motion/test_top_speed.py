"""Top speed and run-up at their ends, and many builds at once."""

import numpy as np
import pytest

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.motion.clutch_start import clutch_start, inertia_at_clutch
from beltwright.physics.motion.run_up import run_up
from beltwright.physics.motion.top_speed import EngineRange, Gear, Resistance, top_speed


def engine(torque: ArrayLike = 18.0) -> EngineRange:
    """Even torque up to the governor, then falling to nothing."""

    def full_load(speed: Array) -> Array:
        return np.asarray(torque * np.clip((377.0 - speed) / 32.0, 0.0, 1.0))

    return EngineRange(full_load, slowest=150.0, governed=345.0, no_load=377.0)


SLOW, FAST = Gear(60.0, 0.8, 0.24), Gear(15.0, 0.8, 0.24)


def test_light_ground_leaves_the_governor_in_charge() -> None:
    """On the level the speed settles between governed and no-load."""
    top = top_speed(engine(), SLOW, Resistance(300.0, 0.05))
    assert top.moves
    assert top.governed
    assert SLOW.road_speed(345.0) < top.speed < SLOW.road_speed(377.0)


def test_a_hill_too_steep_does_not_move() -> None:
    """Nothing to push with: no speed, and it says so."""
    top = top_speed(engine(), FAST, Resistance(300.0, 0.05, slope=0.3))
    assert top.speed == 0.0
    assert not top.moves
    assert not top.governed


def test_downhill_stops_at_no_load_speed() -> None:
    """The engine drives no faster than its no-load speed; beyond it only holds back."""
    top = top_speed(engine(), SLOW, Resistance(300.0, 0.05, slope=-0.2))
    assert top.speed == pytest.approx(float(SLOW.road_speed(377.0)), rel=1e-12)


def test_drag_decides_in_a_gear_that_is_too_tall() -> None:
    """A torque that falls with speed meets the drag below the governor."""
    falling = EngineRange(lambda w: 30.0 - 0.06 * w, slowest=150.0, governed=345.0, no_load=377.0)
    gear = Gear(12.0, 0.8, 0.24)
    top = top_speed(falling, gear, Resistance(300.0, 0.15))
    balance = (30.0 - 300.0 * 9.80665 * 0.15 * 0.24 / (12.0 * 0.8)) / 0.06
    assert top.moves
    assert not top.governed
    assert top.speed == pytest.approx(float(gear.road_speed(balance)), rel=1e-9)


def test_many_builds_at_once() -> None:
    """A row of masses, ratios and torques gives what each gives alone."""
    masses, ratios = np.array([200.0, 300.0, 900.0]), np.array([60.0, 25.0, 12.0])
    torques = np.array([14.0, 18.0, 9.0])
    tops = top_speed(engine(torques), Gear(ratios, 0.8, 0.24), Resistance(masses, 0.12))
    runs = run_up(engine(torques), [Gear(ratios, 0.8, 0.24)], Resistance(masses, 0.12), 0.8, 200.0)
    for number in range(3):
        gear = Gear(float(ratios[number]), 0.8, 0.24)
        drag = Resistance(float(masses[number]), 0.12)
        alone = top_speed(engine(float(torques[number])), gear, drag)
        run = run_up(engine(float(torques[number])), [gear], drag, 0.8, 200.0)
        assert tops.speed[number] == alone.speed
        assert runs.time[number] == pytest.approx(float(run.time), rel=1e-13)
    assert np.isinf(runs.time[2])


def test_samples_hidden_in_the_torque_curve() -> None:
    """A curve with samples of its own spreads over a single gear and ground."""
    torques = np.array([14.0, 18.0])
    run = run_up(engine(torques), [SLOW], Resistance(300.0, 0.06), 1.0, 200.0)
    assert run.time.shape == (2,)
    assert run.time[0] > run.time[1]


def test_a_speed_beyond_the_gear_is_never_reached() -> None:
    """No time and no distance are invented."""
    run = run_up(engine(), [SLOW], Resistance(300.0, 0.06), 3.0, 200.0)
    assert np.isinf(run.time)
    assert np.isinf(run.distance)


def test_a_pause_too_long_starts_the_next_gear_from_rest() -> None:
    """The machine rolls out while shifting uphill, then takes the next gear from standing."""
    drag = Resistance(300.0, 0.06, slope=0.05)
    quick = run_up(engine(), [SLOW, Gear(30.0, 0.8, 0.24)], drag, 2.0, 200.0, shift_pause=0.2)
    slow = run_up(engine(), [SLOW, Gear(30.0, 0.8, 0.24)], drag, 2.0, 200.0, shift_pause=60.0)
    assert slow.time > quick.time + 59.0


def test_a_shift_that_is_not_needed_takes_no_time() -> None:
    """The target lies inside the first gear."""
    drag = Resistance(300.0, 0.06)
    one = run_up(engine(), [SLOW], drag, 1.0, 200.0)
    two = run_up(engine(), [SLOW, FAST], drag, 1.0, 200.0, shift_pause=1.0)
    assert two.time == pytest.approx(float(one.time), rel=1e-13)
    assert two.distance == pytest.approx(float(one.distance), rel=1e-13)


def test_a_clutch_that_pulls_less_than_the_load_never_catches_up() -> None:
    """It only makes heat."""
    weak = clutch_start(5.0, 5.0, 8.0, 0.04, inertia_at_clutch(300.0, 0.24, 40.0), 300.0)
    assert not weak.catches_up
    assert np.isinf(weak.slips)


def test_a_clutch_that_grabs_drags_the_engine_down() -> None:
    """Both sides meet at the speed that their momenta share, load and engine torque aside."""
    start = clutch_start(1e9, 0.0, 0.0, 0.015, 0.05, 300.0)
    assert start.catches_up
    assert start.speed == pytest.approx(300.0 * 0.015 / 0.065, rel=1e-9)


def test_an_engine_that_holds_its_speed() -> None:
    """Infinite engine inertia: the clutch loses as much as the machine gains, without load."""
    inertia = inertia_at_clutch(300.0, 0.24, 40.0)
    start = clutch_start(20.0, 20.0, 0.0, np.inf, inertia, 300.0)
    assert start.work == pytest.approx(0.5 * float(inertia) * 300.0**2, rel=1e-12)

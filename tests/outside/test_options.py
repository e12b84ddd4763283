"""The search for parts against general-purpose solvers that know nothing of it.

- scipy.optimize.brute, differential_evolution and shgo (SciPy; Storn and Price, Journal of Global
  Optimization 11, 1997, 341; Endres, Sandrock and Focke, Journal of Global Optimization 72, 2018,
  181).
- CP-SAT of OR-Tools, an exact solver for whole numbers.

The problems are written down here anew: ground speed = engine speed over ratio times roll-out;
pitch diameter = outside diameter less 0.250 in for section A (RMA IP-20, groove table, 2hd); pitch
length = inside length plus 1.3 in for section A (RMA IP-20, standard length table); length of an
open belt on two pulleys as in Shigley's Mechanical Engineering Design, 10th ed., eq. 17-1 and 17-2.
"""

import math
from itertools import product

import numpy as np
import pytest
from ortools.sat.python import cp_model
from scipy.optimize import Bounds, NonlinearConstraint, brute, differential_evolution, shgo

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.build.shop import Part
from beltwright.options.merit import COST, OVERSPEED
from beltwright.options.offering import choices
from beltwright.options.outcome import Outcome
from beltwright.options.price_list import read_prices
from beltwright.options.search import search

GOVERNED = 3450.0  # rpm
STOCK = 1240.0  # rpm
GEAR = 12.1
ROLL_OUT = 1.5  # m
RIM = 0.250 * 25.4  # mm
TO_PITCH = 1.3 * 25.4  # mm
CREEP = 0.01  # as the review states its assumption
LOW, HIGH = 11.0, 13.5  # km/h
NEAR, FAR = 700.0, 760.0  # centre distance at the ends of the engine's slot, mm

BUILD = f"""
format = 1
name = "against solvers"
[goals]
top_speed = "{LOW} to {HIGH} km/h"
budget = "41 EUR"
[engine]
no_load = "{GOVERNED} rpm"
[[shaft]]
name = "engine"
at = ["{180 + NEAR} mm", "0 mm"]
slot_to = ["{180 + FAR} mm", "0 mm"]
[[shaft]]
name = "gearbox input"
at = ["180 mm", "0 mm"]
[[pulley]]
name = "engine pulley"
shaft = "engine"
outside = "100 mm"
groove = "A"
[[pulley]]
name = "input pulley"
shaft = "gearbox input"
outside = "200 mm"
groove = "A"
[[belt]]
name = "belt"
section = "A"
length = "75 in"
length_is = "inside"
run = ["engine pulley", "input pulley"]
[gearbox]
input = "gearbox input"
forward = [{GEAR}]
stock_input = "{STOCK} rpm"
[wheels]
roll_out = "{ROLL_OUT * 1000} mm"
"""

ENGINE_SIZES = list(range(80, 132, 4))  # outside diameters, mm
INPUT_SIZES = list(range(160, 260, 6))
BELTS = list(range(66, 86))  # inside lengths, in
PRICES = {
    "engine": [7 + (size * 37) % 11 for size in ENGINE_SIZES],
    "input": [9 + (size * 53) % 17 for size in INPUT_SIZES],
    "belt": [8 + (size * 29) % 13 for size in BELTS],
}


def _open(of: str, what: str, how: str) -> str:
    return f'\n[[choose.vary]]\nof = "{of}"\nwhat = "{what}"\n{how}\n'


def _priced(kind: str, sizes: list[int], prices: list[int]) -> list[str]:
    unit = "in" if kind == "belt" else "mm"
    cells = {"belt": "A,,{},inside", "pulley": "A,{},,"}[kind]
    return [
        f"{kind},{cells.format(f'{size} {unit}')},{price} EUR"
        for size, price in zip(sizes, prices, strict=True)
    ]


def _discrete() -> tuple[Build, tuple[Part, ...]]:
    """Two pulleys and a belt from a list; engine sizes and input sizes do not overlap."""
    lines = [
        "kind,section,outside,length,length_is,price",
        *_priced("belt", BELTS, PRICES["belt"]),
        *_priced("pulley", ENGINE_SIZES, PRICES["engine"]),
        *_priced("pulley", INPUT_SIZES, PRICES["input"]),
    ]
    text = BUILD + "".join(
        _open(of, what, "prices = true")
        for of, what in (
            ("engine pulley", "outside"),
            ("input pulley", "outside"),
            ("belt", "length"),
        )
    )
    return read_text(text), read_prices("\n".join(lines), "prices.csv")


def _speed(engine: float, input_: float) -> float:
    """Top speed [km/h] with pulleys of these outside diameters [mm]."""
    ratio = (input_ - RIM) / ((engine - RIM) * (1.0 - CREEP))
    return GOVERNED / 60.0 / ratio / GEAR * ROLL_OUT * 3.6


def _open_belt(engine: float, input_: float, centres: float) -> float:
    """Length of an open belt [mm] (Shigley, eq. 17-1 and 17-2)."""
    small, large = sorted((engine - RIM, input_ - RIM))
    # a solver may look outside its bounds, where the pulleys would overlap
    share = min((large - small) / (2.0 * centres), 1.0)
    lean = math.asin(share)
    spans = 2.0 * centres * math.sqrt(1.0 - share * share)
    return spans + 0.5 * (large * (math.pi + 2.0 * lean) + small * (math.pi - 2.0 * lean))


def _runs(engine: float, input_: float, inches: float) -> bool:
    """Whether the engine's slot takes the belt up."""
    length = inches * 25.4 + TO_PITCH
    return _open_belt(engine, input_, NEAR) <= length <= _open_belt(engine, input_, FAR)


def _cheapest_by_cp_sat() -> float:
    """Least cost of pulleys and belt that meet the goals, by an exact solver."""
    sizes = [*ENGINE_SIZES, *INPUT_SIZES]
    prices = [*PRICES["engine"], *PRICES["input"]]
    model = cp_model.CpModel()
    engine, input_ = (model.new_int_var(0, len(sizes) - 1, name) for name in ("engine", "input"))
    belt = model.new_int_var(0, len(BELTS) - 1, "belt")
    allowed = [
        (e, i, b)
        for e, i, b in product(range(len(sizes)), range(len(sizes)), range(len(BELTS)))
        if _runs(sizes[e], sizes[i], BELTS[b])
    ]
    model.add_allowed_assignments([engine, input_, belt], allowed)
    # speed limits as whole numbers: engine pitch × GOVERNED… against input pitch, in nanometres
    pitches = [round((size - RIM) * 1e6) for size in sizes]
    driver, driven = (model.new_int_var(0, 10**9, name) for name in ("driver", "driven"))
    model.add_element(engine, pitches, driver)
    model.add_element(input_, pitches, driven)
    per_ratio = GOVERNED / 60.0 / GEAR * ROLL_OUT * 3.6 * (1.0 - CREEP)
    model.add(round(per_ratio * 1e6) * driver >= round(LOW * 1e6) * driven)
    model.add(round(per_ratio * 1e6) * driver <= round(HIGH * 1e6) * driven)
    costs = [model.new_int_var(0, 100, name) for name in ("engine cost", "input cost", "belt cost")]
    model.add_element(engine, prices, costs[0])
    model.add_element(input_, prices, costs[1])
    model.add_element(belt, PRICES["belt"], costs[2])
    model.add(sum(costs) <= 41)
    model.minimize(sum(costs))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return float(solver.objective_value)


def _searched() -> Outcome:
    build, prices = _discrete()
    found = choices(build, prices)
    # what stands there now is no part of the problem
    bought = [type(c)(c.of, c.what, c.options[1:], c.use) for c in found]
    return search(build, bought)


def test_the_cheapest_is_the_one_that_an_exact_solver_finds() -> None:
    outcome = _searched()
    assert outcome.found[0].merits[COST] == _cheapest_by_cp_sat()


def test_the_least_overspeed_is_the_one_that_brute_finds() -> None:
    sizes = [*ENGINE_SIZES, *INPUT_SIZES]

    def overspeed(places: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> float:
        engine, input_, belt = (round(float(place)) for place in places)
        price = sum(
            (
                [*PRICES["engine"], *PRICES["input"]][engine],
                [*PRICES["engine"], *PRICES["input"]][input_],
                PRICES["belt"][belt],
            )
        )
        kept = (
            LOW <= _speed(sizes[engine], sizes[input_]) <= HIGH
            and price <= 41
            and _runs(sizes[engine], sizes[input_], BELTS[belt])
        )
        ratio = (sizes[input_] - RIM) / ((sizes[engine] - RIM) * (1.0 - CREEP))
        return GOVERNED / ratio / STOCK - 1.0 if kept else math.inf

    grid = (slice(0, len(sizes), 1), slice(0, len(sizes), 1), slice(0, len(BELTS), 1))
    _, best, _, _ = brute(overspeed, grid, full_output=True, finish=None)
    found = min(each.merits[OVERSPEED] for each in _searched().found)
    # options count as equal within the step of the merit, 0.001
    assert found == pytest.approx(float(best), abs=1e-3)


@pytest.mark.parametrize("solver", ["differential_evolution", "shgo"])
def test_a_fine_range_comes_as_near_to_the_best_as_its_steps_allow(solver: str) -> None:
    """The slowest gearbox input with which the machine still does 11 km/h and the belt runs."""
    step = 0.25
    ranges = {"engine pulley": (90.0, 110.0), "input pulley": (180.0, 230.0)}
    text = BUILD.replace('budget = "41 EUR"', "") + "".join(
        _open(of, "outside", f'low = "{low} mm"\nhigh = "{high} mm"\nstep = "{step} mm"')
        for of, (low, high) in ranges.items()
    )
    build = read_text(text)
    found = search(build, choices(build)).found[0].merits[OVERSPEED]

    def overspeed(sizes: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> float:
        return _speed(float(sizes[0]), float(sizes[1])) / 3.6 / ROLL_OUT * GEAR * 60.0 / STOCK - 1.0

    def room(sizes: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> list[float]:
        length = 75 * 25.4 + TO_PITCH
        return [
            _speed(float(sizes[0]), float(sizes[1])) - LOW,
            length - _open_belt(float(sizes[0]), float(sizes[1]), NEAR),
            _open_belt(float(sizes[0]), float(sizes[1]), FAR) - length,
        ]

    low, high = zip(*ranges.values(), strict=True)
    bounds, held = Bounds(low, high), NonlinearConstraint(room, 0.0, np.inf)
    if solver == "shgo":
        best = shgo(overspeed, bounds, constraints=held, n=128).fun
    else:
        best = differential_evolution(overspeed, bounds, constraints=held, rng=1).fun
    # one step of either pulley changes the speed by a quarter of a per cent at most
    assert found == pytest.approx(float(best), abs=2.5e-3 * (1.0 + float(best)))
    assert found >= float(best) - 1e-9

"""The search for parts: candidates a second, whole and when cheap limits cut first.

A run of four pulleys with a swinging idler; both pulleys, the guide idler's place and the belt's
length vary, so that nothing is shared between candidates.  "Whole" is the path, the arm's angle
for the belt, wraps, slack, clearance to three parts, speeds, overspeed and cost of every single
candidate, none cut before.

Run: python benchmarks/options.py [largest power of ten]
Beside it stands a Python loop that calls the same functions for one candidate at a time, and, where
numba can be imported, one compiled loop of the same arithmetic (benchmarks/compiled_belt.py).
"""

import importlib
import math
import sys
import time
from collections.abc import Callable
from functools import partial

import numpy as np

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.options.offering import choices
from beltwright.options.search import search
from beltwright.physics.arrays import Array
from beltwright.physics.belt.clearance import plan_gap
from beltwright.physics.gearing import overspeed
from beltwright.review.belt.clearance import driving_band
from beltwright.review.belt.layout import belt_run, loose_belt
from beltwright.review.belt.obstacles import grouped_parts
from beltwright.review.case import Case
from beltwright.review.driveline.speed import (
    gearbox_input_speed,
    governed,
    idle,
    low_gear,
    speed_in,
    top_gear,
)
from beltwright.tables.belts import section

BUILD = """
format = 1
name = "benchmark"
[goals]
top_speed = "9.0 to 9.5 km/h"
budget = "70 EUR"
[engine]
no_load = "3450 rpm"
idle = "1600 rpm"
[[shaft]]
name = "engine"
at = ["905 mm", "-20 mm"]
[[shaft]]
name = "gearbox input"
at = ["180 mm", "30 mm"]
[[pulley]]
name = "engine pulley"
shaft = "engine"
outside = "96 mm"
groove = "A"
[[pulley]]
name = "input pulley"
shaft = "gearbox input"
outside = "204 mm"
groove = "A"
[[idler]]
name = "clutch idler"
outside = "83 mm"
[idler.arm]
pivot = ["650 mm", "-105 mm"]
length = "150 mm"
released = "182 deg"
furthest = "125 deg"
[[idler]]
name = "guide idler"
outside = "70 mm"
at = ["430 mm", "124 mm"]
[[belt]]
name = "belt"
section = "A"
length = "76 in"
length_is = "inside"
run = ["engine pulley", "clutch idler", "input pulley", "guide idler"]
[[obstacle]]
name = "lever"
outline = [["560 mm", "98 mm"], ["590 mm", "98 mm"], ["590 mm", "128 mm"], ["560 mm", "128 mm"]]
[[obstacle]]
name = "rail"
outline = [["15 cm", "-19 cm"], ["96 cm", "-19 cm"], ["96 cm", "-17 cm"], ["15 cm", "-17 cm"]]
[[obstacle]]
name = "column"
outline = [["740 mm", "5 mm"], ["762 mm", "5 mm"], ["762 mm", "27 mm"], ["740 mm", "27 mm"]]
[gearbox]
input = "gearbox input"
forward = [64.0, 29.0, 12.1]
stock_input = "1240 rpm"
[wheels]
roll_out = "1500 mm"
"""

SPANS = {
    ("engine pulley", "outside"): (0.080, 0.130),
    ("input pulley", "outside"): (0.150, 0.250),
    ("guide idler", "at y"): (0.110, 0.135),
    ("belt", "length"): (1.65, 2.05),
}
KEYS = (
    "pulley.engine pulley.outside",
    "pulley.input pulley.outside",
    "idler.guide idler.at.1",
    "belt.belt.length",
)
WHOLE = 400_000
"""Candidates for the array rate."""

SINGLE = 200
"""Candidates for the loop over single ones."""

BLOCK = 8_192


def whole(build: Build, replaced: dict[str, Array], price: Array) -> list[Array]:
    """Everything about every candidate."""
    case = Case(build, replaced=replaced)
    belt = build.belt[0]
    layout = belt_run(case, belt)
    band = driving_band(case, belt)
    gaps = [plan_gap(band, group.outline) for group in grouped_parts(case, layout.plane)]
    assert build.gearbox is not None
    assert build.gearbox.stock_input is not None
    stock = case.si(build.gearbox.stock_input)
    return [
        layout.usable.astype(float),
        layout.position,
        loose_belt(case, belt).belt.slack,
        np.minimum(layout.path.wrap[0], layout.path.wrap[2]),
        np.minimum.reduce([gap.min(axis=0) for gap in gaps]),
        speed_in(case, top_gear(case), governed(case)),
        speed_in(case, low_gear(case), idle(case)),
        overspeed(gearbox_input_speed(case), stock),
        price,
    ]


def seconds(job: Callable[[], object], rounds: int = 3) -> float:
    """Shortest of several timings [s], in processor time, so that a busy machine counts less."""
    times = []
    for _ in range(rounds):
        start = time.process_time()
        job()
        times.append(time.process_time() - start)
    return min(times)


def drawn(count: int) -> tuple[dict[str, Array], Array]:
    """Candidates drawn evenly from the spans, and their prices."""
    draw = np.random.default_rng(1)
    values = {key: draw.uniform(*SPANS[of], count) for key, of in zip(KEYS, SPANS, strict=True)}
    return values, draw.uniform(20.0, 60.0, count)


def in_blocks(build: Build, values: dict[str, Array], price: Array, block: int) -> None:
    """All of them in blocks that fit the cache."""
    for start in range(0, len(price), block):
        part = slice(start, start + block)
        whole(build, {key: value[part] for key, value in values.items()}, price[part])


def show_whole(build: Build) -> float:
    """Print the whole candidates a second, arrays against single ones."""
    values, price = drawn(WHOLE)
    rate = WHOLE / seconds(partial(in_blocks, build, values, price, BLOCK))
    print(f"whole candidates, arrays            {rate:12,.0f} a second")
    few = {key: value[:SINGLE] for key, value in values.items()}
    one = SINGLE / seconds(partial(in_blocks, build, few, price[:SINGLE], 1))
    print(f"whole candidates, one at a time     {one:12,.0f} a second; arrays ×{rate / one:,.0f}")
    return rate


def show_compiled(build: Build, arrays: float) -> None:
    """Print the same for one compiled loop, where numba is there, and check that both agree."""
    try:
        evaluate = importlib.import_module("compiled_belt").evaluate
    except ImportError:
        print("whole candidates, compiled loop     numba is not installed here; left out")
        return
    values, price = drawn(WHOLE)
    own = section("A")
    rim, above = own.rim_above_pitch, own.belt_above_pitch
    candidates = np.stack(
        [
            values[KEYS[0]] / 2.0 - rim,
            values[KEYS[1]] / 2.0 - rim,
            values[KEYS[2]],
            values[KEYS[3]] + own.lengths.inside_to_pitch,
            price,
        ],
        axis=1,
    )
    fixed = np.array(
        [
            [0.905, 0.65, 0.18, 0.43],
            [-0.02, -0.105, 0.03, 0.124],
            [0.0, 0.0415 + above, 0.0, 0.035 + above],
            [1.0, -1.0, 1.0, -1.0],
        ]
    )
    parts = np.array([[[q.value for q in corner] for corner in o.outline] for o in build.obstacle])
    half = 0.5 * own.cross.height
    shift = above - half
    sense = float(np.atleast_1d(belt_run(Case(build), build.belt[0]).path.sense)[0])
    drive = np.array(
        [
            0.65,
            -0.105,
            0.15,
            math.radians(182),
            math.radians(125),
            shift,
            half,
            sense,
            3450.0 * math.pi / 30.0,
            12.1,
            1.5,
            1240.0 * math.pi / 30.0,
        ]
    )
    found = np.zeros((WHOLE, 8))
    evaluate(fixed, candidates[:64], parts, drive, found)
    rate = WHOLE / seconds(partial(evaluate, fixed, candidates, parts, drive, found))
    print(
        f"whole candidates, compiled loop     {rate:12,.0f} a second; arrays reach "
        f"{arrays / rate:.0%} of it"
    )
    show_agreement(build, found)


def show_agreement(build: Build, found: Array) -> None:
    """Print how far the compiled loop and the arrays lie apart."""
    count = 20_000
    values, price = drawn(WHOLE)
    arrays = whole(build, {key: value[:count] for key, value in values.items()}, price[:count])
    fits = (arrays[0] > 0.0) & (found[:count, 0] > 0.0)
    apart = [
        float(np.max(np.abs(arrays[mine][fits] - found[:count, theirs][fits])))
        for mine, theirs in ((1, 1), (2, 2), (3, 3), (4, 4), (5, 5), (7, 6))
    ]
    print(
        f"  of the first {count:,}, {fits.mean():.1%} fit in both; largest difference of angle, "
        f"slack, wrap, gap, speed, overspeed: {', '.join(f'{a:.0e}' for a in apart)}"
    )


def left_open(power: int) -> str:
    """Ranges whose steps make about ten to that power candidates."""
    each = 10.0 ** (power / 4.0)
    tables = []
    for (of, what), (low, high) in SPANS.items():
        count = max(2, round(each))
        step = (high - low) / (count - 1) * 1000.0
        tables.append(
            f'[[choose.vary]]\nof = "{of}"\nwhat = "{what}"\n'
            f'low = "{low * 1000:g} mm"\nhigh = "{high * 1000:g} mm"\nstep = "{step:.9g} mm"\n'
        )
    return "\n".join(tables)


def show_growth(largest: int) -> None:
    """Print the candidates a second as they grow, every one disposed of exactly."""
    for power in range(4, largest + 1):
        build = read_text(f"{BUILD}\n{left_open(power)}")
        found = choices(build)
        start = time.process_time()
        outcome = search(build, found)
        taken = time.process_time() - start
        rate = outcome.candidates / taken
        turned = sum(each.count for each in outcome.rejections)
        print(
            f"cheap limits first, {outcome.candidates:13,}  {rate:14,.0f} a second "
            f"({taken:6.2f} s, {turned / outcome.candidates:.2%} turned away, "
            f"{len(outcome.found)} stand out)"
        )


def main() -> None:
    """Print everything."""
    build = read_text(BUILD)
    arrays = show_whole(build)
    show_compiled(build, arrays)
    show_growth(int(sys.argv[1]) if len(sys.argv) > 1 else 8)


if __name__ == "__main__":
    main()

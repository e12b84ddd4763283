"""Belt geometry: candidates a second in arrays against a Python loop over single ones.

Four pulleys of which one swings on an arm; the engine pulley and the belt length vary.  Each
candidate gets its path, the arm's angle for the belt, wraps, slack, faults and the clearance to
three parts of four corners.  Run: python benchmarks/belt_path.py
"""

import math
import time
from collections.abc import Callable
from functools import partial

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.band import belt_band
from beltwright.physics.belt.clearance import plan_gap
from beltwright.physics.belt.fault import path_faults
from beltwright.physics.belt.fit import fit_to_length
from beltwright.physics.belt.mount import Arm
from beltwright.physics.belt.path import belt_path
from beltwright.physics.belt.run import Run
from beltwright.physics.outline import Outline

ARM = Arm(0.42, 0.15, 0.13)
RELEASED, FULL = math.radians(20), math.radians(-60)
PARTS = [
    Outline(x + np.array([0, 0.06, 0.06, 0]), y + np.array([0, 0, 0.04, 0.04]), 0.3, 0.4)
    for x, y in ((0.3, -0.02), (0.75, -0.17), (0.7, 0.09))
]
SINGLE = 300
"""Candidates for the loop over single ones."""


def run_of(engine_radius: ArrayLike) -> Run:
    """The run with this radius on the engine pulley [m]."""
    return Run(
        [1.04, 0.56, 0.2, 0.45],
        [0.0, 0.1, 0.0, -0.12],
        [engine_radius, 0.044, 0.09, 0.03],
        [1, -1, 1, 1],
    )


def solve(engine_radius: ArrayLike, pitch_length: ArrayLike) -> Array:
    """Nearest gap of each candidate [m]."""
    fitted = fit_to_length(run_of(engine_radius), 1, ARM, RELEASED, FULL, pitch_length, 1.0)
    band = belt_band(fitted.path, 0.0025, 0.006)
    gap = np.minimum.reduce([plan_gap(band, part) for part in PARTS])
    return np.where((fitted.fit == 0) & (path_faults(fitted.path) == 0), gap, np.nan)


def fastest(job: Callable[[], object], rounds: int = 15) -> float:
    """Shortest of several timings [s]."""
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        job()
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> None:
    """Print candidates a second."""
    rng = np.random.default_rng(1)
    for block in (512, 1024, 2048, 4096, 8192):
        engine = rng.uniform(0.035, 0.06, block)
        length = rng.uniform(2.11, 2.16, block)
        found = solve(engine, length)
        rate = block / fastest(partial(solve, engine, length))
        path = block / fastest(partial(belt_path, run_of(engine), 1.0))
        print(
            f"blocks of {block:5d}: {rate:9,.0f} candidates/s whole, {path:11,.0f} paths/s"
            f" ({np.mean(~np.isnan(found)):.0%} of them fit)"
        )
    pairs = list(zip(engine[:SINGLE].tolist(), length[:SINGLE].tolist(), strict=True))
    single = SINGLE / fastest(lambda: [solve(e, p) for e, p in pairs], rounds=2)
    print(f"one at a time:   {single:9,.0f} candidates/s whole; in blocks ×{rate / single:,.0f}")


if __name__ == "__main__":
    main()

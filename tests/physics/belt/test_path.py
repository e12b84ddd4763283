"""Properties that every belt path must have, and the runs that make none."""

import math
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from beltwright.physics.arrays import Array
from beltwright.physics.belt.fault import path_faults
from beltwright.physics.belt.loop import BeltPath, length_gradient, turning
from beltwright.physics.belt.path import belt_path
from beltwright.physics.belt.run import Run


@dataclass(frozen=True)
class Draw:
    """A random run as plain numbers."""

    x: list[float]
    y: list[float]
    radius: list[float]
    side: list[int]

    def run(self) -> Run:
        return Run(self.x, self.y, self.radius, self.side)


@st.composite
def usable_runs(draw: st.DrawFn) -> Draw:
    """Three to six pulleys round a ring, some pressed in on the back, that make a usable loop."""
    count = draw(st.integers(3, 6))
    x, y, radius, side = [], [], [], []
    for i in range(count):
        inside = i < 2 or draw(st.booleans())
        angle = 2 * math.pi * (i + draw(st.floats(-0.25, 0.25))) / count
        away = draw(st.floats(0.5, 0.8)) if inside else draw(st.floats(0.2, 0.5))
        x.append(away * math.cos(angle))
        y.append(away * math.sin(angle))
        radius.append(draw(st.floats(0.02, 0.12)))
        side.append(1 if inside else -1)
    found = Draw(x, y, radius, side)
    assume(int(path_faults(belt_path(found.run()))) == 0)
    # a pulley that is only just touched tells nothing of its wrap but rounding
    assume(min(float(wrap) for wrap in belt_path(found.run()).wrap) > 1e-3)
    return found


def figures(path: BeltPath) -> list[float]:
    """Length, spans and wraps in the order of the run."""
    spans = [float(span.length) for span in path.spans]
    return [float(path.length), *spans, *(float(wrap) for wrap in path.wrap)]


@given(usable_runs(), st.floats(-math.pi, math.pi), st.floats(-3, 3), st.floats(-3, 3))
def test_turning_and_shifting_the_machine_changes_nothing(
    drawn: Draw, angle: float, right: float, up: float
) -> None:
    c, s = math.cos(angle), math.sin(angle)
    pairs = list(zip(drawn.x, drawn.y, strict=True))
    turned = Run(
        [c * x - s * y + right for x, y in pairs],
        [s * x + c * y + up for x, y in pairs],
        drawn.radius,
        drawn.side,
    )
    assert figures(belt_path(turned)) == pytest.approx(figures(belt_path(drawn.run())), abs=1e-11)


@given(usable_runs())
def test_a_mirrored_machine_has_the_same_belt_the_other_way_round(drawn: Draw) -> None:
    path = belt_path(drawn.run())
    mirrored = belt_path(Run(drawn.x, [-y for y in drawn.y], drawn.radius, drawn.side))
    assert float(mirrored.sense) == -float(path.sense)
    assert figures(mirrored) == pytest.approx(figures(path), abs=1e-12)


@given(usable_runs())
def test_the_order_backwards_is_the_same_belt(drawn: Draw) -> None:
    path = belt_path(drawn.run())
    backwards = belt_path(Run(drawn.x[::-1], drawn.y[::-1], drawn.radius[::-1], drawn.side[::-1]))
    assert float(backwards.sense) == -float(path.sense)
    assert float(backwards.length) == pytest.approx(float(path.length), rel=1e-13)
    assert [float(w) for w in backwards.wrap[::-1]] == pytest.approx(
        [float(w) for w in path.wrap], abs=1e-12
    )


@given(usable_runs(), st.integers(1, 5))
def test_where_the_order_starts_does_not_matter(drawn: Draw, start: int) -> None:
    order = [(start + i) % len(drawn.x) for i in range(len(drawn.x))]
    path = belt_path(drawn.run())
    other = belt_path(
        Run(
            [drawn.x[i] for i in order],
            [drawn.y[i] for i in order],
            [drawn.radius[i] for i in order],
            [drawn.side[i] for i in order],
        )
    )
    assert float(other.length) == pytest.approx(float(path.length), rel=1e-13)
    assert [float(w) for w in other.wrap] == pytest.approx(
        [float(path.wrap[i]) for i in order], abs=1e-12
    )


@given(usable_runs(), st.floats(0.1, 10.0))
def test_a_larger_machine_has_a_larger_belt(drawn: Draw, scale: float) -> None:
    larger = Run(
        [scale * x for x in drawn.x],
        [scale * y for y in drawn.y],
        [scale * radius for radius in drawn.radius],
        drawn.side,
    )
    length = float(belt_path(drawn.run()).length)
    assert float(belt_path(larger).length) == pytest.approx(scale * length, rel=1e-13)


@given(usable_runs())
def test_the_length_grows_as_its_derivatives_say(drawn: Draw) -> None:
    """Central differences of 1e-5 m: their own error is of the order of the step squared over the
    square of the shortest span or radius, 1e-10 / 1e-4, and rounding 1e-16 / 1e-5."""
    run, step = drawn.run(), 1e-5
    path = belt_path(run)
    assume(min(float(span.length) for span in path.spans) > 0.02)
    for i, (along_x, along_y) in enumerate(length_gradient(path)):
        for gradient, dx, dy in ((along_x, step, 0.0), (along_y, 0.0, step)):
            far, near = (
                float(belt_path(run.moved(i, drawn.x[i] + k * dx, drawn.y[i] + k * dy)).length)
                for k in (1, -1)
            )
            assert (far - near) / (2 * step) == pytest.approx(float(gradient), abs=1e-6)


@given(usable_runs())
def test_the_length_grows_with_a_radius_by_the_wrap(drawn: Draw) -> None:
    """Error of the difference as for the centres."""
    path, step = belt_path(drawn.run()), 1e-5
    assume(min(float(span.length) for span in path.spans) > 0.02)
    for i, radius in enumerate(drawn.radius):
        lengths = []
        for k in (1, -1):
            radii = [*drawn.radius]
            radii[i] = radius + k * step
            lengths.append(float(belt_path(Run(drawn.x, drawn.y, radii, drawn.side)).length))
        growth = (lengths[0] - lengths[1]) / (2 * step)
        assert growth == pytest.approx(float(path.wrap[i]), abs=1e-6)


@given(usable_runs())
def test_tangent_points_lie_on_both_and_the_belt_turns_once(drawn: Draw) -> None:
    path = belt_path(drawn.run())
    assert float(turning(path)) == pytest.approx(2 * math.pi, abs=1e-11)
    for i, span in enumerate(path.spans):
        j = (i + 1) % len(drawn.x)
        for k, x, y in ((i, span.start_x, span.start_y), (j, span.end_x, span.end_y)):
            spoke = np.array([float(x) - drawn.x[k], float(y) - drawn.y[k]])
            heading = np.array([float(span.heading_x), float(span.heading_y)])
            assert np.linalg.norm(spoke) == pytest.approx(drawn.radius[k], rel=1e-11)
            assert float(spoke @ heading) == pytest.approx(0.0, abs=1e-13)
        along = math.hypot(
            float(span.end_x) - float(span.start_x), float(span.end_y) - float(span.start_y)
        )
        assert along == pytest.approx(float(span.length), rel=1e-10, abs=1e-13)


@given(usable_runs(), st.integers(0, 2**32 - 1))
def test_many_at_once_are_the_same_as_one_at_a_time(drawn: Draw, seed: int) -> None:
    """Equal to rounding: the vector and the scalar arctangent may differ in the last digit."""
    rng, count = np.random.default_rng(seed), 5

    def near(values: list[float]) -> list[Array]:
        return [value + rng.uniform(-0.01, 0.01, count) for value in values]

    x, y, radius = near(drawn.x), near(drawn.y), near(drawn.radius)
    together = belt_path(Run(x, y, radius, drawn.side))
    for i in range(count):
        alone = belt_path(
            Run(
                [float(v[i]) for v in x],
                [float(v[i]) for v in y],
                [float(v[i]) for v in radius],
                drawn.side,
            )
        )
        assert float(together.length[i]) == pytest.approx(float(alone.length), rel=1e-14)
        wraps = [float(np.broadcast_to(wrap, count)[i]) for wrap in together.wrap]
        assert wraps == pytest.approx([float(w) for w in alone.wrap], abs=1e-12)


def test_what_does_not_vary_is_worked_out_once() -> None:
    engine_radius = np.linspace(0.03, 0.06, 7)
    run = Run(
        [0.0, 0.5, 0.5, 0.0], [0.0, 0.0, 0.4, 0.4], [engine_radius, 0.05, 0.05, 0.05], [1] * 4
    )
    path = belt_path(run)
    assert [np.shape(span.length) for span in path.spans] == [(7,), (), (), (7,)]
    assert path.length.shape == (7,)


def test_the_sense_is_found_for_each_candidate() -> None:
    beside = np.array([0.3, -0.3])
    path = belt_path(Run([0.0, 1.0, 0.5], [0.0, 0.0, beside], [0.05] * 3, [1] * 3))
    assert path.sense.tolist() == [1.0, -1.0]
    assert float(path.length[0]) == pytest.approx(float(path.length[1]), rel=1e-14)


def test_an_idler_that_could_press_on_either_side_presses_the_nearer() -> None:
    run = Run([0.0, 1.0, 0.5], [0.0, 0.0, np.array([0.05, -0.05])], [0.2, 0.2, 0.1], [1, 1, -1])
    assert belt_path(run).sense.tolist() == [1.0, -1.0]


@pytest.mark.parametrize(
    ("x", "y", "radius", "side", "says"),
    [
        ([0.0], [0.0], [0.1], [1], "at least two"),
        ([0.0, 1.0], [0.0, 0.0], [0.1], [1, 1], "one entry for each"),
        ([0.0, 1.0], [0.0, 0.0], [0.1, 0.1], [1, 0], "side is"),
    ],
)
def test_a_run_that_is_none_is_refused(
    x: list[float], y: list[float], radius: list[float], side: list[int], says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        Run(x, y, radius, side)

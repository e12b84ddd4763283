"""Belt clearances against Shapely (the GEOS library): the belt drawn as a fine polyline.

The polyline's chords stand inside their arcs by r (1 - cos(step / 2)); with 4 000 chords a turn and
radii up to 0.12 m that is 4e-8 m, which sets the tolerance.
"""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LinearRing, LineString, Polygon

from beltwright.physics.belt.band import belt_band
from beltwright.physics.belt.clearance import clearance, plan_gap
from beltwright.physics.belt.fault import path_faults
from beltwright.physics.belt.flap import flap_gap, free_bow
from beltwright.physics.belt.loop import BeltPath
from beltwright.physics.belt.own_gap import span_gaps
from beltwright.physics.belt.path import belt_path
from beltwright.physics.belt.run import Run
from beltwright.physics.outline import Outline

CHORD = 2 * math.pi / 4000
CHORD_ERROR = 4e-8

RUNS = [
    Run([0.0, 0.6], [0.0, 0.0], [0.05, 0.11], [1, 1]),
    Run(
        [1.04, 0.56, 0.2, 0.45], [0.0, 0.07, 0.0, -0.12], [0.047, 0.044, 0.09, 0.03], [1, -1, 1, 1]
    ),
    Run([0.0, 0.3, 0.6, 0.3], [0.0, -0.12, 0.0, 0.11], [0.1, 0.03, 0.1, 0.03], [1, -1, 1, -1]),
    Run([0.0, 1.0, 0.5], [0.0, 0.0, -0.6], [0.1, 0.05, 0.08], [1, 1, 1]),
]


def polyline(path: BeltPath) -> list[tuple[float, float]]:
    """Points along the belt, from the pulleys' centres, radii and the angles of the spans."""
    run = path.run
    points: list[tuple[float, float]] = []
    for i in range(len(run)):
        meets = path.spans[i - 1]
        way = float(path.sense) * run.side[i]
        first = math.atan2(-way * float(meets.heading_x), way * float(meets.heading_y))
        count = max(2, math.ceil(float(path.wrap[i]) / CHORD))
        points.extend(
            (
                float(run.x[i]) + float(run.radius[i]) * math.cos(angle),
                float(run.y[i]) + float(run.radius[i]) * math.sin(angle),
            )
            for angle in first + way * np.linspace(0.0, float(path.wrap[i]), count)
        )
    return points


def test_the_polyline_is_the_belt() -> None:
    for run in RUNS:
        path = belt_path(run)
        assert int(path_faults(path)) == 0
        assert LinearRing(polyline(path)).length == pytest.approx(float(path.length), rel=1e-6)


outlines = st.builds(
    lambda x, y, size, turn, corners: Outline(
        x + size * np.cos(turn + 2 * np.pi * np.arange(corners) / corners),
        y + 0.6 * size * np.sin(turn + 2 * np.pi * np.arange(corners) / corners),
        0.3,
        0.4,
    ),
    st.floats(-0.3, 1.3),
    st.floats(-0.8, 0.4),
    st.floats(0.005, 0.3),
    st.floats(0, 6.3),
    st.integers(3, 6),
)


@given(st.sampled_from(RUNS), outlines)
def test_distance_to_an_outline(run: Run, outline: Outline) -> None:
    path = belt_path(run)
    part = Polygon(list(zip(outline.x, outline.y, strict=True)))
    expected = part.distance(LinearRing(polyline(path)))
    near = clearance(belt_band(path, 0.0, 0.0), 0.33, 0.34, outline)
    assert float(near.plan_gap) == pytest.approx(expected, abs=CHORD_ERROR)
    belt = LineString(polyline(path))
    if expected > 0.0:
        place = float(near.part_x), float(near.part_y)
        on_belt = float(near.belt_x), float(near.belt_y)
        assert math.dist(place, on_belt) == pytest.approx(float(near.gap), abs=1e-12)
        assert part.exterior.distance(_point(place)) == pytest.approx(0.0, abs=1e-12)
        assert LinearRing(belt).distance(_point(on_belt)) == pytest.approx(0.0, abs=CHORD_ERROR)


def _point(place: tuple[float, float]) -> LineString:
    return LineString([place, place])


@given(st.sampled_from(RUNS), outlines, st.floats(0.0, 0.004), st.floats(0.0, 0.008))
def test_distance_to_the_belt_in_its_width(
    run: Run, outline: Outline, above: float, below: float
) -> None:
    """The band is drawn between its two edges; buffering by GEOS is not needed."""
    path = belt_path(run)
    band = belt_band(path, above, below)
    part = Polygon(list(zip(outline.x, outline.y, strict=True)))
    belt = LinearRing(polyline(band.middle))
    expected = part.distance(belt) - float(band.half)
    assert float(plan_gap(band, outline)) == pytest.approx(expected, abs=CHORD_ERROR)


@pytest.mark.parametrize("run", RUNS)
def test_an_outline_round_the_whole_belt_is_in_its_way(run: Run) -> None:
    frame = Outline(np.array([-9.0, 9.0, 9.0, -9.0]), np.array([-9.0, -9.0, 9.0, 9.0]), 0.0, 1.0)
    assert float(plan_gap(belt_band(belt_path(run), 0.001, 0.001), frame)) == -0.001


@pytest.mark.parametrize("run", [RUNS[1], RUNS[2]])
def test_distance_of_two_spans(run: Run) -> None:
    path = belt_path(run)
    lines = [
        LineString([(float(s.start_x), float(s.start_y)), (float(s.end_x), float(s.end_y))])
        for s in path.spans
    ]
    for gap in span_gaps(belt_band(path, 0.0, 0.01)):
        # the band's middle lies half its height inside the pitch line
        middle = belt_band(path, 0.0, 0.01).middle.spans
        ends = [
            LineString(
                [
                    (float(middle[k].start_x), float(middle[k].start_y)),
                    (float(middle[k].end_x), float(middle[k].end_y)),
                ]
            )
            for k in (gap.first, gap.second)
        ]
        assert float(gap.gap) == pytest.approx(ends[0].distance(ends[1]) - 0.01, abs=1e-12)
        assert lines[gap.first].distance(lines[gap.second]) > 0.0


@given(st.floats(0.05, 2.0), st.floats(0.0, 0.2))
def test_bow_of_a_slack_span(length: float, share: float) -> None:
    """Length of the parabola by quadrature, to the stated 5 % up to a fifth of the span."""
    bow = share * length
    s = np.linspace(0.0, length, 4001)
    y = 4 * bow * s * (length - s) / length**2
    excess = float(np.hypot(np.diff(s), np.diff(y)).sum()) - length
    assume(excess > 1e-9)
    found = float(free_bow(length, excess))
    assert found == pytest.approx(bow, rel=0.05)
    assert found <= bow * (1 + 1e-6)


@given(outlines, st.floats(1e-4, 0.12), st.integers(0, 1))
def test_gap_to_a_bowing_span(outline: Outline, bow: float, span: int) -> None:
    """Shapely's distance to the lens between the two bows: the bound holds and is close."""
    path = belt_path(RUNS[0])
    line = path.spans[span]
    length = float(line.length)
    s = np.linspace(0.0, length, 2001)
    y = 4 * bow * s * (length - s) / length**2
    ux, uy = float(line.heading_x), float(line.heading_y)

    def bowed(way: float) -> list[tuple[float, float]]:
        return [
            (
                float(line.start_x) + a * ux - way * b * uy,
                float(line.start_y) + a * uy + way * b * ux,
            )
            for a, b in zip(s, y, strict=True)
        ]

    part = Polygon(list(zip(outline.x, outline.y, strict=True)))
    lens = Polygon(bowed(1.0) + bowed(-1.0)[-2:0:-1])
    straight = LineString(bowed(0.0))
    assume(part.distance(straight) > 0.0)
    expected = part.distance(lens)
    found = float(flap_gap(belt_band(path, 0.0, 0.0), span, bow, outline))
    at_rest = float(plan_gap(belt_band(path, 0.0, 0.0), outline))
    # what faces the ends of the span is left to the belt at rest
    if found > 0.0:
        assert min(found, at_rest) <= expected + 1e-6
    else:
        assert expected == pytest.approx(0.0, abs=1e-6)

"""The set of unbeaten candidates against comparing each with each."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from beltwright.options.front import Candidate, Front
from beltwright.options.merit import CLEARANCE, COST, MERITS, scores

TABLES = st.lists(st.tuples(*[st.integers(0, 4)] * 3), min_size=1, max_size=40)


def _unbeaten(rows: list[tuple[int, ...]]) -> set[int]:
    """Rows that no other is as good as everywhere and better somewhere; the first of equals."""
    kept = set()
    for n, mine in enumerate(rows):
        beaten = any(
            all(a <= b for a, b in zip(other, mine, strict=True)) and (other != mine or m < n)
            for m, other in enumerate(rows)
            if m != n
        )
        if not beaten:
            kept.add(n)
    return kept


@given(TABLES, st.integers(1, 7))
def test_it_holds_what_nothing_beats(rows: list[tuple[int, ...]], block: int) -> None:
    front = Front(3)
    for start in range(0, len(rows), block):
        part = np.array(rows[start : start + block], dtype=float)
        candidates: list[Candidate] = [(start + n,) for n in range(len(part))]
        front.offer(candidates, part, part)
    assert {candidate[0] for candidate in front.candidates} == _unbeaten(rows)
    for n, candidate in enumerate(front.candidates):
        assert tuple(front.values[n]) == rows[candidate[0]]


@given(TABLES, st.randoms(use_true_random=False))
def test_the_order_does_not_matter(rows: list[tuple[int, ...]], random: object) -> None:
    order = list(range(len(rows)))
    random.shuffle(order)  # type: ignore[attr-defined]
    front, other = Front(3), Front(3)
    for place in range(len(rows)):
        one = np.array([rows[place]], dtype=float)
        front.offer([(place,)], one, one)
        two = np.array([rows[order[place]]], dtype=float)
        other.offer([(order[place],)], two, two)
    assert set(front.candidates) == set(other.candidates)


@given(TABLES, st.sets(st.integers(0, 39)))
def test_what_is_not_allowed_hides_nothing(rows: list[tuple[int, ...]], refused: set[int]) -> None:
    front = Front(3)
    table = np.array(rows, dtype=float)
    front.offer([(n,) for n in range(len(rows))], table, table, lambda c: c[0] not in refused)
    left = [n for n in range(len(rows)) if n not in refused]
    expected = {left[n] for n in _unbeaten([rows[n] for n in left])}
    assert {candidate[0] for candidate in front.candidates} == expected


def test_it_is_ranked_by_the_merit_asked_for() -> None:
    front = Front(2)
    table = np.array([[1.0, 9.0], [2.0, 5.0], [3.0, 1.0]])
    front.offer([(0,), (1,), (2,)], table, table)
    assert [front.candidates[n] for n in front.ranked(0)] == [(0,), (1,), (2,)]
    assert [front.candidates[n] for n in front.ranked(1)] == [(2,), (1,), (0,)]


def test_more_clearance_and_less_money_score_lower() -> None:
    values = np.zeros((2, len(MERITS)))
    values[1, MERITS.index(COST)] = 10.0
    values[0, MERITS.index(CLEARANCE)] = 0.01
    cheap_and_clear, dear_and_tight = scores(MERITS, values)
    assert np.all(cheap_and_clear <= dear_and_tight)
    assert np.any(cheap_and_clear < dear_and_tight)


def test_what_cannot_be_measured_apart_scores_the_same() -> None:
    values = np.zeros((2, len(MERITS)))
    values[:, MERITS.index(CLEARANCE)] = [0.01, 0.0101]
    first, second = scores(MERITS, values)
    assert first.tolist() == second.tolist()

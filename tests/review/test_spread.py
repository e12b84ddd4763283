"""What to measure next."""

from numpy.testing import assert_allclose

from beltwright.build.model import Build
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind, read_quantity
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Finding
from beltwright.review.judging import judge
from beltwright.review.measuring import how_to_measure
from beltwright.review.spread import measure_next

WIDE = read_quantity("100 ± 6 mm", Kind.LENGTH, "pulley.big one.outside")
NARROW = read_quantity("100 ± 3 mm", Kind.LENGTH, "pulley.small one.outside")


def answered(case: Case, at_most: float) -> tuple[Finding, Draft | None]:
    def answer() -> Draft:
        total: Array = case.si(WIDE) + case.si(NARROW)
        return Draft(
            kind=Kind.LENGTH,
            value=total,
            at_most=at_most,
            meaning="m",
            formula="f",
            working="w",
            source="s",
        )

    return judge(case, "Belt", Ask("sum", "Sum", answer))


def test_shares_of_a_sum_are_its_variances() -> None:
    """Var(a ± 6) : Var(a ± 3) = 36 : 9, so the shares are 0.8 and 0.2."""
    case = Case(Build(format=1, name="empty"), samples=4000)
    wide, narrow = measure_next(case, [answered(case, at_most=0.2)])
    assert wide.key == WIDE.key
    assert_allclose([wide.share, narrow.share], [0.8, 0.2], atol=0.02)
    assert wide.settles == ("sum",)


def test_what_is_sound_needs_no_measuring() -> None:
    case = Case(Build(format=1, name="empty"), samples=400)
    assert measure_next(case, [answered(case, at_most=1.0)]) == ()


def test_nothing_is_ranked_without_tolerances() -> None:
    case = Case(Build(format=1, name="empty"), samples=0)
    assert measure_next(case, [answered(case, at_most=0.2)]) == ()


def test_what_no_tool_settles_is_not_to_be_measured() -> None:
    case = Case(Build(format=1, name="empty"), samples=400)
    ground = read_quantity("100 ± 6 mm", Kind.LENGTH, "ground.mud.grip")

    def answer() -> Draft:
        total: Array = case.si(ground) + case.si(NARROW)
        return Draft(
            value=total,
            kind=Kind.LENGTH,
            at_most=0.2,
            meaning="",
            formula="",
            working="",
            source="",
        )

    judged = judge(case, "Pull and climb", Ask("sum", "Sum", answer))
    assert [each.key for each in measure_next(case, [judged])] == [NARROW.key]


def test_every_input_says_how_it_is_measured() -> None:
    assert "caliper" in how_to_measure(WIDE)
    assert how_to_measure(read_quantity("0.3", Kind.RATIO, "x"))

"""What to measure next."""

from numpy.testing import assert_allclose

from beltwright.build.model import Build
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind, read_quantity
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Finding
from beltwright.review.judging import judge
from beltwright.review.measuring import how_to_measure, name_of
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


def test_keys_are_named_in_words() -> None:
    assert name_of("pulley.engine pulley.outside") == "outside of engine pulley"
    assert name_of("shaft.engine.at.0") == "place x of engine"
    assert name_of("engine.no_load") == "no load of engine"
    assert name_of("throttle.arm.closed") == "closed of the throttle arm"
    assert name_of("throttle.spring.pedal spring.rate") == "rate of pedal spring"


def test_what_may_be_supposed_has_a_name_of_its_own() -> None:
    assert name_of("engine.idle") == "engine speed at idle"
    assert name_of("belt.long belt.friction") == "friction of the long belt in its grooves"


def test_every_input_says_how_it_is_measured() -> None:
    assert "caliper" in how_to_measure(WIDE)
    assert how_to_measure(read_quantity("0.3", Kind.RATIO, "x"))

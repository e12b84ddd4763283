"""What the review says about measured holes."""

from collections.abc import Callable

import pytest

from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.thread.findings import questions
from beltwright.review.thread.holes import OILED, larger_threads, share, strength

Cart = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]


def hole(diameter: str, thread: str, *more: str) -> tuple[str, str]:
    """The cart with one measured hole."""
    lines = ["[[hole]]", 'name = "boss"', f'diameter = "{diameter}"', f'thread = "{thread}"', *more]
    return ("[brake]", "\n".join([*lines, "[brake]"]))


STEEL = ('depth = "12 mm"', 'material = "steel"')


def test_a_cart_without_holes_is_not_asked(answers: Answers) -> None:
    assert answers(questions) == {}


@pytest.mark.parametrize(
    ("bore", "verdict"),
    [
        ("8.5 mm", Verdict.SOUND),
        ("8.9 mm", Verdict.MARGINAL),
        ("9.2 mm", Verdict.STOP),
        ("10.5 mm", Verdict.STOP),
    ],
)
def test_a_wider_hole_turns_the_verdict(answers: Answers, bore: str, verdict: Verdict) -> None:
    assert answers(questions, hole(bore, "M10"))["thread.boss.share"].verdict is verdict


def test_a_wide_tolerance_makes_it_marginal(answers: Answers) -> None:
    sure = answers(questions, hole("8.75 ± 0.02 mm", "M10"), samples=300)["thread.boss.share"]
    unsure = answers(questions, hole("8.75 ± 0.4 mm", "M10"), samples=300)["thread.boss.share"]
    assert sure.verdict is Verdict.SOUND
    assert unsure.verdict is Verdict.MARGINAL
    assert unsure.remedy
    assert unsure.low is not None
    assert unsure.value is not None
    assert unsure.high is not None
    assert unsure.low < unsure.value < unsure.high


def test_the_basis_is_told(answers: Answers) -> None:
    working = answers(questions, hole("8.5 mm", "M10"))["thread.boss.share"].working
    assert "1.299" in working
    assert "1.083" in working


def test_the_next_sizes_up_are_offered(cart: Cart, answers: Answers) -> None:
    changed = hole("9.2 mm", "M10")
    case = cart(changed)
    names = [way.name for way in larger_threads(case, case.build.hole[0])]
    assert names[:2] == ["M12x1.75", "M12x1.5"]
    remedy = answers(questions, changed)["thread.boss.share"].remedy
    assert "M12x1.75" in remedy
    assert "wire insert for M10x1.5" in remedy
    assert "10.3 mm" in remedy


def test_thin_metal_offers_nothing(answers: Answers) -> None:
    found = answers(questions, hole("9.2 mm", "M10", 'room = "1 mm"'))["thread.boss.share"]
    assert found.remedy.startswith("No larger thread")


def test_inch_builders_get_inch_drills(answers: Answers) -> None:
    change = hole("0.33 in", "3/8-16 UNC", 'depth = "1/2 in"')
    everything = ('wheelbase = "1200 ± 5 mm"', 'wheelbase = "47 1/4 in"')
    show = ("[machine]", '[show]\nlength = "in"\n[machine]')
    found = answers(questions, change, everything, show)["thread.boss.share"]
    assert found.verdict is Verdict.MARGINAL
    assert "7/16-14" in found.remedy
    assert " mm" not in found.remedy


def test_a_hole_too_small_is_drilled_first(answers: Answers) -> None:
    found = answers(questions, hole("8.0 mm", "M10"))["thread.boss.share"]
    assert found.verdict is Verdict.SOUND
    assert found.remedy == "Drill it to 8.54 mm (nearest drill 8.5 mm) before you tap it."


def test_depth_decides_what_breaks_first(cart: Cart, answers: Answers) -> None:
    deep = answers(questions, hole("8.5 mm", "M10", *STEEL))["thread.boss.strength"]
    soft = answers(questions, hole("8.5 mm", "M10", 'depth = "12 mm"', 'material = "aluminium"'))[
        "thread.boss.strength"
    ]
    assert deep.verdict is Verdict.SOUND
    assert soft.verdict is Verdict.MARGINAL
    assert "strips before" in soft.meaning
    case = cart(hole("8.5 mm", "M10", *STEEL))
    found = strength(case, case.build.hole[0])
    assert found.preload <= 0.5 * found.strips
    assert found.torque == pytest.approx(OILED * 0.01 * found.preload)


def test_a_bolt_that_drops_through_holds_nothing(cart: Cart) -> None:
    case = cart(hole("10.2 mm", "M10", *STEEL))
    assert strength(case, case.build.hole[0]).strips == 0.0
    assert share(case, case.build.hole[0]) < 0.0


def test_strength_asks_for_depth_and_metal(answers: Answers) -> None:
    found = answers(questions, hole("8.5 mm", "M10"))["thread.boss.strength"]
    assert found.verdict is Verdict.NOT_KNOWN
    assert "material" in found.remedy
    found = answers(questions, hole("8.5 mm", "M10", 'material = "steel"'))["thread.boss.strength"]
    assert "depth" in found.remedy


@pytest.mark.parametrize("thread", ["M10.5", "UNC", "5/8 NPT"])
def test_a_thread_that_no_standard_has(answers: Answers, thread: str) -> None:
    found = next(iter(answers(questions, hole("8.5 mm", thread)).values()))
    assert found.verdict is Verdict.NOT_KNOWN
    assert found.remedy.startswith("Write one that is known, for example ")
    assert found.meaning.startswith("Nothing is known here of thread ")


@pytest.mark.parametrize(
    ("bore", "verdict", "says"),
    [
        ("8.74 mm", Verdict.SOUND, "turns are left"),
        ("8.3 mm", Verdict.SOUND, "will take the thread"),
        ("8.83 mm", Verdict.STOP, "binds too late"),
        ("9.2 mm", Verdict.STOP, "never seal"),
    ],
)
def test_a_taper_thread_seats_or_not(
    answers: Answers, bore: str, verdict: Verdict, says: str
) -> None:
    found = answers(questions, hole(bore, "1/8 NPT"))["thread.boss.seat"]
    assert found.verdict is verdict
    assert says in found.meaning


def test_the_next_taper_size_is_offered(answers: Answers) -> None:
    found = answers(questions, hole("9.2 mm", "1/8 NPT"))["thread.boss.seat"]
    assert "1/4 NPT" in found.remedy
    british = answers(questions, hole("9.6 mm", "R 1/8"))["thread.boss.seat"]
    assert "1/4 R" in british.remedy

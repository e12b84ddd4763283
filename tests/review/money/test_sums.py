"""Money: sums, budget, what has no price and what has no entry."""

import numpy as np
import pytest

from beltwright.build.errors import BuildError
from beltwright.build.reading import read_text
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge
from beltwright.review.money.findings import questions
from beltwright.review.money.sums import money

HEAD = """\
format = 1
name = "Trial"
[goals]
budget = "{budget}"
[[shaft]]
name = "engine"
at = ["0 mm", "0 mm"]
[[pulley]]
name = "drive"
shaft = "engine"
outside = "95 mm"
groove = "A"
"""

PARTS = """\
[[part]]
name = "pulley"
use = "drive"
from = "shop"
price = "24 EUR"
have = true
[[part]]
name = "bolts"
from = "shop"
price = "1.50 EUR"
quantity = 4
[[part]]
name = "guard"
from = "make"
price = "5 ± 2 EUR"
[[part]]
name = "spring"
from = "donor: mower"
"""


def findings(text: str, samples: int = 0) -> dict[str, Finding]:
    """Give the findings about money by their ids."""
    case = Case(read_text(text), samples)
    return {ask.id: judge(case, "Money", ask)[0] for ask in questions(case)}


def test_the_sums() -> None:
    sums = money(Case(read_text(HEAD.format(budget="40 EUR") + PARTS)))
    assert (sums.spent[0], sums.to_buy[0], sums.to_make[0]) == (24.0, 6.0, 5.0)
    assert sums.total[0] == 24.0 + 4 * 1.5 + 5.0
    assert sums.unpriced == ()


@pytest.mark.parametrize(
    ("budget", "verdict", "says"),
    [
        ("40 EUR", Verdict.SOUND, "5 EUR of the budget of 40 EUR are left"),
        ("at most 35 EUR", Verdict.SOUND, "0 EUR"),
        ("30 EUR", Verdict.MARGINAL, "5 EUR over the budget"),
    ],
)
def test_the_budget(budget: str, verdict: Verdict, says: str) -> None:
    total = findings(HEAD.format(budget=budget) + PARTS)["money.total"]
    assert total.verdict is verdict
    assert says in total.meaning


def test_over_the_budget_names_the_dearest() -> None:
    total = findings(HEAD.format(budget="30 EUR") + PARTS)["money.total"]
    assert "pulley (24 EUR)" in total.remedy


def test_a_price_that_may_be_higher_makes_it_marginal() -> None:
    total = findings(HEAD.format(budget="36 EUR") + PARTS, samples=500)["money.total"]
    assert total.verdict is Verdict.MARGINAL
    assert total.low is not None
    assert total.high is not None
    assert 33.0 < total.low < 35.0 < total.high < 37.0


def test_a_part_to_buy_without_a_price_leaves_the_total_open() -> None:
    text = HEAD.format(budget="40 EUR") + PARTS + '[[part]]\nname = "belt"\nfrom = "shop"\n'
    total = findings(text)["money.total"]
    assert total.verdict is Verdict.NOT_KNOWN
    assert "belt" in total.meaning
    assert total.value == 35.0


def test_no_parts_at_all_is_not_known() -> None:
    found = findings(HEAD.format(budget="40 EUR"))
    assert found["money.total"].verdict is Verdict.NOT_KNOWN
    assert "[[part]]" in found["money.total"].remedy
    assert set(found) == {"money.total"}


def test_what_no_part_serves_is_named() -> None:
    text = HEAD.format(budget="40 EUR") + PARTS
    assert findings(text)["money.missing"].verdict is Verdict.SOUND
    missing = findings(text.replace('use = "drive"\n', ""))["money.missing"]
    assert missing.verdict is Verdict.NOT_KNOWN
    assert "drive" in missing.meaning


MORE = """
[[shaft]]
name = "second"
at = ["500 mm", "0 mm"]
[[idler]]
name = "clutch idler"
outside = "80 mm"
[idler.arm]
pivot = ["200 mm", "0 mm"]
length = "100 mm"
released = "10 deg"
[idler.arm.spring]
rate = "3 N/mm"
free = "90 mm"
arm_hook = ["50 mm", "0 mm"]
frame_hook = ["0 mm", "50 mm"]
[[chain]]
name = "final chain"
size = "08B"
driver = { shaft = "engine", teeth = 12 }
driven = { shaft = "second", teeth = 24 }
[[plate]]
name = "bracket"
rectangle = ["80 mm", "60 mm"]
"""


@pytest.mark.parametrize(
    "name", ["clutch idler", "spring of the clutch idler", "final chain", "bracket"]
)
def test_springs_chains_and_plates_want_an_entry_too(name: str) -> None:
    uses = ["clutch idler", "spring of the clutch idler", "final chain", "bracket"]
    rows = [f'[[part]]\nname = "x {use}"\nuse = "{use}"\n' for use in uses if use != name]
    text = HEAD.format(budget="40 EUR") + MORE + PARTS + "".join(rows)
    assert findings(text)["money.missing"].meaning.endswith(f": {name}.")
    whole = text + f'[[part]]\nname = "{name}"\nuse = "{name}"\n'
    assert findings(whole)["money.missing"].verdict is Verdict.SOUND


def test_what_is_still_to_be_paid() -> None:
    owed = findings(HEAD.format(budget="40 EUR") + PARTS)["money.to_buy"]
    assert owed.value == 11.0
    assert "bolts 6 EUR" in owed.meaning


def test_candidates_agree_with_single_builds() -> None:
    build = read_text(HEAD.format(budget="40 EUR") + PARTS)
    prices = np.array([1.0, 2.0, 3.0])
    many = money(Case(build, replaced={"part.bolts.price": prices})).total
    single = [
        money(Case(build, replaced={"part.bolts.price": np.array([price])})).total[0]
        for price in prices
    ]
    np.testing.assert_array_equal(many, single)


def test_two_currencies_are_refused_when_read() -> None:
    with pytest.raises(BuildError, match="Convert it to EUR"):
        read_text(HEAD.format(budget="40 EUR") + PARTS.replace("24 EUR", "24 USD"))

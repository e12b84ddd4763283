"""Tyre sizes are read as moulded; what is a rule of thumb says so."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.quantity import QuantityError, read_tyre


@pytest.mark.parametrize(
    "text", ["20x8-8", "20×8.00-8", "20 X 8.00 - 8 NHS", "20x8R8", "20x8.00-8 4PR TL", "AT20x8-8"]
)
def test_spellings(text: str) -> None:
    tyre = read_tyre(text)
    sizes = [part.value / 0.0254 for part in (tyre.outside, tyre.width, tyre.rim)]
    assert sizes == pytest.approx([20, 8, 8], rel=1e-15)


def test_two_numbers_are_a_rule_of_thumb_that_says_so() -> None:
    tyre = read_tyre("4.80/4.00-8")
    assert tyre.width.value == pytest.approx(4.8 * 0.0254, rel=1e-15)
    assert "rule of thumb" in tyre.outside.assumed
    assert tyre.outside.plus > read_tyre("16x4.80-8").outside.plus


@pytest.mark.parametrize("text", ["", "400x100", "banana", "8x20-8", "20x8-24", "0x0-0", "1" * 99])
def test_refusals(text: str) -> None:
    with pytest.raises(QuantityError, match="sidewall"):
        read_tyre(text)


@given(st.text(alphabet="0123456789.xX×/-R PRATNHS", max_size=45))
def test_no_text_does_worse_than_a_refusal(text: str) -> None:
    try:
        tyre = read_tyre(text)
    except QuantityError:
        return
    assert 0 < tyre.rim.value < tyre.outside.low + tyre.outside.plus

"""Contrast of colours.

WCAG 2.2, W3C Recommendation (2023), definitions "relative luminance" and "contrast ratio":
black on white is 21 : 1 by definition. #767676 is the darkest-needed grey that still gives
4.5 : 1 on white and #777777 no longer does; #949494 gives 3 : 1 and #959595 does not
(widely published examples; from memory).
"""

import pytest

from beltwright.drawing.palette import contrast, relative_luminance


def test_black_on_white() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0, abs=1e-12)


@pytest.mark.parametrize(
    ("grey", "limit", "passes"),
    [
        ("#767676", 4.5, True),
        ("#777777", 4.5, False),
        ("#949494", 3.0, True),
        ("#959595", 3.0, False),
    ],
)
def test_published_edges(grey: str, limit: float, passes: bool) -> None:
    assert (contrast(grey, "#ffffff") >= limit) is passes


def test_primaries_have_their_coefficients() -> None:
    """The definition weighs red, green and blue by 0.2126, 0.7152 and 0.0722."""
    primaries = [relative_luminance(c) for c in ("#ff0000", "#00ff00", "#0000ff")]
    assert primaries == pytest.approx([0.2126, 0.7152, 0.0722], abs=1e-12)

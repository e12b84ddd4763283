"""The bands of charts are the ranges of findings."""

import subprocess
import sys

import numpy as np
import pytest

from beltwright.review.judging import HIGH_PERCENT, LOW_PERCENT, percentiles
from beltwright.views.charts.band import banded

BAND = """
import sys
import numpy as np
from beltwright.views.charts.band import banded
banded("speed", [0.0], [np.linspace(0.0, 1.0, 50)])
print("numpy.ma" in sys.modules)
"""


def test_a_band_is_the_range_of_a_finding() -> None:
    draws = np.random.default_rng(1).normal(size=201)
    draws[7] = np.nan
    series = banded("speed", [0.0], [draws])
    assert series.low is not None
    assert series.high is not None
    ends = (series.low[0], series.high[0])
    assert ends == percentiles(draws, LOW_PERCENT, HIGH_PERCENT)
    assert ends == pytest.approx(np.nanpercentile(draws, [LOW_PERCENT, HIGH_PERCENT]))


def test_a_band_does_not_load_masked_arrays() -> None:
    """They cost a tenth of a cold start and are of no use here."""
    ran = subprocess.run([sys.executable, "-c", BAND], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "False"

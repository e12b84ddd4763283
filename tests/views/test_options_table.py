"""The printed outcome of a search, its chart and the drawn map of an idler's places."""

import io
from dataclasses import replace

import numpy as np
import pytest
from rich.console import Console

from beltwright.build.reading import read_text
from beltwright.drawing.path import Path as Outline
from beltwright.drawing.shapes import HatchedRegion
from beltwright.options.idler_place import IdlerMap
from beltwright.options.idler_region import Area
from beltwright.options.merit import CLEARANCE, COST, GRIP, OVERSPEED, PARTS
from beltwright.options.outcome import Found, Outcome
from beltwright.options.output import outcome_data, trade_off
from beltwright.options.referee import Standing
from beltwright.options.rejection import Rejection
from beltwright.options.relaxation import Relaxation
from beltwright.quantity import Units
from beltwright.views.layout.idler_map import best_words, idler_map_shapes
from beltwright.views.options_table import print_options

BUILD = read_text('format = 1\nname = "Hauler"\n[goals]\nbudget = "90 EUR"\n')


def _found(cost: float, overspeed: float) -> Found:
    merits = {COST: cost, PARTS: 2.0, OVERSPEED: overspeed, GRIP: np.nan, CLEARANCE: 0.0123}
    return Found((1, 0), {"outside diameter of the engine pulley": "3 in"}, merits, ())


OUTCOME = Outcome(
    found=(_found(30.0, 0.2), _found(45.5, 0.05)),
    candidates=1_200_000,
    disposed=1_200_000,
    seconds=2.5,
    finished=True,
    standing=(Standing("engine.governor", "Governor"),),
    rejections=(
        Rejection("belt.b.arm", "leaves the arm no travel", 900_000, 0.75, ("Every A belt is.",)),
    ),
    relaxation=None,
)


def _printed(outcome: Outcome, width: int = 80) -> str:
    out = io.StringIO()
    console = Console(file=out, width=width, highlight=False)
    print_options(outcome, BUILD, "build.toml", 1, console)
    return out.getvalue()


def test_the_table_tells_options_reasons_stops_and_cautions() -> None:
    text = _printed(OUTCOME)
    for said in (
        "1,200,000 candidates",
        "2 stand out",
        "30 EUR",
        "+20%",
        "not known",
        "1 more",
        "75.0%",
        "leaves the arm no travel",
        "stop  Governor",
        "Never gain speed by opening the",
        "Local codes",
    ):
        assert said in text
    assert max(len(line) for line in text.splitlines()) <= 80


def test_a_stopped_search_says_so() -> None:
    assert "before it was stopped" in _printed(replace(OUTCOME, finished=False, disposed=5))


@pytest.mark.parametrize("stops", [True, False])
def test_where_nothing_fits_the_nearest_is_told(stops: bool) -> None:
    nearest = Relaxation(("Budget: allow 99 EUR instead of 90 EUR.",), {"x of y": "4 in"}, stops)
    text = _printed(replace(OUTCOME, found=(), relaxation=nearest))
    assert "Budget: allow 99 EUR" in text
    assert ("still stopped" in text) is stops
    assert "--apply" not in text


def test_where_nothing_comes_near_the_first_reason_is_the_way_on() -> None:
    text = " ".join(_printed(replace(OUTCOME, found=(), relaxation=None)).split())
    assert "Begin with the first reason below" in text
    assert text.index("Begin with the first") < text.index("Why the others are out")


def test_the_data_holds_the_same_as_plain_values() -> None:
    data = outcome_data(OUTCOME, BUILD.name)
    first = data["options"][0]
    assert first["merits"] == {
        "cost": 30.0,
        "parts": 2.0,
        "overspeed": 0.2,
        "grip": None,
        "clearance": 0.0123,
    }
    assert trade_off(OUTCOME)["cost"] == [30.0, 45.5]
    assert data["standing"][0]["id"] == "engine.governor"


def _square(half: float) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return half * np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])


def test_the_map_is_a_hatched_region_with_its_best_place() -> None:
    area = Area(_square(0.1), (_square(0.02),))
    found = IdlerMap("guide", "centre", (area,), (0.05, 0.0), 0.03, (1.9,), 0.004)
    shapes = idler_map_shapes(found, Units())
    assert shapes.id == "idler-map"
    region = shapes.shapes[0]
    assert isinstance(region, HatchedRegion)
    assert [isinstance(outline, Outline) for outline in region.outlines] == [True, True]
    assert "may be 30 mm off" in best_words(found, Units())
    nowhere = replace(found, areas=(), best=None, forgives=0.0)
    assert "no place" in best_words(nowhere, Units())
    for each in (found, nowhere):
        assert "narrower than 4 mm" in best_words(each, Units())
    assert idler_map_shapes(nowhere, Units()).shapes == []

"""The belt layout on a screen: what stays where it is while something moves."""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_build
from beltwright.options.editing import edited
from beltwright.options.option import Edit
from beltwright.review.case import Case
from beltwright.review.review import review
from beltwright.views.layout.screen_layout import ScreenLayout, screen_layout

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def hauler() -> Build:
    return read_build(EXAMPLES / "orchard-hauler" / "build.toml")


@pytest.fixture(scope="module")
def stands(hauler: Build) -> ScreenLayout:
    return screen_layout(Case(hauler), review(hauler, 0))


def _moved(build: Build, x: str, like: ScreenLayout | None) -> ScreenLayout:
    changed = edited(build, [Edit("idler.guide idler.at.0", x)])
    return screen_layout(Case(changed), review(changed, 0), like=like)


def test_the_same_drive_differs_in_nothing(hauler: Build, stands: ScreenLayout) -> None:
    again = screen_layout(Case(hauler), review(hauler, 0), like=stands)
    assert again.since(stands) == {}
    assert again.svg == stands.svg


def test_only_what_moves_is_drawn_again(hauler: Build, stands: ScreenLayout) -> None:
    moved = _moved(hauler, "440 mm", stands)
    groups = moved.since(stands)
    assert groups is not None
    assert {"pulleys", "driving", "released"} <= groups.keys()
    assert not {"obstacles", "above", "beneath"} & groups.keys()
    for name, element in groups.items():
        assert ElementTree.fromstring(element).get("id") == name
        assert element in moved.svg


def test_names_and_scale_stay_while_something_moves(hauler: Build, stands: ScreenLayout) -> None:
    alone, moved = _moved(hauler, "520 mm", None), _moved(hauler, "520 mm", stands)
    both = stands.names_at.keys() & moved.names_at.keys()
    assert len(both) > 8
    assert any(alone.names_at[name] != stands.names_at[name] for name in both)
    assert all(moved.names_at[name] == stands.names_at[name] for name in both)
    assert moved.bounds == stands.bounds


def test_far_away_it_is_drawn_to_the_scale_of_before(hauler: Build, stands: ScreenLayout) -> None:
    assert _moved(hauler, "1500 mm", None).bounds != stands.bounds
    assert _moved(hauler, "1500 mm", stands).bounds == stands.bounds


def test_another_view_is_another_drawing(hauler: Build, stands: ScreenLayout) -> None:
    assert stands.since(ScreenLayout()) is None
    assert screen_layout(Case(hauler), review(hauler, 0), like=ScreenLayout()).svg == stands.svg

"""The tables of ground and of brake linings, and what they refuse."""

import pytest

from beltwright.tables.brake_linings import Lining, brake_linings
from beltwright.tables.surfaces import Surface, surface, surfaces

GROUND = (0.3, 0.4, 0.5, 0.05, 0.06, 0.07, "a book", "from memory", "a book", "from memory")


def test_every_ground_a_build_may_name() -> None:
    """The surfaces of the handbook page are all there, each with a source for both figures."""
    names = {found.name for found in surfaces()}
    assert names >= {
        "mown grass",
        "pasture",
        "gravel",
        "asphalt",
        "mud",
        "packed snow",
        "loose sand",
        "ice path",
    }
    for found in surfaces():
        assert found.grip_source
        assert found.rolling_source


def test_ice_is_slippery_and_sand_drags() -> None:
    """Order that everyone knows."""
    assert surface("ice path").grip_high < surface("mown grass").grip_low
    assert surface("loose sand").rolling_low > surface("asphalt").rolling_high


def test_unknown_names_list_the_known() -> None:
    """The message says what there is."""
    with pytest.raises(KeyError, match="mown grass"):
        surface("lava")
    with pytest.raises(KeyError, match="woven cotton"):
        brake_linings().named("cheese")


def test_ranges_out_of_order_are_refused() -> None:
    """Grip, rolling drag, standing and lining, one by one."""
    with pytest.raises(ValueError, match="grip of 'x'"):
        Surface("x", 0.5, 0.4, 0.6, *GROUND[3:]).check()
    with pytest.raises(ValueError, match="rolling drag of 'x'"):
        Surface("x", *GROUND[:3], 0.0, 0.1, 0.2, *GROUND[6:]).check()
    with pytest.raises(ValueError, match="status 'hearsay'"):
        Surface("x", *GROUND[:7], "hearsay", *GROUND[8:]).check()
    with pytest.raises(ValueError, match="friction of 'x'"):
        Lining("x", 0.5, 0.6, 0.7, 400.0, "a book", "from memory").check()


def test_linings_cite_the_handbook() -> None:
    """Each row has a source, its own or the table's."""
    assert len(brake_linings()) == 7
    for lining in brake_linings():
        assert lining.source.startswith("Tribology Handbook")

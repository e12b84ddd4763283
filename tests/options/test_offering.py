"""What could be bolted on, and what it changes."""

from collections.abc import Callable
from pathlib import Path

import pytest

from beltwright.build.model import Build
from beltwright.build.shop import Part
from beltwright.options.editing import NoSuchKeyError, edited, value_at
from beltwright.options.family import families
from beltwright.options.offering import choices
from beltwright.options.option import Choice, Edit
from beltwright.options.price_list import (
    PriceListError,
    load_prices,
    prices_for,
    read_prices,
    starter_prices,
)
from beltwright.options.wanted import ChoiceError

Make = Callable[..., Build]


def _vary(of: str, what: str, rest: str) -> str:
    return f'[[choose.vary]]\nof = "{of}"\nwhat = "{what}"\n{rest}\n'


def _labels(choice: Choice, origin: str) -> list[str]:
    return [option.label for option in choice.options if option.origin == origin]


def test_what_stands_there_comes_first(open_build: Build, prices: tuple[Part, ...]) -> None:
    for choice in choices(open_build, prices):
        assert choice.options[0].label == "as it stands"
        assert choice.options[0].edits == ()


def test_the_bin_costs_nothing_and_the_list_costs_its_price(
    open_build: Build, prices: tuple[Part, ...]
) -> None:
    _, pulley, belt, _ = choices(open_build, prices)
    (owned,) = (option for option in pulley.options if option.origin == "bin")
    assert (owned.label, owned.price, owned.to_buy) == ("old deck pulley", 0.0, 0)
    assert owned.edits == (Edit("pulley.input pulley.outside", "180 mm"),)
    listed = {option.label: option.price for option in pulley.options if option.to_buy}
    assert listed == {"pulley A 6 in": 14.0, "pulley A 8 in": 18.0}
    assert belt.options[0].price == 19.0


def test_only_sections_of_the_same_groove_are_offered(
    open_build: Build, prices: tuple[Part, ...]
) -> None:
    belt = choices(open_build, prices)[2]
    assert _labels(belt, "price list") == ["belt 4L 75 in", "belt 4L 77 in", "belt A 74 in"]
    four_l = next(option for option in belt.options if option.label == "belt 4L 75 in")
    assert Edit("belt.traction belt.length_is", "outside") in four_l.edits


def test_families_hold_every_candidate_once(open_build: Build, prices: tuple[Part, ...]) -> None:
    found = choices(open_build, prices)
    total = 1
    for choice in found:
        total *= len(choice)
    split = list(families(open_build, found))
    assert len(split) == 4  # A or 4L, two tyres
    assert sum(family.size for family in split) == total
    assert {family.build.belt[0].section for family in split} == {"A", "4L"}


def test_a_place_may_be_below_nought(make: Make) -> None:
    build = make(_vary("guide idler", "at y", 'low = "-20 mm"\nhigh = "10 mm"\nstep = "10 mm"'))
    (choice,) = choices(build)
    assert [option.edits for option in choice.options[1:]] == [
        (Edit("idler.guide idler.at.1", text),) for text in ("-20 mm", "-10 mm", "0 mm", "10 mm")
    ]
    assert choice.use == ""


def test_the_engine_slides_along_its_slot(make: Make) -> None:
    build = make(_vary("engine", "slot", 'values = ["5 mm", "20 mm"]'))
    (choice,) = choices(build)
    assert choice.options[1].edits[0] == Edit("shaft.engine.at.0", "900 mm")
    moved = edited(build, choice.options[2].edits)
    assert moved.shaft[0].at[0].value == pytest.approx(0.885, rel=1e-12)
    beyond = make(_vary("engine", "slot", 'values = ["21 mm"]'))
    with pytest.raises(ChoiceError, match="outside the slot"):
        choices(beyond)


def test_a_point_is_written_with_both_coordinates(make: Make) -> None:
    build = make(_vary("clutch idler", "pivot", 'values = ["640,5 mm, -100 mm", "1 in; 2 in"]'))
    (choice,) = choices(build)
    assert [edit.text for option in choice.options[1:] for edit in option.edits] == [
        "640,5 mm",
        "-100 mm",
        "1 in",
        "2 in",
    ]


@pytest.mark.parametrize(
    ("of", "what", "rest", "says"),
    [
        ("axle", "slot", 'values = ["9 mm"]', "is no pulley"),
        ("guide idler", "at", 'values = ["90 mm"]', "no point"),
        ("gearbox input", "slot", 'values = ["5 mm"]', "slot_to"),
        ("engine pulley", "outside", 'low = "9 mm"\nhigh = "5 mm"\nstep = "1 mm"', "0? steps"),
    ],
)
def test_a_choice_that_cannot_be_is_told(
    make: Make, of: str, what: str, rest: str, says: str
) -> None:
    with pytest.raises(ChoiceError, match=says):
        choices(make(_vary(of, what, rest)))


def test_two_choices_of_one_key_are_refused(make: Make) -> None:
    twice = _vary("engine pulley", "outside", 'values = ["90 mm"]')
    build = make(twice + twice.replace("90", "91"))
    with pytest.raises(ChoiceError, match="both change"):
        list(families(build, choices(build)))


def test_a_key_that_leads_nowhere_is_told(open_build: Build) -> None:
    with pytest.raises(NoSuchKeyError):
        value_at(open_build, "pulley.engine pulley.colour")


def test_an_edit_keeps_the_keys_of_the_rest(open_build: Build) -> None:
    changed = edited(open_build, [Edit("idler.clutch idler.arm.pivot.1", "-100 mm")])
    arm = changed.idler[0].arm
    assert arm is not None
    assert arm.pivot[1].key == "idler.clutch idler.arm.pivot.1"
    assert arm.pivot[1].value == pytest.approx(-0.1)
    assert arm.pivot[0].key == "idler.clutch idler.arm.pivot.0"


def test_the_starter_list_offers_every_kind() -> None:
    kinds = {part.kind for part in starter_prices()}
    assert {"pulley", "idler", "belt", "sprocket", "tyre"} <= kinds
    assert all(part.price is not None and part.price.value > 0 for part in starter_prices("USD"))
    assert {part.price.unit for part in starter_prices("USD") if part.price} == {"USD"}


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("", 1, "is empty"),
        ("name,price\nx,1 EUR", 1, "kind"),
        ("kind,colour,price\nbelt,red,1 EUR", 1, "colour"),
        ("kind,price\nbelt", 2, "1 cells under 2"),
        ("# remark\nkind,section,price\nbelt,A,", 3, "price is missing"),
        ("kind,outside,price\npulley,3 furlongs,1 EUR", 2, "outside"),
        ("kind,price\nwheelbarrow,1 EUR", 2, "kind"),
    ],
)
def test_a_price_list_that_cannot_be_used_is_told(text: str, line: int, says: str) -> None:
    with pytest.raises(PriceListError, match=says) as refusal:
        read_prices(text, "prices.csv")
    assert refusal.value.line == line


def test_a_list_that_is_not_there_or_no_text(tmp_path: Path) -> None:
    with pytest.raises(PriceListError, match="put the file beside"):
        load_prices(tmp_path / "none.csv")
    (tmp_path / "bad.csv").write_bytes(b"kind,price\nbelt,1 \xff")
    with pytest.raises(PriceListError, match="UTF-8"):
        load_prices(tmp_path / "bad.csv")


def test_a_list_in_another_currency_is_refused(make: Make, tmp_path: Path) -> None:
    (tmp_path / "mine.csv").write_text("kind,section,length,price\nbelt,A,70 in,9 USD\n")
    vary = _vary("traction belt", "length", "prices = true")
    build = make(f'[choose]\nprice_list = "mine.csv"\n{vary}')
    with pytest.raises(PriceListError, match="USD"):
        prices_for(build, tmp_path)

"""One more idler: what is offered is held against the review of the file as it would be written."""

import json
from collections.abc import Callable
from pathlib import Path
from threading import Event

import numpy as np
import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.build.walking import units_of
from beltwright.options.idler_offer import Going, NewIdler, Turn, spoils
from beltwright.options.idler_output import new_idler_data, text_with_idler
from beltwright.options.idler_place import Places, strict_ids
from beltwright.options.new_idler import new_idler
from beltwright.options.one_more_idler import belts_near, wanted_idler, ways, with_idler
from beltwright.review.finding import Verdict
from beltwright.review.review import review

Make = Callable[..., Build]

BELT = "traction belt"
STEP, SAMPLES = 0.012, 50
"""Coarser and fewer than for a builder, so that the tests are quick."""

LEVER = '[["560 mm", "98 mm"], ["590 mm", "98 mm"], ["590 mm", "128 mm"], ["560 mm", "128 mm"]]'
RUBS = '[["560 mm", "72 mm"], ["590 mm", "72 mm"], ["590 mm", "102 mm"], ["560 mm", "102 mm"]]'


def _found(build: Build, outside: str = "") -> NewIdler:
    return new_idler(build, BELT, outside, step=STEP, samples=SAMPLES)


def _stops(build: Build) -> set[str]:
    found = review(build, samples=SAMPLES).findings
    return {f.id for f in found if f.verdict is Verdict.STOP}


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    """The small build as it is, and with a shift lever that the belt rubs on."""
    text = (Path(__file__).parent / "small_build.toml").read_text(encoding="utf-8")
    assert LEVER in text
    return {"as it is": text, "rubs": text.replace(LEVER, RUBS)}


@pytest.fixture(scope="module")
def found(texts: dict[str, str]) -> dict[str, NewIdler]:
    """What is found for both."""
    return {name: _found(read_text(text)) for name, text in texts.items()}


@pytest.mark.parametrize("name", ["as it is", "rubs"])
def test_every_place_passes_the_whole_review_as_it_would_be_written(
    texts: dict[str, str], found: dict[str, NewIdler], name: str
) -> None:
    build = read_text(texts[name])
    before = _stops(build)
    assert found[name].offers
    for offer in found[name].offers:
        text = text_with_idler(texts[name], build, found[name], offer)
        written = read_text(text)
        after = {f.id: f for f in review(written, samples=SAMPLES).findings}
        assert {id_ for id_, f in after.items() if f.verdict is Verdict.STOP} <= before
        for id_ in strict_ids(written, written.belt[0]) & after.keys():
            limit, value = after[id_].limit, after[id_].value
            if limit is not None and limit.at_least is not None:
                assert value is not None
                assert value >= limit.at_least
        for turn in (*offer.mends, *offer.worsens):
            assert after[turn.id].verdict is turn.after
        assert [(part.name, part.use, part.have) for part in written.part] == [
            (part.name, part.use, part.have) for part in offer.build.part
        ]
        assert written.belt[0].run == offer.build.belt[0].run
        assert [line for line in texts[name].splitlines() if line.startswith("#")] == [
            line for line in text.splitlines() if line.startswith("#")
        ]


@pytest.mark.parametrize("name", ["as it is", "rubs"])
def test_the_hole_may_be_as_far_off_as_it_says(found: dict[str, NewIdler], name: str) -> None:
    draw = np.random.default_rng(3)
    for offer in found[name].offers:
        build, belt = offer.build, offer.build.belt[0]
        places = Places(build, belt, offer.map.idler, (belt.length.value,))
        turns = draw.uniform(0.0, 2.0 * np.pi, 200)
        far = offer.forgives * np.sqrt(draw.uniform(0.0, 1.0, 200))
        best = offer.map.best
        assert best is not None
        assert places.allowed(best[0] + far * np.cos(turns), best[1] + far * np.sin(turns)).all()


def test_a_belt_that_rubs_is_led_past(found: dict[str, NewIdler]) -> None:
    id_ = f"clearance.{BELT}.shift lever"
    assert f"Room between the {BELT} and the shift lever" in found["rubs"].broken
    for offer in found["rubs"].offers:
        assert id_ in {turn.id for turn in offer.mends}


def test_what_spoils_more_than_it_mends_is_not_offered(found: dict[str, NewIdler]) -> None:
    for each in found.values():
        for offer in each.offers:
            mends_a_stop = any(turn.before is Verdict.STOP for turn in offer.mends)
            assert mends_a_stop or len(offer.worsens) <= len(offer.mends)
            assert Verdict.STOP not in {turn.after for turn in offer.worsens}
        spoilt = [none for none in each.nowhere if none.why == "spoils"]
        assert all(none.titles for none in spoilt)


def _turn(id_: str, before: Verdict | None, after: Verdict) -> Turn:
    return Turn(id_, id_, before, after)


MENDED_STOP = _turn(f"clearance.{BELT}.lever", Verdict.STOP, Verdict.SOUND)
MENDED = _turn(f"belt.{BELT}.wrap", Verdict.MARGINAL, Verdict.SOUND)
MENDED_ELSEWHERE = _turn("guard.keeper.length", Verdict.MARGINAL, Verdict.SOUND)
WORSE = _turn(f"belt.{BELT}.slack", Verdict.SOUND, Verdict.MARGINAL)
WORSE_TOO = _turn("plate.bracket.bending", None, Verdict.MARGINAL)
NEW_STOP = _turn("plate.bracket.bending", None, Verdict.STOP)


@pytest.mark.parametrize(
    ("mends", "worsens", "harm"),
    [
        ([], [], False),
        ([], [WORSE], True),
        ([MENDED], [WORSE], False),
        ([MENDED], [WORSE, WORSE_TOO], True),
        ([MENDED_STOP], [WORSE, WORSE_TOO], False),
        ([MENDED_STOP], [NEW_STOP], True),
        ([MENDED_ELSEWHERE], [WORSE], True),
        ([MENDED_ELSEWHERE], [], False),
    ],
)
def test_what_does_more_harm_than_good(
    make: Make, mends: list[Turn], worsens: list[Turn], harm: bool
) -> None:
    assert spoils(mends, worsens, make().belt[0]) is harm


def test_every_way_has_places_or_says_why_not(found: dict[str, NewIdler]) -> None:
    for each in found.values():
        there = {offer.way for offer in each.offers} | {none.way for none in each.nowhere}
        assert there == set(ways(each.belt))
        assert len(there) == 8
        assert not {offer.way for offer in each.offers} & {none.way for none in each.nowhere}


def test_what_forgives_twice_as_much_stands_first(found: dict[str, NewIdler]) -> None:
    for each in found.values():
        for first, second in zip(each.offers, each.offers[1:], strict=False):
            assert first.forgives > 0.5 * second.forgives or len(first.mends) > len(second.mends)


def test_between_two_pulleys_both_spans_are_one(make: Make) -> None:
    build = make()
    belt = build.belt[0].model_copy(update={"run": ("engine pulley", "input pulley")})
    assert [(way.after, way.side) for way in ways(belt)] == [
        ("engine pulley", "back"),
        ("engine pulley", "inside"),
    ]


def test_where_nothing_helps_the_nearest_limit_is_named(make: Make) -> None:
    build = make(old='from_height = "280 mm"', new='gap = "300 mm"\nfrom_height = "280 mm"')
    none = _found(build)
    assert none.offers == ()
    told = {title for each in none.nowhere for title in each.titles}
    assert "Room between the traction belt and the steering shaft" in told


def test_the_idler_in_the_bin_is_tried_first(make: Make) -> None:
    bare = make()
    assert wanted_idler(bare, units_of(bare)) == ("76 mm", None, True)
    build = make(
        old='[[part]]\nname = "bracket steel"',
        new='[[part]]\nname = "deck idler"\nkind = "idler"\noutside = "89 mm"\nhave = true\n\n'
        '[[part]]\nname = "bracket steel"',
    )
    wanted = wanted_idler(build, units_of(build))
    assert (wanted.outside, wanted.assumed) == ("89 mm", False)
    assert wanted.lies_there("back")
    assert not wanted.lies_there("inside")
    assert wanted_idler(build, units_of(build), "70 mm").part is None
    found = _found(build)
    for offer in found.offers:
        uses = {part.name: part.use for part in offer.build.part}
        assert ("idler" in offer.to_buy) == (offer.way.side == "inside")
        assert uses["deck idler"] == (None if offer.way.side == "inside" else "new idler")
        assert ("belt" in offer.to_buy) == bool(offer.belt.size) == ("A76 belt" not in uses)


@pytest.mark.parametrize("outside", ["wide", "-3 in", "0 mm", "12 kg", "3 m"])
def test_a_diameter_that_is_none(make: Make, outside: str) -> None:
    with pytest.raises(ValueError, match="Write"):
        _found(make(), outside)


def test_belts_near_begin_with_the_present_one(make: Make) -> None:
    belt = make().belt[0]
    near = belts_near(belt)
    assert near[0] == (belt.length.value, "", "76 in")
    assert {each.size for each in near[1:]} >= {"A75", "A77"}
    assert "A76" not in {each.size for each in near}
    off = [abs(each.length - belt.length.value) for each in near]
    assert off == sorted(off)


def test_it_can_be_stopped_and_tells_how_far_it_is(make: Make) -> None:
    stopping, told = Event(), list[Going]()

    def report(going: Going) -> None:
        told.append(going)
        if going.share > 0.2:
            stopping.set()

    found = new_idler(make(), BELT, report=report, stopping=stopping, step=STEP, samples=SAMPLES)
    assert not found.finished
    shares = [going.share for going in told]
    assert shares == sorted(shares)
    assert 0.2 < shares[-1] < 0.5
    assert len({*(o.way for o in found.offers), *(n.way for n in found.nowhere)}) < 8


def test_the_data_can_be_written_as_json(found: dict[str, NewIdler]) -> None:
    data = json.loads(json.dumps(new_idler_data(found["rubs"], "cart")))
    assert data["format"] == 1
    assert [place["number"] for place in data["places"]] == [
        number for number, _ in enumerate(found["rubs"].offers, 1)
    ]


def test_a_second_new_idler_has_a_name_of_its_own(make: Make) -> None:
    build = make()
    way = next(ways(build.belt[0]))
    one, first = with_idler(build, build.belt[0], way, "70 mm")
    _, second = with_idler(one, one.belt[0], way, "70 mm")
    assert (first, second) == ("new idler", "new idler 2")
    assert one.belt[0].run[1] == first
    assert one.idler[-1].height is not None

"""Pulleys and idlers against the parts round them."""

from pathlib import Path

import pytest

from beltwright.build.reading import read_text
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import review

TEXT = (Path(__file__).parents[2] / "options" / "small_build.toml").read_text(encoding="utf-8")


def _wheels(corner: str, heights: str = "") -> Finding:
    part = f"""
[[obstacle]]
name = "post"
outline = [{corner}, ["431 mm", "140 mm"], ["431 mm", "141 mm"]]
{heights}
"""
    found = review(read_text(TEXT + part), samples=0).finding("clearance.traction belt.wheels")
    assert found is not None
    return found


def test_a_part_within_the_rim_stops_it() -> None:
    found = _wheels('["430 mm", "140 mm"]')
    assert found.verdict is Verdict.STOP
    assert "guide idler" in found.meaning
    assert "post" in found.meaning


def test_a_part_above_the_wheel_is_out_of_its_way() -> None:
    # middle at 342 mm, half a belt of 12.7 mm below the post
    found = _wheels('["430 mm", "140 mm"]', 'from_height = "360 mm"\nto_height = "400 mm"')
    assert found.verdict is Verdict.SOUND
    assert found.value == pytest.approx(0.360 - 0.342 - 0.00635, abs=1e-9)


def test_without_a_part_there_is_no_question() -> None:
    bare = TEXT[: TEXT.index("[[obstacle]]")] + TEXT[TEXT.index("[gearbox]") :]
    assert review(read_text(bare), samples=0).finding("clearance.traction belt.wheels") is None

"""A length that is dragged stays written as the builder wrote it."""

import re
from typing import Any

import pytest

from beltwright.quantity import Kind, read_quantity

pytestmark = pytest.mark.browser

MM = 1000.0
WRITINGS = [
    "905 ± 2 mm",
    "905 mm",
    "-168 ± 2 mm",
    "−168 mm",
    "90,5 cm",
    "0.905 m ± 2 mm",
    "35 5/8 in",
    "35-5/8 in ± 1/16 in",
    "35⅝ in",
    "35.625 in",
    "36 inches",
    '36"',
    "5/8 in",
    "3 ft 2 in",
    "3 ft 2 in ± 1/4 in",
    "-3 ft 2 1/2 in",
    "3′ 2″",
    "3'2\"",
    "2.5 ft",
    "1 yd",
    "118 +1 −2 mm",
    "118 mm +1 mm −2 mm",
    "118 -2 +1 mm",
    "118 mm ± 1 %",
    "118 mm +/- 1 mm",
    "12 1/3 in",
]
NONE = ["", "about 3 mm", "3 kg", "3", "4 ft 2", "3 ft 14 in", "3 in 2 ft", "1/0 in", "3 mm or so"]
CALL = "async ([name, given]) => (await import('/static/js/lengths.js'))[name](...given)"


def _length(tab: Any, name: str, *given: object) -> Any:
    return tab.page.evaluate(CALL, [name, list(given)])


def test_the_page_reads_lengths_as_the_program_does(opened: Any) -> None:
    tab = opened("/")
    for text in WRITINGS:
        read = _length(tab, "readLength", text)
        assert read is not None, text
        assert read["mm"] == pytest.approx(read_quantity(text, Kind.LENGTH).value * MM), text
    for text in NONE:
        assert _length(tab, "readLength", text) is None, text


def test_a_moved_length_keeps_its_unit_its_form_and_its_tolerance(opened: Any) -> None:
    tab = opened("/")
    for text in WRITINGS:
        before = read_quantity(text, Kind.LENGTH)
        like = _length(tab, "readLength", text)
        for by in (-300.0, -1.5875, 0.0, 1.5875, 25.4):
            moved = like["mm"] + by
            written = _length(tab, "writeLength", moved, like)
            after = read_quantity(written, Kind.LENGTH)
            tape = "/" in written or like["form"].get("parts")
            # half a 64th of an inch where a tape is read, else half of the last figure
            assert after.value * MM == pytest.approx(moved, abs=0.2 if tape else 0.05), text
            assert after.unit == before.unit
            assert _form(written) == _form(text), (text, written)
            assert (after.minus > 0.0) == (before.minus > 0.0)


def _form(text: str) -> tuple[str, str]:
    """What is not the value's own number: its units and its tolerance."""
    found = re.fullmatch(r"(.*?)( ?(?:±| [+-]|\+/-).*)?", text)
    assert found is not None
    return re.sub(r"[-−]?\d+(?:[ -]\d+/\d+|[.,]\d+|/\d+|⅝)?", "#", found[1]), found[2] or ""


@pytest.mark.parametrize(
    ("forward", "left"),
    [
        ("1 ft 5 1/4 in", "4 7/8 in"),
        ("438 +1 −2 mm", "124 mm +1 mm −2 mm"),
    ],
)
def test_a_drag_keeps_how_it_was_written(
    opened: Any, editor: Any, written: Any, forward: str, left: str
) -> None:
    editor("idler.guide idler.at.0", forward)
    editor("idler.guide idler.at.1", left)
    tab = opened()
    tab.drag("guide idler", 12, 12)
    tab.drop()
    idlers = {idler["name"]: idler for idler in written("idler")}
    at = idlers["guide idler"]["at"]
    assert at != [forward, left]
    assert [_form(text) for text in at] == [_form(forward), _form(left)]
    moved = [
        read_quantity(new, Kind.LENGTH).value - read_quantity(old, Kind.LENGTH).value
        for new, old in zip(at, (forward, left), strict=True)
    ]
    assert moved == pytest.approx([0.012, 0.012], abs=0.0012)

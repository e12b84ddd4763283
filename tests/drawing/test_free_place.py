"""Lettering goes where it covers least."""

from beltwright.drawing.free_place import Occupied, freest
from beltwright.drawing.ink import Stroke
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.path import Path, Straight
from beltwright.drawing.shapes import Text
from beltwright.drawing.view import View

ROOM = ((0.0, 0.0), (100.0, 100.0))
VIEW = View(1.0)


def text_at(x: float, y: float) -> Text:
    return Text((x / 1000.0, y / 1000.0), "name")


def line(y: float) -> Stroke:
    return Stroke(Path((Straight((0.0, y), (100.0, y)),)))


def test_a_free_place_is_taken_before_one_across_a_line() -> None:
    occupied = Occupied(ROOM, [line(31.0)])
    assert freest([text_at(50, 30), text_at(50, 60)], VIEW, FINE_PEN, occupied) == text_at(50, 60)


def test_the_first_of_equals_is_taken() -> None:
    occupied = Occupied(ROOM)
    assert freest([text_at(50, 30), text_at(50, 60)], VIEW, FINE_PEN, occupied) == text_at(50, 30)


def test_a_place_once_taken_is_not_taken_again() -> None:
    occupied = Occupied(ROOM)
    places = [text_at(50, 30), text_at(50, 60)]
    assert [freest(places, VIEW, FINE_PEN, occupied) for _ in range(2)] == places


def test_lettering_across_a_line_is_better_than_off_the_sheet() -> None:
    occupied = Occupied(ROOM, [line(31.0)])
    assert freest([text_at(99, 60), text_at(50, 30)], VIEW, FINE_PEN, occupied) == text_at(50, 30)

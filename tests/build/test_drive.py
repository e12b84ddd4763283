"""Drives and tried grounds in the build file: what is read, and what is refused."""

import pytest

from beltwright.build.errors import BuildError
from beltwright.build.reading import read_text
from beltwright.build.starter import starter_text
from beltwright.quantity import Quantity


def with_drive(rows: str) -> str:
    """The starter with one drive."""
    return f'{starter_text()}\n[[drive]]\nname = "first"\n{rows}\n'


def test_a_drive_holds_its_readings_with_their_tolerances() -> None:
    build = read_text(with_drive('gear = "2"\nengine = "3300 ± 20 rpm"\nspeed = "8 ± 0.2 km/h"'))
    drive = build.drive[0]
    assert drive.speed is not None
    assert drive.speed.key == "drive.first.speed"
    assert drive.speed.plus == pytest.approx(0.2 / 3.6)
    assert isinstance(drive.engine, Quantity)
    assert not drive.laden


def test_an_engine_may_be_held_in_words() -> None:
    assert read_text(with_drive('engine = "idle"')).drive[0].engine == "idle"
    assert read_text(with_drive("")).drive[0].engine == "governed"


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ('distance = "20 m"', "distance says nothing without time"),
        ('rolled = "6 m"', "rolled says nothing without wheel_turns"),
        ('wheel_turns = "4"', "wheel_turns says nothing without rolled"),
        ('engine_turns = "70"', "engine_turns says nothing without wheel_turns"),
        ('case = "40 °C"', "case says nothing without after"),
        ('climbed = "stalled"', "climbed says nothing without slope"),
        ('press = "12 N"\nmoved = "5 mm"', "say which belt"),
        ('speed = "8 km/h"\ndistance = "20 m"\ntime = "9 s"', "either speed, or distance"),
        ('gear = "fourth"', "gear"),
        ('gear = "reverse 9"', "There is no gear of this name"),
        ('belt = "drive belt"\nslack = "8 mm"', "There is no belt of this name"),
        ('ground = "lava"', "Known as a ground are"),
        ('date = "yesterday"', "date"),
        ('signs = ["squeaks"]', "signs"),
        ('wheel_turns = "0"\nrolled = "6 m"', "more than 0"),
        ('[[drive]]\nname = "first"', "has this name already"),
        ('[[ground]]\nname = "lava"\ngrip = "0.5"', "Known as a ground are"),
    ],
)
def test_what_says_nothing_is_refused_with_its_reason(rows: str, said: str) -> None:
    with pytest.raises(BuildError) as refused:
        read_text(with_drive(rows))
    assert said.lower() in str(refused.value).lower()

"""A small cart as text, for the tests of pulling, braking, tipping and steering."""

from collections.abc import Callable, Iterator

import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.review.case import Case
from beltwright.review.draft import Ask
from beltwright.review.finding import Finding
from beltwright.review.judging import judge

TEXT = """
format = 1
name = "test cart"
[goals]
top_speed = "8 to 12 km/h"
climb = "at least 15 %"
stop_within = "at most 9 m"
[machine]
wheelbase = "1200 ± 5 mm"
track_front = "800 ± 5 mm"
track_rear = "900 ± 5 mm"
driver = { mass = "80 ± 2 kg", hip = ["350 mm", "0 mm", "450 mm"] }
ground = ["mown grass", "mud"]
slope = "15 %"
descent = "50 m"
air = "30 °C"
[machine.scales]
front = "100 ± 1 kg"
rear = "120 ± 1 kg"
left = "111 ± 1 kg"
right = "109 ± 1 kg"
raised_by = "400 ± 2 mm"
rear_raised = "129 ± 1 kg"
[[machine.load]]
name = "crate"
mass = "40 kg"
at = ["100 mm", "0 mm", "500 mm"]
[engine]
power = "7 kW ± 5 %"
at = "3300 rpm"
no_load = "3500 ± 30 rpm"
idle = "1600 rpm"
[[shaft]]
name = "engine"
at = ["900 mm", "0 mm"]
[[shaft]]
name = "gearbox input"
at = ["150 mm", "0 mm"]
[[pulley]]
name = "small"
shaft = "engine"
pitch = "100 mm"
groove = "A"
[[pulley]]
name = "large"
shaft = "gearbox input"
pitch = "200 mm"
groove = "A"
[[belt]]
name = "belt"
section = "A"
length = "80 in"
length_is = "inside"
run = ["small", "large"]
[gearbox]
input = "gearbox input"
output = "axle"
forward = [60.0, 30.0, 16.0]
[wheels]
front = "15x6.00-6"
rear = "20x8.00-8"
shaft = "axle"
front_pivot_height = "250 mm"
[brake]
kind = "disc"
on = "axle"
material = "moulded"
inner = "50 mm"
outer = "70 mm"
pedal_force = "350 ± 30 N"
mass = "1.5 kg"
[[brake.levers]]
name = "pedal"
pushed = "240 mm"
pushing = "40 mm"
[[brake.levers]]
name = "arm"
pushed = "80 mm"
pushing = "16 mm"
[steering]
kingpins = "660 mm"
arm = ["-100 mm", "-28 mm"]
lock = "32 deg"
"""


Change = tuple[str, str]
Questions = Callable[[Case], Iterator[Ask]]
Cart = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]


def build(*changes: Change) -> Build:
    """The cart with some of its text changed."""
    text = TEXT
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the text"
        text = text.replace(old, new)
    return read_text(text, "cart.toml")


@pytest.fixture
def cart() -> Cart:
    """Makes a case of the cart, some of its text changed."""

    def of(*changes: Change, samples: int = 0) -> Case:
        return Case(build(*changes), samples)

    return of


@pytest.fixture
def answers() -> Answers:
    """Puts the questions of a topic to the cart, some of its text changed."""

    def of(questions: Questions, *changes: Change, samples: int = 0) -> dict[str, Finding]:
        case = Case(build(*changes), samples)
        return {ask.id: judge(case, "topic", ask)[0] for ask in questions(case)}

    return of

"""What `beltwright measure` finds: each value with its title, and the keys that it may stand at."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from beltwright.build.toml_writing import Value
from beltwright.measure.measured import Measured, plain_unit
from beltwright.measure.refusal import NotMeasuredError
from beltwright.quantity import (
    Kind,
    Quantity,
    QuantityError,
    Unit,
    Units,
    read_quantity,
    unit_named,
)

if TYPE_CHECKING:
    from beltwright.measure.sound import Strokes
    from beltwright.physics.arrays import Array

LONG_WAYS = {"in": "ft", "mm": "m", "cm": "m"}
"""A way over the ground is told in larger units than a part."""


@dataclass(frozen=True)
class Found:
    """One value that was found.

    title     what it is
    measured  the value, None where it only tells why there is none
    ends      last names of the keys at which it may stand
    stands    how it stands there where that is no plain quantity: a list, a table
    note      what is to be known before it is used
    sure      whether it may be written without a further word
    way       whether it is a way over the ground, and no part
    typed     what it comes from, in the builder's own unit, where there is no build to ask
    """

    title: str
    measured: Measured | None = None
    ends: tuple[str, ...] = ()
    stands: Value | None = None
    note: str = ""
    sure: bool = True
    way: bool = False
    typed: Quantity | None = None

    def unit(self, units: Units) -> Unit | None:
        """The unit to show it in."""
        if self.measured is None:
            return None
        kind = self.measured.kind
        if kind is Kind.RATIO:
            return plain_unit(kind)
        if kind is Kind.TIME:
            return unit_named("min", kind)
        if kind not in units.chosen and self.typed is not None:
            units = Units.of([self.typed])
        unit = units[kind]
        return unit_named(LONG_WAYS.get(unit.symbol, unit.symbol), kind) if self.way else unit

    def value(self, units: Units) -> Value:
        """What is to stand in the build file."""
        if self.stands is not None:
            return self.stands
        return self.measured.text(self.unit(units)) if self.measured else ""


SAID = "3300 rpm"
SPEEDS = ("idle", "no_load", "at", "made_for", "stock_input", "engine")


def from_sound(file: Path, cylinders: int, strokes: "Strokes", about: str | None) -> list[Found]:
    """Engine speeds that a recording may mean; the one that fits first where it is known."""
    from beltwright.measure.recording import read_recording
    from beltwright.measure.sound import engine_speed

    heard = engine_speed(read_recording(file), cylinders, strokes)
    likely = heard.readings if about is None else (heard.near(read_as(about, Kind.ROTATION)),)
    if len(likely) == 1:
        note = (
            f"Heard from {heard.at[0]:.0f} s to {heard.at[-1]:.0f} s. It stands as engine.idle or "
            "engine.no_load."
        )
        return [Found("Engine speed", likely[0].speed, SPEEDS, note=note)]
    doubt = f'Sound alone does not tell these apart. Say --about "{SAID}", if it was near that.'
    return [
        Found(f"Engine speed, {one.if_so}", one.speed, SPEEDS, note=doubt, sure=False)
        for one in likely
    ]


def from_track(file: Path) -> list[Found]:
    """Top speed, stops and slope of a drive, or why there is none of them."""
    from beltwright.measure.driving import slope, stops, top_speed
    from beltwright.measure.track import read_track

    track = read_track(file)
    found = []
    for title, ends, measure in (
        ("Top speed held", ("speed",), top_speed),
        ("Steepest slope", ("slope", "climbed"), slope),
    ):
        try:
            found.append(Found(title, measure(track), ends))
        except NotMeasuredError as refused:
            found.append(Found(title, note=str(refused)))
    for stop in sorted(stops(track), key=lambda one: one.way.value / one.speed.value**2):
        found.append(Found("Stop from", stop.speed, ("braked_from",)))
        found.append(Found("  stood within", stop.way, ("stopped_in",), way=True))
    return found


def from_turns(
    counts: Sequence[str], belt: float, one_wheel_held: bool, chalk: float
) -> list[Found]:
    """The ratio of each gear that was counted, and all of them as a list."""
    from beltwright.measure.turns import ratio, read_count

    ratios = [ratio(read_count(text), chalk, belt, one_wheel_held) for text in counts]
    gears = [Found(f"Gear {number}", one) for number, one in enumerate(ratios, 1)]
    every = Found("As a list", None, ("forward", "reverse"), [_short(one) for one in ratios])
    return [*gears, every]


def _short(one: Measured) -> float:
    """As many figures as the ± leaves worth writing."""
    return float(f"{one.value:.{3 if one.spread > 1e-3 * one.value else 5}g}")


def from_roll_out(distance: str, turns: float) -> list[Found]:
    """Rolling circumference, and the diameter that goes with it."""
    from beltwright.measure.turns import roll_out, rolling_outside

    way = _quantity(distance, Kind.LENGTH)
    rolled = roll_out(way, turns)
    return [
        Found("Rolled in one turn", rolled, ("roll_out",), typed=way),
        Found("Diameter that rolls so", rolling_outside(rolled), typed=way),
    ]


def from_coasting(readings: Sequence[str], back: Sequence[str], track: Path | None) -> list[Found]:
    """Rolling drag over weight, from typed speeds one way or both, or from a track."""
    from beltwright.measure.coasting import both_ways, coasting_part, rolling_drag
    from beltwright.measure.track import read_track

    if track is not None:
        return [_drag(rolling_drag(*coasting_part(read_track(track))))]
    there = rolling_drag(*pairs(readings, Kind.SPEED))
    if not back:
        return [_drag(there)]
    return [_drag(both_ways(there, rolling_drag(*pairs(back, Kind.SPEED))), ", both ways")]


def _drag(measured: Measured, how: str = "") -> Found:
    """Rolling drag, which stands with the ground that it was measured on."""
    return Found(f"Rolling drag over weight{how}", measured, ("rolling",))


def from_warm_up(
    readings: Sequence[str], air: str, gear: int | None, duty: str | None
) -> list[Found]:
    """Where a warm-up leads; with gear and duty also the table that stands in the build file."""
    from beltwright.measure.warming import warm_up

    seconds, temperature = pairs(readings, Kind.TEMPERATURE)
    found: list[Found] = []
    if gear is not None and duty is not None:
        rows = [dict(zip(("after", "oil"), text.split("="), strict=True)) for text in readings]
        table: Value = {"air": air, "gear": gear, "duty": duty, "reading": rows}
        found.append(Found("As a table", None, ("measured",), table))
    try:
        in_air = _quantity(air, Kind.TEMPERATURE)
        led = warm_up(seconds, temperature, in_air.value)
    except NotMeasuredError as refused:
        return [Found("Steady temperature", note=str(refused)), *found]
    return [
        Found("Steady temperature", led.steady, typed=in_air),
        Found("Time for 63 % of the rise", led.constant),
        *found,
    ]


def pairs(readings: Sequence[str], kind: Kind) -> "tuple[Array, Array]":
    """Typed pairs such as 5s=9km/h, as seconds and SI values."""
    import numpy as np

    rows = []
    for text in readings:
        time, equals, value = text.partition("=")
        if not equals:
            raise NotMeasuredError(f'"{text}" is no pair. Write a time = {kind.noun}.')
        rows.append((read_as(time, Kind.TIME), read_as(value, kind)))
    table = np.array(rows, dtype=float).reshape(-1, 2)
    return table[:, 0], table[:, 1]


def read_as(text: str, kind: Kind) -> float:
    """SI value of what was typed."""
    return _quantity(text, kind).value


def _quantity(text: str, kind: Kind) -> Quantity:
    try:
        return read_quantity(text, kind)
    except QuantityError as refused:
        raise NotMeasuredError(str(refused)) from None

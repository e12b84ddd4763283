"""The options of a search against one another: one merit along x, another along y."""

from math import isfinite

from beltwright.build.model import Build
from beltwright.build.walking import units_of
from beltwright.drawing.chart import Axis, Chart, Series
from beltwright.options.merit import COST, OVERSPEED, Merit
from beltwright.options.outcome import Outcome
from beltwright.quantity import Kind
from beltwright.quantity.units import unit_named


def trade_off_chart(
    outcome: Outcome, build: Build, across: Merit = COST, up: Merit = OVERSPEED
) -> Chart | None:
    """A point for each option; None where no option has both merits."""
    points = [
        (number, found.merits[across], found.merits[up])
        for number, found in enumerate(outcome.found, 1)
        if isfinite(found.merits[across]) and isfinite(found.merits[up])
    ]
    if not points:
        return None
    series = [
        Series(
            f"option {number}", [_shown(x, across, build)], [_shown(y, up, build)], kind="points"
        )
        for number, x, y in points
    ]
    return Chart(
        title=f"{up.title} against {across.title.lower()}",
        x=Axis(across.title.lower(), _symbol(across, build)),
        y=Axis(up.title.lower(), _symbol(up, build)),
        series=series,
        notes=("Each point is an option that no other beats in everything.",),
    )


def _symbol(merit: Merit, build: Build) -> str:
    if merit.kind is Kind.MONEY:
        return "" if build.goals.budget is None else build.goals.budget.unit
    if merit.kind is Kind.RATIO:
        return "" if merit.step >= 1.0 else "%"
    return units_of(build)[merit.kind].symbol


def _shown(value: float, merit: Merit, build: Build) -> float:
    symbol = _symbol(merit, build)
    return unit_named(symbol, merit.kind).from_si(value) if symbol else value

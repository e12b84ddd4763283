"""How fast a turn can be driven before the machine tips or slides, level and along a slope."""

from beltwright.drawing.chart import Axis, Chart
from beltwright.quantity import Kind
from beltwright.quantity.units import unit_named
from beltwright.review.case import Case
from beltwright.review.road_words import slope_words
from beltwright.review.stability.cautions import TIPPING_CAUTION
from beltwright.review.stability.tipping import turn_and_slope
from beltwright.views.charts.band import banded


def turning_chart(case: Case) -> Chart:
    """Speed against the radius of a turn, on the level and on the steepest slope."""
    turns = turn_and_slope(case)
    speed, length = case.units[Kind.SPEED], case.units[Kind.LENGTH]
    far = "ft" if length.symbol in ("in", "ft") else "m"
    shown = unit_named(far, Kind.LENGTH).from_si
    radii = [shown(float(radius)) for radius in turns.radius]
    series = []
    for curve in (turns.curves[0], turns.curves[-1]):
        where = f"on {slope_words(curve.side_slope)}" if curve.side_slope else "level"
        series += [
            banded(f"tips, {where}", radii, list(curve.tips), speed),
            banded(f"slides, {where}", radii, list(curve.slides), speed),
        ]
    return Chart(
        title=f"Fastest turns, laden, on {turns.ground}",
        x=Axis("radius of the turn", far, low=0.0),
        y=Axis("ground speed", speed.symbol, low=0.0),
        series=series,
        notes=(
            "The slope falls to the outside of the turn. Stay well below the lower line. Bands "
            "show what the tolerances allow.",
        ),
        caution=TIPPING_CAUTION,
    )

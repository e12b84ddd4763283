"""What the title block says of a build: its state in one line, its money, its units."""

from beltwright.drawing.sheet import TitleBlock
from beltwright.drawing.verdict_mark import Verdict as Mark
from beltwright.quantity import Kind, Units
from beltwright.review.finding import WORST_FIRST, Verdict
from beltwright.review.review import Review
from beltwright.views.money_line import money_line

MARKS: dict[Verdict, Mark] = {
    Verdict.STOP: "stop",
    Verdict.MARGINAL: "marginal",
    Verdict.NOT_KNOWN: "not known",
    Verdict.SOUND: "sound",
}
"""The mark that is drawn for each verdict."""

NO_SCALE = "none"


def title_block_of(review: Review, title: str, made_on: str, scale: str, sheet: str) -> TitleBlock:
    """The title block of a sheet about a build."""
    return TitleBlock(
        title=title,
        build=review.build.name,
        date=made_on,
        scale=scale,
        units=review.units[Kind.LENGTH].symbol,
        sheet=sheet,
        money=money_line(review),
        state=tuple((MARKS[verdict], review.count(verdict)) for verdict in WORST_FIRST),
    )


def length_figure(units: Units, value: float) -> str:
    """A length without its unit, which stands in the title block."""
    text = units.show(value, Kind.LENGTH)
    return text.removesuffix(f" {units[Kind.LENGTH].symbol}")

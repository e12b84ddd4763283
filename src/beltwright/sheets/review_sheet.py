"""The review on paper: what blocks the plan, every finding, the charts, the money."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from beltwright.build.shop import Part
from beltwright.drawing.chart import Chart
from beltwright.drawing.charts import chart_picture
from beltwright.drawing.ink import Colour, Ink, Letters, Page
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.sheet import A4, Paper
from beltwright.drawing.verdict_mark import verdict_mark
from beltwright.quantity import Kind
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import Review
from beltwright.review.spread import MOST_MEASUREMENTS
from beltwright.sheets.flow import (
    BODY,
    SMALL,
    Block,
    Cell,
    heading,
    paragraph,
    picture,
    row,
    rule,
    space,
)
from beltwright.sheets.paper_sheet import text_frame, text_sheets
from beltwright.views.assumed import assumed_lines
from beltwright.views.layout.balloons import numbered
from beltwright.views.plan_state import MARKS
from beltwright.views.same_words import same_words

TITLE = "Review"
PURPOSE = (
    "What the plan can stand and what it cannot, before anything is cut or bought. Findings that "
    "say stop come first: nothing is driven until they are gone. The numbers are only as good as "
    "the measurements; local codes and licensed practice come before this sheet."
)
TOOLS = "To read it: the build beside you, a tape, a caliper and a pencil."

_NUMBER, _MARK_ROOM = 4.0, 11.0  # where the number and the text beside a mark begin
_SHARES = (0.11, 0.30, 0.17, 0.21, 0.21)  # widths of the columns of findings
_CHART_HEIGHT = 72.0


def review_pages(
    review: Review, charts: Mapping[str, Chart], made_on: str, paper: Paper = A4
) -> list[Page]:
    """The sheets of the review."""
    width = text_frame(paper).width
    blocks = [
        heading(f"Review of {review.build.name}"),
        paragraph(PURPOSE, width),
        space(1.0),
        paragraph(TOOLS, width),
        *_open_findings(review, width),
        *_all_findings(review, width),
        *_charts(charts, width),
        *_parts(review, width),
        *_assumptions(review, width),
        *_measure_next(review, width),
    ]
    return text_sheets(review, TITLE, made_on, blocks, paper)


def finding_blocks(found: Sequence[tuple[int, Finding]], width: float) -> Iterator[Block]:
    """Findings that are not sound, in full: value and limit, meaning, what to do, caution.

    The number is the one that its balloon bears on the belt layout. Words that several findings
    share stand once, under the last of them.
    """
    numbers = {finding.id: number for number, finding in found}
    for alike in same_words(finding for _, finding in found):
        for finding in alike:
            summary = _summary(finding, width - _MARK_ROOM)
            last = finding is alike[-1]
            yield _marked(numbers[finding.id], finding, summary, with_next=last)
        yield from _words(alike[0], width)


def _words(finding: Finding, width: float) -> Iterator[Block]:
    """What a finding means, what to do, and its caution."""
    texts = [(finding.meaning, False), (_what_to_do(finding), False)]
    if finding.caution:
        texts.append((f"Caution: {finding.caution}", True))
    said = [(text, bold) for text, bold in texts if text]
    for number, (text, bold) in enumerate(said, start=1):
        yield paragraph(text, width, bold=bold, indent=_MARK_ROOM, with_next=number < len(said))
    yield space(2.0)


def _what_to_do(finding: Finding) -> str:
    if finding.verdict is Verdict.NOT_KNOWN:
        return f"To settle it: {finding.remedy}" if finding.remedy else ""
    return f"What to do: {finding.remedy}" if finding.remedy else ""


def _summary(finding: Finding, width: float, bold: bool = True) -> list[Cell]:
    """Verdict in words, title, value, its range, and limit."""
    texts = (
        finding.verdict.value,
        finding.title,
        finding.shown,
        finding.shown_range,
        finding.shown_limit,
    )
    return [
        Cell(
            text,
            share * width,
            bold=bold and number < 2,
            colour=Colour.QUIET if number > 2 else Colour.INK,
        )
        for number, (text, share) in enumerate(zip(texts, _SHARES, strict=True))
    ]


def _marked(number: int, finding: Finding, cells: list[Cell], with_next: bool = False) -> Block:
    """A row with the mark of the verdict and the number of the finding before it."""
    content = row(cells)

    def draw(x: float, top: float) -> Iterable[Ink]:
        centre = (x + BODY / 2.0, top - 1.05 * BODY)
        yield verdict_mark(MARKS[finding.verdict], centre, 0.55 * BODY, FINE_PEN)
        yield Letters(str(number), (x + _NUMBER, top - 1.55 * BODY), BODY, colour=Colour.QUIET)
        yield from content.draw(x + _MARK_ROOM, top)

    return Block(content.height + 0.6, draw, with_next)


def _open_findings(review: Review, width: float) -> Iterator[Block]:
    """Stops first, then marginal ones, each in full."""
    for verdict, title in (
        (Verdict.STOP, "Stop: not driven until these are gone"),
        (Verdict.MARGINAL, "Marginal: works, but look again"),
        (Verdict.NOT_KNOWN, "Not known: measure these"),
    ):
        found = [(n, finding) for n, finding in numbered(review) if finding.verdict is verdict]
        if found:
            yield heading(title)
            yield rule(width)
        yield from finding_blocks(found, width)


def _all_findings(review: Review, width: float) -> Iterator[Block]:
    """Every finding in one line, by topic."""
    yield heading("All findings")
    yield rule(width)
    room = width - _MARK_ROOM
    labels = ("Verdict", "Finding", "Value", "Range", "Limit")
    cells = [
        Cell(text, share * room, colour=Colour.QUIET)
        for text, share in zip(labels, _SHARES, strict=True)
    ]
    yield _indented(row(cells, SMALL), _MARK_ROOM)
    for topic in dict.fromkeys(finding.topic for finding in review.findings):
        yield paragraph(topic, width, bold=True, with_next=True)
        for number, finding in numbered(review):
            if finding.topic == topic:
                yield _marked(number, finding, _summary(finding, room, bold=False))
        yield space(1.5)


def _indented(block: Block, by: float) -> Block:
    return Block(block.height, lambda x, top: block.draw(x + by, top), with_next=True)


def _charts(charts: Mapping[str, Chart], width: float) -> Iterator[Block]:
    if charts:
        yield heading("Charts")
    for chart in charts.values():
        yield picture(chart_picture(chart, (0.0, 0.0), width, _CHART_HEIGHT))


def _parts(review: Review, width: float) -> Iterator[Block]:
    """What is there, what has to be bought or made, and what it costs."""
    parts = review.build.part
    if not parts:
        return
    yield heading("Parts and money")
    yield rule(width)
    for part in parts:
        price = review.units.show(part.price.value, Kind.MONEY) if part.price else "no price"
        count = f"{part.quantity} × " if part.quantity > 1 else ""
        yield row(
            [
                Cell(f"{count}{part.name}", 0.42 * width),
                Cell(part.source or "", 0.26 * width),
                Cell(_standing(part), 0.16 * width),
                Cell(price, 0.16 * width, right=True),
            ]
        )
    for number, finding in numbered(review):
        if finding.topic == "Money":
            yield _marked(number, finding, _summary(finding, width - _MARK_ROOM))


def _standing(part: Part) -> str:
    if part.have:
        return "on the bench"
    return "to make" if part.source == "make" else "to get"


def _assumptions(review: Review, width: float) -> Iterator[Block]:
    if review.assumptions:
        yield heading("Assumed, because the build does not say")
        yield rule(width)
    for topic, assumed in review.assumed_by_topic().items():
        yield paragraph(topic, width, bold=True, with_next=True)
        for values, why in assumed_lines(assumed, review.units):
            yield paragraph(f"{values}. {why}", width)


def _measure_next(review: Review, width: float) -> Iterator[Block]:
    if review.measure_next:
        yield heading("Worth measuring better next")
        yield rule(width)
    for wanted in review.measure_next[:MOST_MEASUREMENTS]:
        yield paragraph(f"{wanted.what}. {wanted.how}", width)

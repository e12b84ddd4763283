"""The review in a terminal: a title block, a table a topic, what to measure, what was assumed."""

from collections.abc import Iterable

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from beltwright.review.finding import WORST_FIRST, Finding, Verdict
from beltwright.review.review import Review
from beltwright.views.plan_state import money_line
from beltwright.views.verdict_text import MARKS, STYLES

VERDICT_WIDTH = 12
VALUE_SHARE = 0.47
INDENT = 2
MOST_MEASUREMENTS = 6

GENERAL_CAUTION = (
    "These figures help to plan; they approve nothing. Local codes, the law of the road and the "
    "judgement of a licensed trade come first. Guards on before the engine starts."
)


def print_report(review: Review, file: str, console: Console | None = None) -> None:
    """Print a review; narrow or piped, it stays readable without colour."""
    out = console or Console(highlight=False, soft_wrap=False)
    _title_block(out, review)
    topics = dict.fromkeys(finding.topic for finding in review.findings)
    for topic in topics:
        _topic(out, topic, [f for f in review.findings if f.topic == topic])
    _measure_next(out, review)
    _assumed(out, review)
    out.print()
    out.print(f"Working and source of a finding: beltwright check {file} --why ID", style="dim")
    out.print(GENERAL_CAUTION, style="dim")


def _title_block(out: Console, review: Review) -> None:
    """Print the name, how many findings stand how, and the money."""
    out.print(Text(review.build.name, "bold"))
    counts = Text("   ").join(_counted(review, verdict) for verdict in WORST_FIRST)
    out.print(counts)
    out.print(Text(f"Money: {money_line(review)}"))


def _counted(review: Review, verdict: Verdict) -> Text:
    """Give the mark, number and word of one verdict."""
    return Text(f"{MARKS[verdict]} {review.count(verdict)} {verdict.value}", STYLES[verdict])


def _topic(out: Console, topic: str, findings: Iterable[Finding]) -> None:
    """Print the findings of one topic, worst first."""
    out.print()
    out.print(Text(topic, "bold underline"))
    for finding in sorted(findings, key=lambda each: WORST_FIRST.index(each.verdict)):
        out.print(_row(finding, out.width))
        if finding.verdict is not Verdict.SOUND:
            _details(out, finding)


def _row(finding: Finding, width: int) -> Table:
    """Set a finding on one row: verdict, title, value with range and limit."""
    row = Table.grid(padding=(0, 1, 0, 0), expand=True)
    row.add_column(width=VERDICT_WIDTH, no_wrap=True)
    row.add_column(ratio=1)
    row.add_column(width=int(width * VALUE_SHARE))
    verdict = Text(f"{MARKS[finding.verdict]} {finding.verdict.value}", STYLES[finding.verdict])
    row.add_row(verdict, Text(finding.title), Text(_value(finding)))
    return row


def _value(finding: Finding) -> str:
    """Give the value with its range and its limit."""
    value = f"{finding.shown} ({finding.shown_range})" if finding.shown_range else finding.shown
    return f"{value}\nlimit: {finding.shown_limit}" if finding.shown_limit else value


def _details(out: Console, finding: Finding) -> None:
    """Print what a finding that is not sound means, what changes it, and its caution."""
    indented(out, finding.meaning)
    indented(out, finding.remedy, "Do: ")
    indented(out, finding.caution, "Caution: ", "bold")
    indented(out, finding.id, "id: ", "dim")


def indented(out: Console, words: str, before: str = "", style: str = "") -> None:
    """Print words under the titles, nothing where there are none."""
    if words:
        out.print(Padding(Text(f"{before}{words}", style), (0, 0, 0, VERDICT_WIDTH + 1)))


def _measure_next(out: Console, review: Review) -> None:
    """Print which measurements would settle most."""
    if not review.measure_next:
        return
    out.print()
    out.print(Text("Measure this next", "bold underline"))
    for number, each in enumerate(review.measure_next[:MOST_MEASUREMENTS], 1):
        out.print(Padding(Text(f"{number}. {each.what}: {each.how}"), (0, 0, 0, INDENT)))
        settled = ", ".join(each.settles)
        out.print(Padding(Text(f"settles {settled}", "dim"), (0, 0, 0, INDENT + 3)))


def _assumed(out: Console, review: Review) -> None:
    """Print what the builder did not give and was supposed."""
    if not review.assumptions:
        return
    out.print()
    out.print(Text("Assumed, because the build file does not say", "bold underline"))
    for each in review.assumptions:
        out.print(Padding(Text(f"{each.key} = {each.text}: {each.why}"), (0, 0, 0, INDENT)))

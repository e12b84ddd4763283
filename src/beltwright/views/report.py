"""The review in a terminal: a title block, a table a topic, what to measure, what was assumed."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from textwrap import wrap

from rich.console import Console
from rich.text import Text

from beltwright.review.finding import WORST_FIRST, Finding, Verdict
from beltwright.review.review import Review
from beltwright.review.spread import MOST_MEASUREMENTS
from beltwright.views.assumed import assumed_lines, capital
from beltwright.views.money_line import money_line
from beltwright.views.same_words import same_words
from beltwright.views.verdict_text import MARKS, STYLES

DETAIL_INDENT = 13
VALUE_SHARE = 0.47
INDENT = 2
MOST_STOPS = 8
MOST_IDS = 3
NARROW = 60
"""Below this many columns the value stands under the title, not beside it."""

GENERAL_CAUTION = (
    "These figures help to plan; they approve nothing. Local codes, the law of the road and the "
    "judgement of a licensed trade come first. Guards on before the engine starts."
)


def print_report(review: Review, file: str, console: Console | None = None) -> None:
    """Print a review; narrow or piped, it stays readable without colour."""
    out = console or Console(highlight=False)
    lines = [
        *_title_block(review, out.width),
        *_stops(review, out.width),
        *_topics(review, out.width),
        *_measure_next(review, out.width),
        *_assumed(review, out.width),
        Text(),
        *_hanging(f"Working and source: beltwright check {file} --why ID", out.width, 0, "dim"),
        *_hanging(GENERAL_CAUTION, out.width, 0, "dim"),
    ]
    out.print(Text("\n").join(lines), soft_wrap=True)


def _title_block(review: Review, width: int) -> Iterator[Text]:
    """Give the name, how many findings stand how, and the money."""
    yield Text(review.build.name, "bold")
    counts = [_counted(review, verdict) for verdict in WORST_FIRST]
    in_one = Text("   ").join(counts)
    yield from [in_one] if len(in_one) <= width else counts
    yield Text(f"Money: {money_line(review)}")


def _counted(review: Review, verdict: Verdict) -> Text:
    """Give the mark, number and word of one verdict."""
    return Text(f"{MARKS[verdict]} {review.count(verdict)} {verdict.value}", STYLES[verdict])


def _stops(review: Review, width: int) -> Iterator[Text]:
    """Give what stops the build, before all the rest."""
    found = [finding for finding in review.findings if finding.verdict is Verdict.STOP]
    if not found:
        return
    yield from _heading("What stops it", width)
    for finding in found[:MOST_STOPS]:
        told = f"{MARKS[Verdict.STOP]} {finding.title}: {finding.shown}"
        yield from _hanging(told, width, INDENT, STYLES[Verdict.STOP])
    if len(found) > MOST_STOPS:
        yield from _hanging(f"and {len(found) - MOST_STOPS} more below", width, INDENT)


def _topics(review: Review, width: int) -> Iterator[Text]:
    """Give the findings of each topic, worst first; those that say the same say it once."""
    for topic in dict.fromkeys(finding.topic for finding in review.findings):
        yield from _heading(topic, width)
        for alike in same_words(each for each in review.worst_first() if each.topic == topic):
            for finding in alike:
                yield from _row(finding, width)
            yield from _details(alike, width)


def _heading(words: str, width: int) -> Iterator[Text]:
    """Give a heading with a line of room above."""
    yield Text()
    yield from _hanging(words, width, 0, "bold underline")


def _row(finding: Finding, width: int) -> Iterator[Text]:
    """Set a finding in three columns: verdict, title, value with range and limit."""
    narrow = width < NARROW
    beside = max(width - DETAIL_INDENT, 8) if narrow else int(width * VALUE_SHARE)
    middle = beside if narrow else width - DETAIL_INDENT - beside
    title = wrap(finding.title, middle - (not narrow))
    value = [line for part in _value(finding) for line in wrap(part, beside)]
    if narrow:
        title, value = [*title, *value], []
    mark = f"{MARKS[finding.verdict]} {finding.verdict.value}"
    for left, right in zip_longest(title, value, fillvalue=""):
        line = Text(mark.ljust(DETAIL_INDENT), STYLES[finding.verdict])
        yield line.append(f"{left:{middle}}{right}".rstrip(), "default")
        mark = ""


def _value(finding: Finding) -> Iterator[str]:
    """Give the value with its range, then its limit."""
    ranged = f" ({finding.shown_range})" if finding.shown_range else ""
    yield f"{finding.shown}{ranged}"
    if finding.shown_limit:
        yield f"limit: {finding.shown_limit}"


def _details(alike: Sequence[Finding], width: int) -> Iterator[Text]:
    """Give what findings that are not sound mean, what changes them, and their caution."""
    finding = alike[0]
    if finding.verdict is Verdict.SOUND:
        return
    for before, words, style in (
        ("", finding.meaning, ""),
        ("Do: ", finding.remedy, ""),
        ("Caution: ", finding.caution, "bold"),
        ("id: ", _ids(alike), "dim"),
    ):
        if words:
            yield from _hanging(f"{before}{words}", width, DETAIL_INDENT, style)


def _ids(alike: Sequence[Finding]) -> str:
    """Give the ids by which `--why` knows findings, not endlessly many."""
    ids = [each.id for each in alike]
    return ", ".join(ids) if len(ids) <= MOST_IDS else f"{ids[0]}, and {len(ids) - 1} more"


def _hanging(words: str, width: int, indent: int, style: str = "") -> Iterator[Text]:
    """Give words wrapped under their own beginning."""
    for line in wrap(words, max(width - indent, 20)):
        yield Text(f"{' ' * indent}{line}", style)


def _measure_next(review: Review, width: int) -> Iterator[Text]:
    """Give which measurements would settle most."""
    if not review.measure_next:
        return
    yield from _heading("Measure this next", width)
    for number, each in enumerate(review.measure_next[:MOST_MEASUREMENTS], 1):
        yield from _hanging(f"{number}. {capital(each.what)}: {each.how}", width, INDENT)
        titles = (f.title for f in review.findings if f.id in each.settles)
        yield from _hanging(f"would settle: {'; '.join(titles)}", width, INDENT + 3, "dim")


def _assumed(review: Review, width: int) -> Iterator[Text]:
    """Give what the builder did not give and was supposed."""
    if not review.assumptions:
        return
    yield from _heading("Assumed, because the build file does not say", width)
    for topic, assumed in review.assumed_by_topic().items():
        yield from _hanging(topic, width, INDENT, "bold")
        for values, why in assumed_lines(assumed, review.units):
            yield from _hanging(f"{values}. {why}", width, 2 * INDENT)

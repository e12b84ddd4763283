"""One finding in a terminal with its working, its source and what went into it."""

import sys
from difflib import get_close_matches

from rich.console import Console
from rich.table import Table
from rich.text import Text

from beltwright.review.finding import Explained, Finding, Verdict
from beltwright.review.names.naming import name_of
from beltwright.review.review import Review
from beltwright.views.assumed import assumed_lines, capital
from beltwright.views.verdict_text import MARKS, STYLES

NO_SUCH_FINDING = 2
NARROWEST = 32
"""Columns below which the working would no longer be shown at all."""


def print_why(review: Review, id_: str, console: Console | None = None) -> int:
    """Print a finding with everything a reader needs to doubt it; 1 where it says stop."""
    finding = review.finding(id_)
    if finding is None:
        sys.stderr.write(_unknown(review, id_))
        return NO_SUCH_FINDING
    out = console or Console(highlight=False)
    out.width = max(out.width, NARROWEST)
    verdict = Text(f"{MARKS[finding.verdict]} {finding.verdict.value}", STYLES[finding.verdict])
    out.print(Text(f"{finding.title}  ", "bold") + verdict)
    table = Table.grid(padding=(0, 2, 0, 0))
    table.add_column(no_wrap=True, style="dim")
    table.add_column()
    for name, words in _parts(review, finding):
        if words:
            table.add_row(name, Text(words, "bold" if name == "caution" else ""))
    out.print(table)
    return 1 if finding.verdict is Verdict.STOP else 0


def _parts(review: Review, finding: Finding) -> list[tuple[str, str]]:
    """Give the parts of a finding in the order in which they are read."""
    assumed = [each for each in review.assumptions if each.key in finding.assumed]
    lines = assumed_lines(assumed, review.units)
    return [
        ("id", finding.id),
        ("value", finding.shown),
        ("range", finding.shown_range),
        ("limit", finding.shown_limit),
        ("means", finding.meaning),
        ("do", finding.remedy),
        ("may be", "\n".join(_cause(each) for each in finding.causes)),
        ("caution", finding.caution),
        ("formula", finding.formula),
        ("working", finding.working),
        ("source", finding.source),
        ("leaves out", finding.leaves_out),
        ("assumed", "\n".join(f"{values}. {why}" for values, why in lines)),
        ("from", "\n".join(capital(name_of(key)) for key in finding.inputs)),
    ]


def _cause(cause: Explained) -> str:
    """Give one cause with what it would have to be and what tells it from the others."""
    line = f" Then write: {cause.line}" if cause.line else ""
    return f"{cause.what}: {cause.needed}; {cause.likely}. {cause.check}.{line}"


def _unknown(review: Review, id_: str) -> str:
    """Say that there is no such finding, and which are like it or there at all."""
    known = [finding.id for finding in review.findings]
    near = get_close_matches(id_, known, n=3) or [each for each in known if id_ in each]
    listed = "\n".join(f"  {each}" for each in near or known)
    return f'There is no finding "{id_}". {"Near it are" if near else "There are"}:\n{listed}\n'

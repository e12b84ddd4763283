"""The outcome of a search in a terminal: what fits, why the rest does not, what to give up."""

from math import isfinite

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from beltwright.build.model import Build
from beltwright.build.walking import units_of
from beltwright.options.merit import MERITS, PARTS, Merit
from beltwright.options.outcome import Found, Outcome
from beltwright.quantity import Kind
from beltwright.review.finding import Verdict
from beltwright.views.report import GENERAL_CAUTION
from beltwright.views.verdict_text import MARKS, STYLES

MOST_REASONS = 8
MOST_SENTENCES = 4
LEAST_SHARE = 0.001
"""Smaller shares of the candidates are all told alike."""
CHOICE_CAUTION = (
    "An option that fits is a plan, no approval. Never gain speed by opening the governor; brake, "
    "steering and guards come before speed."
)


def print_options(
    outcome: Outcome, build: Build, file: str, most: int, console: Console | None = None
) -> None:
    """Print an outcome; narrow or piped, it stays readable without colour."""
    out = console or Console(highlight=False, soft_wrap=False)
    out.print(Text(build.name, "bold"))
    out.print(_counted(outcome))
    _standing(out, outcome)
    if outcome.found:
        _table(out, outcome, build, most)
        out.print(f"Write one into a copy: beltwright choose {file} --apply N", style="dim")
    else:
        _nothing(out, outcome)
    _rejected(out, outcome)
    out.print()
    out.print(CHOICE_CAUTION)
    out.print(GENERAL_CAUTION, style="dim")


def merit_text(merit: Merit, value: float, build: Build) -> str:
    """A merit in the builder's units."""
    if not isfinite(value):
        return Verdict.NOT_KNOWN.value
    if merit is PARTS:
        return f"{value:.0f}"
    if merit.kind is Kind.RATIO:
        return f"{value:+.0%}"
    return units_of(build).show(value, merit.kind)


def _counted(outcome: Outcome) -> str:
    how = "disposed of, every one" if outcome.finished else "disposed of before it was stopped"
    count = outcome.candidates if outcome.finished else outcome.disposed
    fit = len(outcome.found)
    best = "none fits" if not fit else "1 stands out" if fit == 1 else f"{fit} stand out"
    return f"{count:,} candidates {how} in {outcome.seconds:.1f} s; {best}."


def _standing(out: Console, outcome: Outcome) -> None:
    """Say which stops no choice changes."""
    for stop in outcome.standing:
        mark = Text(f"{MARKS[Verdict.STOP]} {Verdict.STOP.value}  ", STYLES[Verdict.STOP])
        out.print(mark + Text(f"{stop.title} ({stop.id}): no choice changes it; see to it first."))


def _table(out: Console, outcome: Outcome, build: Build, most: int) -> None:
    shown = outcome.found[:most]
    out.print()
    for number, found in enumerate(shown, 1):
        out.print(Text(f"{number}  ", "bold") + Text(_taken(found)))
        out.print(Padding(Text(_merits(found, build)), (0, 0, 0, 3)))
    left = len(outcome.found) - len(shown)
    if left:
        out.print(f"{left} more; show them with --top {len(outcome.found)}.", style="dim")


def _taken(found: Found) -> str:
    return "; ".join(f"{name}: {label}" for name, label in found.taken.items())


def _merits(found: Found, build: Build) -> str:
    return " · ".join(f"{m.title} {merit_text(m, found.merits[m], build)}" for m in MERITS)


def _nothing(out: Console, outcome: Outcome) -> None:
    out.print()
    nearest = outcome.relaxation
    if nearest is None:
        out.print(
            "Nothing fits, and nothing comes near. Begin with the first reason below: ease its "
            "limit, or leave open more of what it hangs on."
        )
        return
    heading = (
        "Nothing fits, whatever the goals. The nearest is still stopped; look for other parts:"
        if nearest.stops
        else "Nothing fits. The least that would let something fit:"
    )
    out.print(Text(heading, "bold"))
    for sentence in nearest.says:
        out.print(Padding(Text(sentence), (0, 0, 0, 2)))
    taken = "; ".join(f"{name}: {label}" for name, label in nearest.taken.items())
    out.print(Padding(Text(f"with {taken}"), (0, 0, 0, 2)))


def _rejected(out: Console, outcome: Outcome) -> None:
    if not outcome.rejections:
        return
    out.print()
    out.print(Text("Why the others are out", "bold underline"))
    for each in outcome.rejections[:MOST_REASONS]:
        out.print(Text(f"{_share(each.share)}  {each.why} ({each.id})"))
        for sentence in each.sentences[:MOST_SENTENCES]:
            out.print(Padding(Text(sentence), (0, 0, 0, 8)))


def _share(share: float) -> str:
    return f"{share:7.1%}" if share >= LEAST_SHARE else f"< {LEAST_SHARE:.1%}".rjust(7)

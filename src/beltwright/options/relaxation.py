"""The least that must give for something to fit, told from the review of what comes nearest."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from beltwright.build.model import Build
from beltwright.options.assembly import assembled, taken
from beltwright.options.ease import Ease
from beltwright.options.front import Candidate
from beltwright.options.option import Choice
from beltwright.options.referee import goal_ids
from beltwright.options.spending import spending
from beltwright.quantity import show
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import review


@dataclass(frozen=True)
class Relaxation:
    """What comes nearest where nothing fits.

    says   what to give up, or what is still in the way, a sentence each
    taken  the option for each choice that would then fit, by the choice's name
    stops  whether a stop is in the way, which is never given up
    """

    says: tuple[str, ...]
    taken: Mapping[str, str]
    stops: bool


def relaxation_to(
    build: Build, choices: Sequence[Choice], candidate: Candidate, ease: Ease
) -> Relaxation:
    """What must give for this candidate to fit."""
    tried = assembled(build, choices, candidate)
    findings = review(tried, samples=0).findings
    stops = [f for f in findings if f.verdict is Verdict.STOP] if ease.stops else []
    ids = goal_ids(build)
    goals = [f for f in findings if f.id in ids and f.verdict is Verdict.MARGINAL]
    return Relaxation(
        says=(
            *(_in_the_way(finding) for finding in stops),
            *(_give_up(finding) for finding in goals),
            *_more_money(build, choices, candidate),
        ),
        taken={choice.name: option.label for choice, option in taken(choices, candidate)},
        stops=bool(stops),
    )


def _in_the_way(finding: Finding) -> str:
    held = f", held to {finding.shown_limit}" if finding.shown_limit else ""
    return f"{finding.title} still stops it: {finding.shown}{held}. {finding.remedy}".strip()


def _give_up(finding: Finding) -> str:
    return f"{finding.title}: allow {finding.shown} instead of {finding.shown_limit}."


def _more_money(build: Build, choices: Sequence[Choice], candidate: Candidate) -> tuple[str, ...]:
    money = spending(build, choices)
    cost = money.base + sum(option.price for _, option in taken(choices, candidate))
    if money.budget is None or cost <= money.budget:
        return ()
    goal = build.goals.budget
    assert goal is not None
    return (f"Budget: allow {show(cost, goal.unit)} instead of {goal.text}.",)

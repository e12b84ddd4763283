"""The topics of the review, in the order in which they are read."""

from collections.abc import Callable, Iterator

from beltwright.review import engine_findings, money_findings, speed
from beltwright.review.case import Case
from beltwright.review.draft import Ask

TOPICS: dict[str, Callable[[Case], Iterator[Ask]]] = {
    "Speed": speed.questions,
    "Engine": engine_findings.questions,
    "Money": money_findings.questions,
}

"""Balloons that carry the findings to the places they speak of."""

from __future__ import annotations

from collections.abc import Sequence

from beltwright.drawing.balloons import Balloon, balloon_pitch, balloon_places
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.path import Point
from beltwright.review.finding import Finding
from beltwright.review.review import Review
from beltwright.views.plan_state import MARKS


def numbered(review: Review) -> list[tuple[int, Finding]]:
    """The findings with the numbers that their balloons bear, worst first."""
    return list(enumerate(review.worst_first(), start=1))


def finding_balloons(
    placed: Sequence[tuple[int, Finding, Point]], box: tuple[Point, Point], mm: float
) -> list[Balloon]:
    """Balloons round a box [m], with leaders to the places of their findings.

    Several findings of one place share its leader: each hangs on the one before it.
    """
    pitch = balloon_pitch(FINE_PEN) * mm
    places = balloon_places([point for _, _, point in placed], box, pitch)
    seated: dict[Point, Point] = {}
    balloons: list[Balloon] = []
    for (number, finding, point), at in zip(placed, places, strict=True):
        balloons.append(
            Balloon(
                seated.get(point, point),
                at,
                str(number),
                MARKS[finding.verdict],
                dot=point not in seated,
                title=f"{number}, {finding.verdict}: {finding.title}, {finding.shown}",
                data=(("finding", finding.id),),
            )
        )
        seated[point] = at
    return balloons[::-1]  # the leader to another balloon ends underneath it

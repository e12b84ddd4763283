"""What still stands in the way of the work on a sheet, told alike on all of them."""

from collections.abc import Iterator

from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import Review
from beltwright.sheets.flow import Block, heading, paragraph
from beltwright.sheets.review_sheet import finding_blocks
from beltwright.views.layout.balloons import numbered


def before_you_begin(
    review: Review, about: str, belonging: str | tuple[str, ...], width: float
) -> Iterator[Block]:
    """The findings that still stand in the way, under their heading."""
    yield heading("Before you begin")
    yield from in_the_way(review, about, belonging, width)


def in_the_way(
    review: Review, about: str, belonging: str | tuple[str, ...], width: float
) -> Iterator[Block]:
    """The findings whose id begins so and that are not sound, or that there are none."""
    found = not_sound(review, belonging)
    told = (
        f"These findings about the {about} still stand in the way:"
        if found
        else f"No finding about the {about} stands in the way."
    )
    yield paragraph(told, width, with_next=bool(found))
    yield from finding_blocks(found, width)


def not_sound(review: Review, belonging: str | tuple[str, ...]) -> list[tuple[int, Finding]]:
    """The findings whose id begins so and that are not sound, with their numbers."""
    return [
        (number, finding)
        for number, finding in numbered(review)
        if finding.verdict is not Verdict.SOUND and finding.id.startswith(belonging)
    ]

"""What is read before the work begins: the findings that stand in its way, and the cautions."""

from collections.abc import Iterable, Iterator

from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import Review
from beltwright.sheets.flow import Block, heading, paragraph
from beltwright.sheets.review_sheet import finding_blocks
from beltwright.views.layout.balloons import numbered


def not_sound(review: Review, begins: str | tuple[str, ...]) -> list[tuple[int, Finding]]:
    """What the review says of something, as far as it is not sound, by the beginning of its ids."""
    return [
        (number, finding)
        for number, finding in numbered(review)
        if finding.verdict is not Verdict.SOUND and finding.id.startswith(begins)
    ]


def in_the_way(found: list[tuple[int, Finding]], none: str, width: float) -> Iterator[Block]:
    """The findings that still stand in the way, or that there are none."""
    words = "These findings still stand in the way:" if found else none
    yield paragraph(words, width, with_next=bool(found))
    yield from finding_blocks(found, width)


def before_you_begin(
    review: Review, begins: str | tuple[str, ...], about: str, width: float
) -> Iterator[Block]:
    """The findings about something that still stand in the way, under their heading."""
    yield heading("Before you begin")
    none = f"No finding about {about} stands in the way."
    yield from in_the_way(not_sound(review, begins), none, width)


def cautions(texts: Iterable[str], width: float) -> Iterator[Block]:
    """Each caution in bold."""
    for text in texts:
        yield paragraph(f"Caution: {text}", width, bold=True)

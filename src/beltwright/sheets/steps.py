"""What to do, step by step, each step with the caution that belongs to it."""

from collections.abc import Iterable, Iterator

from beltwright.sheets.flow import Block, Cell, paragraph, row, space

_NUMBER = 7.0  # room for the number of a step [mm]


def numbered_steps(sayings: Iterable[tuple[str, str]], width: float) -> Iterator[Block]:
    """Steps in their order; a step and its caution stay together on a page."""
    for number, (step, caution) in enumerate(sayings, start=1):
        cells = [Cell(f"{number}.", _NUMBER, bold=True), Cell(step, width - _NUMBER)]
        yield row(cells, with_next=bool(caution))
        if caution:
            yield paragraph(f"Caution: {caution}", width, bold=True, indent=_NUMBER)
        yield space(0.6)


def cautions(texts: Iterable[str], width: float) -> Iterator[Block]:
    """Cautions that belong to the whole of the work, each in bold."""
    for text in texts:
        yield paragraph(f"Caution: {text}", width, bold=True)

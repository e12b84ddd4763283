"""Blocks keep their order, stay whole, and stay inside the frame."""

from collections.abc import Sequence

from hypothesis import given
from hypothesis import strategies as st

from beltwright.drawing.extent import bounds
from beltwright.drawing.ink import Letters
from beltwright.drawing.sheet import Frame
from beltwright.sheets.flow import BODY, Block, Cell, flow, heading, paragraph, row

FRAME = Frame(20.0, 40.0, 170.0, 200.0)


def numbered(number: int, height: float, with_next: bool) -> Block:
    return Block(height, lambda x, top: [Letters(str(number), (x, top - height), 2.0)], with_next)


sizes = st.lists(st.tuples(st.floats(3.0, 60.0), st.booleans()), min_size=1, max_size=40)


@given(sizes)
def test_nothing_is_lost_and_nothing_changes_place(blocks: list[tuple[float, bool]]) -> None:
    sheets = flow([numbered(n, h, w) for n, (h, w) in enumerate(blocks)], FRAME)
    said = [int(piece.text) for sheet in sheets for piece in sheet if isinstance(piece, Letters)]
    assert said == list(range(len(blocks)))


@given(sizes)
def test_blocks_stand_one_below_another_inside_the_frame(blocks: list[tuple[float, bool]]) -> None:
    loose = [numbered(n, h, with_next=False) for n, (h, _) in enumerate(blocks)]
    for sheet in flow(loose, FRAME):
        feet = [piece.at[1] for piece in sheet if isinstance(piece, Letters)]
        assert feet == sorted(feet, reverse=True)
        assert min(feet) >= FRAME.y - 1e-9


def test_a_heading_is_never_the_last_on_its_sheet() -> None:
    blocks = [numbered(0, 190.0, with_next=False), heading("Brake"), numbered(1, 20.0, False)]
    first, second = flow(blocks, FRAME)
    assert len(first) == 1
    assert [piece.text for piece in second if isinstance(piece, Letters)] == ["Brake", "1"]


def _told(sheets: Sequence[Sequence[object]]) -> list[list[str]]:
    return [[piece.text for piece in sheet if isinstance(piece, Letters)] for sheet in sheets]


def test_a_few_lines_are_not_left_alone_on_the_last_sheet() -> None:
    part = [heading("Brake"), numbered(1, 40.0, False), numbered(2, 15.0, False)]
    assert _told(flow([numbered(0, 140.0, False), *part], FRAME)) == [["0"], ["Brake", "1", "2"]]
    more = [*part, numbered(3, 40.0, False)]
    assert _told(flow([numbered(0, 140.0, False), *more], FRAME)) == [
        ["0", "Brake", "1"],
        ["2", "3"],
    ]


def test_a_part_that_fills_its_sheet_may_end_in_a_few_lines() -> None:
    part = [heading("Brake"), numbered(1, 180.0, False), numbered(2, 15.0, False)]
    assert _told(flow(part, FRAME)) == [["Brake", "1"], ["2"]]


@given(st.text(alphabet="abc defg", min_size=1, max_size=300), st.floats(40.0, 170.0))
def test_a_paragraph_keeps_to_its_room(text: str, width: float) -> None:
    block = paragraph(text, width)
    ink = list(block.draw(20.0, 200.0))
    if ink:
        (x0, y0), (_, y1) = bounds(ink)
        assert x0 >= 20.0
        assert y1 <= 200.0
        assert y0 >= 200.0 - block.height - 0.3 * BODY


def test_a_row_is_as_high_as_its_highest_cell() -> None:
    short, long = Cell("one", 30.0), Cell("one two three four five six seven", 30.0)
    assert row([short, long]).height > row([short, short]).height
    assert row([short, long]).height == row([long]).height

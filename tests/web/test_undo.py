"""Undo and redo against a plain list of all texts and a place in it."""

from hypothesis import given
from hypothesis import strategies as st

from beltwright.web.undo import Undo


@given(st.lists(st.one_of(st.sampled_from(["undo", "redo"]), st.integers()), max_size=60))
def test_it_moves_like_a_finger_along_a_list(steps: list[str | int]) -> None:
    undo, current = Undo(), "start"
    texts, place = ["start"], 0
    for step in steps:
        assert undo.can_undo == (place > 0)
        assert undo.can_redo == (place < len(texts) - 1)
        if step == "undo" and undo.can_undo:
            current, before = undo.earlier(), current
            undo.undone(before)
            place -= 1
        elif step == "redo" and undo.can_redo:
            current, before = undo.later(), current
            undo.redone(before)
            place += 1
        elif isinstance(step, int):
            undo.changed(current)
            current = str(step)
            texts, place = [*texts[: place + 1], current], place + 1
        assert current == texts[place]

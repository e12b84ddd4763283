"""A review worked out again in part must be the whole review, whatever number changed."""

from functools import cache
from pathlib import Path

from hypothesis import given, reject, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from beltwright.build.model import Build
from beltwright.build.reading import read_build
from beltwright.build.walking import quantities
from beltwright.options.editing import edited
from beltwright.options.option import Edit
from beltwright.quantity import Quantity
from beltwright.quantity.showing import write
from beltwright.review.again import review_again
from beltwright.review.case import Case
from beltwright.review.review import Review, review_of

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*/build.toml"))


@cache
def _standing(path: Path) -> tuple[Build, Review, tuple[Quantity, ...]]:
    build = read_build(path)
    numbers = tuple(q for q in quantities(build) if isinstance(q, Quantity) and q.key)
    return build, review_of(Case(build)), numbers


@settings(max_examples=60, deadline=None)
@given(
    data=st.data(), path=st.sampled_from(EXAMPLES), share=st.sampled_from([0.3, 0.98, 1.05, 2.0])
)
def test_in_part_is_the_same_as_in_whole(data: st.DataObject, path: Path, share: float) -> None:
    build, before, numbers = _standing(path)
    picked = data.draw(st.lists(st.sampled_from(numbers), min_size=1, max_size=2, unique=True))
    edits = [Edit(q.key, write(q.value * share, q.unit)) for q in picked]
    try:
        changed = edited(build, edits)
    except ValidationError:
        reject()  # as an angle outside of its lever's travel
    again = review_again(Case(changed), before, {edit.key for edit in edits})
    whole = review_of(Case(changed))
    assert again.findings == whole.findings
    assert {a.key: a for a in again.assumptions} == {a.key: a for a in whole.assumptions}
    assert again.units == whole.units

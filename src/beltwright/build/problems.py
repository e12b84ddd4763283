"""From refusals to problems with file, line and dotted key."""

from collections.abc import Mapping, Sequence
from typing import Any

from beltwright.build.errors import Problem
from beltwright.build.lines import lines_of
from beltwright.build.places import key_of
from beltwright.build.refusal import Refusal

MOST_TOLD = 40
"""Problems told at once; more than this would only be scrolled past."""


def problems_from(
    refusals: Sequence[Refusal], values: Mapping[str, Any], text: str, name: str
) -> tuple[Problem, ...]:
    """Give each refusal its file, line and dotted key, in the order of the file."""
    told = refusals[:MOST_TOLD]
    lines = lines_of(text, [refusal.path for refusal in told])
    problems = [
        Problem(
            file=name,
            line=lines.get(refusal.path),
            key=key_of(values, refusal.path),
            found=refusal.found,
            expected=refusal.expected,
            example=refusal.example,
            reason=refusal.reason,
        )
        for refusal in told
    ]
    return tuple(sorted(problems, key=lambda problem: problem.line or 0))

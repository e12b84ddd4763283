"""What had to be supposed, in the builder's words, by topic."""

from collections.abc import Iterable, Iterator

from beltwright.quantity import Units
from beltwright.review.finding import Assumption
from beltwright.review.names.naming import name_of
from beltwright.review.supposed import in_units


def assumed_lines(assumed: Iterable[Assumption], units: Units) -> Iterator[tuple[str, str]]:
    """Names with their values, and why; those that have the same reason in one line."""
    by_reason: dict[str, list[str]] = {}
    for each in assumed:
        value = f"{capital(name_of(each.key))}: {in_units(each.quantity, units)}"
        by_reason.setdefault(each.why, []).append(value)
    for why, values in by_reason.items():
        yield "; ".join(values), _sentence(why)


def _sentence(words: str) -> str:
    return f"{capital(words.rstrip('.'))}."


def capital(words: str) -> str:
    """Words as they begin a line."""
    return words[:1].upper() + words[1:]

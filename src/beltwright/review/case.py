"""A build's numbers along the leading axis: one nominal build, samples of its tolerances, or
candidates for its parts."""

import zlib
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from difflib import get_close_matches
from functools import cache, lru_cache
from typing import Any, TypeVar, cast

import numpy as np

from beltwright.build.model import Build
from beltwright.build.walking import units_of
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind, Quantity, Units, read_quantity
from beltwright.review.examples import in_their_units
from beltwright.review.finding import Assumption
from beltwright.review.names.naming import name_of
from beltwright.tables.loading import UnlistedError

T = TypeVar("T")

SEED = 20_260
"""Fixed, so that the same build always gives the same ranges."""


class NotKnownError(Exception):
    """A number is missing; says which measurement would settle it, and why it is missing where
    that is not because the build file lacks it."""

    def __init__(self, key: str, how: str, why: str = "") -> None:
        self.key = key
        self.how = how
        self.why = why
        super().__init__(f"{self.told} {how}")

    @property
    def told(self) -> str:
        """Why there is no answer."""
        return self.why or f"Not in the build file yet: {name_of(self.key)}."


def unlisted(key: str, what: str, unknown: UnlistedError) -> NotKnownError:
    """The error for a name in the build that its published table does not have."""
    near = get_close_matches(unknown.name, unknown.known, n=5) or unknown.known
    how = f"Write one that is known, for example {', '.join(near)}."
    return NotKnownError(key, how, f"Nothing is known here of {what}.")


class Case:
    """A build as arrays.

    Index 0 of every array is the build as written; the rest are samples of its tolerances.
    With `replaced`, the named keys carry candidates instead and nothing is sampled. A number
    that does not vary has shape (1,), so that what does not vary is worked out once.
    """

    def __init__(
        self,
        build: Build,
        samples: int = 0,
        replaced: Mapping[str, Array] | None = None,
        units: Units | None = None,
    ) -> None:
        self.build = build
        self.samples = samples
        self.replaced = dict(replaced or {})
        self.units = units or units_of(build)
        self.drawn: dict[str, Array] = {}
        self.quantities: dict[str, Quantity] = {}
        self.assumptions: dict[str, Assumption] = {}
        self._worked: dict[object, tuple[Any, frozenset[str]]] = {}
        self._touched: list[set[str]] = []

    def under(self, build: Build, samples: int) -> "Case":
        """The same build under other conditions: what is read there counts as read here.

        With as many samples the same inputs have the same draws.
        """
        other = Case(build, samples, self.replaced, self.units)
        if samples == self.samples:
            other.drawn, other.quantities = self.drawn, self.quantities
        other.assumptions, other._touched = self.assumptions, self._touched
        return other

    def si(self, quantity: Quantity) -> Array:
        """The values of a quantity [SI], shape (1,) or (1 + samples,)."""
        self._touch(quantity.key)
        if quantity.key in self.replaced:
            return self.replaced[quantity.key]
        if quantity.key not in self.drawn or not quantity.key:
            self.drawn[quantity.key] = self._draw(quantity)
            self.quantities[quantity.key] = quantity
        return self.drawn[quantity.key]

    def written(self, quantity: Quantity) -> str:
        """A quantity as the builder wrote it."""
        self._touch(quantity.key)
        return quantity.text

    def need(self, quantity: Quantity | None, key: str, how: str) -> Array:
        """The values of a quantity that nothing can stand in for.

        Raises NotKnownError with how to measure it where the builder left it out.
        """
        if quantity is None:
            raise NotKnownError(key, how)
        return self.si(quantity)

    def suppose(
        self, quantity: Quantity | None, key: str, text: str, kind: Kind, why: str
    ) -> Array:
        """The builder's value, or a stated assumption where it was left out."""
        if quantity is not None:
            return self.si(quantity)
        reason = in_their_units(why, self.units)
        supposed = Assumption(key, _assumed(text, kind, key), reason)
        return self.si(self.assumptions.setdefault(key, supposed).quantity)

    def once(self, key: object, work: Callable[[], T]) -> T:
        """The result of `work`, done once a case and remembered with the inputs that it used."""
        if key not in self._worked:
            with self.watching() as used:
                self._worked[key] = (work(), frozenset(used))
        result, inputs = self._worked[key]
        if self._touched:
            self._touched[-1] |= inputs
        return cast(T, result)

    @contextmanager
    def watching(self) -> Iterator[set[str]]:
        """Collects the keys that are read inside the block."""
        self._touched.append(set())
        try:
            yield self._touched[-1]
        finally:
            used = self._touched.pop()
            if self._touched:
                self._touched[-1] |= used

    def aside(self, work: Callable[[], T]) -> T:
        """The result of `work`; what it reads does not count as read here."""
        kept = self._touched[:]
        self._touched.clear()
        try:
            return work()
        finally:
            self._touched[:] = kept

    def _touch(self, key: str) -> None:
        if self._touched and key:
            self._touched[-1].add(key)

    def _draw(self, quantity: Quantity) -> Array:
        if self.samples == 0 or (quantity.minus == 0.0 and quantity.plus == 0.0):
            return np.array([quantity.value])
        return latin_hypercube(quantity, self.samples)


@cache
def _assumed(text: str, kind: Kind, key: str) -> Quantity:
    """The quantity of an assumption: every case asks for the same few."""
    return read_quantity(text, kind, key)


def latin_hypercube(quantity: Quantity, samples: int) -> Array:
    """The nominal value, then one draw from each of `samples` equal strata of its tolerance.

    A tolerance says no more than its bounds, so every value between them is taken as equally
    likely (JCGM 100:2008, 4.3.7). Each input has its own fixed stream, so the draws of one do
    not depend on which others are read.
    """
    low = quantity.value - quantity.minus
    draws = low + _strata(quantity.key, samples) * (quantity.minus + quantity.plus)
    return np.concatenate(([quantity.value], draws))


@lru_cache(maxsize=1024)
def _strata(key: str, samples: int) -> Array:
    """An input's place in each of its strata, from 0 to 1: the same in every review of a session,
    whatever its value and tolerance have become."""
    stream = np.random.default_rng([SEED, zlib.crc32(key.encode())])
    strata = (stream.permutation(samples) + stream.random(samples)) / samples
    strata.setflags(write=False)
    return strata

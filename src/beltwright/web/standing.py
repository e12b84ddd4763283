"""How a build stands: its values, its review, its drawing; worked out once for each text."""

import threading
import tomllib
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass, field
from typing import Any, TypeVar

from beltwright.build.errors import BuildError
from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.review.review import SAMPLES, Review, review

T = TypeVar("T")

MOST_KEPT = 32
"""Texts whose standing is remembered: some clients, some undos back."""


@dataclass(frozen=True)
class Standing:
    """What can be said about one text of a build file.

    build    None where the text can't be used; then `refused` says why
    values   as written in the file, also where the build can't be used but the TOML can
    """

    text: str
    version: str
    values: dict[str, Any]
    build: Build | None
    refused: BuildError | None = None
    _worked: "Once" = field(default_factory=lambda: Once(MOST_KEPT), compare=False)

    @property
    def review(self) -> Review | None:
        """The full review, with the ranges that the tolerances give."""
        build = self.build
        if build is None:
            return None
        return self._worked("review", lambda: review(build, SAMPLES))

    @property
    def nominal(self) -> Review | None:
        """The review of the build as written, without ranges."""
        build = self.build
        if build is None:
            return None
        return self._worked("nominal", lambda: review(build, 0))

    def once(self, what: object, work: Callable[[], T]) -> T:
        """Something else that follows from the text, worked out once."""
        return self._worked(what, work)


def standing_of(text: str, version: str, name: str) -> Standing:
    """Reads a text; a text that can't be used still has a standing."""
    try:
        built = read_text(text, name)
    except BuildError as refused:
        return Standing(text, version, _values(text), None, refused)
    return Standing(text, version, _values(text), built)


def _values(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return {}


class Once:
    """Results by key, each worked out by the first who asks while the others wait for it."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._lock = threading.Lock()
        self._results: OrderedDict[object, Future[Any]] = OrderedDict()

    def __call__(self, key: object, work: Callable[[], T]) -> T:
        """The result for a key; the longest unused is forgotten. A failure is not remembered."""
        with self._lock:
            result: Future[T] | None = self._results.get(key)
            mine = result is None
            if result is None:
                result = self._results[key] = Future()
            self._results.move_to_end(key)
            while len(self._results) > self._most:
                self._results.popitem(last=False)
        if mine:
            self._work(key, result, work)
        return result.result()

    def _work(self, key: object, result: Future[T], work: Callable[[], T]) -> None:
        try:
            result.set_result(work())
        except BaseException as error:  # noqa: BLE001 - handed on to everyone who waits
            with self._lock:
                self._results.pop(key, None)
            result.set_exception(error)

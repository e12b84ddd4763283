"""Every public formula names its units, its range and its source, and its example runs."""

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

import pytest

import beltwright.physics


def _modules() -> Iterator[ModuleType]:
    for found in pkgutil.walk_packages(beltwright.physics.__path__, "beltwright.physics."):
        yield importlib.import_module(found.name)


def _functions() -> Iterator[Callable[..., Any]]:
    for module in _modules():
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                yield function


FUNCTIONS = list(_functions())


def _name(function: Callable[..., Any]) -> str:
    return f"{function.__module__.removeprefix('beltwright.physics.')}.{function.__name__}"


def _section(text: str, heading: str) -> str:
    """The lines under a numpy-style heading."""
    found = re.search(rf"^{heading}\n-+\n(.*?)(?=^\w[\w ]*\n-+\n|\Z)", text, re.M | re.S)
    return found.group(1) if found else ""


def test_there_are_formulas() -> None:
    assert len(FUNCTIONS) > 50


@pytest.mark.parametrize("function", FUNCTIONS, ids=_name)
def test_parameters_and_returns_name_their_units(function: Callable[..., Any]) -> None:
    text = inspect.getdoc(function) or ""
    parameters = _section(text, "Parameters")
    for name in inspect.signature(function).parameters:
        entry = re.search(rf"^(?:\w+, )*{name}(?:, \w+)* : (.*)$", parameters, re.M)
        assert entry, f"{name} is not described"
        assert "[" in entry.group(1), f"{name} has no unit in brackets"
    assert re.search(r"\[[^\]]+\]", _section(text, "Returns")), "the result has no unit in brackets"


@pytest.mark.parametrize("function", FUNCTIONS, ids=_name)
def test_range_and_source_are_told(function: Callable[..., Any]) -> None:
    text = inspect.getdoc(function) or ""
    assert re.search(r"(Range of validity|Validity)", text), "no range of validity"
    assert "Source" in text, "no source"


@pytest.mark.parametrize("module", list(_modules()), ids=lambda module: str(module.__name__))
def test_examples_run(module: ModuleType) -> None:
    assert doctest.testmod(module).failed == 0

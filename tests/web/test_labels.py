"""Every field of a form is called what it is, and no field by a word that says nothing."""

import pytest

from beltwright.build.driveline import Pulley, Spring
from beltwright.build.throttle import ThrottleSpring
from beltwright.build.vehicle import Engine, Scales
from beltwright.web.forms.form import Data, measuring_forms, shopping_forms
from beltwright.web.forms.labels import _LABELS, in_words, label_of


@pytest.mark.parametrize(
    ("model", "name", "label"),
    [
        (Engine, "at", "Rated speed"),
        (ThrottleSpring, "at", "Pulls at"),
        (Scales, "rear_raised", "Rear wheels, front lifted"),
        (Spring, "initial", "Pull that opens it"),
        (Pulley, "groove_angle", "Groove angle"),
    ],
)
def test_a_field_is_called_what_it_is(model: type, name: str, label: str) -> None:
    assert label_of(model, name) == label


def _labels(forms: list[Data]) -> set[tuple[str, str]]:
    found: set[tuple[str, str]] = set()
    for form in forms:
        blank = form["blank"]["fields"] if form.get("blank") else []
        found |= {(field["name"], field["label"]) for field in [*form.get("fields", []), *blank]}
        found |= _labels([*form.get("tables", []), *form.get("rows", [])])
    return found


def test_each_label_is_that_of_a_field() -> None:
    rows = {"name": "a", "arm": {"spring": {}}, "hub": {"key": {}}}
    tables = ("shaft", "pulley", "idler", "belt", "guard", "hole", "part", "linkage")
    values: Data = {table: [rows] for table in tables} | {
        "machine": {"scales": {}, "driver": {}},
        "engine": {"curve": [{}], "flywheel": {}},
        "brake": {"levers": [{}]},
        "throttle": {"spring": [rows]},
        "gearbox": {},
        "choose": {"vary": [{}]},
    }
    for table in ("linkage",):
        values[table] = [rows | {"arm": {"position": [rows]}}]
    values["guard"] = [rows | {"bending": {}, "strip": {}}]
    seen = _labels([*measuring_forms(values), *shopping_forms(values)])
    names = {key.rpartition(".")[2] for key in _LABELS}
    assert names <= {name for name, _ in seen}
    assert {label for name, label in seen if name in names} >= set(_LABELS.values())
    assert all(label == in_words(name) for name, label in seen if name not in names)

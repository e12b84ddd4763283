"""What each of the five places asks for."""

from collections.abc import Iterator
from typing import Any

from beltwright.quantity import Units
from beltwright.review.examples import in_their_units
from beltwright.web.forms.drive_forms import drive_forms
from beltwright.web.forms.form import Data, measuring_forms, shopping_forms
from beltwright.web.forms.left_open import often_left_open

PROVING = ("engine.idle", "engine.no_load", "wheels.roll_out")
"""What a first drive tells better than any tape."""


def forms_for(place: str, values: Data, units: Units) -> dict[str, Any]:
    """The forms of a place under the names that its template has for them, in units to read."""
    return {name: _told_in(units, form) for name, form in _forms(place, values).items()}


def _told_in(units: Units, part: Any) -> Any:
    """Forms with every example as the builder would write it."""
    if isinstance(part, list):
        return [_told_in(units, each) for each in part]
    if not isinstance(part, dict):
        return part
    told = {name: _told_in(units, each) for name, each in part.items()}
    if "example" in told:
        told["example"] = in_their_units(told["example"], units)
        told["how"] = in_their_units(told["how"], units)
    return told


def _forms(place: str, values: Data) -> dict[str, Any]:
    match place:
        case "measure":
            return {"forms": measuring_forms(values)}
        case "choose":
            return {"shopping": shopping_forms(values), "offered": often_left_open(values)}
        case "prove":
            asked = {field["key"]: field for field in _all_fields(measuring_forms(values))}
            return {"proving": [asked[key] for key in PROVING], "steps": drive_forms(values)}
    return {}


def _all_fields(forms: list[Data]) -> Iterator[Data]:
    for form in forms:
        yield from form.get("fields", ())
        yield from _all_fields(form.get("tables", []))

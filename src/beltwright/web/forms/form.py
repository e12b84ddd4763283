"""The forms of a build: a group for each table, a field for each value, from the model itself."""

import types
from collections.abc import Iterator
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from beltwright.build.driveline import Idler, Pulley
from beltwright.build.fields import Reads
from beltwright.build.model import Build, Show
from beltwright.build.places import labels
from beltwright.build.plate import Plate, PlateHole
from beltwright.build.shop import Choose, Part, Vary
from beltwright.quantity import read_quantity
from beltwright.review.measuring import how_for
from beltwright.web.forms.labels import in_words, label_of
from beltwright.web.forms.sketch import sketch_for
from beltwright.web.forms.typed_text import as_typed

Data = dict[str, Any]

_ELSEWHERE: tuple[type[BaseModel], ...] = (Choose, Part)
"""Shown under Choose, and not among what is measured."""

_ASKED_ALSO: dict[type[BaseModel], tuple[str, ...]] = {
    Pulley: ("outside",),
    Idler: ("at",),
    Part: ("use", "price", "have", "kind"),
    Plate: ("material", "thickness", "rectangle", "outline", "at"),
    PlateHole: ("place", "carries", "diameter", "thread", "stand_off"),
    Vary: ("bin", "prices", "values", "low", "high", "step"),
}
"""What a new row is asked for beside what it must have."""

_PARTS = {
    "arm_hook": ("along the arm", "to its left"),
    "case_size": ("length", "width", "height"),
    "shoe": ("begins", "ends"),
    "rectangle": ("width", "height"),
    "place": ("to the right", "up"),
    "slot": ("to the right", "up"),
    "travel": ("at one end", "at the other"),
    "ends": ("before the pulley", "after it"),
    "lever_hook": ("towards the wire's hole", "to its left"),
    "fixed_hook": ("right", "up"),
    "housing_end": ("right", "up"),
}
_AXES = ("x, forward", "y, left", "z, up")


def measuring_forms(values: Data) -> list[Data]:
    """Every table that is measured or looked up, the build's own name and units last."""
    forms = list(_tables_of(Build, values, ""))
    wanted = [form for form in forms if form["model"] not in _ELSEWHERE]
    machine = [form for form in wanted if form["model"] is not Show]
    plain = {"key": "", "title": "Build", "about": "Its name, and the units it is shown in."}
    units = next(form for form in wanted if form["model"] is Show)
    own = {
        **plain,
        "fields": fields_of(Build, values, ""),
        "tables": units["tables"],
        "there": True,
    }
    own["fields"] = [field for field in own["fields"] if field["key"] != "format"]
    own["fields"] += units["fields"]
    return [*machine, own]


def shopping_forms(values: Data) -> list[Data]:
    """What may be chosen differently, and the parts with their prices."""
    return [form for form in _tables_of(Build, values, "") if form["model"] in _ELSEWHERE]


def _tables_of(model: type[BaseModel], values: Data, before: str) -> Iterator[Data]:
    """A group for each table, or list of tables, that a model may hold."""
    for name, field in _named(model):
        inner = _model_in(field.annotation)
        if inner is None:
            continue
        key = f"{before}{name}"
        if _is_list(field.annotation):
            yield _rows(inner, values.get(name) or [], key, name)
        else:
            yield _group(inner, values.get(name), key, in_words(name))


def _rows(model: type[BaseModel], rows: list[Any], key: str, name: str) -> Data:
    """A list of tables: each row, and an empty one to add another."""
    named = zip(labels(rows), rows, strict=True)
    return {
        "model": model,
        "key": key,
        "title": in_words(name),
        "about": _about(model),
        "rows": [_group(model, row, f"{key}.{label}", _row_title(label)) for label, row in named],
        "blank": {**_blank(model, key), "row": True},
    }


def _group(model: type[BaseModel], values: Data | None, key: str, title: str) -> Data:
    """One table: its fields, the tables inside it, and whether it stands in the file."""
    there = values is not None
    held = values if isinstance(values, dict) else {}
    return {
        "model": model,
        "key": key,
        "title": title,
        "about": _about(model),
        "there": there or not _must_have(model),
        "fields": fields_of(model, held, f"{key}."),
        "tables": list(_tables_of(model, held, f"{key}.")),
        "blank": None if there else {**_blank(model, key), "row": False},
    }


def _blank(model: type[BaseModel], key: str) -> Data:
    """What is asked for before a table can stand in the file."""
    asked = {*_must_have(model), *_ASKED_ALSO.get(model, ())}
    fields = [field for field in fields_of(model, {}, f"{key}.") if field["name"] in asked]
    return {"key": key, "fields": fields}


def fields_of(model: type[BaseModel], values: Data, before: str) -> list[Data]:
    """The values of a table, the tables inside it left out."""
    return [
        _field(label_of(model, name), name, field, values.get(name), f"{before}{name}")
        for name, field in _named(model)
        if _model_in(field.annotation) is None
    ]


def _field(label: str, name: str, field: FieldInfo, value: Any, key: str) -> Data:
    """One value: what it is called, what stands there, how it is typed and how it is measured."""
    reads, annotation = _reads(field), _bare(field.annotation)
    points = _point_reads(annotation)
    data: Data = {
        "key": key,
        "name": name,
        "label": label,
        "about": field.description or "",
        "needed": field.is_required(),
        "default": _default(field),
        "kind": _kind(annotation, reads),
        "choices": [str(choice) for choice in _choices(annotation)],
        "example": _in_words(field.examples[0]) if field.examples else "",
        "how": how_for(key, reads.kind) if reads else "",
        "sketch": sketch_for(key),
        **as_typed(value),
    }
    if points:
        data["kind"] = "point"
        data["how"] = how_for(key, points[0].kind)
        axes = _PARTS.get(name, _AXES)
        held = value if isinstance(value, list) else [None] * len(points)
        data["axes"] = [
            {"label": axis, "key": f"{key}.{place}", **as_typed(each)}
            for place, (axis, each) in enumerate(zip(axes, held, strict=False))
        ][: len(points)]
    return data


def _in_words(example: Any) -> str:
    """An example of a value, of a point or of several."""
    if not isinstance(example, list):
        return str(example)
    between = "; " if isinstance(example[0], list) else ", "
    return between.join(_in_words(each) for each in example)


def _kind(annotation: Any, reads: Reads | None) -> str:
    """How a value is typed: quantity, truth, list, numbers, corners, choice, text."""
    if reads is not None:
        return "quantity" if reads.read is read_quantity else "text"
    if annotation is bool or annotation == bool | None:
        return "truth"
    if get_origin(annotation) is tuple:
        return {str: "list", float: "numbers"}.get(get_args(annotation)[0], "corners")
    return "choice" if _choices(annotation) else "text"


def _named(model: type[BaseModel]) -> Iterator[tuple[str, FieldInfo]]:
    for attribute, field in model.model_fields.items():
        yield field.alias or attribute, field


def _must_have(model: type[BaseModel]) -> tuple[str, ...]:
    return tuple(name for name, field in _named(model) if field.is_required())


def _alternatives(annotation: Any) -> list[Any]:
    """The alternatives of a type without None; a type with a note stays whole."""
    if get_origin(annotation) in (Union, types.UnionType):
        kinds = [each for kind in get_args(annotation) for each in _alternatives(kind)]
        return [kind for kind in kinds if kind is not type(None)]
    return [annotation]


def _bare(annotation: Any) -> Any:
    """The type without the None of what may be left out."""
    kinds = _alternatives(annotation)
    return kinds[0] if len(kinds) == 1 else annotation


def _model_in(annotation: Any) -> type[BaseModel] | None:
    """The model of a table, or of the tables in a list."""
    for kind in _alternatives(annotation):
        inner = get_args(kind)[0] if get_origin(kind) is tuple else kind
        if isinstance(inner, type) and issubclass(inner, BaseModel):
            return inner
    return None


def _is_list(annotation: Any) -> bool:
    return any(get_origin(kind) is tuple for kind in _alternatives(annotation))


def _reads(field: FieldInfo) -> Reads | None:
    """How the text of a value is read, where it is a quantity."""
    notes = [*field.metadata]
    for kind in _alternatives(field.annotation):
        if get_origin(kind) is Annotated:
            notes += get_args(kind)[1:]
    return next((note for note in notes if isinstance(note, Reads)), None)


def _point_reads(annotation: Any) -> list[Reads]:
    """How the coordinates of a place are read, none where it is no place."""
    kinds = get_args(annotation) if get_origin(annotation) is tuple else ()
    notes = [get_args(kind)[1:] if get_origin(kind) is Annotated else () for kind in kinds]
    found = [note for each in notes for note in each if isinstance(note, Reads)]
    return found if len(found) == len(kinds) and Ellipsis not in kinds else []


def _choices(annotation: Any) -> tuple[Any, ...]:
    kinds = _alternatives(annotation)
    return get_args(kinds[0]) if len(kinds) == 1 and get_origin(kinds[0]) is Literal else ()


def _default(field: FieldInfo) -> str:
    default = field.default
    if field.is_required() or default is None or isinstance(default, tuple):
        return ""
    return ("yes" if default else "no") if isinstance(default, bool) else str(default)


def _about(model: type[BaseModel]) -> str:
    return (model.__doc__ or "").strip().splitlines()[0]


def _row_title(label: str) -> str:
    return f"Number {int(label) + 1}" if label.isdigit() else label

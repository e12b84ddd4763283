"""What the model wants at a place of the build file, in words and as an example."""

import types
from collections.abc import Iterator
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from beltwright.build.fields import Reads
from beltwright.build.model import Build
from beltwright.build.places import Path
from beltwright.build.toml_writing import toml_of

_PLAIN = {
    str: ("a text in quotes", '"…"'),
    int: ("a whole number", "2"),
    float: ("a number", "12.1"),
    bool: ("true or false", "true"),
}


def names_at(path: Path) -> tuple[str, ...]:
    """Give the names that the table at a path may have, none if no table belongs there."""
    return tuple(
        field.alias or name
        for model in _tables(annotation_at(path))
        for name, field in model.model_fields.items()
    )


def annotation_at(path: Path) -> Any:
    """Give the type that the model has at a path, None if it has none."""
    here: Any = Build
    for step in path:
        here = _inside(here, step)
    return here


def description_at(path: Path) -> str:
    """Give what the model says about the value at a path, "" if nothing."""
    field = _field_at(path)
    return (field.description or "") if field else ""


def example_at(path: Path) -> str:
    """Give an example of what belongs at a path, as it stands in the file."""
    field = _field_at(path)
    if field and field.examples:
        return toml_of(field.examples[0])
    return example_for(annotation_at(path))


def _field_at(path: Path) -> FieldInfo | None:
    """Give the field of the model at a path, None for an item of a list."""
    if not path or not isinstance(path[-1], str):
        return None
    return _field(annotation_at(path[:-1]), path[-1])


def words_for(annotation: Any) -> str:
    """Say what a type wants, as the end of "Write …"."""
    return " or ".join(dict.fromkeys(_words(each) for each in _choices(annotation)))


def example_for(annotation: Any) -> str:
    """Give an example of a type, as it stands in the file."""
    return _example(next(iter(_choices(annotation))))


def _choices(annotation: Any) -> Iterator[Any]:
    """Give the alternatives of a type, without the None of what may be left out."""
    if get_origin(annotation) in (Union, types.UnionType):
        for each in get_args(annotation):
            if each is not type(None):
                yield from _choices(each)
    else:
        yield _bare(annotation)


def _bare(annotation: Any) -> Any:
    """Give a type without the bounds that it is held to; what reads a quantity stays."""
    if get_origin(annotation) is Annotated and not _reads(annotation):
        return get_args(annotation)[0]
    return annotation


def _inside(annotation: Any, step: str | int) -> Any:
    """Go one step down into a type."""
    for each in _choices(annotation):
        if isinstance(step, str):
            field = _field(each, step)
            if field:
                return _whole(field)
        elif get_origin(each) is tuple:
            kinds = [kind for kind in get_args(each) if kind is not Ellipsis]
            return _bare(kinds[min(step, len(kinds) - 1)])
    return None


def _field(annotation: Any, name: str) -> FieldInfo | None:
    """Give a field of a table by the name that it has in the file."""
    for model in _tables(annotation):
        for attribute, field in model.model_fields.items():
            if name == (field.alias or attribute):
                return field
    return None


def _whole(field: FieldInfo) -> Any:
    """Put back together what a field's declaration was."""
    reads = [each for each in field.metadata if isinstance(each, Reads)]
    return Annotated[field.annotation, reads[0]] if reads else field.annotation


def _tables(annotation: Any) -> Iterator[type[BaseModel]]:
    """Give the models among the alternatives of a type."""
    for each in _choices(annotation):
        if isinstance(each, type) and issubclass(each, BaseModel):
            yield each


def _reads(annotation: Any) -> Reads | None:
    """Give the reader of a quantity's type."""
    if get_origin(annotation) is Annotated:
        return next((each for each in get_args(annotation) if isinstance(each, Reads)), None)
    return None


def _words(annotation: Any) -> str:
    """Say what one alternative wants."""
    if reads := _reads(annotation):
        return reads.what
    if get_origin(annotation) is Literal:
        return " or ".join(toml_of(each) for each in get_args(annotation))
    if get_origin(annotation) is tuple:
        kinds = get_args(annotation)
        return "a list in [ ]" if Ellipsis in kinds else f"a list of {len(kinds)} in [ ]"
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return "a table in { } or under its own [ ]"
    return _PLAIN.get(annotation, ("a value", ""))[0]


def _example(annotation: Any) -> str:
    """Give an example of one alternative."""
    if reads := _reads(annotation):
        return toml_of(reads.examples[0])
    if get_origin(annotation) is Literal:
        return toml_of(get_args(annotation)[0])
    if get_origin(annotation) is tuple:
        kinds = get_args(annotation)
        each = kinds[:1] if Ellipsis in kinds else kinds
        return f"[{', '.join(example_for(kind) for kind in each)}]"
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        needed = [(n, f) for n, f in annotation.model_fields.items() if f.is_required()]
        return "{ " + ", ".join(f"{n} = {example_for(_whole(f))}" for n, f in needed) + " }"
    return _PLAIN.get(annotation, ("", ""))[1]

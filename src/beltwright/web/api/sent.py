"""What a page may send, checked before it is used."""

from collections.abc import Sequence
from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError
from starlette.datastructures import UploadFile
from starlette.requests import Request

from beltwright.web.refusal import CannotRead, Refusal

Sent = TypeVar("Sent", bound="Body")

Key = Annotated[str, Field(min_length=1, max_length=400)]
Version = Annotated[str, Field(min_length=1, max_length=100)]
Name = Annotated[str, Field(min_length=1, max_length=60)]
Note = Annotated[str, Field(max_length=200)]


def _whole(number: object) -> object:
    """JSON has one kind of number: 3.0 is as whole as 3."""
    return int(number) if isinstance(number, float) and number.is_integer() else number


WholeNumber = Annotated[int, BeforeValidator(_whole), Field(ge=1, le=1_000_000)]


class Body(BaseModel):
    """A JSON object with these names and no others."""

    model_config = ConfigDict(extra="forbid", strict=True)


class Edit(Body):
    """One change: what is to stand at a dotted key; null takes away what stands there.

    Quantities are text with their unit; whole numbers, truths and lists may be sent as such; a
    table as an object is put in as a new row.
    """

    key: Key
    text: Any


class Edits(Body):
    """Changes of the text that the page has seen."""

    version: Version
    edits: list[Edit] = Field(min_length=1, max_length=200)
    note: Note = ""


class Trial(Body):
    """Changes to be looked at and not saved.

    While the hand is moving, nothing is judged, and only those groups of the drawing come that
    differ.
    """

    version: Version
    edits: list[Edit] = Field(max_length=200)
    moving: bool = False


class Seen(Body):
    """The text that the page has seen."""

    version: Version


class Restore(Body):
    """An earlier version that is to stand again."""

    version: Version
    to: Version


class Duplicate(Body):
    """A copy under another name."""

    version: Version
    name: Name


class New(Body):
    """A new build."""

    name: Name


class Apply(Body):
    """One of the options that a search found."""

    version: Version
    option: WholeNumber


class OneMoreIdler(Seen):
    """The belt that one more idler may help, and the idler's outside diameter as it is typed."""

    belt: Key
    outside: Annotated[str, Field(max_length=60)] = ""


async def sent(request: Request, kind: type[Sent]) -> Sent:
    """The body of a request, or a refusal with one problem for each thing that is wrong."""
    if request.headers.get("content-type", "").partition(";")[0].strip() != "application/json":
        raise Refusal(415, "Send JSON, and say so.")
    try:
        return kind.model_validate_json(await request.body())
    except ValidationError as refused:
        raise CannotRead([_problem(dict(error)) for error in refused.errors()]) from None


async def sent_file(
    request: Request, name: str, words: Sequence[str]
) -> tuple[bytes, dict[str, str]]:
    """The one file of a form, and its fields as text, "" for those that were not sent."""
    if not request.headers.get("content-type", "").startswith("multipart/form-data"):
        raise Refusal(415, f"Send the {name} as a form.")
    async with request.form(max_files=1, max_fields=8) as form:
        file = form.get(name)
        if not isinstance(file, UploadFile):
            raise Refusal(422, f"There is no {name} in what was sent.")
        said = {word: form.get(word) for word in words}
        data = await file.read()
    return data, {word: text if isinstance(text, str) else "" for word, text in said.items()}


def _problem(error: dict[str, Any]) -> dict[str, Any]:
    return {
        "file": "",
        "line": None,
        "key": ".".join(str(step) for step in error["loc"]),
        "found": _short(error.get("input")),
        "expected": "",
        "example": "",
        "reason": f"This was not sent rightly: {error['msg'].lower()}.",
    }


def _short(found: object) -> str:
    text = str(found)
    return text if len(text) <= 80 else f"{text[:77]}..."

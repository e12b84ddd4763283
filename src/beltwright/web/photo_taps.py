"""What was tapped on a photo, as it is sent by the page."""

from collections.abc import Mapping
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from beltwright.web.photo import Tapped
from beltwright.web.refusal import Refusal
from beltwright.web.standing import Standing

FARTHEST = 1e6
"""No photo is as wide, so that no tap lies farther from its corner [pixels]."""

_Pixels = Annotated[float, Field(ge=-FARTHEST, le=FARTHEST)]


class _Tapped(BaseModel):
    """Four corners and one known place, in pixels."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)

    tapped: list[tuple[_Pixels, _Pixels]] = Field(min_length=5, max_length=5)


def tapped_on(standing: Standing, words: Mapping[str, str]) -> Tapped:
    """The taps, with the place on the machine that the last one is known to be."""
    try:
        taps = _Tapped.model_validate_json(f'{{"tapped": {words["tapped"] or "[]"}}}').tapped
    except ValidationError:
        raise Refusal(422, "Tap the four corners of the sheet and the place you know.") from None
    if words["long_side"] not in {"forwards", "across"}:
        raise Refusal(422, "Say how the sheet lies: its long side forwards or across.")
    return Tapped(
        corners=tuple(taps[:4]),
        known=taps[4],
        place=_place_of(standing, words["known"]),
        sheet=words["sheet"],
        long_side_forwards=words["long_side"] == "forwards",
    )


def _place_of(standing: Standing, shaft: str) -> tuple[float, float]:
    """Where a shaft stands; without a name, the origin over the middle of the rear axle."""
    if not shaft:
        return 0.0, 0.0
    if standing.build is None:
        raise Refusal(422, "The build file can't be used as it stands. Put that right first.")
    for each in standing.build.shaft:
        if each.name == shaft:
            return each.at[0].value, each.at[1].value
    raise Refusal(422, "There is no shaft of that name in the build.")

"""An engine's speed from a recording that the page sends, as text for the build file."""

import io
from collections.abc import Mapping
from typing import Any

from beltwright.measure.recording import read_recording
from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.sound import MOST_CYLINDERS, Heard, Strokes, engine_speed
from beltwright.web.refusal import Refusal

_STROKES: Mapping[str, Strokes] = {"2": 2, "4": 4}
_CYLINDERS = {str(number): number for number in range(1, MOST_CYLINDERS + 1)}


def speed_from(sent: bytes, words: Mapping[str, str]) -> dict[str, Any]:
    """What a recording says: every speed that it may mean, and how steady it was."""
    cylinders, strokes = _CYLINDERS.get(words["cylinders"]), _STROKES.get(words["strokes"])
    if cylinders is None or strokes is None:
        raise Refusal(422, f"Give 1 to {MOST_CYLINDERS} cylinders, and 2 or 4 strokes.")
    try:
        heard = engine_speed(read_recording(io.BytesIO(sent)), cylinders, strokes)
    except NotMeasuredError as refused:
        raise Refusal(422, str(refused)) from None
    return _as_shown(heard)


def _as_shown(heard: Heard) -> dict[str, Any]:
    return {
        "readings": [
            {"text": one.speed.text(), "if_so": one.if_so, "how": one.speed.how}
            for one in heard.readings
        ],
        "share": heard.share,
    }

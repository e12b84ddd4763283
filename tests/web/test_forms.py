"""The forms ask in the builder's own units."""

import re
from pathlib import Path
from typing import Any

INCHES = """
format = 1
name = "In inches"

[machine]
wheelbase = "48 1/2 in"
track_front = "27 in"
"""


def test_examples_stand_in_the_units_that_the_builder_writes(tab: Any, folder: Path) -> None:
    (folder / "inches.toml").write_text(INCHES)
    metric = tab.client.get("/b/orchard/measure").text
    assert "such as 1235 ± 5 mm" not in metric, "what is filled in needs no example"
    theirs = tab.client.get("/b/inches/measure").text
    assert "27 15/16 ± 3/16 in" in theirs, "the rear track, as on a tape"
    assert "such as 394 ft" in theirs, "the longest descent"
    assert not re.search(r"\d (mm|cm|m|kg|N|km/h|L|°C)\b", _examples(theirs))


def _examples(page: str) -> str:
    return " ".join(re.findall(r"such as ([^<]*)</p>", page))

"""The search for other parts, as the page runs it."""

import os
import threading
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from beltwright.build.errors import BuildFileError
from beltwright.build.model import Build
from beltwright.build.shop import Part
from beltwright.options.applying import applied
from beltwright.options.offering import choices as choices_of
from beltwright.options.option import Choice
from beltwright.options.outcome import Outcome
from beltwright.options.output import outcome_data, trade_off
from beltwright.options.price_list import prices_for
from beltwright.options.progress import Progress
from beltwright.options.search import search
from beltwright.web.refusal import NotThere, Refusal
from beltwright.web.searches import Report, Work


@dataclass(frozen=True)
class Chosen:
    """What a search went through, and what it found."""

    build: Build
    choices: Sequence[Choice]
    outcome: Outcome


def work_for(build: Build, file: Path) -> Work:
    """The search of a build; refused where there is nothing to search."""
    try:
        choices = choices_of(build, _prices(build, file.parent))
    except BuildFileError as refused:
        raise Refusal(422, str(refused)) from None
    if not choices:
        raise Refusal(422, "Nothing is left open. Say under Choose what may be another.")

    def work(report: Report, stopping: threading.Event) -> Chosen:
        outcome = search(
            build,
            choices,
            report=lambda progress: report(_progress(progress)),
            stopping=stopping,
            processes=os.cpu_count() or 1,
        )
        return Chosen(build, choices, outcome)

    return work


def chosen_data(chosen: Chosen) -> dict[str, Any]:
    """What a search found, as data, with every merit also in the builder's units."""
    from beltwright.views.options_table import CHOICE_CAUTION, merit_text

    data = outcome_data(chosen.outcome, chosen.build.name)
    for row, found in zip(data["options"], chosen.outcome.found, strict=True):
        row["shown"] = {
            merit.name: merit_text(merit, value, chosen.build)
            for merit, value in found.merits.items()
        }
    return {**data, "trade_off": trade_off(chosen.outcome), "caution": CHOICE_CAUTION}


def text_with(chosen: Chosen, number: int, text: str) -> str:
    """The text of the build file with an option written into it."""
    found = chosen.outcome.found
    if not 1 <= number <= len(found):
        raise NotThere(f"There is no option {number}.")
    return applied(text, chosen.build, chosen.choices, found[number - 1].candidate)


def _prices(build: Build, folder: Path) -> tuple[Part, ...]:
    """The price list, which must lie in the folder of the build."""
    named = build.choose.price_list
    root = folder.resolve()
    if named is not None and not (root / named).resolve().is_relative_to(root):
        raise Refusal(422, "Put the price list beside the build file.")
    return prices_for(build, folder)


def _progress(progress: Progress) -> dict[str, Any]:
    return {**asdict(progress), "rate": progress.rate, "seconds_left": progress.seconds_left}

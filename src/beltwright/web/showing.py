"""Builds as plain data for the pages and the API."""

from dataclasses import asdict
from typing import Any

from starlette.requests import Request

from beltwright.review.finding import WORST_FIRST
from beltwright.review.output import as_json
from beltwright.review.review import Review
from beltwright.views.money_line import money_line
from beltwright.web.changes import changes
from beltwright.web.desk import Desk
from beltwright.web.door import Door
from beltwright.web.local_network import qr_svg
from beltwright.web.open_build import OpenBuild
from beltwright.web.photo import placed_of
from beltwright.web.refusal import CannotRead, as_problems
from beltwright.web.scene import scene
from beltwright.web.screen import Screen
from beltwright.web.standing import Standing

_ORDER = {verdict.value: place for place, verdict in enumerate(WORST_FIRST)}


def listed(desk: Desk) -> list[dict[str, Any]]:
    """Every build in the folder, as quickly as its file is read."""
    builds = [desk.open(name) for name in desk.folder.builds()]
    return [_named(desk, build, desk.standing(build)) for build in builds]


def counted(desk: Desk) -> list[dict[str, Any]]:
    """Every build in the folder with how its findings stand."""
    builds = [desk.open(name) for name in desk.folder.builds()]
    return [_line(desk, build, desk.standing(build)) for build in builds]


def as_shown(desk: Desk, build: OpenBuild, screen: Screen) -> dict[str, Any]:
    """Everything about a build as it stands in its file.

    All of it follows from one look at the file: a version beside the values of another would let
    a page overwrite what it has not seen.
    """
    standing = desk.standing(build)
    before = desk.standing_before(build, standing)
    photo = placed_of(build.path)
    return {
        **_line(desk, build, standing),
        "text": standing.text,
        "values": standing.values,
        "problems": as_problems(standing.refused),
        "photo": None if photo is None else asdict(photo),
        "can_undo": build.can_undo,
        "can_redo": build.can_redo,
        "changes": [] if before is None else changes(before.review, standing.review),
        **reviewed(standing.review),
        **scene(standing, screen),
    }


def reviewed(review: Review | None) -> dict[str, Any]:
    """A review as data, worst first; empty where the file can't be used."""
    if review is None:
        return {"findings": [], "measure_next": [], "assumptions": [], "money": None}
    data = as_json(review)
    budget = review.build.goals.budget
    return {
        "findings": sorted(data["findings"], key=lambda row: _ORDER[row["verdict"]]),
        "measure_next": data["measure_next"],
        "assumptions": data["assumptions"],
        "money": {"shown": money_line(review), "budget": budget.text if budget else ""},
    }


def counts(review: Review | None) -> dict[str, int]:
    """How many findings stand how, worst first."""
    if review is None:
        return {}
    return {verdict.value: review.count(verdict) for verdict in WORST_FIRST}


def compared(desk: Desk, a: str, b: str) -> dict[str, Any]:
    """Two builds side by side: each, and where their findings differ."""
    builds = [desk.open(name) for name in (a, b)]
    reviews = [_review_of(desk.standing(build)) for build in builds]
    rows = changes(reviews[0], reviews[1])
    return {
        "a": as_shown(desk, builds[0], Screen()),
        "b": as_shown(desk, builds[1], Screen()),
        "rows": rows,
        "same": len(reviews[0].findings) - sum(row["before"] is not None for row in rows),
    }


def phone(request: Request) -> dict[str, str] | None:
    """How a phone gets in, for who sits at this machine."""
    door: Door = request.app.state.door
    address: str = request.app.state.lan_address
    if door.code is None or not door.may_hand_out_code(request):
        return None
    link = f"{address}/enter?code={door.code.plain}"
    return {"address": f"{address}/enter", "code": door.code.shown, "qr": qr_svg(link)}


def _line(desk: Desk, build: OpenBuild, standing: Standing) -> dict[str, Any]:
    return {**_named(desk, build, standing), "counts": counts(standing.review)}


def _named(desk: Desk, build: OpenBuild, standing: Standing) -> dict[str, Any]:
    title = standing.values.get("name")
    return {
        "name": build.name,
        "file": str(build.path.relative_to(desk.folder.path)),
        "title": title if isinstance(title, str) and title else build.name,
        "version": standing.version,
    }


def _review_of(standing: Standing) -> Review:
    review = standing.review
    if review is None:
        raise CannotRead(as_problems(standing.refused))
    return review

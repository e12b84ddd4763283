"""What the API promises: every address described, every error of one shape, no crash for any input.

The description is checked against the standard's own schema by the tool that makes the inputs.
"""

import json
import shutil
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx
import pytest
import schemathesis
from hypothesis import HealthCheck, settings
from jsonschema import Draft202012Validator
from schemathesis.specs.openapi.checks import negative_data_rejection, positive_data_acceptance
from starlette.routing import Mount, Route

from beltwright.web.api.description import PATHS, description
from beltwright.web.door import TOKEN_HEADER
from beltwright.web.safety import Safety
from beltwright.web.serving import make_server, take_place

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"
schema = schemathesis.openapi.from_dict(description())

ITS_RULES_SAY_MORE = [positive_data_acceptance]
"""Which names, numbers and places a build can take is said by its own model, not by OpenAPI."""

MENDED = [*ITS_RULES_SAY_MORE, negative_data_rejection]
"""The test puts the right version where a wrong one was tried."""

PATIENCE = 120.0
"""Seconds for an answer: on a busy machine the 10 s that the tool allows would assert a time."""


@dataclass(frozen=True)
class Served:
    """A page that stays up for all cases; a broken build is put right before each."""

    address: str
    file: Path
    headers: dict[str, str]


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """A real server over a folder of its own."""
    folder = tmp_path_factory.mktemp("contract")
    shutil.copy(EXAMPLE, folder / "orchard.toml")
    place = take_place(lan=False, port=0)
    running = make_server(folder, place)
    thread = threading.Thread(target=running.run, kwargs={"sockets": list(place.sockets)})
    thread.start()
    while not running.started:
        time.sleep(0.005)
    with httpx.Client(follow_redirects=True) as browser:
        page = browser.get(place.entrance())
        cookie = "; ".join(f"{name}={value}" for name, value in browser.cookies.items())
    token = page.text.partition('name="token" content="')[2].partition('"')[0]
    yield Served(place.address, folder / "orchard.toml", {TOKEN_HEADER: token, "Cookie": cookie})
    running.should_exit = True
    thread.join()


# a line of news never ends, so it is tested by itself
@schema.exclude(path_regex="/events$").parametrize()
@settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_input_breaks_it(case: Any, server: Served) -> None:
    case.call_and_validate(
        base_url=server.address,
        headers=server.headers,
        excluded_checks=ITS_RULES_SAY_MORE,
        timeout=PATIENCE,
    )


@schema.include(path_regex="/builds/{build}").exclude(path_regex="/events$").parametrize()
@settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_input_breaks_it_where_the_build_is_there(case: Any, server: Served) -> None:
    shutil.copy(EXAMPLE, server.file)
    now = httpx.get(f"{server.address}/api/builds/orchard", headers=server.headers).json()[
        "version"
    ]
    case.path_parameters["build"] = "orchard"
    if isinstance(case.body, dict) and "version" in case.body:
        case.body["version"] = now
    case.call_and_validate(
        base_url=server.address,
        headers=server.headers,
        excluded_checks=MENDED,
        timeout=PATIENCE,
    )


def test_every_address_of_the_api_is_described(app: Safety) -> None:
    described = {
        (path, method.upper()) for path, operations in PATHS.items() for method in operations
    }
    there = {
        (f"/api{route.path}", method)
        for mount in app.app.routes
        if isinstance(mount, Mount) and mount.path == "/api"
        for route in mount.routes
        if isinstance(route, Route)
        for method in (route.methods or set()) - {"HEAD"}
    }
    assert there - {("/api/openapi.json", "GET")} == described


def test_the_description_is_what_is_served(tab: Any) -> None:
    assert tab.get("/openapi.json") == json.loads(json.dumps(description()))


@pytest.mark.parametrize(
    ("method", "address", "status"),
    [
        ("GET", "/api", 404),
        ("GET", "/api/nothing", 404),
        ("GET", "/api/builds/nothing", 404),
        ("GET", "/api/builds/nothing/history", 404),
        ("GET", "/api/builds/orchard/history/nothing", 404),
        ("GET", "/api/builds/orchard/photo", 404),
        ("GET", "/api/builds/orchard/choose/nothing", 404),
        ("GET", "/api/builds/orchard/sheets.pdf?paper=A5", 422),
        ("DELETE", "/api/builds/orchard/choose/nothing", 404),
        ("GET", "/api/builds/orchard/new-idler/nothing", 404),
        ("GET", "/api/builds/orchard/new-idler/nothing/places/1", 404),
        ("DELETE", "/api/builds/orchard", 405),
        ("PUT", "/api/builds", 405),
        ("POST", "/api/builds", 415),
        ("POST", "/api/builds/orchard/photo", 415),
    ],
)
def test_every_error_has_one_shape(tab: Any, method: str, address: str, status: int) -> None:
    answer = tab.client.request(method, address, headers={TOKEN_HEADER: tab.token})
    assert answer.status_code == status
    schemas = description()["components"]["schemas"]
    error = json.loads(json.dumps(schemas["Error"]).replace("#/components/schemas/", "#/$defs/"))
    Draft202012Validator({**error, "$defs": schemas}).validate(answer.json())
    assert answer.json()["error"]["status"] == status
    assert answer.json()["error"]["reason"].endswith(".")


@pytest.mark.parametrize("address", ["/nothing", "/b/nothing", "/b/nothing/check", "/b/orchard/x"])
def test_a_page_that_is_not_there_says_so_as_a_page(client: Any, address: str) -> None:
    answer = client.get(address)
    assert answer.status_code == 404
    assert answer.headers["content-type"].startswith("text/html")


@pytest.mark.parametrize("place", ["measure", "choose", "check", "make", "prove"])
def test_every_place_answers(client: Any, place: str) -> None:
    answer = client.get(f"/b/orchard/{place}")
    assert answer.status_code == 200
    assert "Orchard crate hauler" in answer.text


def test_the_bare_address_of_a_build_leads_to_its_check(client: Any) -> None:
    assert client.get("/b/orchard").url.path == "/b/orchard/check"


def test_two_builds_are_compared(tab: Any) -> None:
    version = tab.get("/builds/orchard")["version"]
    tab.post("/builds/orchard/duplicate", {"version": version, "name": "faster"}, 201)
    tab.edit("pulley.engine pulley.outside", "130 mm", name="faster")
    page = tab.client.get("/compare?a=orchard&b=faster")
    assert page.status_code == 200
    assert "Top speed" in page.text
    assert tab.client.get("/compare?a=orchard&b=nothing").status_code == 404

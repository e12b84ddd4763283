"""Who gets in, and who does not."""

import html
from typing import Any

import pytest
from starlette.testclient import TestClient

from beltwright.web.door import TOKEN_HEADER, Door
from beltwright.web.safety import Safety
from beltwright.web.seats import Seats

HERE = "http://127.0.0.1:8765"
EDIT = {"version": "x", "edits": [{"key": "name", "text": "y"}]}


def _token(client: TestClient) -> str:
    page: str = client.get("/").text
    return page.partition('name="token" content="')[2].partition('"')[0]


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "127.0.0.1:80", "evil.example:8765"])
def test_another_host_name_is_refused(client: TestClient, host: str) -> None:
    answer = client.get("/api/builds", headers={"Host": host})
    assert answer.status_code == 403
    assert answer.json()["error"]["reason"].startswith("Open the page at the address")


def test_the_printed_names_are_taken(client: TestClient) -> None:
    assert client.get("/api/builds").status_code == 200
    assert client.get("/api/builds", headers={"Host": "localhost:8765"}).status_code == 200


def test_another_machine_is_refused(app: Safety) -> None:
    with TestClient(app, HERE, client=("192.168.7.33", 50_000)) as other:
        assert other.get("/").status_code == 403


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"},
        {"Origin": "null"},
        {"Origin": "https://127.0.0.1:8765"},
        {"Origin": "http://127.0.0.1:9999"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
)
def test_a_change_asked_for_by_another_site_is_refused(
    client: TestClient, headers: dict[str, str]
) -> None:
    token = {TOKEN_HEADER: _token(client)}
    answer = client.post("/api/builds/orchard/edit", json=EDIT, headers=headers | token)
    assert answer.status_code == 403
    assert answer.json()["error"]["reason"].startswith("Another site")


def test_another_site_may_link_to_a_page_and_may_not_read_it(client: TestClient) -> None:
    elsewhere = {"Sec-Fetch-Site": "cross-site"}
    assert client.get("/", headers=elsewhere | {"Sec-Fetch-Mode": "navigate"}).status_code == 200
    assert client.get("/", headers=elsewhere | {"Sec-Fetch-Mode": "no-cors"}).status_code == 403


def test_a_change_needs_cookie_and_token_of_the_same_seat(client: TestClient, door: Door) -> None:
    token = _token(client)
    address = "/api/builds/orchard/edit"
    assert client.post(address, json=EDIT).status_code == 403
    wrong = client.post(address, json=EDIT, headers={TOKEN_HEADER: token[:-1] + "x"})
    assert wrong.status_code == 403
    right = client.post(address, json=EDIT, headers={TOKEN_HEADER: token})
    assert right.status_code == 409
    client.cookies.set(door.seats.cookie_name, door.seats.issue())
    assert client.post(address, json=EDIT, headers={TOKEN_HEADER: token}).status_code == 403


def _at_the_entrance(answer: Any) -> bool:
    return "Open it with its key" in answer.text


def test_another_user_of_the_machine_is_told_the_way_in(stranger: TestClient) -> None:
    for address in ("/", "/b/orchard/check", "/compare?a=orchard&b=orchard"):
        answer = stranger.get(address)
        assert _at_the_entrance(answer)
        assert f'href="{html.escape(address)}"' in answer.text, "once in, go on to it"
        assert "Orchard" not in answer.text
    api = stranger.get("/api/builds/orchard")
    assert api.status_code == 401
    assert "stands last in the window" in api.json()["error"]["reason"]
    assert stranger.post("/enter", data={"code": ""}).status_code == 403
    assert not stranger.cookies


def test_a_made_up_cookie_opens_nothing(stranger: TestClient, door: Door) -> None:
    for made_up in ("made.up", "made", f"{Seats(1).issue()}"):
        stranger.cookies.set(door.seats.cookie_name, made_up)
        assert stranger.get("/api/builds").status_code == 401
        assert _at_the_entrance(stranger.get("/"))


def test_the_key_lets_one_browser_in_and_leaves_the_address(
    stranger: TestClient, door: Door, app: Safety
) -> None:
    key = door.key.plain
    assert stranger.head(f"/enter?key={key}").status_code == 200, "a look ahead spends nothing"
    answer = stranger.get(f"/enter?key={key}&to=/b/orchard/measure", follow_redirects=False)
    assert answer.headers["location"] == "/b/orchard/measure"
    for word in ("HttpOnly", "SameSite=strict"):
        assert word in answer.headers["set-cookie"]
    assert stranger.get("/api/builds").status_code == 200
    with TestClient(app, HERE, client=("127.0.0.1", 50_001)) as other:
        late = other.get(f"/enter?key={key}")
        assert late.status_code == 403
        assert "has been used" in late.text
        assert other.get("/api/builds").status_code == 401
        fresh = door.key.plain
        assert stranger.get(f"/enter?key={fresh}").url == f"{HERE}/", "it is in already"
        assert other.get(f"/enter?key={fresh}").url == f"{HERE}/"


@pytest.mark.parametrize(
    "to", ["https://evil.example/", "//evil.example", "/\\evil.example", "evil", "/%0d%0aX: y"]
)
def test_the_way_in_leads_nowhere_else(stranger: TestClient, door: Door, to: str) -> None:
    answer = stranger.get(f"/enter?key={door.key.plain}&to={to}", follow_redirects=False)
    assert answer.headers["location"] == "/"


def test_every_answer_carries_the_policy(client: TestClient) -> None:
    for address in ("/", "/nowhere", "/api/builds", "/api/nowhere", "/static/vendor/README.txt"):
        headers = client.get(address).headers
        assert "default-src 'none'" in headers["content-security-policy"]
        assert "unsafe" not in headers["content-security-policy"]
        assert headers["x-content-type-options"] == "nosniff"


def test_the_code_lets_a_phone_in_once(lan_app: Safety, lan_door: Door) -> None:
    lan = "http://192.168.7.20:8765"
    assert lan_door.code is not None
    code = lan_door.code.plain
    with TestClient(lan_app, lan, client=("192.168.7.33", 50_000)) as phone:
        assert phone.get("/", follow_redirects=False).headers["location"] == "/enter?to=/"
        assert phone.get("/api/builds").status_code == 401
        assert phone.post("/enter", data={"code": "WRONGONE"}).status_code == 403
        assert (
            phone.post("/enter", data={"code": f" {code.lower()[:4]} {code[4:]}"}).url == lan + "/"
        )
        assert phone.get("/api/builds").status_code == 200
        edit = phone.post(
            "/api/builds/orchard/edit", json=EDIT, headers={TOKEN_HEADER: _token(phone)}
        )
        assert edit.status_code == 409
        assert "enter?code" not in phone.get("/").text
    with TestClient(lan_app, lan, client=("192.168.7.34", 50_000)) as second:
        assert second.post("/enter", data={"code": code}).status_code == 403
        assert second.get("/api/builds").status_code == 401


def test_the_code_is_shown_at_this_machine_only(lan_app: Safety, lan_door: Door) -> None:
    assert lan_door.code is not None
    with TestClient(lan_app, HERE, client=("127.0.0.1", 50_000)) as here:
        assert lan_door.code.shown not in here.get("/").text
        assert lan_door.code.shown in here.get(f"/enter?key={lan_door.key.plain}").text
    with TestClient(lan_app, "http://192.168.7.20:8765", client=("192.168.7.33", 1)) as phone:
        assert lan_door.code.shown not in phone.get("/").text


def test_the_wide_world_is_refused_even_with_the_code(lan_app: Safety) -> None:
    with TestClient(lan_app, "http://192.168.7.20:8765", client=("8.8.8.8", 50_000)) as far:
        assert far.get("/enter").status_code == 403


def test_five_wrong_tries_bring_a_new_code(lan_door: Door) -> None:
    code = lan_door.code
    assert code is not None
    first = code.plain
    assert not any(code.take("AAAAAAAA") for _ in range(5))
    assert code.plain != first
    assert not code.take(first)

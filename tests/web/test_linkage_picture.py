"""The drawings of linkages over the page, and what the page says where there are none."""

from typing import Any
from xml.etree import ElementTree


def test_a_linkage_is_drawn_by_its_name(tab: Any) -> None:
    answer = tab.client.get("/api/builds/orchard/linkage.svg", params={"linkage": "brake rod"})
    assert answer.status_code == 200
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert "script-src" not in answer.headers["content-security-policy"]
    ElementTree.fromstring(answer.text)


def test_a_linkage_that_is_not_there_is_told_with_those_that_are(tab: Any) -> None:
    answer = tab.client.get("/api/builds/orchard/linkage.svg", params={"linkage": "none"})
    assert answer.status_code == 404
    assert "brake rod, shift rod" in answer.json()["error"]["reason"]


def test_what_cannot_be_drawn_yet_says_what_to_measure(tab: Any) -> None:
    tab.edit("linkage.brake rod.arm.pivot", None)
    answer = tab.client.get("/api/builds/orchard/linkage.svg", params={"linkage": "brake rod"})
    assert answer.status_code == 404
    assert "Measure where its pivot stands" in answer.json()["error"]["reason"]
    make = tab.client.get("/b/orchard/make").text
    assert "linkage.svg?linkage=shift%20rod" in make
    assert "linkage.svg?linkage=brake%20rod" not in make


def test_a_build_without_linkages_has_no_place_for_them(tab: Any) -> None:
    assert 'data-sheet="linkages"' in tab.client.get("/b/orchard/make").text
    tab.edit("brake.linkage", None)
    for name in ("brake rod", "shift rod"):
        tab.edit(f"linkage.{name}", None)
    make = tab.client.get("/b/orchard/make").text
    assert 'data-sheet="linkages"' not in make
    assert "linkages-title" not in make

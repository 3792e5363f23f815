"""A page that would ask the network for something is never made."""

import base64
import hashlib
import json
import re

import pytest
from branca.element import Element

from geo.exports import offline
from geo.exports.offline import OfflineError, OfflineFigure, check_offline, guarded, inlined

LEAFLET = offline.VENDOR / "leaflet"


def figure(body: str = "") -> OfflineFigure:
    return OfflineFigure(title="T", head="", body=body)


def test_the_vendored_files_are_those_of_the_lock() -> None:
    lock = json.loads((LEAFLET / "lock.json").read_text("utf-8"))
    files = {
        str(path.relative_to(LEAFLET)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in LEAFLET.rglob("*")
        if path.is_file() and path.name not in {"lock.json", "README.md"}
    }
    assert files == lock["sha256"]
    assert f"Leaflet {lock['version']}" in (LEAFLET / "leaflet.js").read_text("utf-8")[:200]
    assert "Redistribution and use" in (LEAFLET / "LICENSE").read_text("utf-8")


def test_an_address_without_a_copy_is_refused() -> None:
    with pytest.raises(OfflineError, match=r"expected only addresses with a copy.*jquery"):
        inlined("https://code.jquery.com/jquery-3.7.1.min.js")


def test_a_map_as_the_shell_makes_it_is_refused() -> None:
    import folium

    page = figure()
    page.add_child(folium.Map(tiles=None))
    with pytest.raises(OfflineError, match="got https://"):
        page.render()


def test_a_link_without_an_address_is_refused() -> None:
    page = figure()
    page.header.add_child(Element("<link rel=stylesheet>"))
    with pytest.raises(OfflineError, match="got <link"):
        page.render()


@pytest.mark.parametrize(
    "markup",
    [
        '<img src="https://example.org/a.png">',
        "<img src=a.png>",
        "<script src='a.js'></script>",
        '<iframe src="//example.org"></iframe>',
        '<object data="a.svg"></object>',
        "<style>@import 'a.css'</style>",
        "<style>b { background: url(https://example.org/a.png) }</style>",
    ],
)
def test_anything_a_browser_would_fetch_is_refused(markup: str) -> None:
    with pytest.raises(OfflineError, match="expected nothing that a browser fetches"):
        figure(markup).render()


@pytest.mark.parametrize(
    "markup",
    [
        '<a href="https://example.org">a page to click</a>',
        '<img src="data:image/png;base64,AAAA">',
        "<script>const a = '<img src=x>';</script>",
        "<p>@import url(//example.org)</p>",
    ],
)
def test_what_no_browser_fetches_is_let_through(markup: str) -> None:
    check_offline(markup)


def test_the_policy_names_each_script_and_style_by_its_digest_and_nothing_else() -> None:
    html = OfflineFigure(
        title="T", head="<style>b {}</style>", body="<script>let a = 1</script>"
    ).render()
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', html)
    assert policy
    rules = dict(rule.split(" ", 1) for rule in policy.group(1).split("; "))
    assert rules["default-src"] == "'none'"
    assert "unsafe" not in policy.group(1)
    for kind, text in [("script-src", "let a = 1"), ("style-src", "b {}")]:
        digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
        assert f"'sha256-{digest}'" in rules[kind]


def test_a_name_that_looks_like_a_template_is_not_computed() -> None:
    assert "{{ 7 * 7 }}" in figure("<p>{{ 7 * 7 }}</p>").render()


def test_a_script_cannot_end_its_own_element() -> None:
    assert "</script" not in guarded("a = '</SCRIPT><!-- '").lower()
    assert "<!--" not in guarded("a = '</SCRIPT><!-- '")


def test_pictures_of_a_style_sheet_are_inside_it() -> None:
    sheet = offline.style("leaflet/leaflet.css")
    addresses = re.findall(r"url\(([^)]*)\)", sheet)
    assert len(addresses) == 4
    assert all(a.startswith(('"data:image/png;base64,', "#default")) for a in addresses)

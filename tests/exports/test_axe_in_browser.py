"""No page has a fault that keeps somebody out, by the rules of axe-core (WCAG 2.2)."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.demo_run import ALL_PAGES, pages_folder
from tests.exports.conftest import DESK, PHONE, Tab

KEEPS_OUT = ("serious", "critical")


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
@pytest.mark.parametrize("name", ALL_PAGES)
def test_nobody_is_kept_out(tab: Tab, name: str, size: dict[str, int]) -> None:
    page = tab(viewport=size)
    page.goto((pages_folder() / name).as_uri())
    if name == "block-map.html":
        page.wait_for_selector("html[data-painted]")
        page.locator("#list-spray tbody tr").first.click()
        page.wait_for_selector("#why:not([hidden])")
    found = Axe().run(page).response["violations"]
    faults = [
        (fault["id"], node["html"])
        for fault in found
        if fault["impact"] in KEEPS_OUT
        for node in fault["nodes"]
    ]
    assert faults == []

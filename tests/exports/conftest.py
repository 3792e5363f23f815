"""A browser with no network, and pages opened in it that are watched for faults."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    CDPSession,
    Page,
    Route,
    sync_playwright,
)

from geo.bench.in_browser import FLAGS
from geo.exports.map_page import write_map
from tests.exports.made import Made, made

INSIDE = ("file:", "data:", "blob:", "about:")
DESK = {"width": 1280, "height": 800}
PHONE = {"width": 390, "height": 844}
LYING = {"width": 844, "height": 390}  # a phone on its side

Open = Callable[..., Page]
Tab = Callable[..., Page]


@pytest.fixture(scope="session")
def farm_made() -> Made:
    return made()


@pytest.fixture(scope="session")
def map_file(farm_made: Made, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("map") / "map.html"
    write_map(path, **farm_made.parts())
    return path


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    chromium = shutil.which("chromium")
    if chromium is None:
        pytest.fail("The browser tests need Debian's chromium: apt-get install chromium")
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS))
        yield opened
        opened.close()


class Windows:
    """
    Windows of the browser without a network, one for each way of looking, and tabs in them.

    A tab in a window that is open costs half of what a window costs, which starts a process.
    """

    def __init__(self, browser: Browser) -> None:
        self._browser = browser
        self._kept: dict[str, tuple[BrowserContext, CDPSession]] = {}
        self._used: set[str] = set()

    def tab(self, **settings: object) -> Page:
        """Return a new tab in the window of these settings."""
        key = repr(sorted(settings.items()))
        if key not in self._kept:
            window = self._browser.new_context(offline=True, service_workers="block", **settings)
            window.route("**/*", _only_inside)
            # An empty tab keeps the window's process alive between tests.
            self._kept[key] = (window, window.new_cdp_session(window.new_page()))
        self._used.add(key)
        return self._kept[key][0].new_page()

    def forget(self) -> None:
        """Close the tabs, all but the empty ones, and drop what their pages kept."""
        for key in self._used:
            window, empty = self._kept[key]
            for page in window.pages[1:]:
                page.close()
            empty.send("Storage.clearDataForOrigin", {"origin": "file://", "storageTypes": "all"})
        self._used.clear()


@pytest.fixture(scope="session")
def windows(browser: Browser) -> Windows:
    return Windows(browser)


@pytest.fixture
def tab(windows: Windows) -> Iterator[Tab]:
    """Open tabs, in which nothing is left of another test."""
    yield windows.tab
    windows.forget()


class Watch:
    """What a page asked for outside itself, and what went wrong in it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.asked: list[str] = []
        self.faults: list[str] = []
        page.on(
            "request",
            lambda request: None if _is_inside(request.url) else self.asked.append(request.url),
        )
        page.on("console", lambda message: self._say(message.text))
        page.on("pageerror", lambda fault: self.faults.append(str(fault)))
        page.on("dialog", lambda dialog: self.faults.append(dialog.message))

    def _say(self, words: str) -> None:
        # Said because the tests read the canvas back; the page itself never does.
        if "willReadFrequently" not in words:
            self.faults.append(words)


def _is_inside(url: str) -> bool:
    return url.startswith(INSIDE)


def _only_inside(route: Route) -> None:
    if _is_inside(route.request.url):
        route.continue_()
    else:
        route.abort()


@pytest.fixture
def open_page(tab: Tab, map_file: Path) -> Iterator[Open]:
    """Open the map; afterwards nothing may have been asked for and nothing may have gone wrong."""
    opened: list[Watch] = []

    def opener(*, path: Path = map_file, size: dict[str, int] = DESK, **settings: object) -> Page:
        page = tab(viewport=size, **settings)
        page.set_default_timeout(10_000)
        opened.append(Watch(page))
        page.goto(path.as_uri())
        if settings.get("java_script_enabled", True):
            page.wait_for_selector("html[data-painted]")
        return page

    yield opener
    for watch in opened:
        watch.page.close()
    assert [(watch.asked, watch.faults) for watch in opened] == [([], [])] * len(opened)


@pytest.fixture
def desk(open_page: Open) -> Page:
    return open_page()


@pytest.fixture
def phone(open_page: Open) -> Page:
    return open_page(size=PHONE, has_touch=True, is_mobile=True, device_scale_factor=2)

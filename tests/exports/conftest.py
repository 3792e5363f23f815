"""A browser with no network, and pages opened in it that are watched for faults."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from geo.bench.in_browser import FLAGS
from geo.exports.map_page import write_map
from tests.exports.made import Made, made

INSIDE = ("file:", "data:", "blob:", "about:")
DESK = {"width": 1280, "height": 800}
PHONE = {"width": 390, "height": 844}
LYING = {"width": 844, "height": 390}  # a phone on its side

Open = Callable[..., Page]


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


class Watch:
    """What a page asked for outside itself, and what went wrong in it."""

    def __init__(self, context: BrowserContext, page: Page) -> None:
        self.asked: list[str] = []
        self.faults: list[str] = []
        context.route(
            "**/*",
            lambda route: route.continue_() if _is_inside(route.request.url) else route.abort(),
        )
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


@pytest.fixture
def open_page(browser: Browser, map_file: Path) -> Iterator[Open]:
    """Open the map; afterwards nothing may have been asked for and nothing may have gone wrong."""
    opened: list[tuple[BrowserContext, Watch]] = []

    def opener(*, path: Path = map_file, size: dict[str, int] = DESK, **settings: object) -> Page:
        context = browser.new_context(
            viewport=size, offline=True, service_workers="block", **settings
        )
        page = context.new_page()
        page.set_default_timeout(10_000)
        opened.append((context, Watch(context, page)))
        page.goto(path.as_uri())
        if settings.get("java_script_enabled", True):
            page.wait_for_selector("html[data-painted]")
        return page

    yield opener
    for context, _ in opened:
        context.close()
    assert [(watch.asked, watch.faults) for _, watch in opened] == [([], [])] * len(opened)


@pytest.fixture
def desk(open_page: Open) -> Page:
    return open_page()


@pytest.fixture
def phone(open_page: Open) -> Page:
    return open_page(size=PHONE, has_touch=True, is_mobile=True, device_scale_factor=2)

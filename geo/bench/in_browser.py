"""What do opening a page, another day and a pan cost in a browser, and what does it keep?"""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from operator import attrgetter
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Browser, CDPSession, Page

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-default-apps",
    "--disable-domain-reliability",
    "--disable-dev-shm-usage",
)
WIDTH, HEIGHT = 1280, 800
PATIENCE_MS = 300_000
STEPS = (3, 4, 5)  # days stepped through
# Our page says itself when it has been painted; another one is when it has been loaded.
WATCH = """
window.paintedAt = new Promise((tell) => {
  const twice = (then) => requestAnimationFrame(() => requestAnimationFrame(then));
  const done = () => twice(() => tell(performance.now()));
  document.addEventListener("DOMContentLoaded", () => {
    if (!window.mangoPage) return addEventListener("load", done);
    const root = document.documentElement;
    const look = () => root.dataset.painted && tell(performance.now());
    new MutationObserver(look).observe(root, { attributes: true });
    look();
  });
});
"""
STEP = """
async (change) => {
  const frame = () => new Promise((then) => requestAnimationFrame(then));
  const twice = () => frame().then(frame);
  await twice();
  const before = performance.now();
  window.mangoPage.app.set(change);
  await twice();
  return performance.now() - before;
}
"""
PAN = """
async () => {
  const map = window[Object.keys(window).find((name) => /^map_/.test(name) && window[name].panBy)];
  const gaps = [];
  let last = 0, isOver = false;
  const watch = (now) => {
    if (last) gaps.push(now - last);
    last = now;
    if (!isOver) requestAnimationFrame(watch);
  };
  requestAnimationFrame(watch);
  await new Promise((then) => setTimeout(then, 60));
  gaps.length = 0;
  await new Promise((then) => {
    map.once("moveend", then);
    map.panBy([300, 0], { animate: true, duration: 0.5 });
  });
  await new Promise((then) => requestAnimationFrame(() => requestAnimationFrame(then)));
  isOver = true;
  return Math.max(...gaps);
}
"""


@dataclass(frozen=True)
class Cost:
    """
    What a page costs in a browser.

    Attributes
    ----------
    paint, paint_work : float
        [ms] From the start of loading until its blocks were painted, and processor time of the
        page's main thread until then: a busy machine changes that less.
    day, day_work : float or None
        [ms] To show another day on map and list; None where the page has no days.
    pan, pan_work : float
        [ms] Longest frame while the map glides by 300 pixels, and processor time of the glide.
    heap : float
        [MB] Objects of its scripts, after garbage was collected.
    buffers : float
        [MB] Arrays of plain numbers beside them.
    """

    paint: float
    paint_work: float
    day: float | None
    day_work: float | None
    pan: float
    pan_work: float
    heap: float
    buffers: float


def missing() -> str:
    """
    Return what is not there to open a page with.

    Returns
    -------
    str
        A sentence; empty where nothing is missing.
    """
    try:
        import playwright  # noqa: F401
    except ImportError:
        return "Playwright is missing: pip install 'mangoblock-risk[test]'."
    if shutil.which("chromium") is None:
        return "Debian's chromium is missing: apt-get install chromium."
    return ""


def cost(path: Path, *, slower: float = 1.0, times: int = 3) -> Cost:
    """
    Return what a page costs.

    Parameters
    ----------
    path : pathlib.Path
        Of the page.
    slower : float
        How many times slower than this machine the one who opens it is.
    times : int
        How often it is opened, each time as if for the first time.

    Returns
    -------
    Cost
        Of the opening that took the middle time; of the pan the worst.
    """
    with _browser() as browser:
        found = [_opened(browser, path, slower) for _ in range(times)]
    # The one that took the middle time to paint, with the longest frame of any pan.
    middle = sorted(found, key=attrgetter("paint"))[len(found) // 2]
    return replace(middle, pan=max(one.pan for one in found))


def _opened(browser: "Browser", path: Path, slower: float) -> Cost:
    context = browser.new_context(viewport={"width": WIDTH, "height": HEIGHT}, offline=True)
    page = context.new_page()
    page.set_default_timeout(PATIENCE_MS)
    page.add_init_script(WATCH)
    devtools = context.new_cdp_session(page)
    devtools.send("Emulation.setCPUThrottlingRate", {"rate": slower})
    devtools.send("Performance.enable", {"timeDomain": "threadTicks"})
    page.goto(path.as_uri())
    paint = float(page.evaluate("window.paintedAt"))
    paint_work = _work(devtools)
    day, day_work = _day_step(page, devtools)
    before = _work(devtools)
    pan = float(page.evaluate(PAN))
    pan_work = _work(devtools) - before
    devtools.send("HeapProfiler.collectGarbage")
    heap = devtools.send("Runtime.getHeapUsage")
    context.close()
    kept = heap["usedSize"] / 1e6, heap.get("backingStorageSize", 0.0) / 1e6
    return Cost(paint, paint_work, day, day_work, pan, pan_work, *kept)


def _day_step(page: "Page", devtools: "CDPSession") -> tuple[float, float] | tuple[None, None]:
    """Step through days with the list of the day open: it is ranked and built anew each time."""
    if not page.evaluate("Boolean(window.mangoPage)"):
        return None, None
    page.evaluate(STEP, {"tab": "day"})
    before = _work(devtools)
    steps = [float(page.evaluate(STEP, {"day": day})) for day in STEPS]
    work = (_work(devtools) - before) / len(STEPS)
    page.evaluate(STEP, {"tab": "spray"})
    return median(steps), work


def _work(devtools: "CDPSession") -> float:
    """Return the processor time of the page's main thread so far in milliseconds."""
    metrics = devtools.send("Performance.getMetrics")["metrics"]
    return 1000.0 * next(float(one["value"]) for one in metrics if one["name"] == "TaskDuration")


@contextmanager
def _browser() -> "Iterator[Browser]":
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=list(FLAGS)
        )
        try:
            yield browser
        finally:
            browser.close()

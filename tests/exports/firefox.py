"""
How is Firefox driven? By WebDriver BiDi, the W3C's protocol, over a socket of this machine.

Commands, events and errors are those of https://www.w3.org/TR/webdriver-bidi/; Firefox speaks it
itself, so nothing stands between the tests and the browser that Debian ships.
"""

import base64
import json
import os
import shutil
import signal
import subprocess
import time
from contextlib import ExitStack, suppress
from pathlib import Path
from typing import Any

import pytest
from websockets.sync.client import ClientConnection, connect

INSIDE = ("file:", "data:", "blob:", "about:")
# Ten tests at once on a slow machine must not fail for want of time.
PATIENCE = 120.0
NOT_THERE = "The browser tests need Debian's Firefox: apt-get install firefox-esr"
# Port 9 throws away what it gets (RFC 863), and no name is looked up: there is no way out.
WAY_OUT = ("http", "ssl", "socks")
PREFERENCES: dict[str, object] = {
    "network.proxy.type": 1,
    "network.proxy.allow_hijacking_localhost": True,
    "network.proxy.socks_remote_dns": True,
    **{f"network.proxy.{kind}": "127.0.0.1" for kind in WAY_OUT},
    **{f"network.proxy.{kind}_port": 9 for kind in WAY_OUT},
    # As on a phone, where they take no room.
    "ui.useOverlayScrollbars": 1,
    "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False,
}
# Keys without a letter have code points of their own: https://www.w3.org/TR/webdriver2/, 17.4.2.
KEYS = {"Escape": "\ue00c", "End": "\ue010", "ArrowLeft": "\ue012", "ArrowDown": "\ue015"}
MIDDLE = """(selector) => {
  const found = document.querySelector(selector);
  found.scrollIntoView({ block: "center", behavior: "instant" });
  const box = found.getBoundingClientRect();
  return [box.x + box.width / 2, box.y + box.height / 2];
}"""


class FaultInFirefoxError(Exception):
    """What Firefox says of a command that it could not carry out."""


class Firefox:
    """A Firefox with a profile of its own; what its page asks for and what goes wrong is kept."""

    def __init__(self, folder: Path) -> None:
        self.asked: list[str] = []
        self.faults: list[str] = []
        self._last = 0
        self._process = _started(folder)
        # Undone from the last to the first: the socket is closed before the browser is ended.
        with ExitStack() as so_far:
            so_far.callback(self._end)
            address = _address(folder / "profile", self._process)
            self._socket: ClientConnection = so_far.enter_context(
                connect(
                    address, proxy=None, max_size=None, open_timeout=PATIENCE, ping_interval=None
                )
            )
            self._send("session.new", capabilities={})
            self._send("session.subscribe", events=["log.entryAdded", "network.beforeRequestSent"])
            self._person = self._page = ""
            self._open = so_far.pop_all()

    def close(self) -> None:
        """End the browser and everything it started."""
        with self._open:
            self._send("browser.close")

    def open(self, path: Path, size: tuple[int, int]) -> None:
        """Show a file at a size, in pixels, to somebody who kept nothing from earlier pages."""
        if self._person:
            self._send("browser.removeUserContext", userContext=self._person)
        self._person = self._send("browser.createUserContext")["userContext"]
        made = self._send("browsingContext.create", type="tab", userContext=self._person)
        self._page = made["context"]
        viewport = dict(zip(("width", "height"), size, strict=True))
        self._send("browsingContext.setViewport", context=self._page, viewport=viewport)
        self.asked.clear()
        self.faults.clear()
        self._send(
            "browsingContext.navigate", context=self._page, url=path.as_uri(), wait="complete"
        )

    def reload(self) -> None:
        """Show the same file again to the same person."""
        self._send("browsingContext.reload", context=self._page, wait="complete")

    def evaluate(self, function: str, *arguments: object) -> Any:
        """Return what a function of JavaScript returns in the page, by way of JSON."""
        called = f"({function})(...{json.dumps(arguments)})"
        told = self._send(
            "script.evaluate",
            expression=f"(async () => JSON.stringify([await {called}]))()",
            target={"context": self._page},
            awaitPromise=True,
        )
        if told["type"] == "exception":
            raise FaultInFirefoxError(told["exceptionDetails"]["text"])
        return json.loads(told["result"]["value"])[0]

    def wait_for(self, selector: str) -> None:
        """Wait until something in the page answers to a selector."""
        until = time.monotonic() + PATIENCE
        while not self.evaluate("(selector) => !!document.querySelector(selector)", selector):
            if time.monotonic() > until:
                raise TimeoutError(selector)
            time.sleep(0.05)

    def click(self, selector: str) -> None:
        """Press and lift the mouse on the middle of an element."""
        self.click_at(*self.evaluate(MIDDLE, selector))

    def click_at(self, x: float, y: float) -> None:
        """Press and lift the mouse at a place in the window, in pixels."""
        moves = [
            {"type": "pointerMove", "x": round(x), "y": round(y)},
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        ]
        self._act(type="pointer", id="mouse", actions=moves)

    def press(self, key: str) -> None:
        """Press and lift a key."""
        value = KEYS.get(key, key)
        strokes = [{"type": kind, "value": value} for kind in ("keyDown", "keyUp")]
        self._act(type="key", id="keys", actions=strokes)

    def screenshot(self, path: Path) -> None:
        """Write what the window shows."""
        told = self._send("browsingContext.captureScreenshot", context=self._page)
        path.write_bytes(base64.b64decode(told["data"]))

    def _act(self, **source: object) -> None:
        self._send("input.performActions", context=self._page, actions=[source])

    def _send(self, method: str, **params: object) -> Any:
        self._last += 1
        self._socket.send(json.dumps({"id": self._last, "method": method, "params": params}))
        while True:
            said = json.loads(self._socket.recv(timeout=PATIENCE))
            if said.get("id") != self._last:
                self._note(said)
            elif said["type"] == "error":
                raise FaultInFirefoxError(f"{method}: {said['error']}: {said['message']}")
            else:
                return said["result"]

    def _note(self, said: dict[str, Any]) -> None:
        params = said.get("params", {})
        if said.get("method") == "log.entryAdded":
            self.faults.append(f"{params['level']}: {params['text']}")
        elif said.get("method") == "network.beforeRequestSent":
            url = params["request"]["url"]
            if not url.startswith(INSIDE):
                self.asked.append(url)

    def _end(self) -> None:
        try:
            self._process.wait(PATIENCE / 8)
        except subprocess.TimeoutExpired:
            os.killpg(self._process.pid, signal.SIGKILL)
            self._process.wait()


def _started(folder: Path) -> subprocess.Popen[bytes]:
    firefox = shutil.which("firefox-esr") or shutil.which("firefox")
    if firefox is None:
        pytest.fail(NOT_THERE)
    profile = folder / "profile"
    profile.mkdir()
    lines = [f"user_pref({json.dumps(key)}, {json.dumps(to)});" for key, to in PREFERENCES.items()]
    (profile / "user.js").write_text("\n".join(lines), "utf-8")
    with (folder / "said.txt").open("wb") as said:
        return subprocess.Popen(
            [firefox, "--headless", "--remote-debugging-port=0", "--profile", str(profile)],
            env=os.environ | {"HOME": str(folder)},
            stdin=subprocess.DEVNULL,
            stdout=said,
            stderr=said,
            start_new_session=True,
        )


def _address(profile: Path, process: subprocess.Popen[bytes]) -> str:
    # Firefox writes down where it listens once it does.
    written, until = profile / "WebDriverBiDiServer.json", time.monotonic() + PATIENCE
    while process.poll() is None and time.monotonic() < until:
        with suppress(FileNotFoundError, json.JSONDecodeError):
            return f"ws://127.0.0.1:{json.loads(written.read_text('utf-8'))['ws_port']}/session"
        time.sleep(0.05)
    said = (profile.parent / "said.txt").read_text("utf-8", "replace")
    pytest.fail(f"Firefox did not start: {said[-2000:]}")

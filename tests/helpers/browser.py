"""A real browser without a screen, asked over a pipe in the words of its own debugging protocol.

Debian's Chromium (or Chrome, where that is installed).  Pages are opened from files with the
network switched off, and whatever they ask for, complain of or are forbidden is kept.

Source: the Chrome DevTools Protocol, from memory; messages end in a zero byte.
"""

from __future__ import annotations

import base64
import fcntl
import json
import os
import select
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final, NamedTuple

COMMAND: Final = next(
    filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None
)
WHY_NOT: Final = "no Chromium here: apt-get install chromium"
PATIENCE_S: Final = 20.0
_FLAGS: Final = (
    *("--headless=new", "--remote-debugging-pipe", "--no-first-run", "--disable-extensions"),
    *(
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--disable-background-networking",
        "--mute-audio",
    ),
    *("--force-device-scale-factor=1", "--hide-scrollbars", "--mute-audio"),
)


class Screen(NamedTuple):
    """What a page is shown on."""

    width: int
    height: int
    touch: bool = False
    dark: bool = False
    calm: bool = True


PHONE: Final = Screen(390, 844, touch=True)
DESKTOP: Final = Screen(1440, 900)


class BrowserError(AssertionError):
    """The browser refused what it was asked, or the page raised an error."""


class Browser:
    """The running browser."""

    def __init__(self, profile: Path) -> None:
        theirs, self._write = os.pipe()
        self._read, also_theirs = os.pipe()
        # The browser reads from descriptor 3 and writes to 4; here both are called otherwise.
        ends = [fcntl.fcntl(end, fcntl.F_DUPFD, 10) for end in (theirs, also_theirs)]
        root = ["--no-sandbox"] if os.geteuid() == 0 else []
        self._process = subprocess.Popen(
            ["bash", "-c", f'exec "$0" "$@" 3<&{ends[0]} 4>&{ends[1]}', str(COMMAND),
             *_FLAGS, *root, f"--user-data-dir={profile}"],
            pass_fds=ends, stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        for end in (theirs, also_theirs, *ends):
            os.close(end)
        self._kept = b""
        self._count = 0
        self.events: list[dict[str, Any]] = []

    def ask(self, method: str, session: str = "", **told: Any) -> dict[str, Any]:
        """The answer to one message."""
        self._count += 1
        message = {"id": self._count, "method": method, "params": told}
        if session:
            message["sessionId"] = session
        os.write(self._write, json.dumps(message).encode() + b"\0")
        while True:
            heard = self._next()
            if heard.get("id") == self._count:
                if "error" in heard:
                    raise BrowserError(f"{method}: {heard['error']}")
                answer: dict[str, Any] = heard["result"]
                return answer
            self.events.append(heard)

    def _next(self) -> dict[str, Any]:
        while b"\0" not in self._kept:
            ready, _, _ = select.select([self._read], [], [], PATIENCE_S)
            if not ready:
                raise BrowserError("the browser has not answered")
            more = os.read(self._read, 1 << 20)
            if not more:
                raise BrowserError("the browser has ended")
            self._kept += more
        message, _, self._kept = self._kept.partition(b"\0")
        heard: dict[str, Any] = json.loads(message)
        return heard

    def wait(self, method: str, **told: Any) -> None:
        """Until something has happened since the events were last cleared."""
        while not any(
            event.get("method") == method and told.items() <= event["params"].items()
            for event in self.events
        ):
            self.events.append(self._next())

    def close(self) -> None:
        """End it."""
        self._process.terminate()
        self._process.wait(20)
        os.close(self._write)
        os.close(self._read)


class Page:
    """One page of it, and the hands that touch it."""

    def __init__(self, browser: Browser, screen: Screen) -> None:
        self._browser = browser
        target = browser.ask("Target.createTarget", url="about:blank")["targetId"]
        self._target = target
        attached = browser.ask("Target.attachToTarget", targetId=target, flatten=True)
        self._session = attached["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.ask(f"{domain}.enable")
        self.ask("Page.setLifecycleEventsEnabled", enabled=True)
        self._opened = 0
        self.ask("Network.emulateNetworkConditions", offline=True, latency=0,
                 downloadThroughput=0, uploadThroughput=0)  # fmt: skip
        self.show_on(screen)

    def ask(self, method: str, **told: Any) -> dict[str, Any]:
        """The answer to a message to this page."""
        return self._browser.ask(method, self._session, **told)

    def show_on(self, screen: Screen, scale: float = 1.0) -> None:
        """Show it on another screen."""
        self.ask("Emulation.setDeviceMetricsOverride", width=screen.width, height=screen.height,
                 deviceScaleFactor=scale, mobile=screen.touch)  # fmt: skip
        self.ask("Emulation.setTouchEmulationEnabled", enabled=screen.touch)
        features = {
            "prefers-color-scheme": "dark" if screen.dark else "light",
            "prefers-reduced-motion": "reduce" if screen.calm else "no-preference",
        }
        told = [{"name": name, "value": value} for name, value in features.items()]
        self.ask("Emulation.setEmulatedMedia", features=told)

    def open(self, file: Path, fragment: str = "") -> None:
        """Open a file and wait until it is there."""
        # What lies behind another page is not animated.
        self.ask("Page.bringToFront")
        self._browser.events.clear()
        self._opened += 1
        # Another query each time: else a mere change of the fragment would not load it anew.
        url = f"{file.as_uri()}?{self._opened}" + (f"#{fragment}" if fragment else "")
        loader = self.ask("Page.navigate", url=url)["loaderId"]
        self._browser.wait("Page.lifecycleEvent", name="load", loaderId=loader)

    def value(self, expression: str) -> Any:
        """What an expression of the page comes to.

        Raises:
            BrowserError: it raised an error.
        """
        told = self.ask(
            "Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True
        )
        if "exceptionDetails" in told:
            raise BrowserError(json.dumps(told["exceptionDetails"]))
        return told["result"].get("value")

    def text(self) -> str:
        """All words of it, by its own structure: also where no script may run."""
        root = self.ask("DOM.getDocument", depth=-1)["root"]
        return " ".join(_texts_of(root))

    def complaints(self) -> list[str]:
        """What the page raised, was forbidden, or asked the network for, since it was opened."""
        self.value("0")
        said = []
        for event in self._browser.events:
            method, told = event.get("method", ""), event.get("params", {})
            if method == "Runtime.exceptionThrown":
                said.append(json.dumps(told["exceptionDetails"]))
            elif method == "Log.entryAdded":
                said.append(told["entry"]["text"])
            elif method == "Network.requestWillBeSent":
                url = told["request"]["url"]
                said += [] if url.startswith(("file:", "about:")) else [f"asked for {url}"]
        return said

    # Hands

    def key(self, key: str, code: int, text: str = "") -> None:
        """Press and release a key."""
        for kind in ("keyDown", "keyUp"):
            self.ask("Input.dispatchKeyEvent", type=kind, key=key, code=key,
                     windowsVirtualKeyCode=code, **({"text": text} if text else {}))  # fmt: skip

    def place(self, selector: str, share: float = 0.5) -> tuple[float, float]:
        """A point of an element on the screen, so far along it, scrolled to where it is seen."""
        found = self.value(
            f"(() => {{ const part = document.querySelector({json.dumps(selector)});"
            "part.scrollIntoView({block: 'center'});"
            "const box = part.getBoundingClientRect();"
            f"return [box.left + {share} * box.width, box.top + 0.5 * box.height]; }})()"
        )
        return found[0], found[1]

    def click(self, selector: str) -> None:
        """Press the mouse on an element."""
        x, y = self.place(selector)
        for kind in ("mousePressed", "mouseReleased"):
            self.ask("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)

    def tap(self, selector: str) -> None:
        """Touch an element and let go."""
        x, y = self.place(selector)
        self.ask("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": y}])
        self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])

    def drag_finger(self, selector: str, start: float, end: float) -> None:
        """Draw a finger along an element, from one share of its width to another."""
        (x, y), (to, _) = self.place(selector, start), self.place(selector, end)
        self.ask("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": y}])
        for i in range(1, 9):
            at = x + (to - x) * i / 8.0
            self.ask("Input.dispatchTouchEvent", type="touchMove", touchPoints=[{"x": at, "y": y}])
        self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])

    def picture(self, *, whole: bool = False) -> bytes:
        """What is seen now as PNG; the whole page, however long, if wanted."""
        told = self.ask("Page.captureScreenshot", captureBeyondViewport=whole, **self._clip(whole))
        return base64.b64decode(told["data"])

    def _clip(self, whole: bool) -> dict[str, Any]:
        if not whole:
            return {}
        size = self.ask("Page.getLayoutMetrics")["cssContentSize"]
        return {"clip": {**size, "x": 0, "y": 0, "scale": 1}}

    def close(self) -> None:
        """Close it."""
        self._browser.ask("Target.closeTarget", targetId=self._target)


def _texts_of(node: dict[str, Any]) -> Iterator[str]:
    if node["nodeName"] not in {"SCRIPT", "STYLE"}:
        yield from [node["nodeValue"]] if node["nodeType"] == 3 else []
        for child in node.get("children", []):
            yield from _texts_of(child)


@contextmanager
def browser(profile: Path) -> Iterator[Browser]:
    """A browser for as long as it is needed."""
    made = Browser(profile)
    try:
        yield made
    finally:
        made.close()


@contextmanager
def page(of: Browser, screen: Screen) -> Iterator[Page]:
    """A page for as long as it is needed."""
    made = Page(of, screen)
    try:
        yield made
    finally:
        made.close()

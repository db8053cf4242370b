"""Reads a running window over AT-SPI as a screen reader does; prints what it finds as JSON.

Run by the system's Python, which has the bindings of D-Bus, in a session bus of its own:
``dbus-run-session -- /usr/bin/python3 at_spi_session.py PYTHON FOLDER``.  It starts a screen
and on it, by that Python, the program of the checkout in that folder.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack, suppress
from typing import Any

import dbus  # type: ignore[import-not-found]

ACCESSIBLE = "org.a11y.atspi.Accessible"
ROOT = ("org.a11y.atspi.Registry", "/org/a11y/atspi/accessible/root")
STATES = {
    "checked": 4, "collapsed": 5, "expandable": 9, "expanded": 10, "focusable": 11,
    "selectable": 22, "selected": 23, "showing": 25, "checkable": 41,
}  # fmt: skip
"""Bits of AT-SPI's states."""
PATIENCE = 20.0
"""How long the registry, and then the window, may take to come onto the bus (s)."""
TRIES = 3
"""How often the program is started until it does."""
PROGRAM = """
from app.session import Session
from app.window.window import Window, prepared_application
app = prepared_application()
window = Window(Session())
window.show()
app.exec()
"""
Place = tuple[str, str]


class Assistant:
    """Asks as assistive programs do."""

    def __init__(self) -> None:
        launcher = dbus.SessionBus().get_object("org.a11y.Bus", "/org/a11y/bus")
        address = launcher.GetAddress(dbus_interface="org.a11y.Bus")
        self._bus = dbus.bus.BusConnection(address)

    def ask(self, place: Place, interface: str, method: str, *given: Any) -> Any:
        """What a method of a place answers."""
        asked = self._bus.get_object(*place, introspect=False)
        return asked.get_dbus_method(method, interface)(*given)

    def children(self, place: Place) -> list[Place]:
        """What stands below a place, in order."""
        found = self.ask(place, ACCESSIBLE, "GetChildren")
        return [(str(service), str(path)) for service, path in found]

    def states(self, place: Place) -> list[str]:
        """In which of the states above it is."""
        low, high = self.ask(place, ACCESSIBLE, "GetState")
        bits = int(low) | int(high) << 32
        return [name for name, bit in STATES.items() if bits >> bit & 1]

    def told(self, place: Place) -> dict[str, Any]:
        """Role, name, description and states."""
        asked, role = "org.freedesktop.DBus.Properties", self.ask(place, ACCESSIBLE, "GetRoleName")
        words = {
            key: str(self.ask(place, asked, "Get", ACCESSIBLE, key.title()))
            for key in ("name", "description")
        }
        number = int(self.ask(place, ACCESSIBLE, "GetRole"))
        return {"role": str(role), "number": number, **words, "states": self.states(place)}

    def walked(self, place: Place) -> Iterator[tuple[Place, dict[str, Any]]]:
        """All that can be seen below a place, itself first."""
        yield place, self.told(place)
        for child in self.children(place):
            if "showing" in self.states(child):
                yield from self.walked(child)

    def waited_for(self) -> None:
        """Come back once the registry answers: a program that asks before stays off the bus."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            with suppress(dbus.DBusException):
                self.children(ROOT)
                return
            time.sleep(0.1)

    def window(self) -> Place | None:
        """The program's window, once it is on the bus; None if it does not come."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            with suppress(dbus.DBusException):
                for program in self.children(ROOT):
                    for window in self.children(program):
                        if "showing" in self.states(window):
                            return window
            time.sleep(0.1)
        return None


def started(stack: ExitStack, command: list[str], **more: Any) -> subprocess.Popen[bytes]:
    """A process that ends with this one."""
    made = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, **more)
    stack.callback(made.wait)
    stack.callback(made.terminate)
    return made


def display(stack: ExitStack) -> str:
    """A screen of its own."""
    out, into = os.pipe()
    command = ["Xvfb", "-displayfd", str(into), "-screen", "0", "1280x800x24", "-nolisten", "tcp"]
    started(stack, command, pass_fds=[into], stderr=subprocess.DEVNULL)
    os.close(into)
    with os.fdopen(out) as said:
        return f":{said.readline().strip()}"


def main(python: str, folder: str) -> None:
    """Read the window, open a page over the bus, and read it again."""
    with ExitStack() as stack:
        env = {
            **os.environ,
            "DISPLAY": display(stack),
            "QT_QPA_PLATFORM": "xcb",
            "QT_LINUX_ACCESSIBILITY_ALWAYS_ON": "1",
        }
        assistant, window = Assistant(), None
        assistant.waited_for()
        for _ in range(TRIES):
            # On a machine that is busy Qt may lose the bus as it comes onto it.
            process = started(stack, [python, "-c", PROGRAM], env=env, cwd=folder)
            window = assistant.window()
            if window is not None:
                break
            process.terminate()
        if window is None:
            raise SystemExit("the window did not come onto the bus")
        before = list(assistant.walked(window))
        tab = next(place for place, told in before if told["name"] == "Through the bend")
        assistant.ask(tab, "org.a11y.atspi.Action", "DoAction", dbus.Int32(0))
        after = list(assistant.walked(window))
    seen = {"before": before, "after": after}
    print(json.dumps({when: [told for _, told in walk] for when, walk in seen.items()}))


if __name__ == "__main__":
    main(*sys.argv[1:])

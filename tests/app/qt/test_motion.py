"""Whether the system asks for less motion."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]
PORTAL = """
import subprocess, sys
from PySide6.QtCore import QCoreApplication, QTimer
from PySide6.QtDBus import QDBusConnection, QDBusVariant, QDBusVirtualObject

class Portal(QDBusVirtualObject):
    def introspect(self, path):
        return ""
    def handleMessage(self, message, connection):
        asked = message.member(), *message.arguments()
        right = asked == ("ReadOne", "org.freedesktop.appearance", "reduced-motion")
        connection.send(message.createReply(QDBusVariant(int(sys.argv[1]) if right else 7)))
        return True

app, portal, bus = QCoreApplication([]), Portal(), QDBusConnection.sessionBus()
assert bus.registerVirtualObject("/org/freedesktop/portal/desktop", portal)
assert bus.registerService("org.freedesktop.portal.Desktop")
asker = subprocess.Popen([sys.executable, "-c", sys.argv[2]])
timer = QTimer(interval=20)
timer.timeout.connect(lambda: asker.poll() is not None and app.quit())
timer.start()
app.exec()
"""
"""A desktop of its own, which answers one who asks with the number that it is given."""
ASK = """
from PySide6.QtGui import QGuiApplication
app = QGuiApplication([])
from app.qt.motion import motion_unwelcome
print(motion_unwelcome())
"""


@pytest.mark.skipif(not shutil.which("dbus-run-session"), reason="no session bus to be had")
@pytest.mark.parametrize(("told", "unwelcome"), [("1", "True"), ("0", "False"), ("9", "False")])
def test_the_desktop_is_asked_whether_motion_is_to_be_reduced(told: str, unwelcome: str) -> None:
    # Numbers of the portal: 1 reduced, 0 no preference, unknown ones as 0 (XDG Desktop
    # Portal, interface org.freedesktop.portal.Settings).
    environment = os.environ | {"QT_QPA_PLATFORM": "offscreen"}
    ran = subprocess.run(
        ["dbus-run-session", "--", sys.executable, "-c", PORTAL, told, ASK],
        cwd=ROOT, env=environment, capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip
    assert ran.stdout.strip() == unwelcome, ran.stderr


def test_without_a_desktop_to_ask_nothing_is_unwelcome() -> None:
    environment = os.environ | {"QT_QPA_PLATFORM": "offscreen"}
    environment["DBUS_SESSION_BUS_ADDRESS"] = "unix:path=/nowhere/at/all"
    ran = subprocess.run(
        [sys.executable, "-c", ASK],
        cwd=ROOT, env=environment, capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip
    assert ran.stdout.strip() == "False", ran.stderr

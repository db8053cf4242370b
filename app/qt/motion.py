"""Whether things may move by themselves: as the user chose, else as the system asks."""

from __future__ import annotations

import os
import sys
from typing import Final

from PySide6.QtGui import QGuiApplication

_ANIMATES: Final = 0x1042
"""SPI_GETCLIENTAREAANIMATION of Windows."""
_PATIENCE_MS: Final = 200
"""How long a desktop may take to answer."""


class _InForce:
    """Holds what the user chose."""

    reduced = False


def set_reduced(reduced: bool) -> None:
    """Let nothing start to move by itself, or follow the system in that."""
    _InForce.reduced = reduced


def moves() -> bool:
    """Whether something may start to move by itself, or glide to where it could be at once."""
    return not (_InForce.reduced or motion_unwelcome())


def motion_unwelcome() -> bool:
    """Whether nothing should start to move by itself, as far as the system says so.

    Qt tells it from 6.12 on.  Before that Windows and the desktops of Linux are asked
    themselves; macOS is not, where it has to be chosen in the settings.
    """
    told = getattr(QGuiApplication.styleHints().accessibility(), "motionPreference", None)
    if told is not None:
        return bool(told().name == "ReducedMotion")
    if sys.platform == "win32":
        return not _windows_animates()
    return bool(os.environ.get("DBUS_SESSION_BUS_ADDRESS")) and _portal_says_reduced()


def _windows_animates() -> bool:
    import ctypes  # noqa: PLC0415

    animates = ctypes.c_int(1)
    ask = ctypes.windll.user32.SystemParametersInfoW  # type: ignore[attr-defined,unused-ignore]
    ask(_ANIMATES, 0, ctypes.byref(animates), 0)
    return bool(animates.value)


def _portal_says_reduced() -> bool:
    """What the desktop's portal says: 1 for reduced, 0 and anything else for no preference."""
    try:
        from PySide6.QtDBus import QDBusConnection, QDBusMessage  # noqa: PLC0415
    except ImportError:  # left out where the program was packed small
        return False
    call = QDBusMessage.createMethodCall(
        "org.freedesktop.portal.Desktop",
        "/org/freedesktop/portal/desktop",
        "org.freedesktop.portal.Settings",
        "ReadOne",
    )
    call.setArguments(["org.freedesktop.appearance", "reduced-motion"])
    answer = QDBusConnection.sessionBus().call(call, timeout=_PATIENCE_MS)
    arguments = answer.arguments()
    value = arguments[0] if arguments else 0
    return value == 1 or getattr(value, "variant", lambda: 0)() == 1

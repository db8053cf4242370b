"""Whether a window can open here at all, asked before Qt is.

Qt ends the whole process when it finds no display or cannot load the part that
talks to it, with a message that names one library whatever is missing.  So on
Linux the questions are asked here first, and answered in words.
"""

from __future__ import annotations

import ctypes
import importlib
import socket
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Final

INSTEAD: Final = "use --numbers for the figures or --snapshot OUT.png for a picture"

_ON_A_DESKTOP: Final = ("xcb", "wayland")

QT_LIBRARIES: Final = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libxkbcommon.so.0": "libxkbcommon0",
}
"""What Qt needs of the system for a window or a picture, with the Debian
package that holds each."""

X11_LIBRARIES: Final = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-randr.so.0": "libxcb-randr0",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxcb-xkb.so.1": "libxcb-xkb1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
"""What it needs besides for a window on X11."""


def why_no_qt() -> str:
    """Why Qt cannot be loaded, in one sentence; empty when it can."""
    try:
        importlib.import_module("PySide6.QtWidgets")
    except ImportError as error:
        wanting = why_libraries_want(QT_LIBRARIES) if sys.platform.startswith("linux") else ""
        return wanting or f"Qt cannot be loaded ({error}); see Start in the README"
    return ""


def why_no_window(environment: Mapping[str, str]) -> str:
    """Why no window can open, in one sentence; empty when one can.

    Args:
        environment: the process's environment variables.
    """
    platform = environment.get("QT_QPA_PLATFORM", "").partition(":")[0]
    elsewhere = bool(platform) and not platform.startswith(_ON_A_DESKTOP)
    if elsewhere or not sys.platform.startswith("linux"):
        return ""
    if not platform.startswith("xcb") and _wayland_answers(environment):
        return ""
    display = "" if platform.startswith("wayland") else environment.get("DISPLAY", "")
    if not display:
        return f"there is no display to open a window on; {INSTEAD}"
    if wanting := why_libraries_want(X11_LIBRARIES):
        return wanting
    return "" if _x11_answers(display) else f"the display {display} does not answer; {INSTEAD}"


def why_libraries_want(packages: Mapping[str, str]) -> str:
    """Which shared libraries the system cannot load, and what brings them.

    Args:
        packages: Debian package of each library that is needed.

    Returns:
        One sentence; empty when none is missing.
    """
    missing = libraries_missing(packages)
    if not missing:
        return ""
    return (
        f"the system lacks {', '.join(missing)}; on Debian or Ubuntu type: "
        f"sudo apt-get install {' '.join(packages[name] for name in missing)}"
    )


def libraries_missing(libraries: Iterable[str]) -> list[str]:
    """Those of the shared libraries that the system cannot load."""
    return [library for library in libraries if not _loads(library)]


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def _wayland_answers(environment: Mapping[str, str]) -> bool:
    """Whether a Wayland compositor takes connections."""
    name = environment.get("WAYLAND_DISPLAY")
    if not name:
        return False
    # An absolute name stands for itself.
    path = Path(environment.get("XDG_RUNTIME_DIR", "/")) / name
    with socket.socket(socket.AF_UNIX) as line:
        try:
            line.connect(str(path))
        except OSError:
            return False
    return True


def _x11_answers(display: str) -> bool:
    """Whether an X server takes connections."""
    xcb = ctypes.CDLL("libxcb.so.1")
    xcb.xcb_connect.restype = ctypes.c_void_p
    xcb.xcb_connect.argtypes = [ctypes.c_char_p, ctypes.c_void_p]
    xcb.xcb_connection_has_error.argtypes = [ctypes.c_void_p]
    xcb.xcb_disconnect.argtypes = [ctypes.c_void_p]
    connection = xcb.xcb_connect(display.encode(), None)
    refused = bool(xcb.xcb_connection_has_error(connection))
    xcb.xcb_disconnect(connection)
    return not refused

"""What goes into the stand-alone, of all that PyInstaller finds.

PyInstaller brings every library that anything it collects is linked to, from the building
system's too.  Qt's parts are taken by name here.  What belongs to a system stays with the
system, as in a checkout: its libraries fit its display, its sound and its fonts, and it
mends them.  Read by ``kneeline.spec`` as well, hence standard library only.
"""

from __future__ import annotations

import os
import re
from fnmatch import fnmatch

QT_MODULES = ("Core", "DBus", "Gui", "OpenGL", "OpenGLWidgets", "PrintSupport", "Svg", "Widgets")
"""What the program imports of Qt, and pyqtgraph for it."""
BY_NAME = ("PySide6.QtOpenGL", "PySide6.QtOpenGLWidgets")
"""Modules that pyqtgraph imports in a way that only shows when it runs."""

QT_LIBRARIES = (*QT_MODULES, "WaylandClient", "XcbQpa")
"""What those and the plugins are linked to besides."""

QT_PLUGINS = (
    # Drawn by Qt itself, without a GPU: on X11, on Wayland, on nothing at all (--snapshot).
    "platforms/libqxcb.so",
    "platforms/libqwayland.so",
    "platforms/libqoffscreen.so",
    "wayland-shell-integration/libxdg-shell.so",
    "wayland-decoration-client/libbradient.so",
    # The desktop's own file dialogs, and whether it is dark.
    "platformthemes/libqxdgdesktopportal.so",
    # Accents and other scripts.
    "platforminputcontexts/libcomposeplatforminputcontextplugin.so",
    "platforminputcontexts/libibusplatforminputcontextplugin.so",
    # The icon.
    "iconengines/libqsvgicon.so",
    "imageformats/libqsvg.so",
    "printsupport/libcupsprintersupport.so",
)

BROUGHT_ALONG = {
    "libbz2.so.1.0": "libbz2-1.0",
    "libffi.so.8": "libffi8",
    "liblzma.so.5": "liblzma5",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-util.so.1": "libxcb-util1",
}
"""The system's libraries that come along, since desktops lack them or name them otherwise,
with the Debian package that each is of: all small, and free to be passed on with their notice."""

LEFT_OUT = (
    *("PySide6.QtNetwork", "PySide6.QtTest"),
    *("_hashlib", "_ssl", "curses", "readline", "sqlite3", "tkinter"),
    # Kinds of pictures that are not written, and another window system's.
    *("PIL._avif", "PIL._imagingcms", "PIL._imagingtk"),
    *("IPython", "matplotlib", "pyqtgraph.examples", "pyqtgraph.opengl", "setuptools"),
)
"""Modules that others would import if they were there, and do without."""

_SYSTEM = re.compile(r"(/usr)?/lib(32|64|x32)?/")
_QT = "PySide6/Qt/"


def is_chosen(name: str, source: str, languages: tuple[str, ...]) -> bool:
    """Whether a file goes into the stand-alone.

    Args:
        name: its place there.
        source: where it was found; of a link, what it leads to.
        languages: codes of those that the program speaks.
    """
    if name.startswith(_QT):
        return _is_chosen_of_qt(name.removeprefix(_QT), languages)
    if name.startswith("PySide6/Qt"):
        return name in {f"PySide6/Qt{module}.abi3.so" for module in QT_MODULES}
    if os.path.basename(name) != name or ".so" not in name:
        return True
    if source.startswith(_QT):
        return _is_chosen_of_qt(source.removeprefix(_QT), languages)
    if name.startswith("libpython") or not _SYSTEM.match(source):
        return True
    return name in BROUGHT_ALONG and os.path.exists(notice_of(name))


def notice_of(library: str) -> str:
    """Where the building system keeps the notice that must go with a library."""
    return f"/usr/share/doc/{BROUGHT_ALONG[library]}/copyright"


def _is_chosen_of_qt(name: str, languages: tuple[str, ...]) -> bool:
    kind, _, rest = name.partition("/")
    if kind == "plugins":
        return rest in QT_PLUGINS
    if kind == "translations":
        return rest in {f"qtbase_{code}.qm" for code in languages}
    wanted = ("libicu*", *(f"libQt6{library}.so*" for library in QT_LIBRARIES))
    return kind == "lib" and any(fnmatch(rest, pattern) for pattern in wanted)

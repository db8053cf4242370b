"""Hands files to the desktop, which knows the programs that open them."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices

_LIBRARIES: Final = "LD_LIBRARY_PATH"
"""Where programs look for libraries; the stand-alone keeps what it was before in ``…_ORIG``."""


def opened_by_desktop(path: Path) -> bool:
    """Have a file, or a folder, opened by the program that is for it; False where none is."""
    with _own_libraries_aside():
        return QDesktopServices.openUrl(QUrl.fromLocalFile(str(path)))


@contextmanager
def _own_libraries_aside() -> Iterator[None]:
    """Start others with the system's libraries: ours, of the stand-alone, are not theirs."""
    before, own = os.environ.get(f"{_LIBRARIES}_ORIG"), os.environ.get(_LIBRARIES)
    if before is None or own is None:
        yield
        return
    os.environ[_LIBRARIES] = before
    try:
        yield
    finally:
        os.environ[_LIBRARIES] = own

"""The typeface that ships with the program."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtGui import QFontDatabase

from app.drawing.theme import FONT_FAMILY


def load_fonts(folder: Path) -> bool:
    """Make the drafting face known to Qt; false where its files are missing.

    Needs a running application.  Loading twice is harmless.
    """
    if FONT_FAMILY in QFontDatabase.families():
        return True
    added = [QFontDatabase.addApplicationFont(str(path)) for path in sorted(folder.glob("*.ttf"))]
    return bool(added) and min(added) >= 0

"""Saving a wedge: which file, and what to say where it cannot be written."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from app.features.wedge.form import FILES
from app.features.wedge.model import file_name
from app.features.wedge.stl_dxf import save_dxf, save_stl
from app.features.wedge.words import Part
from app.files.safe_files import FileError
from app.qt.questions import asked_where, told_not_saved
from app.words.language import tr

WRITERS: Final = {"stl": save_stl, "dxf": save_dxf}
"""What writes a wedge, by the ending of the file."""


def saved(parent: QWidget, part: Part, ending: str) -> Path | None:
    """Ask for a file and write a wedge there; None where that was not wanted, or could not be.

    Args:
        parent: the widget over which to ask, and to say what went wrong.
        part: the wedge.
        ending: of the file, a key of :data:`WRITERS`.
    """
    kind = FILES[ending]
    path = asked_where(
        parent,
        tr("Save {}").format(kind),
        file_name(part, ending),
        tr("{} file, in millimetres (*.{})").format(kind, ending),
        f".{ending}",
    )
    if path is None:
        return None
    why_not = _why_not_written(WRITERS[ending], path, part)
    if not why_not:
        return path
    return saved(parent, part, ending) if told_not_saved(parent, why_not) else None


def _why_not_written(write: Callable[[Path, Part], None], path: Path, part: Part) -> str:
    """Why a wedge could not be written, in words; "" once it is."""
    QGuiApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
    try:
        write(path, part)
    except FileError as error:
        return str(error)
    finally:
        QGuiApplication.restoreOverrideCursor()
    return ""

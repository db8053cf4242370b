"""Saving a wedge: which file, and what to say where it cannot be written."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog, QWidget

from app.files.safe_files import FileError
from app.files.wedge_files import save_dxf, save_stl
from app.language import tr
from app.tools.wedge_part import file_name
from app.tools.wedge_words import Part
from app.widgets.pages.wedge_form import FILES
from app.widgets.questions import tell

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
    name, _ = QFileDialog.getSaveFileName(
        parent,
        tr("Save {}").format(kind),
        file_name(part, ending),
        tr("{} file, in millimetres (*.{})").format(kind, ending),
    )
    if not name:
        return None
    path = Path(name)
    path = path if path.suffix else path.with_suffix(f".{ending}")
    return path if _is_written(parent, WRITERS[ending], path, part) else None


def _is_written(
    parent: QWidget, write: Callable[[Path, Part], None], path: Path, part: Part
) -> bool:
    QGuiApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
    try:
        write(path, part)
    except FileError as error:
        QGuiApplication.restoreOverrideCursor()
        text = str(error)
        tell(parent, tr("Wedge not saved"), f"{text[:1].upper()}{text[1:]}.")
        return False
    QGuiApplication.restoreOverrideCursor()
    return True

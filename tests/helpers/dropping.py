"""A file dropped on a window, as the desktop does it."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl, qVersion
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QWidget

# From 6.12 on Qt wants the exact place and calls the whole one out of date.
WHOLE_PLACES = tuple(int(part) for part in qVersion().split(".")[:2]) < (6, 12)


def drop(window: QWidget, path: Path) -> bool:
    """Drop a file on a window; whether the window would have it."""
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path))])
    rest = (Qt.DropAction.CopyAction, mime, Qt.MouseButton.LeftButton)
    plain = Qt.KeyboardModifier.NoModifier
    place = QPointF(400.0, 300.0)
    enter = QDragEnterEvent(QPoint(400, 300) if WHOLE_PLACES else place, *rest, plain)
    enter.ignore()
    QApplication.sendEvent(window, enter)
    QApplication.sendEvent(window, QDropEvent(place, *rest, plain))
    return enter.isAccepted()

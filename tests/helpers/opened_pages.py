"""A page alone on a screen of the mind, wired to its session as the window wires it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from app.frame import frame
from app.session import Session
from app.window.window import prepared_application

P = TypeVar("P", bound=QWidget)


def opened_page(
    qtbot: QtBot, make: Callable[..., P], session: Session, size: tuple[int, int] = (700, 300)
) -> P:
    """A page that follows its session, shown and active."""
    prepared_application()
    page = make(session)
    shows: Any = page

    def follow() -> None:
        shows.show_frame(frame(session.setup), dragging=session.dragging)

    session.changed.connect(follow)
    session.drag_ended.connect(follow)
    follow()
    qtbot.addWidget(page)
    page.resize(*size)
    page.show()
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)
    return page


def type_and_enter(qtbot: QtBot, field: QWidget, text: str) -> None:
    """Type into a field and finish with the return key."""
    field.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(field.hasFocus)
    for letter in text:
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            key = QKeyEvent(kind, 0, Qt.KeyboardModifier.NoModifier, letter)
            QApplication.sendEvent(field, key)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def overfull(page: QWidget) -> list[str]:
    """Texts of the labels whose words do not fit into the room that they have."""
    cut = []
    for label in page.findChildren(QLabel):
        if not label.isVisible() or not label.text():
            continue
        wraps = label.wordWrap()
        wanted = label.heightForWidth(label.width()) if wraps else label.sizeHint().height()
        wide = not wraps and label.sizeHint().width() > label.width()
        if wanted > label.height() or wide:
            cut.append(label.text())
    return cut

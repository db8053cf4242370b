"""The program's window as a person has it before them."""

from __future__ import annotations

from typing import TypeVar

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.session import Session
from app.window.window import Window, prepared_application

P = TypeVar("P", bound=QWidget)


def shown_window(
    qtbot: QtBot,
    session: Session | None = None,
    size: tuple[int, int] = (1280, 800),
    *,
    active: bool = False,
) -> Window:
    """The window of a session, the demo rider's where none is named, shown or active as well."""
    prepared_application()
    made = Window(session or Session())
    qtbot.addWidget(made)
    made.resize(*size)
    made.show()
    if active:
        made.activateWindow()
        qtbot.waitUntil(made.isActiveWindow)
    else:
        qtbot.waitExposed(made)
    return made


def clicked_open(window: Window, title: str, kind: type[P]) -> P:
    """The page that a click on its tab opens."""
    (tab,) = [tab for tab in window.tray.tabs if tab.text() == title]
    QTest.mouseClick(tab, Qt.MouseButton.LeftButton)
    page = window.tray.current
    assert isinstance(page, kind)
    return page

"""The tab key in the tray: from the tabs into the page that is open."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from app.features.map.page import MapPage
from app.session import Session
from app.window.window import Window, prepared_application


def enter_page(window: Window) -> None:
    """Go over the strip with its button, into the page."""
    strip = window.tray.grip
    for each in (strip, strip.close_button):
        QTest.keyClick(window, Qt.Key.Key_Tab)
        assert QApplication.focusWidget() is each
    QTest.keyClick(window, Qt.Key.Key_Tab)


def test_the_tab_key_goes_from_the_tabs_into_the_open_page(qtbot: QtBot) -> None:
    prepared_application()
    window = Window(Session())
    qtbot.addWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    titles = [tab.text() for tab in window.tray.tabs]
    for title in ("Begin with", "Stance map"):
        window.tray.toggle(titles.index(title))
    window.tray.tabs[-1].setFocus(Qt.FocusReason.TabFocusReason)
    enter_page(window)
    page = window.tray.current
    assert isinstance(page, MapPage)
    assert QApplication.focusWidget() is page.plot
    window.tray.toggle(titles.index("Begin with"))
    window.tray.tabs[-1].setFocus(Qt.FocusReason.TabFocusReason)
    enter_page(window)
    scrolled = QApplication.focusWidget()
    assert scrolled is not None
    assert scrolled.accessibleName() == "What to begin with"
    QTest.keyClick(window, Qt.Key.Key_Tab)
    focused = QApplication.focusWidget()
    assert isinstance(focused, QPushButton)
    assert scrolled.isAncestorOf(focused)
    assert window.tray.current is not None
    assert window.tray.current.isAncestorOf(scrolled)

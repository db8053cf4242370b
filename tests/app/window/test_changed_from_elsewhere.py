"""What a button changes is brought into sight and lit, and the button keeps the keyboard."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.session import Session
from app.window.window import Window

CANT = "front_cant_deg"


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, Session(), (1024, 700), active=True)


def scroll_away(window: Window) -> None:
    """Fold the group that is to be changed, and scroll to the other end."""
    window.panel.sections["mounts"].set_open(False)
    bar = window.panel.verticalScrollBar()
    bar.setValue(bar.maximum())
    QApplication.processEvents()


def in_sight(window: Window, name: str) -> bool:
    row = window.panel.rows[name]
    top = row.mapTo(window.panel.viewport(), row.rect().topLeft()).y()
    return row.isVisible() and 0 <= top <= window.panel.viewport().height() - row.height()


def put_button(window: Window, words: str) -> QPushButton:
    found = (each for each in window.tray.findChildren(QPushButton) if each.isVisible())
    return next(each for each in found if each.text() == words)


def press(window: Window, key: Qt.Key) -> None:
    QTest.keyClick(window.windowHandle(), key)
    QApplication.processEvents()


@pytest.mark.parametrize(("page", "words"), [("Begin with", "Put both on"), ("Trials", "Try next")])
def test_what_is_put_on_is_seen_lit_and_the_button_keeps_the_keyboard(
    window: Window, qtbot: QtBot, page: str, words: str
) -> None:
    window.tray.open_page(page)
    qtbot.waitUntil(lambda: put_button(window, words).isEnabled())
    scroll_away(window)
    button = put_button(window, words)
    button.setFocus()
    before = window.session.inputs
    press(window, Qt.Key.Key_Space)
    assert window.session.inputs != before
    changed = [n for n in window.panel.rows if before.value(n) != window.session.inputs.value(n)]
    assert all(in_sight(window, name) for name in changed)
    assert all(window.panel.rows[name].lit for name in changed)
    qtbot.waitUntil(lambda: not button.isEnabled())
    assert QApplication.focusWidget() is button
    press(window, Qt.Key.Key_Tab)
    after: QWidget | None = QApplication.focusWidget()
    assert after is not button
    assert after is not None
    press(window, Qt.Key.Key_Backtab)
    window.panel._moment.start(0)
    qtbot.waitUntil(lambda: not any(row.lit for row in window.panel.rows.values()))


def test_what_is_taken_back_is_seen_but_a_file_that_goes_is_not_searched_for(
    window: Window,
) -> None:
    window.session.edit(**{CANT: 3.0})
    QApplication.processEvents()
    scroll_away(window)
    window.undo.trigger()
    QApplication.processEvents()
    assert in_sight(window, CANT)
    assert window.panel.rows[CANT].lit
    window.panel._dim()
    window.session.open("other", Session().setup, 0)
    scroll_away(window)
    window.undo.trigger()
    QApplication.processEvents()
    assert not in_sight(window, CANT)

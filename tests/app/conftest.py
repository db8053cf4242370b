"""What the tests of the program leave to each other: nothing, not even a finger on the mouse."""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterator

import pytest

from app.drawing.theme import LIGHT
from app.files.resources import ASSETS
from app.words.language import choose


@pytest.fixture(autouse=True)
def _hands_off() -> Iterator[None]:
    """Let go of the mouse after a test.

    QTest's double click never lets go, and Qt remembers the button for the whole
    process: the next test's controls would not scroll, as under a hand on the mouse.
    """
    yield
    # A test may have hidden Qt itself, which then stands here as None.
    if sys.modules.get("PySide6.QtWidgets") is not None:
        _let_go()


@pytest.fixture(autouse=True)
def _in_the_light(_tidy: None) -> Iterator[None]:
    """Leave colours and motion as they are at first, before the application is undressed."""
    yield
    themes = sys.modules.get("app.qt.themes")
    if themes is not None and themes.current_theme().dark:
        themes.set_theme(LIGHT)
    motion = sys.modules.get("app.qt.motion")
    if motion is not None:
        motion.set_reduced(False)


@pytest.fixture(autouse=True)
def _tidy() -> Iterator[None]:
    """Look for garbage between the tests only, as the program does in its own thread only.

    A thread of one test must not take apart what another has left of its widgets.
    """
    gc.disable()
    yield
    if sys.modules.get("PySide6.QtWidgets") is not None:
        _undress()
    gc.enable()


def _undress() -> None:
    """Leave the application as a program finds it: without windows and without a style sheet.

    Windows left to an event loop, which no test has, would pile up, and so would menus
    that no window owns.  And every window dresses the application, which is slow where it
    is dressed already: Qt then styles all controls twice.
    """
    from PySide6.QtCore import QCoreApplication, QEvent  # noqa: PLC0415
    from PySide6.QtWidgets import QApplication  # noqa: PLC0415

    app = QApplication.instance()
    if not isinstance(app, QApplication):
        return
    for left in app.topLevelWidgets():
        if left.parent() is None:
            left.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    if app.styleSheet():
        app.setStyleSheet("")


@pytest.fixture
def in_german() -> Iterator[None]:
    """German is the language in force."""
    choose("de", ASSETS / "texts")
    yield
    choose("en", ASSETS / "texts")


def _let_go() -> None:
    from PySide6.QtCore import Qt  # noqa: PLC0415
    from PySide6.QtGui import QGuiApplication  # noqa: PLC0415
    from PySide6.QtTest import QTest  # noqa: PLC0415
    from PySide6.QtWidgets import QApplication, QWidget  # noqa: PLC0415

    if QApplication.instance() is None:
        return
    if QGuiApplication.mouseButtons() == Qt.MouseButton.NoButton:
        return
    ground = QWidget()
    ground.show()
    for button in (Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton):
        if QGuiApplication.mouseButtons() & button:
            QTest.mouseRelease(ground, button)
    ground.close()
    ground.deleteLater()
    QApplication.processEvents()

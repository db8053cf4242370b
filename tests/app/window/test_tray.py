"""The tray: tabs that stay where they are, and one height that the user gives all pages."""

from __future__ import annotations

from math import cos, radians, sin

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QScrollArea
from pytestqt.qtbot import QtBot

from app.files.settings import create_settings
from app.handles import Grip, centre_of
from app.qt.motion import set_reduced
from app.window.preferences import Preferences
from app.window.tray import LEAST_HEIGHT
from app.window.window import Window
from tests.helpers.shown_windows import shown_window

SIZES = [(1024, 700), (1280, 800), (1920, 1080)]


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, size=(1280, 800))


def tabs_at(window: Window) -> list[QPoint]:
    QApplication.processEvents()
    return [tab.mapTo(window, QPoint(0, 0)) for tab in window.tray.tabs]


def pull(window: Window, by: int) -> None:
    """Pull the strip over the page up with the mouse; it moves under the hand."""
    grip = window.tray.grip
    start = grip.mapToGlobal(grip.rect().center())
    QTest.mousePress(grip, Qt.MouseButton.LeftButton, pos=grip.rect().center())
    for step in (by // 2, by):
        QTest.mouseMove(grip, grip.mapFromGlobal(start - QPoint(0, step)))
        QApplication.processEvents()
    QTest.mouseRelease(grip, Qt.MouseButton.LeftButton, pos=grip.rect().center())
    QApplication.processEvents()


def page_height(window: Window) -> int:
    return window.tray._stack.height()


@pytest.mark.parametrize("size", SIZES)
def test_a_tab_stays_under_the_pointer_whatever_page_is_open(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    window = shown_window(qtbot, size=size)
    closed = tabs_at(window)
    panel = window.panel.width()
    set_reduced(True)
    window.playing.follow_motion()
    heights = set()
    for i, tab in enumerate(window.tray.tabs):
        qtbot.mouseClick(tab, Qt.MouseButton.LeftButton)
        assert tabs_at(window) == closed, window.tray.tabs[i].text()
        assert window.panel.width() == panel
        # In a small window this one gives way to the strip from which it is played.
        if tab.text() != "Motion":
            heights.add(page_height(window))
    assert len(heights) == 1
    qtbot.mouseClick(window.tray.tabs[-1], Qt.MouseButton.LeftButton)
    assert window.tray.current is None
    assert tabs_at(window) == closed


def test_the_strip_over_a_page_is_pulled_and_every_page_keeps_its_height(window: Window) -> None:
    window.tray.open_page("Notes")
    QApplication.processEvents()
    before = page_height(window)
    pull(window, 80)
    assert page_height(window) == before + 80
    window.tray.open_page("Board")
    QApplication.processEvents()
    assert page_height(window) == before + 80


def test_a_pull_ends_where_the_drawings_or_the_page_have_their_least(window: Window) -> None:
    window.tray.open_page("Notes")
    QApplication.processEvents()
    grip = window.tray.grip
    QTest.keyClick(grip, Qt.Key.Key_End)
    QApplication.processEvents()
    assert page_height(window) == LEAST_HEIGHT
    QTest.keyClick(grip, Qt.Key.Key_Home)
    QApplication.processEvents()
    assert window.sheet.height() == window.sheet.minimumHeight()
    highest = page_height(window)
    QTest.keyClick(grip, Qt.Key.Key_Down)
    QApplication.processEvents()
    assert page_height(window) < highest  # a key is never spent on what no one saw


def test_the_height_is_remembered_for_the_next_start(qtbot: QtBot) -> None:
    first = shown_window(qtbot)
    Preferences(first, create_settings())
    first.tray.open_page("Notes")
    QTest.keyClick(first.tray.grip, Qt.Key.Key_PageUp)
    QApplication.processEvents()
    second = shown_window(qtbot)
    Preferences(second, create_settings())
    second.tray.open_page("Board")
    QApplication.processEvents()
    assert page_height(second) == page_height(first) != 312


def test_a_page_higher_than_its_room_scrolls(window: Window) -> None:
    page = window.tray.open_page("Printed wedge")
    QTest.keyClick(window.tray.grip, Qt.Key.Key_End)
    QApplication.processEvents()
    area = page.parentWidget().parentWidget().parentWidget()
    assert isinstance(area, QScrollArea)
    assert area.verticalScrollBar().maximum() > 0


def test_keys_open_and_close_each_page(qtbot: QtBot) -> None:
    window = shown_window(qtbot, active=True)
    qtbot.keyClick(window, Qt.Key.Key_0, Qt.KeyboardModifier.AltModifier)
    assert window.tray.tabs[9].isChecked()
    assert window.tray.tabs[9].hasFocus()
    qtbot.keyClick(window, Qt.Key.Key_6, Qt.KeyboardModifier.AltModifier)
    assert window.tray.tabs[5].isChecked()
    qtbot.keyClick(window, Qt.Key.Key_6, Qt.KeyboardModifier.AltModifier)
    assert window.tray.current is None


def test_the_strip_says_which_page_is_open_and_closes_it(window: Window) -> None:
    window.tray.open_page("Board")
    QApplication.processEvents()
    assert window.tray.grip._title.text() == "Board"
    window.tray.grip.close_button.click()
    assert window.tray.current is None
    assert not window.tray.grip.isVisible()


@pytest.mark.parametrize("size", SIZES)
def test_feet_in_the_plan_can_be_taken_hold_of_with_a_page_open(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    window = shown_window(qtbot, size=size)
    window.tray.open_page("Notes")
    QApplication.processEvents()
    for name in ("front", "rear"):
        kinds = [hold and hold.turns for hold in along_the_sole(window, name)]
        for turning in (True, False):
            # Each end turns it and the middle moves it: three zones of at least 24 px.
            assert kinds.count(turning) >= (48 if turning else 24) - 1


def along_the_sole(window: Window, name: str) -> list[Grip | None]:
    """What is taken hold of at each logical pixel along a sole and beyond its ends."""
    inputs, fit = window.session.inputs, window.sheet.fit("above")
    x, y = fit.xy(centre_of(inputs, name))
    angle = radians(getattr(inputs, f"{name}_angle_deg"))
    steps = range(-80, 81)
    found = (
        window.sheet._grip_under(QPointF(x + each * cos(angle), y - each * sin(angle)))
        for each in steps
    )
    return [hold for hold in found if hold is None or hold.name == name]


def test_the_dimension_that_is_changed_is_drawn_on_a_low_sheet_too(window: Window) -> None:
    window.resize(1024, 700)
    window.tray.open_page("Notes")
    window.session.edit(stance_length_mm=700.0)
    QApplication.processEvents()
    # At once, or a pointer that another test left over the panel would point elsewhere.
    window.panel.pointed.emit("")
    without = window.sheet.grab().toImage()
    window.panel.pointed.emit("stance_length_mm")
    assert window.sheet.grab().toImage() != without

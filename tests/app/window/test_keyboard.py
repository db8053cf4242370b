"""The window without a mouse: Tab, F6, Return, Escape, and what is said for the ear."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt, QTimer
from PySide6.QtGui import QAccessible, QCursor, QEnterEvent, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QToolButton, QToolTip, QWidget
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.files.resources import starting_points
from app.files.storage import opened
from app.window.notices import NEWS_MS
from app.window.presenting import LEAST_PX
from app.window.window import Window
from app.words.lengths import Lengths

Key = Qt.Key
NO_KEY = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, active=True)


def focused() -> QWidget:
    found = QApplication.focusWidget()
    assert found is not None
    return found


def type_key(window: Window, key: Key, held: Qt.KeyboardModifier = NO_KEY) -> None:
    """A key as it comes from the system: to the window, whose shortcuts hear it first."""
    QTest.keyClick(window.windowHandle(), key, held)
    QApplication.processEvents()


def button(window: Window, text: str) -> QToolButton:
    return next(each for each in window.bar.findChildren(QToolButton) if each.text() == text)


def reached_by_tab(window: Window, most: int) -> list[QWidget]:
    reached = []
    for _ in range(most):
        type_key(window, Key.Key_Tab)
        reached.append(focused())
    return reached


def test_tab_goes_through_the_bar_first_and_as_it_is_seen(window: Window) -> None:
    window.session.edit(front_angle_deg=20.0)
    window.session.edit(front_angle_deg=25.0)
    window.session.undo()
    QApplication.processEvents()
    button(window, "File").setFocus()
    reached = [button(window, "File"), *reached_by_tab(window, 12)]
    named = [each.text() if isinstance(each, QToolButton) else each for each in reached[:-1]]
    assert named == [
        *("File", "Picture", "Compare", "Start from", "Undo", "Redo"),
        *(window.look, "Dark", "Present", window.unit, "Help", "Caution"),
    ]
    assert [each.x() for each in reached[:-1]] == sorted(each.x() for each in reached[:-1])
    assert reached[-1] is window.steps.go


def test_tab_comes_to_panel_and_drawings_whatever_page_was_opened(window: Window) -> None:
    for way in window.tray.ways:
        way.trigger()
        QApplication.processEvents()
        button(window, "File").setFocus()
        reached = reached_by_tab(window, 130)
        assert window.panel.rows["front_angle_deg"].slider in reached, way.text()
        assert window.sheet in reached, way.text()
        assert reached.index(window.sheet) < reached.index(window.tray.tabs[0]), way.text()


def test_tab_goes_on_to_the_drawings_and_the_tray(window: Window) -> None:
    reached = reached_by_tab(window, 120)
    places = [reached.index(window.sheet), *(reached.index(tab) for tab in window.tray.tabs)]
    assert places == list(range(places[0], places[0] + len(places)))


def test_f6_goes_round_the_parts_and_comes_back_to_where_it_was(window: Window) -> None:
    slider = window.panel.rows["rear_angle_deg"].slider
    slider.setFocus()
    parts: list[QWidget] = [window.sheet, window.tray.tab_bar, window.bar]
    for part in parts:
        type_key(window, Key.Key_F6)
        assert part is focused() or part.isAncestorOf(focused())
    type_key(window, Key.Key_F6)
    assert focused() is slider
    type_key(window, Key.Key_F6, SHIFT)
    assert window.bar.isAncestorOf(focused())


def test_f6_passes_over_what_is_hidden(window: Window) -> None:
    window.present.trigger()
    window.sheet.setFocus()
    type_key(window, Key.Key_F6, SHIFT)
    assert window.bar.isAncestorOf(focused())


@pytest.mark.qt_log_ignore("raise", "grabbing the keyboard")
@pytest.mark.parametrize("text", ["File", "Picture", "Compare", "Start from"])
@pytest.mark.parametrize("key", [Key.Key_Return, Key.Key_Enter, Key.Key_Down])
def test_return_and_the_down_arrow_open_a_menu(window: Window, text: str, key: Key) -> None:
    opened = button(window, text)
    opened.setFocus()
    seen: list[bool] = []
    menu = opened.menu()
    assert isinstance(menu, QMenu)
    menu.aboutToShow.connect(lambda: seen.append(True))
    menu.aboutToShow.connect(menu.hide, Qt.ConnectionType.QueuedConnection)
    type_key(window, key)
    assert seen == [True]


def test_return_does_on_the_bar_what_a_click_does(window: Window) -> None:
    window.session.edit(front_angle_deg=20.0)
    QApplication.processEvents()
    button(window, "Undo").setFocus()
    type_key(window, Key.Key_Return)
    assert window.session.inputs.front_angle_deg == 43.0


@pytest.mark.parametrize(("key", "held"), [(Key.Key_Y, CTRL), (Key.Key_Z, CTRL | SHIFT)])
def test_both_habits_of_redo_work(window: Window, key: Key, held: Qt.KeyboardModifier) -> None:
    window.panel.rows["front_angle_deg"].slider.setFocus()
    window.session.edit(front_angle_deg=20.0)
    window.session.undo()
    QApplication.processEvents()
    type_key(window, key, held)
    assert window.session.inputs.front_angle_deg == 20.0
    assert len(window.redo.shortcuts()) == len(
        {each.toString() for each in window.redo.shortcuts()}
    )
    assert QKeySequence("Ctrl+Y") in window.redo.shortcuts()


def test_escape_leaves_presenting_and_does_nothing_else(window: Window) -> None:
    window.sheet.setFocus()
    window.present.trigger()
    type_key(window, Key.Key_Escape)
    assert not window.isFullScreen()
    assert not window.present.isChecked()
    assert window.panel.isVisible()
    type_key(window, Key.Key_Escape)
    assert window.isVisible()


def test_a_maximised_window_comes_back_maximised(window: Window) -> None:
    window.showMaximized()
    QApplication.processEvents()
    window.present.trigger()
    QApplication.processEvents()
    assert window.isFullScreen()
    type_key(window, Key.Key_Escape)
    assert window.isMaximized()
    assert not window.isFullScreen()


def test_what_the_keyboard_comes_to_in_the_panel_is_in_sight(window: Window) -> None:
    window.resize(1024, 700)
    panel, section = window.panel, window.panel.sections["stance"]
    for row in panel.rows.values():
        row.slider.setFocus(Qt.FocusReason.TabFocusReason)
    bar = panel.verticalScrollBar()
    assert bar.maximum() > 0
    bar.setValue(bar.maximum())
    window.sheet.setFocus()
    section.heading.setFocus(Qt.FocusReason.TabFocusReason)
    top = section.heading.mapTo(panel.viewport(), QPoint(0, 0)).y()
    assert 0 <= top <= panel.viewport().height() - section.heading.height()


@pytest.mark.parametrize("name", ["look", "unit"])
def test_a_choice_on_the_bar_is_named_by_a_label(window: Window, name: str) -> None:
    box = getattr(window, name)
    relations = QAccessible.queryAccessibleInterface(box).relations(QAccessible.RelationFlag.Label)
    names = [other.text(QAccessible.Text.Name).strip() for other, _ in relations]
    assert names == [{"look": "Look", "unit": "Lengths"}[name]]
    assert box.accessibleName() not in {"", box.currentText()}


def test_the_bar_is_written_larger_while_presenting_and_what_has_no_room_is_in_its_menu(
    window: Window,
) -> None:
    small = button(window, "File").fontInfo().pixelSize()
    window.present.trigger()
    assert button(window, "File").fontInfo().pixelSize() >= LEAST_PX > small
    if not window.bar.isVisible():  # the keyboard calls it as the pointer does
        QTest.keyClick(QApplication.focusWidget() or window, Qt.Key.Key_F6)
        QApplication.processEvents()
    assert window.bar.isVisible()
    assert window.bar.sizeHint().width() <= window.bar.width() == window.width()
    window.present.trigger()
    assert button(window, "File").fontInfo().pixelSize() == small


def test_what_is_moved_while_presenting_stands_large_over_the_drawings(window: Window) -> None:
    window.session.edit(front_angle_deg=36.0)
    assert not window.caption.isVisible()
    window.present.trigger()
    window.session.edit(knee_bend_deg=50.0)
    assert window.caption.text() == "Knee bend 50.0°"
    assert window.caption.isVisible()
    assert window.sheet.rect().contains(window.caption.geometry())
    window.present.trigger()
    assert not window.caption.isVisible()


def test_the_value_is_said_in_the_unit_shown(window: Window) -> None:
    window.show_lengths(Lengths("in"))
    window.present.trigger()
    window.session.edit(stance_length_mm=508.0)
    assert window.caption.text().endswith("20.00 in")


def test_another_set_up_says_no_values(window: Window) -> None:
    window.present.trigger()
    window.session.edit(front_angle_deg=10.0, rear_angle_deg=0.0, knee_bend_deg=30.0)
    assert not window.caption.isVisible()


def test_copying_a_picture_says_so_for_a_moment(window: Window, qtbot: QtBot) -> None:
    QTest.mouseMove(window.sheet)  # news do not pass under the pointer
    window.setFocus()
    type_key(window, Key.Key_C, CTRL | SHIFT)
    notices = window.documents.notices
    assert notices.isVisible()
    assert notices.text == "Picture copied"
    moment = notices.findChild(QTimer, "patience")
    assert (moment.isActive(), moment.interval()) == (True, NEWS_MS)
    moment.start(0)
    qtbot.waitUntil(lambda: not notices.isVisible())


@pytest.mark.qt_log_ignore("raise")
def test_where_a_leg_dimension_comes_from_is_reached_and_told_by_keys(window: Window) -> None:
    mark = window.panel.rows["hip_height_mm"].mark
    assert mark is not None
    window.panel.rows["hip_height_mm"].number.setFocus()
    type_key(window, Key.Key_Tab)
    assert focused() is mark
    type_key(window, Key.Key_Space)
    assert QToolTip.isVisible()
    assert "demo rider" in QToolTip.text()
    QToolTip.hideText()
    window.session.edit(hip_height_mm=850.0)
    QApplication.processEvents()
    mark.setFocus()
    type_key(window, Key.Key_Space)
    assert window.session.inputs.front.hip_height_mm == 880.0


@pytest.mark.parametrize("name", ["stance_length_mm", "front_cant_deg", "hip_height_mm"])
def test_a_double_click_on_a_label_leads_back(window: Window, name: str) -> None:
    row = window.panel.rows[name]
    before = window.session.inputs.value(name)
    window.session.edit(**{name: before + 5.0})
    row.slider.setFocus(Qt.FocusReason.TabFocusReason)
    QApplication.processEvents()
    at = row.label.mapTo(window, row.label.rect().center())
    for click in (QTest.mouseClick, QTest.mouseDClick):
        click(window.windowHandle(), Qt.MouseButton.LeftButton, NO_KEY, at)
    QApplication.processEvents()
    assert window.session.inputs.value(name) == before


def test_the_arrows_stand_at_the_starting_point_once_one_was_taken(window: Window) -> None:
    for point in starting_points():
        setup = opened(point.path).setup
        window.session.open("Start", setup, 0, setup)
        QApplication.processEvents()
        for name in window.panel.shown_names:
            row = window.panel.rows[name]
            assert row.slider.scale.default == window.session.inputs.value(name), (point, name)


def test_no_button_looks_as_if_the_mouse_were_on_it_after_a_dialog(window: Window) -> None:
    QCursor.setPos(window.mapToGlobal(QPoint(640, 400)))
    menus = [button(window, text) for text in ("File", "Picture", "Compare")]
    for each in menus:
        QApplication.sendEvent(each, QEnterEvent(QPointF(1, 1), QPointF(1, 1), QPointF(1, 1)))
        assert each.underMouse()
    QApplication.sendEvent(window, QEvent(QEvent.Type.WindowActivate))
    assert not any(each.underMouse() for each in menus)

"""Turning the legs about by hand and by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QAbstractAnimation, QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.features.orbit.page import FARTHEST, NEAREST, TURN_MS, OrbitPage
from app.features.orbit.scene import HIGHEST_DEG, HOME, LOWEST_DEG, standard_looks
from app.window.window import Window
from tests.helpers.shown_windows import shown_window


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, active=True)


@pytest.fixture
def page(window: Window) -> OrbitPage:
    page = window.tray.open_page("All round")
    assert isinstance(page, OrbitPage)
    page.view.setFocus()
    QApplication.processEvents()
    return page


def test_a_drag_turns_what_is_seen_and_asks_for_no_change(page: OrbitPage, window: Window) -> None:
    before, seen = window.session.setup, page.view.grab().toImage()
    start = page.view.rect().center()
    QTest.mousePress(page.view, Qt.MouseButton.LeftButton, pos=start)
    QTest.mouseMove(page.view, start + QPoint(40, 0))
    QTest.mouseMove(page.view, start + QPoint(40, 30))
    QTest.mouseRelease(page.view, Qt.MouseButton.LeftButton, pos=start + QPoint(40, 30))
    assert page.look.around_deg == pytest.approx(HOME.around_deg - 20.0)
    assert page.look.above_deg == pytest.approx(HOME.above_deg + 15.0)
    assert page.view.grab().toImage() != seen
    assert window.session.setup is before


def test_arrow_keys_turn_by_five_degrees_and_stop_overhead(page: OrbitPage) -> None:
    QTest.keyClick(page.view, Qt.Key.Key_Left)
    assert page.look.around_deg == pytest.approx(HOME.around_deg + 5.0)
    for _ in range(40):
        QTest.keyClick(page.view, Qt.Key.Key_Up)
    assert page.look.above_deg == HIGHEST_DEG
    for _ in range(40):
        QTest.keyClick(page.view, Qt.Key.Key_Down)
    assert page.look.above_deg == LOWEST_DEG


def test_figures_lead_to_the_standard_looks_in_a_moment(
    page: OrbitPage, window: Window, qtbot: QtBot
) -> None:
    looks = standard_looks(window.session.inputs)
    assert page._motion.duration() == TURN_MS == 200
    for place, name in enumerate(page.buttons, 1):
        QTest.keyClick(page.view, Qt.Key(Qt.Key.Key_0.value + place))
        qtbot.waitUntil(lambda: page._motion.state() == QAbstractAnimation.State.Stopped)
        end = looks[name]
        assert (page.look.around_deg - end.around_deg) % 360.0 == pytest.approx(0.0, abs=1e-9)
        assert page.look.above_deg == pytest.approx(end.above_deg)


def test_a_double_click_comes_home_at_the_usual_size(page: OrbitPage, qtbot: QtBot) -> None:
    for _ in range(6):
        QTest.keyClick(page.view, Qt.Key.Key_Right)
        QTest.keyClick(page.view, Qt.Key.Key_Plus)
    QTest.mouseDClick(page.view, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: page._motion.state() == QAbstractAnimation.State.Stopped)
    assert page.look == pytest.approx(HOME)
    assert page._times == pytest.approx(1.0)


@pytest.mark.parametrize(("turn", "end"), [(120, NEAREST), (-120, FARTHEST)])
def test_the_wheel_draws_larger_and_smaller_within_bounds(
    page: OrbitPage, turn: int, end: float
) -> None:
    for _ in range(60):
        centre = QPointF(page.view.rect().center())
        event = QWheelEvent(
            centre,
            page.view.mapToGlobal(centre),
            QPoint(),
            QPoint(0, turn),
            Qt.MouseButton.NoButton,
            Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(page.view, event)
    assert page._times == pytest.approx(end)
    scene = page.view.scene
    assert scene is not None
    # About the middle of the picture, whatever the size.
    middle = page.view.area.center()
    window = scene.window
    x, y = page.view.fit(scene, page.view.area).xy(
        (0.5 * (window.left + window.right), 0.5 * (window.bottom + window.top))
    )
    assert (x, y) == pytest.approx((middle.x(), middle.y()), abs=1.0)


def test_the_legs_follow_a_change_while_one_looks_from_anywhere(
    page: OrbitPage, window: Window
) -> None:
    QTest.keyClick(page.view, Qt.Key.Key_Left)
    look, seen = page.look, page.view.scene
    window.session.edit(front_angle_deg=20.0)
    QApplication.processEvents()
    assert page.look == look
    assert page.view.scene != seen

"""Presenting: nothing but the drawings, a sentence for each leg, one large slider, and ink."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QCursor, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.drawing.styles import SMALL
from app.qt.painting.findings_painting import _BODY
from app.rider.inputs import FIELD
from app.stance.findings import BOOT_IN, BOOT_NEAR, BOOT_OUT, IN_PLANE
from app.window.edge_bars import AWAY
from app.window.ink import FADES_S, LIGHT, PEN, STAYS_S, Stroke, strength
from app.window.large_slider import KEYS, LABEL_PX
from app.window.sheet import LARGER
from app.window.window import Window
from tests.helpers.shown_windows import shown_window


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    window = shown_window(qtbot, active=True)
    window.present.trigger()
    QApplication.processEvents()
    window.resize(1280, 800)
    QApplication.processEvents()
    return window


def point_at(window: Window, y: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Have the pointer at a height of the window."""
    at = window.mapToGlobal(QPoint(400, y))
    monkeypatch.setattr(QCursor, "pos", lambda: at)
    where = QPointF(window.sheet.mapFromGlobal(at))
    none = Qt.MouseButton.NoButton
    event = QMouseEvent(
        QEvent.Type.MouseMove, where, QPointF(at), none, none, Qt.KeyboardModifier.NoModifier
    )
    QApplication.sendEvent(window.sheet, event)
    QApplication.processEvents()


def bars(window: Window) -> list[QWidget]:
    return [window.bar, window.tray.tab_bar]


def test_bars_tabs_and_controls_are_gone_and_come_back(window: Window) -> None:
    assert not any(bar.isVisible() for bar in bars(window))
    assert not window.side.isVisible()
    window.present.trigger()
    QApplication.processEvents()
    assert all(bar.isVisible() for bar in bars(window))
    assert window.side.isVisible()
    tabs = window.tray.tab_bar
    assert tabs.mapTo(window, tabs.rect().bottomLeft()).y() == window.height() - 1
    assert window.bar.mapTo(window, QPoint(0, 0)).y() == 0
    assert not window.presenting.slider.isVisible()


def test_a_bar_comes_as_the_pointer_nears_its_edge_and_nothing_moves(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheet = window.sheet.geometry()
    for bar, near in zip(bars(window), (3, window.height() - 4), strict=True):
        point_at(window, near, monkeypatch)
        assert bar.isVisible()
        assert window.sheet.geometry() == sheet
        point_at(window, window.height() // 2, monkeypatch)
        assert not bar.isVisible()
    point_at(window, 3, monkeypatch)
    point_at(window, window.bar.height() + AWAY - 2, monkeypatch)
    assert window.bar.isVisible()  # a hand that slips a little does not lose it


def test_a_tab_that_came_opens_its_page(window: Window, monkeypatch: pytest.MonkeyPatch) -> None:
    point_at(window, window.height() - 4, monkeypatch)
    QTest.mouseClick(window.tray.tabs[-1], Qt.MouseButton.LeftButton)
    assert window.tray.current is not None
    assert window.tray.current.isVisible()


def test_no_text_is_smaller_than_20_px(window: Window) -> None:
    assert window.sheet._magnified() == LARGER
    assert min(SMALL, _BODY) * LARGER >= 20.0
    assert LABEL_PX >= 20


@pytest.mark.parametrize(("place", "name"), list(enumerate(KEYS, 1)))
def test_a_figure_key_picks_the_input_of_the_large_slider(
    window: Window, place: int, name: str
) -> None:
    QTest.keyClick(window, Qt.Key(Qt.Key.Key_0.value + place))
    slider = window.presenting.slider
    assert slider.label.text() == FIELD[name].label
    before = window.session.inputs.value(name)
    QTest.keyClick(slider.slider, Qt.Key.Key_Right)
    assert window.session.inputs.value(name) > before
    assert slider.slider.hasFocus()


def test_the_large_slider_is_dragged_as_one_step(window: Window) -> None:
    slider = window.presenting.slider.slider
    steps = len(window.session.steps)
    y = slider.rect().center().y()
    wide = QWidget.width(slider)
    QTest.mousePress(slider, Qt.MouseButton.LeftButton, pos=QPoint(wide // 4, y))
    low = window.session.inputs.front_angle_deg
    for share in (0.4, 0.6, 0.75):
        QTest.mouseMove(slider, QPoint(round(share * wide), y))
        QApplication.processEvents()
    QTest.mouseRelease(slider, Qt.MouseButton.LeftButton, pos=QPoint(round(0.75 * wide), y))
    field = FIELD["front_angle_deg"]
    span = field.high - field.low
    assert low == pytest.approx(field.low + 0.25 * span, abs=0.02 * span)
    here = window.session.inputs.front_angle_deg
    assert here == pytest.approx(field.low + 0.75 * span, abs=0.02 * span)
    assert len(window.session.steps) == steps + 1


def test_what_stands_on_the_large_slider_needs_no_caption(window: Window) -> None:
    window.session.edit(front_angle_deg=37.0)
    QApplication.processEvents()
    assert window.presenting.slider.value.text() == "37.0°"
    assert not window.caption.isVisible()


def test_what_is_said_large_covers_no_card(window: Window) -> None:
    window.session.edit(knee_bend_deg=50.0)
    QApplication.processEvents()
    assert window.caption.isVisible()
    assert window.caption.geometry().bottom() < window.sheet.cards_top


def test_the_light_follows_the_pointer_and_lets_the_mouse_through(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    QTest.keyClick(window, Qt.Key.Key_L)
    ink = window.presenting.ink
    assert ink.tool == LIGHT
    assert ink.testAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
    without = window.sheet.grab().toImage()
    point_at(window, 300, monkeypatch)
    assert window.sheet.grab().toImage() != without
    QTest.keyClick(window, Qt.Key.Key_L)
    assert not ink.isVisible()


def test_a_stroke_of_the_pen_fades_and_changes_nothing(window: Window) -> None:
    before = window.session.setup
    QTest.keyClick(window, Qt.Key.Key_P)
    ink = window.presenting.ink
    assert ink.tool == PEN
    QTest.mousePress(ink, Qt.MouseButton.LeftButton, pos=QPoint(100, 100))
    QTest.mouseMove(ink, QPoint(200, 150))
    QTest.mouseRelease(ink, Qt.MouseButton.LeftButton, pos=QPoint(200, 150))
    assert len(ink.strokes) == 1
    assert window.session.setup is before
    old = ink.strokes[0].finished - STAYS_S - FADES_S - 1.0
    ink.strokes[0] = Stroke(ink.strokes[0].points, old)
    ink._fade()
    assert not ink.strokes


def test_a_stroke_stands_for_a_while_then_goes_evenly() -> None:
    stroke = Stroke([], 0.0)
    moments = (0.0, STAYS_S, STAYS_S + 0.5 * FADES_S, STAYS_S + FADES_S)
    assert [strength(stroke, each) for each in moments] == [1.0, 1.0, pytest.approx(0.5), 0.0]


def test_keys_of_presenting_are_typed_as_letters_again_afterwards(window: Window) -> None:
    window.present.trigger()
    QApplication.processEvents()
    QTest.keyClick(window, Qt.Key.Key_P)
    assert window.presenting.ink.tool == ""


def test_a_boot_past_its_stop_is_no_tick_on_its_card(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    signs: list[str] = []

    def note(_easel: object, _at: object, _size: float, state: str, _ink: str) -> None:
        signs.append(state)

    monkeypatch.setattr("app.qt.painting.findings_painting.paint_sign", note)
    for bend, boots in ((45.0, {BOOT_IN, BOOT_NEAR}), (70.0, {BOOT_OUT})):
        window.session.edit(knee_bend_deg=bend, rear_cant_deg=4.0)
        QApplication.processEvents()
        frame = window._frame
        assert frame is not None
        leg = frame.findings.legs["rear"]
        assert leg.state == IN_PLANE
        assert leg.boot in boots
        signs.clear()
        window.sheet.grab()
        assert signs[-1] == (IN_PLANE if leg.boot == BOOT_IN else leg.boot)

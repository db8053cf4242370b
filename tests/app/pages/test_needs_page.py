"""The page of what each binding needs, by real events in the window."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton
from pytestqt.qtbot import QtBot

from app.drawing.theme import DARK, LIGHT, Theme
from app.features.needs.bar import LOWEST, NeedBar, span_of
from app.features.needs.model import range_needs_of
from app.features.needs.page import NeedsPage
from app.qt.themes import set_theme
from app.rider.setup import Setup, edited, estimated
from app.rider.trials import entry_of
from app.session import Session
from app.stance.needs import needs_of
from app.window.window import Window, prepared_application

LEFT = Qt.MouseButton.LeftButton
STRAIGHT = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=0.0)
FAR = edited(
    Setup(), stance_length_mm=800.0, hip_height_mm=600.0, knee_height_mm=330.0, knee_bend_deg=5.0
)
ESTIMATED = edited(estimated(Setup(), stature_mm=1700.0), front_angle_deg=60.0, rear_angle_deg=57.0)
WORDY = replace(
    ESTIMATED,
    trials=(entry_of(STRAIGHT.inputs, "2026-01-31", ("bow-legged", "even"), ("even", "even"), ""),),
)
"""A set-up of which everything that can be said is said."""


@pytest.fixture
def setup() -> Setup:
    return STRAIGHT


@pytest.fixture
def window(qtbot: QtBot, setup: Setup) -> Window:
    prepared_application()
    made = Window(Session(setup))
    qtbot.addWidget(made)
    made.resize(1280, 800)
    made.show()
    qtbot.waitExposed(made)
    return made


@pytest.fixture
def page(qtbot: QtBot, window: Window) -> NeedsPage:
    tab = next(tab for tab in window.tray.tabs if tab.text() == "What it needs")
    QTest.mouseClick(tab, LEFT)
    opened = window.tray.current
    assert isinstance(opened, NeedsPage)
    qtbot.waitUntil(opened.isVisible)
    return opened


def best_is_known(qtbot: QtBot, page: NeedsPage) -> None:
    qtbot.waitUntil(page.range_words.isEnabled, timeout=20_000)


def click(button: QPushButton) -> None:
    QTest.mouseClick(button, LEFT)
    QApplication.processEvents()


def test_one_click_puts_the_start_values_on_and_undo_takes_them_back(
    window: Window, page: NeedsPage
) -> None:
    click(page.put_start)
    inputs = window.session.inputs
    start = needs_of(STRAIGHT).start
    assert (inputs.front_cant_deg, inputs.rear_cant_deg) == (start[1], start[3])
    assert window.session.undo_name == "Start values"
    window.undo.trigger()
    assert window.session.setup == STRAIGHT
    assert window.session.undo_name == ""


def test_the_space_bar_puts_the_start_values_on_too(window: Window, page: NeedsPage) -> None:
    page.put_start.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(page.put_start, Qt.Key.Key_Space)
    assert window.session.inputs.front_cant_deg == needs_of(STRAIGHT).start.front_cant_deg


def test_start_values_that_are_on_are_not_offered_again(window: Window, page: NeedsPage) -> None:
    click(page.put_start)
    assert not page.put_start.isEnabled()
    assert page.put_start.toolTip() == "They are on the mounts."
    window.undo.trigger()
    QApplication.processEvents()
    assert page.put_start.isEnabled()


def test_the_best_of_the_whole_bend_is_one_step_of_its_own(
    qtbot: QtBot, window: Window, page: NeedsPage
) -> None:
    assert not page.put_best.isEnabled()
    best_is_known(qtbot, page)
    click(page.put_best)
    best = range_needs_of(STRAIGHT).mounts
    assert window.session.inputs.front_cant_deg == best.front_cant_deg
    assert window.session.undo_name == "Range's best"
    window.undo.trigger()
    assert window.session.setup == STRAIGHT


def test_the_bend_alone_can_be_chosen_by_keys_and_asks_for_less(
    qtbot: QtBot, window: Window, page: NeedsPage
) -> None:
    best_is_known(qtbot, page)
    page.switch.segments[True].setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(page.switch.segments[True], Qt.Key.Key_Right)
    best_is_known(qtbot, page)
    assert page.range_words.text().startswith("Bend alone, 0° to 90° with the hips as they are")
    click(page.put_best)
    alone = range_needs_of(STRAIGHT, turning=False).mounts
    assert window.session.inputs.front_cant_deg == alone.front_cant_deg
    assert alone.front_cant_deg != range_needs_of(STRAIGHT).mounts.front_cant_deg


def test_going_back_to_the_other_kind_of_bend_shows_its_answer_at_once(
    qtbot: QtBot, page: NeedsPage
) -> None:
    best_is_known(qtbot, page)
    said = page.range_words.text()
    for turning in (False, True):
        click(page.switch.segments[turning])
        if not turning:
            best_is_known(qtbot, page)
    assert page.range_words.isEnabled()
    assert page.range_words.text() == said


def test_needs_follow_a_drag_and_the_best_of_the_bend_waits_for_its_end(
    qtbot: QtBot, window: Window, page: NeedsPage
) -> None:
    best_is_known(qtbot, page)
    before = page.table.said()
    window.session.begin_drag()
    window.session.edit(stance_length_mm=600.0)
    QApplication.processEvents()
    assert page.table.said() != before
    assert not page.range_words.isEnabled()
    QTest.qWait(300)
    assert not page.range_words.isEnabled()
    window.session.end_drag()
    best_is_known(qtbot, page)


def test_going_back_to_a_stance_whose_best_is_known_asks_for_nothing_else(
    qtbot: QtBot, window: Window, page: NeedsPage
) -> None:
    best_is_known(qtbot, page)
    said = page.range_words.text()
    window.session.edit(stance_length_mm=600.0)
    QApplication.processEvents()
    window.undo.trigger()
    QApplication.processEvents()
    assert page.range_words.isEnabled()
    QTest.qWait(300)
    assert page.range_words.text() == said


@pytest.mark.parametrize("setup", [FAR])
def test_where_no_leg_reaches_nothing_is_offered_and_the_reason_stands_there(
    qtbot: QtBot, page: NeedsPage
) -> None:
    assert "no cant, since the " in page.words.text()
    assert "leg cannot reach" in page.words.text()
    assert not page.put_start.isEnabled()
    best_is_known(qtbot, page)
    assert page.range_words.text() == "No mounts suit the whole bend: a leg cannot reach."
    assert not page.put_best.isEnabled()


@pytest.mark.parametrize("setup", [STRAIGHT, WORDY], ids=["demo", "wordy"])
@pytest.mark.parametrize("size", [(1280, 800), (1024, 700)])
@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_nothing_is_cut_off(
    qtbot: QtBot, window: Window, page: NeedsPage, size: tuple[int, int], theme: Theme
) -> None:
    set_theme(theme)
    window.resize(*size)
    best_is_known(qtbot, page)
    QApplication.processEvents()
    for label in page.findChildren(QLabel):
        assert label.width() >= label.fontMetrics().horizontalAdvance(label.text()) or (
            label.wordWrap() and label.height() >= label.heightForWidth(label.width())
        )
        assert page.rect().contains(label.mapTo(page, label.rect().bottomRight()))
    for bar in page.findChildren(NeedBar):
        assert bar.height() >= LOWEST
        assert bar.width() >= bar.minimumSizeHint().width()
    for button in (page.put_start, page.put_best):
        assert page.rect().contains(button.geometry().translated(button.parentWidget().pos()))


def test_everything_is_said_to_those_who_cannot_see_it(page: NeedsPage) -> None:
    said = page.accessibleDescription()
    assert "Full: front cant 8.5° ± 0.5° inward, rear cant 8.5° ± 0.5° inward" in said
    assert "No lift needed" in said
    bars = page.findChildren(NeedBar)
    assert bars[0].accessibleName() == "Band of front cant"
    assert bars[0].accessibleDescription() == "From least 5.0° inward to full 8.5° inward; now none"


def test_the_present_cant_moves_along_the_band(window: Window, page: NeedsPage) -> None:
    bar = page.findChildren(NeedBar)[0]
    flat = bar.grab().toImage()
    window.session.edit(front_cant_deg=3.0)
    QApplication.processEvents()
    assert bar.grab().toImage() != flat
    assert bar.accessibleDescription().endswith("now 3.0° inward")


def test_a_line_holds_all_its_angles_and_does_not_shrink_in_a_drag(
    window: Window, page: NeedsPage
) -> None:
    bar = page.findChildren(NeedBar)[0]
    window.session.edit(front_cant_deg=12.0)
    QApplication.processEvents()
    wide = bar.x_of(5.0)
    window.session.begin_drag()
    window.session.edit(front_cant_deg=0.0)
    QApplication.processEvents()
    assert bar.x_of(5.0) == wide
    window.session.end_drag()
    assert span_of([]) == 5.0

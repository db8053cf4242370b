"""The help by real keys and clicks: from the bar, from controls, and back to one's numbers."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from app.features.help.dialog import CARE, KEYS, MODEL, READ, SECTIONS, HelpWindow
from app.features.help.model import TERMS
from app.features.why.page import WhyPage
from app.stance.findings import CAUTION
from app.stance.topics import Asked
from app.window.control_row import ControlRow
from app.window.window import Window
from tests.helpers.opened_pages import overfull
from tests.helpers.shown_windows import shown_window

LEFT = Qt.MouseButton.LeftButton
SHIFT = Qt.KeyboardModifier.ShiftModifier
CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, active=True)


def helped(window: Window) -> HelpWindow:
    QApplication.processEvents()
    assert window.helping.help is not None
    assert window.helping.help.isVisible()
    return window.helping.help


def row(window: Window, name: str) -> ControlRow:
    return next(each for each in window.panel.findChildren(ControlRow) if each.name == name)


@pytest.mark.parametrize("held", [Qt.KeyboardModifier.NoModifier, CTRL])
def test_f1_opens_the_help_and_escape_closes_it(window: Window, held: Qt.KeyboardModifier) -> None:
    QTest.keyClick(window, Qt.Key.Key_F1, held)
    shown = helped(window)
    QTest.keyClick(shown, Qt.Key.Key_Escape)
    assert not shown.isVisible()


def test_the_help_opens_where_it_was_left_and_by_f1_at_the_keys(
    window: Window, qtbot: QtBot
) -> None:
    QTest.keyClick(window, Qt.Key.Key_F1, CTRL)
    shown = helped(window)
    assert shown.list.isVisible(), "the words are what it begins with"
    shown.show_section(READ)
    shown.close()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    QTest.keyClick(window, Qt.Key.Key_F1, CTRL)
    assert not helped(window).list.isVisible()
    assert shown.switch.segments[list(SECTIONS).index(READ)].isChecked()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    QTest.keyClick(window, Qt.Key.Key_F1)
    assert shown.switch.segments[list(SECTIONS).index(KEYS)].isChecked()


@pytest.mark.parametrize(
    ("name", "term"),
    [
        ("rear_cant_deg", "cant"),
        ("stance_length_mm", "stance length"),
        ("knee_bend_deg", "knee bend"),
    ],
)
def test_shift_f1_explains_the_control_that_has_the_keyboard(
    window: Window, name: str, term: str
) -> None:
    row(window, name).slider.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(window, Qt.Key.Key_F1, SHIFT)
    shown = helped(window)
    assert shown.term == term
    assert shown.title.text() == TERMS[term].title


def test_a_tip_names_the_way_and_a_right_click_goes_it(window: Window) -> None:
    there = row(window, "hip_shift_mm")
    assert "Shift+F1" in there.toolTip()
    menu = there.menu()
    (about,) = [each for each in menu.actions() if each.text() == "What is this?"]
    about.trigger()
    assert helped(window).term == "hip shift"


def test_every_section_and_word_is_shown_whole(window: Window) -> None:
    window.helping.open()
    shown = helped(window)
    for place, key in enumerate(SECTIONS):
        QTest.mouseClick(shown.switch.segments[place], LEFT)
        QApplication.processEvents()
        assert not overfull(shown), key
    for term in TERMS:
        window.session.term_asked.emit(term)
        QApplication.processEvents()
        assert shown.title.text() == TERMS[term].title
        assert not overfull(shown), term
        assert any(picture.isVisible() for picture in shown.pictures)


def test_the_caution_and_the_sources_stand_there_without_links(window: Window) -> None:
    window.helping.open()
    shown = helped(window)
    for section in (CARE, READ, MODEL):
        shown.show_section(section)
    labels = shown.findChildren(QLabel)
    assert CAUTION in {label.text() for label in labels}
    assert not any(label.openExternalLinks() for label in labels)
    assert not any("http" in label.text() or "<a" in label.text() for label in labels)


def test_the_arrow_keys_go_from_word_to_word(window: Window) -> None:
    window.session.term_asked.emit("lift")
    shown = helped(window)
    shown.list.setFocus()
    QTest.keyClick(shown.list, Qt.Key.Key_Down)
    assert shown.term == list(TERMS)[list(TERMS).index("lift") + 1]


def test_a_word_leads_to_the_rider_s_own_number(window: Window) -> None:
    window.session.term_asked.emit("off-plane angle")
    QTest.mouseClick(helped(window).why, LEFT)
    QApplication.processEvents()
    page = window.tray.current
    assert isinstance(page, WhyPage)
    assert page.asked == Asked("front", "knee")

"""Asking why by real clicks and keys, in the program's window."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.features.answer.page import AnswerPage
from app.features.why.page import WhyPage
from app.stance.topics import TOPICS, Asked
from app.window.window import Window
from tests.helpers.opened_pages import overfull
from tests.helpers.shown_windows import shown_window

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, active=True)


def opened(window: Window) -> WhyPage:
    QApplication.processEvents()
    page = window.tray.current
    assert isinstance(page, WhyPage)
    return page


def card(window: Window, which: int, share: float, low: bool) -> QPoint:
    """A point on the card of the front leg (0), of the rear leg (1) or of the stance (2)."""
    assert window.sheet._placing is not None
    area = window.sheet._placing.layout.findings
    x = area.left() + (which + share) * area.width() / 3.0
    y = area.bottom() - 20.0 if low else area.top() + 40.0
    return QPointF(x, y).toPoint()


@pytest.mark.parametrize(
    ("which", "share", "low", "asked"),
    [
        (0, 0.5, False, Asked("front", "knee")),
        (1, 0.5, False, Asked("rear", "knee")),
        (1, 0.2, True, Asked("rear", "bend")),
        (1, 0.5, True, Asked("rear", "boot")),
        (0, 0.8, True, Asked("front", "knee")),
        (2, 0.5, False, Asked("front", "spacing")),
        (2, 0.2, True, Asked("front", "spacing")),
    ],
)
def test_a_click_on_a_card_opens_the_reasons_of_its_number(
    window: Window, which: int, share: float, low: bool, asked: Asked
) -> None:
    setup = window.session.setup
    QTest.mouseClick(window.sheet, LEFT, pos=card(window, which, share, low))
    page = opened(window)
    assert page.asked == asked
    assert page.keys[asked.topic].isChecked()
    assert window.session.setup is setup


def test_the_key_w_asks_for_the_knee_of_the_foot_selected(window: Window) -> None:
    window.sheet.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(window.sheet, Qt.Key.Key_Space)
    QTest.keyClick(window.sheet, Qt.Key.Key_W)
    assert opened(window).asked == Asked("rear", "knee")


def test_the_views_bear_the_reasons_only_while_the_page_is_open(window: Window) -> None:
    def keys() -> set[str]:
        QApplication.processEvents()
        assert window.sheet._frame is not None
        marks = [m.key for scene in window.sheet._frame.scenes.values() for m in scene.marks]
        return {key for key in marks if key.startswith("why.")}

    assert not keys()
    assert window._frame is window.sheet._frame
    page = window.tray.open_page("Why")
    assert isinstance(page, WhyPage)
    before = keys()
    assert before
    QTest.mouseClick(page.keys["boot"], LEFT)
    assert keys()
    assert keys() != before
    assert window._frame is not None
    assert not any(m.key.startswith("why.") for m in window._frame.scenes["side"].marks)
    window.tray.open_page("Notes")
    assert not keys()


def test_the_reasons_stay_live_under_a_drag(window: Window) -> None:
    window.session.why_asked.emit(Asked("rear", "spacing"))
    page = opened(window)
    said = page.title.text()
    window.session.begin_drag()
    window.session.edit(stance_length_mm=520.0)
    QApplication.processEvents()
    assert page.title.text() != said
    assert "520 mm" in page.steps._lines[0].filled.text()
    window.session.end_drag()


def test_the_reasons_of_the_answer_wait_for_a_quiet_time_and_stay_meanwhile(
    window: Window, qtbot: QtBot
) -> None:
    window.session.why_asked.emit(Asked("rear", "cant"))
    page = opened(window)
    qtbot.waitUntil(lambda: "…" not in page.title.text(), timeout=20_000)
    lines = page.steps._lines[1].said.text()
    window.session.begin_drag()
    window.session.edit(stance_length_mm=560.0)
    QApplication.processEvents()
    assert not page.steps.isEnabled()
    assert page.steps._lines[1].said.text() == lines
    window.session.end_drag()
    qtbot.waitUntil(page.steps.isEnabled, timeout=20_000)
    assert page.steps._lines[1].said.text() != lines


def test_two_levels_say_the_same_in_other_words(window: Window) -> None:
    window.session.why_asked.emit(Asked("front", "knee"))
    page = opened(window)
    words = [line.said.text() for line in page.steps._lines]
    filled = [line.filled.text() for line in page.steps._lines]
    QTest.mouseClick(page.level.segments[1], LEFT)
    assert [line.said.text() for line in page.steps._lines] != words
    assert [line.filled.text() for line in page.steps._lines] == filled
    assert "femur" in page.steps._lines[5].said.text()


@pytest.mark.parametrize("level", [0, 1])
def test_no_words_are_cut_off(window: Window, level: int) -> None:
    for topic in TOPICS:
        window.session.why_asked.emit(Asked("rear", topic))
        page = opened(window)
        QTest.mouseClick(page.level.segments[level], LEFT)
        QApplication.processEvents()
        assert not overfull(page), topic


def test_the_answer_leads_to_its_reasons(window: Window) -> None:
    page = window.tray.open_page("Begin with")
    assert isinstance(page, AnswerPage)
    QTest.mouseClick(page.cards["rear"].whys["lift"], LEFT)
    assert opened(window).asked == Asked("rear", "lift")


def test_the_way_to_the_help_is_beside_the_title(window: Window) -> None:
    window.session.why_asked.emit(Asked("rear", "boot"))
    QTest.mouseClick(opened(window).term, LEFT)
    assert window.helping.help is not None
    assert window.helping.help.term == "boot flex"

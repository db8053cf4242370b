"""What is presented is large, pages too, and given back as it was: nothing lost, nothing stored."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontInfo
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QTableWidget,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.features.lessons.model import ASK
from app.features.lessons.page import LessonsPage
from app.features.player.page import PlayerPage
from app.features.why.page import WhyPage
from app.files.storage import Document
from app.qt.controls.number_field import NumberField
from app.qt.painting.easel import Easel
from app.qt.sizes import USUAL_PERCENT, set_text_percent, text_percent
from app.rider.setup import Setup
from app.stance.topics import Asked
from app.window.lifecycle import speak
from app.window.presenting import LEAST_PX, PERCENT
from app.window.program import Program
from app.window.registry import entries
from app.window.window import prepared_application

WRITTEN = (QLabel, QAbstractButton, QComboBox, QLineEdit, QPlainTextEdit, QTableWidget)


@pytest.fixture
def program(started: Callable[..., Program]) -> Iterator[Program]:
    made = started(Document(Setup()), None)
    yield made
    set_text_percent(USUAL_PERCENT)
    speak(prepared_application(), "en")


def turn(program: Program, qtbot: QtBot) -> None:
    """Begin to present, or end it, with the key; until the window has been made anew."""
    before = text_percent()
    QTest.keyClick(program.window, Qt.Key.Key_F11)
    qtbot.waitUntil(lambda: text_percent() != before)
    QApplication.processEvents()
    program.window.resize(1280, 800)
    QApplication.processEvents()


def small(around: QWidget) -> list[str]:
    """Everything in sight that is written too small, with its size."""
    found = []
    for each in around.findChildren(QWidget):
        if isinstance(each, WRITTEN) and each.isVisible() and each.font() is not None:
            pixels = QFontInfo(each.font()).pixelSize()
            text = each.text() if isinstance(each, QLabel | QAbstractButton | QLineEdit) else "…"
            if pixels < LEAST_PX and text:
                found.append(f"{type(each).__name__} {text[:40]!r}: {pixels}")
    return found


@pytest.fixture
def painted(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, float]]:
    """What is painted onto the screen as marks, with its height (px)."""
    texts: list[tuple[str, float]] = []
    put, lines = Easel.put, Easel.write_lines

    def note(easel: Easel, text: str, size: float) -> None:
        texts.append((text, size * easel.type_scale * easel.painter.transform().m11()))

    def noting_put(easel, x, y, text, look, turn=0.0):  # type: ignore[no-untyped-def]
        note(easel, text, look.size)
        put(easel, x, y, text, look, turn)

    def noting_lines(easel, area, text, look):  # type: ignore[no-untyped-def]
        note(easel, text, look.size)
        lines(easel, area, text, look)

    monkeypatch.setattr(Easel, "put", noting_put)
    monkeypatch.setattr(Easel, "write_lines", noting_lines)
    return texts


@pytest.mark.parametrize("title", [entry.title for entry in entries()])
def test_no_text_of_a_page_is_below_20_px_nor_of_the_drawings_over_it(
    program: Program, qtbot: QtBot, title: str, painted: list[tuple[str, float]]
) -> None:
    turn(program, qtbot)
    window = program.window
    window.tray.open_page(title)
    QApplication.processEvents()
    assert small(window) == []
    painted.clear()
    window.sheet.grab()
    assert painted
    assert [each for each in painted if each[1] < LEAST_PX - 0.01] == []
    painted.clear()
    window.tray.grab()
    assert [each for each in painted if each[1] < LEAST_PX - 0.5] == []


def test_bars_that_come_are_as_large(program: Program, qtbot: QtBot) -> None:
    turn(program, qtbot)
    for bar in (program.window.bar, program.window.tray.tab_bar):
        bar.show()
        assert small(bar) == []


def test_nothing_of_it_is_stored_and_all_is_as_it_was_afterwards(
    program: Program, qtbot: QtBot
) -> None:
    program.window.tray.open_page("Begin with")
    before, height = program._settings.now, program.window.tray.height_given
    turn(program, qtbot)
    assert text_percent() == PERCENT
    assert program.window.tray.open_title == "Begin with"
    turn(program, qtbot)
    assert text_percent() == USUAL_PERCENT
    assert program._settings.now == before
    assert program.window.tray.open_title == "Begin with"
    assert program.window.tray.height_given == height
    assert not program.window.isFullScreen()
    assert program.window.side.isVisible()


def test_it_ends_whole_after_the_bar_was_called(program: Program, qtbot: QtBot) -> None:
    # The bar once came last of all that is taken apart, after the menus that it shows.
    for _ in range(2):
        turn(program, qtbot)
        bars = program.window.presenting._bars
        assert bars is not None
        bars._bars[0].widget.hide()
        bars._show(bars._bars[0])
        QApplication.processEvents()
        turn(program, qtbot)
    assert not program.window.presenting.on
    assert program.window.bar.isVisible()


def test_the_sentence_that_compares_has_two_lines_before_an_audience(
    program: Program, qtbot: QtBot
) -> None:
    program.window.compare.keep()
    program.window.session.edit(front_angle_deg=20.0, rear_angle_deg=10.0)
    QApplication.processEvents()
    for lines in (2, 1):
        turn(program, qtbot)
        said = program.window.compare.bar._said
        spacing = said.fontMetrics().lineSpacing()
        assert said.text().startswith("Against ")
        assert lines * spacing <= said.sizeHint().height() < (lines + 1) * spacing


def test_nobody_is_asked_who_rides_while_something_is_presented(
    program: Program, qtbot: QtBot
) -> None:
    program.window.guide.ask()
    turn(program, qtbot)
    card = program.window.guide.card
    assert card is None or not card.isVisible()


def test_letters_that_are_larger_by_choice_stay_so(program: Program, qtbot: QtBot) -> None:
    program.preferences._change({"text_percent": 200})
    qtbot.waitUntil(lambda: text_percent() == 200)
    window = program.window
    QTest.keyClick(window, Qt.Key.Key_F11)
    qtbot.waitUntil(lambda: program.window.presenting.on)
    qtbot.wait(50)
    assert text_percent() == 200


def test_what_is_typed_and_the_keyboard_stay(program: Program, qtbot: QtBot) -> None:
    program.window.tray.open_page("Growing")
    page = program.window.tray.current
    assert page is not None
    field = next(each for each in page.findChildren(NumberField) if each.isVisible())
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "1700")  # refused, as what can be taken is taken first
    name = field.objectName()
    turn(program, qtbot)
    focused = QApplication.focusWidget()
    assert isinstance(focused, NumberField)
    assert focused is not field
    assert (focused.objectName(), focused.text()) == (name, "1700")
    assert program.documents.desk.drafts
    turn(program, qtbot)
    focused = QApplication.focusWidget()
    assert isinstance(focused, NumberField)
    assert focused.text() == "1700"


def test_a_lesson_goes_on_where_it_was(program: Program, qtbot: QtBot) -> None:
    page = program.window.tray.open_page("Lessons")
    assert isinstance(page, LessonsPage)
    page._choose("wide-stance")
    page.player.begin()
    page.player.go_on()
    QTest.keyClick(QApplication.focusWidget() or page, Qt.Key.Key_Right)
    turn(program, qtbot)
    made = program.window.tray.current
    assert isinstance(made, LessonsPage)
    assert made is not page
    stage = made.player.stage
    assert stage is not None
    assert (made._chosen, stage.part) == ("wide-stance", ASK)
    assert made.player._answers == {1: 5.0}
    assert program.window.session.instead is not None
    qtbot.waitUntil(lambda: not program.window.presenting.slider.isVisible())
    turn(program, qtbot)
    again = program.window.tray.current
    assert isinstance(again, LessonsPage)
    assert again.player.stage == stage


def test_what_plays_plays_on(program: Program, qtbot: QtBot) -> None:
    page = program.window.tray.open_page("Motion")
    assert isinstance(page, PlayerPage)
    page._choose("turns")
    page.player.pause()
    page.player.set_speed(0.5)
    page.player.seek(0.4)
    turn(program, qtbot)
    made = program.window.tray.current
    assert isinstance(made, PlayerPage)
    assert made._kind == "turns"
    assert (made.player.phase, made.player.speed, made.player.playing) == (0.4, 0.5, False)
    assert made.player.on
    # Its own slider is the one that counts now.
    assert not program.window.presenting.slider.isVisible()
    assert made.strip.isVisible()


def test_what_was_asked_about_is_told_still(program: Program, qtbot: QtBot) -> None:
    page = program.window.tray.open_page("Why")
    assert isinstance(page, WhyPage)
    page.ask(Asked("rear", "boot"))
    page._set_level("joints")
    turn(program, qtbot)
    made = program.window.tray.current
    assert isinstance(made, WhyPage)
    assert (made.asked, made._level) == (Asked("rear", "boot"), "joints")


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_lesson_has_room_for_its_question_and_its_buttons(
    program: Program, qtbot: QtBot, language: str
) -> None:
    if language != program._settings.now.language:
        program.preferences._change({"language": language})
        qtbot.wait(50)
    page = program.window.tray.open_page("Lessons")
    assert isinstance(page, LessonsPage)
    page._choose("wide-stance")
    page.player.begin()
    turn(program, qtbot)
    made = program.window.tray.current
    assert isinstance(made, LessonsPage)
    shown = program.window.tray._stack
    while made.player.stage is not None:
        QApplication.processEvents()
        player = made.player
        wanted = [player.next, player.finish, player.words]
        wanted += [row for row in player.choosing.rows if row.isVisible()]
        for each in wanted:
            foot = each.mapTo(shown, each.rect().bottomLeft()).y()
            assert foot <= shown.height(), (player.stage, each)
        made.player.skip()
    QApplication.processEvents()
    assert made.head.isVisible()

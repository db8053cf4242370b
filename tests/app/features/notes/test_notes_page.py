"""Name and notes, typed by real keys and pasted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from opened_pages import opened_page
from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QTextCursor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.features.notes.page import NotesPage
from app.qt.controls.typed_text import MOST_SHOWN
from app.rider.setup import LONGEST_NAME, LONGEST_NOTES, Setup
from app.session import Session
from app.window.window import Window, prepared_application
from app.words.bounds import beginning_words

USUAL = "Kept in the file, carried by pictures, and printed on the fit sheet."


@pytest.fixture
def session() -> Session:
    return Session(Setup(name="Anna"))


@pytest.fixture
def page(qtbot: QtBot, session: Session) -> NotesPage:
    return opened_page(qtbot, NotesPage, session, (700, 240))


@pytest.fixture
def visit(qtbot: QtBot) -> Callable[[QWidget, str], None]:
    def visit(field: QWidget, keys: str) -> None:
        field.setFocus()
        qtbot.waitUntil(field.hasFocus)
        QTest.keyClick(field, Qt.Key.Key_End)
        QTest.keyClicks(field, keys)

    return visit


def steps(session: Session) -> list[str]:
    return [step.name for step in session.steps[1:]]


def paste(page: NotesPage, text: str) -> None:
    data = QMimeData()
    data.setText(text)
    page.notes.insertFromMimeData(data)


def test_every_key_reaches_the_session_and_a_visit_is_one_step(
    page: NotesPage, session: Session, visit: Callable[[QWidget, str], None]
) -> None:
    visit(page.notes, "left")
    assert session.setup.notes == "left"
    QTest.keyClicks(page.notes, " knee")
    QTest.keyClick(page.notes, Qt.Key.Key_Return)
    QTest.keyClicks(page.notes, "first")
    assert session.setup.notes == "left knee\nfirst"
    assert steps(session) == ["Notes"]
    visit(page.name, " S.")
    visit(page.notes, "!")
    assert steps(session) == ["Notes", "Name: Anna S.", "Notes"]
    session.undo()
    session.undo()
    assert (page.name.text(), page.notes.toPlainText()) == ("Anna", "left knee\nfirst")


def test_a_visit_that_ends_as_it_began_leaves_no_step(
    page: NotesPage, session: Session, visit: Callable[[QWidget, str], None]
) -> None:
    visit(page.notes, "ab")
    for _ in range(2):
        QTest.keyClick(page.notes, Qt.Key.Key_Backspace)
    visit(page.name, " ")
    page.notes.setFocus()
    assert steps(session) == []
    assert session.setup == Setup(name="Anna")


def test_what_is_typed_after_an_undo_is_a_step_of_its_own(
    page: NotesPage, session: Session, visit: Callable[[QWidget, str], None]
) -> None:
    visit(page.notes, "one")
    session.undo()
    QTest.keyClicks(page.notes, "two")
    assert session.setup.notes == "two"
    assert steps(session) == ["Notes"]


def test_notes_are_full_at_a_number_of_letters_and_say_so(
    page: NotesPage, session: Session
) -> None:
    paste(page, "a" * (LONGEST_NOTES - 3))
    assert page.words.text() == USUAL
    page.notes.moveCursor(QTextCursor.MoveOperation.Start)
    paste(page, "bcdefg")
    assert session.setup.notes == "bcd" + "a" * (LONGEST_NOTES - 3)
    assert (
        page.words.text() == "The notes hold 2,000 letters at most: what did not fit was left out."
    )
    assert page.count.text() == "2,000 of 2,000 letters"
    QTest.keyClick(page.notes, Qt.Key.Key_Backspace)
    assert page.words.text() == USUAL


def test_a_letter_of_two_places_is_never_cut_in_half(page: NotesPage, session: Session) -> None:
    paste(page, "a" * (LONGEST_NOTES - 1) + "🏂🏂🏂")
    assert session.setup.notes == "a" * (LONGEST_NOTES - 1) + "🏂"
    page.name.setText("")
    page.name.setMaxLength(LONGEST_NAME)
    page.name.insert("a" * (LONGEST_NAME - 1) + "🏂")
    session.setup.name.encode()


def test_a_name_is_full_at_a_number_of_letters_and_says_so(
    page: NotesPage, session: Session, visit: Callable[[QWidget, str], None]
) -> None:
    visit(page.name, "n" * LONGEST_NAME)
    assert session.setup.name == "Anna" + "n" * (LONGEST_NAME - 4)
    assert page.words.text() == "A name holds 80 letters at most: what did not fit was left out."


def test_more_than_can_be_typed_is_shown_and_shortened_but_not_cut(
    page: NotesPage, session: Session, visit: Callable[[QWidget, str], None]
) -> None:
    long = replace(session.setup, name="n" * 200, notes="a\u00a0b" * 1000)
    session.take("Open", long)
    visit(page.notes, "x")
    assert session.setup == long
    page.notes.moveCursor(QTextCursor.MoveOperation.Start)
    QTest.keyClick(page.notes, Qt.Key.Key_Delete)
    assert session.setup.notes == long.notes[1:]
    assert page.name.text() == long.name


def test_names_lose_the_spaces_around_them_when_they_are_left(
    page: NotesPage, session: Session, visit: Callable[[QWidget, str], None]
) -> None:
    visit(page.name, " B. ")
    page.notes.setFocus()
    assert session.setup.name == "Anna B."
    assert steps(session) == ["Name: Anna B."]


def test_the_key_for_the_name_opens_the_page_and_selects_the_name(qtbot: QtBot) -> None:
    prepared_application()
    window = Window(Session(Setup(name="Anna")))
    qtbot.addWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    for _ in range(2):
        QTest.keyClick(window, Qt.Key.Key_F2)
        page = window.tray.current
        assert isinstance(page, NotesPage)
        assert QApplication.focusWidget() is page.name
        QTest.keyClicks(page.name, "Kim")
    assert window.windowTitle().startswith("Kim")
    QTest.keyClick(page.name, Qt.Key.Key_Tab)
    QTest.keyClicks(page.notes, "goofy")
    QTest.keyClick(page.notes, Qt.Key.Key_Tab)
    assert window.session.setup.notes == "goofy"
    assert not page.notes.hasFocus()


BIG = "words " * 700_000


def test_of_very_long_notes_the_beginning_can_be_changed_and_the_rest_stays(
    page: NotesPage, session: Session
) -> None:
    session.take("opened", replace(session.setup, name=BIG, notes=BIG))
    assert len(page.notes.toPlainText()) == len(page.name.text()) == MOST_SHOWN
    assert page.words.text() == beginning_words(MOST_SHOWN)
    QTest.keyClick(page.notes, Qt.Key.Key_Delete)
    assert session.setup.notes == BIG[1:]
    page.name.setCursorPosition(0)
    QTest.keyClick(page.name, Qt.Key.Key_Delete)
    assert session.setup.name == BIG[1:]
    session.take("opened", replace(session.setup, name="Anna", notes="short"))
    assert page.notes.toPlainText() == "short"
    assert page.words.text() == USUAL


def test_of_a_very_long_paste_what_fits_is_taken_at_once(page: NotesPage, session: Session) -> None:
    paste(page, BIG)
    assert session.setup.notes == BIG[:LONGEST_NOTES]
    assert "letters at most" in page.words.text()

"""Boxes of choices and fields of words: they report values, and show what they are told."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hands import Counter
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.text_field import MOST_SHOWN, TextField

STEPS = {None: "the parts", 1.0: "1.0°", 2.5: "2.5°"}


@pytest.fixture
def box(qtbot: QtBot) -> ChoiceBox:
    made = ChoiceBox("Step", STEPS)
    qtbot.addWidget(made)
    return made


@pytest.fixture
def field(qtbot: QtBot) -> Iterator[TextField]:
    """A field that has the keyboard; another stands beside it."""
    whole = QWidget()
    made = TextField("Notes")
    column = QVBoxLayout(whole)
    column.addWidget(made)
    column.addWidget(QLineEdit())
    qtbot.addWidget(whole)
    whole.show()
    made.setFocus()
    qtbot.waitUntil(made.hasFocus)
    yield made
    whole.close()


@pytest.mark.parametrize(("key", "value"), [("Home", None), ("End", 2.5)])
def test_a_box_reports_the_value_that_is_wanted(
    qtbot: QtBot, box: ChoiceBox, key: str, value: float | None
) -> None:
    box.show_choice(1.0)
    with qtbot.waitSignal(box.chosen) as told:
        qtbot.keyClick(box, Qt.Key[f"Key_{key}"])
    assert told.args == [value]


def test_a_box_shows_what_holds_and_reports_nothing(box: ChoiceBox) -> None:
    told = Counter(box.chosen)
    for value, words in STEPS.items():
        box.show_choice(value)
        assert box.currentText() == words
    box.offer({4.0: "4.0°"})
    assert (box.count(), box.currentText(), len(told)) == (1, "4.0°", 0)


def test_words_are_reported_once_when_they_are_finished(qtbot: QtBot, field: TextField) -> None:
    told: list[str] = []
    field.committed.connect(told.append)
    qtbot.keyClicks(field, "ice")
    assert told == []
    qtbot.keyClick(field, Qt.Key.Key_Return)
    field.clearFocus()
    assert told == ["ice"]


def test_what_is_being_typed_stays_whatever_is_shown_until_escape(
    qtbot: QtBot, field: TextField
) -> None:
    field.show_text("ice")
    qtbot.keyClicks(field, ", wind")
    field.show_text("ice")
    assert field.text() == "ice, wind"
    field.show_text("soft")
    assert field.text() == "ice, wind"
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == "soft"


def test_what_was_refused_gives_way_to_what_stands(qtbot: QtBot, field: TextField) -> None:
    field.show_text("ice")
    qtbot.keyClicks(field, " ")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    field.show_text("ice")
    assert field.text() == "ice"


def test_the_end_of_a_very_long_text_stays_behind_what_is_typed(
    qtbot: QtBot, field: TextField
) -> None:
    whole = "words " * 10_000
    field.show_text(whole)
    assert len(field.text()) == MOST_SHOWN
    assert "stay in the file" in field.toolTip()
    field.setCursorPosition(0)
    with qtbot.waitSignal(field.committed) as told:
        qtbot.keyClicks(field, "My ")
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert told.args == [f"My {whole}"]
    field.show_text("short")
    assert field.toolTip() == ""

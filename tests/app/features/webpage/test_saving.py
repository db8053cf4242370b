"""The page from the menu: nothing of the user's own goes out unless it is ticked."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from app.features.webpage.document import web_page
from app.features.webpage.saving import PrivacyQuestion
from app.features.webpage.telling import NAME, NOTES, OF_THE_USER
from app.rider.setup import DEMO, Setup
from app.session import Session
from app.window.window import Window, prepared_application

OWN = replace(DEMO, name="Ibex of the north", notes="left knee since May")


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    prepared_application()
    made = Window(Session(OWN))
    qtbot.addWidget(made)
    return made


def ask_for_page(
    window: Window, ticked: tuple[str, ...], monkeypatch: pytest.MonkeyPatch, path: Path | None
) -> list[str]:
    """Chooses the entry, ticks boxes by the mouse, and saves; gives the names suggested."""
    suggested: list[str] = []

    def choose(*args: object) -> tuple[str, str]:
        suggested.append(Path(str(args[2])).name)
        return str(path or ""), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", choose)

    def answer() -> None:
        question = QApplication.activeModalWidget()
        assert isinstance(question, PrivacyQuestion)
        for key in ticked:
            QTest.keyClick(question.boxes[key], Qt.Key.Key_Space)
        QTest.mouseClick(question.save, Qt.MouseButton.LeftButton)

    QTimer.singleShot(0, answer)
    (entry,) = [each for each in window.pictures.actions() if each.text() == "Web page…"]
    entry.trigger()
    return suggested


@pytest.mark.parametrize(
    ("ticked", "called"), [((), "Stance.html"), ((NAME, NOTES), "Ibex of the north.html")]
)
def test_the_page_lands_in_the_file_and_tells_what_was_ticked(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    ticked: tuple[str, ...], called: str,
) -> None:  # fmt: skip
    path = tmp_path / "page.html"
    assert ask_for_page(window, ticked, monkeypatch, path) == [called]
    assert path.read_bytes() == web_page(OWN, date.today(), telling=ticked)


def test_who_cancels_the_question_is_asked_for_no_file(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[object] = []
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *a: asked.append(a) or ("", ""))
    QTimer.singleShot(
        0, lambda: QTest.keyClick(QApplication.activeModalWidget(), Qt.Key.Key_Escape)
    )
    (entry,) = [each for each in window.pictures.actions() if each.text() == "Web page…"]
    entry.trigger()
    assert asked == []


def test_what_is_empty_is_not_asked_about_and_nothing_is_ticked_before(qtbot: QtBot) -> None:
    for setup, there in ((Setup(name="", notes="  "), set()), (OWN, {NAME, NOTES})):
        question = PrivacyQuestion(setup)
        qtbot.addWidget(question)
        assert {*question.boxes} == there <= {*OF_THE_USER}
        assert question.telling == frozenset()
        assert not any(box.isChecked() for box in question.boxes.values())

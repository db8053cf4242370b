"""Fixtures: a whole program on a screen of the mind, and a file to open."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from modal import answered
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from app.files.storage import Document, save
from app.rider.setup import Setup
from app.window.program import Program
from app.window.window import prepared_application


@pytest.fixture
def anna(tmp_path: Path) -> Path:
    path = tmp_path / "anna.json"
    save(path, Document(Setup(name="Anna", notes="left knee first")))
    return path


@pytest.fixture
def started(qtbot: QtBot) -> Iterator[Callable[..., Program]]:
    """Starts programs; those still open at the end are closed and their changes discarded."""
    prepared_application()
    programs: list[Program] = []

    def start(document: Document | None = None, path: Path | None = None) -> Program:
        program = Program(document or Document(Setup()), path)
        programs.append(program)
        program.window.show()
        program.window.activateWindow()
        qtbot.waitExposed(program.window)
        return program

    yield start
    for program in programs:
        program.documents.desk.forget()
        if program.window.isVisible():
            with answered(*["Discard"] * program.documents.work.modified):
                program.window.close()
        program.end()
        program.window.deleteLater()
    QApplication.processEvents()


def killed_and_started(first: Program, started: Callable[..., Program]) -> Program:
    """What starts after a program was killed, with what that had kept."""
    assert first.keeper.keep_now()
    first.recovery._lock.release()
    first.recovery._lock = None
    first.documents.desk.forget()
    second = started()
    with answered("Open it"):
        second.offer_left_behind()
    return second


@pytest.fixture
def program(started: Callable[..., Program]) -> Program:
    return started()


@pytest.fixture
def choose(monkeypatch: pytest.MonkeyPatch) -> Callable[[Path | str], None]:
    """Makes the file dialogs answer with a path; "" is Cancel."""

    def choose(path: Path | str) -> None:
        for name in ("getOpenFileName", "getSaveFileName"):
            monkeypatch.setattr(QFileDialog, name, lambda *_args: (str(path), ""))

    return choose

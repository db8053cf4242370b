"""Pictures opened and dropped: their set-up comes into hand, and the picture stays a picture."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from dropping import drop
from modal import answered
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from app.features.paper.snapshot import png_bytes
from app.files.storage import Document, carrying, opened
from app.frame import frame
from app.rider.setup import Setup, edited
from app.window.program import Program
from app.window.window import prepared_application

ANNA = Document(edited(Setup(name="Anna", notes="left knee first"), rear_angle_deg=-12.0))


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    prepared_application()
    path = tmp_path / "anna.png"
    blank = QImage(40, 40, QImage.Format.Format_RGB32)
    blank.fill(0)
    path.write_bytes(carrying(png_bytes(blank), ANNA))
    return path


def test_a_picture_dropped_on_the_window_brings_its_set_up_and_notes(
    program: Program, picture: Path
) -> None:
    drop(program.window, picture)
    QApplication.processEvents()
    assert program.documents.work.document == ANNA
    shown = program.window.shown()
    assert shown is not None
    assert shown.frame.findings.legs == frame(ANNA.setup).findings.legs


def test_undo_takes_an_opened_picture_back(program: Program, picture: Path) -> None:
    drop(program.window, picture)
    assert program.window.session.setup == ANNA.setup
    program.window.session.undo()
    assert program.window.session.setup == Setup()


@pytest.mark.parametrize("way", ["dropped", "command line"])
def test_saving_after_opening_a_picture_asks_for_a_name_and_spares_the_picture(
    started: Callable[..., Program], choose: Callable[[Path], None], picture: Path,
    tmp_path: Path, way: str,
) -> None:  # fmt: skip
    before = picture.read_bytes()
    program = started(opened(picture), picture) if way == "command line" else started()
    if way == "dropped":
        drop(program.window, picture)
    assert program.documents.work.document == ANNA
    program.window.session.edit(front_angle_deg=20.0)
    choose(tmp_path / "anna.png")
    assert program.documents.save()
    assert picture.read_bytes() == before
    assert opened(tmp_path / "anna.png.kneeline").setup == program.window.session.setup


def test_a_picture_that_lost_its_set_up_says_so_and_the_work_stays(
    program: Program, picture: Path
) -> None:
    # Another program keeps the pixels alone.
    bare = QImage(4, 4, QImage.Format.Format_RGB32)
    bare.fill(0)
    picture.write_bytes(png_bytes(bare))
    with answered("OK") as said:
        drop(program.window, picture)
    assert "this picture carries no set-up" in said[0]
    assert program.window.session.setup == Setup()


def test_a_picture_that_went_through_qt_keeps_its_set_up(program: Program, picture: Path) -> None:
    picture.write_bytes(png_bytes(QImage(str(picture)).scaled(20, 20)))
    drop(program.window, picture)
    assert program.documents.work.document == ANNA


def test_a_window_begun_on_a_picture_has_nothing_unsaved(
    started: Callable[..., Program], picture: Path
) -> None:
    program = started(opened(picture), picture)
    assert not program.documents.work.modified
    assert program.window.windowTitle().startswith("Anna")

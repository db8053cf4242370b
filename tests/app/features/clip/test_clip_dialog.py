"""The dialog of clips, by clicks and keys: seen, foretold, made, cancelled, refused."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot
from shiboken6 import isValid
from shown_windows import shown_window

from app.features.clip.dialog import ClipDialog
from app.features.clip.wish import NUMBERED, numbered_paths, write_all
from app.features.player.model import Sweep
from app.features.player.page import PlayerPage
from app.files.safe_files import FileError, write_atomically
from app.window.window import Window

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot)


@pytest.fixture
def dialog(window: Window, qtbot: QtBot) -> Iterator[ClipDialog]:
    window.pictures.save_clip("sweep", Sweep("knee_bend_deg", 40.0, 45.0))
    made = window.findChild(ClipDialog)
    assert isinstance(made, ClipDialog)
    made.seconds.asked.emit("seconds", 1.0)
    seen(qtbot, made)
    yield made
    if isValid(made):
        made.reject()


def seen(qtbot: QtBot, dialog: ClipDialog) -> None:
    qtbot.waitUntil(dialog.save.isEnabled, timeout=20_000)


def choose(monkeypatch: pytest.MonkeyPatch, path: Path) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(path))


def test_it_foretells_what_lands_in_the_file_and_says_that_it_did(
    window: Window, dialog: ClipDialog, qtbot: QtBot, tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    assert dialog.foretold.text().startswith("20 pictures of 1000 × 720, about ")
    assert not dialog.picture.pixmap().isNull()
    choose(monkeypatch, tmp_path / "bend")
    wrote: list[Path] = []
    window.session.wrote.connect(wrote.append)
    QTest.mouseClick(dialog.save, LEFT)
    assert dialog.busy
    assert dialog.progress.isVisible()
    assert not dialog.kind.isEnabled()
    qtbot.waitUntil(lambda: wrote == [tmp_path / "bend.gif"], timeout=20_000)
    assert "bend.gif" in window.documents.notices.text
    with Image.open(tmp_path / "bend.gif") as file:
        assert file.n_frames == 20
    assert os.listdir(tmp_path) == ["bend.gif"]


def test_cancelled_it_writes_nothing_and_can_be_made_after_all(
    dialog: ClipDialog, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choose(monkeypatch, tmp_path / "a.gif")
    QTest.mouseClick(dialog.save, LEFT)
    qtbot.waitUntil(lambda: dialog.progress.value() > 20, timeout=20_000)
    assert dialog.leave.text() == "Cancel"
    QTest.mouseClick(dialog.leave, LEFT)
    assert not dialog.busy
    assert dialog.leave.text() == "Close"
    # Cancelled while the file is put together: what comes then comes for nobody.
    QTest.mouseClick(dialog.save, LEFT)
    qtbot.waitUntil(lambda: dialog._joins.busy, timeout=20_000)
    dialog.cancel()
    qtbot.waitUntil(lambda: not dialog._joins.busy, timeout=20_000)
    qtbot.wait(50)
    assert not list(tmp_path.iterdir())
    QTest.mouseClick(dialog.save, LEFT)
    qtbot.waitUntil((tmp_path / "a.gif").exists, timeout=20_000)


def test_numbered_pictures_are_as_many_files_in_their_order(
    dialog: ClipDialog, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    dialog.ending.chosen.emit(NUMBERED)
    seen(qtbot, dialog)
    choose(monkeypatch, tmp_path)
    QTest.mouseClick(dialog.save, LEFT)
    qtbot.waitUntil(lambda: len(os.listdir(tmp_path)) == 20, timeout=20_000)
    assert sorted(os.listdir(tmp_path)) == [f"clip {i:03}.png" for i in range(1, 21)]


def test_where_one_of_many_cannot_be_written_none_is_left(tmp_path: Path) -> None:
    paths = numbered_paths(tmp_path, "a", 3)
    paths[1].write_bytes(b"mine")

    def fails_at_the_end(path: Path, data: bytes) -> None:
        if path == paths[2]:
            raise FileError("the disk is full")
        write_atomically(path, data)

    with pytest.raises(FileError):
        write_all(paths, [b"1", b"2", b"3"], fails_at_the_end)
    assert os.listdir(tmp_path) == [paths[1].name]


def test_a_folder_that_is_not_there_is_said_and_another_asked_for(
    dialog: ClipDialog, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    monkeypatch.setattr(
        "app.features.clip.dialog.told_not_saved", lambda _, why: bool(said.append(why))
    )
    choose(monkeypatch, tmp_path / "none" / "a.gif")
    QTest.mouseClick(dialog.save, LEFT)
    qtbot.waitUntil(lambda: bool(said), timeout=20_000)
    assert "there is no such folder" in said[0]
    assert dialog.save.isEnabled()


def test_a_length_that_cannot_be_taken_is_said_and_holds_the_clip_up(
    dialog: ClipDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[object] = []
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (asked.append(1), ("", ""))[1])
    dialog.seconds.setFocus()
    dialog.seconds.selectAll()
    QTest.keyClicks(dialog.seconds, "99")
    QTest.mouseClick(dialog.save, LEFT)
    assert "99" in dialog.problem.text()
    assert not asked
    dialog.seconds.forget()


def test_what_cannot_be_solved_on_the_way_is_said_in_a_sentence(
    dialog: ClipDialog, qtbot: QtBot
) -> None:
    dialog.sweep.asked.emit(Sweep("hip_height_mm", 800.0, 400.0))
    qtbot.waitUntil(lambda: bool(dialog.problem.text()), timeout=20_000)
    assert dialog.problem.text().endswith(".")
    assert not dialog.save.isEnabled()
    dialog.kind.chosen.emit("own")
    qtbot.waitUntil(lambda: "page Motion" in dialog.problem.text(), timeout=20_000)


def test_a_movement_that_ends_where_it_began_does_not_go_back_unless_asked(
    dialog: ClipDialog, qtbot: QtBot
) -> None:
    dialog.kind.chosen.emit("turns")
    assert (dialog.back.isChecked(), dialog.seconds.text()) == (False, "3.5 s")
    dialog.kind.chosen.emit("crouch")
    assert (dialog.back.isChecked(), dialog.seconds.text()) == (True, "2.0 s")
    dialog.back.click()
    assert (dialog.wish.back, dialog.seconds.text()) == (False, "1.0 s")
    seen(qtbot, dialog)
    assert dialog.foretold.text().startswith("20 pictures")


def test_the_page_of_motion_opens_it_with_what_is_chosen_there(
    window: Window, qtbot: QtBot
) -> None:
    page = window.tray.open_page("Motion")
    assert isinstance(page, PlayerPage)
    QTest.mouseClick(page.clip, LEFT)
    dialog = window.findChild(ClipDialog)
    assert isinstance(dialog, ClipDialog)
    assert dialog.wish.kind == "crouch"
    dialog.reject()


def test_nothing_is_done_to_the_set_up(window: Window, dialog: ClipDialog) -> None:
    assert not window.session.undo_name
    assert dialog.subject.setup is window.session.setup

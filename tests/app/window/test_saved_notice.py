"""What was saved is said with its place, and leads there; nothing that was told gets lost by it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from PySide6.QtCore import QObject, Qt, QTimer, QUrl, Slot
from PySide6.QtGui import QDesktopServices
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QToolButton
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.qt.desktop import opened_by_desktop
from app.window.notices import NoticeBar
from app.window.window import Window


class Desktop(QObject):
    """Stands for the desktop: takes note of what it is asked to open."""

    def __init__(self) -> None:
        super().__init__()
        self.opened: list[Path] = []
        QDesktopServices.setUrlHandler("file", self, "open")

    @Slot(QUrl)
    def open(self, url: QUrl) -> None:
        self.opened.append(Path(url.toLocalFile()))


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot)


def press(notices: NoticeBar, words: str) -> None:
    QApplication.processEvents()  # the bar lays its buttons out at leisure
    found = {each.text(): each for each in notices.findChildren(QToolButton) if each.isVisible()}
    QTest.mouseClick(found[words], Qt.MouseButton.LeftButton)


def offers(notices: NoticeBar) -> list[str]:
    return [each.text() for each in notices.actions() if each.isVisible() and each.text()]


def test_a_saved_set_up_is_said_with_its_place_which_can_be_shown(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desktop = Desktop()
    place = (str(tmp_path / "a.kneeline"), "")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: place)
    assert window.documents.save()
    notices = window.documents.notices
    assert notices.text == f"Saved: a.kneeline, in {tmp_path}."
    assert offers(notices) == ["Show in folder", "Dismiss"]
    press(notices, "Show in folder")
    QDesktopServices.unsetUrlHandler("file")
    assert desktop.opened == [tmp_path]
    assert str(tmp_path) in notices.text, "the desktop may not say that it cannot"
    press(notices, "Dismiss")
    assert not notices.isVisible()


def test_any_other_file_can_be_opened_as_well(window: Window, tmp_path: Path) -> None:
    desktop = Desktop()
    (tmp_path / "a.pdf").write_bytes(b"%PDF")
    window.session.wrote.emit(tmp_path / "a.pdf")
    notices = window.documents.notices
    assert offers(notices) == ["Open it", "Show in folder", "Dismiss"]
    press(notices, "Open it")
    QDesktopServices.unsetUrlHandler("file")
    assert desktop.opened == [tmp_path / "a.pdf"]


def test_a_desktop_without_a_program_for_it_and_a_file_that_has_gone_are_said(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.window.saved_notice.opened_by_desktop", lambda _: False)
    notices, path = window.documents.notices, tmp_path / "a.stl"
    path.write_bytes(b"x")
    window.session.wrote.emit(path)
    press(notices, "Open it")
    assert notices.text == f"The desktop has no program that opens it. It is here: {path}"
    window.session.wrote.emit(path)
    path.unlink()
    press(notices, "Open it")
    assert notices.text == f"{path} is no longer there."


def test_news_pass_and_what_was_told_before_comes_back(window: Window, qtbot: QtBot) -> None:
    notices = window.documents.notices
    taken: list[str] = []
    QTest.mouseMove(window.sheet)  # news do not pass under the pointer
    notices.tell("told", "Do it", lambda: taken.append("it"))
    notices.tell_news("news")
    assert (notices.text, offers(notices)) == ("news", ["Dismiss"])
    patience = notices.findChild(QTimer, "patience")
    patience.start(0)
    qtbot.waitUntil(lambda: notices.text == "told")
    press(notices, "Do it")
    assert taken == ["it"]
    assert not notices.isVisible()


def test_the_libraries_of_the_stand_alone_are_not_handed_to_other_programs(
    qapp: object, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[str | None] = []
    monkeypatch.setenv("LD_LIBRARY_PATH", "/ours")
    monkeypatch.setenv("LD_LIBRARY_PATH_ORIG", "/theirs")
    monkeypatch.setattr(
        QDesktopServices, "openUrl", lambda _: seen.append(os.environ["LD_LIBRARY_PATH"])
    )
    opened_by_desktop(tmp_path)
    assert (seen, os.environ["LD_LIBRARY_PATH"]) == (["/theirs"], "/ours")


def saved(window: Window, path: Path, monkeypatch: pytest.MonkeyPatch) -> NoticeBar:
    """The line under the bar, as the set-up was saved."""
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    assert window.documents.save()
    assert window.documents.notices.text.startswith("Saved: a.kneeline")
    return window.documents.notices


def test_that_a_set_up_was_saved_passes_with_the_next_change_of_it(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    notices = saved(window, tmp_path / "a.kneeline", monkeypatch)
    window.session.edit(front_angle_deg=window.session.inputs.front_angle_deg)
    assert notices.isVisible(), "nothing has changed"
    number = window.panel.rows["front_angle_deg"].number
    number.setFocus()
    QTest.keyClick(number, Qt.Key.Key_Up)
    assert window.isWindowModified()
    assert not notices.isVisible()


def test_that_a_set_up_was_saved_stays_while_something_is_dragged(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    notices = saved(window, tmp_path / "a.kneeline", monkeypatch)
    window.session.begin_drag()
    window.session.edit(front_angle_deg=20.0)
    assert notices.isVisible(), "the drawings would move under the hand"
    window.session.end_drag()
    assert not notices.isVisible()


def test_that_something_else_was_saved_stays_for_its_time(window: Window, tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    path.write_bytes(b"%PDF")
    window.session.wrote.emit(path)
    window.session.edit(front_angle_deg=20.0)
    assert window.documents.notices.text == f"Saved: a.pdf, in {tmp_path}."

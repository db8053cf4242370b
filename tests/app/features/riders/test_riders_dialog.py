"""The list of riders: read while it is looked at, searched, sorted, opened."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from app.features.riders.dialog import AT_ONCE, RidersDialog
from app.files.storage import Document, save
from app.rider.setup import Setup, edited
from app.stance.findings import USUAL_LIMITS
from app.window.program import Program

COUNT = 3 * AT_ONCE


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    folder = tmp_path / "riders"
    folder.mkdir()
    for i in range(COUNT):
        setup = edited(Setup(name=f"Rider {i:02}"), front_angle_deg=float(3 * i))
        save(folder / f"{i:02}.json", Document(setup))
    (folder / "broken.json").write_text("{")
    return folder


@pytest.fixture
def dialog(qtbot: QtBot, folder: Path) -> RidersDialog:
    dialog = RidersDialog(folder, USUAL_LIMITS)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitUntil(lambda: dialog.shown.rowCount() == COUNT + 1)
    return dialog


def column(dialog: RidersDialog, i: int) -> list[str]:
    return [
        dialog.shown.index(row, i).data(Qt.ItemDataRole.DisplayRole)
        for row in range(dialog.shown.rowCount())
    ]


def test_the_worst_knee_comes_first_and_the_broken_file_last(dialog: RidersDialog) -> None:
    worst = [float(text.split()[1].rstrip("°")) for text in column(dialog, 1)[:5]]
    assert worst == sorted(worst, reverse=True)
    assert column(dialog, 1)[0].startswith("▲")
    assert column(dialog, 0)[-1] == "broken"
    assert dialog.where.text().startswith(f"{COUNT + 1} in ")


def test_a_click_on_a_heading_sorts(dialog: RidersDialog) -> None:
    header = dialog.table.horizontalHeader()
    heading = QPoint(header.sectionViewportPosition(0) + 20, 8)
    orders = []
    for _ in range(2):
        QTest.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=heading)
        orders.append(column(dialog, 0))
    by_name = sorted(orders[0], key=str.casefold)
    assert sorted(orders) == sorted((by_name, by_name[::-1]))


def test_the_rider_marked_is_opened_by_a_button_too(
    dialog: RidersDialog, qtbot: QtBot, folder: Path
) -> None:
    assert not dialog.opening.isEnabled()
    dialog.table.selectRow(2)
    name = dialog.shown.index(2, 4).data(Qt.ItemDataRole.DisplayRole)
    with qtbot.waitSignal(dialog.chosen) as chosen:
        QTest.mouseClick(dialog.opening, Qt.MouseButton.LeftButton)
    assert chosen.args == [folder / name]
    assert not dialog.isVisible()


def test_typing_narrows_the_list(dialog: RidersDialog) -> None:
    QTest.keyClicks(dialog.search, "rider 07")
    assert column(dialog, 0) == ["Rider 07"]
    assert dialog.where.text().startswith(f"1 of {COUNT + 1} in ")
    dialog.search.clear()
    assert dialog.shown.rowCount() == COUNT + 1


def test_return_opens_the_only_rider_found_and_down_goes_to_the_list(
    dialog: RidersDialog, qtbot: QtBot, folder: Path
) -> None:
    dialog.search.setFocus()
    QTest.keyClicks(dialog.search, "rider 1")
    QTest.keyClick(dialog.search, Qt.Key.Key_Return)
    assert dialog.isVisible()
    QTest.keyClick(dialog.search, Qt.Key.Key_Down)
    assert dialog.table.hasFocus()
    assert len(dialog.table.selectionModel().selectedRows()) == 1
    dialog.search.setText("rider 07")
    with qtbot.waitSignal(dialog.chosen) as chosen:
        QTest.keyClick(dialog.search, Qt.Key.Key_Return)
    assert chosen.args == [folder / "07.json"]


def test_a_broken_file_says_why_and_stays_in_the_list(dialog: RidersDialog, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(dialog.chosen):
        dialog.table.activated.emit(dialog.shown.index(COUNT, 0))
    assert "it is not valid JSON" in dialog.where.text()
    assert dialog.isVisible()


def test_another_folder_takes_the_place_of_the_first_at_once(
    dialog: RidersDialog, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / "other"
    other.mkdir()
    save(other / "only.json", Document(Setup(name="Only")))
    dialog.show_folder(dialog._folder)  # still being read when the other one is asked for
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_args: str(other))
    with qtbot.waitSignal(dialog.moved):
        dialog._ask_for_folder()
    qtbot.waitUntil(lambda: column(dialog, 0) == ["Only"])


def test_a_rider_is_found_and_opened_from_the_menu_by_keys(
    program: Program, folder: Path, qtbot: QtBot
) -> None:
    program.documents.settings.change(folder=str(folder))

    def choose() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, RidersDialog)
        qtbot.waitUntil(lambda: dialog.shown.rowCount() == COUNT + 1)
        QTest.keyClicks(dialog.search, "rider 07")
        dialog.table.setFocus()
        QTest.keyClick(dialog.table, Qt.Key.Key_Down)
        QTest.keyClick(dialog.table, Qt.Key.Key_Return)

    QTimer.singleShot(0, choose)
    QTest.keyClick(
        program.window,
        Qt.Key.Key_O,
        Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier,
    )
    assert program.window.session.setup.name == "Rider 07"
    assert program.window.windowTitle() == "07.json[*] – Kneeline"


def test_an_empty_folder_offers_to_save_there_or_to_look_elsewhere(
    qtbot: QtBot, tmp_path: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "empty").mkdir()
    dialog = RidersDialog(tmp_path / "empty", USUAL_LIMITS)
    qtbot.addWidget(dialog)
    dialog.show()
    assert "Save the one in hand here" in dialog.table.said
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(folder))
    QTest.mouseClick(dialog.choose_folder, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: dialog.shown.rowCount() == COUNT + 1)
    assert not dialog.first.isVisible()
    dialog.show_folder(tmp_path / "empty")
    qtbot.waitUntil(dialog.save_here.isVisible)
    wanted: list[Path] = []
    dialog.save_wanted.connect(wanted.append)
    QTest.mouseClick(dialog.save_here, Qt.MouseButton.LeftButton)
    assert (wanted, dialog.isVisible()) == ([tmp_path / "empty"], False)

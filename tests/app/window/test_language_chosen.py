"""The language chosen among the settings, in a whole program."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox

from app.files.settings import create_settings
from app.files.storage import Document
from app.rider.setup import Setup, edited
from app.session import Session
from app.stance.findings import OUT_OF_PLANE
from app.window import lifecycle
from app.window.lifecycle import speak
from app.window.program import Program
from app.window.settings_dialog import SettingsDialog
from app.window.window import Window, prepared_application
from app.words.language import spoken

Start = Callable[..., Program]


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    yield
    speak(prepared_application(), "en")


@pytest.fixture
def german(started: Start) -> Program:
    create_settings().change(language="de")
    return started()


def test_a_german_window_speaks_german(german: Program) -> None:
    window = german.window
    entries = [action.text() for action in window.files.actions() if not action.isSeparator()]
    assert entries[0] == "Öffnen…"
    assert {"Einstellungen…", "Beenden", "Fahrerordner…"} <= set(entries)
    assert window.undo.text() == "Rückgängig"
    assert window.panel.rows["stance_length_mm"].label.text() == "Bindungsabstand"
    assert window.panel.rows["front_angle_deg"].number.text() == "43,0°"
    assert "Hüftgelenk" in window.panel.rows["hip_height_mm"].toolTip()


def test_a_german_window_tells_its_findings_in_german(started: Start) -> None:
    create_settings().change(language="de")
    setup = edited(Setup(), front_angle_deg=20.0, rear_angle_deg=5.0)
    shown = started(Document(setup)).window.shown()
    front = shown.frame.findings.legs["front"]
    assert front.state == OUT_OF_PLANE
    assert front.headline.startswith("vorderes Bein ")
    assert "Knie wird nach außen gedrückt" in front.sentence


def test_qts_own_buttons_speak_german_too(german: Program) -> None:
    box = QMessageBox(german.window)
    assert box.addButton(QMessageBox.StandardButton.Cancel).text() == "Abbrechen"
    assert box.addButton(QMessageBox.StandardButton.Discard).text() == "Verwerfen"


def test_a_typed_decimal_comma_and_point_are_the_same_in_german(german: Program) -> None:
    row = german.window.panel.rows["front_angle_deg"]
    for typed in ("30,5", "30.5"):
        row.number.selectAll()
        QTest.keyClicks(row.number, typed)
        QTest.keyClick(row.number, Qt.Key.Key_Return)
        assert german.window.session.inputs.front_angle_deg == 30.5
        assert row.number.text() == "30,5°"
        german.window.session.undo()


def test_a_language_chosen_in_the_dialog_is_spoken_at_the_next_start(
    program: Program, started: Start
) -> None:
    dialog = SettingsDialog(program.documents.settings.now, program.window)
    dialog.asked.connect(program.preferences._change)
    dialog.language.setCurrentIndex(dialog.language.findData("de"))
    dialog.language.activated.emit(dialog.language.currentIndex())
    assert program.window.undo.text() == "Undo"
    assert spoken() == "en"
    assert started().window.undo.text() == "Rückgängig"


def test_each_language_is_offered_by_its_own_name(program: Program) -> None:
    box = SettingsDialog(program.documents.settings.now, program.window).language
    offered = [box.itemText(i) for i in range(box.count())]
    assert offered == ["as the system", "English", "Deutsch"]
    assert box.currentData() == "system"


def test_the_systems_language_is_spoken_where_none_is_chosen(
    started: Start, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LANG", "de_AT.UTF-8")
    assert started().window.undo.text() == "Rückgängig"
    create_settings().change(language="en")
    assert started().window.undo.text() == "Undo"


@pytest.mark.parametrize("broken", [None, b"", b"not a catalogue"])
def test_without_a_sound_catalogue_the_window_speaks_english(
    started: Start, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: bytes | None
) -> None:
    (tmp_path / "texts").mkdir()
    if broken is not None:
        (tmp_path / "texts" / "de.mo").write_bytes(broken)
    monkeypatch.setattr(lifecycle, "ASSETS", tmp_path)
    create_settings().change(language="de")
    assert started().window.undo.text() == "Undo"


def test_english_installs_nothing(qapp: QApplication) -> None:
    speak(qapp, "de")
    speak(qapp, "en")
    QApplication.processEvents()
    window = Window(Session(Setup()))
    assert window.undo.text() == "Undo"
    window.deleteLater()


def test_no_label_of_a_german_panel_is_cut(german: Program) -> None:
    german.window.resize(german.window.minimumSize())
    for section in german.window.panel.sections.values():
        section.set_open(True)
    QApplication.processEvents()
    rows = german.window.panel.rows.values()
    cut = [row.name for row in rows if row.label.width() < row.label.sizeHint().width()]
    assert not cut

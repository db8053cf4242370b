"""A window that is made anew in its place, in another language or with larger letters."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date

import pytest
from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QFontInfo
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from app.drawing.theme import LIGHT
from app.features.paper.snapshot import snapshot_image
from app.files.settings import create_settings
from app.qt.controls.text_field import TextField
from app.qt.drafts import editors_in, place_of
from app.qt.sizes import px, set_text_percent, text_percent
from app.qt.themes import current_theme, set_theme
from app.window.lifecycle import speak
from app.window.program import Program
from app.window.settings_dialog import SettingsDialog
from app.window.window import prepared_application

Start = Callable[..., Program]


@pytest.fixture(autouse=True)
def _as_usual() -> Iterator[None]:
    yield
    speak(prepared_application(), "en")
    set_text_percent(100)
    set_theme(current_theme())


def choose(program: Program, **changes: object) -> None:
    """Choose settings as the dialog does, and let what follows from them happen."""
    program.preferences._change(changes)
    QApplication.processEvents()


def type_in(field: object, text: str) -> None:
    field.setFocus()  # type: ignore[attr-defined]
    field.selectAll()  # type: ignore[attr-defined]
    QTest.keyClicks(field, text)


def test_what_is_latched_for_comparing_is_still_seen(program: Program) -> None:
    window = program.window
    window.compare.keep()
    window.session.edit(front_angle_deg=21.0)
    QApplication.processEvents()
    window.compare.tap()
    choose(program, language="de")
    assert window.compare.swapped
    assert window.whose.isVisible()
    assert window.panel.rows["front_angle_deg"].number.text() == "43,0°"
    choose(program, language="en")
    window.compare.tap()
    QApplication.processEvents()
    assert window.panel.rows["front_angle_deg"].number.text() == "21.0°"


def test_a_language_chosen_is_spoken_at_once_and_nothing_is_lost(
    program: Program, qtbot: QtBot
) -> None:
    window, session = program.window, program.window.session
    session.edit(front_angle_deg=21.0)
    session.edit(rear_angle_deg=-3.0)
    session.undo()
    program.documents.work.session.edit(knee_bend_deg=50.0)
    window.compare.keep()
    window.panel.sections["mounts"].set_open(False)
    window.tray.open_page("Trials")
    window.steps.put_aside.click()
    step = window.steps.taken_note_of[0]
    window.panel.verticalScrollBar().setValue(120)
    type_in(window.panel.rows["stance_length_mm"].number, "5000")
    QTest.keyClick(window.panel.rows["stance_length_mm"].number, Qt.Key.Key_Return)
    window.present.setChecked(True)
    page = window.tray.current
    assert page is not None
    line = next(each for each in editors_in(page) if isinstance(each, TextField))
    type_in(line, "stiff at first")
    place = place_of(line)
    QApplication.processEvents()
    geometry, state = window.geometry(), window.windowState()
    steps, before = session.steps, session.setup
    panel = window.panel

    choose(program, language="de")

    assert not isValid(panel)
    assert program.window is window
    assert window.undo.text() == "Rückgängig"
    assert (session.steps, session.setup) == (steps, before)
    assert window.isWindowModified()
    assert program.keeper._work is program.documents.work
    assert window.tray.open_title == "Trials"
    assert window.compare.other == before
    assert not window.panel.sections["mounts"].is_open
    assert window.steps.taken_note_of[0] == step
    typed = {draft.text: draft.why for draft in program.documents.work.typed}
    assert set(typed) == {"5000", "stiff at first"}
    assert typed["5000"].startswith("nur ")
    assert not typed["stiff at first"]
    assert place_of(QApplication.focusWidget()) == place
    assert window.presenting.on
    assert not window.side.isVisible()
    assert (window.geometry(), window.windowState()) == (geometry, state)
    window.present.setChecked(False)
    assert window.side.isVisible()
    session.undo()
    QApplication.processEvents()
    assert window.panel.rows["knee_bend_deg"].number.text() == "45,0°"
    program.documents.desk.forget()
    choose(program, language="en")  # so that the question at the end is understood


class Shows(QObject):
    """Hears of every window that comes up."""

    def __init__(self) -> None:
        super().__init__()
        self.windows: list[str] = []

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        if event.type() == QEvent.Type.Show and isinstance(watched, QWidget) and watched.isWindow():
            self.windows.append(type(watched).__name__)
        return False


def test_no_other_window_comes_up_and_this_one_stays_in_front(program: Program) -> None:
    shows = Shows()
    QApplication.instance().installEventFilter(shows)  # type: ignore[union-attr]
    choose(program, language="de")
    QApplication.instance().removeEventFilter(shows)  # type: ignore[union-attr]
    assert not shows.windows
    assert program.window.isActiveWindow()


def test_page_scroll_and_keyboard_are_found_again(program: Program) -> None:
    window = program.window
    window.tray.open_page("Trials")
    window.panel.verticalScrollBar().setValue(window.panel.verticalScrollBar().maximum())
    slider = window.panel.rows["boot_ramp_deg"].slider
    slider.setFocus()
    QApplication.processEvents()
    assert window.panel.verticalScrollBar().value()
    choose(program, language="de")
    bar = window.panel.verticalScrollBar()
    assert window.panel.rows["boot_ramp_deg"].slider.hasFocus()
    assert bar.value() > 0.9 * bar.maximum()
    assert window.tray.open_title == "Trials"


def test_unsaved_work_is_kept_and_guarded_after_the_window_was_made_anew(
    program: Program,
) -> None:
    choose(program, language="de")
    program.window.session.edit(front_angle_deg=12.0)
    assert program.keeper.keep_now()
    assert program.keeper._kept is not None
    assert program.keeper._kept.document.setup.inputs.front_angle_deg == 12.0
    menu = [each.text() for each in program.window.files.actions()]
    assert {"Einstellungen…", "Fahrerordner…"} <= set(menu)
    assert len(menu) - len(set(menu)) == menu.count("") - 1
    choose(program, language="en")  # so that the question at the end is understood


@pytest.mark.parametrize("percent", [80, 150, 200])
def test_letters_of_another_size_are_everywhere_and_at_the_next_start(
    program: Program, started: Start, percent: int
) -> None:
    usual = program.window.panel.rows["front_angle_deg"].label
    size = QFontInfo(usual.font()).pixelSize()
    choose(program, text_percent=percent)
    assert text_percent() == percent
    for each in (program, started()):
        row = each.window.panel.rows["front_angle_deg"]
        assert QFontInfo(row.label.font()).pixelSize() == px(size)
        assert row.number.height() >= 24
        assert QFontInfo(each.window.tray.tabs[0].font()).pixelSize() == px(size)


def test_the_keys_make_letters_larger_smaller_and_usual_again_within_the_range(
    program: Program,
) -> None:
    def press(key: Qt.Key) -> int:
        QTest.keyClick(program.window, key, Qt.KeyboardModifier.ControlModifier)
        QApplication.processEvents()
        return create_settings().now.text_percent

    assert [press(Qt.Key.Key_Plus), press(Qt.Key.Key_Plus)] == [110, 120]
    assert press(Qt.Key.Key_Minus) == 110
    assert press(Qt.Key.Key_0) == 100
    program.preferences._settings.change(text_percent=200)
    assert press(Qt.Key.Key_Plus) == 200
    program.preferences._settings.change(text_percent=80)
    assert press(Qt.Key.Key_Minus) == 80


def test_the_dialog_is_open_again_in_the_new_language_with_what_was_typed_in_it(
    program: Program, qtbot: QtBot
) -> None:
    seen: list[object] = []

    def first() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, SettingsDialog)
        type_in(dialog.in_plane, "99")
        QTest.keyClick(dialog.in_plane, Qt.Key.Key_Return)
        seen.append(dialog.windowTitle())
        dialog.asked.emit({"language": "de"})

    def then() -> bool:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, SettingsDialog) or not dialog.language.hasFocus():
            return False
        seen.append((dialog.windowTitle(), dialog.in_plane.text()))
        dialog.in_plane.forget()
        dialog.close()
        return True

    QTimer.singleShot(0, first)
    look = QTimer()
    look.timeout.connect(lambda: then() and look.stop())
    QTimer.singleShot(50, lambda: look.start(20))
    program.preferences.show_dialog()
    qtbot.waitUntil(lambda: len(seen) == 2, timeout=5000)
    assert seen == ["Settings", ("Einstellungen", "99")]


def test_pictures_keep_their_own_size_of_letters(program: Program) -> None:
    shown = program.window.shown()
    assert shown is not None
    usual = snapshot_image(shown.frame, LIGHT, 1.0, date(2026, 1, 2))
    choose(program, text_percent=200)
    assert snapshot_image(shown.frame, LIGHT, 1.0, date(2026, 1, 2)) == usual


def test_what_stood_there_before_hears_nothing_of_the_set_up_any_more(program: Program) -> None:
    for way in program.window.tray.ways:
        way.trigger()
        QApplication.processEvents()
    choose(program, language="de")
    choose(program, language="en")
    session = program.window.session
    session.show_instead(None)
    before = session.setup
    session.edit(front_cant_deg=2.0)
    session.put_on.emit("It was put on.", before)  # what a slot raises fails the test
    session.undo()
    session.redo()
    session.begin_drag()
    session.end_drag()
    QApplication.processEvents()
    assert program.documents.notices.text.endswith("It was put on.")

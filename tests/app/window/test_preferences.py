"""What is set once stays set, in the window and at the next start."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import QPoint, QRect, Qt, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.drawing.theme import DARK, LIGHT
from app.files.settings import create_settings
from app.qt.placing import TITLE_BAR
from app.qt.themes import current_theme, set_theme
from app.stance.findings import USUAL_LIMITS, Limits
from app.window import preferences
from app.window.program import Program
from app.window.settings_dialog import SettingsDialog

Start = Callable[..., Program]


@pytest.fixture
def dialog(program: Program) -> SettingsDialog:
    """The dialog as the program connects it, shown without waiting for its end."""
    dialog = SettingsDialog(program.documents.settings.now, program.window)
    dialog.asked.connect(program.preferences._change)
    dialog.show()
    dialog.activateWindow()
    QApplication.processEvents()
    return dialog


def typed(field: object, text: str) -> None:
    field.setFocus()  # type: ignore[attr-defined]
    field.selectAll()  # type: ignore[attr-defined]
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def test_the_menu_opens_the_settings(program: Program) -> None:
    seen: list[object] = []
    entry = next(a for a in program.window.files.actions() if a.text().startswith("Settings"))
    QTimer.singleShot(0, lambda: seen.append(QApplication.activeModalWidget()))
    QTimer.singleShot(0, lambda: QApplication.activeModalWidget().close())
    entry.trigger()
    assert isinstance(seen[0], SettingsDialog)


def test_a_unit_chosen_shows_at_once_and_at_the_next_start(
    dialog: SettingsDialog, program: Program, started: Start
) -> None:
    dialog.unit.setFocus()
    QTest.keyClick(dialog.unit, Qt.Key.Key_End)
    dialog.unit.activated.emit(dialog.unit.currentIndex())
    for each in (program, started()):
        assert each.window.unit.currentText() == "in"
        assert each.window.panel.rows["stance_length_mm"].number.text().endswith(" in")


def test_limits_are_read_with_point_or_comma_and_judge_the_knees(
    dialog: SettingsDialog, program: Program, started: Start
) -> None:
    typed(dialog.in_plane, "3,0")
    QApplication.processEvents()
    assert create_settings().now.limits == Limits(3.0, 3.3)
    for each in (program, started()):
        QApplication.processEvents()
        assert "rear leg in its plane to within 2.6°" in each.window.sheet.accessibleDescription()


def test_neither_limit_passes_the_other(dialog: SettingsDialog) -> None:
    typed(dialog.in_plane, "9")
    assert "9: " in dialog.problem.text()
    assert create_settings().now.limits == USUAL_LIMITS
    typed(dialog.drifting, "12")
    typed(dialog.in_plane, "9")
    assert create_settings().now.limits == Limits(9.0, 12.0)


def test_everything_goes_back_to_the_usual(dialog: SettingsDialog, program: Program) -> None:
    typed(dialog.drifting, "12")
    QTest.mouseClick(dialog.usual, Qt.MouseButton.LeftButton)
    assert create_settings().now.limits == USUAL_LIMITS
    assert dialog.drifting.text() == "3.3°"


def test_the_desktops_own_dark_is_followed_unless_one_was_chosen(
    program: Program, monkeypatch: pytest.MonkeyPatch
) -> None:
    hints = QGuiApplication.styleHints()

    def desktop_is(name: str) -> None:
        monkeypatch.setattr(preferences, "_as_the_system", lambda: name)
        hints.colorSchemeChanged.emit(hints.colorScheme())

    program.preferences._change({"theme": "system"})
    for name, theme in (("dark", DARK), ("light", LIGHT)):
        desktop_is(name)
        assert current_theme() == theme
    program.preferences._change({"theme": "light"})
    desktop_is("dark")
    assert current_theme() == LIGHT


def test_dark_switched_in_the_bar_is_dark_at_the_next_start(
    program: Program, started: Start
) -> None:
    program.window.dark.trigger()
    assert create_settings().now.theme == "dark"
    set_theme(LIGHT)
    assert started().window.dark.isChecked()
    assert current_theme() is DARK


def test_the_first_window_is_no_larger_than_the_screen_allows(program: Program) -> None:
    screen = QGuiApplication.primaryScreen().availableGeometry()
    window = program.window
    assert window.width() == max(window.minimumWidth(), min(1280, screen.width()))
    assert window.height() == max(window.minimumHeight(), min(800, screen.height() - TITLE_BAR))


def test_the_window_comes_back_where_it_was_on_a_screen_that_exists(
    program: Program, started: Start
) -> None:
    screen = QGuiApplication.primaryScreen().availableGeometry()
    program.window.setGeometry(QRect(screen.x() + 20, screen.y() + 40, 1100, 720))
    program.window.close()
    where = started().window.geometry()
    assert screen.contains(where) or where.width() > screen.width()
    assert where.topLeft() == QPoint(*_expected(screen))


def _expected(screen: QRect) -> tuple[int, int]:
    """Where a window of that size can stand; the screen of the tests may be narrower."""
    return min(20, max(screen.width() - 1100, 0)), min(40, max(screen.height() - 720, 32))

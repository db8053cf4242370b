"""The whole window: from an event to what is shown, and back out as a picture."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QToolButton
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.drawing.theme import DARK, LIGHT, Theme
from app.features.paper.snapshot import WIDTH
from app.files.resources import starting_points
from app.handles import centre_of
from app.qt.sizes import set_text_percent
from app.qt.themes import current_theme, set_theme
from app.window.lifecycle import speak
from app.window.window import Window

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot)


def drag_front_foot(window: Window, up: int) -> None:
    sheet = window.sheet
    start = sheet.fit("above").point(centre_of(window.session.inputs, "front")).toPoint()
    QTest.mousePress(sheet, LEFT, pos=start)
    for i in range(1, 6):
        QTest.mouseMove(sheet, start - QPoint(0, up * i // 5))
        QApplication.processEvents()
    QTest.mouseRelease(sheet, LEFT, pos=start - QPoint(0, up))
    QApplication.processEvents()


def test_a_foot_dragged_in_the_drawing_moves_its_slider_in_one_step(window: Window) -> None:
    drag_front_foot(window, 40)
    assert window.session.inputs.stance_length_mm > 550.0
    row = window.panel.rows["stance_length_mm"]
    assert row.number.text().startswith(f"{window.session.inputs.stance_length_mm:.0f}")
    window.session.undo()
    assert window.session.inputs.stance_length_mm == 505.0
    assert window.session.undo_name == ""


def test_many_edits_in_one_turn_of_the_loop_are_drawn_once(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    QApplication.processEvents()
    drawn: list[object] = []
    show = window.sheet.show_frame
    monkeypatch.setattr(
        window.sheet, "show_frame", lambda *a, **k: (drawn.append(a), show(*a, **k))[1]
    )
    for angle in range(10, 30):
        window.session.edit(front_angle_deg=float(angle))
    QApplication.processEvents()
    assert len(drawn) == 1


def test_legs_that_contradict_each_other_are_told_and_drawing_goes_on(window: Window) -> None:
    window.session.edit(knee_height_mm=600.0, hip_height_mm=500.0)
    QApplication.processEvents()
    assert "knee height is 600 mm" in window.sheet.problem.casefold()
    window.session.undo()
    QApplication.processEvents()
    assert window.sheet.problem == ""


def test_every_starting_point_opens_and_can_be_undone(window: Window) -> None:
    before = window.session.setup
    for point in starting_points()[1:]:
        window.documents.start_from(point)
        QApplication.processEvents()
        assert window.session.setup != before
        window.session.undo()
        assert window.session.setup == before


def test_the_front_view_looks_where_it_is_told(window: Window) -> None:
    window.look.setCurrentIndex(1)
    window.look.activated.emit(1)
    QApplication.processEvents()
    assert "along the front foot" in window.sheet.accessibleDescription()


def test_the_drawings_are_told_in_words(window: Window) -> None:
    said = window.sheet.accessibleDescription()
    assert "rear leg 2.6° a little out, bow-legged" in said
    assert "binding angles 43 and 38 degrees" in said


def test_the_saved_picture_is_a_png_at_the_chosen_size(window: Window, tmp_path: Path) -> None:
    pictures = window.pictures
    pictures.sizes.actions()[0].trigger()
    pictures.write(tmp_path / "stance.png", pictures.picture, pictures.save_picture)
    image = QImage(str(tmp_path / "stance.png"))
    assert image.width() == WIDTH
    pictures.sizes.actions()[2].trigger()
    pictures.write(tmp_path / "large.png", pictures.picture, pictures.save_picture)
    assert QImage(str(tmp_path / "large.png")).width() == 3 * WIDTH


def test_a_picture_that_cannot_be_saved_is_said_and_nothing_is_left(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    monkeypatch.setattr(
        "app.features.paper.pictures.told_not_saved", lambda *args: said.append(args[1])
    )
    pictures, nowhere = window.pictures, tmp_path / "no such folder" / "stance.png"
    pictures.write(nowhere, pictures.picture, pictures.save_picture)
    assert len(said) == 1
    assert "stance.png" in said[0]
    assert list(tmp_path.rglob("*.png")) == []


def test_the_picture_can_be_copied(window: Window) -> None:
    window.pictures.copy_picture()
    assert not QGuiApplication.clipboard().image().isNull()


def test_pointing_at_a_control_lights_up_what_it_moves(window: Window) -> None:
    plain = window.sheet.grab().toImage()
    window.panel.pointed.emit("hip_spacing_mm")
    assert window.sheet.grab().toImage() != plain


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_nothing_in_the_bar_is_cut_off_in_the_smallest_window(window: Window, theme: Theme) -> None:
    set_theme(theme)
    window.resize(1024, 700)
    QApplication.processEvents()
    for action in window.bar.actions():
        widget = window.bar.widgetForAction(action)
        assert widget is not None
        if isinstance(widget, QToolButton) and widget.text() == "More":
            assert not widget.isVisible(), "all has room at the usual size"
            continue
        assert widget.isVisible()
        assert widget.width() >= widget.minimumSizeHint().width()
        assert window.bar.rect().contains(widget.geometry())


@pytest.fixture
def german(qapp: QApplication) -> Iterator[None]:
    speak(qapp, "de")
    yield
    speak(qapp, "en")


def test_the_bar_fits_the_smallest_window_in_the_language_of_the_longest_words(
    german: None, window: Window
) -> None:
    for presented in (False, True):
        window.present.setChecked(presented)
        QApplication.processEvents()
        window.resize(1024, 700)
        QApplication.processEvents()
        assert window.bar.sizeHint().width() <= window.width()
        every = window.bar.findChildren(QToolButton)
        buttons = [each for each in every if each.text() not in ("", "Mehr")]
        # While presenting the bar is away until the pointer comes to its edge.
        assert all(each.isVisibleTo(window.bar) for each in buttons)


@pytest.mark.qt_log_ignore("This plugin does not support")
def test_what_large_letters_leave_no_room_for_is_in_a_menu_and_hears_its_keys(
    window: Window, qtbot: QtBot
) -> None:
    set_text_percent(200)
    set_theme(LIGHT)
    window.rebuild()
    window.resize(1024, 700)
    QApplication.processEvents()
    try:
        buttons = {each.text(): each for each in window.bar.findChildren(QToolButton)}
        assert buttons["More"].isVisible()
        assert not buttons["Caution"].isVisible()
        shown = [each for each in buttons.values() if each.isVisible()]
        assert all(window.bar.rect().contains(each.geometry()) for each in shown)
        menu = buttons["More"].menu()
        menu.popup(window.mapToGlobal(window.rect().center()))
        entries = {each.text(): each for each in menu.actions()}
        menu.close()
        assert list(entries)[-2:] == ["Help", "Caution"]
        chosen = entries["How the front view looks"].menu().actions()
        assert [each.isChecked() for each in chosen].count(True) == 1
        chosen[1].trigger()
        assert window.look.currentIndex() == 1
        dark = current_theme().dark
        qtbot.keyClick(window, Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
        assert current_theme().dark != dark, "out of sight, it hears its key"
        window.resize(1920, 1080)
        QApplication.processEvents()
        assert buttons["Caution"].isVisible()
        assert not buttons["More"].isVisible()
    finally:
        set_text_percent(100)
        set_theme(LIGHT)


def test_presenting_puts_the_controls_away_and_back(window: Window) -> None:
    window.present.trigger()
    QApplication.processEvents()
    assert window.isFullScreen()
    assert not window.panel.isVisible()
    window.present.trigger()
    QApplication.processEvents()
    assert not window.isFullScreen()
    assert window.panel.isVisible()


def test_undo_and_redo_are_offered_only_when_there_is_something(window: Window) -> None:
    assert not window.undo.isEnabled()
    window.session.edit(front_angle_deg=20.0)
    QApplication.processEvents()
    assert window.undo.isEnabled()
    window.undo.trigger()
    QApplication.processEvents()
    assert window.redo.isEnabled()
    assert not window.undo.isEnabled()


def test_a_foot_dragged_far_does_not_run_away_from_the_hand(window: Window) -> None:
    before = window.session.inputs.stance_length_mm
    scale = window.sheet.fit("above").scale
    drag_front_foot(window, 35)
    grown = window.session.inputs.stance_length_mm - before
    assert grown == pytest.approx(2.0 * 35.0 / scale, abs=6.0)

"""Comparing in the window: a ghost, a key to hold, both side by side, picture and page."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from pathlib import Path

import pypdf
import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QToolButton
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.drawing.marks import Span
from app.drawing.theme import DARK, LIGHT
from app.features.compare import menu
from app.features.compare.beside import CompareWindow, comparison_image, comparison_pdf
from app.features.compare.menu import HOLD_KEY
from app.features.compare.model import Row, sentence_of
from app.features.compare.painting import Pair, shares_of
from app.features.compare.scene import ROLE
from app.files.resources import SHARED
from app.files.storage import opened
from app.frame import frame
from app.handles import centre_of
from app.qt.painting.easel import Easel
from app.qt.painting.page_painting import BODY
from app.qt.placing import TITLE_BAR
from app.qt.themes import set_theme
from app.rider.setup import Setup, edited
from app.stance.findings import CAUTION
from app.window.window import Window, prepared_application
from app.words.lengths import Lengths

DAY = date(2026, 1, 31)
DUCK = SHARED / "soft-boots-duck.json"


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, size=(1024, 700))


def settle() -> None:
    QApplication.processEvents()
    QApplication.processEvents()


def beside(window: Window) -> CompareWindow:
    window.compare.keep()
    window.session.edit(front_angle_deg=20.0)
    settle()
    window.compare.show_beside()
    return window.compare.beside


def test_no_cell_of_a_table_runs_into_the_next_however_long_its_words(qapp: object) -> None:
    prepared_application()
    words = ("Bindungswinkel hinten", "3,09° Cant nach innen", "1,93° Cant nach innen")
    rows = [Row(*words, "gleich nah an seiner Ebene"), Row("Lift vorn", "flach", "flach", "0°")]
    image = QImage(800, 200, QImage.Format.Format_RGB32)
    with QPainter(image) as painter:
        easel = Easel(painter, LIGHT)
        begins = [share * 600.0 for share in shares_of(easel, rows, 600.0)]
        ends = [at + easel.width(cell, BODY, 400) for at, cell in zip(begins, rows[0], strict=True)]
    assert begins[0] == 0.0
    assert all(end + 6.0 < begin for end, begin in zip(ends, (*begins[1:], 606.5), strict=True))


def test_escape_closes_the_window_side_by_side(window: Window, qtbot: QtBot) -> None:
    side = beside(window)
    qtbot.waitExposed(side)
    side.activateWindow()
    settle()
    QTest.keyClick(side, Qt.Key.Key_Escape)
    assert not side.isVisible()


def drawn_angles(window: Window) -> tuple[float, float]:
    """Binding angles of the stance that the drawings show."""
    shown = window.sheet._frame
    assert shown is not None
    return shown.setup.inputs.front_angle_deg, shown.setup.inputs.rear_angle_deg


def ghost_is_drawn(window: Window) -> bool:
    shown = window.sheet._frame
    assert shown is not None
    return any(mark.role == ROLE for mark in shown.scenes["above"].marks)


def pair() -> Pair:
    live = edited(Setup(name="Kim"), front_cant_deg=4.0)
    return Pair(frame(live), frame(opened(DUCK).setup))


def test_a_kept_set_up_stays_as_a_ghost_behind_what_is_tried(window: Window) -> None:
    window.compare.keep()
    window.session.edit(front_angle_deg=20.0)
    settle()
    assert ghost_is_drawn(window)
    assert drawn_angles(window) == (20.0, 38.0)
    assert window.compare.bar.isVisible()
    assert "1 input differs" in window.compare.bar.text


def test_no_ghost_leaves_the_program_with_the_picture_of_one_stance(window: Window) -> None:
    window.compare.keep()
    window.session.edit(front_angle_deg=20.0)
    settle()
    shown = window.shown()
    assert shown is not None
    assert not any(m.role == ROLE for scene in shown.frame.scenes.values() for m in scene.marks)


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every press counts as a long one."""
    monkeypatch.setattr(menu, "TAP_MS", -1)


@pytest.mark.usefixtures("held")
def test_holding_the_key_shows_the_other_and_letting_go_the_live_one(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    settle()
    QTest.keyPress(window.sheet, HOLD_KEY)
    settle()
    assert drawn_angles(window) == (15.0, -12.0)
    assert ghost_is_drawn(window)
    QTest.keyRelease(window.sheet, HOLD_KEY)
    settle()
    assert drawn_angles(window) == (43.0, 38.0)
    assert window.session.undo_name == ""


def test_the_key_works_from_a_number_field_too(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    number = window.panel.rows["stance_length_mm"].number
    number.setFocus()
    QTest.keyPress(number, HOLD_KEY)
    settle()
    assert drawn_angles(window) == (15.0, -12.0)
    QTest.keyRelease(number, HOLD_KEY)


@pytest.mark.usefixtures("held")
def test_the_button_swaps_while_it_is_held(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    settle()
    QTest.mousePress(window.compare.bar.swap, Qt.MouseButton.LeftButton)
    settle()
    assert drawn_angles(window) == (15.0, -12.0)
    assert "Park rider" in window.compare.bar.text
    QTest.mouseRelease(window.compare.bar.swap, Qt.MouseButton.LeftButton)
    settle()
    assert drawn_angles(window) == (43.0, 38.0)


def tap(window: Window, by: str) -> None:
    """One short press of the key, the button or the entry of the menu."""
    if by == "key":
        QTest.keyClick(window.sheet, HOLD_KEY)
    elif by == "button":
        QTest.mouseClick(window.compare.bar.swap, Qt.MouseButton.LeftButton)
    else:
        entries = {each.text(): each for each in window.compare.menu.actions()}
        entries["See the other set-up"].trigger()
    settle()


@pytest.mark.parametrize("by", ["key", "button", "menu"])
def test_a_tap_shows_the_other_until_the_next_one(window: Window, by: str) -> None:
    window.compare.compare_with_file(DUCK)
    tap(window, by)
    assert drawn_angles(window) == (15.0, -12.0)
    assert "until you ask again" in window.compare.bar.text
    assert window.compare.bar.swap.isChecked()
    tap(window, by)
    assert drawn_angles(window) == (43.0, 38.0)
    assert not window.compare.bar.swap.isChecked()
    assert window.session.undo_name == ""


def test_what_was_latched_stays_while_another_window_has_the_keyboard(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    tap(window, "key")
    QApplication.sendEvent(window, QEvent(QEvent.Type.WindowDeactivate))
    settle()
    assert drawn_angles(window) == (15.0, -12.0)


def test_a_change_of_the_live_set_up_shows_that_again(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    tap(window, "key")
    window.session.edit(front_angle_deg=20.0)
    settle()
    assert drawn_angles(window) == (20.0, 38.0)


def test_the_panel_shows_the_numbers_that_are_seen_and_whose_they_are(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    row = window.panel.rows["front_angle_deg"]
    row.number.setFocus()
    assert row.number.text() == "43.0°"
    tap(window, "key")
    assert row.number.text() == "15.0°"
    assert not row.slider.isEnabled(), "what is seen is not what a move would change"
    assert window.whose.isVisible()
    assert window.whose.words.text() == "Seen now: Park rider in soft boots"
    tap(window, "key")
    assert row.number.text() == "43.0°"
    assert row.slider.isEnabled()
    assert not window.whose.isVisible()
    assert row.number.hasFocus()


def test_a_set_up_without_a_name_is_told_all_the_same(window: Window) -> None:
    window.session.take("name", replace(window.session.setup, name=""))
    window.compare.keep()
    tap(window, "key")
    assert window.whose.words.text() == "Seen now: unnamed"
    assert "This is unnamed, kept, until" in window.compare.bar.text


def test_the_sentence_is_true_at_every_step_of_a_drag(window: Window) -> None:
    window.compare.keep()
    settle()
    assert "front knee as near its plane" in window.compare.bar.text
    window.session.begin_drag()
    for cant in (-4.0, -9.0, -12.0):
        window.session.edit(front_cant_deg=cant)
        settle()
        live, other = window.shown(), window.compare.other_frame
        assert live is not None
        assert other is not None
        assert window.compare.bar.text == sentence_of(live.frame, other)
        assert "further out" in window.compare.bar.text
    window.session.end_drag()
    settle()
    assert window.compare.bar.text in window.compare.bar._said.toolTip()


def test_a_window_that_loses_the_keyboard_shows_the_live_stance_again(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    window.compare.swap(True)
    QApplication.sendEvent(window, QEvent(QEvent.Type.WindowDeactivate))
    assert not window.compare.swapped


def test_the_other_set_up_cannot_be_dragged_while_it_is_shown(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    window.compare.swap(True)
    settle()
    before = window.session.setup
    at = window.sheet.fit("above").point(centre_of(opened(DUCK).setup.inputs, "front")).toPoint()
    QTest.mousePress(window.sheet, Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseMove(window.sheet, at + at / 10)
    QTest.mouseRelease(window.sheet, Qt.MouseButton.LeftButton, pos=at + at / 10)
    settle()
    assert window.session.setup == before


def test_without_another_set_up_the_key_does_nothing(window: Window) -> None:
    QTest.keyPress(window.sheet, HOLD_KEY)
    assert not window.compare.swapped
    assert not window.compare.bar.isVisible()


def test_stopping_takes_ghost_bar_and_window_away(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    settle()
    window.compare.show_beside()
    window.compare.bar.stop.click()
    settle()
    assert not ghost_is_drawn(window)
    assert not window.compare.bar.isVisible()
    assert not window.compare.beside.isVisible()


def test_a_file_that_cannot_be_compared_is_said_and_nothing_changes(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    monkeypatch.setattr("app.features.compare.menu.tell", lambda *args: said.append(args[2]))
    window.compare.compare_with_file(tmp_path / "none.json")
    assert "there is no such file" in said[0]
    assert window.compare.other is None


def test_a_picture_can_be_compared_with(window: Window, tmp_path: Path) -> None:
    pictures = window.pictures
    pictures.write(tmp_path / "a.png", pictures.picture, pictures.save_picture)
    window.session.edit(front_angle_deg=20.0)
    window.compare.compare_with_file(tmp_path / "a.png")
    settle()
    assert window.compare.other == Setup()


def test_the_ghost_follows_the_look_of_the_front_view(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    window.look.setCurrentIndex(1)
    window.look.activated.emit(1)
    settle()
    assert window.compare.other_frame is not None
    assert window.compare.other_frame.scenes["front"].title.endswith("along the front foot")


def test_the_bar_fits_in_the_smallest_window(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    settle()
    for button in (window.compare.bar.swap, window.compare.bar.beside, window.compare.bar.stop):
        assert button.isVisible()
        assert window.compare.bar.rect().contains(button.geometry())


def test_the_window_side_by_side_follows_every_change(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    settle()
    window.compare.show_beside()
    window.session.edit(front_angle_deg=20.0)
    settle()
    beside = window.compare.beside.drawing
    assert beside.pair is not None
    assert beside.pair.live.setup == window.session.setup
    assert beside.accessibleDescription() == beside.pair.said.sentence


def test_the_buttons_of_the_window_side_by_side_are_on_the_screen(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    settle()
    window.compare.show_beside()
    beside = window.compare.beside
    assert beside.height() + TITLE_BAR <= beside.screen().availableSize().height()


def test_the_window_side_by_side_takes_the_colours_of_the_program(window: Window) -> None:
    window.compare.compare_with_file(DUCK)
    settle()
    window.compare.show_beside()
    set_theme(DARK)
    settle()
    shown = window.compare.beside.drawing.grab().toImage()
    assert shown.pixelColor(1, 1).name() == DARK.paper


def test_the_picture_of_both_carries_the_live_set_up(window: Window, tmp_path: Path) -> None:
    window.compare.compare_with_file(DUCK)
    window.session.edit(front_angle_deg=20.0)
    settle()
    window.compare.show_beside()
    beside = window.compare.beside
    window.pictures.write(tmp_path / "both.png", beside.picture, beside.save_picture)
    assert opened(tmp_path / "both.png").setup == window.session.setup


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_picture_shows_both_stances_in_the_colours_asked_for(qapp: object, theme: object) -> None:
    made = comparison_image(pair(), theme, 0.5, DAY)  # type: ignore[arg-type]
    assert (made.width(), made.height()) == (700, 500)
    swapped = Pair(pair().other, pair().live)
    other = comparison_image(swapped, theme, 0.5, DAY)  # type: ignore[arg-type]
    assert made.copy(0, 0, 340, 350) != other.copy(0, 0, 340, 350)


@pytest.mark.parametrize(("paper", "size"), [("A4", (842, 595)), ("Letter", (792, 612))])
def test_the_page_of_both_can_be_searched(qapp: object, paper: str, size: tuple[int, int]) -> None:
    prepared_application()
    (page,) = pypdf.PdfReader(io.BytesIO(comparison_pdf(pair(), paper, DAY))).pages
    assert (round(page.mediabox.width), round(page.mediabox.height)) == size
    text = " ".join(page.extract_text().split())
    said = pair().said
    wanted = [cell for row in (*said.inputs, *said.knees) for cell in row]
    wanted += [said.live, said.other, CAUTION, DAY.isoformat(), "From above"]
    assert [each for each in wanted if each not in text] == []


def test_two_equal_stances_are_said_to_be_equal(qapp: object) -> None:
    prepared_application()
    same = Pair(frame(Setup()), frame(Setup()))
    (page,) = pypdf.PdfReader(io.BytesIO(comparison_pdf(same, "A4", DAY))).pages
    assert "Nothing: both stances are the same." in page.extract_text()


def test_the_other_set_up_is_shown_in_the_unit_chosen_too(window: Window) -> None:
    window.compare.keep()
    window.session.edit(stance_length_mm=600.0)
    window.show_lengths(Lengths("in"))
    window.compare.swap(True)
    settle()
    shown = window.sheet._frame
    assert shown is not None
    texts = {mark.key: mark.text for mark in shown.scenes["above"].marks if isinstance(mark, Span)}
    assert texts["length"] == "19.9 in"


def test_comparing_has_a_menu_of_its_own_on_the_bar(window: Window) -> None:
    buttons = window.bar.findChildren(QToolButton)
    (button,) = (each for each in buttons if each.text() == "Compare")
    assert button.isVisible()
    shown = button.menu()
    assert isinstance(shown, QMenu)
    keys = {action.text(): action.shortcut().toString() for action in shown.actions()}
    assert keys == {
        "Keep this set-up to compare": "Ctrl+K",
        "Compare with a file…": "Ctrl+Shift+K",
        "Side by side…": "Ctrl+B",
        "See the other set-up": "F8",
        "Stop comparing": "Ctrl+Shift+B",
    }
    pictures = {action.text() for action in window.pictures.actions()}
    assert not pictures & keys.keys()

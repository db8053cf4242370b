"""The page about the board by mouse and keyboard."""

from __future__ import annotations

from dataclasses import replace

import pytest
from opened_pages import opened_page, overfull, type_and_enter
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from shown_windows import clicked_open

from app.drawing.theme import DARK
from app.features.board.page import WIDE, BoardPage
from app.qt.painting.snug_picture import boxes_of, snug
from app.qt.themes import set_theme
from app.rider.board import BoardInputs
from app.rider.setup import Setup, edited
from app.session import Session
from app.window.window import Window, prepared_application

SIZES = ((700, 312), (956, 312))
BOARD = BoardInputs(
    waist_width_mm=250.0,
    plate_height_mm=30.0,
    boot_sole_length_mm=300.0,
    boot_sole_width_mm=100.0,
)


@pytest.fixture
def session() -> Session:
    across = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=90.0)
    return Session(replace(across, board=BOARD))


@pytest.fixture(params=SIZES)
def page(qtbot: QtBot, session: Session, request: pytest.FixtureRequest) -> BoardPage:
    return opened_page(qtbot, BoardPage, session, request.param)


def said(page: BoardPage) -> str:
    return f"{page.words.flags.text()} {page.words.words.text()}"


def test_a_typed_size_is_one_step_and_changes_words_and_drawings(
    page: BoardPage, session: Session, qtbot: QtBot
) -> None:
    page.rows["plate_height_mm"].number.setFocus()
    type_and_enter(qtbot, page.rows["waist_width_mm"].number, "310")
    assert session.setup.board.waist_width_mm == 310.0
    assert session.undo_name == "Waist width: 310 mm"
    assert "5 mm inside, never touches" in page.pictures["above"].accessibleDescription()
    session.undo()
    assert "25 mm over, touches at 57°" in page.pictures["above"].accessibleDescription()


def test_a_boot_that_touches_before_the_wanted_angle_is_flagged_in_words(
    page: BoardPage, session: Session, qtbot: QtBot
) -> None:
    assert page.words.flags.text() == (
        "Below the wanted 60°: front boot 57° toe side, 57° heel side."
    )
    type_and_enter(qtbot, page.rows["wanted_edge_deg"].number, "57")
    assert not page.words.flags.isVisible()
    assert page.words.words.text().startswith(
        "Both boots stay clear of the snow up to 57°. Told of the soles as drawn"
    )


def test_lift_and_cant_of_the_mounts_are_part_of_the_answer(
    page: BoardPage, session: Session
) -> None:
    session.edit(front_lift_deg=6.0)
    assert "front boot 45° heel side" in said(page)


def test_an_emptied_sole_follows_the_foot_and_says_so(
    page: BoardPage, session: Session, qtbot: QtBot
) -> None:
    field = page.rows["boot_sole_length_mm"].number
    field.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert session.setup.board.boot_sole_length_mm == 0.0
    assert session.undo_name == "Sole length: 286 mm"
    assert (field.text(), field.placeholderText()) == ("", "286 mm")


def test_arrow_keys_step_from_what_an_empty_field_stands_for(
    page: BoardPage, session: Session, qtbot: QtBot
) -> None:
    assert page.rows["sidecut_radius_mm"].number.placeholderText() == "straight"
    for _ in range(3):
        qtbot.keyPress(page.rows["sidecut_radius_mm"].number, Qt.Key.Key_Down)
    qtbot.keyRelease(page.rows["sidecut_radius_mm"].number, Qt.Key.Key_Down)
    assert session.setup.board.sidecut_radius_mm == 8500.0
    session.undo()
    assert session.setup.board.sidecut_radius_mm == 0.0


def test_a_size_out_of_range_is_refused_in_full_words_until_typing_goes_on(
    page: BoardPage, session: Session, qtbot: QtBot
) -> None:
    type_and_enter(qtbot, page.rows["plate_height_mm"].number, "700")
    assert "Plate height: “700” was not taken: 0 to 200 mm only." in page.words.flags.text()
    assert session.setup.board.plate_height_mm == 30.0
    type_and_enter(qtbot, page.rows["plate_height_mm"].number, "70")
    assert "not taken" not in page.words.flags.text()


def test_a_sole_wider_than_long_is_told_and_the_drawings_wait(
    page: BoardPage, session: Session, qtbot: QtBot
) -> None:
    type_and_enter(qtbot, page.rows["boot_sole_length_mm"].number, "120")
    type_and_enter(qtbot, page.rows["boot_sole_width_mm"].number, "130")
    assert "wider than it is long" in page.words.flags.text()
    assert not any(picture.isVisible() for picture in page.pictures.values())
    session.undo()
    assert any(picture.isVisible() for picture in page.pictures.values())


def test_where_room_is_short_a_key_leads_from_drawing_to_drawing(
    qtbot: QtBot, session: Session
) -> None:
    page = opened_page(qtbot, BoardPage, session, SIZES[0])
    shown = [name for name, picture in page.pictures.items() if picture.isVisible()]
    page.view.setFocus()
    qtbot.keyClick(page.view, Qt.Key.Key_Down)
    assert shown == ["above"]
    assert page.pictures["front"].isVisible()
    page.resize(WIDE, 312)
    assert all(picture.isVisible() for picture in page.pictures.values())
    assert not page.view.isVisible()


def test_a_drag_shows_straight_edges_live_and_curved_ones_at_its_end(
    page: BoardPage, session: Session
) -> None:
    session.begin_drag()
    session.edit(front_angle_deg=90.0)
    assert "front boot" not in page.words.flags.text()
    session.end_drag()
    curved = replace(BOARD, sidecut_radius_mm=8000.0, wanted_edge_deg=70.0)
    session.take("side-cut", replace(session.setup, board=curved))
    session.begin_drag()
    session.edit(front_angle_deg=0.0)
    assert "front boot" not in page.words.flags.text()
    session.end_drag()
    assert "front boot" in page.words.flags.text()


def test_nothing_written_is_cut_off(page: BoardPage, session: Session) -> None:
    session.edit(front_lift_deg=-15.0, rear_cant_deg=12.0, rear_angle_deg=-20.0)
    QApplication.processEvents()
    assert overfull(page) == []
    for picture in page.pictures.values():
        scene, area = picture.scene, picture.area
        if not picture.isVisible() or scene is None:
            continue
        fit = snug(scene, area, DARK)
        for x, y, left, right, above, below in boxes_of(scene, DARK):
            at = fit.point((x, y))
            assert area.left() - 0.01 <= at.x() - left
            assert at.x() + right <= area.right() + 0.01
            assert area.top() - 0.01 <= at.y() - above
            assert at.y() + below <= area.bottom() + 0.01


def test_the_page_opens_from_its_tab_and_has_room_in_the_smallest_window(
    qtbot: QtBot, session: Session
) -> None:
    prepared_application()
    set_theme(DARK)
    window = Window(session)
    qtbot.addWidget(window)
    window.resize(window.minimumSize())
    window.show()
    opened = clicked_open(window, "Board", BoardPage)
    accent = opened.words.flags.palette().color(opened.words.flags.foregroundRole())
    assert accent.name() == DARK.accent_text
    QApplication.processEvents()
    bottom = window.tray.mapTo(window, window.tray.rect().bottomLeft()).y()
    assert bottom < window.height()

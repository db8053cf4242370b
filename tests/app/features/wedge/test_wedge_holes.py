"""Typed holes on the page of a wedge, and its lengths in the unit chosen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import ezdxf
import pytest
import trimesh
from opened_pages import opened_page, overfull, type_and_enter
from PySide6.QtCore import QRectF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from app.drawing.marks import Label
from app.drawing.theme import LIGHT
from app.features.wedge.hole_list import HoleLines
from app.features.wedge.model import with_spots
from app.features.wedge.page import WedgePage
from app.files.storage import Document, opened, save
from app.frame import frame
from app.qt.painting.snug_picture import boxes_of, snug
from app.rider.setup import Setup, edited
from app.rider.wedge import WedgeInputs
from app.session import Session
from app.words.lengths import Lengths

GRID_SPOTS = 4
SIZES = ((700, 312), (956, 312))


@pytest.fixture
def session() -> Session:
    return Session(edited(Setup(), front_lift_deg=3.0, front_cant_deg=5.0, front_angle_deg=0.0))


@pytest.fixture(params=SIZES)
def page(qtbot: QtBot, session: Session, request: pytest.FixtureRequest) -> Iterator[WedgePage]:
    page = opened_page(qtbot, WedgePage, session, request.param)
    yield page
    page.hide()


@pytest.fixture
def lines(page: WedgePage, qtbot: QtBot) -> HoleLines:
    """The list of the holes, chosen with the keyboard."""
    page.form.holes.setFocus()
    qtbot.keyClick(page.form.holes, Qt.Key.Key_Down)
    lines = page.form.spots.lines
    lines.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(lines.hasFocus)
    return lines


def retype(lines: HoleLines, text: str) -> None:
    """Type over all that stands there, and go on with the tab key."""
    lines.setFocus(Qt.FocusReason.TabFocusReason)
    lines.selectAll()
    QTest.keyClicks(lines, text)
    QTest.keyClick(lines, Qt.Key.Key_Tab)


def in_inches(page: WedgePage, session: Session) -> None:
    """Show the set-up as the window does once inches are chosen."""
    page.show_frame(frame(session.setup, lengths=Lengths("in")), dragging=False)


def said(page: WedgePage) -> str:
    return f"{page.words.flags.text()} {page.words.words.text()}"


def test_a_grid_becomes_typed_holes_in_the_same_places(
    page: WedgePage, session: Session, lines: HoleLines
) -> None:
    assert lines.toPlainText() == "−20, −20\n−20, 20\n20, −20\n20, 20"
    assert lines.isVisible()
    assert not page.rows["grid_along_mm"].isVisible()
    assert session.undo_name == "Wedge: holes as typed"
    session.undo()
    assert not lines.isVisible()
    assert page.rows["grid_along_mm"].isVisible()


def test_holes_are_taken_on_leaving_and_undo_takes_them_back(
    page: WedgePage, session: Session, lines: HoleLines
) -> None:
    retype(lines, "50,5 30")
    assert session.setup.wedge.hole_spots_mm == ((50.5, 30.0),)
    assert lines.toPlainText() == "50.5, 30"
    assert session.undo_name == "Wedge, holes as typed: 1"
    session.undo()
    assert len(session.setup.wedge.hole_spots_mm) == GRID_SPOTS
    assert lines.toPlainText().startswith("−20, −20\n")


def test_the_return_key_takes_a_hole_and_typing_goes_on_in_the_next_line(
    session: Session, lines: HoleLines
) -> None:
    lines.selectAll()
    QTest.keyClicks(lines, "50 30")
    QTest.keyClick(lines, Qt.Key.Key_Return)
    assert session.setup.wedge.hole_spots_mm == ((50.0, 30.0),)
    QTest.keyClicks(lines, "-50 30")
    QTest.keyClick(lines, Qt.Key.Key_Return)
    assert session.setup.wedge.hole_spots_mm == ((50.0, 30.0), (-50.0, 30.0))
    assert lines.toPlainText() == "50 30\n-50 30\n"


def test_nonsense_is_told_and_stays_to_be_mended(
    page: WedgePage, session: Session, lines: HoleLines
) -> None:
    before = session.setup
    retype(lines, "20")
    assert "Holes not taken: hole 1, “20”, has one number only" in page.words.flags.text()
    assert "Those taken before stand." in page.words.flags.text()
    assert (session.setup, lines.toPlainText()) == (before, "20")
    retype(lines, "20 30")
    assert "not taken" not in said(page)
    assert session.setup.wedge.hole_spots_mm == ((20.0, 30.0),)


def test_another_number_typed_leaves_the_refusal_of_the_holes_in_sight(
    page: WedgePage, lines: HoleLines, qtbot: QtBot
) -> None:
    retype(lines, "20")
    type_and_enter(qtbot, page.rows["width_mm"].number, "120")
    assert "Holes not taken" in page.words.flags.text()
    assert lines.toPlainText() == "20"


def test_escape_brings_back_the_holes_that_stand(
    page: WedgePage, session: Session, lines: HoleLines
) -> None:
    retype(lines, "nonsense")
    lines.setFocus()
    QTest.keyClick(lines, Qt.Key.Key_Escape)
    assert lines.toPlainText().startswith("−20, −20\n")
    assert "not taken" not in said(page)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("0 0\n0 5", "Holes 1 and 2 stand 5 mm apart and cut each other"),
        ("300 0", "Hole 1 lies outside the footprint"),
        ("86 0", "Hole 1 leaves 0.7 mm of wall to the outside"),
    ],
)
def test_holes_that_cannot_be_are_told_and_cannot_be_saved(
    page: WedgePage, lines: HoleLines, text: str, words: str
) -> None:
    lines.setPlainText(text)
    lines.document().setModified(True)
    QTest.keyClick(lines, Qt.Key.Key_Tab)
    assert words in page.words.flags.text()
    assert not any(button.isEnabled() for button in page.form.saves.values())


def test_without_a_line_there_are_no_holes(
    page: WedgePage, session: Session, lines: HoleLines
) -> None:
    lines.selectAll()
    QTest.keyClick(lines, Qt.Key.Key_Delete)
    QTest.keyClick(lines, Qt.Key.Key_Tab)
    assert session.setup.wedge.hole_spots_mm == ()
    assert session.undo_name == "Wedge, holes as typed: none"
    assert "Screws longer" not in said(page)


def test_the_drawing_and_both_files_show_the_typed_holes(
    page: WedgePage, lines: HoleLines, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    retype(lines, "60 30.5")
    scene = page.picture.scene
    assert scene is not None
    assert "1 hole ⌀6.5" in scene.text
    for ending, button in page.form.saves.items():
        name = str(tmp_path / f"mine.{ending}")
        monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, name=name: (name, ""))
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    # trimesh and ezdxf's reader know nothing of what was typed.
    solid = trimesh.load(tmp_path / "mine.stl")
    assert (solid.is_watertight, solid.euler_number) == (True, 0)
    (hole,) = ezdxf.readfile(tmp_path / "mine.dxf").modelspace().query("CIRCLE")
    assert (hole.dxf.center.x, hole.dxf.center.y, hole.dxf.radius) == (60.0, 30.5, 3.25)


def test_typed_holes_survive_their_file(tmp_path: Path, session: Session) -> None:
    setup = with_spots(session.setup, ((28.284271, -0.5),))
    save(tmp_path / "a.json", Document(setup))
    assert opened(tmp_path / "a.json").setup == setup


def test_fields_figures_and_drawing_follow_the_unit_and_nothing_stored_moves(
    page: WedgePage, session: Session, lines: HoleLines
) -> None:
    before = session.setup
    in_inches(page, session)
    assert page.rows["length_mm"].number.text() == "7.087 in"
    assert page.form.spots.columns.text() == "ahead, to the little toe, in"
    assert lines.toPlainText().startswith("−0.787, −0.787\n")
    assert "Screws longer by 0." in said(page)
    assert page.picture.scene is not None
    assert "Sizes in inches; the STL and DXF files are in mm." in page.picture.scene.text
    lines.document().setModified(True)
    QTest.keyClick(lines, Qt.Key.Key_Tab)
    page.show_frame(frame(session.setup), dragging=False)
    assert session.setup == before
    assert lines.toPlainText().startswith("−20, −20\n")


def test_what_is_typed_counts_in_the_unit_shown(
    page: WedgePage, session: Session, qtbot: QtBot
) -> None:
    in_inches(page, session)
    number = page.rows["length_mm"].number
    number.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClicks(number, "8")
    page.rows["length_mm"].asked.disconnect()
    with qtbot.waitSignal(page.rows["length_mm"].asked) as asked:
        QTest.keyClick(number, Qt.Key.Key_Return)
    assert asked.args == ["length_mm", pytest.approx(203.2)]


def test_the_history_names_a_number_in_the_unit_shown(page: WedgePage, session: Session) -> None:
    in_inches(page, session)
    page.rows["length_mm"].asked.emit("length_mm", 203.2)
    assert session.undo_name == "Wedge, length: 8.000 in"


def test_the_buttons_say_that_files_are_in_millimetres(page: WedgePage) -> None:
    for button in page.form.saves.values():
        assert button.toolTip() == "In millimetres, whichever unit is chosen."


def test_the_large_drawing_follows_the_unit(page: WedgePage, session: Session) -> None:
    QTest.mouseClick(page.form.open, Qt.MouseButton.LeftButton)
    assert page.large is not None
    in_inches(page, session)
    assert "Sizes in inches" in page.large.picture.accessibleDescription()


def test_nothing_written_is_cut_off_beside_typed_holes_in_inches(
    page: WedgePage, session: Session, lines: HoleLines
) -> None:
    retype(lines, "300 0")
    in_inches(page, session)
    assert overfull(page) == []
    columns = page.form.spots.columns
    assert columns.sizeHint().width() <= columns.width()
    for row in page.rows.values():
        number = row.number
        assert number.fontMetrics().horizontalAdvance(number.text()) <= number.width() - 9, row.name
    assert page.form.foot.width() >= page.form.foot.sizeHint().width()


@pytest.mark.parametrize(
    "wedge",
    [
        {},
        {"length_mm": 330.0, "width_mm": 120.0, "corner_radius_mm": 50.0},
        {"lift_deg": -9.0, "cant_deg": 7.5},
        {"lift_deg": 12.0, "cant_deg": 12.0, "length_mm": 280.0},
        {"length_mm": 140.0, "width_mm": 120.0},
    ],
)
def test_no_words_of_the_drawing_stand_on_others(
    page: WedgePage, session: Session, wedge: dict[str, float]
) -> None:
    made = replace(WedgeInputs(), slopes="typed", **wedge)
    session.take("wedge", replace(session.setup, wedge=made))
    in_inches(page, session)
    boxes = label_boxes(page)
    assert len(boxes) > 8
    for (one, here), (other, there) in combinations(boxes.items(), 2):
        assert not here.intersects(there), f"{one} on {other}"


def label_boxes(page: WedgePage) -> dict[str, QRectF]:
    """The room on the screen that every label of the drawing takes, by its key."""
    scene = page.picture.scene
    assert scene is not None
    fit = snug(scene, page.picture.area, LIGHT)
    boxes = {}
    for label in (each for each in scene.marks if isinstance(each, Label)):
        ((x, y, left, right, above, below),) = boxes_of(scene._replace(marks=(label,)), LIGHT)
        at = fit.point((x, y))
        boxes[label.key] = QRectF(at.x() - left, at.y() - above, left + right, above + below)
    return boxes


def test_the_buttons_stay_where_they_are_without_a_drawing(
    page: WedgePage, session: Session
) -> None:
    before = page.form.open.geometry()
    made = replace(WedgeInputs(), corner_radius_mm=80.0)
    session.take("impossible", replace(session.setup, wedge=made))
    QApplication.processEvents()
    assert not page.picture.isVisible()
    assert page.form.open.geometry() == before


def test_four_holes_stand_whole_in_their_list(page: WedgePage, lines: HoleLines) -> None:
    assert page.form.spots.lines.blockCount() == GRID_SPOTS
    assert not lines.verticalScrollBar().isVisible()


def test_the_tab_key_goes_from_the_choice_through_the_list_to_the_sizes(
    page: WedgePage, lines: HoleLines
) -> None:
    page.form.holes.setFocus()
    QTest.keyClick(page.form.holes, Qt.Key.Key_Tab)
    assert lines.hasFocus()
    QTest.keyClick(lines, Qt.Key.Key_Tab)
    assert page.rows["hole_mm"].number.hasFocus()

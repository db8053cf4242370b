"""The page about a wedge to print, by mouse and keyboard."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
import trimesh
from opened_pages import opened_page, overfull, type_and_enter
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox
from pytestqt.qtbot import QtBot
from shown_windows import clicked_open

from app.drawing.theme import DARK, LIGHT
from app.features.wedge.page import WedgePage
from app.qt.painting.palette import SMALL_PX, typeface
from app.qt.painting.snug_picture import boxes_of, snug
from app.qt.themes import set_theme
from app.rider.setup import Setup, edited
from app.rider.wedge import WedgeInputs
from app.session import Session
from app.stance.answer import answer_of
from app.window.window import Window, prepared_application

LEFT = Qt.MouseButton.LeftButton
SIZES = ((700, 312), (956, 312))


@pytest.fixture
def session() -> Session:
    return Session(edited(Setup(), front_lift_deg=3.0, front_cant_deg=5.0, rear_lift_deg=-2.0))


@pytest.fixture(params=SIZES)
def page(qtbot: QtBot, session: Session, request: pytest.FixtureRequest) -> Iterator[WedgePage]:
    page = opened_page(qtbot, WedgePage, session, request.param)
    yield page
    page.hide()


@pytest.fixture
def choose(monkeypatch: pytest.MonkeyPatch) -> Callable[[Path | str], list[str]]:
    """Makes the file dialog answer with a path, "" for Cancel; tells which names it offered."""

    def choose(path: Path | str) -> list[str]:
        offered: list[str] = []

        def answer(_parent: object, _title: str, name: str, *_: object) -> tuple[str, str]:
            offered.append(name)
            return str(path), ""

        monkeypatch.setattr(QFileDialog, "getSaveFileName", answer)
        return offered

    return choose


def text_of(page: WedgePage, name: str) -> str:
    number = page.rows[name].number
    return number.text() or number.placeholderText()


def said(page: WedgePage) -> str:
    return f"{page.words.flags.text()} {page.words.words.text()}"


def test_it_begins_with_the_mounts_in_hand_and_follows_them(
    page: WedgePage, session: Session
) -> None:
    assert (text_of(page, "lift_deg"), text_of(page, "cant_deg")) == ("3.0°", "5.0°")
    session.edit(front_cant_deg=-4.0)
    assert text_of(page, "cant_deg") == "−4.0°"
    assert page.rows["cant_deg"].remark == "outward"


def test_the_other_foot_has_the_other_mount(
    page: WedgePage, session: Session, qtbot: QtBot
) -> None:
    page.form.foot.setFocus()
    qtbot.keyClick(page.form.foot, Qt.Key.Key_Down)
    assert session.setup.wedge.foot == "rear"
    assert page.form.foot.currentText() == "Rear foot, right"
    assert text_of(page, "lift_deg") == "−2.0°"
    assert page.picture.accessibleName() == "Wedge for the rear foot (right)"


def test_the_start_values_can_be_taken_instead(
    page: WedgePage, session: Session, qtbot: QtBot
) -> None:
    page.form.slopes.setFocus()
    qtbot.keyClick(page.form.slopes, Qt.Key.Key_Down)
    begin = answer_of(session.setup).front.begin
    assert session.setup.wedge.slopes == "start"
    assert text_of(page, "lift_deg") == f"{begin.lift_deg:.1f}°"
    assert text_of(page, "cant_deg") == f"{begin.cant_deg:.1f}°"


def test_a_typed_lift_takes_the_cant_along_and_leaves_the_mounts_alone(
    page: WedgePage, session: Session, qtbot: QtBot
) -> None:
    page.rows["length_mm"].number.setFocus()
    type_and_enter(qtbot, page.rows["lift_deg"].number, "1,5")
    wedge = session.setup.wedge
    assert (wedge.slopes, wedge.lift_deg, wedge.cant_deg) == ("typed", 1.5, 5.0)
    assert session.undo_name == "Wedge, lift: 1.5° toe lift"
    assert page.form.slopes.currentData() == "typed"
    assert session.inputs.front_lift_deg == 3.0


def test_held_arrows_step_a_slope_from_what_is_on_the_mount_in_one_step_of_the_history(
    page: WedgePage, session: Session, qtbot: QtBot
) -> None:
    number = page.rows["cant_deg"].number
    for _ in range(3):
        qtbot.keyPress(number, Qt.Key.Key_Up)
    qtbot.keyRelease(number, Qt.Key.Key_Up)
    assert session.setup.wedge.cant_deg == 6.5
    session.undo()
    assert session.setup.wedge == WedgeInputs()


def test_heights_volume_and_the_caution_are_told(
    page: WedgePage, session: Session, qtbot: QtBot
) -> None:
    type_and_enter(qtbot, page.rows["smallest_mm"].number, "10")
    session.edit(front_lift_deg=0.0, front_cant_deg=0.0)
    assert "little-toe side 10.0 at the toe, 10.0 at the heel" in said(page)
    assert text_of(page, "centre_height_mm") == "10.0 mm"
    assert "Screws longer by 10.0 mm." in said(page)
    assert "caution" in said(page)


def test_what_cannot_be_made_is_told_and_cannot_be_saved(
    page: WedgePage, session: Session, qtbot: QtBot
) -> None:
    type_and_enter(qtbot, page.rows["centre_height_mm"].number, "8")
    assert "make its centre 12 mm high or more" in page.words.flags.text()
    assert not any(button.isEnabled() for button in page.form.saves.values())
    type_and_enter(qtbot, page.rows["centre_height_mm"].number, "12")
    assert not page.words.flags.isVisible()
    assert all(button.isEnabled() for button in page.form.saves.values())


def test_what_cannot_even_be_meant_is_told_and_the_drawing_waits(
    page: WedgePage, session: Session, qtbot: QtBot
) -> None:
    type_and_enter(qtbot, page.rows["corner_radius_mm"].number, "60")
    assert "it can be 55 mm at most" in page.words.flags.text()
    assert not page.picture.isVisible()
    assert not page.form.open.isEnabled()
    session.undo()
    assert page.picture.isVisible()


def test_without_start_values_the_reason_is_told(page: WedgePage, session: Session) -> None:
    far = edited(session.setup, stance_length_mm=800.0, across_spacing_mm=600.0,
                 knee_height_mm=300.0, knee_bend_deg=5.0)  # fmt: skip
    far = edited(far, hip_height_mm=560.0)
    session.take("far", replace(far, wedge=replace(far.wedge, slopes="start")))
    # In this stance the rear leg is too short, whatever bears the front foot.
    assert page.words.flags.text() == (
        "There is nothing to begin with: the rear leg cannot reach, so no posture settles."
    )


def test_a_refused_number_is_told_until_typing_goes_on(page: WedgePage, qtbot: QtBot) -> None:
    type_and_enter(qtbot, page.rows["width_mm"].number, "5000")
    assert "Width: “5000” was not taken: 20 to 400 mm only." in page.words.flags.text()
    type_and_enter(qtbot, page.rows["width_mm"].number, "100")
    assert "not taken" not in said(page)


def test_a_saved_solid_is_closed_holds_the_volume_that_is_told_and_is_told_of(
    page: WedgePage,
    session: Session,
    tmp_path: Path,
    choose: Callable[[Path | str], list[str]],
) -> None:
    offered = choose(tmp_path / "mine")
    wrote: list[Path] = []
    session.wrote.connect(wrote.append)
    QTest.mouseClick(page.form.saves["stl"], LEFT)
    assert offered == ["wedge-front-left.stl"]
    # trimesh reads the file and knows nothing of this program.
    solid = trimesh.load(tmp_path / "mine.stl")
    assert solid.is_watertight
    assert f"Volume {solid.volume / 1000.0:.1f}\N{NO-BREAK SPACE}cm³" in said(page)
    assert wrote == [tmp_path / "mine.stl"]


def test_a_saved_drawing_is_in_millimetres(
    page: WedgePage, tmp_path: Path, choose: Callable[[Path | str], list[str]]
) -> None:
    choose(tmp_path / "mine.dxf")
    page.form.saves["dxf"].setFocus()
    QTest.keyClick(page.form.saves["dxf"], Qt.Key.Key_Space)
    # Code 70 after $INSUNITS: 4 stands for millimetres (DXF reference, from memory).
    lines = [line.strip() for line in (tmp_path / "mine.dxf").read_text().splitlines()]
    assert lines[lines.index("$INSUNITS") + 1 :][:2] == ["70", "4"]


def test_a_file_that_cannot_be_written_is_told(
    page: WedgePage, tmp_path: Path, choose: Callable[[Path | str], list[str]]
) -> None:
    choose(tmp_path / "no such folder" / "mine.stl")
    heard: list[str] = []

    def look() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        heard.append(box.text())
        QTest.keyClick(box, Qt.Key.Key_Escape)

    QTimer.singleShot(0, look)
    QTest.mouseClick(page.form.saves["stl"], LEFT)
    assert "there is no such folder" in heard[0]
    assert "Saved" not in said(page)


def test_a_cancelled_save_writes_nothing(
    page: WedgePage, tmp_path: Path, choose: Callable[[Path | str], list[str]]
) -> None:
    choose("")
    QTest.mouseClick(page.form.saves["stl"], LEFT)
    assert "Saved" not in said(page)
    assert list(tmp_path.glob("*.stl")) == []


def test_a_file_whose_name_was_not_typed_whole_is_replaced_only_when_agreed(
    page: WedgePage,
    tmp_path: Path,
    choose: Callable[[Path | str], list[str]],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    (tmp_path / "Anna S. 2.stl").write_bytes(b"mine")
    choose(tmp_path / "Anna S. 2")
    monkeypatch.setattr("app.qt.questions.asked_to_replace", lambda *_: False)
    QTest.mouseClick(page.form.saves["stl"], LEFT)
    assert (tmp_path / "Anna S. 2.stl").read_bytes() == b"mine"
    assert not (tmp_path / "Anna S. 2").exists()


def test_the_large_drawing_has_the_caution_and_follows_until_the_page_closes(
    page: WedgePage, session: Session, qtbot: QtBot
) -> None:
    QTest.mouseClick(page.form.open, LEFT)
    large = page.large
    assert large is not None
    assert large.windowTitle() == "Wedge for the front foot (left)"
    assert "Caution: this part carries the rider's weight" in large.picture.accessibleDescription()
    session.edit(front_cant_deg=2.0)
    assert "across it 2.0° inward cant" in large.picture.accessibleDescription()
    page.hide()
    assert not large.isVisible()


def test_the_large_drawing_takes_the_colours_of_the_page(page: WedgePage) -> None:
    QTest.mouseClick(page.form.open, LEFT)
    assert page.large is not None
    set_theme(DARK)
    image = page.large.picture.grab().toImage()
    assert image.pixelColor(3, 3).name() == DARK.paper


def test_escape_closes_the_large_drawing(page: WedgePage, qtbot: QtBot) -> None:
    QTest.mouseClick(page.form.open, LEFT)
    large = page.large
    assert large is not None
    large.activateWindow()
    qtbot.waitUntil(large.isActiveWindow)
    qtbot.keyClick(large, Qt.Key.Key_Escape)
    assert not large.isVisible()


def test_nothing_written_is_cut_off(page: WedgePage, session: Session) -> None:
    session.take("large", replace(session.setup, wedge=WedgeInputs(length_mm=330.0)))
    session.edit(front_lift_deg=-15.0, front_cant_deg=12.0)
    QApplication.processEvents()
    assert overfull(page) == []
    small = QFontMetrics(typeface(SMALL_PX))
    for row in page.rows.values():
        assert row.label.width() >= row.label.sizeHint().width(), row.name
        assert small.horizontalAdvance(row.remark) <= row.remark_rect().width(), row.name
    scene, area = page.picture.scene, page.picture.area
    assert scene is not None
    fit = snug(scene, area, LIGHT)
    for x, y, left, right, above, below in boxes_of(scene, LIGHT):
        at = fit.point((x, y))
        assert area.left() - 0.01 <= at.x() - left
        assert at.x() + right <= area.right() + 0.01
        assert area.top() - 0.01 <= at.y() - above
        assert at.y() + below <= area.bottom() + 0.01


def test_start_values_are_sought_at_the_end_of_a_drag(page: WedgePage, session: Session) -> None:
    start = replace(session.setup.wedge, slopes="start")
    session.take("start", replace(session.setup, wedge=start))
    before = text_of(page, "cant_deg")
    session.begin_drag()
    session.edit(front_angle_deg=0.0, rear_angle_deg=0.0)
    assert text_of(page, "cant_deg") == before
    session.end_drag()
    assert text_of(page, "cant_deg") == f"{answer_of(session.setup).front.begin.cant_deg:.1f}°"
    assert text_of(page, "cant_deg") != before


def test_the_page_opens_from_its_tab_and_has_room_in_the_smallest_window(
    qtbot: QtBot, session: Session
) -> None:
    prepared_application()
    set_theme(DARK)
    window = Window(session)
    qtbot.addWidget(window)
    window.resize(window.minimumSize())
    window.show()
    clicked_open(window, "Printed wedge", WedgePage)
    QApplication.processEvents()
    bottom = window.tray.mapTo(window, window.tray.rect().bottomLeft()).y()
    assert bottom < window.height()

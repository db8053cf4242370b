"""The measuring page by mouse and keyboard."""

from __future__ import annotations

from dataclasses import replace

import pytest
from opened_pages import opened_page, overfull, type_and_enter
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.features.measuring.model import CUFFS_ENTRY, names_measured, readings
from app.features.measuring.page import MeasurePage
from app.rider.setup import BOOT_NAMES, BOOTS, LEG_NAMES, LEGS, Setup
from app.session import Session

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def session() -> Session:
    return Session()


@pytest.fixture
def page(qtbot: QtBot, session: Session) -> MeasurePage:
    """The page, open at the hip height."""
    page = opened_page(qtbot, MeasurePage, session)
    choose(page, "hip_height_mm")
    return page


def choose(page: MeasurePage, name: str) -> None:
    """Click on a dimension in the list."""
    row = [CUFFS_ENTRY, *names_measured(page._session.setup)].index(name)
    page.dimensions.scrollToItem(page.dimensions.item(row))
    where = page.dimensions.visualItemRect(page.dimensions.item(row)).center()
    QTest.mouseClick(page.dimensions.viewport(), LEFT, pos=where)


def test_a_click_on_a_dimension_shows_its_guide_and_its_drawing(page: MeasurePage) -> None:
    choose(page, "hip_spacing_mm")
    assert "belly" in page.guide.text()
    assert page.reading.text() == "Front points apart"
    assert page.picture.accessibleName() == "Hip spacing"


def test_the_arrow_keys_go_from_dimension_to_dimension(page: MeasurePage, qtbot: QtBot) -> None:
    page.dimensions.setFocus()
    qtbot.keyClick(page.dimensions, Qt.Key.Key_Down)
    assert page.reading.text() == "Knee height"


def test_readings_typed_one_by_one_are_steps_and_their_mean_is_in_force(
    page: MeasurePage, session: Session, qtbot: QtBot
) -> None:
    type_and_enter(qtbot, page.number, "884")
    type_and_enter(qtbot, page.number, "88,0 cm")
    assert readings(session.setup, "hip_height_mm") == (884.0, 880.0)
    assert session.inputs.left.hip_height_mm == 882.0
    assert page.number.text() == ""
    assert session.undo_name == "Hip height: 880\u00a0mm added"
    session.undo()
    assert (session.inputs.left.hip_height_mm, page.repeats.count()) == (884.0, 1)


def test_the_add_button_takes_what_was_typed_and_leaves_the_field_ready(
    page: MeasurePage, session: Session, qtbot: QtBot
) -> None:
    page.number.setFocus()
    qtbot.keyClicks(page.number, "884")
    QTest.mouseClick(page.add, LEFT)
    assert readings(session.setup, "hip_height_mm") == (884.0,)
    qtbot.waitUntil(page.number.hasFocus)


def test_a_repeat_is_removed_by_the_delete_key_in_one_step(
    page: MeasurePage, session: Session, qtbot: QtBot
) -> None:
    for text in ("884", "980", "880"):
        type_and_enter(qtbot, page.number, text)
    page.repeats.setFocus()
    page.repeats.setCurrentRow(1)
    qtbot.keyClick(page.repeats, Qt.Key.Key_Delete)
    assert readings(session.setup, "hip_height_mm") == (884.0, 880.0)
    assert session.undo_name == "Hip height: 980\u00a0mm removed"
    session.undo()
    assert page.repeats.count() == 3


def test_repeats_far_apart_are_pointed_out_while_they_are(page: MeasurePage, qtbot: QtBot) -> None:
    type_and_enter(qtbot, page.number, "880")
    type_and_enter(qtbot, page.number, "895")
    assert "15 mm apart" in page.finding.text()
    assert page.finding.isVisible()
    QTest.mouseClick(page.remove, LEFT)
    assert not page.finding.isVisible()


def test_the_mean_can_be_used_again_after_another_value_was_set(
    page: MeasurePage, session: Session, qtbot: QtBot
) -> None:
    type_and_enter(qtbot, page.number, "884")
    assert not page.use_mean.isEnabled()
    session.edit(hip_height_mm=900.0)
    assert page.use_mean.isEnabled()
    QTest.mouseClick(page.use_mean, LEFT)
    assert session.inputs.left.hip_height_mm == 884.0
    assert session.undo_name == "Hip height: mean of the repeats"


def test_a_reading_that_contradicts_another_length_is_refused_in_words(
    page: MeasurePage, session: Session, qtbot: QtBot
) -> None:
    type_and_enter(qtbot, page.number, "450")
    assert page.problem.text().startswith("Knee height is 490 mm; it must be less than")
    assert session.undo_name == ""
    type_and_enter(qtbot, page.number, "890")
    assert page.problem.text() == ""


def test_a_reading_off_the_scale_is_refused_in_words(
    page: MeasurePage, session: Session, qtbot: QtBot
) -> None:
    type_and_enter(qtbot, page.number, "88")
    assert page.problem.text() == "“88” was not taken: 400 to 1150 mm only"
    assert session.undo_name == ""


def test_what_the_boots_allow_is_read_off_and_repeated_too(
    page: MeasurePage, session: Session, qtbot: QtBot
) -> None:
    choose(page, "side_give_deg")
    assert "Inclinometer" in page.guide.text()
    assert page.number.placeholderText() == "read off"
    type_and_enter(qtbot, page.number, "5")
    type_and_enter(qtbot, page.number, "6")
    assert session.inputs.left.side_give_deg == 5.5


@pytest.mark.parametrize("size", [(698, 300), (952, 300)])
def test_no_words_are_cut_off_whatever_is_measured(
    qtbot: QtBot, session: Session, size: tuple[int, int]
) -> None:
    page = opened_page(qtbot, MeasurePage, session, size)
    choose(page, "knee_height_mm")
    for text in ("480", "495"):
        type_and_enter(qtbot, page.number, text)
    session.take("Apart", replace(session.setup, apart=frozenset({LEGS, BOOTS})))
    for name in (CUFFS_ENTRY, *LEG_NAMES, *BOOT_NAMES):
        choose(page, name)
        QTest.qWait(0)
        assert overfull(page) == []


def test_measuring_begins_with_the_cuffs_and_their_three_answers(
    qtbot: QtBot, session: Session
) -> None:
    session.take("New", Setup(cuffs=""))
    page = opened_page(qtbot, MeasurePage, session)
    assert page.dimensions.item(0).isSelected()
    assert "boot fitter" in page.guide.text()
    assert page.cuffs.buttons[""].isChecked()
    assert not page.number.isVisible()
    page.cuffs.buttons["as_they_are"].click()
    assert session.setup.cuffs == "as_they_are"
    assert session.undo_name == "Cuffs: left as they are"
    assert "cuff offset" in page.cuffs.advice.text()
    session.undo()
    assert page.cuffs.buttons[""].isChecked()


def test_legs_apart_are_measured_one_by_one(
    page: MeasurePage, session: Session, qtbot: QtBot
) -> None:
    session.take("Apart", replace(session.setup, apart=frozenset({LEGS})))
    assert page.reading.text() == "Hip height left"
    choose(page, "right_hip_height_mm")
    type_and_enter(qtbot, page.number, "865")
    assert (session.inputs.left.hip_height_mm, session.inputs.right.hip_height_mm) == (880.0, 865.0)
    assert session.setup.origin("right_hip_height_mm") == "measured"
    session.undo()
    session.undo()
    assert page.reading.text() == "Hip height"

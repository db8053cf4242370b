"""Starting from the height: estimates fill in what was not measured."""

from __future__ import annotations

import pytest
from hands import LEFT, Counter, type_in
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.qt.controls.slider_face import x_of
from app.rider.setup import LEGS, Known, Setup, unmeasured
from app.session import Session
from app.window.control_panel import ControlPanel
from app.words.lengths import Lengths


@pytest.fixture
def opened(panel: ControlPanel, qtbot: QtBot) -> ControlPanel:
    qtbot.mouseClick(panel.height_box.heading, LEFT)
    return panel


def enter(qtbot: QtBot, panel: ControlPanel, name: str, text: str) -> None:
    field = panel.height_box.rows[name].number
    field.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(field.hasFocus)
    type_in(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_it_is_folded_away_at_first(panel: ControlPanel) -> None:
    assert not panel.height_box.rows["stature_mm"].isVisible()


@pytest.mark.parametrize("text", ["178 cm", "1780", "1,78 m", "70.0787402 in"])
def test_a_height_fills_in_the_legs_in_one_step(
    opened: ControlPanel, session: Session, changes: Counter, qtbot: QtBot, text: str
) -> None:
    enter(qtbot, opened, "stature_mm", text)
    assert session.setup.known.stature_mm == pytest.approx(1780.0, abs=1e-5)
    assert session.inputs.left.hip_height_mm == unmeasured(session.setup.known, "hip_height_mm")
    assert opened.rows["hip_height_mm"].mark.word == "± 26 mm"
    assert opened.rows["neutral_spacing_mm"].mark.word == "± 25 mm"
    assert opened.rows["knee_tracking_deg"].mark.word == "default"
    assert len(changes) == 1
    session.undo()
    assert session.setup == Setup()
    assert opened.height_box.rows["stature_mm"].number.text() == ""


def test_emptying_the_field_forgets_the_height(
    opened: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    enter(qtbot, opened, "stature_mm", "1780")
    field = opened.height_box.rows["stature_mm"].number
    field.selectAll()
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert session.setup == Setup()


def test_whose_figures_is_a_switch(opened: ControlPanel, session: Session, qtbot: QtBot) -> None:
    enter(qtbot, opened, "stature_mm", "1780")
    qtbot.mouseClick(opened.height_box.figures.segments[2], LEFT)
    assert session.setup.known == Known(figures="women", stature_mm=1780.0)
    assert opened.rows["hip_height_mm"].mark.word == "± 23 mm"


def test_a_contradiction_is_said_and_what_was_typed_stays_to_be_mended(
    opened: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    enter(qtbot, opened, "stature_mm", "1000")
    enter(qtbot, opened, "inseam_mm", "1050")
    row = opened.height_box.rows["inseam_mm"]
    assert row.number.text() == "1050"
    assert row.remark == "does not fit the others"
    assert "must be less than the stature" in row.number.toolTip()
    assert session.setup.known.inseam_mm is None
    qtbot.keyClick(row.number, Qt.Key.Key_Escape)
    assert (row.number.text(), row.remark) == ("", "")


def test_arrows_step_a_known_length(opened: ControlPanel, session: Session, qtbot: QtBot) -> None:
    enter(qtbot, opened, "stature_mm", "1780")
    qtbot.keyClick(opened.height_box.rows["stature_mm"].number, Qt.Key.Key_Up)
    assert session.setup.known.stature_mm == 1785.0
    qtbot.keyClick(opened.height_box.rows["inseam_mm"].number, Qt.Key.Key_Up)
    assert session.setup.known.inseam_mm is None


def test_known_lengths_follow_the_unit(opened: ControlPanel, qtbot: QtBot) -> None:
    enter(qtbot, opened, "stature_mm", "1780")
    opened.show_lengths(Lengths("cm"))
    assert opened.height_box.rows["stature_mm"].number.text() == "178.0 cm"
    assert opened.rows["hip_height_mm"].mark.word == "± 2.6 cm"


def test_a_measurement_replaces_its_estimate_until_it_is_dropped(
    opened: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    enter(qtbot, opened, "stature_mm", "1780")
    row, guess = opened.rows["hip_height_mm"], session.inputs.left.hip_height_mm
    qtbot.keyClick(row.slider, Qt.Key.Key_Right)
    assert row.mark.word == "measured"
    qtbot.mouseClick(row.mark, LEFT)
    assert session.inputs.left.hip_height_mm == guess
    assert row.mark.word == "± 26 mm"


@pytest.mark.qt_log_ignore("raise")
def test_a_click_on_the_mark_of_an_estimate_does_nothing(
    panel: ControlPanel, changes: Counter, qtbot: QtBot
) -> None:
    for name in Setup().names_told(LEGS):
        qtbot.mouseClick(panel.rows[name].mark, LEFT)
    assert len(changes) == 0


def test_a_double_click_leads_to_the_estimate_and_the_arrow_shows_it(
    opened: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    enter(qtbot, opened, "stature_mm", "1900")
    guess = session.inputs.left.hip_height_mm
    session.edit(hip_height_mm=700.0)
    slider = opened.rows["hip_height_mm"].slider
    assert slider.scale.default == guess
    qtbot.mouseDClick(slider, LEFT)
    assert session.inputs.left.hip_height_mm == guess
    assert session.setup.origin("hip_height_mm") == "estimated"
    assert x_of(slider.scale, guess, slider.width()) > slider.width() / 2


def test_what_was_measured_is_said_to_stay_when_a_height_is_typed(
    opened: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    session.edit(knee_height_mm=500.0)
    assert not opened.height_box.kept.isVisible()
    enter(qtbot, opened, "stature_mm", "1780")
    assert opened.height_box.kept.text() == "Stays as it was measured: knee height."
    assert opened.height_box.kept.isVisible()

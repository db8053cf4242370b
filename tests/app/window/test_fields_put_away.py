"""What is refused and waits in its field can be reached, or goes aloud when the field goes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from hands import CTRL, LEFT
from modal import answered
from programs import killed_and_started
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.features.player.page import PlayerPage
from app.features.wedge.page import WedgePage
from app.files.drafts import Draft
from app.files.storage import Document
from app.qt.controls.number_field import NumberField
from app.rider.setup import Setup, with_sides
from app.window.program import Program
from app.window.who_card import WhoCard

ENTER = Qt.Key.Key_Return


def refused(field: QWidget, text: str) -> None:
    """Type what cannot be taken."""
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_A, CTRL)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, ENTER)


def dropped(program: Program, told: str) -> bool:
    """Whether nothing waits any more, and this is told of what did; nothing older comes back."""
    program.window._refresh()
    notices = program.documents.notices
    assert notices.text == f"Not entered, and dropped with its field: {told}"
    assert notices.isVisible()
    notices._dismiss()
    return (program.documents.desk.drafts, notices.text) == ((), "")


@pytest.fixture
def card(program: Program) -> WhoCard:
    program.window.guide.ask()
    card = program.window.guide.card
    assert card is not None
    return card


@pytest.mark.parametrize("answer", ["example_button", "measure_button"])
def test_a_height_refused_on_the_card_goes_aloud_with_the_card(
    program: Program, card: WhoCard, tmp_path: Path, answer: str
) -> None:
    path = tmp_path / "a.kneeline"
    program.documents.work.save(path)
    refused(card.height_row.number, "999")
    QTest.keyClick(card.height_row.number, Qt.Key.Key_S, CTRL)
    assert "Not entered, and left where it is: Height: “999”" in program.documents.notices.text
    QTest.mouseClick(getattr(card, answer), LEFT)
    assert not card.isVisible()
    assert dropped(program, "Height: “999” (1000 to 2200 mm only)")
    assert not program.window.isWindowModified()


def test_a_height_that_waited_on_the_card_comes_back_with_the_card(
    program: Program, card: WhoCard, started: Callable[..., Program]
) -> None:
    refused(card.height_row.number, "999")
    second = killed_and_started(program, started)
    again = second.window.guide.card
    assert again is not None
    assert again.isVisible()
    assert again.height_row.number.draft == "999"


def test_a_height_of_one_leg_goes_aloud_when_both_become_alike(
    started: Callable[..., Program],
) -> None:
    program = started(Document(with_sides(Setup(), "legs", apart=True)))
    panel = program.window.panel
    refused(panel.rows["left_knee_height_mm"].number, "5000")
    alike = panel.sides["legs"].switch.segments[0]
    panel.ensureWidgetVisible(alike)
    QTest.mouseClick(alike, LEFT)
    program.window._refresh()
    assert panel.rows["left_knee_height_mm"].isHidden()
    assert dropped(program, "Knee height left: “5000” (200 to 650 mm only)")


@pytest.mark.parametrize(
    ("way", "name", "text", "told", "other"),
    [
        ("typed", "", "far out", "Holes as typed: “far out” (", Qt.Key.Key_Home),
        ("grid", "grid_across_mm", "5000", "Holes across: “5000” (", Qt.Key.Key_End),
    ],
)
def test_holes_refused_go_aloud_when_they_are_told_in_another_way(
    program: Program, way: str, name: str, text: str, told: str, other: Qt.Key
) -> None:
    session = program.window.session
    session.take("", replace(session.setup, wedge=replace(session.setup.wedge, holes=way)))
    page = program.window.tray.open_page("Printed wedge")
    assert isinstance(page, WedgePage)
    program.window._refresh()
    form = page.form
    refused(form.rows[name].number if name else form.spots.lines, text)
    form.holes.setFocus()
    QTest.keyClick(form.holes, other)
    program.window._refresh()
    assert session.setup.wedge.holes != way
    said = program.documents.notices.text
    assert said.startswith(f"Not entered, and dropped with its field: {told}")
    assert program.documents.desk.drafts == ()


def test_what_waits_in_a_table_of_postures_goes_aloud_when_its_rows_are_made_anew(
    program: Program,
) -> None:
    page = program.window.tray.open_page("Motion")
    assert isinstance(page, PlayerPage)
    page.copy.click()
    program.window._refresh()
    QApplication.processEvents()
    cell = page.table.cells[1]["knee_bend_deg"]
    assert isinstance(cell, NumberField)
    refused(cell, "5000")
    assert len(program.documents.desk.drafts) == 1
    QTest.mouseClick(page.more, LEFT)
    assert dropped(program, "Knee bend, posture 2: “5000” (5 to 120° only)")


def test_the_notice_of_what_waits_goes_when_nothing_waits_any_more(
    program: Program, tmp_path: Path
) -> None:
    program.documents.work.save(tmp_path / "a.kneeline")
    number = program.window.panel.rows["front_angle_deg"].number
    refused(number, "5000")
    QTest.keyClick(number, Qt.Key.Key_S, CTRL)
    assert "“5000”" in program.documents.notices.text
    QTest.keyClick(number, Qt.Key.Key_Escape)
    assert not program.documents.notices.isVisible()


def test_the_way_to_a_control_that_waits_leads_out_of_presenting(program: Program) -> None:
    window = program.window
    number = window.panel.rows["front_angle_deg"].number
    refused(number, "5000")
    QTest.keyClick(window, Qt.Key.Key_F11)
    assert not number.isVisible()
    program.documents.desk.settle()
    program.documents.notices._take_offer(0)
    assert number.isVisible()
    assert number.hasFocus()
    assert number.draft == "5000"


def test_nobody_is_led_to_a_field_that_nothing_brings_into_sight(program: Program) -> None:
    window = program.window
    window.tray.open_page("Printed wedge")
    page = window.findChild(WedgePage)
    holes = "Printed wedge/holes"
    assert page.form.spots.isHidden()
    window.resume((Draft(holes, "Holes as typed", "far out"),))
    with answered("Go back to it"):
        QTest.keyClick(window, Qt.Key.Key_Q, CTRL)
    assert window.isVisible()
    assert not page.form.spots.lines.hasFocus()
    assert "dropped with its field: Holes as typed" in program.documents.notices.text
    assert program.documents.desk.drafts == ()

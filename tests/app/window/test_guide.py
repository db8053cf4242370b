"""The first start's card, and the line that leads on, in the window."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.features.measuring.page import MeasurePage
from app.files.resources import starting_points
from app.files.settings import create_settings
from app.rider.setup import DEMO, estimated
from app.session import Session
from app.window.who_card import WhoCard
from app.window.window import Window
from tests.helpers.shown_windows import shown_window


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, active=True)


def asked(window: Window) -> WhoCard:
    window.guide.ask_at_first()
    assert window.guide.card is not None
    return window.guide.card


def test_the_first_start_asks_who_is_riding_and_takes_a_height(
    window: Window, qtbot: QtBot
) -> None:
    card = asked(window)
    assert card.isVisible()
    assert card.height_row.number.hasFocus()
    qtbot.keyClicks(card.height_row.number, "1780")
    qtbot.keyClick(card.height_row.number, Qt.Key.Key_Return)
    assert not card.isVisible()
    assert window.session.setup == estimated(DEMO, stature_mm=1780.0)
    assert window.session.undo_name  # it can be taken back
    assert create_settings().now.welcomed


def test_escape_puts_the_card_away_for_good(qtbot: QtBot, window: Window) -> None:
    card = asked(window)
    qtbot.keyClick(card.height_row.number, Qt.Key.Key_Escape)
    assert not card.isVisible()
    again = shown_window(qtbot)
    again.guide.ask_at_first()
    assert again.guide.card is None


def test_beside_a_page_that_leaves_it_no_room_the_page_goes(window: Window) -> None:
    window.resize(window.minimumSize())
    window.tray.open_page("Begin with")
    window.tray.set_height(900)
    QApplication.processEvents()
    window.guide.ask()
    QApplication.processEvents()
    card = window.guide.card
    assert card is not None
    assert card.isVisible()
    assert window.sheet.rect().contains(card.geometry())


def test_nobody_is_asked_who_has_a_rider_in_hand(qtbot: QtBot) -> None:
    window = shown_window(qtbot, Session(estimated(DEMO, stature_mm=1780.0)))
    window.guide.ask_at_first()
    assert window.guide.card is None


def test_a_height_that_contradicts_what_is_known_is_refused_on_the_card(
    qtbot: QtBot,
) -> None:
    session = Session(estimated(DEMO, inseam_mm=1000.0))
    window = shown_window(qtbot, session)
    window.guide.take("card", "")
    card = window.guide.card
    assert card is not None
    card.known.emit("stature_mm", 1000.0)
    assert card.isVisible()
    assert card.problem.text()
    assert session.setup.known.stature_mm is None


def test_measure_now_opens_the_page_at_what_is_not_seen_to(window: Window) -> None:
    card = asked(window)
    card.measure_button.click()
    page = window.tray.current
    assert isinstance(page, MeasurePage)
    assert page.place.text() == f"2 of {page.dimensions.count()}"
    assert page.number.hasFocus()


def test_back_and_next_go_through_all_that_is_measured(window: Window) -> None:
    page = window.tray.open_page("Measuring")
    assert isinstance(page, MeasurePage)
    assert not page.back.isEnabled()
    seen = [page.place.text()]
    while page.onward.isEnabled():
        page.onward.click()
        seen.append(page.place.text())
    count = page.dimensions.count()
    assert seen == [f"{i} of {count}" for i in range(1, count + 1)]
    page.back.click()
    assert page.place.text() == f"{count - 1} of {count}"


def test_pressing_the_line_leads_to_where_the_step_is_done(window: Window) -> None:
    window.steps.go.click()
    assert window.guide.card is not None
    assert window.guide.card.isVisible()
    window.guide.card.put_away()
    window.session.take("Estimates", estimated(DEMO, stature_mm=1780.0))
    assert window.steps.go.text().startswith("Measure")
    window.steps.go.click()
    assert isinstance(window.tray.current, MeasurePage)
    window.steps.put_aside.click()
    window.steps.go.click()
    assert window.panel.rows["front_angle_deg"].slider is QApplication.focusWidget()


def test_a_step_that_is_finished_never_comes_back(window: Window) -> None:
    window.session.take("Estimates", estimated(DEMO, stature_mm=1780.0))
    assert window.steps.go.text().startswith("Measure")
    window.session.undo()
    assert window.steps.go.text().startswith("Measure")


def test_another_document_has_steps_of_its_own(window: Window) -> None:
    window.steps.put_aside.click()
    assert window.steps.go.text().startswith("Measure")
    window.documents.start_from(starting_points()[0])
    assert window.steps.go.text() == "Say who is riding"


def test_a_page_that_was_left_counts_as_seen(window: Window) -> None:
    for _ in range(3):
        window.steps.put_aside.click()
    assert window.steps.go.text() == "See what to begin with"
    window.steps.go.click()
    assert window.steps.go.text() == "See what to begin with"  # it is being read
    window.tray.open_page("Notes")
    assert window.steps.go.text() != "See what to begin with"


def test_the_line_goes_when_nothing_is_left(window: Window) -> None:
    while window.steps.isVisible():
        window.steps.put_aside.click()
    QApplication.processEvents()
    assert window.panel.geometry().top() == 0

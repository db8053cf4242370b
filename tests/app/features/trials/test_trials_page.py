"""The page of trials by mouse and keyboard."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from opened_pages import opened_page, overfull, type_and_enter
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.features.answer import put_button
from app.features.trials.model import with_trial
from app.features.trials.page import TrialsPage
from app.qt.settling import SETTLE_MS
from app.rider.inputs import DEFAULTS, changed
from app.rider.parts import NO_PARTS, PartEntry, Parts
from app.rider.setup import Setup
from app.rider.trials import Entry, entry_of
from app.session import Session

LEFT = Qt.MouseButton.LeftButton
ACROSS = changed(DEFAULTS, front_angle_deg=0.0, rear_angle_deg=0.0)
EVENLY = ("even", "even")
WEDGES = Parts(parts=(PartEntry("wedge", "across", 1.5, 5.0, 8),), largest_stack=4)


def trial(cant: float, felt: str, day: str, notes: str = "") -> Entry:
    inputs = changed(ACROSS, front_cant_deg=cant, rear_cant_deg=cant)
    return entry_of(inputs, day, (felt, felt), EVENLY, notes)


@pytest.fixture
def session() -> Session:
    return Session(Setup(inputs=ACROSS))


@pytest.fixture
def page(qtbot: QtBot, session: Session) -> TrialsPage:
    return opened_page(qtbot, TrialsPage, session, (700, 320))


@pytest.fixture
def logged(qtbot: QtBot) -> TrialsPage:
    """The page of a session with two trials, of which the first was too little."""
    setup = Setup(inputs=ACROSS)
    for entry in (trial(5.0, "bow-legged", "2026-01-02"), trial(7.0, "even", "2026-01-03")):
        setup = with_trial(setup, entry)
    return opened_page(qtbot, TrialsPage, Session(setup), (700, 320))


def click(widget: QWidget) -> None:
    QTest.mouseClick(widget, LEFT)


def feel(page: TrialsPage, front: int, rear: int) -> None:
    """Click what the legs felt: 0 bow-legged, 1 even, 2 knock-kneed."""
    click(page.form.felt["front"].segments[front])
    click(page.form.felt["rear"].segments[rear])


def click_row(page: TrialsPage, row: int) -> None:
    where = page.table.visualRect(page.table.rows.index(row, 0)).center()
    QTest.mouseClick(page.table.viewport(), LEFT, pos=where)


def test_a_trial_is_added_once_both_legs_have_been_asked(
    page: TrialsPage, session: Session, qtbot: QtBot
) -> None:
    session.edit(front_cant_deg=5.0)
    click(page.form.felt["front"].segments[0])
    assert not page.form.add.isEnabled()
    click(page.form.felt["rear"].segments[2])
    click(page.form.boots["rear"].segments[0])
    type_and_enter(qtbot, page.form.notes, "ice")
    click(page.form.add)
    today = date.today().isoformat()
    felt, boots = ("bow-legged", "knock-kneed"), ("", "calf")
    told = entry_of(session.inputs, today, felt, notes="ice", boots=boots)
    assert session.setup.trials == (told,)
    assert session.undo_name == f"Trial of {today} added"
    assert page.table.rows.index(0, 6).data() == "ice"


def test_after_a_trial_was_added_the_form_is_empty_for_the_next(page: TrialsPage) -> None:
    feel(page, 0, 0)
    click(page.form.add)
    assert not any(segment.isChecked() for segment in page.form.felt["front"].segments)
    assert page.form.notes.text() == ""
    assert not page.form.add.isEnabled()


def test_a_trial_can_be_dated_back(page: TrialsPage, session: Session, qtbot: QtBot) -> None:
    page.form.date.setFocus()
    page.form.date.selectAll()
    qtbot.keyClicks(page.form.date, "2026-01-05")
    feel(page, 1, 1)
    click(page.form.add)
    assert session.setup.trials[0].date == "2026-01-05"


def test_a_click_on_a_row_takes_its_trial_in_hand(logged: TrialsPage) -> None:
    click_row(logged, 0)
    assert logged.form.date.text() == "2026-01-02"
    assert logged.form.felt["front"].segments[0].isChecked()
    assert logged.form.delete.isVisible()
    assert not logged.form.add.isVisible()


def test_what_is_put_right_in_the_form_changes_the_trial_in_one_step_each(
    logged: TrialsPage, qtbot: QtBot
) -> None:
    session = logged._session
    click_row(logged, 0)
    click(logged.form.felt["front"].segments[1])
    assert session.setup.trials[0].felt == ("even", "bow-legged")
    assert session.undo_name == "Trial of 2026-01-02: front leg felt"
    type_and_enter(qtbot, logged.form.notes, "soft")
    assert session.undo_name == "Trial of 2026-01-02: notes"
    session.undo()
    session.undo()
    assert session.setup.trials[0] == trial(5.0, "bow-legged", "2026-01-02")
    assert session.undo_name == ""


def test_a_new_date_moves_the_trial_and_keeps_it_in_hand(logged: TrialsPage, qtbot: QtBot) -> None:
    click_row(logged, 0)
    logged.form.date.setFocus()
    logged.form.date.selectAll()
    qtbot.keyClicks(logged.form.date, "2026-01-09")
    qtbot.keyClick(logged.form.date, Qt.Key.Key_Return)
    assert [entry.date for entry in logged._session.setup.trials] == ["2026-01-03", "2026-01-09"]
    assert logged.table.row_chosen == 1


def test_a_trial_is_deleted_by_button_or_key_and_comes_back_by_undo(
    logged: TrialsPage, qtbot: QtBot
) -> None:
    session = logged._session
    click_row(logged, 0)
    click(logged.form.delete)
    assert session.undo_name == "Trial of 2026-01-02 deleted"
    logged.table.setFocus()
    click_row(logged, 0)
    qtbot.keyClick(logged.table, Qt.Key.Key_Delete)
    assert session.setup.trials == ()
    session.undo()
    session.undo()
    assert logged.table.rows.rowCount() == 2


def test_escape_lays_the_trial_back(logged: TrialsPage, qtbot: QtBot) -> None:
    click_row(logged, 1)
    qtbot.keyClick(logged.table, Qt.Key.Key_Escape)
    assert logged.table.row_chosen == -1
    assert logged.form.add.isVisible()


def test_the_arrow_keys_go_through_the_log(logged: TrialsPage, qtbot: QtBot) -> None:
    click_row(logged, 0)
    qtbot.keyClick(logged.table, Qt.Key.Key_Down)
    assert logged.form.date.text() == "2026-01-03"


def test_what_comes_next_goes_on_the_bindings_in_one_step(
    page: TrialsPage, session: Session
) -> None:
    feel(page, 0, 2)
    session.edit(front_cant_deg=5.0, rear_cant_deg=5.0)
    click(page.form.add)
    assert "Try 7.0° inward" in page.words["front"].text()
    click(page.put)
    assert (session.inputs.front_cant_deg, session.inputs.rear_cant_deg) == (7.0, 3.0)
    assert session.undo_name == "To try next"


def test_other_steps_of_the_parts_ask_for_other_cants(page: TrialsPage, qtbot: QtBot) -> None:
    page.step.setFocus()
    qtbot.keyClick(page.step, Qt.Key.Key_End)
    assert page.step.currentText() == "3.0°"
    assert "Try 6.0° inward" in page.words["front"].text()


def test_the_step_is_that_of_the_parts_until_another_is_picked(qtbot: QtBot) -> None:
    setup = with_trial(Setup(inputs=ACROSS, parts=WEDGES), trial(5.0, "bow-legged", "2026-01-02"))
    page = opened_page(qtbot, TrialsPage, Session(setup))
    assert page.step.currentText() == "the parts"
    assert page.step_source.text() == "In steps of 1.5°, as your parts make them."
    assert "Try 6.0° inward" in page.words["front"].text()
    page.step.setFocus()
    qtbot.keyClick(page.step, Qt.Key.Key_End)
    assert "3.0°, chosen by hand; your parts make 1.5°" in page.step_source.text()
    assert "Try 6.0° inward" in page.words["front"].text()
    page._session.take(
        "Another name", replace(page._session.setup, parts=replace(WEDGES, name="x"))
    )
    assert page.step.currentText() == "3.0°"


def test_parts_bring_their_step_and_take_it_along(page: TrialsPage, session: Session) -> None:
    assert (page.step.currentText(), page.step_source.isVisible()) == ("0.5°", False)
    session.take("Parts", replace(session.setup, parts=WEDGES))
    assert page.step.currentText() == "the parts"
    page._compute()
    assert page.step_source.isVisible()
    session.take("No parts", replace(session.setup, parts=NO_PARTS))
    page._compute()
    assert (page.step.currentText(), page.step_source.isVisible()) == ("0.5°", False)


def test_beyond_the_whole_cant_consent_is_asked_for_each_leg(
    page: TrialsPage, session: Session
) -> None:
    session.edit(front_cant_deg=9.0, rear_cant_deg=9.0, largest_cant_deg=12.0)
    for _ in range(2):
        feel(page, 0, 1)
        click(page.form.add)
    assert "needs your consent" in page.words["front"].text()
    assert page.agree["front"].isVisible()
    assert not page.agree["rear"].isVisible()
    page.agree["front"].setFocus()
    QTest.keyClick(page.agree["front"], Qt.Key.Key_Space)
    assert "Try 9.5° inward" in page.words["front"].text()


def test_consent_ends_with_the_trial_that_it_was_given_for(
    page: TrialsPage, session: Session
) -> None:
    session.edit(front_cant_deg=9.0, largest_cant_deg=12.0)
    feel(page, 0, 1)
    click(page.form.add)
    for cant in (9.0, 9.5):
        session.edit(front_cant_deg=cant)
        feel(page, 0, 1)
        click(page.form.add)
        assert "needs your consent" in page.words["front"].text()
        page.agree["front"].setFocus()
        QTest.keyClick(page.agree["front"], Qt.Key.Key_Space)
    assert "Try 10.0° inward" in page.words["front"].text()


def test_once_found_the_one_button_puts_on_what_is_comfortable(qtbot: QtBot) -> None:
    setup = Setup(inputs=ACROSS)
    for day, (cant, felt) in enumerate(
        ((4.0, "bow-legged"), (6.0, "knock-kneed"), (5.0, "even"), (5.0, "even")), 1
    ):
        setup = with_trial(setup, trial(cant, felt, f"2026-01-0{day}"))
    page = opened_page(qtbot, TrialsPage, Session(setup), (700, 320))
    assert page.put.text() == "Use comfortable"
    click(page.put)
    assert page._session.inputs.front_cant_deg == 5.0
    assert page._session.undo_name == "Comfortable angles"
    assert "Keep to 5.0° inward" in page.words["front"].text()
    assert not page.put.isEnabled()


def test_going_far_beyond_what_was_tried_is_asked_about(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Found straight across the board, inward; along the board that leads outward.
    setup = Setup(inputs=changed(ACROSS, front_angle_deg=90.0, rear_angle_deg=90.0))
    for day, cant in enumerate((5.0, 5.0, 5.0), 1):
        setup = with_trial(setup, trial(cant, "even", f"2026-01-0{day}"))
    asked: list[str] = []
    monkeypatch.setattr(
        put_button, "agreed_to_go_on", lambda _over, _text, told: bool(asked.append(told))
    )
    page = opened_page(qtbot, TrialsPage, Session(setup), (700, 320))
    click(page.put)
    assert "outward" in asked[0]
    assert page._session.inputs.front_cant_deg == 0.0


def test_without_trials_one_begins_with_the_answer(page: TrialsPage) -> None:
    assert page.put.text() == "Try next"
    assert "begin here" in page.words["front"].text()


def test_a_long_log_is_shown_without_making_all_of_its_words(qtbot: QtBot) -> None:
    one = trial(5.0, "bow-legged", "2026-01-02")
    setup = Setup(inputs=ACROSS, trials=tuple(replace(one, notes=str(i)) for i in range(20_000)))
    page = opened_page(qtbot, TrialsPage, Session(setup), (700, 320))
    assert page.table.rows.rowCount() == 20_000
    page.table.scrollToBottom()
    QTest.qWait(0)
    assert page.table.rows._texts.cache_info().misses < 1000
    assert page.table.rows.index(19_999, 6).data() == "19999"


def test_nothing_is_computed_during_a_drag_and_once_it_is_over(
    logged: TrialsPage, qtbot: QtBot
) -> None:
    session, before = logged._session, logged.words["front"].text()
    session.begin_drag()
    session.edit(stance_length_mm=420.0)
    qtbot.wait(SETTLE_MS + 50)
    assert logged.words["front"].text() == before
    assert not logged.put.isEnabled()
    session.end_drag()
    qtbot.waitUntil(lambda: logged.words["front"].text() != before)
    assert logged.put.isEnabled()


@pytest.mark.parametrize("size", [(698, 320), (952, 320)])
def test_no_words_are_cut_off_with_the_longest_of_them(qtbot: QtBot, size: tuple[int, int]) -> None:
    setup = Setup(inputs=ACROSS, parts=WEDGES)
    setup = with_trial(setup, trial(9.0, "bow-legged", "2026-01-02", "a long note " * 20))
    page = opened_page(qtbot, TrialsPage, Session(setup), size)
    for leg in ("front", "rear"):
        page.agree[leg].click()
    QTest.qWait(0)
    assert overfull(page) == []
    assert page.table.height() >= 3 * page.table.rowHeight(0)


def test_an_empty_log_offers_to_begin_and_then_to_say_how_it_feels(
    qtbot: QtBot, page: TrialsPage, session: Session
) -> None:
    before = session.inputs
    qtbot.waitUntil(page.begin.isEnabled)
    assert page.table.viewport().rect().contains(page.first.geometry())
    click(page.begin)
    assert session.inputs != before
    click(page.say)
    assert page.form.isAncestorOf(QApplication.focusWidget())
    session.take("trial", with_trial(session.setup, trial(5.0, "even", "2026-01-02")))
    assert not page.first.isVisible()

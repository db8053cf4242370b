"""The page of what to begin with, by real events in the window."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain
from math import nan

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton
from pytestqt.qtbot import QtBot
from shown_windows import clicked_open, shown_window

from app.drawing.theme import DARK, LIGHT, Theme
from app.features.answer import put_button
from app.features.answer.model import told_of
from app.features.answer.page import CARD, AnswerPage
from app.features.answer.scale import SIGN, Cants, span_of
from app.features.answer.words import worst_words
from app.qt.controls.plain_area import PlainArea
from app.qt.painting.palette import SMALL_PX, typeface
from app.qt.themes import set_theme
from app.rider.cuffs import with_cuffs
from app.rider.setup import Setup, edited, estimated
from app.rider.trials import entry_of
from app.session import Session
from app.stance.answer import answer_of
from app.stance.findings import USUAL_LIMITS
from app.stance.needs import with_mounts
from app.stance.through import Legs, most_out
from app.window.lifecycle import speak
from app.window.window import Window

LEFT = Qt.MouseButton.LeftButton
STRAIGHT = edited(Setup(), front_angle_deg=0.0, rear_angle_deg=0.0)
FAR = edited(Setup(), stance_length_mm=800.0, hip_height_mm=600.0, knee_height_mm=330.0)
TRIED = replace(
    STRAIGHT,
    trials=(entry_of(STRAIGHT.inputs, "2026-01-31", ("even", "even"), ("even", "even"), ""),),
)
WORDY = replace(
    edited(estimated(STRAIGHT, stature_mm=1700.0), stance_length_mm=600.0, flex_range_deg=3.0),
    growing=True,
)
"""A set-up of which nearly everything that can be said is said."""


@pytest.fixture
def setup() -> Setup:
    return STRAIGHT


@pytest.fixture
def window(qtbot: QtBot, setup: Setup) -> Window:
    return shown_window(qtbot, Session(setup))


@pytest.fixture
def page(qtbot: QtBot, window: Window) -> AnswerPage:
    opened = clicked_open(window, "Begin with", AnswerPage)
    qtbot.waitUntil(opened.isVisible)
    return opened


def all_is_known(qtbot: QtBot, page: AnswerPage) -> None:
    """Wait for what takes longer: the share of the weight comes last."""
    qtbot.waitUntil(
        lambda: page.cards["front"].isEnabled() and bool(page.side.left), timeout=20_000
    )


def click(button: QPushButton) -> None:
    QTest.mouseClick(button, LEFT)
    QApplication.processEvents()


def test_what_to_begin_with_stands_there_at_once(page: AnswerPage) -> None:
    card = page.cards["front"]
    assert (card.cant.text(), card.lift.text()) == ("5.5° inward", "no lift")
    assert card.why.text().startswith("The feet stand 50 cm apart across their own axes")


def test_one_click_puts_both_on_compares_and_undo_takes_them_back(
    qtbot: QtBot, window: Window, page: AnswerPage
) -> None:
    all_is_known(qtbot, page)
    click(page.head.put)
    assert window.session.setup == with_mounts(STRAIGHT, answer_of(STRAIGHT).mounts)
    assert window.compare.other == STRAIGHT
    feet = answer_of(STRAIGHT).feet
    front, rear = (f"{most_out(foot.now):.1f}° → {most_out(foot.then):.1f}°" for foot in feet)
    assert window.documents.notices.text == (
        f"Knees at their worst from 30° to 55°: front {front}, rear {rear}. "
        "On the bindings now: front 5.5° inward, no lift; rear 5.5° inward, no lift."
    )
    window._take_off()
    assert window.session.setup == STRAIGHT
    assert window.compare.other is None


def test_one_foot_alone_leaves_the_other_as_it_stands(
    qtbot: QtBot, window: Window, page: AnswerPage
) -> None:
    all_is_known(qtbot, page)
    button = page.cards["rear"].put
    tip = button.toolTip()
    click(button)
    told = told_of(STRAIGHT, USUAL_LIMITS)
    inputs = window.session.inputs
    # What it would bring both knees was told at the button, and is told once it is on.
    brought = worst_words(
        Legs(*(foot.now for foot in told.answer.feet)), told.alone["rear"], inputs
    )
    assert brought in tip
    assert window.documents.notices.text.startswith(brought)
    assert told.others is not None
    assert inputs.rear_cant_deg == told.others.alone["rear"].cant_deg
    assert inputs.front_cant_deg == 0.0
    assert window.session.undo_name == "Rear: to begin with"


def test_the_space_bar_puts_both_on_too(qtbot: QtBot, window: Window, page: AnswerPage) -> None:
    all_is_known(qtbot, page)
    page.head.put.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(page.head.put, Qt.Key.Key_Space)
    assert window.session.inputs.front_cant_deg == answer_of(STRAIGHT).front.begin.cant_deg


def test_what_is_on_is_not_offered_again(qtbot: QtBot, window: Window, page: AnswerPage) -> None:
    all_is_known(qtbot, page)
    click(page.head.put)
    all_is_known(qtbot, page)
    assert not page.head.put.isEnabled()
    assert page.head.put.toolTip() == "They are on the bindings."
    assert not page.cards["front"].cells["knee", "then"].isVisible()


@pytest.mark.parametrize("setup", [TRIED])
@pytest.mark.parametrize("agreed", [True, False])
def test_going_far_beyond_what_was_tried_is_asked_about(
    qtbot: QtBot,
    window: Window,
    page: AnswerPage,
    monkeypatch: pytest.MonkeyPatch,
    agreed: bool,
) -> None:
    window.session.take("A longer stance", edited(TRIED, stance_length_mm=560.0))
    asked: list[str] = []

    def answer(_parent: object, text: str, _details: str) -> bool:
        asked.append(text)
        return agreed

    monkeypatch.setattr(put_button, "agreed_to_go_on", answer)
    monkeypatch.setattr(put_button, "beyond_tried", lambda _setup, _mounts: ["front"])
    qtbot.waitUntil(page.head.put.isEnabled, timeout=20_000)
    before = window.session.setup
    page._put_both()
    assert asked == ["This goes more than 2° beyond what was tried."]
    assert (window.session.setup != before) == agreed


def test_in_a_drag_what_was_found_stays_greyed_until_its_end(
    qtbot: QtBot, window: Window, page: AnswerPage
) -> None:
    all_is_known(qtbot, page)
    before = page.cards["front"].cant.text()
    window.session.begin_drag()
    window.session.edit(front_angle_deg=30.0, rear_angle_deg=30.0)
    QTest.qWait(300)
    assert page.cards["front"].cant.text() == before
    page.show_details(shown=True)
    stale = [*page.cards.values(), page.side.left_box, *chain.from_iterable(page.details)]
    told = [each for every in stale for each in (every, *every.findChildren(QLabel))]
    for label in (each for each in told if isinstance(each, QLabel) and each.text()):
        assert not label.isEnabled(), label.text()
        group, role = label.palette(), label.foregroundRole()
        assert group.color(QPalette.ColorGroup.Disabled, role) != group.color(
            QPalette.ColorGroup.Active, role
        )
    page.show_details(shown=False)
    window.session.end_drag()
    all_is_known(qtbot, page)
    assert page.cards["front"].cant.text() != before


def test_another_riding_bend_is_typed_on_the_page(
    qtbot: QtBot, window: Window, page: AnswerPage
) -> None:
    all_is_known(qtbot, page)
    page.side.rows["bend_to_deg"].number.committed.emit(70.0)
    assert window.session.inputs.bend_to_deg == 70.0
    qtbot.waitUntil(
        lambda: "in its plane from 30° to 70°" in page.cards["front"].said(), timeout=20_000
    )


def test_an_end_of_the_riding_bend_typed_beyond_the_other_one_pushes_it_along(
    window: Window, page: AnswerPage
) -> None:
    rows, ends = page.side.rows, ("bend_from_deg", "bend_to_deg")
    for name, typed, then in ((ends[1], 27.0, (26.0, 27.0)), (ends[0], 60.0, (60.0, 61.0))):
        rows[name].number.committed.emit(typed)
        QApplication.processEvents()
        assert tuple(window.session.inputs.value(end) for end in ends) == then
        assert tuple(rows[end].number.text() for end in ends) == tuple(f"{x}°" for x in then)
    window.undo.trigger()
    window.undo.trigger()
    assert window.session.setup == STRAIGHT


def test_a_growing_rider_is_told_by_a_click(qtbot: QtBot, window: Window, page: AnswerPage) -> None:
    all_is_known(qtbot, page)
    page.side.growing.click()
    assert window.session.setup.growing
    qtbot.waitUntil(lambda: page.cards["rear"].cant.text() == "3.0° inward", timeout=20_000)
    window.undo.trigger()
    QApplication.processEvents()
    assert not page.side.growing.isChecked()


def test_how_it_is_found_opens_and_goes_back(qtbot: QtBot, page: AnswerPage) -> None:
    all_is_known(qtbot, page)
    click(page.head.how)
    said = " ".join(text.text() for _, text in page.details)
    assert "By the rule for straight legs: " in said
    assert "40:60: front " in said
    assert page.back.isVisible()
    click(page.back)
    assert page.cards["front"].isVisible()


@pytest.mark.parametrize("setup", [FAR])
def test_where_no_leg_reaches_nothing_is_offered_and_the_reason_stands_there(
    qtbot: QtBot, page: AnswerPage
) -> None:
    assert "hinge plane" in page.cards["front"].why.text()
    all_is_known(qtbot, page)
    assert not page.head.put.isEnabled()
    assert not page.cards["front"].put.isEnabled()


@pytest.mark.parametrize("setup", [STRAIGHT, WORDY], ids=["demo", "wordy"])
@pytest.mark.parametrize("size", [(1280, 800), (1024, 700)])
@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_no_words_are_cut_off(
    qtbot: QtBot, window: Window, page: AnswerPage, size: tuple[int, int], theme: Theme
) -> None:
    set_theme(theme)
    window.resize(*size)
    all_is_known(qtbot, page)
    QApplication.processEvents()
    inside = page._inside
    assert inside.width() <= page.width()
    for label in inside.findChildren(QLabel):
        if not label.isVisible():
            continue
        assert label.width() >= label.fontMetrics().horizontalAdvance(label.text()) or (
            label.wordWrap() and label.height() >= label.heightForWidth(label.width())
        )
        assert inside.rect().contains(label.mapTo(inside, label.rect().bottomRight()))


def test_everything_is_said_to_those_who_cannot_see_it(qtbot: QtBot, page: AnswerPage) -> None:
    all_is_known(qtbot, page)
    said = page.accessibleDescription()
    assert "5.5° inward" in said
    assert "Boot: " in said
    assert (
        "in steps of 2° at most: 2.0° inward, 4.0° inward, 5.5° inward (the little-toe side up)."
        in said
    )


def test_the_present_cant_moves_along_the_scale(
    qtbot: QtBot, window: Window, page: AnswerPage
) -> None:
    all_is_known(qtbot, page)
    all_is_known(qtbot, page)
    scale = page.cards["front"].scale
    flat = scale.grab().toImage()
    window.session.edit(front_cant_deg=3.0)
    QApplication.processEvents()
    qtbot.waitUntil(page.cards["front"].isEnabled, timeout=20_000)
    assert scale.grab().toImage() != flat


def test_a_scale_says_what_its_signs_are_in_the_room_of_a_card(page: AnswerPage) -> None:
    scale = page.cards["front"].scale
    words = scale.key_words()
    assert list(words) == ["now", "begin", "band", "full"]
    letters = QFontMetrics(typeface(SMALL_PX))
    widths = [letters.horizontalAdvance(word) + SIGN for word in words.values()]
    assert sum(widths) <= min(scale.width(), CARD - 22)
    scale.show_cants(Cants(0.0, nan, 1.0, -1.0, nan), 5.0)
    assert list(scale.key_words()) == ["now"]


def test_a_scale_holds_what_counts() -> None:
    assert span_of([Cants(0.0, 0.5, 0.0, 4.0, 3.8)]) == 5.0
    assert span_of([Cants(0.0, 5.5, 5.1, 12.2, 8.6)]) == 10.0
    assert span_of([Cants(12.0, 5.5, 5.1, 12.2, 8.6)]) == 15.0
    assert span_of([]) == 5.0


@pytest.mark.parametrize("setup", [replace(STRAIGHT, cuffs="")])
def test_an_answer_says_that_it_waits_until_somebody_has_looked_at_the_cuffs(
    qtbot: QtBot, window: Window, page: AnswerPage
) -> None:
    assert "cuffs" in page.side.waits.text()
    assert page.side.waits.isVisible()
    window.session.take("Cuffs", with_cuffs(window.session.setup, "adjusted"))
    qtbot.waitUntil(lambda: "cuffs" not in page.side.waits.text())


def test_an_answer_for_an_example_says_so_until_somebody_rides(
    qtbot: QtBot, window: Window, page: AnswerPage
) -> None:
    assert page.side.waits.text().startswith("For the legs of an example")
    window.session.edit(hip_height_mm=900.0)
    qtbot.waitUntil(lambda: not page.side.waits.isVisible())


@pytest.fixture
def german(qapp: QApplication) -> Iterator[None]:
    speak(qapp, "de")
    yield
    speak(qapp, "en")


@pytest.mark.usefixtures("german")
@pytest.mark.parametrize("width", [1280, 1920])
def test_no_side_is_cut_off_in_the_language_of_the_longest_words(qtbot: QtBot, width: int) -> None:
    window = shown_window(qtbot, size=(width, 800))
    page = window.tray.open_page("Begin with")
    assert isinstance(page, AnswerPage)
    QApplication.processEvents()
    (area,) = [each for each in page.findChildren(PlainArea) if each.isVisible()]
    assert area.widget().minimumSizeHint().width() <= area.viewport().width()

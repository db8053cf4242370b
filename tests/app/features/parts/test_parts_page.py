"""The page of parts, by real events in the window."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from opened_pages import overfull, type_and_enter
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QFileDialog,
    QLineEdit,
    QMessageBox,
    QPushButton,
    QWidget,
)
from pytestqt.qtbot import QtBot
from shown_windows import clicked_open, shown_window

from app.drawing.theme import DARK, LIGHT, Theme
from app.features.parts.combining import combinations_of, mounts_of
from app.features.parts.page import COMBINATIONS, REACH, SEVERAL, PartsPage
from app.features.parts.reach_panel import ReachPanel
from app.features.parts.reaching import search
from app.files.parts_file import parts_opened
from app.files.resources import SHARED
from app.qt.themes import set_theme
from app.rider.parts import NO_PARTS, PartEntry, Parts
from app.rider.setup import Setup, edited
from app.session import Session
from app.stance.needs import Mounts
from app.window.window import Window

LEFT = Qt.MouseButton.LeftButton
ROUND = parts_opened(SHARED / "parts-round-wedges.json").parts
DISCS = parts_opened(SHARED / "parts-board-discs.json").parts
FEW = Parts("Few", (PartEntry("wedge", "across", 4.0, 8.0),), largest_stack=1)


@pytest.fixture
def setup() -> Setup:
    return Setup(parts=ROUND)


@pytest.fixture
def window(qtbot: QtBot, setup: Setup) -> Window:
    return shown_window(qtbot, Session(setup), active=True)


@pytest.fixture
def page(window: Window) -> PartsPage:
    return clicked_open(window, "Parts", PartsPage)


def click(button: QWidget) -> None:
    QTest.mouseClick(button, LEFT)
    QApplication.processEvents()


def cell_editor(page: PartsPage, row: int, column: int) -> QWidget:
    """The editor that a double-click opens on a cell."""
    table = page.editor.table
    spot = table.visualItemRect(table.item(row, column)).center()
    QTest.mouseClick(table.viewport(), LEFT, pos=spot)
    QTest.mouseDClick(table.viewport(), LEFT, pos=spot)
    found = table.viewport().findChildren(QLineEdit) + table.viewport().findChildren(QComboBox)
    return found[-1]


def type_in_cell(page: PartsPage, row: int, column: int, text: str) -> None:
    editor = cell_editor(page, row, column)
    QTest.keyClicks(editor, text)
    QTest.keyClick(editor, Qt.Key.Key_Return)
    QApplication.processEvents()


def answer_box(button: QMessageBox.StandardButton, said: list[str]) -> None:
    def press() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        said.append(box.text())
        box.button(button).click()

    QTimer.singleShot(0, press)


def combinations_are_known(qtbot: QtBot, page: PartsPage) -> None:
    qtbot.waitUntil(page.combinations.table.isEnabled, timeout=20_000)
    qtbot.waitUntil(lambda: page.combinations.table.rowCount() > 0, timeout=20_000)


def search_is_over(qtbot: QtBot, page: PartsPage) -> None:
    qtbot.waitUntil(lambda: page.reach.limits.go.text() == "Search", timeout=60_000)


def searched(qtbot: QtBot, page: PartsPage) -> ReachPanel:
    """The panel of other stances after a search."""
    click(page.tabs[REACH])
    panel = page.reach
    qtbot.waitUntil(panel.limits.go.isEnabled, timeout=20_000)
    click(panel.limits.go)
    search_is_over(qtbot, page)
    return panel


# The list


def test_a_typed_slope_changes_the_list_and_undo_brings_it_back(
    window: Window, page: PartsPage, qtbot: QtBot
) -> None:
    type_in_cell(page, 1, 2, "5,5")
    assert window.session.setup.parts.parts[1].slope_deg == 5.5
    assert window.session.undo_name == "4.5° round wedge: slope 5.5°"
    qtbot.waitUntil(window.undo.isEnabled)
    window.undo.trigger()
    qtbot.waitUntil(lambda: page.editor.table.item(1, 2).text() == "4.5°")


def test_a_slope_that_cannot_be_is_refused_in_words_and_the_old_one_stands(
    window: Window, page: PartsPage
) -> None:
    type_in_cell(page, 1, 2, "steep")
    assert window.session.setup.parts == ROUND
    assert page.editor.table.item(1, 2).text() == "4.5°"
    assert page.editor.words.flags.text() == "Slope: “steep” was not taken: not a number."
    cell = page.editor.table.viewport().findChildren(QLineEdit)[-1]
    assert (cell.text(), cell.toolTip()) == ("steep", "not a number")
    cell.selectAll()
    QTest.keyClicks(cell, "5")
    QTest.keyClick(cell, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert window.session.setup.parts.parts[1].slope_deg == 5.0
    assert page.editor.words.flags.text() == ""


def test_what_was_dropped_of_a_number_does_not_come_back_when_a_cell_is_refused(
    window: Window, page: PartsPage
) -> None:
    step = page.editor.rows["angle_step_deg"].number
    step.setFocus()
    QTest.keyClick(step, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(step, "5000")
    for key in (Qt.Key.Key_Return, Qt.Key.Key_Escape):
        QTest.keyClick(step, key)
    stands = step.text()
    type_in_cell(page, 1, 2, "steep")
    assert page.editor.table.draft == "steep"
    assert (step.text(), step.draft, step.why) == (stands, None, "")
    assert len(window.documents.desk.drafts) == 1


# What the screenless platform says of every menu is no fault of the program.
@pytest.mark.qt_log_ignore("This plugin does not support (raise|grabbing)", extend=True)
def test_the_kind_is_chosen_from_a_list(qtbot: QtBot, window: Window, page: PartsPage) -> None:
    box = cell_editor(page, 0, 1)
    assert isinstance(box, QComboBox)
    qtbot.waitUntil(box.view().isVisible)
    QTest.keyClick(box.view(), Qt.Key.Key_Down)
    QTest.keyClick(box.view(), Qt.Key.Key_Down)
    QTest.keyClick(box.view(), Qt.Key.Key_Return)
    QApplication.processEvents()
    assert window.session.setup.parts.parts[0].kind == "across"
    assert window.session.undo_name == "2° round wedge: kind across the foot"
    assert page.editor.table.item(0, 3).text() == "–"


def test_parts_are_added_and_removed_with_the_keyboard(window: Window, page: PartsPage) -> None:
    click(page.editor.add)
    assert window.session.setup.parts.parts[-1].name == "new part"
    page.editor.table.setFocus()
    page.editor.table.setCurrentCell(2, 0)
    QTest.keyClick(page.editor.table, Qt.Key.Key_Delete)
    assert window.session.setup.parts == ROUND
    assert window.session.undo_name == "Part removed: 3° new part"


def test_stack_turning_and_inserts_belong_to_the_set_up(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    editor = page.editor
    click(editor.stack.segments[1])
    click(editor.turning.segments[1])
    type_and_enter(qtbot, editor.rows["insert_grid_mm"].number, "40")
    type_and_enter(qtbot, editor.rows["angle_step_deg"].number, "1.5")
    assert window.session.setup.parts == replace(
        ROUND, largest_stack=1, turns_with_binding=False, insert_grid_mm=40.0, angle_step_deg=1.5
    )


def test_a_longest_stance_below_the_shortest_is_told(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    type_and_enter(qtbot, page.editor.rows["longest_stance_mm"].number, "300")
    assert window.session.setup.parts == ROUND
    assert "longest stance length is 300 mm" in page.editor.words.flags.text()
    number = page.editor.rows["longest_stance_mm"].number
    assert number.text() == "300"
    qtbot.keyClick(number, Qt.Key.Key_Escape)
    assert number.text() == "600 mm"
    assert page.editor.words.flags.text() == ""


@pytest.mark.parametrize("setup", [Setup()])
def test_an_example_takes_the_place_of_an_empty_list(window: Window, page: PartsPage) -> None:
    assert page.editor.table.rowCount() == 0
    example = page.editor.start.menu().actions()[0]
    assert example.text() == "Round wedges"
    example.trigger()
    QApplication.processEvents()
    assert window.session.setup.parts == ROUND
    assert page.editor.table.rowCount() == 2
    assert window.session.undo_name == "Parts list: Round wedges"


def test_a_list_is_saved_and_opened_again_with_its_notes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, window: Window, page: PartsPage
) -> None:
    chosen = tmp_path / "mine"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(chosen), ""))
    page.editor.start.menu().actions()[0].trigger()
    type_in_cell(page, 0, 5, "4")
    click(page.editor.save)
    raw = json.loads((tmp_path / "mine.json").read_text("utf-8"))
    assert raw["parts"][0]["count"] == 4
    assert raw["notes"].startswith("Invented")
    window.undo.trigger()
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (f"{chosen}.json", ""))
    click(page.editor.open)
    assert window.session.setup.parts.parts[0].count == 4


def test_a_file_that_is_no_parts_list_is_refused_in_words(
    monkeypatch: pytest.MonkeyPatch, window: Window, page: PartsPage
) -> None:
    name = str(SHARED / "neutral.json")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (name, ""))
    said: list[str] = []
    answer_box(QMessageBox.StandardButton.Ok, said)
    click(page.editor.open)
    assert "it is a set-up, not a parts list; open it with Open… in the menu File" in said[0]
    assert window.session.setup.parts == ROUND


# Combinations


def test_the_combination_looked_at_is_put_on_the_mounts_as_one_step(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    click(page.tabs[COMBINATIONS])
    combinations_are_known(qtbot, page)
    panel = page.combinations
    panel.table.setFocus()
    QTest.keyClick(panel.table, Qt.Key.Key_Down)
    second = combinations_of(window.session.setup).ranked[1]
    assert panel.table.item(1, 2).text() == "2.0° in"
    click(panel.put)
    inputs = window.session.inputs
    mounts = mounts_of(second.front, second.rear)
    assert {name: getattr(inputs, name) for name in Mounts._fields} == mounts._asdict()
    assert window.session.undo_name == "Parts put on"
    assert panel.put.toolTip() == "They are on the bindings." or not panel.put.isEnabled()
    window.undo.trigger()
    assert window.session.setup == Setup(parts=ROUND)


def test_what_to_set_is_said_for_both_feet_and_to_those_who_cannot_see_it(
    qtbot: QtBot, page: PartsPage
) -> None:
    click(page.tabs[COMBINATIONS])
    combinations_are_known(qtbot, page)
    said = page.combinations.words.accessibleDescription()
    assert (
        "Front foot. 2.0° toe. Turn the 2° round wedge so that its high side lies straight" in said
    )
    assert "Rear foot. 2.0° in. Turn the 2° round wedge so that its high side lies straight" in said
    assert "Turning the rear binding alone changes neither its lift nor its cant." in said


@pytest.mark.parametrize("setup", [Setup(parts=DISCS)])
def test_parts_that_stay_on_the_board_show_what_turning_a_binding_does(
    qtbot: QtBot, page: PartsPage
) -> None:
    click(page.tabs[COMBINATIONS])
    combinations_are_known(qtbot, page)
    panel = page.combinations
    row = next(i for i in range(panel.table.rowCount()) if "heel" in panel.table.item(i, 2).text())
    QTest.mouseClick(
        panel.table.viewport(),
        LEFT,
        pos=panel.table.visualItemRect(panel.table.item(row, 2)).center(),
    )
    assert "A binding turned alone, by:" in panel.words.words.text()
    assert "Turning the rear binding alone, to 28°:" in panel.words.accessibleDescription()


def test_a_typed_wish_is_built_instead_of_what_it_needs(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    click(page.tabs[COMBINATIONS])
    combinations_are_known(qtbot, page)
    panel = page.combinations
    click(panel.wanted.segments[1])
    type_and_enter(qtbot, panel.numbers["front_cant_deg"], "4,5")
    type_and_enter(qtbot, panel.numbers["rear_cant_deg"], "4,5")
    qtbot.waitUntil(lambda: not panel.table.isEnabled())
    qtbot.waitUntil(panel.table.isEnabled, timeout=20_000)
    assert panel.table.item(0, 1).text() == panel.table.item(0, 2).text() == "4.5° in"
    assert window.session.setup == Setup(parts=ROUND)


@pytest.mark.parametrize("setup", [Setup()])
def test_an_empty_list_is_told_beside_its_flat_soles(qtbot: QtBot, page: PartsPage) -> None:
    click(page.tabs[COMBINATIONS])
    combinations_are_known(qtbot, page)
    assert page.combinations.words.flags.text().startswith("The parts list is empty")


def test_combinations_wait_for_the_end_of_a_drag(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    click(page.tabs[COMBINATIONS])
    combinations_are_known(qtbot, page)
    window.session.begin_drag()
    window.session.edit(stance_length_mm=560.0)
    QTest.qWait(250)
    assert not page.combinations.table.isEnabled()
    assert not page.combinations.put.isEnabled()
    window.session.end_drag()
    combinations_are_known(qtbot, page)


# The best stance in reach


@pytest.mark.parametrize("setup", [Setup(parts=FEW)])
def test_the_best_stance_is_found_and_put_on_with_its_mounts_as_one_step(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    click(page.tabs[REACH])
    panel = page.reach
    qtbot.waitUntil(panel.limits.go.isEnabled)
    assert "stances on parts to try" in panel.limits.count.text()
    click(panel.limits.go)
    search_is_over(qtbot, page)
    assert panel.table.rowCount() == 11
    best = None
    for step in search(Setup(parts=FEW), panel._wishes):  # type: ignore[arg-type]
        best = step.result
    assert best is not None
    click(panel.put)
    assert window.session.inputs.stance_length_mm == best.best[0].stance.length
    assert window.session.undo_name.startswith("Within your limits: ")
    assert panel.put.toolTip() == "It is on."
    window.undo.trigger()
    assert window.session.setup == Setup(parts=FEW)


@pytest.mark.parametrize("setup", [Setup(parts=FEW)])
def test_keeping_the_present_stance_is_the_last_line_and_others_can_be_tried_in_turn(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    panel = searched(qtbot, page)
    click(panel.put)
    panel.table.setFocus()
    QTest.keyClick(panel.table, Qt.Key.Key_End, Qt.KeyboardModifier.ControlModifier)
    assert panel.table.item(panel.table.row_chosen, 0).text() == "keep"
    click(panel.put)
    assert window.session.inputs.front_angle_deg == Setup().inputs.front_angle_deg
    assert window.session.inputs.stance_length_mm == Setup().inputs.stance_length_mm
    inputs = window.session.inputs
    kept = [step.result for step in search(Setup(parts=FEW), panel._wishes)][-1].kept  # type: ignore[arg-type,union-attr]
    assert kept is not None
    assert kept.built is not None
    mounts = mounts_of(*kept.built)._asdict()
    assert {name: getattr(inputs, name) for name in Mounts._fields} == mounts


def test_a_search_can_be_stopped_and_rests_during_a_drag(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    click(page.tabs[REACH])
    panel = page.reach
    qtbot.waitUntil(panel.limits.go.isEnabled, timeout=20_000)
    click(panel.limits.go)
    assert panel.limits.go.text() == "Stop"
    qtbot.waitUntil(lambda: panel.limits.progress.value() > 0, timeout=30_000)
    window.session.begin_drag()
    window.session.edit(stance_length_mm=510.0)
    assert panel._search.held
    window.session.end_drag()
    assert not panel._search.held
    click(panel.limits.go)
    assert (panel.limits.go.text(), panel.limits.progress.value(), panel.table.rowCount()) == (
        "Search",
        0,
        0,
    )


@pytest.mark.parametrize("setup", [Setup(parts=FEW)])
def test_what_was_found_for_another_rider_is_faint_and_not_to_be_had(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    panel = searched(qtbot, page)
    window.session.edit(hip_height_mm=900.0)
    QApplication.processEvents()
    assert not panel.table.isEnabled()
    assert not panel.put.isEnabled()
    assert panel.words.flags.text() == "Changed since: search again."


@pytest.mark.parametrize(
    ("name", "typed", "why"),
    [
        ("stance_length_least", "700", "The least stance length, 700 mm, is more than the most"),
        ("splay_least", "60", "The least splay, 60 deg, is more than the most"),
        ("front_angle_least", "55", "The least front binding angle, 55 deg, is more than the most"),
        ("front_angle_most", "forty", "Front angle, most: “forty” was not taken: not a number."),
    ],
)
def test_impossible_limits_are_told_in_words(
    qtbot: QtBot, page: PartsPage, name: str, typed: str, why: str
) -> None:
    click(page.tabs[REACH])
    qtbot.waitUntil(page.reach.limits.go.isEnabled, timeout=20_000)
    type_and_enter(qtbot, page.reach.limits.numbers[name], typed)
    qtbot.waitUntil(lambda: why in page.reach.words.flags.text(), timeout=20_000)
    refused = "not taken" in why
    assert page.reach.limits.go.isEnabled() == refused


def test_limits_can_be_drawn_round_the_present_stance_again(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    click(page.tabs[REACH])
    window.session.edit(stance_length_mm=560.0)
    QApplication.processEvents()
    assert page.reach.limits.numbers["stance_length_most"].text() == "545 mm"
    click(page.reach.limits.round)
    assert page.reach.limits.numbers["stance_length_most"].text() == "600 mm"


# Several set-ups


def several_are_known(qtbot: QtBot, page: PartsPage) -> None:
    qtbot.waitUntil(page.several.table.isEnabled, timeout=20_000)
    qtbot.waitUntil(lambda: page.several.table.rowCount() > 0, timeout=20_000)


def test_set_ups_that_are_ticked_are_served_by_what_can_be_got(
    qtbot: QtBot, window: Window, page: PartsPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    click(page.tabs[SEVERAL])
    names = [str(SHARED / "soft-boots-duck.json")], ""
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *_: names)
    click(page.several.open)
    type_and_enter(qtbot, page.several.can_get, "1.5° 5 mm")
    qtbot.waitUntil(lambda: not page.several.table.isEnabled())
    several_are_known(qtbot, page)
    assert "soft-boots-duck" in page.several.words.words.text()
    assert window.session.setup == Setup(parts=ROUND)


def test_a_line_of_parts_that_cannot_be_read_is_told(qtbot: QtBot, page: PartsPage) -> None:
    click(page.tabs[SEVERAL])
    type_and_enter(qtbot, page.several.can_get, "some wedges")
    assert "is not a slope and a thickness" in page.several.words.flags.text()


def test_a_file_that_holds_no_set_up_is_told_and_not_served(
    page: PartsPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    click(page.tabs[SEVERAL])
    (tmp_path / "bad.json").write_text("[]")
    names = [str(tmp_path / "bad.json")], ""
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *_: names)
    click(page.several.open)
    assert "bad.json" in page.several.words.flags.text()
    last = page.several.list.item(page.several.list.count() - 1)
    assert last.checkState() == Qt.CheckState.Unchecked


# Its looks


def on_list(_qtbot: QtBot, _page: PartsPage) -> None:
    """The list stands open from the start."""


def on_combinations(qtbot: QtBot, page: PartsPage) -> None:
    click(page.tabs[COMBINATIONS])
    combinations_are_known(qtbot, page)


def on_reach(qtbot: QtBot, page: PartsPage) -> None:
    searched(qtbot, page)


def on_several(qtbot: QtBot, page: PartsPage) -> None:
    click(page.tabs[SEVERAL])
    several_are_known(qtbot, page)


@pytest.mark.parametrize("setup", [Setup(parts=FEW)])
@pytest.mark.parametrize(("size", "theme"), [((1280, 800), LIGHT), ((1024, 700), DARK)])
@pytest.mark.parametrize("ready", [on_list, on_combinations, on_reach, on_several])
def test_nothing_is_cut_off(
    qtbot: QtBot,
    window: Window,
    page: PartsPage,
    size: tuple[int, int],
    theme: Theme,
    ready: Callable[[QtBot, PartsPage], None],
) -> None:
    set_theme(theme)
    window.resize(*size)
    ready(qtbot, page)
    QApplication.processEvents()
    assert overfull(page) == []
    tables = page.editor.table, page.combinations.table, page.reach.table, page.several.table
    for table in tables:
        if table.isVisible():
            assert table.horizontalScrollBar().maximum() == 0
    for button in page.findChildren(QPushButton):
        if button.isVisible():
            corner = button.mapTo(page, button.rect().bottomRight())
            assert page.rect().contains(corner)
    assert window.rect().contains(page.mapTo(window, page.rect().bottomRight()))


def test_a_stance_edited_elsewhere_is_counted_and_shown_anew(
    qtbot: QtBot, window: Window, page: PartsPage
) -> None:
    click(page.tabs[COMBINATIONS])
    combinations_are_known(qtbot, page)
    before = page.combinations.bands.text()
    window.session.take("Stance", edited(window.session.setup, front_angle_deg=15.0))
    qtbot.waitUntil(lambda: page.combinations.bands.text() != before, timeout=20_000)


def test_an_empty_list_offers_its_first_part_and_the_examples(
    page: PartsPage, window: Window
) -> None:
    session, editor = window.session, page.editor
    session.take("none", replace(session.setup, parts=NO_PARTS))
    QApplication.processEvents()
    assert editor.example.menu().actions()
    assert editor.first.isVisible()
    assert editor.table.viewport().rect().contains(editor.first.geometry())
    QTest.mouseClick(editor.first_part, LEFT)
    assert len(session.setup.parts.parts) == 1
    assert not editor.first.isVisible()

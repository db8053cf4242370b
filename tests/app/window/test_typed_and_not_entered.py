"""What is typed and not entered is never lost, in whichever field, whatever is done next.

The fields are found by walking the window: a new one that keeps its text to itself fails.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from hands import CTRL, LEFT, NO_KEY, SHIFT
from modal import answered
from programs import killed_and_started
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QFileDialog,
    QHeaderView,
    QLineEdit,
    QPlainTextEdit,
    QStackedWidget,
    QTableView,
    QTextEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.features.clip.dialog import ClipDialog
from app.features.lessons.page import LessonsPage
from app.features.lessons.recorder import Recorder
from app.features.measuring.page import MeasurePage
from app.features.parts.page import TABS, PartsPage
from app.features.player.choosing import SWEEP, SweepRow, sweep_usual
from app.features.player.page import PlayerPage
from app.features.riders.dialog import RidersDialog
from app.features.trials.form import DateField
from app.features.trials.page import TrialsPage
from app.features.wedge.hole_list import HoleLines
from app.features.wedge.page import WedgePage
from app.files.drafts import Draft
from app.files.parts_file import parts_opened
from app.files.resources import parts_lists, starting_points
from app.files.storage import Document, opened, save
from app.qt.controls.number_field import NumberField
from app.qt.controls.text_field import TextField
from app.qt.drafts import Editor, cut_short, editors_in, place_of
from app.qt.questions import Answer
from app.rider.inputs import FIELD, OF_LEG
from app.rider.setup import Setup, with_sides
from app.stance.findings import USUAL_LIMITS
from app.window.control_row import ControlRow
from app.window.program import Program
from app.window.registry import entries
from app.window.settings_dialog import SettingsDialog

TYPED_IN = (QLineEdit, QPlainTextEdit, QTextEdit, QAbstractSpinBox, QAbstractItemView)
NEVER = QAbstractItemView.EditTrigger.NoEditTriggers
NOT_ENTERED = {"Search": "it seeks while one types, and nothing is to be kept of it"}
"""Fields, by their accessible names, in which a text may stand that nobody takes, and why."""
AT_ONCE = {"name", "notes", "words"}
"""Editors, by their objects' names, in which each letter counts as it is typed."""


def everything_open(program: Program) -> None:
    """Show every field that there is, once: each leg and boot apart, holes typed, all pages."""
    window, session = program.window, program.window.session
    setup = with_sides(with_sides(session.setup, "legs", apart=True), "boots", apart=True)
    parts = parts_opened(parts_lists()[0].path).parts
    wedge = replace(setup.wedge, holes="typed", slopes="typed")
    session.take("everything", replace(setup, parts=parts, wedge=wedge))
    window._refresh()
    window.panel.height_box.set_open(True)
    for entry in entries():
        page = window.tray.open_page(entry.title)
        if isinstance(page, PartsPage):
            for i in range(len(TABS)):
                page._turn_to(i)
            page.combinations._want("typed")
        if isinstance(page, LessonsPage):
            page.make.setChecked(True)
            page.recorder.add()
            page.recorder.ask.chosen.emit("slider")
    window.playing.stop()
    window.guide.ask()
    QApplication.processEvents()


@pytest.fixture
def patch() -> Iterator[pytest.MonkeyPatch]:
    """Takes everything back before the program is closed, which then can ask again."""
    with pytest.MonkeyPatch.context() as patch:
        yield patch


@pytest.fixture
def whole(started: Callable[..., Program], tmp_path: Path) -> Program:
    """A program with a file, and with every field that there is."""
    path = tmp_path / "anna.json"
    save(path, Document(Setup(name="Anna")))
    program = started(opened(path), path)
    everything_open(program)
    return program


def typed_in(widget: QWidget) -> Iterator[QWidget]:
    """All in which something can be typed and left standing, and which is no part of another."""
    for each in widget.findChildren(QWidget):
        if isinstance(each, QComboBox) and each.isEditable():
            yield each
        if not isinstance(each, TYPED_IN) or isinstance(each.parent(), QAbstractSpinBox):
            continue
        is_view = isinstance(each, QAbstractItemView)
        if isinstance(each, QHeaderView) or (is_view and not can_be_typed_over(each)):
            continue
        if not is_view and each.isReadOnly():
            continue
        yield each


def can_be_typed_over(view: QAbstractItemView) -> bool:
    """Whether a list or table lets its cells be typed over; what a closed box offers does not."""
    model, around = view.model(), view.parent()
    while around is not None:
        if isinstance(around, QComboBox):
            return False
        around = around.parent()
    return view.editTriggers() != NEVER and any(
        model.flags(model.index(row, column)) & Qt.ItemFlag.ItemIsEditable
        for row in range(model.rowCount())
        for column in range(model.columnCount() if isinstance(view, QTableView) else 1)
    )


def test_each_field_in_which_something_can_be_typed_tells_of_it(
    whole: Program, tmp_path: Path
) -> None:
    dialogs = (
        SettingsDialog(whole.documents.settings.now, whole.window),
        RidersDialog(tmp_path, USUAL_LIMITS, whole.window),
    )
    found = list(typed_in(whole.window))
    assert len(found) > 100
    silent = {each.accessibleName() for each in found if not isinstance(each, Editor)}
    assert silent <= {*NOT_ENTERED}
    places = [place_of(each) for each in editors_in(whole.window)]
    assert len(places) == len(set(places))
    assert all(each.objectName() for each in editors_in(whole.window))
    for dialog in dialogs:
        dialog.deleteLater()


def is_put_away(editor: Editor) -> bool:
    """Whether something else must hold of the set-up, or be chosen, before an editor is there."""
    around: QWidget | None = editor
    while around is not None and not isinstance(around.parentWidget(), QStackedWidget):
        if around.isHidden():
            return True
        around = around.parentWidget()
    return False


def bring_about(program: Program, editor: Editor) -> None:
    """Have all hold that an editor needs to be there at all."""
    if not is_put_away(editor):
        return
    window, name = program.window, editor.objectName()
    setup, place = window.session.setup, place_of(editor).split("/")
    if place[0] == "panel":
        field = FIELD[name]
        setup = with_sides(setup, field.group, apart=bool(field.side))
    elif place[0] == "Printed wedge":
        holes = "typed" if name == "holes" else "grid"
        setup = replace(setup, wedge=replace(setup.wedge, holes=holes))
    elif place[0] == "Measuring":
        window.findChild(MeasurePage).dimensions.setCurrentRow(1)
    elif place[0] == "Motion":
        window.findChild(PlayerPage)._choose(SWEEP)
    elif name == "question":
        recorder = window.findChild(Recorder)
        recorder.add()
        recorder.ask.chosen.emit("knee.rear")
        return
    else:
        assert place[0] == "who", place
        window.guide.ask()
    if setup != window.session.setup:
        window.session.take("there", setup)
        window._refresh()


def show(program: Program, editor: Editor) -> None:
    """Bring an editor into sight and put the keyboard on it."""
    program.window.present.setChecked(False)
    top = editor.window()
    if not top.isActiveWindow():  # as after a question
        top.activateWindow()
        assert QTest.qWaitForWindowActive(top)
    bring_about(program, editor)
    around = editor.parentWidget()
    page = editor if isinstance(editor, TrialsPage) else None
    while around is not None:
        page = around if around in program.window.tray._pages.values() else page
        around = around.parentWidget()
    if page is not None:
        program.window.tray.reveal(page)
        if isinstance(page, PartsPage):
            page.reveal(editor)
    assert editor.isVisible(), place_of(editor)
    editor.setFocus(Qt.FocusReason.TabFocusReason)


_NUMBERS = count()


def typed(program: Program, editor: Editor, *, sound: bool) -> None:
    """Type something else into an editor with keys; what can be taken, or what cannot."""
    show(program, editor)
    fresh = 2 + next(_NUMBERS) % 5
    if isinstance(editor, NumberField):
        scale, value = editor._scale, editor._value
        other = scale.low if value is None or value > scale.low + 1e-3 else scale.high
        # A step from what is there is taken by all who know what fits together.
        near = other if value is None else scale.stepped(value, 1 if other > value else -1, 1)
        text = scale.text(near) if sound else "5000000"
        editor.selectAll()
        QTest.keyClicks(editor, text.replace("−", "-").replace("°", ""))
    elif isinstance(editor, HoleLines):
        editor.selectAll()
        QTest.keyClicks(editor, f"21 {fresh}" if sound else "far out")
    elif isinstance(editor, DateField):
        QTest.keyClick(editor, Qt.Key.Key_Up)
    elif isinstance(editor, TextField):
        editor.selectAll()
        QTest.keyClicks(editor, f"2° {fresh} mm" if sound else "far out")
    elif isinstance(editor, TrialsPage):
        QTest.keyClick(editor.form.felt["front"].segments[0], Qt.Key.Key_Space)
    else:
        if editor._cell is None:  # type: ignore[attr-defined]
            editor.setCurrentCell(1, 2)  # type: ignore[attr-defined]
            editor.edit(editor.currentIndex())  # type: ignore[attr-defined]
        cell = editor._cell  # type: ignore[attr-defined]
        cell.selectAll()
        # No part of the list has such a slope: no two become alike.
        QTest.keyClicks(cell, f"{fresh}.3" if sound else "steep")


LEAVES = {"open", "recent", "start from", "quit"}
"""What asks before it takes the work away."""
SLOW = {"present", "compare"}
"""What lays out or paints the whole window: each kind of field goes through it, not each field."""
SAFE = {"save", "session end"}
"""What fields go through of which others like them go through all."""
NEVER_REFUSED = {"list name", "trial notes", "title", "question"}
"""Fields in which any words can stand."""


def fields(program: Program) -> list[Editor]:
    """The editors in which a text may be left standing."""
    found = [each for each in editors_in(program.window) if each.objectName() not in AT_ONCE]
    # Once a sweep is played, every change is solved all the way through: its ends come last.
    found.sort(key=lambda each: isinstance(each.parentWidget(), SweepRow))
    assert len(found) > 100
    return found


def is_alike(editor: Editor) -> bool:
    """Whether other fields are made by the same lines: a row for both sides, or a sweep's end.

    A sweep is played anew at each step of the history, which takes its time.
    """
    row = editor.parentWidget()
    both = isinstance(row, ControlRow) and row.name in OF_LEG
    return both or isinstance(row, SweepRow)


def can_refuse(editor: Editor) -> bool:
    """Whether there is anything that an editor does not take."""
    return not isinstance(editor, DateField) and editor.objectName() not in NEVER_REFUSED


def doings(
    program: Program, patch: pytest.MonkeyPatch, folder: Path
) -> dict[str, Callable[[], object]]:
    """All that is done with what is typed, by its name; every question is answered by going back.

    What is slow and comes after the fields were asked is left out: painting a sheet for one.
    """
    window, numbers = program.window, count()

    def save_as(*_args: Any, **_named: Any) -> tuple[str, str]:
        return str(folder / f"{next(numbers)}"), ""

    patch.setattr(QFileDialog, "getSaveFileName", save_as)
    patch.setattr(
        QFileDialog, "getOpenFileName", lambda *_, **_named: (str(folder / "anna.json"), "")
    )
    patch.setattr("app.window.documents.asked_to_save", lambda *_, **_named: Answer.CANCEL)
    patch.setattr("app.window.documents.agreed_to_leave_out", lambda *_: False)
    patch.setattr("app.features.wedge.page.told_not_saved", lambda *_: False)
    patch.setattr("app.features.paper.pictures._sheet", lambda shown: shown)
    patch.setattr("app.features.paper.fit_sheet.asked_and_printed", lambda *_: "")
    patch.setattr("app.features.paper.fit_sheet.fit_sheet_pdf", lambda *_: b"")
    patch.setattr("app.features.paper.pictures.asked_what_to_carry", lambda *_: "whole")
    patch.setattr(window.pictures, "picture", lambda: window.shown() and b"")
    patch.setattr("app.features.paper.pictures.write_atomically", lambda *_: None)

    def key(letter: Qt.Key, held: Qt.KeyboardModifier = CTRL) -> Callable[[], object]:
        return lambda: QTest.keyClick(QApplication.focusWidget() or window, letter, held)

    def turn_page() -> None:
        titles, page = [entry.title for entry in entries()], window.tray.current
        other = "Growing" if page is not None and page.objectName() == "Notes" else "Notes"
        QTest.mouseClick(window.tray.tabs[titles.index(other)], LEFT)

    def redo() -> None:
        window.session.undo()
        window._refresh()
        window.redo.trigger()

    def compare() -> None:
        key(Qt.Key.Key_K)()
        window.compare.stop()

    pdf = next(each for each in window.pictures.actions() if "PDF" in each.text())
    wedge = window.findChild(WedgePage)
    return {
        "save": key(Qt.Key.Key_S),
        "save as": key(Qt.Key.Key_S, CTRL | SHIFT),
        "picture": key(Qt.Key.Key_E),
        "print": key(Qt.Key.Key_P),
        "PDF": pdf.trigger,
        "STL": lambda: wedge._save("stl"),
        "undo": window.undo.trigger,
        "redo": redo,
        "page": turn_page,
        "present": key(Qt.Key.Key_F11, NO_KEY),
        "compare": compare,
        "open": key(Qt.Key.Key_O),
        "recent": lambda: program.documents.open_path(folder / "anna.json"),
        "start from": lambda: window.documents.start_from(starting_points()[0]),
        "quit": key(Qt.Key.Key_Q),
        "session end": program._keep_at_once,
    }


@pytest.mark.parametrize("half", [0, 1])
def test_what_can_be_taken_is_taken_before_anything_is_done(
    whole: Program, patch: pytest.MonkeyPatch, tmp_path: Path, half: int
) -> None:
    everything, seen = doings(whole, patch, tmp_path), set[type]()
    for editor in fields(whole)[half::2]:
        if isinstance(editor, TrialsPage):
            continue
        for name, do in everything.items():
            if (name in SLOW and type(editor) in seen) or (is_alike(editor) and name not in SAFE):
                continue
            where = f"{place_of(editor)} before {name}"
            bring_about(whole, editor)
            whole.window.session.rename(where)  # so that there is something to lose
            typed(whole, editor, sound=True)
            assert editor.draft is not None, where
            assert whole.window.isWindowModified(), where
            do()
            assert (editor.draft, editor.why) == (None, ""), where
        seen.add(type(editor))
        assert whole.window.isVisible()


def test_what_is_refused_stays_in_its_field_and_is_told_whatever_is_done(
    whole: Program, patch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    everything, seen = doings(whole, patch, tmp_path), set[type]()
    window, names = whole.window, tuple(everything)
    for i, editor in enumerate(fields(whole)):
        # Each kind through all that is done, and each field through one of it.
        for name in names if type(editor) not in seen else names[i % len(names) :][:1]:
            where = f"{place_of(editor)} before {name}"
            if not can_refuse(editor):
                continue
            bring_about(whole, editor)
            window.session.rename(where)
            whole.documents.notices.clear_notice()
            typed(whole, editor, sound=False)
            draft, before = editor.draft, replace(window.session.setup, name="")
            everything[name]()
            assert (editor.draft, bool(editor.why)) == (draft, True), where
            assert window.isWindowModified(), where
            if name not in {"undo", "redo"}:
                assert replace(window.session.setup, name="") == before, where
            # News of what was saved stand there for a moment, and then give way.
            told = f"{whole.documents.notices.text} {whole.documents.notices._told.text}"
            kept = whole.documents.work.unsaved
            assert kept is not None, where
            assert [each.why for each in kept.typed] == [editor.why], where
            # What stands in the panel is in sight, whichever page is turned to.
            silent = name == "page" and kept.typed[0].place.startswith("panel")
            if name not in LEAVES | {"session end"} and not silent:
                assert cut_short(kept.typed[0].text) in told, where
            editor.forget()
            assert editor.draft is None, where
        seen.add(type(editor))


def test_a_trial_half_told_waits_in_its_form_and_holds_nothing_up(
    whole: Program, patch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    page = whole.window.findChild(TrialsPage)
    typed(whole, page, sound=True)
    for name, do in doings(whole, patch, tmp_path).items():
        whole.window.session.rename(name)
        before = whole.window.session.setup.trials
        do()
        assert page.draft == "bow-legged", name
        assert page._draft.felt == ("bow-legged", ""), name
        assert whole.window.session.setup.trials == before, name
        assert whole.window.isWindowModified(), name
    assert "it waits for what both legs felt" in whole.documents.notices.text


# Leaving, and coming back


def test_leaving_asks_about_what_is_not_entered_and_goes_back_to_it(
    program: Program, qtbot: QtBot
) -> None:
    number = program.window.panel.rows["front_angle_deg"].number
    typed(program, number, sound=False)
    with answered("Go back to it") as said:
        QTest.keyClick(number, Qt.Key.Key_Q, CTRL)
    assert said == [
        "Typed, but not entered: Front binding angle: “5000000” (−60 to 90° only) "
        "It is in no file, and is lost if you go on."
    ]
    assert program.window.isVisible()
    assert (number.text(), program.window.focusWidget()) == ("5000000", number)
    with answered("Leave it out"):
        program.window.close()
    assert not program.window.isVisible()


def test_another_file_opens_once_what_is_not_entered_may_go(
    program: Program, tmp_path: Path
) -> None:
    path = tmp_path / "bea.json"
    save(path, Document(Setup(name="Bea")))
    number = program.window.panel.rows["front_angle_deg"].number
    typed(program, number, sound=False)
    with answered("Leave it out"):
        assert program.documents.open_path(path)
    assert (number.text(), number.draft) == ("43.0°", None)
    assert not program.window.isWindowModified()


def test_the_notice_leads_to_what_is_not_entered_wherever_it_is(program: Program) -> None:
    window = program.window
    window.panel.height_box.set_open(True)
    for place, title in (("panel/stature_mm", "Notes"), ("Parts/list/shortest_stance_mm", "Parts")):
        window.tray.open_page("Parts")
        number = next(each for each in editors_in(window) if place_of(each) == place)
        typed(program, number, sound=False)
        window.tray.open_page(title)
        window.tray.open_page("Notes")
        window.panel.height_box.set_open(False)
        program.documents.desk.settle()
        program.documents.notices._take_offer(0)
        assert number.hasFocus(), place
        number.forget()


def test_what_was_typed_comes_back_after_a_crash_in_its_place(
    started: Callable[..., Program], qtbot: QtBot
) -> None:
    first = started()
    everything_open(first)
    wanted = {
        "panel/left_knee_height_mm": "5000",
        "Measuring/reading": "9999",
        "Printed wedge/holes": "far out",
        "Parts/list/cells": "steep",
        "Trials": "bow-legged",
    }
    measuring = first.window.findChild(MeasurePage)
    measuring.dimensions.setCurrentRow(1)
    for editor in editors_in(first.window):
        if place_of(editor) in wanted:
            typed(first, editor, sound=False)
    for editor in editors_in(first.window):
        if place_of(editor) == "panel/left_knee_height_mm":
            editor.resume(Draft("", "", "5000"))
    texts = {draft.place: draft.text for draft in first.documents.desk.drafts}
    second = killed_and_started(first, started)
    again = {draft.place: draft.text for draft in second.documents.desk.drafts}
    assert again == texts
    assert set(again) == set(wanted)
    assert "there again" in second.documents.notices.text
    assert second.window.isWindowModified()


def content(draft: Draft) -> str:
    """What is typed, in whichever language it is called by."""
    return draft.detail if draft.place == "Trials" else f"{draft.text} {draft.detail}"


def test_what_waits_in_any_field_waits_there_in_the_window_made_anew(whole: Program) -> None:
    in_each = [each for each in fields(whole) if can_refuse(each)]
    assert len(in_each) > 90
    end_of_sweep = in_each[-1]
    for editor in in_each:
        if not is_put_away(editor):
            typed(whole, editor, sound=False)
    whole.documents.desk.settle()
    before = {each.place: content(each) for each in whole.documents.desk.drafts}
    assert len(before) > 70
    bring_about(whole, end_of_sweep)
    typed(whole, end_of_sweep, sound=False)
    whole.preferences._change({"language": "de", "text_percent": 125})
    QApplication.processEvents()
    told = whole.documents.notices.text
    assert "5000000" in told
    assert told.count("“") == 1  # nothing else has no field
    after = whole.documents.desk.drafts
    assert {each.place: content(each) for each in after} == before
    assert all(each.why for each in after if each.place != "Trials")
    for draft in after:
        whole.documents.desk.go_to(draft)
        focus = QApplication.focusWidget()
        assert place_of(focus).startswith(draft.place), (draft.place, focus)
    assert whole.documents.desk.drafts == after
    whole.preferences._change({"language": "en", "text_percent": 100})
    QApplication.processEvents()


@pytest.mark.parametrize("which", ["settings", "clip"])
def test_what_is_typed_in_a_dialog_is_taken_or_kept_when_the_session_ends(
    whole: Program, which: str
) -> None:
    window = whole.window
    if which == "clip":
        window.pictures.save_clip(SWEEP, sweep_usual(window.session.inputs, "knee_bend_deg"))
    else:
        SettingsDialog(whole.documents.settings.now, window).open()
    dialog = window.findChild(ClipDialog if which == "clip" else SettingsDialog)
    assert dialog.isVisible()
    found = list(editors_in(dialog))
    assert len(found) == {"settings": 2, "clip": 3}[which]
    for editor in found:
        typed(whole, editor, sound=True)
        assert editor.draft is not None
        assert window.isWindowModified()
        whole._keep_at_once()
        assert (editor.draft, editor.why) == (None, "")
        typed(whole, editor, sound=False)
        whole._keep_at_once()
        kept = whole.documents.work.unsaved
        assert kept is not None
        assert [(each.text, each.why) for each in kept.typed] == [("5000000", editor.why)]
        assert editor.why
        QTest.keyClick(editor, Qt.Key.Key_Escape)
        assert editor.draft is None
    dialog.close()
    assert whole.documents.desk.drafts == ()

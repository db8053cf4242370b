"""The number field under a real keyboard."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hands import CTRL, LEFT, SHIFT, Counter, type_in, wheel
from PySide6.QtCore import QLocale, Qt
from PySide6.QtGui import QAction, QKeySequence
from pytestqt.qtbot import QtBot

from app.qt.controls.number_field import NumberField
from app.rider.inputs import FIELD, FIELDS, GROUPS
from app.session import Session
from app.window.control_panel import ControlPanel
from app.window.control_row import ControlRow
from app.words.units import amount, unit_of

EACH = pytest.mark.parametrize("name", [field.name for field in FIELDS if field.group in GROUPS])


def start_typing(qtbot: QtBot, panel: ControlPanel, name: str, text: str) -> NumberField:
    """Put the keyboard on a field and type over what it holds."""
    return type_over(qtbot, panel.rows[name].number, text)


def type_over(qtbot: QtBot, field: NumberField, text: str) -> NumberField:
    field.clearFocus()
    field.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(field.hasFocus)
    type_in(field, text)
    return field


def enter(qtbot: QtBot, panel: ControlPanel, name: str, text: str) -> NumberField:
    field = start_typing(qtbot, panel, name, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    return field


@pytest.mark.parametrize("text", ["7.5", "7,5"])
@pytest.mark.parametrize("language", [QLocale.Language.English, QLocale.Language.German])
def test_both_decimal_marks_are_read_whatever_the_locale(
    panel: ControlPanel, session: Session, qtbot: QtBot, text: str, language: QLocale.Language
) -> None:
    old = QLocale()
    QLocale.setDefault(QLocale(language))
    try:
        field = enter(qtbot, panel, "front_lift_deg", text)
    finally:
        QLocale.setDefault(old)
    assert session.inputs.front_lift_deg == 7.5
    assert field.text() == "7.5°"


@EACH
def test_a_typed_number_moves_each_input_once_and_only_when_finished(
    row: ControlRow, session: Session, changes: Counter, qtbot: QtBot, name: str
) -> None:
    spec = FIELD[name]
    goal = spec.low + 3 * spec.step
    field = type_over(qtbot, row.number, f"{goal:.2f}")
    assert len(changes) == 0
    qtbot.keyClick(field, Qt.Key.Key_Enter)
    assert session.inputs.value(name) == goal
    assert len(changes) == 1
    row.slider.setFocus()
    assert len(changes) == 1


def test_leaving_the_field_finishes_it(
    panel: ControlPanel, session: Session, changes: Counter, qtbot: QtBot
) -> None:
    start_typing(qtbot, panel, "stance_length_mm", "20 in")
    panel.rows["knee_bend_deg"].slider.setFocus()
    qtbot.waitUntil(panel.rows["knee_bend_deg"].slider.hasFocus)
    assert session.inputs.stance_length_mm == 508.0
    assert panel.rows["stance_length_mm"].number.text() == "508 mm"
    assert len(changes) == 1


@pytest.mark.parametrize("text", ["−12", "-12°", "–12,0 deg"])
def test_minus_signs_and_units_may_be_typed(
    panel: ControlPanel, session: Session, qtbot: QtBot, text: str
) -> None:
    field = enter(qtbot, panel, "rear_angle_deg", text)
    assert session.inputs.rear_angle_deg == -12.0
    assert field.text() == "−12.0°"


def test_escape_restores_and_reports_nothing(
    panel: ControlPanel, changes: Counter, qtbot: QtBot
) -> None:
    field = start_typing(qtbot, panel, "front_angle_deg", "99")
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == "43.0°"
    panel.rows["knee_bend_deg"].slider.setFocus()
    assert len(changes) == 0


@EACH
def test_a_number_out_of_range_is_refused_in_words_and_stays_to_be_mended(
    row: ControlRow, changes: Counter, qtbot: QtBot, name: str
) -> None:
    spec = FIELD[name]
    before = row.number.text()
    field = type_over(qtbot, row.number, f"{spec.high + 1:g}")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert row.number.text() == f"{spec.high + 1:g}"
    assert row.remark.endswith(" only")
    assert amount(spec.high, unit_of(spec.unit)).replace(".0", "") in row.remark
    assert f"{spec.high + 1:g}" in row.number.toolTip()
    assert row.number.accessibleDescription().startswith("Not taken: ")
    row.slider.setFocus()
    assert row.number.text() == f"{spec.high + 1:g}"
    field.setFocus()
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert row.number.text() == before
    assert not row.remark.endswith(" only")
    assert len(changes) == 0


def test_a_refusal_goes_when_typing_goes_on(panel: ControlPanel, qtbot: QtBot) -> None:
    row = panel.rows["knee_tracking_deg"]
    enter(qtbot, panel, "knee_tracking_deg", "abc")
    assert row.remark == "not a number"
    assert row.mark.isHidden()
    type_in(row.number, "3")
    assert row.remark == "over the toes"
    assert not row.mark.isHidden()


@pytest.mark.parametrize(
    ("key", "held", "value"),
    [
        (Qt.Key.Key_Up, Qt.KeyboardModifier.NoModifier, 44.0),
        (Qt.Key.Key_Down, SHIFT, 42.9),
        (Qt.Key.Key_Up, CTRL, 48.0),
        (Qt.Key.Key_PageDown, Qt.KeyboardModifier.NoModifier, 38.0),
    ],
)
def test_arrows_step(
    panel: ControlPanel,
    session: Session,
    changes: Counter,
    qtbot: QtBot,
    key: Qt.Key,
    held: Qt.KeyboardModifier,
    value: float,
) -> None:
    qtbot.keyClick(panel.rows["front_angle_deg"].number, key, held)
    assert session.inputs.front_angle_deg == value
    assert len(changes) == 1


def test_a_step_counts_from_what_was_just_typed(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    field = start_typing(qtbot, panel, "front_angle_deg", "10")
    qtbot.keyClick(field, Qt.Key.Key_Up)
    assert session.inputs.front_angle_deg == 11.0


def test_the_wheel_moves_only_the_field_that_has_the_keyboard(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    field = panel.rows["front_angle_deg"].number
    panel.rows["knee_bend_deg"].slider.setFocus()
    wheel(field, -1)
    assert session.inputs.front_angle_deg == 43.0
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    wheel(field, -1)
    assert session.inputs.front_angle_deg == 42.0


def test_a_click_selects_all_so_that_typing_replaces(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    field = panel.rows["front_angle_deg"].number
    panel.rows["rear_angle_deg"].slider.setFocus()
    qtbot.mouseClick(field, LEFT)
    type_in(field, "30")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert session.inputs.front_angle_deg == 30.0


def test_a_field_left_alone_never_writes_its_rounded_text_back(
    panel: ControlPanel, session: Session, changes: Counter, qtbot: QtBot
) -> None:
    session.edit(front_angle_deg=12.3456)
    field = panel.rows["front_angle_deg"].number
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    panel.rows["rear_angle_deg"].slider.setFocus()
    assert field.text() == "12.35°"
    assert session.inputs.front_angle_deg == 12.3456
    assert len(changes) == 1


def test_undo_in_a_field_at_rest_is_the_programs_undo(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    action = QAction(panel)
    action.setShortcut(QKeySequence(QKeySequence.StandardKey.Undo))
    action.triggered.connect(session.undo)
    panel.addAction(action)
    field = enter(qtbot, panel, "front_angle_deg", "30")
    qtbot.keyClick(field, Qt.Key.Key_Z, CTRL)
    assert session.inputs.front_angle_deg == 43.0
    assert field.text() == "43.0°"


def test_undo_while_typing_takes_back_the_typing(
    panel: ControlPanel, session: Session, changes: Counter, qtbot: QtBot
) -> None:
    action = QAction(panel)
    action.setShortcut(QKeySequence(QKeySequence.StandardKey.Undo))
    action.triggered.connect(session.undo)
    panel.addAction(action)
    enter(qtbot, panel, "front_angle_deg", "30")
    field = start_typing(qtbot, panel, "rear_angle_deg", "9")
    qtbot.keyClick(field, Qt.Key.Key_Z, CTRL)
    assert session.inputs.front_angle_deg == 30.0
    assert field.text() == "38.0°"
    assert len(changes) == 1


def test_a_held_arrow_is_one_step_of_the_history(
    panel: ControlPanel, session: Session, qtbot: QtBot, steps: Callable[[], int]
) -> None:
    field = panel.rows["front_angle_deg"].number
    for _ in range(5):
        qtbot.keyPress(field, Qt.Key.Key_Up)
    qtbot.keyRelease(field, Qt.Key.Key_Up)
    assert session.inputs.front_angle_deg == 48.0
    assert steps() == 1

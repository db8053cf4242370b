"""The slider under a real mouse, wheel and keyboard."""

from __future__ import annotations

import sys
from collections.abc import Callable

import pytest
from hands import CTRL, LEFT, SHIFT, Counter, move, press, release, wheel
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from app.qt.controls.slider import Slider
from app.qt.controls.slider_face import x_of
from app.rider.inputs import DEFAULTS, FIELD, FIELDS, GROUPS, default_of
from app.session import Session
from app.window.control_panel import ControlPanel
from app.window.control_row import ControlRow

EACH = pytest.mark.parametrize("name", [field.name for field in FIELDS if field.group in GROUPS])
KEYS = [
    (Qt.Key.Key_Right, Qt.KeyboardModifier.NoModifier, 1.0),
    (Qt.Key.Key_Up, Qt.KeyboardModifier.NoModifier, 1.0),
    (Qt.Key.Key_Left, Qt.KeyboardModifier.NoModifier, -1.0),
    (Qt.Key.Key_Down, SHIFT, -0.1),
    (Qt.Key.Key_Right, CTRL, 5.0),
    (Qt.Key.Key_PageUp, Qt.KeyboardModifier.NoModifier, 5.0),
    (Qt.Key.Key_PageDown, Qt.KeyboardModifier.NoModifier, -5.0),
    (Qt.Key.Key_PageUp, SHIFT, 1.0),
]


def x_at(panel: ControlPanel, name: str, value: float) -> float:
    """Where a value stands on the slider of an input."""
    return x_on(panel.rows[name].slider, value)


def x_on(slider: Slider, value: float) -> float:
    return x_of(slider.scale, value, slider.width())


def focused(qtbot: QtBot, slider: Slider) -> Slider:
    slider.setFocus()
    qtbot.waitUntil(slider.hasFocus)
    return slider


@EACH
def test_an_arrow_moves_each_input_by_one_step_and_once(
    row: ControlRow, session: Session, changes: Counter, qtbot: QtBot, name: str
) -> None:
    before = session.inputs.value(name)
    qtbot.keyClick(row.slider, Qt.Key.Key_Right)
    assert session.inputs.value(name) == before + FIELD[name].step
    assert len(changes) == 1


@pytest.mark.parametrize(("key", "held", "count"), KEYS)
def test_keys_step_finer_with_shift_and_coarser_with_ctrl(
    panel: ControlPanel,
    session: Session,
    qtbot: QtBot,
    key: Qt.Key,
    held: Qt.KeyboardModifier,
    count: float,
) -> None:
    qtbot.keyClick(panel.rows["stance_length_mm"].slider, key, held)
    assert session.inputs.stance_length_mm == DEFAULTS.stance_length_mm + 5.0 * count


@EACH
def test_home_and_end_go_to_the_limits_and_no_step_passes_them(
    row: ControlRow, session: Session, qtbot: QtBot, name: str
) -> None:
    slider, field = row.slider, FIELD[name]
    for end, key, limit in (
        (Qt.Key.Key_End, Qt.Key.Key_PageUp, field.high),
        (
            Qt.Key.Key_Home,
            Qt.Key.Key_PageDown,
            field.low,
        ),
    ):
        qtbot.keyClick(slider, end)
        qtbot.keyClick(slider, key)
        assert session.inputs.value(name) == limit


@EACH
def test_a_click_on_the_line_jumps_there_and_drags_on(
    row: ControlRow, session: Session, changes: Counter, name: str
) -> None:
    slider, field = row.slider, FIELD[name]
    goal = field.low + round(0.1 * (field.high - field.low) / field.step) * field.step
    press(slider, x_on(row.slider, goal))
    assert session.inputs.value(name) == pytest.approx(goal, abs=field.step)
    assert len(changes) == 1
    move(slider, slider.width() + 50.0)
    release(slider, slider.width() + 50.0)
    assert session.inputs.value(name) == field.high
    assert len(changes) == 2


def test_the_handle_stays_put_when_it_is_only_pressed(
    panel: ControlPanel, changes: Counter, session: Session
) -> None:
    slider = panel.rows["front_angle_deg"].slider
    x = x_at(panel, "front_angle_deg", 43.0) + 3.0
    press(slider, x)
    release(slider, x)
    assert len(changes) == 0
    assert not session.undo_name


def test_a_drag_is_one_step_of_the_history(
    panel: ControlPanel, session: Session, steps: Callable[[], int]
) -> None:
    slider, x = panel.rows["knee_bend_deg"].slider, x_at(panel, "knee_bend_deg", 45.0)
    press(slider, x)
    for dx in range(1, 60):
        move(slider, x + dx)
    assert session.dragging
    release(slider, x + 59)
    assert not session.dragging
    assert session.inputs.knee_bend_deg > 60.0
    assert steps() == 1


def test_a_drag_back_to_its_start_leaves_no_step_and_no_rounding(
    panel: ControlPanel, session: Session, steps: Callable[[], int]
) -> None:
    session.edit(front_angle_deg=12.34)
    slider, x = panel.rows["front_angle_deg"].slider, x_at(panel, "front_angle_deg", 12.34)
    press(slider, x)
    move(slider, x + 40)
    move(slider, x)
    release(slider, x)
    assert session.inputs.front_angle_deg == 12.34
    assert steps() == 1


def test_escape_takes_a_drag_back(
    panel: ControlPanel, session: Session, qtbot: QtBot, steps: Callable[[], int]
) -> None:
    slider, x = panel.rows["front_cant_deg"].slider, x_at(panel, "front_cant_deg", 0.0)
    press(slider, x)
    move(slider, x + 30)
    qtbot.keyClick(slider, Qt.Key.Key_Escape)
    move(slider, x + 50)
    release(slider, x + 50)
    assert session.inputs.front_cant_deg == 0.0
    assert steps() == 0


@pytest.mark.parametrize(("held", "grid"), [(Qt.KeyboardModifier.NoModifier, 5.0), (CTRL, 25.0)])
def test_a_drag_lands_on_whole_steps(
    panel: ControlPanel, session: Session, held: Qt.KeyboardModifier, grid: float
) -> None:
    slider, x = panel.rows["hip_height_mm"].slider, x_at(panel, "hip_height_mm", 880.0)
    press(slider, x, held)
    move(slider, x + 33, held)
    release(slider, x + 33)
    assert session.inputs.left.hip_height_mm > 930.0
    assert session.inputs.left.hip_height_mm % grid == 0.0


def test_shift_makes_a_drag_ten_times_finer_from_where_it_is_held(
    panel: ControlPanel, session: Session
) -> None:
    name = "front_angle_deg"
    slider, x = panel.rows[name].slider, x_at(panel, "front_angle_deg", 43.0)
    press(slider, x)
    move(slider, x + 20)
    reached = session.inputs.front_angle_deg
    move(slider, x + 20, SHIFT)
    assert session.inputs.front_angle_deg == reached
    move(slider, x + 30, SHIFT)
    release(slider, x + 30)
    per_pixel = 150.0 / (slider.width() - 10)
    assert session.inputs.front_angle_deg == pytest.approx(reached + per_pixel, abs=0.051)


@EACH
def test_a_double_click_goes_back_to_the_default(
    row: ControlRow, session: Session, qtbot: QtBot, name: str
) -> None:
    field = FIELD[name]
    for part in (row.slider, row.label):
        session.edit(**{name: field.high})
        qtbot.mouseDClick(part, LEFT, pos=QPoint(part.width() - 5, 8))
        assert session.inputs.value(name) == default_of(field)


def test_delete_and_the_menu_go_back_to_the_default_too(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    row = panel.rows["front_angle_deg"]
    session.edit(front_angle_deg=7.0)
    qtbot.keyClick(row.slider, Qt.Key.Key_Delete)
    assert session.inputs.front_angle_deg == 43.0
    session.edit(front_angle_deg=7.0)
    row.menu().actions()[0].trigger()
    assert session.inputs.front_angle_deg == 43.0


def test_the_wheel_moves_only_what_has_the_keyboard(
    panel: ControlPanel, session: Session, changes: Counter, qtbot: QtBot
) -> None:
    slider = panel.rows["stance_length_mm"].slider
    panel.rows["knee_bend_deg"].number.setFocus()
    wheel(slider, -1)
    assert len(changes) == 0
    assert panel.verticalScrollBar().value() > 0
    panel.verticalScrollBar().setValue(0)
    focused(qtbot, slider)
    wheel(slider, 1)
    assert session.inputs.stance_length_mm == 510.0
    wheel(slider, -1, SHIFT)
    assert session.inputs.stance_length_mm == 509.5
    assert panel.verticalScrollBar().value() == 0


def test_a_fine_wheel_adds_up_to_notches(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    slider = focused(qtbot, panel.rows["stance_length_mm"].slider)
    for _ in range(4):
        wheel(slider, 0.25)
    assert session.inputs.stance_length_mm == 510.0


def test_a_key_held_down_is_one_step_of_the_history(
    panel: ControlPanel, session: Session, qtbot: QtBot, steps: Callable[[], int]
) -> None:
    slider = focused(qtbot, panel.rows["knee_bend_deg"].slider)
    for _ in range(10):
        qtbot.keyPress(slider, Qt.Key.Key_Right)
    qtbot.keyRelease(slider, Qt.Key.Key_Right)
    assert session.inputs.knee_bend_deg == 55.0
    assert steps() == 1


def test_steps_start_from_the_exact_value_not_from_the_grid(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    session.edit(front_angle_deg=12.34)
    qtbot.keyClick(panel.rows["front_angle_deg"].slider, Qt.Key.Key_Right)
    assert session.inputs.front_angle_deg == 13.34


@EACH
def test_a_screen_reader_may_set_the_position(
    row: ControlRow, session: Session, changes: Counter, name: str
) -> None:
    slider, field = row.slider, FIELD[name]
    slider.setValue(slider.maximum())
    assert session.inputs.value(name) == field.high
    assert len(changes) == 1
    assert slider.maximum() == round((field.high - field.low) / field.fine_step)


def test_hiding_the_panel_ends_a_drag(panel: ControlPanel, session: Session) -> None:
    slider, x = panel.rows["front_cant_deg"].slider, x_at(panel, "front_cant_deg", 0.0)
    press(slider, x)
    panel.hide()
    assert not session.dragging


def test_other_buttons_do_nothing(panel: ControlPanel, changes: Counter) -> None:
    slider = panel.rows["front_angle_deg"].slider
    for button in (Qt.MouseButton.MiddleButton, Qt.MouseButton.RightButton):
        press(slider, 40.0, button=button)
        move(slider, 80.0)
        release(slider, 80.0, button=button)
    assert len(changes) == 0


def test_the_default_and_zero_are_marked_under_the_line(panel: ControlPanel) -> None:
    slider = panel.rows["front_angle_deg"].slider
    panel.rows["front_angle_deg"].show_value(-40.0)
    image = QImage(slider.size(), QImage.Format.Format_RGB32)
    slider.render(image)

    def inked(value: float, y: int) -> bool:
        x = round(x_of(slider.scale, value, slider.width()))
        return image.pixelColor(x, y).lightness() < 160

    assert inked(0.0, 6)
    assert inked(43.0, 18)
    assert not inked(20.0, 6)
    assert not inked(20.0, 18)


def test_no_reference_to_none_is_lost_over_a_drag(panel: ControlPanel, qtbot: QtBot) -> None:
    """Some versions of the bindings drop one with every call, and die of it."""
    slider = panel.rows["knee_bend_deg"].slider
    qtbot.mousePress(slider, LEFT, pos=QPoint(100, 8))
    before = sys.getrefcount(None)
    for turn in range(1000):
        qtbot.mouseMove(slider, QPoint(100 + turn % 50, 8))
    change = sys.getrefcount(None) - before
    qtbot.mouseRelease(slider, LEFT, pos=QPoint(100, 8))
    assert abs(change) < 200

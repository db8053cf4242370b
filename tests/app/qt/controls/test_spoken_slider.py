"""What assistive programs are told of a slider, asked as they ask."""

from __future__ import annotations

import gc
import subprocess
import sys
from pathlib import Path

import pytest
from hands import LEFT, press, release
from PySide6.QtCore import QEvent, QPoint
from PySide6.QtGui import QAccessible, QAccessibleInterface, QAccessibleValueInterface
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.qt.controls.slider import Slider
from app.rider.inputs import FIELD, FIELDS, GROUPS
from app.session import Session
from app.window.control_panel import ControlPanel
from app.words.lengths import Lengths

ROOT = Path(__file__).parents[4]


def told(slider: Slider) -> QAccessibleInterface:
    return QAccessible.queryAccessibleInterface(slider)


def value_of(slider: Slider) -> QAccessibleValueInterface:
    found = told(slider).valueInterface()
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("front_angle_deg", 45.0, "45.0°"),
        ("front_cant_deg", 0.0, "no cant"),
        ("front_lift_deg", 3.0, "3.0° toe lift"),
        ("stance_length_mm", 512.0, "512 mm"),
    ],
)
def test_the_value_is_told_in_words(
    panel: ControlPanel, session: Session, name: str, value: float, words: str
) -> None:
    session.edit(**{name: value})
    interface = told(panel.rows[name].slider)
    assert interface.role() == QAccessible.Role.Slider
    assert interface.text(QAccessible.Text.Value) == words
    assert interface.text(QAccessible.Text.Name) == FIELD[name].label


@pytest.mark.parametrize("name", [field.name for field in FIELDS if field.group in GROUPS])
def test_the_figure_is_the_one_shown_with_its_limits(
    panel: ControlPanel, session: Session, name: str
) -> None:
    field, value = FIELD[name], value_of(panel.rows[name].slider)
    assert value.currentValue() == pytest.approx(session.inputs.value(name))
    assert (value.minimumValue(), value.maximumValue()) == (field.low, field.high)
    assert value.minimumStepSize() == field.fine_step


def test_lengths_are_told_in_the_unit_shown(panel: ControlPanel, session: Session) -> None:
    panel.show_lengths(Lengths("in"))
    slider = panel.rows["stance_length_mm"].slider
    assert told(slider).text(QAccessible.Text.Value) == "19.88 in"
    assert value_of(slider).currentValue() == pytest.approx(505.0 / 25.4)
    value_of(slider).setCurrentValue(20.0)
    assert session.inputs.stance_length_mm == pytest.approx(508.0)


def test_a_figure_off_the_scale_stops_at_its_end(panel: ControlPanel, session: Session) -> None:
    value_of(panel.rows["knee_bend_deg"].slider).setCurrentValue(1e6)
    assert session.inputs.knee_bend_deg == FIELD["knee_bend_deg"].high


def test_whatever_else_is_asked_for_is_there_or_is_not_but_nothing_breaks(
    panel: ControlPanel,
) -> None:
    interface = told(panel.rows["knee_bend_deg"].slider)
    assert interface.textInterface() is None
    assert interface.tableCellInterface() is None
    assert interface.state().focusable
    assert interface.parent().object() is panel.rows["knee_bend_deg"]


def test_a_slider_that_goes_takes_what_was_told_of_it_along(panel: ControlPanel) -> None:
    slider = panel.rows["knee_bend_deg"].slider
    number = QAccessible.uniqueId(told(slider))
    slider.deleteLater()
    QApplication.sendPostedEvents(slider, QEvent.Type.DeferredDelete)
    gc.collect()
    assert QAccessible.accessibleInterface(number) is None


def test_a_program_that_was_asked_ends_without_a_crash(tmp_path: Path) -> None:
    asks = (
        "from PySide6.QtGui import QAccessible\n"
        "from PySide6.QtWidgets import QSlider\n"
        "from app.session import Session\n"
        "from app.window.window import Window, prepared_application\n"
        "app = prepared_application()\n"
        "QAccessible.setActive(True)\n"
        "window = Window(Session())\n"
        "window.show()\n"
        "for slider in window.findChildren(QSlider):\n"
        "    told = QAccessible.queryAccessibleInterface(slider)\n"
        "    told.valueInterface().currentValue()\n"
        "window.session.edit(front_angle_deg=12.0)\n"
        "app.processEvents()\n"
        "print(told.text(QAccessible.Text.Value))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", asks], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip()


def test_a_double_click_on_the_line_is_one_step_of_the_history(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    session.edit(front_angle_deg=20.0)
    slider = panel.rows["front_angle_deg"].slider
    x = slider.width() - 20.0
    press(slider, x)
    release(slider, x)
    assert session.inputs.front_angle_deg > 60.0
    qtbot.mouseDClick(slider, LEFT, pos=QPoint(round(x), slider.height() // 2))
    assert session.inputs.front_angle_deg == 43.0
    session.undo()
    assert session.inputs.front_angle_deg == 20.0


def test_a_double_click_on_the_handle_takes_nothing_else_back(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    session.edit(knee_bend_deg=60.0)
    session.edit(front_angle_deg=20.0)
    slider = panel.rows["front_angle_deg"].slider
    x = round(5 + (slider.width() - 10) * slider.scale.share(20.0))
    qtbot.mouseDClick(slider, LEFT, pos=QPoint(x, slider.height() // 2))
    assert session.inputs.front_angle_deg == 43.0
    session.undo()
    assert (session.inputs.front_angle_deg, session.inputs.knee_bend_deg) == (20.0, 60.0)

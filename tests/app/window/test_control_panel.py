"""The panel as a whole: what it shows, says, links and lights up."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hands import LEFT, Counter, move, press, release
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QAccessible, QEnterEvent, QFontInfo, QFontMetrics, QImage
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.drawing.theme import DARK, LIGHT, Theme
from app.qt.controls.number_field import NumberField
from app.qt.controls.slider import Slider
from app.qt.painting.palette import SMALL_PX, colour, typeface
from app.qt.themes import set_theme
from app.rider.inputs import DEFAULTS, FIELD, FIELDS, GROUPS, default_of
from app.rider.setup import BOOTS, LEGS, Setup, edited
from app.session import Session
from app.window.control_panel import WIDTH, ControlPanel
from app.window.control_row import ControlRow
from app.words.lengths import Lengths
from app.words.sentences import spoken

IN_PANEL = [field for field in FIELDS if field.group in GROUPS]
EACH = pytest.mark.parametrize("name", [field.name for field in IN_PANEL])
VALUES = st.fixed_dictionaries(
    {field.name: st.floats(field.low, field.high) for field in IN_PANEL}
    | {"lead_foot": st.sampled_from(["left", "right"])}
)


def enter(row: QWidget) -> None:
    at = QPointF(5.0, 5.0)
    QApplication.sendEvent(row, QEnterEvent(at, at, at))


def leave(row: QWidget) -> None:
    QApplication.sendEvent(row, QEvent(QEvent.Type.Leave))


def picture(panel: ControlPanel) -> QImage:
    image = QImage(panel.size(), QImage.Format.Format_RGB32)
    panel.render(image)
    return image


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(values=VALUES)
def test_any_setup_is_shown_exactly_and_nothing_is_reported(
    panel: ControlPanel, session: Session, changes: Counter, values: dict[str, float | str]
) -> None:
    setup = edited(Setup(), **values)
    panel.show_setup(setup)
    for field in IN_PANEL:
        row, value = panel.rows[field.name], setup.inputs.value(field.name)
        assert abs(row.slider.value() * field.fine_step + field.low - value) <= field.fine_step
        assert row.slider.accessibleDescription().startswith(spoken(field, value))
    assert panel.lead_foot.segments[0].isChecked() == (setup.inputs.lead_foot == "left")
    assert len(changes) == 0
    assert session.inputs == DEFAULTS


@pytest.mark.parametrize("foot", ["right", "left"])
def test_the_lead_foot_is_a_switch(
    panel: ControlPanel, session: Session, changes: Counter, qtbot: QtBot, foot: str
) -> None:
    segments = dict(zip(("left", "right"), panel.lead_foot.segments, strict=True))
    qtbot.mouseClick(segments[foot], LEFT)
    assert session.inputs.lead_foot == foot
    assert segments[foot].isChecked()
    assert len(changes) == (1 if foot == "right" else 0)


@pytest.mark.parametrize(
    ("link", "rear"), [("apart", 38.0), ("together", 48.0), ("mirrored", 28.0)]
)
def test_the_link_takes_the_other_foot_along(
    panel: ControlPanel, session: Session, changes: Counter, qtbot: QtBot, link: str, rear: float
) -> None:
    position = ("apart", "together", "mirrored").index(link)
    qtbot.mouseClick(panel.link.segments[position], LEFT)
    qtbot.keyClick(panel.rows["front_angle_deg"].slider, Qt.Key.Key_PageUp)
    qtbot.keyClick(panel.rows["front_angle_deg"].slider, Qt.Key.Key_PageUp)
    assert (session.inputs.front_angle_deg, session.inputs.rear_angle_deg) == (53.0, rear)
    assert panel.rows["rear_angle_deg"].number.text() == f"{rear:.1f}°"
    assert len(changes) == 2


@EACH
def test_each_control_has_name_unit_value_and_explanation(row: ControlRow, name: str) -> None:
    field = FIELD[name]
    assert row.slider.accessibleName() == row.number.accessibleName() == field.label
    assert row.slider.accessibleDescription().startswith(spoken(field, default_of(field)))
    assert field.help in row.number.accessibleDescription()
    assert (
        "degrees" if field.unit == "deg" else "millimetres"
    ) in row.number.accessibleDescription()
    assert row.number.text().endswith("°" if field.unit == "deg" else " mm")
    assert row.label.text() == field.label
    assert row.label.buddy() is row.number
    assert field.help.split(":")[0].split("'")[0] in row.toolTip()


def test_a_screen_reader_hears_name_and_value_with_unit(panel: ControlPanel) -> None:
    row = panel.rows["rear_cant_deg"]
    row.show_value(-4.5)
    number, slider = (
        QAccessible.queryAccessibleInterface(part) for part in (row.number, row.slider)
    )
    assert number.text(QAccessible.Text.Name) == slider.text(QAccessible.Text.Name) == "Rear cant"
    assert number.text(QAccessible.Text.Value) == "−4.5°"
    assert slider.text(QAccessible.Text.Description).startswith("4.5° outward cant. ")


def test_every_part_that_takes_the_keyboard_has_a_name(panel: ControlPanel) -> None:
    parts = [part for part in panel.findChildren(QWidget) if part.focusPolicy() & Qt.TabFocus]
    assert len(parts) > 2 * len(IN_PANEL)
    assert [part for part in parts if not part.accessibleName()] == []


def test_tab_goes_down_the_panel(panel: ControlPanel, qtbot: QtBot) -> None:
    panel.rows["front_angle_deg"].slider.setFocus()
    qtbot.waitUntil(panel.rows["front_angle_deg"].slider.hasFocus)
    visited = []
    for _ in range(5):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        visited.append(QApplication.focusWidget())
    rows = [panel.rows[name] for name in ("front_angle_deg", "rear_angle_deg", "stance_length_mm")]
    assert visited == [
        rows[0].number,
        *(part for row in rows[1:] for part in (row.slider, row.number)),
    ]


def test_pointing_follows_the_mouse_before_the_keyboard(panel: ControlPanel, qtbot: QtBot) -> None:
    for row in panel.rows.values():
        leave(row)  # wherever an earlier test put the mouse
    pointed = Counter(panel.pointed)
    angle, length = panel.rows["front_angle_deg"], panel.rows["stance_length_mm"]
    angle.number.setFocus()
    qtbot.waitUntil(angle.number.hasFocus)
    enter(length)
    leave(length)
    panel.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    angle.number.clearFocus()
    assert pointed.heard == [
        ("front_angle_deg",),
        ("stance_length_mm",),
        ("front_angle_deg",),
        ("",),
    ]


def test_the_drawing_can_light_up_each_row(panel: ControlPanel) -> None:
    dark = picture(panel)
    for name, row in panel.rows.items():
        panel.highlight(name)
        assert row.lit
        if row.visibleRegion().boundingRect() == row.rect():
            assert picture(panel) != dark
    panel.highlight("")
    assert not any(row.lit for row in panel.rows.values())
    assert picture(panel) == dark


def test_the_switches_light_up_too(panel: ControlPanel) -> None:
    panel.highlight("lead_foot")
    panel.highlight("link")
    assert (panel.lead_foot.lit, panel.link.lit) == (False, True)
    panel.highlight("no such input")
    assert not panel.link.lit


@pytest.mark.parametrize(
    ("unit", "text"), [("mm", "505 mm"), ("cm", "50.5 cm"), ("in", "19.88 in")]
)
def test_lengths_are_shown_in_the_unit_asked_for_and_never_drift(
    panel: ControlPanel, session: Session, changes: Counter, unit: str, text: str
) -> None:
    panel.show_lengths(Lengths(unit))
    assert panel.rows["stance_length_mm"].number.text() == text
    assert panel.rows["front_angle_deg"].number.text() == "43.0°"
    assert panel.rows["stance_length_mm"].slider.accessibleDescription().startswith(text)
    panel.show_lengths(Lengths("mm"))
    assert panel.rows["stance_length_mm"].number.text() == "505 mm"
    assert session.inputs == DEFAULTS
    assert len(changes) == 0


def test_in_inches_the_keys_move_by_parts_of_an_inch(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    panel.show_lengths(Lengths("in"))
    slider = panel.rows["stance_length_mm"].slider
    qtbot.keyClick(slider, Qt.Key.Key_PageUp)
    assert session.inputs.stance_length_mm == pytest.approx(530.4)
    qtbot.keyClick(slider, Qt.Key.Key_PageDown)
    assert session.inputs.stance_length_mm == 505.0


def test_mounts_stand_in_two_columns_and_speak(panel: ControlPanel, session: Session) -> None:
    session.edit(front_lift_deg=-6.0, rear_cant_deg=4.5)
    rows = panel.rows
    assert rows["front_lift_deg"].remark == "6.0° heel lift"
    assert rows["rear_cant_deg"].remark == "4.5° inward cant"
    assert rows["rear_lift_deg"].remark == "no lift"
    front, rear = (
        rows[name].mapTo(panel, QPoint()) for name in ("front_cant_deg", "rear_cant_deg")
    )
    assert front.y() == rear.y()
    assert front.x() < rear.x()


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_front_and_rear_wear_their_hues_beside_their_names(
    panel: ControlPanel, theme: Theme
) -> None:
    set_theme(theme)
    image = picture(panel)
    for leg in ("front", "rear"):
        row = panel.rows[f"{leg}_angle_deg"]
        at = row.mapTo(panel, QPoint(5, 12))
        assert image.pixelColor(at) == colour(theme.leg(leg))
        words = row.label.palette().color(row.label.foregroundRole())
        assert words == colour(theme.leg_text(leg))
        assert row.label.text().startswith(leg.capitalize())


@pytest.mark.parametrize("key", list(GROUPS))
def test_groups_fold_away_and_open_again(panel: ControlPanel, qtbot: QtBot, key: str) -> None:
    section = panel.sections[key]
    row = next(panel.rows[field.name] for field in FIELDS if field.group == key)
    qtbot.mouseClick(section.heading, LEFT)
    assert not row.isVisible()
    state = QAccessible.queryAccessibleInterface(section.heading).state()
    assert (bool(state.expanded), bool(state.collapsed)) == (False, True)
    qtbot.keyClick(section.heading, Qt.Key.Key_Space)
    assert row.isVisible()
    assert section.is_open


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
def test_nothing_is_cut_off_in_the_narrowest_panel(
    panel: ControlPanel, session: Session, unit: str
) -> None:
    panel.show_lengths(Lengths(unit))
    panel.resize(WIDTH, 600)
    small = QFontMetrics(typeface(SMALL_PX))
    session.take("Apart", Setup(apart=frozenset({LEGS, BOOTS})))
    for end in ("low", "high"):
        for field in (FIELD[name] for name in panel.shown_names):
            session.edit(**{field.name: getattr(field, end)})
            row = panel.rows[field.name]
            text = row.number.fontMetrics().horizontalAdvance(row.number.text())
            assert text <= row.number.width() - 8, row.number.text()
            assert row.label.width() >= row.label.sizeHint().width()
            assert small.horizontalAdvance(row.remark) <= row.remark_rect().width(), row.remark
    assert panel.widget().width() <= panel.viewport().width()
    assert panel.horizontalScrollBar().maximum() == 0


def test_thirteen_controls_are_in_sight_in_a_window_of_1280_by_800(panel: ControlPanel) -> None:
    panel.resize(324, 740)  # less a menu, a status line and the window's frame
    sight = panel.viewport().rect()
    seen = [
        row
        for row in panel.rows.values()
        if sight.contains(row.mapTo(panel.viewport(), QPoint(0, row.height() - 1)))
    ]
    assert len(seen) >= 13  # with targets of 24 px, two to a control


def test_no_type_is_smaller_than_eleven_pixels(panel: ControlPanel) -> None:
    sizes = {QFontInfo(part.font()).pixelSize() for part in panel.findChildren(QWidget)}
    assert min(sizes) >= 11


def test_showing_one_changed_value_touches_its_control_alone(
    panel: ControlPanel, monkeypatch: pytest.MonkeyPatch
) -> None:
    panel.show_setup(Setup())
    touched: list[QWidget] = []
    for kind in (Slider, NumberField):
        monkeypatch.setattr(kind, "show_value", lambda part, _value: touched.append(part))
    row = panel.rows["knee_bend_deg"]
    for turn in range(1, 4):
        panel.show_setup(edited(Setup(), knee_bend_deg=45.0 + 0.1 * turn))
    assert touched == 3 * [row.slider, row.number]


def test_a_drag_of_a_linked_angle_shows_both(panel: ControlPanel, session: Session) -> None:
    session.link = "together"
    slider = panel.rows["front_angle_deg"].slider
    press(slider, slider.width() - 5.0)
    move(slider, slider.width() - 35.0)
    release(slider, slider.width() - 35.0)
    shown = panel.rows["rear_angle_deg"].number.text()
    assert shown == f"{session.inputs.rear_angle_deg:.1f}°"
    assert shown != "38.0°"


def test_leg_dimensions_say_where_they_come_from(panel: ControlPanel, session: Session) -> None:
    marks = {name: panel.rows[name].mark for name in Setup().names_told(LEGS)}
    assert {mark.word for mark in marks.values()} == {"default"}
    session.edit(hip_height_mm=910.0)
    assert marks["hip_height_mm"].word == "measured"
    assert "measurement" in marks["hip_height_mm"].toolTip()
    assert marks["knee_height_mm"].word == "default"


def shown_rows(panel: ControlPanel, *names: str) -> list[bool]:
    return [name in panel.rows and panel.rows[name].isVisible() for name in names]


def test_legs_have_one_row_for_both_until_each_gets_its_own(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    names = "hip_height_mm", "left_hip_height_mm", "right_hip_height_mm", "side_give_deg"
    assert shown_rows(panel, *names) == [True, False, False, True]
    qtbot.mouseClick(panel.sides[LEGS].switch.segments[1], LEFT)
    assert shown_rows(panel, *names) == [False, True, True, True]
    assert session.undo_name == "Each leg for itself"
    qtbot.keyClick(panel.rows["right_hip_height_mm"].slider, Qt.Key.Key_Right)
    assert (session.inputs.left.hip_height_mm, session.inputs.right.hip_height_mm) == (880.0, 885.0)
    session.undo()
    session.undo()
    assert shown_rows(panel, *names) == [True, False, False, True]


def test_differing_sides_open_by_themselves_and_together_follow_the_front(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    boots = replace(session.inputs.right, side_give_deg=6.0)
    session.take("Boots", Setup(inputs=replace(session.inputs, lead_foot="right", right=boots)))
    rows = panel.rows["left_side_give_deg"], panel.rows["right_side_give_deg"]
    assert [row.number.text() for row in rows] == ["4.0°", "6.0°"]
    qtbot.mouseClick(panel.sides[BOOTS].switch.segments[0], LEFT)
    assert session.inputs.left.side_give_deg == session.inputs.right.side_give_deg == 6.0
    assert panel.rows["side_give_deg"].isVisible()
    assert not any(row.isVisible() for row in rows)


def test_sides_that_meet_in_a_drag_stay_apart(panel: ControlPanel, session: Session) -> None:
    session.edit(left_foot_length_mm=260.0)
    session.edit(left_foot_length_mm=255.0)
    assert panel.rows["left_foot_length_mm"].isVisible()


def test_left_and_right_wear_the_hue_of_their_place(panel: ControlPanel, session: Session) -> None:
    session.edit(left_hip_height_mm=890.0)
    left, right = panel.rows["left_hip_height_mm"], panel.rows["right_hip_height_mm"]
    assert (left.hue, right.hue) == ("front", "rear")
    assert left.y() < right.y() < panel.rows["left_knee_height_mm"].y()
    session.edit(lead_foot="right")
    assert (left.hue, right.hue) == ("rear", "front")
    assert left.y() < right.y()


def test_a_row_of_one_side_says_where_its_number_comes_from_and_goes_back(
    panel: ControlPanel, session: Session, qtbot: QtBot
) -> None:
    session.edit(left_hip_height_mm=890.0)
    row = panel.rows["left_hip_height_mm"]
    assert row.mark.word == "measured"
    assert panel.rows["right_hip_height_mm"].mark.word == "default"
    qtbot.mouseClick(row.mark, LEFT)
    assert (session.inputs.left.hip_height_mm, row.mark.word) == (880.0, "default")


def test_tab_goes_from_left_to_right(panel: ControlPanel, session: Session, qtbot: QtBot) -> None:
    session.edit(left_knee_height_mm=495.0)
    left, right = panel.rows["left_ankle_height_mm"], panel.rows["right_ankle_height_mm"]
    left.slider.setFocus()
    qtbot.waitUntil(left.slider.hasFocus)
    visited = []
    for _ in range(4):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        visited.append(QApplication.focusWidget())
    assert visited == [left.number, left.mark, right.slider, right.number]

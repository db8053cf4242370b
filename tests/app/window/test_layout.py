"""Where the drawings stand: still under a drag, larger while presenting, clear of each other."""

from __future__ import annotations

from itertools import pairwise
from random import Random

import numpy as np
import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.drawing.theme import LIGHT
from app.files.resources import ASSETS, starting_points
from app.files.storage import opened
from app.frame import frame
from app.qt.painting.easel import Easel
from app.qt.painting.findings_painting import COMPACT
from app.qt.painting.lettering import load_fonts
from app.qt.painting.sheet_layout import seen_of, windows_of
from app.qt.painting.sheet_painting import LEAST_DIMENSIONED, paint_focus, placed
from app.qt.painting.viewport import Viewport
from app.rider.inputs import FIELD
from app.rider.setup import Setup, edited
from app.session import Session
from app.window.sheet import LARGER, ROOMY, Sheet
from app.window.window import Window, prepared_application

SMALL, MIDDLE, LARGE = (1024, 700), (1280, 800), (1920, 1080)
STILL = [
    *("across_spacing_mm", "front_lift_deg", "rear_lift_deg", "front_cant_deg", "knee_height_mm"),
    *("hip_spacing_mm", "neutral_spacing_mm", "knee_tracking_deg", "forward_lean_deg"),
    *("flex_range_deg", "side_give_deg", "knee_bend_deg", "hips_turned_deg", "hip_shift_mm"),
]


@pytest.fixture(autouse=True)
def drafting_face(qapp: object) -> None:
    assert load_fonts(ASSETS / "fonts")


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    prepared_application()
    made = Window(Session())
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    return made


def sized(window: Window, size: tuple[int, int]) -> Viewport:
    """How the front view lies in a window of a size."""
    QApplication.processEvents()
    window.resize(*size)
    QApplication.processEvents()
    return window.sheet.fit("front")


def fits(sheet: Sheet) -> list[Viewport]:
    return [sheet.fit(key) for key in ("above", "front", "side", "front_foot", "rear_foot")]


def third_of_its_range(setup: Setup, name: str, way: float) -> list[Setup]:
    """Steps of a drag from where a slider stands."""
    field, start = FIELD[name], setup.inputs.value(name)
    end = min(max(start + way * (field.high - field.low) / 3.0, field.low), field.high)
    return [edited(setup, **{name: start + (end - start) * i / 6.0}) for i in range(7)]


@pytest.mark.parametrize("name", STILL)
def test_nothing_jumps_while_a_slider_is_dragged_over_a_third_of_its_range(
    qtbot: QtBot, name: str
) -> None:
    sheet = Sheet()
    qtbot.addWidget(sheet)
    sheet.resize(956, 732)
    for point in starting_points():
        for way in (-1.0, 1.0):
            first, *rest = third_of_its_range(opened(point.path).setup, name, way)
            sheet.show_frame(frame(first))
            before = fits(sheet)
            for setup in rest:
                sheet.show_frame(frame(setup), dragging=True)
                assert fits(sheet) == before, (point.title, setup.inputs)


def test_a_drag_that_leaves_the_room_shows_more_than_it_needs_at_once(qtbot: QtBot) -> None:
    sheet = Sheet()
    qtbot.addWidget(sheet)
    sheet.resize(956, 732)
    sheet.show_frame(frame(Setup()))
    seen = []
    for length in range(500, 805, 5):
        sheet.show_frame(frame(edited(Setup(), stance_length_mm=float(length))), dragging=True)
        seen.append(sheet.fit("front"))
    assert 1 <= sum(one != other for one, other in pairwise(seen)) <= 2


def test_a_drawing_is_never_left_out_of_sight_by_a_drag() -> None:
    shown = {key: scene.window for key, scene in frame(Setup()).scenes.items()}
    placing = placed(QRectF(0.0, 0.0, 956.0, 732.0), shown)
    wide = frame(edited(Setup(), stance_length_mm=800.0)).scenes
    windows = windows_of(wide, shown, seen_of(*placing, 1.0))
    for key, scene in wide.items():
        room = seen_of(*placing, 1.0)[key].joined(windows[key])
        assert scene.window.joined(room) == room, key


@pytest.mark.parametrize("size", [SMALL, MIDDLE, LARGE])
def test_presenting_draws_type_lines_and_the_plan_larger(
    window: Window, size: tuple[int, int]
) -> None:
    legs, plan = sized(window, size).scale, window.sheet.fit("above").scale
    window.present.trigger()
    # A sentence for each leg, to be read from the last row, takes of the legs' room.
    assert sized(window, size).scale > 0.85 * legs
    assert window.sheet.fit("above").scale > 0.95 * plan
    assert window.sheet._magnified() >= min(LARGER, window.sheet.height() / ROOMY)


def test_presenting_over_a_page_leaves_the_legs_no_smaller(window: Window) -> None:
    window.tray.toggle(0)
    usual = sized(window, MIDDLE).scale
    window.present.trigger()
    assert sized(window, MIDDLE).scale >= usual


def test_what_is_pressed_while_presenting_is_what_lies_under_the_pointer(window: Window) -> None:
    window.present.trigger()
    sized(window, MIDDLE)
    at = window.sheet.fit("above").point((0.0, 250.0))
    grip = window.sheet._grip_under(at)
    assert grip is not None
    assert grip.name == "front"


@pytest.mark.parametrize("width", [220.0, 340.0])
def test_what_the_keys_do_stays_in_the_plans_column(width: float) -> None:
    image = QImage(700, 300, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    with QPainter(image) as painter:
        easel, plan = Easel(painter, LIGHT), QRectF(10.0, 6.0, width, 280.0)
        paint_focus(easel, QRectF(image.rect()), plan, "front")
    inner = image.copy(4, 4, 692, 292).convertToFormat(QImage.Format.Format_Grayscale8)
    ink = np.frombuffer(inner.constBits(), np.uint8).reshape(292, -1)[:, :692] < 160
    across = np.flatnonzero(ink.any(axis=0)) + 4
    assert plan.left() < across.min() < across.max() < plan.right()


def test_the_plan_keeps_its_dimensions_in_the_smallest_window() -> None:
    random = Random(4)
    for _ in range(60):
        mean, split = random.uniform(0.0, 70.0), random.uniform(0.0, 15.0)
        stance = edited(
            Setup(),
            front_angle_deg=mean + split,
            rear_angle_deg=mean - split,
            stance_length_mm=random.uniform(350.0, 620.0),
            knee_bend_deg=random.uniform(25.0, 70.0),
        )
        windows = {key: scene.window for key, scene in frame(stance).scenes.items()}
        for size, findings in (((700.0, 632.0), 150.0), ((758.0, 460.0), COMPACT)):
            placing = placed(QRectF(0.0, 0.0, *size), windows, 1.0, findings)
            assert placing.fits["above"].scale >= LEAST_DIMENSIONED, stance.inputs


def test_a_front_view_too_small_for_the_cants_leaves_them_to_the_controls(qtbot: QtBot) -> None:
    sheet = Sheet()
    qtbot.addWidget(sheet)
    sheet.resize(700, 328)
    sheet.set_compact(True)
    shown = []
    for cant in (-7.5, -8.0):
        # Half a degree moves no pixel of a leg this small, so that only words could differ.
        sheet.show_frame(frame(edited(Setup(), front_cant_deg=cant, side_give_deg=20.0)))
        fit = sheet.fit("front")
        words = QRectF(fit.left, fit.y + 8.0, fit.right - fit.left, 40.0).toRect()
        shown.append(sheet.grab(words).toImage())
    assert sheet.fit("front").scale < LEAST_DIMENSIONED
    assert shown[0] == shown[1]

"""The sheet under real mouse and key events, and what it paints."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin
from random import Random

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, QRectF, Qt
from PySide6.QtGui import QImage, QPainter, QPainterPath, QPolygonF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.drawing.marks import Area, Callout, Span
from app.drawing.styles import style
from app.drawing.theme import DARK, LIGHT
from app.files.resources import ASSETS
from app.frame import frame
from app.handles import centre_of
from app.qt.painting.callouts import callout_place
from app.qt.painting.easel import Easel
from app.qt.painting.lettering import load_fonts
from app.qt.painting.sheet_painting import paint_sheet, placed
from app.rider.inputs import FIELD
from app.rider.setup import Setup, edited
from app.window.sheet import Sheet
from app.words.lengths import Lengths

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def sheet(qtbot: QtBot) -> Sheet:
    assert load_fonts(ASSETS / "fonts")
    made = Sheet()
    qtbot.addWidget(made)
    made.resize(960, 740)
    made.show_frame(frame(Setup()))
    made.show()
    made.activateWindow()
    qtbot.waitActive(made)
    # Wherever an earlier test left the pointer, it now stands beside the feet.
    QTest.mouseMove(made, QPoint(2, 2))
    QApplication.processEvents()
    return made


@pytest.fixture
def easel(qapp: object) -> Iterator[Easel]:
    assert load_fonts(ASSETS / "fonts")
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    with QPainter(image) as painter:
        yield Easel(painter, LIGHT)


def ink(sheet: Sheet) -> NDArray[np.int16]:
    """What is on the sheet, as numbers."""
    image = sheet.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    return np.frombuffer(image.constBits(), np.uint8).astype(np.int16)


def same(one: NDArray[np.int16], other: NDArray[np.int16]) -> bool:
    """Alike but for what rounding leaves of a word, written or shown as the picture of it."""
    return bool(np.abs(one - other).max() <= 2)


def pixel(sheet: Sheet, at: tuple[float, float]) -> QPoint:
    return sheet.fit("above").point(at).toPoint()


def drag(sheet: Sheet, start: QPoint, end: QPoint) -> None:
    QTest.mousePress(sheet, LEFT, pos=start)
    QTest.mouseMove(sheet, (start + end) / 2)
    QTest.mouseMove(sheet, end)
    QTest.mouseRelease(sheet, LEFT, pos=end)


def test_dragging_a_foot_asks_for_a_stance_length(sheet: Sheet) -> None:
    asked: list[dict[str, float]] = []
    sheet.asked.connect(asked.append)
    x, y = centre_of(Setup().inputs, "front")
    drag(sheet, pixel(sheet, (x, y)), pixel(sheet, (x, y + 40.0)))
    assert asked[-1].keys() == {"stance_length_mm"}
    assert asked[-1]["stance_length_mm"] == pytest.approx(585.0, abs=6.0)


def test_dragging_a_toe_asks_for_a_binding_angle(sheet: Sheet) -> None:
    asked: list[dict[str, float]] = []
    sheet.asked.connect(asked.append)
    x, y = centre_of(Setup().inputs, "rear")

    def toe(angle: float) -> QPoint:
        return pixel(sheet, (x + 125.0 * cos(radians(angle)), y + 125.0 * sin(radians(angle))))

    drag(sheet, toe(38.0), toe(10.0))
    assert asked[-1]["rear_angle_deg"] == pytest.approx(10.0, abs=1.5)


def test_a_drag_is_announced_when_it_begins_and_when_it_ends(sheet: Sheet) -> None:
    told: list[str] = []
    sheet.drag_began.connect(lambda: told.append("began"))
    sheet.asked.connect(lambda _: told.append("asked"))
    sheet.drag_ended.connect(lambda: told.append("ended"))
    at = pixel(sheet, centre_of(Setup().inputs, "rear"))
    drag(sheet, at, at + QPoint(0, 20))
    assert told[0] == "began"
    assert told[-1] == "ended"
    assert "asked" in told


def test_pressing_beside_the_feet_asks_for_nothing(sheet: Sheet) -> None:
    asked: list[dict[str, float]] = []
    sheet.asked.connect(asked.append)
    drag(sheet, pixel(sheet, (0.0, 0.0)), pixel(sheet, (0.0, 60.0)))
    drag(sheet, QPoint(500, 300), QPoint(500, 350))
    assert asked == []


def test_the_pointer_over_a_foot_says_so_and_leaving_it_too(sheet: Sheet) -> None:
    pointed: list[str] = []
    sheet.pointed.connect(pointed.append)
    QTest.mouseMove(sheet, pixel(sheet, centre_of(Setup().inputs, "front")))
    QApplication.processEvents()
    assert sheet.cursor().shape() == Qt.CursorShape.SizeVerCursor
    QTest.mouseMove(sheet, pixel(sheet, (0.0, 0.0)))
    QApplication.processEvents()
    assert pointed == ["stance_length_mm", ""]


def test_feet_can_be_turned_and_moved_by_keys_alone(sheet: Sheet) -> None:
    asked: list[dict[str, float]] = []
    sheet.asked.connect(asked.append)
    sheet.setFocus(Qt.FocusReason.OtherFocusReason)
    QTest.keyClick(sheet, Qt.Key.Key_Left)
    assert asked == []
    QTest.keyClick(sheet, Qt.Key.Key_Space)
    QTest.keyClick(sheet, Qt.Key.Key_Left)
    QTest.keyClick(sheet, Qt.Key.Key_Up, Qt.KeyboardModifier.ControlModifier)
    assert asked == [{"front_angle_deg": 44.0}, {"stance_length_mm": 530.0}]


def test_the_tab_key_selects_a_foot_and_shows_that_the_keys_speak_here(sheet: Sheet) -> None:
    asked: list[dict[str, float]] = []
    sheet.asked.connect(asked.append)
    sheet.clearFocus()
    before = ink(sheet)
    sheet.setFocus(Qt.FocusReason.TabFocusReason)
    assert not same(ink(sheet), before)
    QTest.keyClick(sheet, Qt.Key.Key_Left)
    assert asked == [{"front_angle_deg": 44.0}]


def test_lengths_are_written_in_the_unit_asked_for() -> None:
    shown = frame(edited(Setup(), front_angle_deg=0, rear_angle_deg=0), lengths=Lengths("in"))
    texts = {mark.key: mark.text for mark in shown.scenes["above"].marks if isinstance(mark, Span)}
    assert texts["length"] == "19.9 in"
    assert shown.findings.legs["front"].sentence.startswith("The feet stand 19.9 in apart")


def test_the_scale_holds_still_during_a_drag_and_settles_after_it(
    sheet: Sheet, qtbot: QtBot
) -> None:
    before = sheet.fit("front").scale
    sheet.show_frame(frame(edited(Setup(), stance_length_mm=300.0)), dragging=True)
    assert sheet.fit("front").scale == before
    sheet.show_frame(frame(edited(Setup(), stance_length_mm=700.0)), dragging=True)
    assert sheet.fit("front").scale < before
    sheet.show_frame(frame(Setup()), dragging=False)
    qtbot.waitUntil(lambda: sheet.fit("front").scale == before)


def test_plan_and_front_view_share_one_scale(sheet: Sheet) -> None:
    assert sheet.fit("above").scale == sheet.fit("front").scale
    assert sheet.fit("front_foot").scale == sheet.fit("rear_foot").scale


@pytest.mark.parametrize("size", [(700, 660), (700, 560), (960, 740), (1600, 980)])
def test_call_outs_never_cross_a_limb_nor_each_other(easel: Easel, size: tuple[int, int]) -> None:
    random = Random(7)
    for _ in range(60):
        mean, split = random.uniform(-10.0, 70.0), random.uniform(0.0, 20.0)
        shown = frame(
            edited(
                Setup(),
                front_angle_deg=mean + split,
                rear_angle_deg=mean - split,
                stance_length_mm=random.uniform(300.0, 700.0),
                knee_bend_deg=random.uniform(15.0, 100.0),
                front_cant_deg=random.uniform(-8.0, 8.0),
            )
        )
        windows = {key: scene.window for key, scene in shown.scenes.items()}
        placing = placed(QRectF(0.0, 0.0, *size), windows)
        for key, area in placing.layout.views.items():
            scene, fit = shown.scenes[key], placing.fits[key]
            boxes = [
                QRectF(*callout_place(easel, mark, fit, style(LIGHT, mark.role))[:4])
                for mark in scene.marks
                if isinstance(mark, Callout)
            ]
            assert all(area.contains(box) for box in boxes)
            assert len(boxes) < 2 or not boxes[0].intersects(boxes[1])
            for mark in scene.marks:
                if isinstance(mark, Area) and ".limb." in mark.role:
                    limb = QPainterPath()
                    limb.addPolygon(QPolygonF([fit.point(p) for p in mark.points]))
                    limb.closeSubpath()
                    assert not any(limb.intersects(box) for box in boxes)


def test_every_role_of_every_scene_has_a_style_in_both_themes() -> None:
    for changes in ({}, {"front_cant_deg": 6.0, "rear_lift_deg": -5.0}, {"front_angle_deg": 0.0}):
        for scene in frame(edited(Setup(), **changes)).scenes.values():
            for mark in scene.marks:
                assert style(LIGHT, mark.role)
                assert style(DARK, mark.role)


def test_a_problem_is_written_over_the_last_drawing(sheet: Sheet) -> None:
    plain = ink(sheet)
    sheet.show_problem("The knee must lie below the hip.")
    assert not same(ink(sheet), plain)
    sheet.show_frame(frame(Setup()))
    assert same(ink(sheet), plain)


def test_a_lit_mark_looks_different(sheet: Sheet) -> None:
    plain = ink(sheet)
    sheet.light(frozenset({"pelvis"}))
    assert not same(ink(sheet), plain)


def test_three_times_as_large_is_three_times_as_large_everywhere(easel: Easel) -> None:
    """The mean grey of the paper stays: lines and type grow with the drawing."""
    shown = frame(Setup())
    windows = {key: scene.window for key, scene in shown.scenes.items()}

    def grey(scale: int) -> float:
        image = QImage(960 * scale, 740 * scale, QImage.Format.Format_Grayscale8)
        image.fill(255)
        with QPainter(image) as painter:
            painter.scale(scale, scale)
            area = QRectF(0.0, 0.0, 960.0, 740.0)
            paint_sheet(Easel(painter, LIGHT), placed(area, windows), shown)
        small = image.scaled(1, 1, mode=Qt.TransformationMode.SmoothTransformation)
        return 255.0 - small.pixelColor(0, 0).red()

    assert grey(3) == pytest.approx(grey(1), abs=1.01)


@pytest.mark.parametrize(
    ("key", "wanted"),
    [
        (Qt.Key.Key_Home, {"front_angle_deg": FIELD["front_angle_deg"].low}),
        (Qt.Key.Key_End, {"front_angle_deg": FIELD["front_angle_deg"].high}),
        (Qt.Key.Key_PageUp, {"stance_length_mm": 530.0}),
        (Qt.Key.Key_PageDown, {"stance_length_mm": 480.0}),
    ],
)
def test_the_keys_of_a_slider_move_the_selected_foot(
    sheet: Sheet, qtbot: QtBot, key: Qt.Key, wanted: dict[str, float]
) -> None:
    asked: list[dict[str, float]] = []
    sheet.asked.connect(asked.append)
    qtbot.keyClick(sheet, key)
    assert asked == [], "no foot is selected yet"
    qtbot.keyClick(sheet, Qt.Key.Key_Space)
    qtbot.keyClick(sheet, key)
    assert asked == [wanted]

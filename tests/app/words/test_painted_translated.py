"""Whatever is painted on the window, on pictures and on paper has gone through the catalogue."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication
from shown_texts import left_english

from app.drawing.styles import Style
from app.drawing.theme import LIGHT
from app.features.compare.painting import Pair, paint_comparison
from app.features.paper.fit_page import Page
from app.features.paper.fit_sheet import fit_sheet
from app.features.paper.snapshot import HEIGHT, WIDTH, paint_picture
from app.frame import Frame, frame
from app.qt.painting.easel import Easel
from app.qt.painting.sheet_painting import KEYS, paint_focus
from app.rider.setup import Setup, edited

DAY = date(2026, 1, 31)
PAGE = QRectF(0.0, 0.0, WIDTH, HEIGHT)
UPRIGHT = QRectF(0.0, 0.0, 992.0, 1403.0)
BENT = {"front_angle_deg": 20.0, "rear_angle_deg": 5.0, "front_lift_deg": 2.5}
MANY = {f"{foot}_{what}_deg": 3.0 for foot in ("front", "rear") for what in ("lift", "cant")}
MOST = MANY | {"stance_length_mm": 450.0, "hip_height_mm": 900.0, "knee_bend_deg": 30.0}
MOST |= {"flex_range_deg": 12.0, "hip_shift_mm": 20.0, "hips_turned_deg": 4.0}
MOST |= {"knee_tracking_deg": 3.0, "forward_lean_deg": 15.0, "side_give_deg": 3.0}


class Telling(Easel):
    """An easel that tells what is written on it."""

    def __init__(self, painter: QPainter) -> None:
        super().__init__(painter, LIGHT)
        self.texts: list[str] = []

    def put(self, x: float, y: float, text: str, look: Style, turn: float = 0.0) -> None:
        self.texts.append(text)
        super().put(x, y, text, look, turn)

    def write_lines(self, area: QRectF, text: str, look: Style) -> None:
        self.texts.append(text)
        super().write_lines(area, text, look)


def written(paint: Callable[[Easel], object]) -> str:
    """What is written where something is painted, line after line, but for the day."""
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    with QPainter(image) as painter:
        easel = Telling(painter)
        paint(easel)
    return " ".join(easel.texts).replace(DAY.isoformat(), "")


def shown(**changes: float) -> Frame:
    return frame(edited(Setup(), **changes))


@pytest.mark.parametrize("changes", [{}, BENT, MOST])
@pytest.mark.parametrize("width", [900.0, WIDTH])
def test_a_comparison_is_painted_in_translation(
    bracketed: None, changes: dict[str, float], width: float
) -> None:
    pair = Pair(shown(), shown(**changes))
    area = QRectF(0.0, 0.0, width, HEIGHT)
    assert not left_english(iter([written(lambda easel: paint_comparison(easel, area, pair, DAY))]))


@pytest.mark.parametrize("changes", [{}, BENT, {"knee_bend_deg": 5.0, "stance_length_mm": 800.0}])
def test_a_picture_is_painted_in_translation(bracketed: None, changes: dict[str, float]) -> None:
    said = written(lambda easel: paint_picture(easel, shown(**changes), DAY, rider=True))
    assert not left_english(iter([said]))


def test_the_fit_sheet_is_painted_in_translation(bracketed: None) -> None:
    sheet = fit_sheet(shown(**BENT), DAY)

    def paint(easel: Easel) -> None:
        Page(easel, sheet, UPRIGHT, "A4", whole_scale=True).paint()

    assert not left_english(iter([written(paint)]))


@pytest.mark.parametrize("foot", KEYS)
def test_what_the_keys_do_is_told_in_translation(
    bracketed: None, qapp: QApplication, foot: str
) -> None:
    said = written(lambda easel: paint_focus(easel, PAGE, PAGE, foot))
    assert said
    assert not left_english(iter([said]))

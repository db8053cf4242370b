"""A window's sheet is painted with what is kept; it looks as a painter by itself paints it."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from app.drawing.theme import DARK, LIGHT, Theme
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting.easel import Easel
from app.qt.painting.lettering import OFTEN, load_fonts
from app.qt.painting.sheet_painting import paint_sheet, placed
from app.qt.painting.viewport import Viewport, sides
from app.rider.setup import Setup, edited

SIZE = (956, 730)
NEAR = 3
"""Pixels of the screen that ink may stand beside where it stands otherwise: words stand on
whole ones in the window."""
UNLIKE = 48
"""How much of 255 a pixel differs from the paper that is ink."""


@pytest.fixture(autouse=True)
def drafting_face(qapp: object) -> None:
    load_fonts(ASSETS / "fonts")


class Bare(Easel):
    """An easel for the same as a window's, on which nothing is kept."""

    def __init__(self, painter: QPainter, theme: Theme) -> None:
        super().__init__(painter, theme, live=True)
        self.pictures = self.fine = False
        self.ratio = 1.0


def ink(ratio: float, theme: Theme, *, keeping: bool) -> NDArray[Any]:
    """Where ink stands on a sheet painted for a screen of that ratio, often enough to be kept."""
    width, height = SIZE
    image = QImage(round(width * ratio), round(height * ratio), QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    shown = frame(edited(Setup(), front_angle_deg=21.0, rear_cant_deg=2.0, knee_bend_deg=62.0))
    windows = {key: scene.window for key, scene in shown.scenes.items()}
    placing = placed(QRectF(0.0, 0.0, width, height), windows)
    paper = QColor(theme.paper)
    for _ in range(OFTEN + 1):
        image.fill(paper)
        with QPainter(image) as painter:
            easel = Easel(painter, theme, live=True) if keeping else Bare(painter, theme)
            paint_sheet(easel, placing, shown)
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), -1, 4)[..., :3]
    there = np.array([paper.blue(), paper.green(), paper.red()])
    return np.asarray(np.abs(pixels.astype(int) - there).max(axis=2) > UNLIKE)


def around(inked: NDArray[Any]) -> NDArray[Any]:
    """The ink and everything near it."""
    wide = np.pad(inked, NEAR)
    height, width = inked.shape
    reach = range(2 * NEAR + 1)
    return np.logical_or.reduce(
        [wide[down : down + height, right : right + width] for down in reach for right in reach]
    )


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ratio", [1.0, 1.25, 1.5, 2.0, 3.0])
def test_what_is_kept_stands_where_a_painter_by_itself_would_paint_it(
    ratio: float, theme: Theme
) -> None:
    bare, kept = ink(ratio, theme, keeping=False), ink(ratio, theme, keeping=True)
    assert bare.sum() > 20_000 * ratio
    assert not (kept & ~around(bare)).any()
    assert not (bare & ~around(kept)).any()
    assert kept.sum() == pytest.approx(bare.sum(), rel=0.02)


def test_the_sides_of_a_polygon_are_those_of_the_one_asked_for_last() -> None:
    fit = Viewport(2.0, 10.0, 100.0, 0.0, 200.0)
    fit.polygon([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0)])
    before = sides(3, closed=True)
    fit.polygon([(5.0, 0.0), (9.0, 0.0), (9.0, 7.0)])
    corners = [fit.point(p) for p in ((5.0, 0.0), (9.0, 0.0), (9.0, 7.0))]
    around_it = [QLineF(corners[i], corners[(i + 1) % 3]) for i in range(3)]
    assert sides(3, closed=True) == around_it
    assert before == around_it
    assert sides(3, closed=False) == around_it[:2]

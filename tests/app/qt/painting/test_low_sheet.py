"""A sheet so low that its words leave no room for legs."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from app.drawing.marks import Mark
from app.drawing.theme import LIGHT
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting import painting
from app.qt.painting.easel import Easel
from app.qt.painting.findings_painting import COMPACT
from app.qt.painting.lettering import load_fonts
from app.qt.painting.sheet_painting import paint_sheet, placed
from app.rider.setup import Setup


@pytest.mark.parametrize(("high", "legs"), [(190.0, False), (700.0, True)])
def test_legs_are_drawn_upright_or_not_at_all(
    qapp: object, monkeypatch: pytest.MonkeyPatch, high: float, legs: bool
) -> None:
    assert load_fonts(ASSETS / "fonts")
    shown = frame(Setup())
    windows = {key: scene.window for key, scene in shown.scenes.items()}
    placing = placed(QRectF(0.0, 0.0, 610.0, high), windows, 1.6, COMPACT)
    assert all(fit.scale > 0.0 for fit in placing.fits.values())
    painted: set[str] = set()
    plain = painting.paint_mark

    def watch(easel: Easel, mark: Mark, *told: object) -> None:
        painted.add(mark.key)
        plain(easel, mark, *told)  # type: ignore[arg-type]

    monkeypatch.setattr(painting, "paint_mark", watch)
    image = QImage(610, round(high), QImage.Format.Format_RGB32)
    with QPainter(image) as painter:
        paint_sheet(Easel(painter, LIGHT, 1.6), placing, shown)
    assert "front.sole" in painted, "the plan is drawn"
    assert ("front.bend" in painted) == legs, "the side view's"

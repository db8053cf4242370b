"""The picture that leaves the program."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtGui import QImage

from app.drawing.theme import DARK, LIGHT
from app.features.paper.snapshot import (
    HEIGHT,
    WIDTH,
    png_bytes,
    snapshot_image,
    snapshot_png,
    summary,
)
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting.lettering import load_fonts
from app.rider.setup import Setup, edited
from app.stance.findings import CAUTION

DAY = date(2026, 1, 31)


@pytest.fixture(autouse=True)
def drafting_face(qapp: object) -> None:
    assert load_fonts(ASSETS / "fonts")


@pytest.mark.parametrize("scale", [1.0, 2.0, 2.5])
def test_the_picture_has_the_size_that_its_scale_asks_for(scale: float) -> None:
    image = snapshot_image(frame(Setup()), LIGHT, scale, DAY)
    assert (image.width(), image.height()) == (round(WIDTH * scale), round(HEIGHT * scale))


def test_the_same_stance_on_the_same_day_gives_the_same_bytes() -> None:
    assert snapshot_png(Setup(), 1.0, DAY) == snapshot_png(Setup(), 1.0, DAY)


def test_stance_theme_and_date_all_show_in_the_picture() -> None:
    plain = snapshot_image(frame(Setup()), LIGHT, 1.0, DAY)
    other = edited(Setup(), front_cant_deg=4.0)
    assert snapshot_image(frame(other), LIGHT, 1.0, DAY) != plain
    assert snapshot_image(frame(Setup()), DARK, 1.0, DAY) != plain
    assert snapshot_image(frame(Setup()), LIGHT, 1.0, date(2026, 2, 1)) != plain


def test_the_bytes_are_a_png_that_reads_back_the_same() -> None:
    image = snapshot_image(frame(Setup()), LIGHT, 1.0, DAY)
    data = png_bytes(image)
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    assert QImage.fromData(data).convertToFormat(image.format()) == image


def test_the_caution_stands_at_the_foot_of_every_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    with_caution = snapshot_image(frame(Setup()), LIGHT, 1.0, DAY)
    monkeypatch.setattr("app.features.paper.snapshot.CAUTION", "")
    without = snapshot_image(frame(Setup()), LIGHT, 1.0, DAY)
    foot = (0, int(HEIGHT) - 82, int(WIDTH), 82)
    assert with_caution.copy(*foot) != without.copy(*foot)
    assert with_caution.copy(0, 0, int(WIDTH), 900) == without.copy(0, 0, int(WIDTH), 900)
    assert "not medical advice" in CAUTION


def test_the_stance_is_summed_up_in_one_line() -> None:
    inputs = edited(Setup(), front_lift_deg=6.0, rear_lift_deg=-6.0, rear_cant_deg=2.5).inputs
    text = summary(inputs)
    assert text.startswith("Left foot in front · 43° / 38° · stance length 505 mm")
    assert "6.0° toe lift" in text
    assert "2.5° inward, 6.0° heel lift" in text

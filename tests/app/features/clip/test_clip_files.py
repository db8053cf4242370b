"""Files of clips, read back picture by picture; GIF also by Qt, which did not write it."""

from __future__ import annotations

import io
from datetime import date

import numpy as np
import pytest
from PIL import Image
from PySide6.QtCore import QBuffer, QByteArray, QIODevice
from PySide6.QtGui import QColor, QImage, QImageReader

from app.drawing.theme import DARK, LIGHT
from app.features.clip.encoding import ENDINGS
from app.features.clip.making import Look, Reel, Studio
from app.features.clip.model import Extras, film_of, strip_of
from app.features.clip.painting import HEIGHT, WIDTH, pixels_of
from app.features.player.model import Sweep
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting.lettering import load_fonts
from app.rider.setup import Setup
from app.stance.findings import CAUTION
from geometry.fitting.steps import finished

DAY = date(2026, 1, 31)
SETUP = Setup(name="Kimberley <b>&amp; Co</b>")
FILM = film_of(SETUP, Sweep("front_angle_deg", 30.0, 60.0), Extras(1.0))
# A stepped sweep holds each value for several pictures.
HELD = film_of(SETUP, Sweep("knee_bend_deg", 30.0, 50.0, 2), Extras(1.2))


@pytest.fixture(scope="module")
def studio(qapp: object) -> Studio:
    assert load_fonts(ASSETS / "fonts")
    return Studio(strip_of(FILM, frame), Look(), DAY)


@pytest.fixture(scope="module")
def reel(studio: Studio) -> Reel:
    return finished(studio.reel())


def colours(reel: Reel, place: int) -> np.ndarray:
    """A picture of a reel in red, green and blue."""
    return np.array(reel.inks.palette, np.uint8).reshape(-1, 3)[reel.pictures[place]]


@pytest.mark.parametrize("ending", ENDINGS)
def test_every_picture_is_in_the_file_exactly_and_as_long_as_planned(
    reel: Reel, ending: str
) -> None:
    with Image.open(io.BytesIO(reel.file(ending))) as read:
        assert (read.n_frames, read.size) == (20, (WIDTH, HEIGHT))
        for place, lasts in enumerate(FILM.durations_ms):
            read.seek(place)
            shown = np.asarray(read.convert("RGB"))
            assert np.array_equal(shown, colours(reel, place)), place
            assert read.info["duration"] == lasts
        assert read.info["loop"] == 0


def test_another_reader_sees_the_same_pictures(reel: Reel) -> None:
    data = QByteArray(reel.file(".gif"))
    device = QBuffer(data)
    device.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(device, QByteArray(b"gif"))
    for place in range(20):
        image = reader.read().convertToFormat(QImage.Format.Format_RGB32)
        assert np.array_equal(pixels_of(image), colours(reel, place)), place
        assert reader.nextImageDelay() == 50
    assert not reader.canRead()


def test_pictures_that_hold_a_value_are_not_made_one(qapp: object) -> None:
    file = finished(Studio(strip_of(HELD, frame), Look(), DAY).reel()).file(".gif")
    with Image.open(io.BytesIO(file)) as read:
        assert read.n_frames == len(HELD.moments) == 24
    assert len({moment.inputs.knee_bend_deg for moment in HELD.moments}) == 3


def test_inks_are_near_the_colours_painted_and_paper_is_just_paper(
    studio: Studio, reel: Reel
) -> None:
    painted = pixels_of(studio.picture(7)).astype(int)
    off = np.abs(painted - colours(reel, 7)).max(axis=2)
    assert (off > 24).mean() < 0.001
    assert np.quantile(off, 0.99) <= 8
    paper = (painted == 255).all(axis=2)
    assert paper.mean() > 0.5
    assert not off[paper].any()
    for name in ("ink", "front", "rear", "accent_text", "quiet"):
        its = tuple(QColor(getattr(LIGHT, name)).getRgb()[:3])
        there = (painted == its).all(axis=2)
        assert there.any(), name
        assert not off[there].any(), name
    dark = finished(Studio(strip_of(FILM, frame), Look(DARK), DAY).reel())
    ink = QColor(DARK.paper)
    assert colours(dark, 0)[5, 5].tolist() == [ink.red(), ink.green(), ink.blue()]


@pytest.mark.parametrize("ending", ENDINGS)
def test_its_size_is_foretold(studio: Studio, reel: Reel, ending: str) -> None:
    assert finished(studio.foretold(ending)) == pytest.approx(len(reel.file(ending)), rel=0.15)


def test_caution_and_date_stand_on_every_picture(
    studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    # What is written is painted by these two: texts in lines, and texts that wrap.
    lines, passages = [], []
    put, paragraph = "app.qt.painting.easel.Easel.put", "app.features.clip.painting.paragraph"
    monkeypatch.setattr(put, lambda _easel, _x, _y, text, *_: lines.append(text))
    monkeypatch.setattr(paragraph, lambda _easel, _area, text, _look: passages.append(text))
    for place in range(20):
        studio.picture(place)
    assert passages == [CAUTION] * 20
    assert lines.count("Kneeline · 2026-01-31") == 20
    assert FILM.said[3] in lines
    assert not any("Kimberley" in line for line in lines)


def test_its_foot_is_the_same_under_every_picture_and_not_empty(studio: Studio) -> None:
    feet = [pixels_of(studio.picture(place))[-62:] for place in (0, 9, 19)]
    assert all(np.array_equal(foot, feet[0]) for foot in feet)
    assert (feet[0] != 255).mean() > 0.02


def test_the_name_stands_on_it_only_when_asked_and_as_plain_text(
    qapp: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines: list[str] = []
    put = "app.qt.painting.easel.Easel.put"
    monkeypatch.setattr(put, lambda _easel, _x, _y, text, *_: lines.append(text))
    Studio(strip_of(FILM, frame), Look(named=True), DAY).picture(0)
    assert SETUP.name in lines


def test_nothing_of_the_rider_is_in_the_file(reel: Reel) -> None:
    for ending in ENDINGS:
        assert b"Kimberley" not in reel.file(ending)


def test_a_picture_is_as_large_as_asked(qapp: object) -> None:
    image = Studio(strip_of(FILM, frame), Look(LIGHT, 1.5), DAY).picture(0)
    assert (image.width(), image.height()) == (1500, 1080)

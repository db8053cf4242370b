"""The theme in Qt's terms, and whether its words can be read on the panel."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtGui import QFontInfo
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from app.drawing.theme import DARK, FONT_FAMILY, LIGHT, Theme
from app.qt.painting.palette import colour, palette
from app.qt.themes import set_theme

BOTH = pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])


def luminance(code: str) -> float:
    """Relative luminance as WCAG 2.1 defines it (w3.org/TR/WCAG21, "relative luminance")."""
    parts = (int(code[i : i + 2], 16) / 255.0 for i in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.fixture
def app(qapp: QApplication) -> Iterator[QApplication]:
    """The application, undressed again afterwards."""
    before = qapp.palette()
    yield qapp
    qapp.setStyleSheet("")
    qapp.setPalette(before)


@BOTH
def test_a_palette_holds_the_themes_colours(theme: Theme) -> None:
    made = palette(theme)
    assert made.window().color() == colour(theme.panel)
    assert made.base().color() == colour(theme.field)
    assert made.text().color() == made.windowText().color() == colour(theme.ink)


@BOTH
def test_dressing_reaches_windows_that_stand_already(
    app: QApplication, qtbot: QtBot, theme: Theme
) -> None:
    window = QWidget()
    label = QLabel("Stance", window)
    qtbot.addWidget(window)
    window.show()
    set_theme(theme)
    assert QFontInfo(label.font()).family() == FONT_FAMILY
    assert label.palette().windowText().color() == colour(theme.ink)


@BOTH
def test_words_stand_out_on_the_panel_and_on_a_lit_row(theme: Theme) -> None:
    """4.5 to 1 for text, as WCAG 2.1 asks (success criterion 1.4.3, level AA)."""
    words = (theme.ink, theme.quiet, theme.accent_text, theme.front_text, theme.rear_text)
    for ground in (theme.panel, theme.field):
        assert min(contrast(word, ground) for word in words) >= 4.5


@BOTH
def test_lines_that_carry_meaning_stand_out_on_the_panel(theme: Theme) -> None:
    """3 to 1 for parts of a control, as WCAG 2.1 asks (success criterion 1.4.11, level AA)."""
    lines = (theme.ink, theme.quiet, theme.front, theme.rear)
    for ground in (theme.panel, theme.field):
        assert min(contrast(line, ground) for line in lines) >= 3.0

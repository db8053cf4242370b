"""Whether words, edges and legs stand out as they are rendered, and targets are large enough.

4.5 to 1 for words (WCAG 2.1, success criterion 1.4.3, level AA), 3 to 1 for what shows a
control or carries meaning (1.4.11, AA), 24 px for targets (WCAG 2.2, 2.5.8, AA); 7 to 1 for
words in high contrast (1.4.6, AAA).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np
import pytest
from contrasts import contrast_of, edge_seen, luminances, pixels, words_seen
from looking import faults
from PySide6.QtGui import QColor
from PySide6.QtWidgets import (
    QAbstractSpinBox,
    QApplication,
    QCheckBox,
    QComboBox,
    QLineEdit,
    QPushButton,
    QWidget,
)
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.drawing.styles import style
from app.drawing.theme import BY_NAME, LIGHT, Theme
from app.features.riders.dialog import RidersDialog
from app.files.settings import Settings
from app.files.user_folders import users_folder
from app.qt.themes import set_theme
from app.stance.findings import USUAL_LIMITS
from app.window.settings_dialog import SettingsDialog
from app.window.who_card import WhoCard
from app.window.window import Window

EACH = pytest.mark.parametrize("name", BY_NAME)
EDGED = (QLineEdit, QPushButton, QComboBox, QCheckBox, QAbstractSpinBox)


@pytest.fixture
def window(qtbot: QtBot) -> Iterator[Window]:
    made = shown_window(qtbot)
    for section in made.panel.sections.values():
        section.set_open(True)
    yield made
    set_theme(LIGHT)


def opened_in_turn(window: Window) -> Iterator[str]:
    """Opens each page of a window, and tells its title."""
    for way in window.tray.ways:
        way.trigger()
        QApplication.processEvents()
        yield way.text()


def whole(widget: QWidget) -> bool:
    return widget.isVisible() and widget.visibleRegion().boundingRect() == widget.rect()


@EACH
def test_words_edges_grooves_and_the_rear_leg_stand_out_on_every_page(
    window: Window, name: str
) -> None:
    theme = BY_NAME[name]
    set_theme(theme)
    least, edge = (7.0, 4.5) if name.startswith("contrast") else (4.5, 3.0)
    weak: list[object] = []
    for title in opened_in_turn(window):
        weak += [(title, seen) for seen in words_seen(window) if seen.contrast < least]
        page = window.tray.current
        assert page is not None
        for each in page.findChildren(QWidget):
            if isinstance(each, EDGED) and each.isEnabled() and whole(each) and _frames(each):
                seen = edge_seen(window, each)
                weak += [(title, type(each).__name__, seen)] if seen < edge else []
    assert not weak
    row = window.panel.rows["stance_length_mm"]
    assert edge_seen(window, row.number) >= edge
    groove = row.slider.rect().adjusted(12, 0, -row.slider.width() // 2 - 20, 0)
    assert contrast_of(pixels(row.slider, groove)) >= edge
    _check_rear_leg(window, theme, edge)


def _frames(widget: QWidget) -> bool:
    """Whether it has an edge of its own, and not that of what it stands in."""
    return not isinstance(widget.parentWidget(), QAbstractSpinBox | QComboBox)


def _check_rear_leg(window: Window, theme: Theme, least: float) -> None:
    """The farther bone's own colour covers whole pixels of the drawing, and stands out."""
    drawn = pixels(window.sheet)
    paper = luminances(np.array(QColor(theme.paper).getRgb()[:3]))
    for part in ("bone.near", "bone.far"):
        colour = np.array(QColor(style(theme, f"rear.{part}").stroke).getRgb()[:3])
        assert (drawn == colour).all(axis=2).sum() > 50
        high, low = sorted((float(luminances(colour)), float(paper)), reverse=True)
        assert (high + 0.05) / (low + 0.05) >= least


def test_no_target_is_under_24_px_on_any_page_in_any_dialog_or_on_the_card(
    window: Window,
) -> None:
    def small(shown: QWidget) -> list[object]:
        QApplication.processEvents()
        return [fault for fault in faults(shown) if fault.kind == "small"]

    for title in opened_in_turn(window):
        assert not small(window), title
    made: list[Callable[[], QWidget]] = [
        lambda: SettingsDialog(Settings(), window),
        lambda: RidersDialog(users_folder(), USUAL_LIMITS, window),
        lambda: WhoCard(window.sheet),
    ]
    for make in made:
        shown = make()
        shown.show()
        assert not small(shown)
        shown.close()

"""That the Qt binding in use does not eat Python's own objects."""

from __future__ import annotations

import sys

import pytest
from PySide6.QtWidgets import QSlider
from pytestqt.qtbot import QtBot


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="None cannot die from Python 3.12 on")
def test_moving_a_slider_a_thousand_times_costs_no_reference_to_none(qtbot: QtBot) -> None:
    slider = QSlider()
    slider.setRange(0, 1000)
    qtbot.addWidget(slider)
    before = sys.getrefcount(None)
    for value in range(1, 1001):
        slider.setValue(value)
    # PySide6 6.12.0 drops one at each call (measured under Python 3.11) and the process ends
    # when none is left, after seconds of dragging.
    assert sys.getrefcount(None) - before > -100

"""Widgets that are laid out like words."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app.qt.controls.flow import Flow


@pytest.mark.parametrize("width", [60, 150, 340, 1200])
def test_no_widget_is_cut_and_none_overlaps_whatever_the_width(qtbot: QtBot, width: int) -> None:
    holder = QWidget()
    qtbot.addWidget(holder)
    flow = Flow(holder, spacing=2, margins=(8, 2, 8, 2))
    buttons = [QPushButton("x" * count) for count in (1, 9, 4, 12, 2, 7)]
    for button in buttons:
        flow.addWidget(button)
    holder.resize(width, flow.heightForWidth(width))
    holder.show()
    places = [button.geometry() for button in buttons]
    assert all(place.size() == b.sizeHint() for place, b in zip(places, buttons, strict=True))
    assert not any(a.intersects(b) for i, a in enumerate(places) for b in places[:i])
    assert max(place.bottom() for place in places) < holder.height()
    wide = sum(place.width() + 2 for place in places) + 16
    assert (len({place.top() for place in places}) == 1) == (wide - 2 <= width)

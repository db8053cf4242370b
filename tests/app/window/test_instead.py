"""Something else shown in place of the set-up in hand, which knows nothing of it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.rider.inputs import changed
from app.rider.instead import Instead
from app.rider.setup import DEMO
from app.session import Session
from app.window.window import Window

WIDE = replace(DEMO, inputs=changed(DEMO.inputs, stance_length_mm=640.0))


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    session = Session()
    session.edit(stance_length_mm=520.0)
    return shown_window(qtbot, session)


def drawn_length(window: Window) -> float:
    drawn = window.sheet._frame
    assert drawn is not None
    return drawn.setup.inputs.stance_length_mm


def test_the_drawings_and_controls_show_it_while_set_up_and_history_stay(
    window: Window, qtbot: QtBot
) -> None:
    session, before = window.session, window.session.steps
    session.show_instead(Instead(WIDE, behind=DEMO, marks=frozenset({"length"})))
    qtbot.waitUntil(lambda: drawn_length(window) == 640.0)
    assert any(
        mark.key == "ghost.front.bones" for mark in window.sheet._frame.scenes["front"].marks
    )
    assert window.panel.rows["stance_length_mm"].slider.words() == "640 mm"
    assert not window.panel.isEnabled()
    assert not window.undo.isEnabled()
    window.sheet.asked.emit({"stance_length_mm": 700.0})
    assert session.steps == before
    assert session.setup.inputs.stance_length_mm == 520.0
    assert window.shown().frame.setup == session.setup

    session.show_instead(None)
    qtbot.waitUntil(lambda: drawn_length(window) == 520.0)
    assert window.panel.isEnabled()
    assert window.undo.isEnabled()
    assert window.sheet._lit == frozenset()

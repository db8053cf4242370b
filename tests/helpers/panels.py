"""Fixtures: a panel on a screen of the mind, wired to its session as the window wires it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from hands import Counter
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.rider.inputs import FIELD, default_of
from app.session import Session
from app.window.control_panel import ControlPanel
from app.window.control_row import ControlRow
from app.window.window import prepared_application


@pytest.fixture(autouse=True)
def _dressed(qapp: QApplication) -> None:
    """Widgets that stand alone wear the program's type and colours too."""
    prepared_application()


@pytest.fixture
def session() -> Session:
    return Session()


@pytest.fixture
def changes(session: Session) -> Counter:
    return Counter(session.changed)


@pytest.fixture
def panel(qtbot: QtBot, session: Session) -> Iterator[ControlPanel]:
    panel = ControlPanel(session)
    session.changed.connect(lambda: panel.show_setup(session.setup))
    qtbot.addWidget(panel)
    panel.resize(324, 760)
    panel.show()
    panel.activateWindow()
    qtbot.waitUntil(panel.isActiveWindow)
    yield panel
    panel.close()


@pytest.fixture
def row(qtbot: QtBot, session: Session, name: str) -> Iterator[ControlRow]:
    """The control of one input, alone, for tests that go through them all by ``name``."""
    row = ControlRow(session, FIELD[name])
    row.reset.connect(lambda: session.edit(**{name: default_of(FIELD[name])}))
    session.changed.connect(lambda: row.show_value(session.inputs.value(name)))
    row.show_value(session.inputs.value(name))
    qtbot.addWidget(row)
    row.resize(300, row.height())
    row.show()
    row.activateWindow()
    qtbot.waitUntil(row.isActiveWindow)
    yield row
    row.close()


@pytest.fixture
def steps(session: Session) -> Callable[[], int]:
    """How many steps the history holds, counted by undoing them all."""

    def count() -> int:
        done = 0
        while session.undo_name:
            session.undo()
            done += 1
        for _ in range(done):
            session.redo()
        return done

    return count

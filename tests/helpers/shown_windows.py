"""The program's window as a person has it before them."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from app.session import Session
from app.window.window import Window, prepared_application


def shown_window(
    qtbot: QtBot,
    session: Session | None = None,
    size: tuple[int, int] = (1280, 800),
    *,
    active: bool = False,
) -> Window:
    """The window of a session, the demo rider's where none is named, shown or active as well."""
    prepared_application()
    made = Window(session or Session())
    qtbot.addWidget(made)
    made.resize(*size)
    made.show()
    if active:
        made.activateWindow()
        qtbot.waitUntil(made.isActiveWindow)
    else:
        qtbot.waitExposed(made)
    return made

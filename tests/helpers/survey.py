"""Opens every page, dialog and menu of a program in turn, and looks at each."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Final

from looking import Fault, looked_at
from PySide6.QtWidgets import QApplication, QMenu, QWidget

from app.features.riders.dialog import RidersDialog
from app.files.resources import starting_points
from app.window.program import Program
from app.window.settings_dialog import SettingsDialog

Settle = Callable[[], object]

AT_REST_MS: Final = 600
"""After which nothing moves any more in a window that nobody touches."""


def settled(ms: int) -> Settle:
    """Lets a program go on for a while, in which what is slow comes to its end."""

    def settle() -> None:
        end = time.monotonic() + ms / 1000.0
        while time.monotonic() < end:
            QApplication.processEvents()
            time.sleep(0.002)

    return settle


def rooms(program: Program) -> Iterator[tuple[str, QWidget]]:
    """Each thing that a program can show, by its name; shown while it is looked at."""
    window = program.window
    for section in window.panel.sections.values():
        section.set_open(True)
    yield "closed", window
    for way in window.tray.ways:
        way.trigger()
        yield way.text(), window
    window.tray.toggle([way.text() for way in window.tray.ways].index(way.text()))
    window.compare.keep()
    window.session.edit(front_angle_deg=10.0)
    yield "compared", window
    window.compare.stop()
    window.session.undo()
    window.documents.notices.tell("Lifts and cants were put on.", "Undo", lambda: None)
    yield "a notice", window
    window.documents.notices.clear_notice()
    window.guide.ask()
    yield "the card", window
    if window.guide.card is not None:
        window.guide.card.put_away()
    yield from _dialogs(program)
    for menu in window.findChildren(QMenu):
        if menu.actions():
            menu.popup(window.mapToGlobal(window.rect().center()))
            yield f"menu {menu.title() or menu.actions()[0].text()}", menu
            menu.close()


def _dialogs(program: Program) -> Iterator[tuple[str, QWidget]]:
    settings = program.documents.settings.now
    folder: Path = starting_points()[0].path.parent
    made: dict[str, QWidget] = {
        "settings": SettingsDialog(settings, program.window),
        "riders": RidersDialog(folder, settings.limits, program.window),
    }
    for name, dialog in made.items():
        dialog.show()
        yield name, dialog
        dialog.close()
        dialog.deleteLater()


def survey(
    program: Program, settle: Settle, looked: Callable[[str, QWidget], object] = lambda *_: None
) -> dict[str, list[Fault]]:
    """What is wrong, by the name of what was shown; without what is right."""
    found = {}
    for name, shown in rooms(program):
        settle()
        faults = looked_at(shown, QApplication.processEvents)
        if faults:  # words that have just come from a thread may still be laid out
            settled(AT_REST_MS)()
            faults = looked_at(shown, QApplication.processEvents)
        looked(name, shown)
        if faults:
            found[name] = faults
    return found

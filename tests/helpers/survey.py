"""Opens every page, dialog and menu of a program in turn, and looks at each."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Final
from unittest.mock import patch

from looking import Fault, looked_at
from PySide6.QtWidgets import QApplication, QMenu, QMessageBox, QWidget

from app.features.clip.dialog import ClipDialog
from app.features.help.dialog import SECTIONS
from app.features.paper.handout_dialog import HandoutDialog
from app.features.riders.dialog import RidersDialog
from app.features.webpage.saving import PrivacyQuestion
from app.features.wedge.page import WedgePage
from app.files.resources import starting_points
from app.qt import questions
from app.stance.findings import CAUTION
from app.window.commands import commands_of
from app.window.finder import Finder
from app.window.program import Program
from app.window.settings_dialog import SettingsDialog
from app.words.language import tr

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
        menu.aboutToShow.emit()
        if menu.actions():
            menu.popup(window.mapToGlobal(window.rect().center()))
            yield f"menu {menu.title() or menu.actions()[0].text()}", menu
            menu.close()


def _dialogs(program: Program) -> Iterator[tuple[str, QWidget]]:
    """Every window that opens over the window, each in turn."""
    window, settings = program.window, program.documents.settings.now
    folder: Path = starting_points()[0].path.parent
    setup = window.session.setup
    made: dict[str, QWidget] = {
        "settings": SettingsDialog(settings, window),
        "riders": RidersDialog(folder, settings.limits, window),
        "finder": Finder(commands_of(window), "Find a command", window),
        "privacy": PrivacyQuestion(replace(setup, name="Anna", notes="knee"), window),
        "handout": HandoutDialog(window, has_name=True, has_notes=True),
    }
    for name, dialog in made.items():
        dialog.show()
        yield name, dialog
        dialog.close()
        dialog.deleteLater()
    yield from _windows(program)
    for name, ask in _QUESTIONS.items():
        for box in _held(partial(ask, window)):
            box.show()
            yield name, box
            box.close()
            box.deleteLater()


def _windows(program: Program) -> Iterator[tuple[str, QWidget]]:
    """The help by its sections, a clip, the large drawing of a wedge, two set-ups beside."""
    window = program.window
    window.helping.open()
    shown = window.helping.help
    assert shown is not None
    for section in SECTIONS:
        shown.show_section(section)
        yield f"help {section}", shown
    shown.close()
    window.pictures.save_clip()
    clip = window.findChild(ClipDialog)
    assert clip is not None
    yield "clip", clip
    clip.close()
    wedge = window.tray.open_page("Printed wedge")
    assert isinstance(wedge, WedgePage)
    wedge.form.open.click()
    assert wedge.large is not None
    yield "large drawing", wedge.large
    wedge.large.close()
    window.tray.toggle([entry.title for entry in window.tray.entries].index("Printed wedge"))
    window.compare.keep()
    window.compare.show_beside()
    yield "beside", window.compare.beside
    window.compare.beside.close()
    window.compare.stop()


_QUESTIONS: Final[dict[str, Callable[[QWidget], object]]] = {
    "caution": lambda window: questions.inform(window, tr("Caution"), tr(CAUTION)),
    "save": lambda window: questions.asked_to_save(window, "Anna", copy=False),
    "save a copy": lambda window: questions.asked_to_save(window, "Anna", copy=True),
    "changed": lambda window: questions.asked_about_changed_file(window, "anna.json"),
    "what to carry": questions.asked_what_to_carry,
    "replace": lambda window: questions.asked_to_replace(window, "anna.json"),
    "recover": lambda window: questions.asked_to_recover(window, "Anna", 1_000_000.0),
    "not saved": lambda window: questions.told_not_saved(window, "the disk is full"),
    "leave out": lambda window: questions.agreed_to_leave_out(window, "480"),
}


def _held(ask: Callable[[], object]) -> list[QMessageBox]:
    """The boxes that a question would wait in."""
    held: list[QMessageBox] = []
    with patch.object(QMessageBox, "exec", lambda self: held.append(self) or 0):
        ask()
    return held


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

"""One table of commands: every entry and page and control is found, every key is told."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot
from shown_windows import shown_window
from spoken_tree import faults

from app.stance.findings import CAUTION
from app.window.commands import Command, commands_of, shown_keys
from app.window.finder import Finder
from app.window.program import Program
from app.window.window import Window

LISTS = {"Open recent", "Size of the picture", "Start from", "What pictures carry"}
"""Menus that list things to choose from, which have no keys."""


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot, active=True)


def by_name(window: Window) -> dict[str, Command]:
    return {each.name: each for each in commands_of(window)}


def entries_of(menu: QMenu) -> list[str]:
    return [each.text().replace("&&", "&") for each in menu.actions() if not each.isSeparator()]


def finder(window: Window, qtbot: QtBot, *, keys_only: bool = False) -> Finder:
    made = Finder(commands_of(window), "Find a command", window, keys_only=keys_only)
    qtbot.addWidget(made)
    made.show()
    return made


def test_every_entry_page_and_control_is_in_the_table(window: Window) -> None:
    names = by_name(window)
    wanted = [each.text() for each in window.tray.ways]
    wanted += [window.panel.rows[name].field.label for name in window.panel.shown_names]
    for menu in window.menus.values():
        wanted += [name for name in entries_of(menu) if name not in LISTS]
    assert [name for name in wanted if name not in names] == []


def test_every_entry_of_a_menu_has_a_key_but_those_that_list_things(program: Program) -> None:
    window = program.window
    for title, menu in window.menus.items():
        if title in LISTS:
            continue
        for action in menu.actions():
            if action.isSeparator() or action.menu() is not None:
                continue
            assert not action.shortcut().isEmpty(), action.text()


def test_no_key_means_two_things_and_every_one_is_told(program: Program) -> None:
    window = program.window
    meant = [keys for action in window.actions() for keys in map(shown_keys, action.shortcuts())]
    assert sorted(meant) == sorted(set(meant))
    told = {keys for each in commands_of(window) for keys in each.keys.split(" / ")}
    assert set(meant) - told == set()


@pytest.mark.parametrize(
    ("asked", "name"),
    [
        ("undo", "Undo"),
        ("FIT a4", "Fit sheet as PDF, A4…"),
        ("snow", "Board"),
        ("toes towards nose", "Front binding angle"),
        ("ctrl+b", "Side by side…"),
        ("lead", "Lead foot"),
        ("caution", "Caution"),
    ],
)
def test_a_few_letters_find_it(window: Window, qtbot: QtBot, asked: str, name: str) -> None:
    dialog = finder(window, qtbot)
    QTest.keyClicks(dialog.search, asked)
    assert name in [each.name for each in dialog._shown]


def test_return_does_what_was_found(window: Window, qtbot: QtBot) -> None:
    dialog = finder(window, qtbot)
    QTest.keyClicks(dialog.search, "snow board")
    QTest.keyClick(dialog.search, Qt.Key.Key_Return)
    assert dialog.wanted is not None
    assert dialog.wanted.run is not None
    dialog.wanted.run()
    assert window.tray.current is not None
    assert window.tray.tabs[[e.title for e in window.tray.entries].index("Board")].isChecked()


def test_a_control_that_was_found_has_the_keyboard(window: Window) -> None:
    window.panel.sections["legs"].set_open(False)
    for name, widget in (
        ("Hip height", window.panel.rows["hip_height_mm"].slider),
        ("Binding angles", window.panel.link.segments[0]),
        ("Unit of lengths", window.unit),
    ):
        run = by_name(window)[name].run
        assert run is not None
        run()
        assert QApplication.focusWidget() is widget


def test_what_cannot_be_done_now_is_listed_and_not_done(window: Window, qtbot: QtBot) -> None:
    dialog = finder(window, qtbot)
    QTest.keyClicks(dialog.search, "stop comparing")
    assert [each.name for each in dialog._shown] == ["Stop comparing"]
    QTest.keyClick(dialog.search, Qt.Key.Key_Return)
    assert dialog.wanted is None
    assert dialog.isVisible()


def test_the_page_of_keys_tells_those_of_the_hand_too(window: Window, qtbot: QtBot) -> None:
    dialog = finder(window, qtbot, keys_only=True)
    assert all(each.keys for each in dialog._shown)
    told = {(each.place, each.keys) for each in dialog._shown}
    assert ("On the plan of the drawings", "Home, End") in told
    assert ("Compare", "F8") in told
    assert faults(dialog) == []


def test_one_key_leads_to_the_keys_to_the_field_and_to_the_caution(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[str] = []
    monkeypatch.setattr(Finder, "exec", lambda self: shown.append(self.windowTitle()))
    monkeypatch.setattr("app.window.window.inform", lambda *said: shown.append(said[2]))
    for key, held in (
        (Qt.Key.Key_F1, Qt.KeyboardModifier.ControlModifier),
        (Qt.Key.Key_J, Qt.KeyboardModifier.ControlModifier),
        (Qt.Key.Key_F12, Qt.KeyboardModifier.NoModifier),
    ):
        QTest.keyClick(window.windowHandle(), key, held)
        QApplication.processEvents()
    assert shown == ["Keys", "Find a command", CAUTION]

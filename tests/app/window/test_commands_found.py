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
from app.window.finder import CommandList, Finder
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


def finder(window: Window, qtbot: QtBot) -> Finder:
    made = Finder(commands_of(window), "Find a command", window)
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
    QTest.keyClicks(dialog.list.search, asked)
    assert name in [each.name for each in dialog.list._shown]


def test_return_does_what_was_found(window: Window, qtbot: QtBot) -> None:
    dialog = finder(window, qtbot)
    QTest.keyClicks(dialog.list.search, "snow board")
    QTest.keyClick(dialog.list.search, Qt.Key.Key_Return)
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
    QTest.keyClicks(dialog.list.search, "stop comparing")
    assert [each.name for each in dialog.list._shown] == ["Stop comparing"]
    QTest.keyClick(dialog.list.search, Qt.Key.Key_Return)
    assert dialog.wanted is None
    assert dialog.isVisible()


def keys_in_help(window: Window) -> CommandList:
    """The keys that the key of help shows, the letters going to their search."""
    QTest.keyClick(window.windowHandle(), Qt.Key.Key_F1)
    QApplication.processEvents()
    shown = window.helping.help
    assert shown is not None
    assert shown.isVisible()
    (made,) = shown.findChildren(CommandList)
    assert made.isVisible()
    return made


def test_the_page_of_keys_tells_those_of_the_hand_too(window: Window) -> None:
    keys = keys_in_help(window)
    assert all(each.keys for each in keys._shown)
    told = {(each.place, each.keys) for each in keys._shown}
    assert ("On the plan of the drawings", "Home, End") in told
    assert ("Compare", "F8") in told
    assert faults(keys) == []


def test_every_entry_with_a_key_is_on_the_page_of_keys(window: Window) -> None:
    told = {(each.name, each.keys) for each in keys_in_help(window)._shown}
    for action in window.actions():
        if action.text() and not action.shortcut().isEmpty():
            keys = " / ".join(map(shown_keys, action.shortcuts()))
            assert (action.text().replace("&&", "&"), keys) in told


def test_what_is_typed_after_the_key_of_help_finds_keys_and_words(
    window: Window, qtbot: QtBot
) -> None:
    keys = keys_in_help(window)
    qtbot.waitUntil(keys.search.hasFocus)
    QTest.keyClicks(keys.search, "redo")
    assert [each.name for each in keys._shown] == ["Redo"]
    keys.search.clear()
    QTest.keyClicks(keys.search, "hinge plane")
    assert "Hinge plane, hinge axis" in [each.name for each in keys._shown]
    QTest.keyClick(keys.search, Qt.Key.Key_Return)
    assert window.helping.help is not None
    assert window.helping.help.title.text() == "Hinge plane, hinge axis"


def test_what_was_found_among_the_keys_is_done_in_the_window(window: Window, qtbot: QtBot) -> None:
    keys = keys_in_help(window)
    QTest.keyClicks(keys.search, "alt+4")
    QTest.keyClick(keys.search, Qt.Key.Key_Return)
    assert window.tray.open_title == "All round"
    qtbot.waitUntil(window.isActiveWindow)


def test_one_key_leads_to_the_field_and_to_the_caution(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[str] = []
    monkeypatch.setattr(Finder, "exec", lambda self: shown.append(self.windowTitle()))
    monkeypatch.setattr("app.window.window.inform", lambda *said: shown.append(said[2]))
    for key, held in (
        (Qt.Key.Key_J, Qt.KeyboardModifier.ControlModifier),
        (Qt.Key.Key_F12, Qt.KeyboardModifier.NoModifier),
    ):
        QTest.keyClick(window.windowHandle(), key, held)
        QApplication.processEvents()
    assert shown == ["Find a command", CAUTION]

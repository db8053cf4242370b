"""The whole window, every page, dialog and menu of it, as a screen reader finds it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QObject
from PySide6.QtGui import QAccessible, QAccessibleActionInterface
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot
from shown_windows import shown_window
from spoken_tree import Role, Spoken, Text, faults, spoken

from app.qt.controls import page_words
from app.window.window import Window
from app.words.lengths import Lengths


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    return shown_window(qtbot)


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()


def first(thing: QObject) -> Spoken:
    return next(iter(spoken(thing)))


def named(thing: QObject, role: QAccessible.Role) -> list[str]:
    return [each.name for each in spoken(thing) if each.role == role]


def test_all_in_the_window_can_be_understood_by_ear(window: Window) -> None:
    assert faults(window) == []


def test_all_on_every_page_can_be_understood_by_ear(window: Window) -> None:
    for entry in window.tray.entries:
        window.tray.open_page(entry.title)
        settle()
        assert faults(window.tray) == [], entry.title


def test_every_menu_can_be_understood_by_ear(window: Window) -> None:
    menus = [each for each in window.findChildren(QMenu) if each.actions()]
    assert len(menus) >= 5
    for menu in menus:
        entries = [each for each in menu.actions() if not each.isSeparator()]
        inside = QAccessible.queryAccessibleInterface(menu)
        names = [inside.child(i).text(Text.Name) for i in range(inside.childCount())]
        assert [each for each in names if each] == [
            each.text().replace("&&", "&") for each in entries
        ]


def test_the_tabs_are_page_tabs_of_which_the_open_one_is_selected(window: Window) -> None:
    tray = window.tray
    tray.open_page("Board")
    tabs = [each for each in spoken(tray.tab_bar) if each.role == Role.PageTab]
    assert first(tray.tab_bar).role == Role.PageTabList
    assert [each.name for each in tabs] == [entry.title for entry in tray.entries]
    assert [each.name for each in tabs if each.state.selected] == ["Board"]
    assert not any(each.state.checkable for each in tabs)


def test_a_switch_is_a_group_of_radio_buttons(window: Window) -> None:
    switch = window.panel.lead_foot
    buttons = [each for each in spoken(switch) if each.role == Role.RadioButton]
    assert (first(switch).role, first(switch).name) == (Role.Grouping, "Lead foot")
    assert [(each.name, bool(each.state.checked)) for each in buttons] == [
        ("Lead foot: left", True),
        ("Lead foot: right", False),
    ]


def test_a_section_is_a_button_that_is_expanded_or_not(window: Window) -> None:
    section = window.panel.sections["stance"]
    heading = QAccessible.queryAccessibleInterface(section.heading)
    press = QAccessibleActionInterface.pressAction()
    assert heading.role() == Role.Button
    for is_open in (False, True):
        heading.actionInterface().doAction(press)
        state = heading.state()
        assert section.is_open == is_open
        assert (bool(state.expanded), bool(state.collapsed)) == (is_open, not is_open)
        assert (bool(state.checkable), bool(state.expandable)) == (False, True)


def test_the_drawings_are_an_image_whose_values_can_be_read(window: Window) -> None:
    seen = first(window.sheet)
    assert (seen.role, seen.name) == (Role.Graphic, "Drawings")
    assert "left foot in front" in seen.description
    values = named(window.sheet, Role.StaticText)
    assert any("long axes are 384 mm apart" in each for each in values)
    assert any(each.startswith("From the front, along the facing: front leg") for each in values)


def test_the_values_follow_the_set_up_and_the_unit(qtbot: QtBot) -> None:
    window = shown_window(qtbot)
    window.session.edit(stance_length_mm=508.0)
    window.show_lengths(Lengths("in"))
    settle()
    assert "stance length 20.00 in" in " ".join(named(window.sheet, Role.StaticText))


@pytest.mark.parametrize(
    ("title", "value"),
    [
        ("Through the bend", "At 60°: front 1.3° bow-legged, rear 3.3° bow-legged."),
        ("Stance map", "41°, "),
        ("All round", "Both legs, 35° round"),
        ("Board", "Front boot on the toe side 2"),
        ("Begin with", "now: no cant"),
    ],
)
def test_what_a_page_draws_can_be_read_value_by_value(
    window: Window, title: str, value: str
) -> None:
    page = window.tray.open_page(title)
    settle()
    images = [each for each in spoken(page) if each.role == Role.Graphic]
    assert images
    assert all(each.children for each in images)
    texts = [each for each in spoken(page) if "Graphic/" in each.way]
    assert all(each.role == Role.StaticText for each in texts)


def test_a_control_says_in_which_state_it_is(window: Window) -> None:
    mark = window.panel.rows["hip_height_mm"].mark
    assert mark is not None
    assert "demo rider" in first(mark).description


@pytest.fixture
def said(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is announced, one text for each announcement."""
    heard: list[str] = []
    monkeypatch.setattr(page_words, "speak", lambda _speaker, words: heard.append(words))
    return heard


@pytest.mark.parametrize("title", ["", "Board", "Begin with", "Stance map", "Trials"])
def test_one_change_makes_one_announcement(qtbot: QtBot, said: list[str], title: str) -> None:
    window = shown_window(qtbot)
    if title:
        window.tray.open_page(title)
    settle()
    said.clear()
    window.session.edit(front_cant_deg=-8.0)
    settle()
    assert len(said) == 1, said
    assert "Front leg" in said[0]
    assert "out of its plane" in said[0]
    window.session.edit(front_cant_deg=-8.1)
    settle()
    assert len(said) == 1, "the knee is in the state in which it was"


def test_what_comes_up_together_is_said_in_one_go(qtbot: QtBot, said: list[str]) -> None:
    window = shown_window(qtbot)
    said.clear()
    for words in ("one thing", "another.", "one thing"):
        page_words.announce(window.sheet, words)
    assert said == []
    settle()
    assert said == ["One thing. Another."]

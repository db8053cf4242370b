"""The one table of what can be asked of the window: commands, pages, controls, and keys.

The page of keys shows what of it has keys, the field that finds commands shows all of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING, Final, NamedTuple

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from app.rider.inputs import FIELD, GROUPS
from app.window.control_panel import SWITCHES
from app.words.language import msgid, tr

if TYPE_CHECKING:
    from app.window.window import Window


class Command(NamedTuple):
    """One line of the table.

    Attributes:
        name: what it does, or what is gone to.
        place: where it is found else.
        keys: that do the same, as they are read; "" for none.
        about: more words by which it is found.
        run: does it; None for keys that mean something in their place only.
        ready: whether it can be done now.
    """

    name: str
    place: str
    keys: str = ""
    about: str = ""
    run: Callable[[], object] | None = None
    ready: bool = True

    def answers(self, asked: str) -> bool:
        """Whether every word that was typed is a part of what is said of it."""
        said = " ".join((self.name, self.place, self.keys, self.about)).casefold()
        return all(word in said for word in asked.casefold().split())

    def is_called(self, asked: str) -> bool:
        """Whether its own name answers already."""
        return all(word in self.name.casefold() for word in asked.casefold().split())


def words_of(explain: Callable[[str], object]) -> list[Command]:
    """The words that the help explains, each with what explains it."""
    from app.features.help.model import TERMS  # noqa: PLC0415

    help_ = tr("Help")
    return [
        Command(tr(term.title), help_, about=tr(term.said), run=partial(explain, key))
        for key, term in TERMS.items()
    ]


def commands_of(window: Window) -> list[Command]:
    """Everything, in the order in which it is seen: the bar, the parts, the pages, the controls."""
    return [
        *(each for title, menu in window.menus.items() for each in _entries(menu, title)),
        *_of_window(window),
        *_pages(window),
        *_controls(window),
        *_hand_keys(),
    ]


def _entries(menu: QMenu, place: str) -> Iterator[Command]:
    """What a menu holds, and the menus in it."""
    for action in menu.actions():
        inside = action.menu()
        if isinstance(inside, QMenu):
            yield from _entries(inside, f"{place}: {_plain(action)}")
        elif not action.isSeparator():
            yield _of_action(action, place)


def _of_window(window: Window) -> Iterator[Command]:
    """What the bar and the keys of the window do, beside its menus and pages."""
    elsewhere = [
        *window.tray.ways,
        *(each for menu in window.menus.values() for each in menu.actions()),
    ]
    for action in window.actions():
        if action not in elsewhere and _plain(action):
            yield _of_action(action, tr("Window"))


def _of_action(action: QAction, place: str, about: str = "") -> Command:
    keys = " / ".join(map(shown_keys, action.shortcuts()))
    return Command(_plain(action), place, keys, about, action.trigger, ready=action.isEnabled())


def _plain(action: QAction) -> str:
    return action.text().replace("&&", "&")


def shown_keys(keys: QKeySequence) -> str:
    """Keys as they are called on this system."""
    return keys.toString(QKeySequence.SequenceFormat.NativeText)


def _pages(window: Window) -> Iterator[Command]:
    for way, entry in zip(window.tray.ways, window.tray.entries, strict=True):
        command = _of_action(way, tr("Pages"), tr(entry.help))
        yield command._replace(run=partial(window.go_to_page, entry.title))


def _controls(window: Window) -> Iterator[Command]:
    stance, bar = tr(GROUPS["stance"]), tr("Window")
    for name, label in SWITCHES.items():
        yield Command(tr(label), stance, run=partial(window.go_to_control, name))
    for name in window.panel.shown_names:
        field = FIELD[name]
        go = partial(window.go_to_control, name)
        yield Command(field.label, tr(GROUPS[field.group]), "", field.help, go)
    yield Command(tr("How the front view looks"), bar, run=window.look.setFocus)
    yield Command(tr("Unit of lengths"), bar, run=window.unit.setFocus)


_SLIDERS: Final = msgid("On a slider or in a number field")
_PLAN: Final = msgid("On the plan of the drawings")
_MAP: Final = msgid("On the stance map")
_BEND: Final = msgid("On the plots through the bend")
_ROUND: Final = msgid("On the drawing all round")
_PAGE: Final = msgid("On the edge of an open page")
HAND_KEYS: Final = (
    (_PLAN, "Space", msgid("Select the front foot, the rear foot, none")),
    (_PLAN, "Left, Right", msgid("Turn the selected foot by 1°")),
    (_PLAN, "Up, Down", msgid("Move it, and so change the stance length, by 5 mm")),
    (_PLAN, "PgUp, PgDown", msgid("Move it by 25 mm")),
    (_PLAN, "Home, End", msgid("Turn it to the least or the largest angle")),
    (_PLAN, "Esc", msgid("Let go of the foot")),
    (_SLIDERS, "Up, Down", msgid("One step more or less; on a slider Right and Left too")),
    (_SLIDERS, "PgUp, PgDown", msgid("A coarse step more or less")),
    (_SLIDERS, "Home, End", msgid("The least or the largest value, on a slider")),
    (_SLIDERS, "Shift, Ctrl", msgid("Held with any of these: finer steps, coarser steps")),
    (_SLIDERS, "Del, Backspace", msgid("Back to where the arrow stands, on a slider")),
    (_SLIDERS, "Return, Esc", msgid("Take what was typed, or drop it")),
    (_MAP, "Left, Right", msgid("Turn both feet")),
    (_MAP, "Up, Down", msgid("Longer or shorter stance")),
    (_BEND, "Left, Right", msgid("Move along the plot")),
    (_ROUND, "Left, Right, Up, Down", msgid("Turn the drawing by 5°")),
    (_ROUND, "1, 2, 3, 4, 5, 6", msgid("Look from one of the standard sides")),
    (_ROUND, "+, -, Home", msgid("Larger, smaller, as it was")),
    (_PAGE, "Up, Down, PgUp, PgDown", msgid("Make the page higher or lower")),
)
"""What keys mean where the keyboard stands: the place, the keys, and what they do."""


def _hand_keys() -> Iterator[Command]:
    for place, keys, what in HAND_KEYS:
        shown = ", ".join(shown_keys(QKeySequence(key)) or key for key in keys.split(", "))
        yield Command(tr(what), tr(place), shown)

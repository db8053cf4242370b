"""What assistive programs find in a window, walked as they walk it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from PySide6.QtCore import QObject
from PySide6.QtGui import QAccessible, QAccessibleInterface

Role = QAccessible.Role
Text = QAccessible.Text
HOLDERS = {
    *(Role.Client, Role.LayeredPane, Role.ScrollBar, Role.Separator, Role.Splitter),
    *(Role.Whitespace, Role.Pane),
}
"""What only holds others, or moves them: it needs no name of its own."""


class Spoken(NamedTuple):
    """One thing in the tree, and the way to it."""

    way: str
    role: QAccessible.Role
    name: str
    description: str
    value: str
    state: QAccessible.State
    children: int

    def __str__(self) -> str:
        return f"{self.way} {self.name!r} {self.description!r} {self.value!r}"


def spoken(thing: QObject) -> Iterator[Spoken]:
    """All that can be seen under a widget, itself first."""
    found = QAccessible.queryAccessibleInterface(thing)
    assert found is not None
    return _walked(found, "")


def _walked(each: QAccessibleInterface, way: str) -> Iterator[Spoken]:
    state = each.state()
    if state.invisible:
        return
    held = each.object()
    kind = type(held).__name__ if held is not None else "-"
    way = f"{way}/{kind}:{each.role().name}"
    said = [each.text(part).strip() for part in (Text.Name, Text.Description, Text.Value)]
    children = [each.child(i) for i in range(each.childCount())]
    yield Spoken(way, each.role(), said[0], said[1], said[2], state, len(children))
    for child in children:
        if child is not None and child.isValid():
            yield from _walked(child, way)


def faults(thing: QObject) -> list[str]:
    """What cannot be understood by ear under a widget, a line each.

    What is more than a holder has a name, or a value where it is shown as one; an empty cell
    of a table is empty for the eye too.  Nothing says tags.  What the keyboard comes to is no
    filler, unless it scrolls.  An image is described, and what it shows can be read.
    """
    found = []
    for each in spoken(thing):
        if not (each.name or each.value) and each.role not in {*HOLDERS, Role.Cell}:
            found.append(f"nameless: {each}")
        if any("</" in said or "<b>" in said for said in each[2:5]):
            found.append(f"tags: {each}")
        if each.role == Role.Client and each.state.focusable and "Area" not in each.way[-24:]:
            found.append(f"filler with the keyboard: {each}")
        if each.role == Role.Graphic and not (each.children and (each.description or each.name)):
            found.append(f"mute image: {each}")
    return found

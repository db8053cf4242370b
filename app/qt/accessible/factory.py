"""Lets widgets say themselves how assistive programs see them.

Qt asks here for every object, but only once such a program runs; what it is then told
is made by modules that nothing loads before.
"""

from __future__ import annotations

from functools import cache
from typing import Final

from PySide6.QtCore import QObject
from PySide6.QtGui import QAccessible, QAccessibleEvent, QAccessibleInterface
from PySide6.QtWidgets import QWidget
from shiboken6 import Shiboken

METHOD: Final = "spoken_interface"
"""Name of the method, without arguments, by which a widget makes its own interface."""

_told: list[QAccessibleInterface] = []
"""All that Qt may still ask: it does not keep Python from throwing them away."""


def _made(_class_name: str, thing: QObject) -> QAccessibleInterface | None:
    make = getattr(thing, METHOD, None)
    if make is None:
        return None
    if len(_told) % 64 == 0:
        _told[:] = [each for each in _told if Shiboken.isValid(each)]
    made: QAccessibleInterface = make()
    _told.append(made)
    return made


@cache
def install() -> object:
    """Have widgets asked from now on."""
    QAccessible.installFactory(_made)
    return _made  # kept: a factory, once installed, stays


def tell_changed(widget: QWidget) -> None:
    """Tell assistive programs, where any runs, that a drawing's values are others now."""
    if not QAccessible.isActive():
        return
    spoken = QAccessible.queryAccessibleInterface(widget)
    for i in range(spoken.childCount()):
        value = spoken.child(i)
        if value is not None:
            event = QAccessibleEvent(value.object(), QAccessible.Event.NameChanged)
            QAccessible.updateAccessibility(event)

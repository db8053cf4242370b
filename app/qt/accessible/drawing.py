"""A drawing as assistive programs see it: an image with a description, its values below it.

The values are sentences or pairs of a name and a figure, one child each, so that they can be
read one after the other.  They are asked for when they are read, never while something moves.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final, Protocol

from PySide6.QtCore import QObject, QRect
from PySide6.QtGui import QAccessible, QAccessibleInterface, QAccessibleObject, QWindow
from PySide6.QtWidgets import QAccessibleWidget, QWidget

from app.words.sentences import as_sentence

Role = QAccessible.Role
_BREAKS: Final = re.compile(r"(?<=[.;!?])\s+")


class Drawing(Protocol):
    """What a widget that draws has to tell."""

    def spoken_values(self) -> Sequence[str]:
        """What can be read off it, each for itself."""


def sentences_of(text: str) -> list[str]:
    """The pieces of a text that are read one by one."""
    return [as_sentence(piece.rstrip(";")) for piece in _BREAKS.split(text) if piece.strip()]


class _Value(QObject):
    """The place of one value among those of a drawing."""

    def __init__(self, drawing: SpokenDrawing, place: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.drawing, self.place = drawing, place

    def spoken_interface(self) -> QAccessibleInterface:
        """Itself, for the factory."""
        return _SpokenValue(self)


class _SpokenValue(QAccessibleObject):
    """A value as a text that can be read."""

    def __init__(self, value: _Value) -> None:
        super().__init__(value)
        self._value = value

    def isValid(self) -> bool:  # noqa: N802
        return True

    def role(self) -> QAccessible.Role:
        return Role.StaticText

    def state(self) -> QAccessible.State:
        """Read only, and seen where its drawing is."""
        state, around = QAccessible.State(), self._value.drawing.state()
        state.readOnly = True
        state.invisible, state.offscreen = around.invisible, around.offscreen
        return state

    def text(self, kind: QAccessible.Text) -> str:
        """The value is its name, as of any text that stands by itself."""
        if kind != QAccessible.Text.Name:
            return ""
        return self._value.drawing.value_at(self._value.place)

    def parent(self) -> QAccessibleInterface:
        return self._value.drawing

    def child(self, _index: int) -> QAccessibleInterface | None:  # type: ignore[override]
        return None

    def childCount(self) -> int:  # noqa: N802
        return 0

    def indexOfChild(self, _child: QAccessibleInterface) -> int:  # noqa: N802
        return -1

    def rect(self) -> QRect:
        return self._value.drawing.rect()

    def window(self) -> QWindow:
        return self._value.drawing.window()


class SpokenDrawing(QAccessibleWidget):
    """An image with its values, and the widgets that stand on it where there are any.

    Args:
        widget: draws, and tells what.
        bare: whether the widgets in it are only what Qt draws it upon.
    """

    def __init__(self, widget: QWidget, *, bare: bool = False) -> None:
        super().__init__(widget, Role.Graphic)
        self._widget = widget
        self._bare = bare
        self._places: list[_Value] = []

    def values(self) -> list[str]:
        """What can be read off it now."""
        told: Sequence[str] = self._widget.spoken_values()  # type: ignore[attr-defined]
        return [each for each in told if each]

    def value_at(self, place: int) -> str:
        """One of them; nothing where there are fewer now."""
        values = self.values()
        return values[place] if place < len(values) else ""

    def childCount(self) -> int:  # noqa: N802
        return len(self.values()) + (0 if self._bare else super().childCount())

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]
        told = len(self.values())
        if index >= told and not self._bare:
            return super().child(index - told)
        if not 0 <= index < told:
            return None
        while len(self._places) <= index:
            self._places.append(_Value(self, len(self._places), self._widget))
        return QAccessible.queryAccessibleInterface(self._places[index])

    def indexOfChild(self, child: QAccessibleInterface) -> int:  # noqa: N802
        held = child.object()
        if isinstance(held, _Value):
            return held.place if held in self._places else -1
        place = -1 if self._bare else super().indexOfChild(child)
        return place if place < 0 else place + len(self.values())

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # noqa: N802
        return None if self._bare else super().childAt(x, y)

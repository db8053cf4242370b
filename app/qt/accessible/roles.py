"""Widgets in the role that they play, and buttons that do more than be pressed."""

from __future__ import annotations

from PySide6.QtGui import QAccessible, QAccessibleActionInterface
from PySide6.QtWidgets import QAbstractButton, QAccessibleWidget, QWidget

Role = QAccessible.Role


class SpokenWidget(QAccessibleWidget):
    """A widget in a role of its own; all else as Qt tells it."""

    def __init__(self, widget: QWidget, role: QAccessible.Role) -> None:
        super().__init__(widget, role)


class SpokenButton(QAccessibleWidget):
    """A button that holds one of several places, or folds something away.

    Args:
        button: that can be checked.
        role: ``RadioButton`` or ``PageTab``, or ``Button`` for one that folds something away.
    """

    def __init__(self, button: QAbstractButton, role: QAccessible.Role) -> None:
        super().__init__(button, role)
        self._button = button

    def text(self, kind: QAccessible.Text) -> str:
        """What was given as a name, else the words on the button."""
        said = super().text(kind)
        return said or self._button.text() if kind == QAccessible.Text.Name else said

    def state(self) -> QAccessible.State:
        """Whether it is on, in the words of its role."""
        state, on = super().state(), self._button.isChecked()
        role = self.role()
        if role == Role.PageTab:
            state.selectable, state.selected = True, on
        elif role == Role.Button:
            state.expandable, state.expanded, state.collapsed = True, on, not on
        else:
            state.checkable, state.checked = True, on
        return state

    def actionNames(self) -> list[str]:  # noqa: N802
        """It can be pressed, and take the keyboard."""
        return [QAccessibleActionInterface.pressAction(), *super().actionNames()]

    def doAction(self, name: str) -> None:  # noqa: N802
        """Press it, as a click does."""
        if name == QAccessibleActionInterface.pressAction():
            if self._button.isEnabled():
                self._button.click()
            return
        super().doAction(name)

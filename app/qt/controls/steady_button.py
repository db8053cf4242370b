"""A button that keeps the keyboard while it cannot be pressed."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton


class SteadyButton(QPushButton):
    """Has the keyboard again once it can be pressed again, and till then as well.

    What a button does may leave nothing to do: then Qt would put the keyboard somewhere
    else, and whoever goes on without a mouse would press something else.
    """

    def focusNextPrevChild(self, forward: bool) -> bool:  # noqa: N802
        """Stay where Qt asks for the next one since this one was disabled.

        The tab key is heard by what is around a disabled button, and goes on from here.
        """
        return not self.isEnabled() or super().focusNextPrevChild(forward)

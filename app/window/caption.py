"""Words over a corner of the drawings: what is moved while presenting."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QFont

from app.qt.literal import Label
from app.qt.painting.palette import typeface
from app.qt.themes import current_theme, follow_theme
from app.rider.inputs import Inputs, differing
from app.window.sheet import Sheet
from app.words.lengths import Lengths
from app.words.sentences import spoken

MOVED_MS: Final = 4000
"""How long a value stays after it was moved last."""
LARGE_PX: Final = 30
_MOST: Final = 2
"""More inputs than this were not moved but replaced, by opening a file for one."""


def moved(before: Inputs, after: Inputs, lengths: Lengths) -> str:
    """What was moved and to where, a line each; empty where nothing or too much was."""
    changed = differing(before, after)
    if len(changed) > _MOST:
        return ""
    values = ((field, after.value(field.name)) for field in changed)
    return "\n".join(f"{field.label} {spoken(field, value, lengths)}" for field, value in values)


class Caption(Label):
    """Stands over the lower right corner of the drawings, above the cards under them.

    It lets the mouse through.

    Args:
        over: the drawings with their cards.
    """

    def __init__(self, over: Sheet) -> None:
        super().__init__(parent=over)
        self._over = over
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self._patience = QTimer(self, singleShot=True)
        self._patience.timeout.connect(self.hide)
        over.installEventFilter(self)
        follow_theme(self._recolour)
        self.hide()

    def _recolour(self) -> None:
        theme = current_theme()
        self.setStyleSheet(
            f"background: {theme.paper}; color: {theme.ink};"
            f" border: 1px solid {theme.rule}; padding: 3px 9px;"
        )

    def show_value(self, text: str) -> None:
        """Show large what was moved; nothing changes with ""."""
        if not text:
            return
        self.setFont(typeface(LARGE_PX, QFont.Weight.Medium))
        self.setText(text)
        self._place()
        self.show()
        self.raise_()
        self._patience.start(MOVED_MS)

    def _place(self) -> None:
        self.adjustSize()
        gap = 12
        right, bottom = self._over.width() - gap, self._over.cards_top - gap
        self.move(right - self.width(), bottom - self.height())

    def eventFilter(self, _over: QObject, event: QEvent) -> bool:  # noqa: N802
        """Stay in the corner."""
        if event.type() == QEvent.Type.Resize:
            self._place()
        return False

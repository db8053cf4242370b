"""The card of a first start: who is riding?  It goes with any answer, and comes back when asked."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QPushButton, QWidget

from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import heading, note
from app.qt.drafts import put_away
from app.qt.literal import Label
from app.qt.painting.palette import ACCENT
from app.qt.sizes import px
from app.rider.setup import KNOWN_FIELDS
from app.window.guide import CARD_PLACE
from app.window.height_box import KnownRow
from app.words.lengths import Lengths

WIDTH: Final = 380
_STATURE: Final = next(field for field in KNOWN_FIELDS if field.name == "stature_mm")


class WhoCard(QFrame):
    """Lies over the drawings and asks; changes nothing by itself.

    Args:
        over: the widget over whose middle it lies.
    """

    known = Signal(str, object)
    """The rider's height, by the name of its input."""
    measure = Signal()
    """The rider is measured now."""
    answered = Signal()
    """The card goes; nothing is to be asked any more."""

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self.setObjectName(CARD_PLACE)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self.setAccessibleName(self.tr("Who is riding?"))
        self.height_row = KnownRow(_STATURE, stacks=False)
        self.height_row.known.connect(self._take)
        self.problem = Label()
        self.problem.setWordWrap(True)
        self.problem.setForegroundRole(ACCENT)
        self.problem.hide()
        self.measure_button = QPushButton(self.tr("Measure now"))
        self.measure_button.clicked.connect(self._measure)
        self.example_button = QPushButton(self.tr("Look at the example"))
        self.example_button.clicked.connect(self.put_away)
        in_column(
            heading(self.tr("Who is riding?")),
            note(
                self.tr(
                    "Type the rider’s height for a first estimate of the legs, measure them now, "
                    "or look around with the example rider."
                )
            ),
            self.height_row,
            self.problem,
            in_row(self.measure_button, self.example_button, 1, spacing=8),
            of=self,
            spacing=10,
            margins=(18, 14, 18, 16),
        )
        self.hide()
        over.installEventFilter(self)

    def ask(self, stature_mm: float | None, lengths: Lengths) -> None:
        """Lie over the drawings, the keyboard on the height."""
        self.height_row.show_lengths(lengths)
        self.height_row.show_value(stature_mm)
        self.problem.hide()
        self._place()
        self.show()
        self.raise_()
        self.height_row.number.setFocus(Qt.FocusReason.OtherFocusReason)

    def refuse(self, why: str) -> None:
        """Say why a height cannot be taken."""
        self.problem.setText(why)
        self.problem.show()
        self._place()

    def put_away(self) -> None:
        """Go, and take note that the question was answered."""
        put_away(self)
        self.answered.emit()

    def _take(self, name: str, value: object) -> None:
        if value is not None:
            self.known.emit(name, value)

    def _measure(self) -> None:
        self.put_away()
        self.measure.emit()

    def _place(self) -> None:
        over = self.parentWidget()
        if over is None:
            return
        width = min(px(WIDTH), over.width() - 16)
        self.setFixedWidth(width)
        self.adjustSize()
        self.move((over.width() - self.width()) // 2, max((over.height() - self.height()) // 3, 8))

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """Escape is an answer too."""
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
        else:
            super().keyPressEvent(event)

    def eventFilter(self, _over: QObject, event: QEvent) -> bool:  # noqa: N802
        """Stay over the middle."""
        if event.type() == QEvent.Type.Resize and self.isVisible():
            self._place()
        return False

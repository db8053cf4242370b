"""Two set-ups side by side in a window of their own, as a picture, and on paper."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Final

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import (
    QAccessibleInterface,
    QColor,
    QImage,
    QKeySequence,
    QPageLayout,
    QPainter,
    QPaintEvent,
    QShortcut,
)
from PySide6.QtWidgets import QPushButton, QWidget

from app.drawing.theme import LIGHT, THICK, Theme, printed
from app.features.compare.painting import Pair, paint_comparison
from app.features.paper.fit_sheet import RESOLUTION, page_layout, pdf_of
from app.features.paper.pictures import PictureMenu
from app.features.paper.snapshot import HEIGHT, WIDTH, painted_picture
from app.frame import Frame
from app.qt.controls.layout import in_column, in_row
from app.qt.literal import say_about
from app.qt.painting.easel import Easel, pen
from app.qt.painting.page_painting import PER_INCH, PER_MM, SIZES
from app.qt.placing import TITLE_BAR
from app.qt.themes import current_theme
from app.rider.sharing import without_rider
from app.words.language import tr

_EDGE: Final = 22.0
USUAL = QSize(1240, 800)
SMALLEST = QSize(1000, 660)


class CompareWindow(QWidget):
    """Shows a pair, and saves it as a picture or a page.

    Args:
        parent: the window that it belongs to.
        menu: asks for files, knows the size of pictures, and puts set-ups into them.
    """

    def __init__(self, parent: QWidget, menu: PictureMenu) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self._menu = menu
        self.setWindowTitle(self.tr("Side by side – Kneeline"))
        self.setMinimumSize(SMALLEST)
        free = parent.screen().availableSize() - QSize(0, TITLE_BAR)
        self.resize(USUAL.boundedTo(free))  # else the buttons lie under a low screen's edge
        self.drawing = _Drawing()
        self.buttons = [
            self._button(self.tr("Save picture…"), self.save_picture),
            *(
                self._button(self.tr("PDF, {}…").format(each), partial(self._save_page, each))
                for each in SIZES
            ),
            self._button(self.tr("Close"), self.hide),
        ]
        row = in_row(1, *self.buttons, margins=(12, 0, 12, 0))
        in_column((self.drawing, 1), row, of=self, margins=(0, 0, 0, 6))
        QShortcut(QKeySequence(Qt.Key.Key_Escape), self, self.hide)

    @staticmethod
    def _button(text: str, slot: object) -> QPushButton:
        button = QPushButton(text)
        button.setAutoDefault(False)
        button.clicked.connect(slot)
        return button

    # Saving

    def save_picture(self) -> None:
        """Ask for a file and write the picture there."""
        self._menu.save(self.tr("Save the comparison"), ".png", self.picture)

    def picture(self) -> bytes | None:
        """The picture as a PNG file, the set-up in hand inside."""
        pair, size = self.drawing.pair, self._menu.size_chosen
        if pair is None:
            return None
        shown = pair if self._menu.rider else Pair(_bare(pair.live), _bare(pair.other))
        image = comparison_image(shown, current_theme(), size, date.today())
        return self._menu.carrying(image, pair.live.setup)

    def _save_page(self, paper: str) -> None:
        self._menu.save(self.tr("Save the comparison"), ".pdf", partial(self._page, paper))

    def _page(self, paper: str) -> bytes | None:
        pair = self.drawing.pair
        return None if pair is None else comparison_pdf(pair, paper, date.today())


def _bare(shown: Frame) -> Frame:
    """A frame that tells no name and no measures of its rider."""
    return shown._replace(setup=without_rider(shown.setup))


class _Drawing(QWidget):
    """Paints a pair."""

    def __init__(self) -> None:
        super().__init__()
        self.pair: Pair | None = None
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def show_pair(self, live: Frame, other: Frame) -> None:
        """Show two stances."""
        self.pair = Pair(live, other)
        self.setAccessibleName(self.tr("Two set-ups side by side"))
        say_about(self, self.pair.said.sentence)
        self.update()

    def spoken_interface(self) -> QAccessibleInterface:
        """As assistive programs see it."""
        from app.qt.accessible.drawing import SpokenDrawing  # noqa: PLC0415

        return SpokenDrawing(self)

    def spoken_values(self) -> list[str]:
        """Each line of both tables."""
        if self.pair is None:
            return []
        said = self.pair.said
        return [", ".join(filter(None, row)) for row in (*said.inputs, *said.knees)]

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        """Paint both."""
        theme = current_theme()
        with QPainter(self) as painter:
            painter.fillRect(event.rect(), QColor(theme.paper))
            if self.pair is not None:
                area = QRectF(self.rect()).adjusted(18.0, 6.0, -18.0, -6.0)
                paint_comparison(Easel(painter, theme), area, self.pair)


def comparison_image(pair: Pair, theme: Theme, scale: float, on: date) -> QImage:
    """The picture of a comparison, ``scale`` device pixels to each logical one.

    Raises:
        MemoryError: there is not enough memory for a picture that large.
    """
    area = QRectF(_EDGE, 10.0, WIDTH - 2.0 * _EDGE, HEIGHT - 24.0)
    return painted_picture(theme, scale, lambda easel: paint_comparison(easel, area, pair, on))


def comparison_pdf(pair: Pair, paper: str, on: date) -> bytes:
    """A comparison as the bytes of a PDF file of one page, across.

    Args:
        pair: what to compare.
        paper: a key of :data:`app.qt.painting.page_painting.SIZES`.
        on: the day on the page.
    """
    layout = page_layout(paper)
    layout.setOrientation(QPageLayout.Orientation.Landscape)
    said = pair.said
    title = tr("Comparison: {live} and {other}", live=said.live, other=said.other)
    scale, edge = RESOLUTION / PER_INCH, 10.0 * PER_MM

    def paint(painter: QPainter, page: QRectF) -> None:
        painter.scale(scale, scale)
        easel = Easel(painter, printed(LIGHT))
        painter.setPen(pen(easel.theme.ink, THICK, ()))
        whole = QRectF(0.0, 0.0, page.width() / scale, page.height() / scale)
        frame = whole.adjusted(edge, edge, -edge, -edge)
        painter.drawRect(frame)
        paint_comparison(easel, frame.adjusted(14.0, 4.0, -14.0, -10.0), pair, on)

    return pdf_of(layout, title, paint)

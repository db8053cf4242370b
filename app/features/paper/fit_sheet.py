"""The fit sheet: one page to take along, on paper of any size, as a PDF or from a printer."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Final

from PySide6.QtCore import QIODevice, QLocale, QMarginsF, QRectF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter, QPdfWriter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QWidget

from app import __version__
from app.drawing.theme import LIGHT, printed
from app.features.paper.fit_page import FitSheet, Page
from app.features.paper.fit_sheet_text import NO_PARTS_UNDER, PartsUnder, fit_sheet_text
from app.frame import Frame
from app.qt.painting.easel import Easel
from app.qt.painting.page_painting import PER_INCH, SIZES, bytes_of
from app.stance.findings import USUAL_LIMITS, Limits
from app.words.language import tr

_NARROWEST, _LOWEST = 990.0, 1316.0
"""Page below which everything is made smaller (logical px): the width of A4, height of Letter."""
RESOLUTION: Final = 1200
"""Of what leaves as PDF (dots per inch)."""


def fit_sheet(
    frame: Frame,
    on: date,
    limits: Limits = USUAL_LIMITS,
    parts: PartsUnder = NO_PARTS_UNDER,
) -> FitSheet:
    """The fit sheet of what is shown, on a day."""
    text = fit_sheet_text(frame, on, parts)
    return FitSheet(frame, text, limits)


def fit_sheet_pdf(sheet: FitSheet, paper: str) -> bytes:
    """A fit sheet as the bytes of a PDF file of one page.

    Args:
        sheet: what to paint.
        paper: a key of :data:`SIZES`.
    """
    title = tr("Fit sheet: {title}", title=sheet.text.title)

    def paint(painter: QPainter, page: QRectF) -> None:
        paint_on_page(painter, sheet, page, RESOLUTION, paper)

    return pdf_of(page_layout(paper), title, paint)


def pdf_of(layout: QPageLayout, title: str, *pages: Callable[[QPainter, QRectF], object]) -> bytes:
    """Pages as the bytes of a PDF file.

    Args:
        layout: of every page.
        title: of the file.
        pages: each is given the painter and the whole page, both in dots of :data:`RESOLUTION`.
    """

    def write(device: QIODevice) -> None:
        writer = QPdfWriter(device)
        writer.setResolution(RESOLUTION)
        writer.setPageLayout(layout)
        writer.setTitle(title)
        writer.setCreator(f"Kneeline {__version__}")
        with QPainter(writer) as painter:
            for i, paint in enumerate(pages):
                if i:
                    writer.newPage()
                paint(painter, QRectF(writer.pageLayout().fullRectPixels(RESOLUTION)))

    return bytes_of(write)


def page_layout(paper: str) -> QPageLayout:
    """An upright page of a paper, painted from corner to corner."""
    return QPageLayout(
        QPageSize(SIZES[paper]), QPageLayout.Orientation.Portrait, QMarginsF(0.0, 0.0, 0.0, 0.0)
    )


def paint_on_page(
    painter: QPainter, sheet: FitSheet, page: QRectF, resolution: float, paper: str
) -> None:
    """Paint a fit sheet on a page of any size.

    Args:
        painter: on the page, its origin in the page's corner.
        sheet: what to paint.
        page: the whole page in dots.
        resolution: dots per inch.
        paper: what the page is called.
    """
    scale = resolution / PER_INCH
    scale *= min(1.0, page.width() / scale / _NARROWEST, page.height() / scale / _LOWEST)
    painter.scale(scale, scale)
    area = QRectF(0.0, 0.0, page.width() / scale, page.height() / scale)
    whole = scale == resolution / PER_INCH
    Page(Easel(painter, printed(LIGHT)), sheet, area, paper, whole_scale=whole).paint()


def asked_and_printed(parent: QWidget, sheet: FitSheet, name: str) -> str:
    """Let the user choose a printer and print there; says where to, "" where nothing was.

    Args:
        parent: the window concerned.
        sheet: what to print.
        name: in the queue; a printer that writes files makes a file name of it.

    Raises:
        OSError: the printer takes no page.
    """
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(name)
    printer.setPageLayout(page_layout(usual_paper(QLocale.system())))
    dialog = QPrintDialog(printer, parent)
    if dialog.exec() != QPrintDialog.DialogCode.Accepted:
        return ""
    print_fit_sheet(sheet, printer)
    if printer.outputFileName():
        return tr("Printed to the file {name}", name=Path(printer.outputFileName()).name)
    return tr("Sent to the printer {name}", name=printer.printerName())


def usual_paper(locale: QLocale) -> str:
    """The paper that printers hold where people write in some way."""
    american = locale.measurementSystem() == QLocale.MeasurementSystem.ImperialUSSystem
    return "Letter" if american else "A4"


def print_fit_sheet(sheet: FitSheet, printer: QPrinter) -> None:
    """Print a fit sheet on the printer's paper, whatever its size, upright.

    Raises:
        OSError: the printer takes no page.
    """
    printer.setFullPage(True)
    printer.setPageMargins(QMarginsF(0.0, 0.0, 0.0, 0.0))
    printer.setPageOrientation(QPageLayout.Orientation.Portrait)
    painter = QPainter()
    if not painter.begin(printer):
        raise OSError(tr("the printer takes no page"))
    with painter:
        page = QRectF(printer.pageLayout().fullRectPixels(printer.resolution()))
        name = printer.pageLayout().pageSize().name().partition(" ")[0]
        paint_on_page(painter, sheet, page, float(printer.resolution()), name)

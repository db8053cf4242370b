"""The fit sheet on a printer.  Imported only when something is to be printed."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QLocale, QMarginsF, QRectF
from PySide6.QtGui import QPageLayout, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QWidget

from app.features.paper.fit_page import FitSheet
from app.features.paper.fit_sheet import page_layout, paint_on_page
from app.words.language import tr


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

"""Fit sheet and handout of a set-up, made without a window."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import QCoreApplication, QLocale
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication

from app.features.paper.fit_sheet import fit_sheet, fit_sheet_pdf, usual_paper
from app.features.paper.fit_sheet_text import parts_under
from app.features.paper.handout import handout_of, handout_pdf
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting.lettering import load_fonts
from app.rider.setup import Setup


def sheet_pdf(setup: Setup, on: date | None = None) -> bytes:
    """The fit sheet as the bytes of a PDF file, on the paper that is usual here.

    Starts Qt where it is not running.
    """
    app = ready_to_paint()
    sheet = fit_sheet(frame(setup), on or date.today(), parts=parts_under(setup))
    data = fit_sheet_pdf(sheet, usual_paper(QLocale.system()))
    del app
    return data


def handout_alone(setup: Setup, on: date | None = None) -> bytes:
    """The handout, with neither name nor notes, in the same way."""
    app = ready_to_paint()
    handout = handout_of(frame(setup), on or date.today())
    data = handout_pdf(handout, usual_paper(QLocale.system()))
    del app
    return data


def ready_to_paint() -> QCoreApplication:
    """Qt, running, with the typeface loaded; to be kept until all is painted."""
    app = QGuiApplication.instance() or QApplication(["kneeline"])
    load_fonts(ASSETS / "fonts")
    return app

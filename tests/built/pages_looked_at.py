"""Opens each page of the window and writes down what it shows; run by either Python.

Words: the language, the set-up's file, the folder that gets a picture of each page.
Prints the texts of each as JSON.
"""

from __future__ import annotations

import json
import sys
import time
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QLineEdit, QTableView, QWidget

from app.files.parts_file import parts_opened
from app.files.resources import SHARED
from app.files.storage import opened
from app.qt.background import Background
from app.qt.motion import set_reduced
from app.session import Session
from app.window.lifecycle import speak
from app.window.window import Window, prepared_application

QUIET_S, LONGEST_S = 0.4, 120.0


def shown_by(page: QWidget) -> list[str]:
    """The words and figures on a page."""
    said = [
        each.text()
        for kind in (QLabel, QAbstractButton, QLineEdit)
        for each in page.findChildren(kind)
    ]
    for table in page.findChildren(QTableView):
        model = table.model()
        places = ((i, j) for i in range(model.rowCount()) for j in range(model.columnCount()))
        said += [str(model.index(i, j).data()) for i, j in places]
    return said


def at_work(window: Window) -> bool:
    """Whether something is still to come."""
    return any(each.busy for each in window.findChildren(Background)) or any(
        each.isActive() for each in window.findChildren(QTimer)
    )


def wait_for(window: Window) -> None:
    """Let the window do all that it has begun."""
    begun = quiet_since = time.monotonic()
    while time.monotonic() - quiet_since < QUIET_S:
        QApplication.processEvents()
        if at_work(window):
            quiet_since = time.monotonic()
        if time.monotonic() - begun > LONGEST_S:
            sys.exit("a page does not come to rest")
        time.sleep(0.01)


def main(language: str, file: str, folder: str) -> None:
    app = prepared_application()
    speak(app, language)
    set_reduced(True)  # or what is played never comes to rest
    wedges = parts_opened(SHARED / "parts-round-wedges.json").parts
    window = Window(Session(replace(opened(Path(file)).setup, parts=wedges)))
    window.show()
    told: dict[str, list[str]] = {}
    for i, tab in enumerate(window.tray.tabs):
        tab.click()
        wait_for(window)
        page = window.tray.current
        assert page is not None
        told[tab.text()] = shown_by(page)
        window.grab().save(f"{folder}/{i}.png")
    window.close()
    sys.stdout.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    print(json.dumps(told))


main(*sys.argv[1:])

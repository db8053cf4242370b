"""What waits until the window has been seen."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.files.resources import ROOT
from app.window.lifecycle import once_painted

STARTED = """
import sys
from app.__main__ import main
from app.window import lifecycle
from app.window.sheet import Sheet
from PySide6.QtCore import QCoreApplication
painted, settled = Sheet.paintEvent, lifecycle.WindowThreadGC.__init__
def first(sheet, event):
    painted(sheet, event)
    print("painted", "numpy" in sys.modules, flush=True)
def then(tidier, parent):
    settled(tidier, parent)
    print("settled", "numpy" in sys.modules, flush=True)
    QCoreApplication.quit()
Sheet.paintEvent, lifecycle.WindowThreadGC.__init__ = first, then
sys.exit(main([]))
"""


class Painted(QWidget):
    """Writes down when it was painted."""

    def __init__(self, order: list[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.order = order

    def paintEvent(self, _: QPaintEvent) -> None:  # noqa: N802
        self.order.append("painted")


def test_it_is_done_once_after_all_in_the_window_was_painted(qtbot: QtBot) -> None:
    order: list[str] = []
    outer = Painted(order)
    column = QVBoxLayout(outer)
    column.addWidget(Painted(order))
    outer.resize(200, 100)
    qtbot.addWidget(outer)
    once_painted(outer, lambda: order.append("done"))
    qtbot.wait(20)
    assert order == []
    outer.show()
    qtbot.waitUntil(lambda: "done" in order)
    assert order == ["painted", "painted", "done"]
    outer.repaint()
    qtbot.wait(20)
    assert order.count("done") == 1


def test_the_program_paints_its_first_stance_before_it_loads_numpy(tmp_path: Path) -> None:
    places = {f"XDG_{kind}_HOME": str(tmp_path) for kind in ("CONFIG", "DATA", "STATE")}
    command = [sys.executable, "-W", "error", "-c", STARTED]
    started = subprocess.run(
        command, check=False, cwd=ROOT, capture_output=True, text=True, timeout=60,
        env={**os.environ, **places, "QT_QPA_PLATFORM": "offscreen"},
    )  # fmt: skip
    lines = started.stdout.splitlines()
    assert (started.returncode, lines[0], lines[-1]) == (0, "painted False", "settled True")

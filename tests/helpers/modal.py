"""Answers the questions of a program that waits for an answer."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox


@contextmanager
def answered(*buttons: str) -> Iterator[list[str]]:
    """Clicks these buttons in the questions that come up, in turn; yields what they said.

    Every question must come, and no other; a button "Esc" is the key.
    """
    said: list[str] = []
    left = list(buttons)
    timer = QTimer()
    timer.setInterval(5)

    def look() -> None:
        box = QApplication.activeModalWidget()
        if isinstance(box, QMessageBox) and box.isVisible():
            said.append(f"{box.text()} {box.informativeText()}")
            _press(box, left.pop(0) if left else "Esc")

    timer.timeout.connect(look)
    timer.start()
    yield said
    timer.stop()
    assert not left, f"nobody asked for {left}"
    assert len(said) == len(buttons), said


def _press(box: QMessageBox, words: str) -> None:
    if words == "Esc":
        QTest.keyClick(box, Qt.Key.Key_Escape)
        return
    named = {button.text().replace("&", ""): button for button in box.buttons()}
    QTest.mouseClick(named[words], Qt.MouseButton.LeftButton)

"""Nothing is cut, nothing stands on another, and all that is pressed is large enough.

The narrowest window, every page, dialog and menu, in the language with the longest words and
with large letters; tests/look.py looks at more.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication
from survey import survey

from app.files.settings import create_settings
from app.qt.motion import set_reduced
from app.qt.sizes import set_text_percent
from app.qt.themes import current_theme, set_theme
from app.window.lifecycle import speak
from app.window.program import Program
from app.window.window import SMALLEST, prepared_application


@pytest.fixture(autouse=True)
def _as_usual() -> Iterator[None]:
    yield
    set_reduced(False)
    speak(prepared_application(), "en")
    set_text_percent(100)
    set_theme(current_theme())


@pytest.mark.qt_log_ignore("This plugin does not support")
@pytest.mark.parametrize(("language", "percent"), [("de", 100), ("en", 200)])
def test_nothing_is_cut_nor_on_another_nor_too_small(
    program: Program, language: str, percent: int
) -> None:
    create_settings().change(welcomed=True)
    program.preferences._change(
        {"language": language, "text_percent": percent, "motion": "reduced"}
    )
    program.window.resize(SMALLEST)
    QApplication.processEvents()
    found = survey(program, QApplication.processEvents)
    counted: list[str] = [
        f"{name}: {fault.kind}: {fault.what}: {fault.details}"
        for name, faults in found.items()
        for fault in faults
    ]
    assert not counted, "\n".join(counted)

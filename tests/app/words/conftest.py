"""A window in which every text that goes through the catalogue is known by its brackets."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication
from shown_texts import Brackets

from app.rider.setup import Setup, edited
from app.session import Session
from app.window.lifecycle import Translator
from app.window.window import Window, prepared_application
from app.words import language

BENT = {"front_angle_deg": 20.0, "rear_angle_deg": 5.0, "front_lift_deg": 2.5}


@pytest.fixture
def bracketed(monkeypatch: pytest.MonkeyPatch, qapp: QApplication) -> Iterator[None]:
    """Every text that goes through the catalogue comes back in brackets."""
    translator = Translator(prepared_application())
    monkeypatch.setattr(language._spoken, "catalogue", Brackets())
    qapp.installTranslator(translator)
    yield
    qapp.removeTranslator(translator)


@pytest.fixture
def window(bracketed: None) -> Iterator[Window]:
    window = Window(Session(edited(Setup(), **BENT)))
    yield window
    window.close()
    window.deleteLater()
    QApplication.processEvents()

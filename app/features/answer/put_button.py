"""Buttons that put mounts on, or say why they cannot."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton

from app.features.answer.words import mounts_words, why_not
from app.rider.setup import Setup
from app.stance.needs import Mounts


def update_apply_button(button: QPushButton, mounts: Mounts, setup: Setup) -> None:
    """Let a button put mounts on, or say why it cannot."""
    reason = why_not(mounts, setup)
    button.setEnabled(not reason)
    words = reason or mounts_words(mounts)
    button.setToolTip(words[:1].upper() + words[1:])
    button.setAccessibleDescription(words)

"""What the keys do while something is played."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.features.player.player import Player
from app.qt.controls.steps import key_step
from app.words.scale import COARSE

FAR: Final = 10
"""How many frames an arrow goes with Ctrl."""


def takes_key(player: Player, event: QKeyEvent) -> bool:
    """Let the player do what a key asks for, if it asks for anything of it.

    Space plays and stays, an arrow to the side goes a frame, Home and End go to the ends,
    and Escape brings back the set-up in hand.
    """
    key = Qt.Key(event.key())
    if key in {Qt.Key.Key_Left, Qt.Key.Key_Right}:
        step = key_step(event, sideways=True)
        if step is None:
            return False
        player.step(step[0] * (FAR if step[1] == COARSE else 1))
    elif event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
        return False
    elif key == Qt.Key.Key_Space and not event.isAutoRepeat():
        player.toggle()
    elif key == Qt.Key.Key_Home:
        player.seek(0.0)
    elif key == Qt.Key.Key_End:
        player.seek(1.0)
    elif key == Qt.Key.Key_Escape and player.on:
        player.stop()
    else:
        return False
    return True

"""What assistive programs are told of the drawings."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from app.frame import Frame
from app.qt.accessible.factory import tell_changed
from app.qt.controls.page_words import announce
from app.qt.literal import say_about
from app.words.sentences import as_sentence


class Announcer:
    """Says when a knee changes its state, and describes what is drawn.

    Args:
        drawings: for which it speaks.
    """

    def __init__(self, drawings: QWidget) -> None:
        self._drawings = drawings
        self._states: tuple[str, ...] = ()

    def follow(self, shown: Frame, *, dragging: bool) -> None:
        """Tell of another frame; the description waits for the end of a drag."""
        states = tuple(leg.state for leg in shown.findings.legs.values())
        if self._states and states != self._states:
            legs = shown.findings.legs.values()
            announce(self._drawings, " ".join(as_sentence(leg.headline) for leg in legs))
        self._states = states
        if not dragging:
            texts = [scene.text for scene in shown.scenes.values()]
            texts += [leg.sentence for leg in shown.findings.legs.values()]
            say_about(self._drawings, " ".join(texts))
            tell_changed(self._drawings)

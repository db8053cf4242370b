"""A plot of both legs along what is played, which the mouse plays along."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtGui import QFontMetrics, QKeyEvent

from app.features.bend.ground import Ground
from app.features.bend.plot import BendPlot
from app.qt.painting.palette import SMALL_PX, typeface
from app.qt.sizes import px
from app.rider.movement import POSTURE_FIELDS

LEAST_WIDTH, LEAST_HEIGHT = 150, 170
"""Of a plot (px)."""


class PlayedPlot(BendPlot):
    """Two curves over time, or over the value that is swept; asks for a place among them."""

    def __init__(self) -> None:
        super().__init__(POSTURE_FIELDS[0], "")
        self.setMinimumSize(px(LEAST_WIDTH), px(LEAST_HEIGHT))

    def show_axis(self, label: str, figure_of: Callable[[float], str]) -> None:
        """Have something else run along it."""
        self._figure_of = figure_of
        self.getAxis("bottom").setLabel(label)
        # What is written there is written anew with the ground.
        self._ground = None

    def show_ground(self, ground: Ground, across: tuple[float, float]) -> None:
        """Give the words beside it just the room that they need."""
        metrics = QFontMetrics(typeface(SMALL_PX))
        words = (metrics.horizontalAdvance(note.word) for note in ground.notes)
        self.getAxis("right").setWidth(12 + max(words))
        super().show_ground(ground, across)

    def _on_grid(self, value: float, step: float) -> float:  # noqa: ARG002
        """A moment lies on no grid."""
        return value

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        """The keys are the player's."""
        event.ignore()

"""The one mutable object: the set-up in hand, its history, and who is told."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from app.inputs import FIELD, Inputs
from app.setup import Setup, edited

LINKS = ("apart", "together", "mirrored")
"""How the two binding angles move: each by itself, both the same way, or the
rear against the front."""

_OTHER = {"front_angle_deg": "rear_angle_deg", "rear_angle_deg": "front_angle_deg"}


class Session(QObject):
    """Holds the set-up, takes edits, remembers them and announces each once.

    A drag is one step of the history: between :meth:`begin_drag` and
    :meth:`end_drag` all edits count as one, and a drag that ends where it began
    leaves none.
    """

    changed = Signal()
    """The set-up differs from what was last announced."""
    drag_ended = Signal()
    """A drag is over: what is too slow for a drag can be done now."""

    def __init__(self, setup: Setup | None = None) -> None:
        super().__init__()
        self._steps: list[tuple[str, Setup]] = [("Start", setup or Setup())]
        self._at = 0
        self._drag_from: int | None = None
        self.link = "apart"

    @property
    def setup(self) -> Setup:
        """The set-up in hand."""
        return self._steps[self._at][1]

    @property
    def inputs(self) -> Inputs:
        """The inputs in hand."""
        return self.setup.inputs

    @property
    def dragging(self) -> bool:
        """Whether a drag is going on."""
        return self._drag_from is not None

    def edit(self, **changes: float | str) -> None:
        """Change inputs by name; a linked binding angle takes the other along.

        Raises:
            InputError: a name is unknown or a value cannot be taken.
        """
        changes = self._with_link(changes)
        self.take(_named(changes), edited(self.setup, **changes))

    def take(self, what: str, setup: Setup) -> None:
        """Make a whole set-up the one in hand, as one step called ``what``."""
        if setup == self.setup:
            return
        if self._drag_from is not None and self._at > self._drag_from:
            self._steps[self._at] = (what, setup)
        else:
            del self._steps[self._at + 1 :]
            self._steps.append((what, setup))
            self._at += 1
        self.changed.emit()

    def begin_drag(self) -> None:
        """Take all edits until :meth:`end_drag` as one step."""
        if self._drag_from is None:
            self._drag_from = self._at

    def end_drag(self) -> None:
        """Close the step that :meth:`begin_drag` opened."""
        if self._drag_from is None:
            return
        start, self._drag_from = self._drag_from, None
        before, after = self._steps[start][1], self.setup
        if self._at > start and before.inputs == after.inputs:
            del self._steps[start + 1 :]
            self._at = start
            if before != after:  # a length that came back is not a measurement
                self.changed.emit()
        self.drag_ended.emit()

    @property
    def undo_name(self) -> str:
        """What :meth:`undo` would take back; empty when there is nothing."""
        return self._steps[self._at][0] if self._at else ""

    @property
    def redo_name(self) -> str:
        """What :meth:`redo` would do again; empty when there is nothing."""
        return self._steps[self._at + 1][0] if self._at + 1 < len(self._steps) else ""

    def undo(self) -> None:
        """Take the last step back."""
        self._go_to(self._at - 1)

    def redo(self) -> None:
        """Do the step taken back last again."""
        self._go_to(self._at + 1)

    def _go_to(self, step: int) -> None:
        if self.dragging or not 0 <= step < len(self._steps):
            return
        self._at = step
        self.changed.emit()

    def _with_link(self, changes: dict[str, float | str]) -> dict[str, float | str]:
        """The changes, with the other binding angle moved along where linked."""
        moved = [name for name in _OTHER if name in changes]
        if self.link == "apart" or len(moved) != 1:
            return changes
        name, other = moved[0], _OTHER[moved[0]]
        way = 1.0 if self.link == "together" else -1.0
        # Counted from the start of a drag, so that a stop at a limit is not remembered.
        start = self._steps[self._at if self._drag_from is None else self._drag_from][1].inputs
        by = float(changes[name]) - float(getattr(start, name))
        field = FIELD[other]
        target = float(getattr(start, other)) + way * by
        return {**changes, other: min(max(target, field.low), field.high)}


def _named(changes: dict[str, float | str]) -> str:
    """What a step is called, for the history: the label of what was moved."""
    name = next(iter(changes))
    return FIELD[name].label if name in FIELD else name.replace("_", " ").capitalize()

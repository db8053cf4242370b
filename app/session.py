"""The one mutable object: the set-up in hand, its history, and who is told."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from app.rider.inputs import FIELD, Inputs
from app.rider.instead import Instead
from app.rider.setup import DEMO, Setup, edited
from app.words.language import msgid, tr
from app.words.lengths import IN_MM
from app.words.sentences import spoken

_TEXTS = {"lead_foot": msgid("Lead foot: {value}")}
"""What a step is called in which an input became another word."""
_WORDS = {"left": msgid("left"), "right": msgid("right")}
_BENDS = ("bend_from_deg", "bend_to_deg")
_LEAST_RANGE_DEG = 1.0
"""How far the two ends of the riding bend stay apart where one is moved past the other."""
_OTHER = {"front_angle_deg": "rear_angle_deg", "rear_angle_deg": "front_angle_deg"}


class Step(NamedTuple):
    """One step of the history.

    Attributes:
        name: what was done, for people to read.
        setup: what it led to.
        source: number of the document that the set-up belongs to.  Opening
            another one is a step too, so that it can be taken back.
        visit: of the field in which it was typed; none for other steps.
        start: what the set-up was started from, where ticks and double-clicks lead.
    """

    name: str
    setup: Setup
    source: int = 0
    visit: object = None
    start: Setup = DEMO


class Session(QObject):
    """Holds the set-up, takes edits, remembers them and announces each once.

    A drag is one step of the history: between :meth:`begin_drag` and
    :meth:`end_drag` all edits count as one, and a drag that ends where it began
    leaves none.
    """

    changed = Signal()
    """The set-up differs from what was last announced."""
    put_on = Signal(str, object)
    """Lifts and cants were put on: what is told of it, and the set-up before, to compare with."""
    why_asked = Signal(object)
    """Somebody asks for the reasons of a number: an :class:`~app.stance.topics.Asked`."""
    term_asked = Signal(str)
    """Somebody asks what a word means: a key of :mod:`app.words.terms`."""
    went = Signal(object)
    """Another step of the history is in hand now; the set-up before."""
    wrote = Signal(object)
    """A file beside the set-up's own was written, or several into a folder: its path."""
    drag_ended = Signal()
    """A drag is over: what is too slow for a drag can be done now."""
    instead_changed = Signal()
    """Something else is to be shown in place of the set-up in hand, or that again."""

    def __init__(self, setup: Setup | None = None) -> None:
        super().__init__()
        self._steps = [Step(tr("Start", "of the history"), setup or Setup())]
        self._at = 0
        self._drag_from: int | None = None
        self._instead: Instead | None = None
        # What was taken back comes back with a drag that leads nowhere.
        self._before_drag: tuple[Step, ...] = ()
        # How the two binding angles move: "apart" each by itself, "together" both the same
        # way, "mirrored" one against the other.
        self.link = "apart"
        # Names lengths, in the history too.
        self.lengths = IN_MM

    @property
    def setup(self) -> Setup:
        """The set-up in hand."""
        return self._steps[self._at].setup

    @property
    def start(self) -> Setup:
        """What the set-up in hand was started from: the demo rider or another starting point."""
        return self._steps[self._at].start

    @property
    def source(self) -> int:
        """Number of the document that the set-up in hand belongs to; 0 for the first."""
        return self._steps[self._at].source

    @property
    def steps(self) -> tuple[Step, ...]:
        """The whole history, oldest first, with what was taken back."""
        return tuple(self._steps)

    @property
    def at(self) -> int:
        """Where in the history the set-up in hand stands."""
        return self._at

    @property
    def inputs(self) -> Inputs:
        """The inputs in hand."""
        return self.setup.inputs

    @property
    def dragging(self) -> bool:
        """Whether a drag is going on."""
        return self._drag_from is not None

    @property
    def instead(self) -> Instead | None:
        """What is shown in place of the set-up in hand; None for that itself."""
        return self._instead

    def show_instead(self, instead: Instead | None) -> None:
        """Show something else in place of the set-up in hand, or that again with None.

        Neither the set-up nor the history knows of it.
        """
        if instead != self._instead:
            self._instead = instead
            self.instead_changed.emit()

    def edit(self, **changes: float | str) -> None:
        """Change inputs by name; a linked binding angle takes the other along.

        Raises:
            InputError: a name is unknown or a value cannot be taken.
        """
        changes = self._with_bends(self._with_link(changes))
        setup = edited(self.setup, **changes)
        self.take(self._named(changes), setup)

    def take(
        self, what: str, setup: Setup, visit: object = None, start: Setup | None = None
    ) -> None:
        """Make a whole set-up the one in hand, as one step called ``what``.

        What is typed in one visit of a field is one step however many times it is
        taken, and none where it ends as it began.  ``visit`` is that visit's own
        object; None for what stands by itself.  ``start`` is what the set-up was
        started from, if by this step.
        """
        if setup == self.setup:
            return
        step = Step(what, setup, self.source, visit, start or self.start)
        goes_on = visit is not None and self._steps[self._at].visit is visit
        if goes_on and self._at and setup == self._steps[self._at - 1].setup:
            self._at -= 1
            del self._steps[self._at + 1 :]
        elif goes_on or (self._drag_from is not None and self._at > self._drag_from):
            self._steps[self._at :] = [step]
        else:
            self._append(step)
        self.changed.emit()

    def rename(self, name: str, visit: object = None) -> None:
        """Call the set-up something else."""
        self.take(tr("Name: {name}", name=name.strip()), replace(self.setup, name=name), visit)

    def write_notes(self, notes: str, visit: object = None) -> None:
        """Write something else about the set-up."""
        self.take(tr("Notes"), replace(self.setup, notes=notes), visit)

    def open(self, what: str, setup: Setup, source: int, start: Setup = DEMO) -> None:
        """Make the set-up of another document the one in hand, as one step called ``what``.

        ``start`` is what that set-up was started from.
        """
        self.end_drag()
        self._append(Step(what, setup, source, start=start))
        self.changed.emit()

    def _append(self, step: Step) -> None:
        del self._steps[self._at + 1 :]
        self._steps.append(step)
        self._at += 1

    def begin_drag(self) -> None:
        """Take all edits until :meth:`end_drag` as one step."""
        if self._drag_from is None:
            self._drag_from, self._before_drag = self._at, tuple(self._steps)

    def end_drag(self) -> None:
        """Close the step that :meth:`begin_drag` opened."""
        if self._drag_from is None:
            return
        start, self._drag_from = self._drag_from, None
        before, after = self._steps[start].setup, self.setup
        # A length that came back where it was has not been measured by that.
        as_before = replace(
            after,
            measured=before.measured,
            spreads=before.spreads,
            examples=before.examples,
            apart=before.apart,
        )
        if self._at > start and as_before == before:
            self._steps[:] = self._before_drag
            self._at = start
            if before != after:
                self.changed.emit()
        self.drag_ended.emit()

    @property
    def undo_name(self) -> str:
        """What :meth:`undo` would take back; empty when there is nothing."""
        return self._steps[self._at].name if self._at else ""

    @property
    def redo_name(self) -> str:
        """What :meth:`redo` would do again; empty when there is nothing."""
        return self._steps[self._at + 1].name if self._at + 1 < len(self._steps) else ""

    def undo(self) -> None:
        """Take the last step back."""
        self.go_to(self._at - 1)

    def redo(self) -> None:
        """Do the step taken back last again."""
        self.go_to(self._at + 1)

    def go_to(self, step: int) -> None:
        """Go back or forth to a step by its place in :attr:`steps`; nowhere during a drag."""
        if self.dragging or not 0 <= step < len(self._steps):
            return
        before, self._at = self.setup, step
        self.changed.emit()
        self.went.emit(before)

    def _with_link(self, changes: dict[str, float | str]) -> dict[str, float | str]:
        """The changes, with the other binding angle moved along where linked."""
        moved = [name for name in _OTHER if name in changes]
        if self.link == "apart" or len(moved) != 1:
            return changes
        name, other = moved[0], _OTHER[moved[0]]
        way = 1.0 if self.link == "together" else -1.0
        # Counted from the start of a drag, so that a stop at a limit is not remembered.
        start = self._steps[self._at if self._drag_from is None else self._drag_from].setup.inputs
        by = float(changes[name]) - float(getattr(start, name))
        field = FIELD[other]
        target = float(getattr(start, other)) + way * by
        return {**changes, other: min(max(target, field.low), field.high)}

    def _with_bends(self, changes: dict[str, float | str]) -> dict[str, float | str]:
        """The changes, with the other end of the riding bend pushed along where it must."""
        moved = [name for name in _BENDS if name in changes]
        if len(moved) != 1:
            return changes
        tall, deep = (float(changes.get(name, self.inputs.value(name))) for name in _BENDS)
        if tall + _LEAST_RANGE_DEG <= deep:
            return changes
        if moved[0] == "bend_from_deg":
            return {**changes, "bend_to_deg": tall + _LEAST_RANGE_DEG}
        return {**changes, "bend_from_deg": deep - _LEAST_RANGE_DEG}

    def _named(self, changes: dict[str, float | str]) -> str:
        """What a step is called, for the history: what was moved, and to where."""
        name, value = next(iter(changes.items()))
        if name in FIELD and not isinstance(value, str):
            return f"{FIELD[name].label}: {spoken(FIELD[name], float(value), self.lengths)}"
        return tr(_TEXTS[name], value=tr(_WORDS[str(value)]))

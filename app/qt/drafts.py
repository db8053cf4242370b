"""What is typed and not entered yet: every field tells it, and its window knows it at one desk.

A field in which something can be typed and left standing is an :class:`Editor`.  It tells
the :class:`Desk` of its window by what it differs from what is in force, and why it was
refused.  Before the window saves, prints, goes back or closes, it has the desk settle: each
editor takes what stands in it, or says why not and keeps it to be mended.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final, Protocol, runtime_checkable

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QWidget
from shiboken6 import isValid

from app.files.drafts import Draft
from app.words.language import tr

_LONGEST_SAID: Final = 40
"""Letters of a typed text that are said again."""

if TYPE_CHECKING:
    _Widget = QWidget
else:
    _Widget = object  # Qt takes one of its own classes only


class Drafted(_Widget):
    """What a text may stand in that is typed and not entered.

    Attributes:
        draft: what is typed and not entered; None where nothing is.
        why: why that cannot be taken; "" where nobody has tried.
    """

    draft: str | None = None
    why = ""


class Editor(Drafted):
    """What every field has in common in which something can be typed and left standing.

    Its object's name tells it from the others on its page.
    """

    def finish(self) -> None:
        """Take what is typed, or say why not and keep it; nothing where nothing is typed."""
        raise NotImplementedError

    def takes(self, draft: Draft) -> bool:  # noqa: ARG002
        """Whether a text that was typed here before can stand here again."""
        return True

    def resume(self, draft: Draft) -> None:
        """Let a text stand here that was typed and not entered before."""
        raise NotImplementedError

    def forget(self) -> None:
        """Let what is typed go, and show what is in force."""
        raise NotImplementedError

    def take_keyboard(self) -> None:
        """Have the keyboard where the text is typed."""
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def keep(self, text: str | None, why: str = "", *, label: str = "", detail: str = "") -> None:
        """Know, and tell the desk, what is typed and not entered; None for nothing."""
        if (text, why) == (self.draft, self.why) and not detail:
            return
        self.draft, self.why = text, why
        desk = desk_of(self)
        if desk is not None:
            said = label or self.accessibleName()
            draft = None if text is None else Draft(place_of(self), said, text, why, detail)
            desk.note(self, draft)


@runtime_checkable
class Reveals(Protocol):
    """What can bring into sight what stands in it."""

    def reveal(self, widget: QWidget) -> None:
        """Bring a widget in it into sight."""


class Desk(QObject):
    """Knows what is typed and not entered in a window and its dialogs.

    Args:
        window: whose fields these are.
    """

    changed = Signal()
    """Something else is typed and not entered now."""
    left_out = Signal(tuple)
    """What could not be entered before something was done, and stays where it is."""
    dropped = Signal(tuple)
    """What was typed and not entered, and has gone with its field."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._open: dict[Editor, Draft] = {}

    @property
    def drafts(self) -> tuple[Draft, ...]:
        """What is typed and not entered."""
        return tuple(self._open.values())

    def note(self, editor: Editor, draft: Draft | None) -> None:
        """Know that this is typed and not entered in an editor; None for nothing."""
        # A window that goes takes the keyboard from its fields once more.
        if draft == self._open.get(editor) or not isValid(self._window):
            return
        if draft is None:
            del self._open[editor]
        else:
            self._open[editor] = draft
        self.changed.emit()

    def settle(self, within: QWidget | None = None) -> tuple[Draft, ...]:
        """Have all that is typed entered, or only what is typed within a widget.

        Returns:
            What was refused, or has to wait, and stays where it is.
        """
        for editor in self._editors(within):
            editor.finish()
        left = tuple(self._open[editor] for editor in self._editors(within))
        if left:
            self.left_out.emit(left)
        return left

    def forget(self) -> None:
        """Let all that is typed and not entered go."""
        for editor in self._editors():
            editor.forget()

    def drop(self, within: QWidget) -> None:
        """Let all that is typed within a widget go, which cannot be reached any more."""
        editors = self._editors(within)
        dropped = tuple(self._open[editor] for editor in editors)
        for editor in editors:
            editor.forget()
        if dropped:
            self.dropped.emit(dropped)

    def resume(self, drafts: Sequence[Draft]) -> tuple[Draft, ...]:
        """Let texts stand in their fields again; those of which there is no field now."""
        lost = []
        for draft in drafts:
            editor = next((e for e in editors_in(self._window) if place_of(e) == draft.place), None)
            if editor is None or not editor.takes(draft):
                lost.append(draft)
            else:
                editor.resume(draft)
        return tuple(lost)

    def finish(self, place: str) -> None:
        """Have what is typed in a place entered, or refused again."""
        for editor in self._editors():
            if self._open[editor].place == place:
                editor.finish()

    def go_to(self, draft: Draft) -> None:
        """Put the keyboard where this is typed, and bring it into sight.

        What nothing brings into sight could neither be mended nor entered: it is let go.
        """
        for editor in self._editors():
            if self._open[editor].place == draft.place:
                for around in reversed(list(_around(editor))):
                    if isinstance(around, Reveals):
                        around.reveal(editor)
                if editor.isVisible():
                    editor.take_keyboard()
                else:
                    self.drop(editor)
                return

    def _editors(self, within: QWidget | None = None) -> list[Editor]:
        """Those in which something is typed; an editor that is gone takes its text along."""
        gone = [editor for editor in self._open if not isValid(editor)]
        for editor in gone:
            del self._open[editor]
        return [each for each in self._open if within in {None, each} or _stands_in(each, within)]


def desk_of(widget: QWidget) -> Desk | None:
    """The desk of the window that a widget stands in; None where it stands alone."""
    top = [widget, *_around(widget)][-1]
    found = top.findChild(Desk, options=Qt.FindChildOption.FindDirectChildrenOnly)
    return found if isinstance(found, Desk) else None


def settle(widget: QWidget, within: QWidget | None = None) -> None:
    """Have all that is typed in the window of a widget entered, before something is done.

    Args:
        widget: any in the window.
        within: what is typed in this alone; None for all.
    """
    desk = desk_of(widget)
    if desk is not None:
        desk.settle(within)


def put_away(widget: QWidget) -> None:
    """Hide a widget that there is no other way to; what waits in it to be mended is let go.

    It goes aloud.  What comes back by a page, a tab or a heading is hidden by itself, and
    implements :class:`Reveals`.
    """
    desk = desk_of(widget)
    if desk is not None:
        desk.drop(widget)
    widget.hide()


def show_or_put_away(widget: QWidget, *, shown: bool) -> None:
    """Show a widget, or put it away; nothing where that is so already."""
    if shown:
        widget.show()
    elif not widget.isHidden():
        put_away(widget)


def editors_in(widget: QWidget) -> Iterator[Editor]:
    """All editors in a widget."""
    return (each for each in widget.findChildren(QWidget) if isinstance(each, Editor))


def place_of(widget: QWidget) -> str:
    """Where a widget stands: the names of what is around it that has one, and its own."""
    names = (each.objectName() for each in reversed([widget, *_around(widget)]))
    return "/".join(name for name in names if name and not name.startswith("qt_"))


def _stands_in(widget: QWidget, around: QWidget | None) -> bool:
    return any(each is around for each in _around(widget))


def _around(widget: QWidget) -> Iterator[QWidget]:
    """What a widget stands in, from the inside out, the windows of dialogs too."""
    around = widget.parentWidget()
    while around is not None:
        yield around
        around = around.parentWidget()


def drafts_words(drafts: Sequence[Draft]) -> str:
    """What is typed and not entered, for people: where, what, and why not."""
    said = []
    for draft in drafts:
        words = tr("{field}: “{text}”", field=draft.label, text=cut_short(draft.text))
        said.append(f"{words} ({draft.why})" if draft.why else words)
    return "; ".join(said)


def cut_short(text: str) -> str:
    """A typed text on one line, its end left out where it is long."""
    line = " ".join(text.split())
    return line if len(line) <= _LONGEST_SAID else f"{line[:_LONGEST_SAID]}…"

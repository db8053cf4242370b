"""A window made anew in its place, in another language or with letters of another size.

The session, the work in hand and the window itself stay; all that stands in it is made
again.  What was open, scrolled, compared, typed and not entered, or had the keyboard, is
noted before and brought back after.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractScrollArea, QApplication, QWidget

from app.files.drafts import Draft
from app.rider.setup import Setup

if TYPE_CHECKING:
    from app.window.window import Window

_SCROLLED: Final = ("verticalScrollBar", "horizontalScrollBar")


class _Place(NamedTuple):
    """Where a widget is, in words that hold for its like in the window made anew.

    Attributes:
        region: number of the part of the window.
        kind: its class.
        number: which of its kind it is in that part.
    """

    region: int
    kind: type[QWidget]
    number: int


class Left:
    """What of a window is to be found again in it after it was made anew.

    Args:
        window: as it is now.
    """

    def __init__(self, window: Window) -> None:
        self._page = window.tray.open_title
        self._kept = window.tray.remembered()
        self._height = window.tray.height_given
        self._presented = window.presenting.on
        self._other: Setup | None = window.compare.other
        self._swapped = window.compare.swapped
        self._beside = window.compare.is_beside
        self._card = window.guide.card is not None and window.guide.card.isVisible()
        self._folded = {key for key, part in window.panel.sections.items() if not part.is_open}
        self._height_open = window.panel.height_box.is_open
        self._steps = window.steps.taken_note_of
        self._typed: tuple[Draft, ...] = window.documents.desk.drafts
        self._focus = _place_of(window, QApplication.focusWidget())
        self._scrolled = list(_scrolled(window))
        self._lost: tuple[Draft, ...] = ()

    def bring_back(self, window: Window) -> None:
        """Find all of it again."""
        window.steps.take_note_of(self._steps)
        for key, section in window.panel.sections.items():
            section.set_open(key not in self._folded)
        window.panel.height_box.set_open(self._height_open)
        if self._other is not None:
            window.compare.compare_with(self._other)
            window.compare.swap(self._swapped, latched=True)
        if self._card and not self._presented:
            window.guide.ask()
        for draft in self._typed:
            window.tray.prepare(draft.place)
        # Which field one is, and what it takes, may follow from what its page keeps.
        window.tray.recall(self._kept)
        self.bring_back_typed(window)
        window.tray.set_height(self._height)
        if self._page:
            window.tray.open_page(self._page)
        if self._presented:
            window.present.setChecked(True)
        if self._beside:
            window.compare.show_beside()
        # Where things are scrolled, and who can have the keyboard, follows from the layout; a
        # page begins anew while it is not in sight.
        QApplication.sendPostedEvents()
        window.tray.recall(self._kept)
        QApplication.sendPostedEvents()
        for place, ways in self._scrolled:
            found = _found(window, place)
            if isinstance(found, QAbstractScrollArea):
                for bar, share in zip(_SCROLLED, ways, strict=True):
                    _scroll(found, bar, share)
        focus = None if self._focus is None else _found(window, self._focus)
        if focus is not None:
            focus.setFocus(Qt.FocusReason.OtherFocusReason)

    def bring_back_typed(self, window: Window) -> None:
        """Let what was typed and not entered stand in its fields again, those of a dialog too.

        What was refused is refused again, in the words of now.
        """
        desk = window.documents.desk
        missing = {draft.place for draft in self._typed} - {draft.place for draft in desk.drafts}
        typed = [draft for draft in self._typed if draft.place in missing]
        lost = self._lost = desk.resume(typed)
        for draft in typed:
            if draft.why and draft not in lost:
                desk.finish(draft.place)

    def tell_lost(self, window: Window) -> None:
        """Say what was typed in a field that is nowhere in the window made anew."""
        if self._lost:
            window.documents.tell_dropped(self._lost)


def _regions(window: Window) -> tuple[QWidget | None, ...]:
    return window.bar, window.side, window.sheet, window.tray.tab_bar, window.tray.current


def _within(around: QWidget, kind: type[QWidget]) -> list[QWidget]:
    return [each for each in (around, *around.findChildren(QWidget)) if type(each) is kind]


def _place_of(window: Window, widget: QWidget | None) -> _Place | None:
    """Where a widget is; None for one that is nowhere in the window."""
    for i, part in enumerate(_regions(window)):
        if (
            widget is not None
            and part is not None
            and (part is widget or part.isAncestorOf(widget))
        ):
            kind = type(widget)
            return _Place(i, kind, _within(part, kind).index(widget))
    return None


def _found(window: Window, place: _Place) -> QWidget | None:
    """The widget that is in a place now."""
    part = _regions(window)[place.region]
    alike = [] if part is None else _within(part, place.kind)
    return alike[place.number] if place.number < len(alike) else None


def _scrolled(window: Window) -> list[tuple[_Place, tuple[float, ...]]]:
    """How far each area is scrolled, in shares of how far it can be."""
    found = []
    for part in _regions(window):
        areas = [] if part is None else part.findChildren(QAbstractScrollArea)
        for area in areas:
            shares = tuple(_share(area, bar) for bar in _SCROLLED)
            place = _place_of(window, area)
            if any(shares) and place is not None:
                found.append((place, shares))
    return found


def _share(area: QAbstractScrollArea, bar: str) -> float:
    moved = getattr(area, bar)()
    return moved.sliderPosition() / moved.maximum() if moved.maximum() else 0.0


def _scroll(area: QAbstractScrollArea, bar: str, share: float) -> None:
    moved = getattr(area, bar)()
    moved.setValue(round(share * moved.maximum()))

"""The one place where texts get onto widgets: what a file holds is read letter for letter.

Qt takes a text for rich text where it looks like that, opens the files named in it and reads
"&" in a button's as a key.  A set-up comes from anybody, so every label, tool tip, message,
title, button and entry of a menu that can show a word of it is made here.  Rich text is
:class:`Markup` only: our own words, in which :func:`markup` has escaped every value.  A test
in ``tests/house`` finds texts that get onto a widget in any other way.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape, unescape
from typing import Final, Protocol
from weakref import WeakSet

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QLabel, QMessageBox, QToolButton, QToolTip, QWidget

from app.words.bounds import PASSAGE, in_one_line, shortened

PAGE: Final = 5000
"""Letters of a text in a label."""
_TIP_LINE: Final = 90
"""Letters of a line of a tool tip that stays plain text, in which Qt breaks no lines."""

_TAG: Final = re.compile(r"<[^>]*>")


class Markup(str):
    """Our own words with Qt's tags, in which every value is escaped; see :func:`markup`."""

    __slots__ = ()


def markup(template: str, **values: str) -> Markup:
    """Words with tags.

    Args:
        template: with the tags, and places for the values; never with a value in it.
        values: texts of any kind, shown letter for letter, or markup.
    """
    return Markup(template.format(**{name: _escaped(text) for name, text in values.items()}))


def joined(pieces: Iterable[Markup]) -> Markup:
    """Pieces of markup behind one another."""
    return Markup("".join(pieces))


def spoken(text: str) -> str:
    """A text as it is read out: of markup without the tags."""
    return " ".join(unescape(_TAG.sub(" ", text)).split()) if isinstance(text, Markup) else text


class Label(QLabel):
    """A label whose text is shown letter for letter, or as the markup that it is."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rich = False
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setText(text)

    def setText(self, text: str) -> None:  # noqa: N802
        """Show another text; of a very long one that is no markup, its beginning."""
        rich = isinstance(text, Markup)
        if rich != self._rich:
            self._rich = rich
            super().setText("")  # never one text in the format of the other
            self.setTextFormat(Qt.TextFormat.RichText if rich else Qt.TextFormat.PlainText)
        super().setText(text if rich else shortened(text, PAGE))


class Tipped(Protocol):
    """What has a tool tip: a widget, a command, an item."""

    def setToolTip(self, text: str, /) -> None: ...  # noqa: N802


def show_tip(thing: Tipped, *paragraphs: str) -> None:
    """Give something a tool tip, of texts or of markup, a paragraph each; none without.

    Assistive programs read it where nothing else is said of a widget, so without tags.
    """
    text = tip(*paragraphs)
    thing.setToolTip(text)
    for widget in _widgets_of(thing):
        if widget not in _described:
            widget.setAccessibleDescription(spoken(text) if isinstance(text, Markup) else "")


def pop_up_tip(widget: QWidget, text: str) -> None:
    """Show a tool tip at once under a widget, as for those who came to it by a key."""
    QToolTip.showText(widget.mapToGlobal(widget.rect().bottomLeft()), tip(text), widget)


def say_about(widget: QWidget, words: str) -> None:
    """Say what a widget is to those who cannot see it; what its tool tip says no longer counts."""
    _described.add(widget)
    widget.setAccessibleDescription(spoken(words))


_described: WeakSet[QWidget] = WeakSet()
"""What was described in words of its own."""


def _widgets_of(thing: Tipped) -> list[QWidget]:
    """What shows the tool tip: a widget itself, or those that stand for a command."""
    if isinstance(thing, QWidget):
        return [thing]
    shown = thing.associatedObjects() if isinstance(thing, QAction) else []
    return [each for each in shown if isinstance(each, QToolButton)]


def tip(*paragraphs: str) -> str:
    """A tool tip that shows its texts letter for letter, with lines that wrap.

    What is short and holds no mark of rich text stays as it is: it is also what
    assistive programs read out where nothing else is said of a widget.
    """
    said = [each for each in paragraphs if each]
    if len(said) == 1 and _is_plain(said[0]):
        return said[0]
    return joined(
        markup("<p style='white-space:pre-wrap'>{text}</p>", text=_of_bounded_length(each))
        for each in said
    )


def name_command(command: QAction, text: str) -> None:
    """Give a command a text, and the same as its tool tip, which Qt would else make of it."""
    command.setText(button_text(text))
    show_tip(command, in_one_line(text))


def message_box(parent: QWidget, title: str, text: str, details: str = "") -> QMessageBox:
    """A box with a message, still without icon and buttons."""
    box = QMessageBox(parent)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setWindowTitle(title_text(title))
    box.setText(shortened(text))
    box.setInformativeText(shortened(details))
    return box


def button_text(text: str) -> str:
    """A text for a button, a command, an entry of a menu or a tab: "&" names no key there."""
    return in_one_line(text).replace("&", "&&")


def title_text(text: str) -> str:
    """A text for a window's title: "[*]" is no place for a star there."""
    return in_one_line(text).replace("[*]", "[*][*]")


def cell_text(text: str) -> str:
    """A text for an item or a heading of a list or a table, of which one line is seen."""
    return text if len(text) <= PASSAGE else shortened(text)


def _escaped(text: str) -> str:
    return text if isinstance(text, Markup) else escape(text)


def _of_bounded_length(text: str) -> str:
    return text if isinstance(text, Markup) else shortened(text)


def _is_plain(text: str) -> bool:
    if isinstance(text, Markup) or len(text) > PASSAGE or "<" in text or "&" in text:
        return False
    return max(map(len, text.split("\n"))) <= _TIP_LINE

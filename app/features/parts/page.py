"""The page of parts: the list, what can be built from it, and the best stance in reach."""

from __future__ import annotations

from typing import Final

from PySide6.QtWidgets import (
    QButtonGroup,
    QLabel,
    QStackedWidget,
    QWidget,
)

from app.drawing.theme import Theme
from app.features.parts.combinations_panel import CombinationsPanel
from app.features.parts.editing import shown_name
from app.features.parts.editor import PartsEditor
from app.features.parts.reach_panel import ReachPanel
from app.frame import Frame
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import say_in
from app.qt.controls.switch import Choice, Segment
from app.qt.painting.palette import palette
from app.session import Session
from app.words.language import msgid, tr

TABS: Final = (
    Choice("list", msgid("List"), msgid("What there is to build from")),
    Choice(
        "combinations",
        msgid("Combinations"),
        msgid("Parts that come nearest to what both feet want"),
    ),
    Choice(
        "reach",
        msgid("Best reachable"),
        msgid("The best stance within your limits, with its parts"),
    ),
)
LIST, COMBINATIONS, REACH = range(3)


class PartsPage(QWidget):
    """Three panels, of which the open one is shown the set-up in hand."""

    def __init__(self, session: Session, theme: Theme) -> None:
        super().__init__()
        self._frame: Frame | None = None
        self._theme = theme
        self.editor = PartsEditor(session, theme)
        self.combinations = CombinationsPanel(session, theme)
        self.reach = ReachPanel(session, theme)
        self._build(theme)
        self.set_theme(theme)

    def _build(self, theme: Theme) -> None:
        self.setAccessibleName(self.tr("Parts"))
        self._group = QButtonGroup(self)
        shown = [each._replace(text=tr(each.text), help=tr(each.help)) for each in TABS]
        self.tabs = [Segment(choice, theme, self) for choice in shown]
        for i, tab in enumerate(self.tabs):
            self._group.addButton(tab, i)
        self.name = QLabel()
        head = in_row(*self.tabs, 1, self.name, spacing=0)
        self._stack = QStackedWidget()
        for panel in (self.editor, self.combinations, self.reach):
            self._stack.addWidget(panel)
        in_column(head, (self._stack, 1), of=self, spacing=6, margins=(12, 6, 12, 8))
        self.tabs[LIST].setChecked(True)
        self._group.idClicked.connect(self._turn_to)

    def _turn_to(self, which: int) -> None:
        self._stack.setCurrentIndex(which)
        if self._frame is not None:
            self.show_frame(self._frame, dragging=False)

    def set_theme(self, theme: Theme) -> None:
        """Change the colours."""
        self._theme = theme
        self.setPalette(palette(theme))
        for tab in self.tabs:
            tab.theme = theme
            tab.update()
        for panel in (self.editor, self.combinations, self.reach):
            panel.set_theme(theme)
        say_in(self.name, theme.quiet)

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show the set-up in hand in the panel that is open."""
        before, self._frame, setup = self._frame, frame, frame.setup
        if before is None or frame.lengths != before.lengths:
            self.reach.show_lengths(frame.lengths)
        self.name.setText(self.tr("Parts list: {}").format(shown_name(setup.parts)))
        which = self._stack.currentIndex()
        self.name.setVisible(which != LIST)
        if which == LIST:
            self.editor.show_parts(setup.parts)
        elif which == COMBINATIONS:
            self.combinations.show_setup(setup, dragging=dragging)
        else:
            self.reach.show_setup(setup, dragging=dragging)

"""The page of parts: the list, what can be built from it, and the best stance in reach."""

from __future__ import annotations

from typing import Final

from PySide6.QtWidgets import QButtonGroup, QStackedWidget, QWidget

from app.features.parts.combinations_panel import CombinationsPanel
from app.features.parts.editing import shown_name
from app.features.parts.editor import PartsEditor
from app.features.parts.reach_panel import ReachPanel
from app.features.parts.several_panel import SeveralPanel
from app.frame import Frame
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.switch import Choice, PageSegment
from app.qt.literal import Label
from app.qt.painting.palette import QUIET
from app.session import Session
from app.words.language import msgid, tr

TABS: Final = (
    Choice("list", msgid("List"), msgid("What there is to build from")),
    Choice(
        "combinations",
        msgid("Combinations"),
        msgid("Parts that do best what both feet need"),
    ),
    Choice(
        "reach",
        msgid("Other stances"),
        msgid("The best stances within your limits, with their parts"),
    ),
    Choice(
        "several",
        msgid("Several set-ups"),
        msgid("Which parts serve several boards or angles, and what to get for them"),
    ),
)
LIST, COMBINATIONS, REACH, SEVERAL = range(4)


class PartsPage(QWidget):
    """Four panels, of which the open one is shown the set-up in hand."""

    makes_do = True

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._frame: Frame | None = None
        self._open = LIST
        self.editor = PartsEditor(session)
        self.combinations = CombinationsPanel(session)
        self.reach = ReachPanel(session)
        self.several = SeveralPanel(session)
        self._build()

    def _build(self) -> None:
        self.setAccessibleName(self.tr("Parts"))
        self._group = QButtonGroup(self)
        shown = [each._replace(text=tr(each.text), help=tr(each.help)) for each in TABS]
        self.tabs = [PageSegment(choice, self) for choice in shown]
        for i, tab in enumerate(self.tabs):
            self._group.addButton(tab, i)
        self.name = Label()
        self.name.setForegroundRole(QUIET)
        head = in_row(*self.tabs, 1, self.name, spacing=0)
        self._stack = QStackedWidget()
        self._panels = self.editor, self.combinations, self.reach, self.several
        for choice, panel in zip(TABS, self._panels, strict=True):
            panel.setObjectName(choice.key)
            self._stack.addWidget(panel)
        in_column(head, (self._stack, 1), of=self, spacing=6, margins=(12, 6, 12, 8))
        self.tabs[LIST].setChecked(True)
        self._group.idClicked.connect(self._turn_to)

    def _turn_to(self, which: int) -> None:
        self._open = which
        self._stack.setCurrentIndex(which)
        if self._frame is not None:
            self.show_frame(self._frame, dragging=False)

    def reveal(self, widget: QWidget) -> None:
        """Turn to the panel in which a widget stands."""
        for i, panel in enumerate(self._panels):
            if panel.isAncestorOf(widget) and i != self._open:
                self.tabs[i].setChecked(True)
                self._turn_to(i)

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show the set-up in hand in the panel that is open."""
        before, self._frame, setup = self._frame, frame, frame.setup
        if before is None or frame.lengths != before.lengths:
            self.reach.show_lengths(frame.lengths)
        self.name.setText(self.tr("Parts list: {}").format(shown_name(setup.parts)))
        self.name.setVisible(self._open != LIST)
        if self._open == LIST:
            self.editor.show_parts(setup.parts)
        elif self._open == COMBINATIONS:
            self.combinations.show_setup(setup, frame.limits, dragging=dragging)
        elif self._open == REACH:
            self.reach.show_setup(setup, frame.limits, dragging=dragging)
        else:
            self.several.show_setup(setup, frame.limits, dragging=dragging)

"""The window: controls at the left, the sheet beside them, a bar of commands above."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import (
    QAction,
    QCloseEvent,
    QIcon,
    QKeySequence,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QApplication,
    QLayout,
    QMainWindow,
    QSizePolicy,
    QToolBar,
    QToolButton,
    QWidget,
)
from shiboken6 import delete, isValid

from app.drawing.front import LOOKS
from app.drawing.theme import turned
from app.features.compare.menu import Compare
from app.features.paper.pictures import PictureMenu, Shown
from app.features.webpage.saving import WebPage
from app.files.drafts import Draft
from app.files.resources import ASSETS, StartingPoint
from app.files.settings import SettingsStore, create_settings
from app.frame import Frame, frame
from app.handles import marks_moved
from app.qt.accessible.factory import install
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.keyed_menu import menu_button
from app.qt.controls.layout import in_column, in_row
from app.qt.literal import Label, show_tip
from app.qt.painting.lettering import load_fonts
from app.qt.questions import inform
from app.qt.themes import current_theme, follow_theme, set_theme
from app.rider.setup import Setup
from app.session import Session
from app.stance.findings import CAUTION, USUAL_LIMITS, Limits
from app.window.announcing import Announcer
from app.window.caption import Caption
from app.window.control_panel import ControlPanel
from app.window.documents import Documents
from app.window.file_menu import FileMenu, HistoryMenu
from app.window.finding import Finding
from app.window.guide import Guide
from app.window.helping import Helping
from app.window.instead import drawn_instead, lit_instead
from app.window.overflow import BarCommand, Leaving, Overflow
from app.window.playing import Playing
from app.window.presenting import Presenting
from app.window.regions import Regions
from app.window.registry import entries
from app.window.sheet import Sheet
from app.window.starting_menu import StartingMenu
from app.window.step_line import StepLine
from app.window.tray import Tray
from app.window.whose import Whose
from app.words.lengths import Lengths
from app.words.reasons import reason_sentence
from app.words.units import LENGTH_UNITS
from app.work import Paper, Work

SMALLEST = QSize(1024, 700)
USUAL = QSize(1280, 800)
_REDO = [QKeySequence("Ctrl+Y"), QKeySequence("Ctrl+Shift+Z")]


class Window(QMainWindow):
    """Connects the session, the controls and the sheet; holds no inputs itself."""

    _went_stale = Signal()

    def __init__(
        self,
        session: Session,
        settings: SettingsStore | None = None,
        paper: Paper | None = None,
    ) -> None:
        super().__init__()
        prepared_application()
        self.session = session
        self._look = "facing"
        self._limits = USUAL_LIMITS
        self._frame: Frame | None = None
        self._at_moment = False
        self._lit: frozenset[str] = frozenset()
        self._labels: list[QAction] = []
        self._boxes: dict[ChoiceBox, QAction] = {}
        # Queued, so that many changes make one pass, and before what they touch is painted.
        self._stale = False
        self._went_stale.connect(self._refresh, Qt.ConnectionType.QueuedConnection)
        self.setMinimumSize(SMALLEST)
        self.resize(USUAL)
        self._furnish(Work(session, paper), settings or create_settings())
        self._follow_session()
        follow_theme(self._show_theme)
        self._show()

    def rebuild(self) -> None:
        """Make all that stands in the window anew; nothing of it is the same afterwards."""
        work, settings = self.documents.work, self.documents.settings
        self.session.show_instead(None)
        for action in self.actions():
            self.removeAction(action)
        # At once: what is looked for in the window must not be found in two places.  The bar
        # goes first, or it would be taken apart after the menus and actions that it shows.
        for child in sorted(self.children(), key=lambda child: child is not self.bar):
            if isValid(child) and not isinstance(child, QLayout):
                delete(child)
        self._labels.clear()
        self._boxes.clear()
        self._at_moment = False
        self._furnish(work, settings)
        self.look.show_choice(self._look)
        self._show_theme()
        self.show_lengths(self.session.lengths)
        self._fit_bar()
        self._show()

    def _furnish(self, work: Work, settings: SettingsStore) -> None:
        """Make all that stands in the window, which itself stays."""
        session = self.session
        self.panel = ControlPanel(session)
        self.panel.setObjectName("panel")
        self.side = QWidget(self)
        self.steps = StepLine(session, self.side)
        self.whose = Whose(self.side, self.panel)
        self.sheet = Sheet()
        self._announcer = Announcer(self.sheet)
        self.tray = Tray(entries(), session)
        self._build()
        self.documents = Documents(self, work, settings)
        self.guide = Guide(self, session)
        self.playing = Playing(self, self.sheet, self.tray, self._drawings)
        self._add_menus()
        self.regions = Regions(
            self, [self.bar, self.side, self.sheet, self.tray.tab_bar, self.tray]
        )
        self._connect()

    # Building

    def _build(self) -> None:
        middle = QWidget()
        self.panel.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        in_column(self.steps, (self.panel, 1), of=self.side, spacing=0)
        self._drawings = drawings = in_column((self.sheet, 1), self.tray, spacing=0)
        beside = in_row(self.side, (drawings, 1), spacing=0)
        self._whole = in_column((beside, 1), self.tray.tab_bar, of=middle, spacing=0)
        self.setCentralWidget(middle)
        self.bar = QToolBar(self.tr("Commands"))
        self.bar.setMovable(False)
        self.bar.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
        self.addToolBar(self.bar)
        self._fill_bar()

    def _fit_bar(self) -> None:
        """Drop labels where a language needs the whole bar, and commands where letters do."""
        self._overflow.fit(self.width())

    def _fill_bar(self) -> None:
        self.starting = StartingMenu(self, self.session, self.start_from, self.stand_as)
        start = menu_button(self.tr("Start from"), self.starting)
        show_tip(start, self.tr("Begin with one of the example riders, or stand as one of them"))
        self.bar.addWidget(start)
        self.bar.addSeparator()
        self.undo = self._action(self.tr("Undo"), self._undo, QKeySequence.StandardKey.Undo)
        self.redo = self._action(self.tr("Redo"), self._redo, QKeySequence.StandardKey.Redo)
        # Both habits, whichever of them the system has.
        usual = self.redo.shortcuts()
        self.redo.setShortcuts([*usual, *(keys for keys in _REDO if keys not in usual)])
        self.bar.addSeparator()
        self.look = self._choice(self.tr("Look"), self.tr("How the front view looks"), LOOKS)
        self.look.chosen.connect(self._set_look)
        self.bar.addSeparator()
        self.dark = self._action(
            self.tr("Dark"), self._toggle_theme, QKeySequence("Ctrl+D"), checkable=True
        )
        self.present = self._action(self.tr("Present"), None, QKeySequence("F11"), checkable=True)
        # The controls go out of sight, and so would what waits in them.
        self.present.triggered.connect(lambda _on: self.documents.desk.settle())
        self.caption = Caption(self.sheet)
        self.presenting = Presenting(
            self,
            self.present,
            self.session,
            panel=self.side,
            bar=self.bar,
            sheet=self.sheet,
            tray=self.tray,
            column=self._drawings,
            whole=self._whole,
            caption=self.caption,
        )
        units = {unit: unit for unit in LENGTH_UNITS}
        self.present.toggled.connect(self._show_slider)
        self.unit = self._choice(self.tr("Lengths"), self.tr("Unit of lengths"), units)
        self.unit.chosen.connect(lambda unit: self.show_lengths(Lengths(unit)))
        spacer = QWidget()
        spacer.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.bar.addWidget(spacer)
        self.helping = Helping(self, self.session, self.tray)
        help_ = self._action(self.tr("Help"), self.helping.open, QKeySequence("Ctrl+F1"))
        caution = self._action(self.tr("Caution"), self.show_caution, QKeySequence("F12"))
        self._let_leave((caution, help_), units)

    def _let_leave(self, last: tuple[BarCommand, BarCommand], units: Mapping[str, str]) -> None:
        """Say what leaves the bar, the last of it first, where letters leave it no room."""
        tip = self.tr("What the bar has no room for")
        self._overflow = Overflow(self.bar, self, self.tr("More"), tip)
        commands = (*last, self.present, self.dark)
        caution, help_, present, dark = (Leaving(each.face, each) for each in commands)
        unit = Leaving(
            self._boxes[self.unit],
            title=self.tr("Unit of lengths"),
            choices=units,
            holds=lambda: self.session.lengths.name,
            choose=lambda name: self.show_lengths(Lengths(name)),
        )
        look = Leaving(
            self._boxes[self.look],
            title=self.tr("How the front view looks"),
            choices={value: self.tr(text) for value, text in LOOKS.items()},
            holds=lambda: self._look,
            choose=self._choose_look,
        )
        self._overflow.hold(self._labels, [caution, help_, unit, present, dark, look])

    def _choose_look(self, look: str) -> None:
        self.look.show_choice(look)
        self._set_look(look)

    def _add_menus(self) -> None:
        """Files, pictures and comparing at the left of the bar, the steps on the undo button."""
        first = self.bar.actions()[0]
        self.files = FileMenu(self, self.documents, self.go_to_notes)

        def folder() -> str:
            return self.documents.settings.folder

        self.pictures = PictureMenu(self, self.documents.work, self.documents.settings, self.shown)
        WebPage(self, self.pictures, self.shown)
        self.compare = Compare(self, self.pictures, self.shown, folder)
        at_left = {
            self.tr("File"): self.files,
            self.tr("Picture"): self.pictures,
            self.tr("Compare"): self.compare.menu,
        }
        for title, menu in at_left.items():
            self.bar.insertWidget(first, menu_button(title, menu))
        self.menus = {**at_left, self.tr("Start from"): self.starting}
        Finding(self)
        undo = self.bar.widgetForAction(self.undo.face)
        if isinstance(undo, QToolButton):
            HistoryMenu(self.session, undo, self.undo, self.redo)

    def _action(
        self,
        text: str,
        slot: object | None,
        keys: QKeySequence | QKeySequence.StandardKey,
        *,
        checkable: bool = False,
    ) -> BarCommand:
        action = BarCommand(text, self, checkable=checkable)
        action.setShortcut(keys)
        shortcut = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
        name = text.rstrip("…")
        show_tip(action, f"{name} ({shortcut})" if shortcut else name)
        if slot is not None:
            action.triggered.connect(slot)
        self.addAction(action)
        self.bar.addAction(action.face)
        return action

    def _choice(self, label: str, purpose: str, choices: Mapping[str, str]) -> ChoiceBox:
        box = ChoiceBox(purpose, {value: self.tr(text) for value, text in choices.items()})
        # On some systems a box is named by its label, and else by its value.
        words = Label(f" {label} ")
        words.setBuddy(box)
        self._labels.append(self.bar.addWidget(words))
        show_tip(box, purpose)
        self._boxes[box] = self.bar.addWidget(box)
        return box

    def _follow_session(self) -> None:
        """Hear what happens to the set-up, for as long as the window stands."""
        session = self.session
        session.changed.connect(self._redraw)
        session.changed.connect(self._follow)
        session.drag_ended.connect(self._redraw)
        session.instead_changed.connect(self._redraw)
        session.put_on.connect(self._confirm)

    def _connect(self) -> None:
        session, sheet = self.session, self.sheet
        session.changed.connect(self.compare.come_back)
        self._follow()
        self.pictures.done.connect(self.documents.notices.tell_news)
        self.playing.clip_asked.connect(self.pictures.save_clip)
        sheet.drag_began.connect(session.begin_drag)
        sheet.drag_ended.connect(session.end_drag)
        sheet.asked.connect(self._take)
        self.compare.changed.connect(self._redraw)
        self.playing.moved.connect(self._show_moment)
        self.playing.strip_turned.connect(self._show_slider)
        sheet.pointed.connect(self.panel.highlight)
        self.tray.opened.connect(sheet.set_compact)
        self.tray.turned.connect(self.steps.show_page)
        self.tray.turned.connect(self.caption.hide)
        self.tray.remarked.connect(self._redraw)
        sheet.why_asked.connect(session.why_asked)
        self.steps.wanted.connect(self.guide.take)
        self.addActions(self.tray.ways)
        self.panel.pointed.connect(lambda name: sheet.light(marks_moved(self.session.inputs, name)))

    def _take(self, changes: dict[str, float]) -> None:
        """Take what the drawings ask for, but not of another set-up nor of what is played."""
        own = not self.compare.swapped and self.session.instead is None
        if own and self.playing.leaves(changes):
            self.session.edit(**changes)

    def _confirm(self, told: str, before: Setup) -> None:
        """Say what was put on, with undo beside it, and compare with how it was."""
        self.compare.compare_with(before)
        # It needs numpy, which the first paint does not wait for.
        from app.features.answer.words import brought_words  # noqa: PLC0415

        brought = brought_words(before, self.session.setup, self._limits)
        self.documents.notices.tell(f"{brought} {told}", self.tr("Undo"), self._take_off)

    def _show_slider(self, _presented: bool = False) -> None:
        """Show the large slider while it moves what is drawn: no other rider, nothing played."""
        played = self.playing.has_strip
        told = self.session.instead is not None
        self.presenting.share_room(slider=not (told or played), page=told and not played)

    def _take_off(self) -> None:
        self.compare.stop()
        self.session.undo()

    # Showing

    def _redraw(self) -> None:
        """Show the set-up in hand as soon as the present events are done."""
        if not self._stale:
            self._stale = True
            self._went_stale.emit()

    def _refresh(self) -> None:
        if self._stale:
            self._stale = False
            self._show()

    def _show(self) -> None:
        """Solve, draw and show the set-up in hand: the one pass."""
        setup, instead = self.session.setup, self.session.instead
        self._show_whose(instead.setup if instead else self.compare.seen)
        for part in (self.steps, self.panel):  # not what says whose numbers these are
            part.setEnabled(instead is None)
        self._show_slider()
        self.undo.setEnabled(bool(self.session.undo_name) and instead is None)
        self.redo.setEnabled(bool(self.session.redo_name) and instead is None)
        try:
            self._frame = self._drawn(setup)
        except ValueError as problem:
            self.sheet.show_problem(reason_sentence(problem, self.session.lengths))
            return
        dragging = self.session.dragging
        self.playing.follow(self._frame, self._drawn, self._look, dragging=dragging)
        self.tray.show_frame(self._frame, dragging=dragging)
        self._lit = lit_instead(self.sheet, instead, self._lit)
        told = self._frame
        if instead is None:
            self._show_moment()
        else:
            self.playing.stop()
            self.guide.rest()
            told, drawn = drawn_instead(instead, self._frame, self._look)
            self.sheet.show_frame(drawn, dragging=dragging)
        self._announcer.follow(told, dragging=dragging)

    def _drawn(self, setup: Setup) -> Frame:
        """A set-up as the window draws it.

        Raises:
            ValueError: the leg dimensions contradict each other.
        """
        return frame(setup, self._look, self._limits, self.session.lengths)

    def _show_moment(self) -> None:
        """Show the moment that is played, or else the set-up in hand, in the drawings."""
        if self._frame is None or self.session.instead is not None:
            return
        try:
            moment = self.playing.frame()
        except ValueError as problem:
            self.sheet.show_problem(reason_sentence(problem, self.session.lengths))
            return
        dragging = self.session.dragging
        if moment is not None:
            self._at_moment = True
            self.compare.come_back()
            self.guide.rest()
            self.sheet.show_frame(self.tray.marked(moment))
            self.tray.show_played(moment)
            return
        if self._at_moment:
            self._at_moment = False
            self.tray.show_frame(self._frame, dragging=dragging)
        drawn = self.compare.dressed(self._frame, self._look, self._limits, dragging=dragging)
        self.sheet.show_frame(self.tray.marked(drawn), dragging=dragging)

    def _show_whose(self, other: Setup | None) -> None:
        """Show the numbers of the set-up that is seen, and whose they are."""
        self.whose.tell(other)
        self.panel.show_setup(other or self.session.setup)

    def shown(self) -> Shown | None:
        """What the window shows now, with what is typed; None while no set-up could be solved."""
        self.documents.desk.settle()
        self._refresh()
        return self._frame and Shown(self._frame, self._limits, self._drawn)

    def resume(self, typed: tuple[Draft, ...]) -> None:
        """Let texts stand in their fields that were typed and not entered before a crash."""
        self._refresh()
        for draft in typed:
            self.tray.make_room_for(draft.place)
            self.guide.make_room_for(draft.place)
        self.documents.resume(typed)

    def reveal(self, widget: QWidget) -> None:
        """Bring the controls back where one of them is to be seen that presenting hides."""
        if self.presenting.on and self.side.isAncestorOf(widget):
            self.present.setChecked(False)

    # Commands

    def _undo(self) -> None:
        """Take the last step back; what is typed is a step before that."""
        self.documents.desk.settle()
        self.session.undo()

    def _redo(self) -> None:
        self.documents.desk.settle()
        self.session.redo()

    def start_from(self, point: StartingPoint) -> None:
        """Make a starting point the set-up in hand; undo brings the former one back."""
        self.documents.start_from(point)

    def stand_as(self, point: StartingPoint) -> None:
        """Take stance, boots and posture from a starting point; undo brings the former back."""
        self.documents.stand_as(point)

    def go_to_page(self, title: str) -> None:
        """Open a page where it is closed, the keyboard on it."""
        self.guide.take(title, "")

    def go_to_control(self, name: str) -> None:
        """Put the keyboard on a control of the panel."""
        self.compare.come_back()
        self._refresh()
        self.panel.go_to(name)

    def go_to_notes(self) -> None:
        """Open the page of name and notes, the keyboard on the name."""
        page = self.tray.open_page("Notes")
        from app.features.notes.page import NotesPage  # noqa: PLC0415

        if isinstance(page, NotesPage):
            page.go_to_name()

    def show_caution(self) -> None:
        """Show what the program is not."""
        inform(self, self.tr("Caution"), self.tr(CAUTION))

    def show_lengths(self, lengths: Lengths) -> None:
        """Write and read lengths in another unit, everywhere."""
        self.unit.show_choice(lengths.name)
        self.session.lengths = lengths
        self.panel.show_lengths(lengths)
        self._redraw()

    def set_limits(self, limits: Limits) -> None:
        """Judge knees by other limits."""
        self._limits = limits
        self._redraw()

    def _toggle_theme(self) -> None:
        set_theme(turned(current_theme()))

    def _show_theme(self) -> None:
        self.dark.setChecked(current_theme().dark)

    def _set_look(self, look: str) -> None:
        self._look = look
        self._redraw()

    def _follow(self) -> None:
        """Say what is moved, while presenting."""
        self.presenting.follow(self.session.inputs, self.session.lengths)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Let the bar have its labels where there is room for them."""
        super().resizeEvent(event)
        self._fit_bar()

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802
        """Show nothing more, so that nothing is drawn on a window that is gone."""
        self._stale = False
        super().closeEvent(event)


def prepared_application() -> QApplication:
    """The running application, started and dressed where there is none yet."""
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        app = QApplication(["kneeline"])
        app.setApplicationName("Kneeline")
        app.setDesktopFileName("kneeline")
        app.setWindowIcon(QIcon(str(ASSETS / "icon.svg")))
    install()
    load_fonts(ASSETS / "fonts")
    if not app.styleSheet():
        set_theme(current_theme())
    return app

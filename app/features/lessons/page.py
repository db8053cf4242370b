"""The page of lessons: choosing one, going through it, and making one."""

from __future__ import annotations

from pathlib import Path
from typing import Final, NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QHideEvent, QKeySequence, QResizeEvent, QShortcut, QShowEvent
from PySide6.QtWidgets import QCheckBox, QPushButton, QStackedWidget, QWidget

from app.features.lessons.player import Gone, LessonPlayer
from app.features.lessons.recorder import Recorder
from app.features.lessons.taking_home import TakeHome
from app.files.lesson_file import lesson_opened
from app.files.resources import lessons
from app.files.safe_files import FileError
from app.frame import Frame
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.layout import in_column, in_row
from app.qt.literal import button_text, show_tip
from app.qt.questions import asked_which, tell
from app.qt.sizes import is_held, px
from app.rider.lessons import NO_LESSON, Lesson
from app.session import Session
from app.words.bounds import in_one_line
from app.words.language import msgid

FILTER: Final = msgid("Lesson (*.json);;All files (*)")
CARRIED: Final = "carried"
"""Stands for the lesson in the set-up among the choices."""
LONGEST_TITLE: Final = 60


class Kept(NamedTuple):
    """What a page of lessons keeps.

    Attributes:
        opened: lessons out of files, by their paths.
        chosen: the key of the one that is chosen.
        young: whether it is told the way it is told to children.
        making: whether one is being made.
        at: which of its steps is looked at.
        gone: how far one has come.
    """

    opened: dict[object, Lesson]
    chosen: object
    young: bool
    making: bool
    at: int
    gone: Gone


class LessonsPage(QWidget):
    """Keeps which lesson is chosen and how far one has come; neither is part of the set-up."""

    makes_do = True

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._lessons: dict[object, Lesson] = {}
        self._chosen: object = ""
        self._young = self._making = False
        self._folder = ""
        self._build()
        self._connect()
        self._read_ours()
        self._offer()
        self._choose(next(iter(self._lessons)))

    # Building

    def _build(self) -> None:
        self.box = ChoiceBox(self.tr("Lesson"), {})
        self.box.setMinimumWidth(px(200))
        self.young = QCheckBox(self.tr("For children"))
        show_tip(self.young, self.tr("Told first, then asked, and shorter"))
        self.open = QPushButton(self.tr("Open…"))
        show_tip(self.open, self.tr("Take the lesson in a file"))
        self.make = QPushButton(self.tr("Make a lesson"))
        self.make.setCheckable(True)
        show_tip(self.make, self.tr("Record states of the set-up in hand as steps of a lesson"))
        self.player = LessonPlayer(self._session)
        self.take_home = TakeHome(
            self._session, lambda: self.player.going, lambda: self.player.young
        )
        self.recorder = Recorder(self._session)
        self._rooms = QStackedWidget()
        self._rooms.addWidget(self.player)
        self._rooms.addWidget(self.recorder)
        self.head = self._head()
        in_column(self.head, (self._rooms, 1), of=self, spacing=6, margins=(12, 6, 12, 8))

    def _head(self) -> QWidget:
        head, buttons = QWidget(), (self.take_home, self.open, self.make)
        in_row((self.box, 1), self.young, 1, *buttons, of=head, spacing=8)
        return head

    def _make_room(self) -> None:
        """Leave the page to a lesson that is under way before an audience."""
        self.head.setVisible(not is_held() or self.player.stage is None)

    def _connect(self) -> None:
        self.box.chosen.connect(self._choose)
        self.young.toggled.connect(self._set_young)
        self.open.clicked.connect(self._ask_and_open)
        self.make.toggled.connect(self._set_making)
        self.recorder.rehearse.connect(self._rehearse)
        self.player.turned.connect(self._make_room)
        self._session.changed.connect(self._follow)
        within = Qt.ShortcutContext.WidgetWithChildrenShortcut
        for keys, act in (
            (Qt.Key.Key_Right, self.player.go_on),
            (Qt.Key.Key_Left, self.player.go_back),
            (Qt.Key.Key_PageDown, self.player.skip),
            (Qt.Key.Key_PageUp, self.player.go_back),
        ):
            shortcut = QShortcut(QKeySequence(keys), self.player)
            shortcut.setContext(within)
            shortcut.activated.connect(act)

    def _read_ours(self) -> None:
        for path in lessons():
            self._lessons[path.stem] = lesson_opened(path).lesson

    # Choosing

    def _offer(self) -> None:
        carried = self._session.setup.lesson
        self._lessons.pop(CARRIED, None)
        if carried != NO_LESSON:
            self._lessons[CARRIED] = carried
        titles = {
            key: f"{place}  {self._title(lesson)}"
            for place, (key, lesson) in enumerate(self._lessons.items(), 1)
        }
        self.box.offer({key: button_text(title) for key, title in titles.items()})
        self.box.show_choice(self._chosen)

    def _title(self, lesson: Lesson) -> str:
        return in_one_line(lesson.title.said, LONGEST_TITLE) or self.tr("Lesson without a title")

    def _choose(self, key: object) -> None:
        self._chosen = key
        self.box.show_choice(key)
        self.player.take(self._lessons[key], young=self._young)

    def _set_young(self, young: bool) -> None:
        self._young = young
        self._choose(self._chosen)

    def _set_making(self, making: bool) -> None:
        self._making = making
        self.player.end()
        self._rooms.setCurrentIndex(int(making))
        for each in (self.box, self.young, self.open, self.take_home):
            each.setEnabled(not making)
        if not making:
            self._follow()

    def _rehearse(self) -> None:
        """Go through the lesson that is being made."""
        self.make.setChecked(False)
        self._offer()
        if CARRIED in self._lessons:
            self._choose(CARRIED)
            self.player.begin()

    def _follow(self) -> None:
        """Offer the lesson of the set-up in hand; what was shown of another is over."""
        if self._session.setup.lesson == self._lessons.get(CARRIED, NO_LESSON):
            return
        self._offer()
        if self._chosen == CARRIED:
            self._choose(CARRIED if CARRIED in self._lessons else next(iter(self._lessons)))

    def _ask_and_open(self) -> None:
        path = asked_which(self, self.tr("Open a lesson"), self._folder, self.tr(FILTER))
        if path is not None:
            self._folder = str(path.parent)
            self.open_file(path)

    def open_file(self, path: Path) -> None:
        """Take the lesson in a file, or say why that cannot be."""
        try:
            lesson = lesson_opened(path).lesson
        except FileError as error:
            tell(self, self.tr("Not opened"), str(error))
            return
        self._lessons[path] = lesson
        self._offer()
        self._choose(path)

    # Being made anew

    def remembered(self) -> Kept:
        """Which lesson is chosen, and how far one has come."""
        opened: dict[object, Lesson] = {
            key: each for key, each in self._lessons.items() if isinstance(key, Path)
        }
        gone = self.player.remembered()
        return Kept(opened, self._chosen, self._young, self._making, self.recorder.at, gone)

    def recall(self, remembered: Kept) -> None:
        """Choose it again, and go on from there."""
        self._lessons |= remembered.opened
        self._young = remembered.young
        self.young.blockSignals(True)
        self.young.setChecked(remembered.young)
        self.young.blockSignals(False)
        self._offer()
        self._choose(remembered.chosen)
        self.make.setChecked(remembered.making)
        self.recorder.look_at(remembered.at)
        if self.isVisible():
            self.player.recall(remembered.gone)

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:  # noqa: ARG002
        """Follow limits and unit; the set-up in hand does not matter here."""
        self.player.show_judged(frame.limits, frame.lengths)
        self.recorder.show_judged(frame.limits)

    def _write(self) -> None:
        """Write as large as there is room for, so that all can read who look on."""
        self.player.write_for(self.width())

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Write as the room is."""
        super().resizeEvent(event)
        self._write()

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802
        """Write anew: what was written before the page stood in a window was lost."""
        super().showEvent(event)
        self._write()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: N802
        """Give the drawings back to the set-up in hand; not where the window is put away."""
        if not event.spontaneous():
            self.player.end()
        super().hideEvent(event)

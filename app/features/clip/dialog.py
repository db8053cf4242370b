"""The dialog in which a clip is wished for, seen, foretold, made and saved."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QFormLayout,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.features.clip.encoding import ENDINGS
from app.features.clip.making import Reel
from app.features.clip.model import SECONDS
from app.features.clip.painting import HEIGHT, WIDTH
from app.features.clip.wish import (
    NUMBERED,
    Seen,
    Subject,
    Wish,
    numbered_paths,
    write_all,
)
from app.features.player.choosing import SWEEP, SweepRow
from app.files.safe_files import FileError, write_atomically
from app.qt.background import Background, Unhurried
from app.qt.controls.choice_box import ChoiceBox
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import note
from app.qt.controls.typed_row import PlainNumber
from app.qt.drafts import editors_in, show_or_put_away
from app.qt.literal import Label, show_tip
from app.qt.painting.palette import ACCENT
from app.qt.questions import asked_for_folder, asked_to_replace, asked_where, told_not_saved
from app.words.language import msgid, tr
from app.words.reasons import reason_sentence
from app.words.sentences import as_sentence, plain
from geometry.fitting.steps import Steps

_KINDS: Final = {
    ".gif": msgid("GIF: moves anywhere"),
    ".webp": msgid("WebP: smallest, moves in browsers"),
    ".png": msgid("PNG: moves in browsers"),
    NUMBERED: msgid("Numbered pictures (PNG)"),
}
_FILTERS: Final = {
    ".gif": msgid("Moving picture (*.gif)"),
    ".webp": msgid("Moving picture (*.webp)"),
    ".png": msgid("Moving picture (*.png)"),
}
SCALES: Final = {0.7: msgid("Small"), 1.0: msgid("Usual"), 1.5: msgid("Large")}
"""Pixels of a clip per logical pixel, with what they are called."""
_PREVIEW: Final = 520
"""Width of the picture in the dialog (px)."""
_PAINTED: Final = 90
"""Share of the work that is done once all is painted (percent)."""


class ClipDialog(QDialog):
    """Keeps a wish, shows what it comes to, and makes and saves the clip.

    Args:
        parent: the window concerned.
        subject: whose clip it is.
        wish: to begin with.
        folder: gives the folder in which files are suggested.
        name: of a file to suggest, without its ending.
    """

    wrote = Signal(object)
    """The file was written, or several into a folder: its path."""

    def __init__(
        self, parent: QWidget, subject: Subject, wish: Wish, folder: Callable[[], str], name: str
    ) -> None:
        super().__init__(parent)
        self.subject = subject
        self.wish = wish
        self._folder = folder
        self._name = name
        self._paths: list[Path] = []
        self._seen: Seen | None = None
        self._looks = Unhurried(self)
        self._looks.done.connect(self._show_seen)
        self._paints = Unhurried(self)
        self._paints.done.connect(self._take_pictures)
        self._joins = Background(self)
        self._joins.done.connect(self._take_file)
        self._build()
        self._ask(wish)

    # Building

    def _build(self) -> None:
        self.setObjectName("clip")
        self.setWindowTitle(self.tr("Clip"))
        self.kind = ChoiceBox(self.tr("What is shown"), self.subject.titles())
        self.kind.chosen.connect(self._choose)
        self.sweep = SweepRow()
        self.sweep.asked.connect(lambda sweep: self._ask(replace(self.wish, sweep=sweep)))
        self.seconds = PlainNumber(SECONDS)
        self.seconds.asked.connect(lambda _, value: self._ask(replace(self.wish, seconds=value)))
        self.back = QCheckBox(self.tr("There and back"))
        self.back.toggled.connect(lambda on: self._ask(replace(self.wish, back=on, seconds=None)))
        self.ending = self._choice(self.tr("Kind of file"), _KINDS, "ending")
        self.scale = self._choice(self.tr("Size of the pictures"), SCALES, "scale")
        self.named = QCheckBox(self.tr("With the set-up's name"))
        self.named.toggled.connect(lambda on: self._ask(replace(self.wish, named=on)))
        show_tip(self.named, self.tr("Caution and date stand on every picture in any case."))
        self.problem = note()
        self.problem.setForegroundRole(ACCENT)
        for told in (self.sweep.told, self.seconds.told):
            told.connect(self._tell)
        self.foretold = note()
        self.picture = Label()
        self.picture.setFixedSize(_PREVIEW, round(_PREVIEW * HEIGHT / WIDTH))
        self.picture.setAccessibleName(self.tr("A picture from the middle of the clip"))
        self.progress = QProgressBar()
        self.progress.setAccessibleName(self.tr("How much of the clip is made"))
        self.progress.setRange(0, 100)
        self._lay_out()

    def _choice(self, name: str, words: dict[Any, str], of_wish: str) -> ChoiceBox:
        box = ChoiceBox(name, {value: tr(text) for value, text in words.items()})
        box.chosen.connect(lambda value: self._ask(replace(self.wish, **{of_wish: value})))
        return box

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow(self.tr("What is shown"), self.kind)
        form.addRow(self.sweep)
        form.addRow(self.tr("Length of the clip"), self.seconds)
        form.addRow(self.back)
        form.addRow(self.tr("Kind of file"), self.ending)
        form.addRow(self.tr("Size of the pictures"), self.scale)
        form.addRow(self.named)
        # A lesson takes the time that its words take, and is nobody's own.
        for each in (self.seconds, self.back, self.named):
            form.setRowVisible(each, self.subject.told is None)
        self._form = QWidget()
        self._form.setLayout(form)
        form.setContentsMargins(0, 0, 0, 0)
        left = in_column(self._form, self.foretold, self.problem, 1, spacing=8)
        self.save = QPushButton(self.tr("Save…"))
        self.save.setAutoDefault(False)  # Enter finishes a number and nothing else
        self.save.clicked.connect(self.ask_and_make)
        self.leave = QPushButton()
        self.leave.setAutoDefault(False)
        self.leave.clicked.connect(self._leave)
        whole = QVBoxLayout(self)
        whole.addLayout(in_row((left, 1), self.picture, spacing=14))
        whole.addLayout(in_row((self.progress, 1), self.save, self.leave))
        kept = self.progress.sizePolicy()
        kept.setRetainSizeWhenHidden(True)  # nothing moves as it comes and goes
        self.progress.setSizePolicy(kept)
        whole.setSizeConstraint(QVBoxLayout.SizeConstraint.SetFixedSize)
        self._show_busy(busy=False)

    # Showing

    def _ask(self, wish: Wish) -> None:
        """Wish for something else, and see what that comes to."""
        self.wish = wish
        setup, played = self.subject.setup, wish.played(self.subject.setup)
        self.kind.show_choice(wish.kind)
        show_or_put_away(self.sweep, shown=wish.kind == SWEEP)
        self.sweep.show_sweep(wish.sweep, setup.inputs, self.subject.lengths)
        self.ending.show_choice(wish.ending)
        self.scale.show_choice(wish.scale)
        for box, on in (
            (self.named, wish.named),
            (self.back, bool(played and wish.goes_back(played))),
        ):
            box.blockSignals(True)
            box.setChecked(on)
            box.blockSignals(False)
        self.seconds.show_value(None if played is None else wish.lasts(played))
        self._seen = None
        self.save.setEnabled(False)
        self.foretold.setText(self.tr("Looking how large it will be…"))
        self._tell("")
        self._looks.submit(self._looking(wish))

    def _looking(self, wish: Wish) -> Steps[Seen | str]:
        """What a wish comes to, or why it cannot be had."""
        try:
            return (yield from self.subject.seen(wish))
        except (ValueError, MemoryError, OSError) as error:
            return as_sentence(self._why(error))

    def _why(self, error: Exception) -> str:
        return reason_sentence(error, self.subject.lengths) or _no_memory()

    def _show_seen(self, seen: Seen | str) -> None:
        if isinstance(seen, str):
            self.foretold.setText("")
            self.picture.clear()
            self._tell(seen)
            return
        self._seen = seen
        shown = QPixmap.fromImage(seen.picture)
        ratio = self.devicePixelRatioF()
        shown = shown.scaled(
            self.picture.size() * ratio,
            Qt.AspectRatioMode.KeepAspectRatio,
            Qt.TransformationMode.SmoothTransformation,
        )
        shown.setDevicePixelRatio(ratio)
        self.picture.setPixmap(shown)
        self.foretold.setText(
            self.tr("{count} pictures of {width} × {height}, about {size} MB.").format(
                count=seen.count,
                width=seen.picture.width(),
                height=seen.picture.height(),
                size=plain(max(seen.size / 1e6, 0.1)),
            )
        )
        self.save.setEnabled(not self.busy)

    def _tell(self, words: str) -> None:
        self.problem.setText(words)
        self.problem.setVisible(bool(words))

    @property
    def busy(self) -> bool:
        """Whether a clip is being made."""
        return bool(self._paths)

    def _show_busy(self, *, busy: bool) -> None:
        self.progress.setVisible(busy)
        self.progress.setValue(0)
        self._form.setEnabled(not busy)
        self.save.setVisible(not busy)
        self.leave.setText(self.tr("Cancel") if busy else self.tr("Close"))

    # Asking

    def _choose(self, kind: str) -> None:
        """Have something else move, as long and in the way that suits it."""
        self._ask(replace(self.wish, kind=kind, seconds=None, back=None))

    def _leave(self) -> None:
        """Cancel what is being made, or else close."""
        if self.busy:
            self.cancel()
        else:
            self.reject()

    def done(self, result: int) -> None:
        """Close; what is being made, and what is typed, is dropped."""
        self.cancel()
        self._looks.drop()
        for editor in list(editors_in(self)):
            editor.forget()
        super().done(result)

    def ask_and_make(self) -> None:
        """Ask for a file, or a folder, and make the clip."""
        for editor in list(editors_in(self)):
            editor.finish()
        if self._seen is None or any(editor.draft is not None for editor in editors_in(self)):
            return
        paths = self._asked_where(self._seen.count)
        if paths:
            self._make(paths)

    def _asked_where(self, count: int) -> list[Path]:
        """The files to write; none where nothing is to be written."""
        title, ending = self.tr("Save clip"), self.wish.ending
        if ending in ENDINGS:
            suggested = Path(self._folder()) / f"{self._name}{ending}"
            path = asked_where(self, title, suggested, tr(_FILTERS[ending]), ending)
            return [path] if path is not None else []
        folder = asked_for_folder(self, title, self._folder())
        if folder is None:
            return []
        paths = numbered_paths(folder, self._name, count)
        there = [path.name for path in paths if path.exists()]
        some = ", ".join(there[:3]) + ("…" if len(there) > 3 else "")
        return [] if there and not asked_to_replace(self, some) else paths

    # Making

    def _make(self, paths: list[Path]) -> None:
        self._paths = paths
        self._show_busy(busy=True)
        self._paints.submit(self._painting(self.wish))

    def _painting(self, wish: Wish) -> Steps[Reel | list[bytes] | str]:
        """All pictures, or why there are none; shows how far it is."""
        numbered = wish.ending == NUMBERED
        steps = self.subject.numbered(wish) if numbered else self.subject.reel(wish)
        count = self._seen.count if self._seen is not None else 1
        done = 0
        try:
            while True:
                try:
                    next(steps)
                except StopIteration as end:
                    made: Reel | list[bytes] = end.value
                    return made
                self.progress.setValue(round(_PAINTED * done / count))
                done += 1
                yield
        except (ValueError, MemoryError, OSError) as error:
            return self._why(error)

    def _take_pictures(self, made: Reel | list[bytes] | str) -> None:
        if isinstance(made, str):
            self._fail(made)
        elif isinstance(made, list):
            self._write(made)
        else:
            self._joins.submit(partial(_file, made, self.wish.ending), self._paths)

    def _take_file(self, made: bytes | str) -> None:
        # What comes after it was cancelled is for paths that nobody waits for.
        if self._joins.key is not self._paths:
            return
        if isinstance(made, str):
            self._fail(made)
        else:
            self._write([made])

    def _write(self, files: list[bytes]) -> None:
        paths = self._paths
        try:
            if len(files) == 1:
                write_atomically(paths[0], files[0])
            else:
                write_all(paths, files)
        except FileError as error:
            self._fail(str(error))
            return
        self.cancel()
        self.accept()
        self.wrote.emit(paths[0] if len(paths) == 1 else paths[0].parent)

    def _fail(self, why: str) -> None:
        self.cancel()
        if told_not_saved(self, why):
            self.ask_and_make()

    def cancel(self) -> None:
        """Drop what is being made; nothing of it is written."""
        self._paths = []
        self._paints.drop()
        self._show_busy(busy=False)


def _file(reel: Reel, ending: str) -> bytes | str:
    """The clip as the bytes of a file, or why there is none."""
    try:
        return reel.file(ending)
    except (OSError, MemoryError, ValueError) as error:
        return str(error) or _no_memory()


def _no_memory() -> str:
    """What is to be said where nothing is said by itself."""
    return tr("there is no memory for it")

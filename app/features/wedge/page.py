"""The page about a wedge to print: what it is made to, its plan, and its files."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QHideEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.features.wedge.form import FILES, PAD, WedgeForm
from app.features.wedge.model import (
    file_name,
    measures,
    part_of,
    problems,
    side_of,
    slopes_of,
    with_holes,
    with_number,
    with_slopes,
    with_spots,
)
from app.features.wedge.scene import scene_wedge, scene_wedge_views
from app.features.wedge.stl_dxf import save_dxf, save_stl
from app.features.wedge.units import PartLengths
from app.features.wedge.words import Part
from app.files.safe_files import FileError
from app.frame import Frame
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.page_words import ScrolledWords
from app.qt.drafts import settle
from app.qt.literal import show_tip
from app.qt.painting.scene_picture import LargeDrawing
from app.qt.painting.snug_picture import SnugPicture
from app.qt.questions import asked_where, told_not_saved
from app.qt.sizes import px
from app.rider.inputs import FIELD
from app.rider.setup import Setup
from app.rider.wedge import AS_LOW_AS_CAN_BE, HOLES, SLOPES, WedgeInputs
from app.session import Session
from app.words.field import IN_OUT, Field
from app.words.language import msgid, tr, within
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence, in_words, spoken
from geometry.hardware.plane import Spot

WIDE: Final = 860
"""From this width on, the elevations have room beside the plan (px)."""
SIGNED: Final = {"lift_deg": FIELD["front_lift_deg"], "cant_deg": FIELD["front_cant_deg"]}
"""Where the words for the signs of lift and cant are."""
_WAYS: Final = (msgid("inward"), msgid("outward"))
"""Which way a cant goes, beside its name."""
_FOR: Final = {
    ("front", "left"): msgid("Wedge for the front foot, left"),
    ("front", "right"): msgid("Wedge for the front foot, right"),
    ("rear", "left"): msgid("Wedge for the rear foot, left"),
    ("rear", "right"): msgid("Wedge for the rear foot, right"),
}


class WedgePage(QWidget):
    """Shows the wedge that a set-up asks for; asks for another, and saves it."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._part: Part | None = None
        self._lengths = PartLengths()
        self._refusals = {"numbers": "", "holes": ""}
        self.large: LargeDrawing | None = None
        self._build()

    # Building

    def _build(self) -> None:
        self.setAccessibleName(self.tr("Printed wedge"))
        self.form = WedgeForm(self._session, self._now)
        self.rows = self.form.rows
        self.words = ScrolledWords(self.tr("About the wedge"))
        self.picture = SnugPicture()
        # The buttons stay where they are without it.
        policy = self.picture.sizePolicy()
        policy.setRetainSizeWhenHidden(True)
        self.picture.setSizePolicy(policy)
        said = in_column(self.words, margins=(PAD, 0, 0, 0))
        left = in_column(self.form, (said, 1), spacing=4)
        right = in_column((self.picture, 1), self.form.buttons(), spacing=4)
        in_row(left, (right, 1), of=self, spacing=8, margins=(0, 6, 12, 8))
        self._connect()

    def _connect(self) -> None:
        form = self.form
        for row in self.rows.values():
            row.asked.connect(self._ask)
            row.told.connect(partial(self._tell, "numbers"))
        form.foot.chosen.connect(self._choose_foot)
        form.slopes.chosen.connect(partial(self._choose, SLOPES, with_slopes))
        form.holes.chosen.connect(partial(self._choose, HOLES, with_holes))
        form.spots.lines.asked.connect(self._ask_spots)
        form.spots.lines.told.connect(partial(self._tell, "holes"))
        form.open.clicked.connect(self._open_large)
        for ending, button in form.saves.items():
            button.clicked.connect(partial(self._save, ending))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Draw the elevations too, or no more, as there is room."""
        super().resizeEvent(event)
        self._draw()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: N802
        """Close the large drawing with the page: nobody would tell it of changes."""
        super().hideEvent(event)
        if self.large is not None and not event.spontaneous():
            self.large.close()

    # Showing

    def show_frame(self, frame: Frame, *, dragging: bool) -> None:
        """Show the wedge of a set-up."""
        setup, shown = frame.setup, (self._setup, self._lengths)
        self._lengths = PartLengths(frame.lengths.name)
        self._show_choices(setup)
        # Start values take a whole fit: they wait for the end of a drag.
        late = dragging and setup.wedge.slopes == "start"
        if (setup, self._lengths) == shown or late:
            return
        if setup != self._setup:
            self._setup = setup
        # What was refused was told in the unit of then; the drawing is in that of now.
        if self._lengths != shown[1]:
            self._refusals["numbers"], self._part = "", None
        self._show(dragging=dragging)

    def _show_choices(self, setup: Setup) -> None:
        self.form.show_choices(setup, self._lengths)
        for name, row in self.rows.items():
            if name not in {*SIGNED, AS_LOW_AS_CAN_BE}:
                row.show_value(getattr(setup.wedge, name))

    def _show(self, *, dragging: bool = False) -> None:
        setup = self._setup
        if setup is None:
            return
        try:
            slopes = slopes_of(setup)
            for (name, field), value in zip(SIGNED.items(), slopes, strict=True):
                self.rows[name].show_value(value)
                self.rows[name].set_remark(_remark(field, value))
            part = part_of(setup, slopes)
        except ValueError as error:
            self._show_nothing(reason_phrase(error, self._lengths), aloud=not dragging)
            return
        self._show_level(setup.wedge, part.wedge.level)
        if part != self._part:
            self._part = part
            self._draw()
            self.picture.show()
        lengths = self._lengths
        self._say(problems(part, lengths), measures(part, lengths), aloud=not dragging)
        if self.large is not None and self.large.isVisible() and not dragging:
            self.large.show_scene(scene_wedge(part, self._lengths))

    def _draw(self) -> None:
        if self._part is not None:
            wide = self.width() >= px(WIDE)
            scene = scene_wedge_views(self._part, elevations=wide, lengths=self._lengths)
            self.picture.show_scene(scene)

    def _show_nothing(self, why: str, *, aloud: bool) -> None:
        """Say why there is no wedge at all."""
        self._part = None
        self.picture.hide()
        if self._setup is not None:
            self._show_level(self._setup.wedge, 0.0)
        self._say(as_sentence(why), "", aloud=aloud)
        if self.large is not None:
            self.large.close()

    def _show_level(self, wedge: WedgeInputs, level: float) -> None:
        row = self.rows[AS_LOW_AS_CAN_BE]
        if wedge.centre_height_mm:
            row.show_value(wedge.centre_height_mm)
        else:
            row.show_empty(self._lengths.amount(level) if level else "")

    def _say(self, flags: str, words: str, *, aloud: bool) -> None:
        caution = self.tr("Read the caution on the large drawing before you make it.")
        for button in self.form.saves.values():
            button.setEnabled(self._part is not None and not flags)
            show_tip(button, flags or self.tr("In millimetres, whichever unit is chosen."))
        self.form.open.setEnabled(self._part is not None)
        said = (words, caution if words else "")
        self.words.say(
            "\n".join(filter(None, (*self._refusals.values(), flags))),
            "\n".join(filter(None, said)),
            aloud=aloud,
        )

    # Asking

    def _now(self, name: str) -> float:
        """The value in force of a number, typed or not."""
        setup = self._session.setup
        if name == AS_LOW_AS_CAN_BE and not setup.wedge.centre_height_mm:
            return self._part.wedge.level if self._part is not None else 0.0
        if name in SIGNED:
            try:
                return float(getattr(slopes_of(setup), name))
            except ValueError:
                pass
        value: float = getattr(setup.wedge, name)
        return value

    def _ask(self, name: str, value: float) -> None:
        setup, field = self._session.setup, self.rows[name].field
        after = with_number(setup, name, value)
        if name in SIGNED:
            said = spoken(SIGNED[name], value)
        elif name == AS_LOW_AS_CAN_BE and not value:
            said = self.tr("as low as can be")
        else:
            said = self._lengths.shown(value, field.unit)
        what = self.tr("Wedge, {number}: {value}")
        self._session.take(what.format(number=within(field.label), value=said), after)

    def _choose_foot(self, foot: str) -> None:
        setup = self._session.setup
        what = self.tr(_FOR[foot, side_of(setup, foot)])
        self._session.take(what, replace(setup, wedge=replace(setup.wedge, foot=foot)))

    def _choose(
        self, choices: dict[str, str], change: Callable[[Setup, str], Setup], choice: str
    ) -> None:
        what = self.tr("Wedge: {choice}").format(choice=within(tr(choices[choice])))
        self._session.take(what, change(self._session.setup, choice))

    def _ask_spots(self, spots: tuple[Spot, ...]) -> None:
        what = self.tr("Wedge, holes as typed: {}").format(len(spots) or self.tr("none"))
        self._session.take(what, with_spots(self._session.setup, spots))

    def _tell(self, of: str, refusal: str) -> None:
        if refusal != self._refusals[of]:
            self._refusals[of] = refusal
            self._show()

    # Files and the large drawing

    def _settle(self) -> None:
        """Have what is typed entered, and the wedge made to it."""
        settle(self)
        if self._session.setup != self._setup:
            self._setup = self._session.setup
            self._show()

    def _open_large(self) -> None:
        self._settle()
        if self._part is None:
            return
        if self.large is None:
            self.large = LargeDrawing(self)
        self.large.show_scene(scene_wedge(self._part, self._lengths))
        self.large.show()
        self.large.activateWindow()

    def _save(self, ending: str) -> None:
        self._settle()
        path = saved(self, self._part, ending) if self._part is not None else None
        if path is not None:
            self._session.wrote.emit(path)


def _remark(field: Field, value: float) -> str:
    """What the sign of a lift or a cant means, short enough to stand beside its name."""
    word = in_words(field, value)
    if field.signs != IN_OUT or word not in map(tr, IN_OUT):
        return word
    return tr(_WAYS[value < 0.0])


WRITERS: Final = {"stl": save_stl, "dxf": save_dxf}
"""What writes a wedge, by the ending of the file."""


def saved(parent: QWidget, part: Part, ending: str) -> Path | None:
    """Ask for a file and write a wedge there; None where that was not wanted, or could not be.

    Args:
        parent: the widget over which to ask, and to say what went wrong.
        part: the wedge.
        ending: of the file, a key of :data:`WRITERS`.
    """
    kind = FILES[ending]
    path = asked_where(
        parent,
        tr("Save {}").format(kind),
        file_name(part, ending),
        tr("{} file, in millimetres (*.{})").format(kind, ending),
        f".{ending}",
    )
    if path is None:
        return None
    why_not = _why_not_written(WRITERS[ending], path, part)
    if not why_not:
        return path
    return saved(parent, part, ending) if told_not_saved(parent, why_not) else None


def _why_not_written(write: Callable[[Path, Part], None], path: Path, part: Part) -> str:
    """Why a wedge could not be written, in words; "" once it is."""
    QGuiApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
    try:
        write(path, part)
    except FileError as error:
        return str(error)
    finally:
        QGuiApplication.restoreOverrideCursor()
    return ""

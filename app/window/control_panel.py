"""The controls at the left of the window, in groups that fold."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import Final

from PySide6.QtCore import QPoint, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QFrame, QScrollArea, QWidget

from app.qt.controls.entry_row import Row
from app.qt.controls.layout import in_column, in_row
from app.qt.controls.section import Section
from app.qt.controls.switch import Choice, SwitchRow
from app.qt.painting.palette import typeface
from app.qt.sizes import px, stacked
from app.rider.inputs import ENDS, FIELD, FIELDS, GROUPS, InputError, Inputs, differing, sided_names
from app.rider.setup import (
    BOOTS,
    LEG_NAMES,
    LEGS,
    Known,
    Setup,
    as_estimated,
    estimated,
    kept_as_measured,
    unmeasured,
    with_sides,
)
from app.session import Session
from app.stance.foot_bed import bed_words, beds_words
from app.window.control_row import ControlRow
from app.window.height_box import HeightBox
from app.window.sided_rows import APART, SidedRows
from app.words.field import Field
from app.words.language import msgid, tr
from app.words.lengths import Lengths
from app.words.reasons import reason_phrase
from geometry.reasons import ImpossibleError

WIDTH: Final = 324
"""At the usual size of letters; where labels stand over their fields, less is enough (px)."""
_STACKED_WIDTH: Final = 206
_LEG_ROWS: Final = frozenset({*LEG_NAMES, *(f.name for f in FIELDS if f.group == LEGS)})
"""Names of the rows that measures of the legs may stand in, for both legs or for one."""
_RAMP: Final = "boot_ramp_deg"
_IN_SIGHT: Final = 12
"""How far from the edge what the keyboard came to is scrolled."""

POINTED_OUT_MS: Final = 2000
"""How long rows stay lit that were changed from elsewhere."""
MOST_POINTED_OUT: Final = 12
"""More inputs than this were not changed but replaced: by another file, for one."""

_FEET_HELP: Final = {
    "left": msgid("The left foot stands in front (regular)."),
    "right": msgid("The right foot stands in front (goofy)."),
}
_LINK_HELP: Final = {
    "apart": msgid("Each binding angle moves by itself."),
    "together": msgid("Turn one binding and the other turns with it, by as much the same way."),
    "mirrored": msgid(
        "Turn one binding and the other turns against it by as much, as for a duck stance."
    ),
}
SWITCHES: Final = {"lead_foot": msgid("Lead foot"), "link": msgid("Binding angles")}
"""The choices among the controls, and what they are called."""
_WORDS: Final = {
    "left": msgid("left"),
    "right": msgid("right"),
    "apart": msgid("apart"),
    "together": msgid("together"),
    "mirrored": msgid("mirrored"),
}
"""What the positions of the switches are called."""
_SIDES_SET: Final = {
    (LEGS, True): msgid("Each leg for itself"),
    (LEGS, False): msgid("Both legs alike"),
    (BOOTS, True): msgid("Each boot for itself"),
    (BOOTS, False): msgid("Both boots alike"),
}
"""What such a step is called in the history."""


def width() -> int:
    """Of the panel (px)."""
    return max(px(_STACKED_WIDTH), WIDTH) if stacked() else px(WIDTH)


class ControlPanel(QScrollArea):
    """Shows a set-up and asks the session for changes of it; keeps no state of its own.

    Whoever owns it calls :meth:`show_setup` after each change of the session.

    Args:
        session: takes the edits.
    """

    pointed = Signal(str)
    """The name of the input under the mouse, else under the keyboard, else ""."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._shown: Setup | None = None
        self._lengths = session.lengths
        self._told: tuple[str, ...] = ()
        self._defaults_of: tuple[Known, Setup, tuple[str, ...]] | None = None
        self._pointed = self._lit = self._hovered = self._focused = ""
        self._pointed_out: list[Row] = []
        self._moment = QTimer(self, singleShot=True, interval=POINTED_OUT_MS)
        self._moment.timeout.connect(self._dim)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setMinimumWidth(width())
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(self.tr("Controls"))
        self.setFont(typeface())
        self._build()
        self.show_setup(session.setup)
        session.went.connect(self.show_changes)
        session.put_on.connect(self._show_put_on)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._bring_into_sight)

    def sizeHint(self) -> QSize:  # noqa: N802
        return QSize(width(), 700)

    # Building

    def _build(self) -> None:
        self.sections = {key: Section(self.tr(title)) for key, title in GROUPS.items()}
        self.rows: dict[str, ControlRow] = {}
        self.lead_foot = self._switch("lead_foot", _FEET_HELP)
        self.lead_foot.chosen.connect(lambda foot: self._session.edit(lead_foot=foot))
        self.link = self._switch("link", _LINK_HELP)
        self.link.chosen.connect(self._set_link)
        self.height_box = HeightBox()
        self.height_box.known.connect(self._estimate)
        self.sections["stance"].add(self.lead_foot)
        self.sections["stance"].add(self.link)
        self.sections[LEGS].add(self.height_box)
        self.sides: dict[str, SidedRows] = {}
        for key, section in self.sections.items():
            self._fill(key, section)
        self.setWidget(self._column())
        for row in self.rows.values():
            QWidget.setTabOrder(row.slider, row.number)
        for each in (self.lead_foot, self.link, *(s.switch for s in self.sides.values())):
            each.hovered.connect(self._hover)
            each.focused.connect(self._focus)

    def _switch(self, name: str, helps: dict[str, str]) -> SwitchRow:
        choices = [Choice(key, self.tr(_WORDS[key]), self.tr(text)) for key, text in helps.items()]
        return SwitchRow(name, self.tr(SWITCHES[name]), choices)

    def _fill(self, key: str, section: Section) -> None:
        """The rows of one group; the mounts stand in two columns, the front foot first."""
        if key in {LEGS, BOOTS}:
            sides = self.sides[key] = SidedRows(key, section, self._made_row)
            sides.switch.chosen.connect(lambda how: self._set_sides(key, apart=how == APART))
            return
        compact = key == "mounts" and not stacked()
        fields = [field for field in FIELDS if field.group == key]
        rows = [self._made_row(field, compact=compact) for field in fields]
        if compact:
            front = [row for row in rows if row.hue == "front"]
            rear = [row for row in rows if row.hue == "rear"]
            section.add(_columns(front, rear))
            return
        for row in rows:
            section.add(row)

    def _made_row(self, field: Field, *, compact: bool = False) -> ControlRow:
        """The row of an input, wired to this panel."""
        row = self.rows[field.name] = ControlRow(self._session, field, compact=compact)
        row.show_lengths(self._lengths)
        row.reset.connect(self._reset)
        row.hovered.connect(self._hover)
        row.focused.connect(self._focus)
        return row

    def _column(self) -> QWidget:
        column = QWidget()
        in_column(*self.sections.values(), 1, of=column, spacing=0)
        return column

    # Showing

    def show_setup(self, setup: Setup) -> None:
        """Show a set-up; nothing is reported, and only what differs is touched."""
        before, self._shown = self._shown, setup
        others = self._show_sides(before, setup)
        for name in self._told:
            self.rows[name].show_value(setup.inputs.value(name))
        self._show_beds(setup.inputs)
        self.lead_foot.show_choice(setup.inputs.lead_foot)
        self.link.show_choice(self._session.link)
        if before is None or setup.known != before.known:
            self.height_box.show_known(setup.known)
        self.height_box.show_kept(kept_as_measured(setup))
        self._show_defaults(setup.known)
        if others or before is None or _origins(setup) != _origins(before):
            self._show_origins(setup)

    def _show_sides(self, before: Setup | None, setup: Setup) -> bool:
        """Show left and right together or apart; True where other rows are shown now."""
        if before is not None and _sides(setup) == _sides(before):
            return False
        others = [sides.show_sides(setup) for sides in self.sides.values()]
        if not any(others):
            return False
        told = [name for sides in self.sides.values() for name in sides.names()]
        one = [name for name, row in self.rows.items() if row.field.group not in self.sides]
        self._told = *one, *told
        return True

    @property
    def shown_names(self) -> tuple[str, ...]:
        """Names of the inputs that have a row in the panel now."""
        return self._told

    def _show_beds(self, inputs: Inputs) -> None:
        """Beside each ramp, the slope that the foot has with it."""
        ends = {f"{inputs.side(end)}_{_RAMP}": bed_words(inputs, end) for end in ENDS}
        for name, words in {_RAMP: beds_words(inputs), **ends}.items():
            if name in self._told:
                self.rows[name].show_aside(words)

    def _leg_rows(self) -> list[str]:
        return [name for name in self._told if name in _LEG_ROWS]

    def _show_defaults(self, known: Known) -> None:
        """Where double-clicks lead: to an estimate, or to what the set-up was started from."""
        start, told = self._session.start, self.shown_names
        if (known, start, told) == self._defaults_of:
            return
        self._defaults_of = known, start, told
        for name in told:
            legs = name in _LEG_ROWS
            default = unmeasured(known, name, start) if legs else start.inputs.value(name)
            self.rows[name].show_default(default)

    def _show_origins(self, setup: Setup) -> None:
        spreads = dict(setup.spreads)
        for name in self._leg_rows():
            spread = spreads.get(setup.inputs.in_front(name), 0.0)
            self.rows[name].show_origin(setup.origin(name), spread)

    def show_lengths(self, lengths: Lengths) -> None:
        """Write and read lengths in another unit; the values stay what they are."""
        self._lengths = lengths
        for row in (*self.rows.values(), *self.height_box.rows.values()):
            row.show_lengths(lengths)
        if self._shown is not None:
            self._show_origins(self._shown)

    def highlight(self, name: str) -> None:
        """Light up the row of an input, or none with ""."""
        if name == self._lit:
            return
        for old_or_new in (self._lit, name):
            for row in self._rows_of(old_or_new):
                row.set_lit(old_or_new == name)
        self._lit = name

    def _rows_of(self, name: str) -> list[Row]:
        """The row of an input; those of both sides where it has one for each."""
        switches: dict[str, Row] = {"lead_foot": self.lead_foot, "link": self.link}
        rows: dict[str, Row] = {**switches, **self.rows}
        return [rows[each] for each in {name, *sided_names(name)} if each in rows]

    # Asking

    def _set_link(self, link: str) -> None:
        self._session.link = link

    def _set_sides(self, group: str, *, apart: bool) -> None:
        """Set a group for either side by itself, or for both at once."""
        setup = with_sides(self._session.setup, group, apart=apart)
        self._session.take(tr(_SIDES_SET[group, apart]), setup)

    def _reset(self, name: str) -> None:
        """Back to the default; a leg dimension, to what it would be unmeasured."""
        if name in _LEG_ROWS:
            setup = as_estimated(self._session.setup, name, self._session.start)
            self._session.take(FIELD[name].label, setup)
        else:
            self._session.edit(**{name: self._session.start.inputs.value(name)})

    def _estimate(self, name: str, value: float | str | None) -> None:
        try:
            setup = estimated(self._session.setup, self._session.start, **{name: value})
        except (InputError, ImpossibleError) as error:
            self.height_box.refuse(name, value, reason_phrase(error, self._session.lengths))
            return
        self._session.take(self.tr("Estimates"), setup)

    # Pointing

    def _show_put_on(self, _told: str, before: Setup) -> None:
        """Point out what was put on; a method, so that it goes with a panel that is made anew."""
        self.show_changes(before)

    def show_changes(self, before: Setup) -> None:
        """Point out what was changed from elsewhere, unless nearly everything was.

        Args:
            before: the set-up before.
        """
        setup = self._session.setup
        self.show_setup(setup)
        names = [field.name for field in differing(before.inputs, setup.inputs)]
        if len(names) <= MOST_POINTED_OUT:
            self.point_out(names)

    def point_out(self, names: Iterable[str]) -> None:
        """Bring rows into sight, out of their groups, and light them for a moment."""
        shown = [name for name in names if any(not row.isHidden() for row in self._rows_of(name))]
        for name in shown:
            if name in self.rows:
                self.sections[self.rows[name].field.group].set_open(True)
        rows = [row for name in shown for row in self._rows_of(name) if not row.isHidden()]
        if not rows:
            return
        self._dim()
        self._pointed_out = rows
        for row in rows:
            row.set_lit(True)
        self._moment.start()
        # After the layout has made room for what was folded.  The first row last: it wins
        # where there is no room for all.
        QTimer.singleShot(0, self, partial(self._show_rows, rows))

    def _show_rows(self, rows: list[Row]) -> None:
        rows = sorted(rows, key=lambda row: row.mapToGlobal(QPoint(0, 0)).y())
        for row in (rows[-1], rows[0]):
            self.ensureWidgetVisible(row, 0, _IN_SIGHT)

    def _dim(self) -> None:
        """Light only what is pointed at."""
        for row in self._pointed_out:
            row.set_lit(row in self._rows_of(self._lit))
        self._pointed_out = []

    def go_to(self, name: str) -> None:
        """Put the keyboard on an input's slider, in sight and its group unfolded."""
        switch = {"lead_foot": self.lead_foot, "link": self.link}.get(name)
        self.sections["stance" if switch else self.rows[name].field.group].set_open(True)
        target = switch.chosen_segment if switch else self.rows[name].slider
        target.setFocus(Qt.FocusReason.TabFocusReason)
        self.point_out([name])
        self.ensureWidgetVisible(target, 0, px(_IN_SIGHT))

    def _bring_into_sight(self, _before: QWidget | None, now: QWidget | None) -> None:
        """Scroll to what the keyboard came to; under a hand on the mouse nothing may move."""
        pressed = QGuiApplication.mouseButtons() != Qt.MouseButton.NoButton
        if now is not None and not pressed and self.isAncestorOf(now):
            self.ensureWidgetVisible(now, 0, _IN_SIGHT)

    def _hover(self, name: str, here: bool) -> None:
        if here or self._hovered == name:
            self._hovered = name if here else ""
            self._point()

    def _focus(self, name: str, here: bool) -> None:
        if here or self._focused == name:
            self._focused = name if here else ""
            self._point()

    def _point(self) -> None:
        name = self._hovered or self._focused
        if name != self._pointed:
            self._pointed = name
            self.pointed.emit(name)


def _sides(setup: Setup) -> tuple[object, ...]:
    """What decides how the rows of left and right are shown."""
    inputs = setup.inputs
    return setup.apart, inputs.lead_foot, inputs.left, inputs.right


def _origins(setup: Setup) -> tuple[object, ...]:
    """Whatever says where the leg dimensions come from."""
    return setup.measured, setup.spreads, setup.examples, setup.inputs.lead_foot


def _columns(*columns: list[ControlRow]) -> QWidget:
    """Rows in columns side by side."""
    holder = QWidget()
    in_row(*(in_column(*rows, spacing=0) for rows in columns), of=holder, spacing=0)
    return holder

"""The combinations of parts for both feet, and what to do for the one that is looked at."""

from __future__ import annotations

from functools import partial
from typing import Any, Final, NamedTuple

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from app.features.answer.put_button import put_on, update_apply_button
from app.features.parts.asked import limits_words
from app.features.parts.bench import caution
from app.features.parts.choice_table import ChoiceTable
from app.features.parts.combining import (
    SOLES,
    TURNS_DEG,
    Combinations,
    Turned,
    combinations_of,
    mounts_of,
    pair_of_angles,
    row_texts,
    setting_words,
    turned,
    turned_words,
    wanted_words,
)
from app.features.parts.feet import feet_html, feet_words, paragraphs
from app.features.parts.put_row import put_row
from app.features.parts.ranking import RANKED_BY
from app.features.parts.scene import scene_parts
from app.qt.background import Background
from app.qt.controls.layout import grid_of, in_row
from app.qt.controls.page_words import ScrolledWords
from app.qt.controls.steady_button import SteadyButton
from app.qt.controls.switch import Choice, SwitchRow
from app.qt.controls.typed_row import PlainNumber
from app.qt.drafts import show_or_put_away
from app.qt.literal import Label, Markup, joined, markup, say_about
from app.qt.painting.snug_picture import SnugPicture
from app.qt.settling import Settling
from app.qt.sizes import px
from app.qt.themes import current_theme, follow_theme
from app.rider.inputs import FIELD
from app.rider.setup import Setup
from app.session import Session
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.needs import Mounts, mounts_now, with_mounts
from app.words.language import msgid, tr
from app.words.reasons import reason_sentence
from app.words.sentences import plain
from geometry.hardware.combinations import Combination

_WANTED: Final = (
    Choice(
        "needs",
        msgid("begin with", "as a choice"),
        msgid("What both feet begin with, and the cants that keep the knees in plane."),
    ),
    Choice(
        "typed",
        msgid("typed", "as a choice"),
        msgid("One lift and one cant for each foot, typed here."),
    ),
)
WIDE: Final = 860
"""From this width on, the drawing stands beside the words (px)."""
TABLE_WIDTH: Final = 386
_TWO_LINES: Final = 34
_SHORT: Final = (msgid("Front lift"), msgid("cant"), msgid("Rear lift"), msgid("cant"))
_CELL: Final = "<td style='padding-right:9px; {style}'>{words}</td>"
_FOOT: Final = {"front": msgid("front"), "rear": msgid("rear")}


class _Looked(NamedTuple):
    """What is said of the combination looked at, made once for all that say it."""

    chosen: Combination
    settings: tuple[tuple[str, str], ...]
    turned: tuple[Turned, Turned]


class CombinationsPanel(QWidget):
    """Seeks combinations once nothing changes any more, and puts one on the mounts."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._by_hand: Mounts | None = None
        self._typed: Mounts | None = None
        self._limits = USUAL_LIMITS
        self._found: Combinations | None = None
        self._looked: _Looked | None = None
        self._asked_for: Any = None
        self._found_for: Any = None
        self._which = 0
        self._measured_for: Any = None
        self._in_line = True
        """Whether lift and cant have room beside each other."""
        self._problem: ValueError | None = None
        self._refusal = ""
        self._background = Background(self)
        self._background.done.connect(lambda found: self._take(found, None))
        self._background.failed.connect(lambda problem: self._take(None, problem))
        self._settling = Settling(self, self._compute)
        self._build()
        follow_theme(self._say)

    # Building

    def _build(self) -> None:
        self.table = ChoiceTable(self.tr("Combinations"), (*SOLES, *RANKED_BY))
        self.table.chosen.connect(self._look_at)
        self.words = ScrolledWords(self.tr("What to set"))
        self.put = SteadyButton(self.tr("Put this on"))
        self.put.clicked.connect(self._put)
        self._put_row = put_row(self.put)
        self.picture = SnugPicture()
        self._grid = grid = grid_of(self, (14, 6))
        grid.addLayout(self._wishes(), 0, 0, 1, 3)
        self.table.setMinimumWidth(px(TABLE_WIDTH))
        grid.addWidget(self.table, 1, 0, 3, 1)
        self._lay_out()

    def _lay_out(self) -> None:
        """Words beside the drawing where there is room, else over it."""
        wide = self.width() >= px(WIDE)
        self._grid.addWidget(self.words, 1, 1)
        self._grid.addWidget(self.picture, *((1, 2) if wide else (2, 1)))
        self._grid.addWidget(self._put_row, 3, 1, 1, 2 if wide else 1)
        for column, stretch in enumerate((14, 6, 5) if wide else (6, 5, 0)):
            self._grid.setColumnStretch(column, stretch)
        self._grid.setRowStretch(1, 4)
        self._grid.setRowStretch(2, 0 if wide else 5)

    def _wishes(self) -> QHBoxLayout:
        choices = [
            each._replace(text=tr(each.text, "as a choice"), help=tr(each.help)) for each in _WANTED
        ]
        self.wanted = SwitchRow("wanted", self.tr("Wanted"), choices)
        self.wanted.setFixedWidth(px(230))
        self.wanted.show_choice("needs")
        self.wanted.chosen.connect(self._want)
        self.numbers: dict[str, PlainNumber] = {}
        self.bands = Label()
        self.bands.setWordWrap(True)
        self.bands.setFixedHeight(px(_TWO_LINES))
        self._fields = QWidget()
        fields = in_row(of=self._fields, spacing=6)
        for name, short in zip(Mounts._fields, _SHORT, strict=True):
            number = PlainNumber(FIELD[name])
            number.asked.connect(self._ask)
            number.told.connect(self._tell)
            label = Label(tr(short))
            label.setBuddy(number)
            fields.addWidget(label)
            fields.addWidget(number)
            self.numbers[name] = number
        self._fields.setFixedHeight(px(_TWO_LINES))
        self._fields.hide()
        return in_row(self.wanted, (self.bands, 1), self._fields, 0, spacing=6)

    # Showing

    def reveal(self, widget: QWidget) -> None:
        """Want what is typed, so that a number of it can be seen."""
        if self._fields.isHidden() and self._fields.isAncestorOf(widget):
            self._want("typed")

    def show_setup(self, setup: Setup, limits: Limits = USUAL_LIMITS, *, dragging: bool) -> None:
        """Have the combinations for a set-up sought once nothing is dragged."""
        self._setup, self._limits = setup, limits
        self._asked_for = self._key(setup)
        stale, first = self._asked_for != self._found_for, self._found_for is None
        self._settling.follow(stale=stale, dragging=dragging, at_once=first)
        self._say()

    def _key(self, setup: Setup) -> Any:
        return setup.inputs, setup.parts, setup.trials, setup.growing, self._by_hand, self._limits

    def _compute(self) -> None:
        if self._setup is not None:
            job = partial(combinations_of, self._setup, self._by_hand, self._limits)
            self._background.submit(job, self._key(self._setup))

    def _take(self, found: Combinations | None, problem: ValueError | None) -> None:
        """Show what was found or why nothing was, if it is still what is wanted."""
        if self._background.key != self._asked_for:
            return
        self._found_for, self._found, self._problem = self._asked_for, found, problem
        many = len(found.ranked) if found else 0
        self._which = min(self._which, max(many - 1, 0))
        self._look()
        self._say()

    def _look(self) -> None:
        """Have all that is said of the combination looked at."""
        found, self._looked = self._found, None
        if found is not None:
            chosen = found.ranked[self._which]
            settings = setting_words((chosen.front, chosen.rear), found.setup)
            self._looked = _Looked(chosen, settings, turned(chosen, found.parts))

    def _say(self) -> None:
        found = self._found
        stale = self._asked_for != self._found_for
        self.table.setEnabled(not stale)
        self._show_rows()
        flags = self._flags()
        said = self._html(found, self._looked) if found and self._looked else markup("")
        self.words.say(flags, said, aloud=not stale)
        if found is not None and not isinstance(found.wanted, Mounts):
            self.bands.setText(wanted_words(found.wanted))
        if found and self._looked:
            self._describe(flags, self._looked)
            self._draw(found, self._looked)
        self._offer(stale=stale)

    def _flags(self) -> str:
        """What is refused, missing, or to be wary of."""
        flags = [self._refusal, reason_sentence(self._problem, self._session.lengths)]
        if self._found and self._looked:
            chosen, lengths = self._looked.chosen, self._session.lengths
            built = chosen.front, chosen.rear
            flags += [self._found.shortfall, caution(built, self._found.setup, lengths)]
        return "\n".join(filter(None, flags))

    def _show_rows(self) -> None:
        """The combinations; lift and cant under each other where there is little room."""
        if self._found is not None:
            self.table.show_columns(self._found.columns)
        in_line, broken = self._rows(", "), self._rows("\n")
        key = in_line, self.table.width()
        if key != self._measured_for:
            self.table.show_rows(in_line, self._which)
            self._measured_for, self._in_line = key, self.table.has_room
        self.table.show_rows(in_line if self._in_line else broken, self._which)

    def _rows(self, between: str) -> list[tuple[str, ...]]:
        ranked, lengths = self._found.ranked if self._found else (), self._session.lengths
        return [row_texts(i, each, between, lengths) for i, each in enumerate(ranked, 1)]

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Break the lines anew."""
        super().resizeEvent(event)
        self._lay_out()
        self._show_rows()

    def _html(self, found: Combinations, looked: _Looked) -> Markup:
        """What to set for both feet, and what turning a binding alone does."""
        said = [feet_html(looked.settings)]
        if all(each.nothing_changes for each in looked.turned):
            words = self.tr("Turning a binding alone changes neither lift nor cant of its sole.")
            said.append(markup("<p>{words}</p>", words=words))
        else:
            said.append(self._turned_html(looked.turned))
        about = [self.table.same_words, found.held_back]
        if not isinstance(found.wanted, Mounts):
            about.append(limits_words(found.setup))
        return joined([*said, paragraphs(about)])

    def _draw(self, found: Combinations, looked: _Looked) -> None:
        """The parts from above."""
        built, inputs = (looked.chosen.front, looked.chosen.rear), found.setup.inputs
        scene = scene_parts(built, inputs, found.parts, feet_words(looked.settings))
        self.picture.show_scene(scene)

    def _turned_html(self, both: tuple[Turned, Turned]) -> Markup:
        """A small table: how far a binding is turned alone, and the soles that come of it."""
        theme = current_theme()
        heads = [("", theme.ink)]
        heads += [(tr(_FOOT[each.foot]), theme.leg_text(each.foot)) for each in both]
        rows = [joined(markup(_CELL, style=f"color:{ink}", words=words) for words, ink in heads)]
        for i, turn in enumerate(TURNS_DEG):
            soles = [pair_of_angles(each.lifts_deg[i], each.cants_deg[i]) for each in both]
            cells = (_turn_words(turn), *soles)
            rows.append(joined(markup(_CELL, style="", words=words) for words in cells))
        return markup(
            "<p style='margin-bottom:2px'>{head}</p><table>{rows}</table>",
            head=self.tr("A binding turned alone, by:"),
            rows=joined(markup("<tr>{row}</tr>", row=row) for row in rows),
        )

    def _describe(self, flags: str, looked: _Looked) -> None:
        """The same for those who cannot see it, without marks."""
        said = [flags, feet_words(looked.settings), *map(turned_words, looked.turned)]
        say_about(self.words, " ".join(filter(None, said)))

    def _offer(self, *, stale: bool) -> None:
        mounts = self._mounts()
        if mounts is None or stale or self._setup is None:
            self.put.setEnabled(False)
            return
        update_apply_button(self.put, mounts, self._setup)

    def _mounts(self) -> Mounts | None:
        chosen = self._looked and self._looked.chosen
        return mounts_of(chosen.front, chosen.rear) if chosen else None

    # Asking

    def _look_at(self, row: int) -> None:
        self._which = row
        self._look()
        self._say()

    def _put(self) -> None:
        mounts = self._mounts()
        if mounts is not None:
            after = with_mounts(self._session.setup, mounts)
            put_on(self, self._session, self.tr("Parts put on"), after, mounts)

    def _want(self, key: str) -> None:
        """Want what the feet need, or what is typed: at first what the mounts are now."""
        typed = key == "typed"
        if typed and self._typed is None:
            self._typed = mounts_now(self._session.inputs)
        self._by_hand = self._typed if typed else None
        self.wanted.show_choice(key)
        self.bands.setVisible(not typed)
        show_or_put_away(self._fields, shown=typed)
        for name, number in self.numbers.items():
            number.show_value(getattr(self._typed, name) if typed else None)
        self._again()

    def _ask(self, name: str, value: float) -> None:
        if self._typed is not None:
            self._typed = self._by_hand = self._typed._replace(**{name: value})
            self._again()

    def _again(self) -> None:
        if self._setup is not None:
            self.show_setup(self._setup, self._limits, dragging=self._session.dragging)

    def _tell(self, why: str) -> None:
        self._refusal = why
        self._say()


def _turn_words(turn_deg: float) -> str:
    """A turn of a binding with its sign: "+5°", "−10°"."""
    return f"+{plain(turn_deg)}°" if turn_deg > 0.0 else f"{plain(turn_deg)}°"

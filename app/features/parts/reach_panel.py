"""The best stance that can be reached: limits, the search, the ten best, and what they bring."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any, Final, NamedTuple

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from app.features.answer.put_button import put_on
from app.features.parts.asked import limits_words
from app.features.parts.bench import caution
from app.features.parts.choice_table import ChoiceTable
from app.features.parts.combining import setting_words
from app.features.parts.feet import feet_html, feet_words, paragraphs
from app.features.parts.put_row import put_row
from app.features.parts.reach_limits import ReachLimits
from app.features.parts.reaching import (
    COLUMNS,
    Count,
    RankedStance,
    count_of,
    count_words,
    depends_on,
    mounts_on,
    none_words,
    ranked_stances,
    row_texts,
    search,
    stance_words,
    usual_wishes,
    why_not,
    with_stance,
)
from app.features.parts.scene import scene_parts
from app.features.parts.searching import SearchThread
from app.features.parts.wishes import Wishes
from app.features.parts.words import trade
from app.qt.background import Background
from app.qt.controls.layout import grid_of
from app.qt.controls.page_words import ScrolledWords
from app.qt.controls.steady_button import SteadyButton
from app.qt.literal import Markup, joined, markup, say_about, show_tip
from app.qt.painting.snug_picture import SnugPicture
from app.qt.settling import Settling
from app.qt.sizes import px
from app.qt.themes import follow_theme
from app.rider.parts import model as parts_model
from app.rider.setup import Setup
from app.session import Session
from app.stance.findings import USUAL_LIMITS, Limits
from app.words.lengths import Lengths
from app.words.reasons import reason_sentence
from geometry.hardware.reachable import Reachable

WIDE: Final = 860
"""From this width on, the words stand beside the table (px)."""


class _Searched(NamedTuple):
    """What a search was begun for."""

    setup: Setup
    wishes: Wishes
    limits: Limits


class _Looked(NamedTuple):
    """What is said of the stance looked at, made once for all that say it."""

    place: RankedStance
    brings: str
    settings: tuple[tuple[str, str], ...]


class ReachPanel(QWidget):
    """Searches when asked to, beside the window, and puts a stance and its mounts on."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._setup: Setup | None = None
        self._wishes: Wishes | None = None
        self._counted_for: Any = None
        self._limits = USUAL_LIMITS
        self._searched: _Searched | None = None
        self._found: Reachable | None = None
        self._found_for: Any = None
        self._places: tuple[RankedStance, ...] = ()
        self._which = 0
        self._problem: ValueError | None = None
        self._refusal = ""
        self._count = Background(self)
        self._search = SearchThread(self)
        self._settling = Settling(self, self._ask_count)
        self._build()
        self._connect()
        follow_theme(self._say)

    # Building

    def _build(self) -> None:
        self.limits = ReachLimits()
        self.table = ChoiceTable(self.tr("Best stances within your limits"), COLUMNS)
        self.words = ScrolledWords(self.tr("What the stance brings, and what to set"))
        self.put = SteadyButton(self.tr("Put this on"))
        self._put_row = put_row(self.put)
        self.picture = SnugPicture()
        self._grid = grid_of(self, (14, 6))
        self._grid.addWidget(self.limits, 0, 0, 3, 1)
        self._lay_out()

    def _lay_out(self) -> None:
        """Words and drawing beside the table where there is room, else under it."""
        wide = self.width() >= px(WIDE)
        self._grid.addWidget(self.table, 0, 1, *((3, 1) if wide else (1, 2)))
        self._grid.addWidget(self.words, *((0, 2) if wide else (1, 1)))
        self._grid.addWidget(self.picture, 1, 2)
        self._grid.addWidget(self._put_row, *((2, 2, 1, 1) if wide else (2, 1, 1, 2)))
        self._grid.setColumnStretch(1, 6)
        self._grid.setColumnStretch(2, 4)
        self._grid.setRowStretch(0, 1 if wide else 4)
        self._grid.setRowStretch(1, 1 if wide else 6)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Lay out anew."""
        super().resizeEvent(event)
        self._lay_out()

    def _connect(self) -> None:
        self._count.done.connect(lambda count: self._take_count(count, None))
        self._count.failed.connect(lambda problem: self._take_count(None, problem))
        self._search.progressed.connect(self.limits.show_progress)
        self._search.done.connect(self._take)
        self._search.failed.connect(self._fail)
        self._search.stopped.connect(self._say)
        self._session.changed.connect(self._rest)
        self._session.drag_ended.connect(self._rest)
        self.table.chosen.connect(self._look_at)
        self.limits.round.clicked.connect(self._wish_round_present)
        self.limits.go.clicked.connect(self._start_or_stop)
        self.limits.asked.connect(self._wish)
        self.limits.told.connect(self._tell)
        self.put.clicked.connect(self._put)

    # Showing

    def show_lengths(self, lengths: Lengths) -> None:
        """Write and read lengths in another unit."""
        self.limits.show_lengths(lengths)
        if self._wishes is not None:
            self.limits.show_wishes(self._wishes)

    def show_setup(self, setup: Setup, limits: Limits = USUAL_LIMITS, *, dragging: bool) -> None:
        """Count the candidates for a set-up once nothing is dragged."""
        self._setup, self._limits = setup, limits
        if self._wishes is None:
            self._show_wishes(usual_wishes(setup.inputs))
        stale, first = self._counted_for != self._count_key(), not self._counted_for
        self._settling.follow(stale=stale, dragging=dragging, at_once=first)
        self._say()

    def _show_wishes(self, wishes: Wishes) -> None:
        self._wishes = wishes
        self.limits.show_wishes(wishes)

    def _count_key(self) -> Any:
        setup = self._setup
        return setup and (setup.parts, setup.inputs.across_spacing_mm, self._wishes)

    def _ask_count(self) -> None:
        if self._setup is not None and self._wishes is not None:
            self._count.submit(partial(count_of, self._setup, self._wishes), self._count_key())

    def _take_count(self, count: Count | None, problem: ValueError | None) -> None:
        if self._count.key != self._count_key():
            return
        self._counted_for, self._problem = self._count.key, problem
        self.limits.show_count(count_words(count) if count else "")
        self._say()

    def _rest(self) -> None:
        """Rest during a drag, which needs the time."""
        self._search.hold(self._session.dragging)

    def _say(self) -> None:
        busy = self._search.busy
        counted = self._counted_for is not None and self._counted_for == self._count_key()
        self.limits.show_state(busy=busy, ready=counted and not self._problem)
        self.table.setEnabled(bool(self._places) and not self._stale)
        rows = [row_texts(place, self._session.lengths) for place in self._places]
        self.table.show_rows(rows, self._which)
        looked = self._looked()
        flags = self._flags(looked)
        self.words.say(flags, self._html(looked))
        if looked:
            said = [flags, looked.brings, feet_words(looked.settings)]
            say_about(self.words, " ".join(filter(None, said)))
            self._draw(looked)
        self._offer()

    def _draw(self, looked: _Looked) -> None:
        """The parts from above, under the feet as they are turned in that stance."""
        if self._searched is None or looked.place.reached.built is None:
            return
        setup, built = self._searched.setup, looked.place.reached.built
        inputs = with_stance(setup, looked.place.reached).inputs
        parts, said = parts_model(setup.parts), feet_words(looked.settings)
        self.picture.show_scene(scene_parts(built, inputs, parts, said))

    def _looked(self) -> _Looked | None:
        """What is said of the stance looked at; None where there is none."""
        if self._found is None or self._searched is None or not self._places:
            return None
        place = self._places[self._which]
        brings = trade(self._found, place.reached, self._session.lengths)
        built = place.reached.built
        return _Looked(place, brings, setting_words(built, self._searched.setup) if built else ())

    def _flags(self, looked: _Looked | None) -> str:
        """What is refused, missing, or to be wary of."""
        flags = [self._refusal, reason_sentence(self._problem, self._session.lengths)]
        if self._found is not None:
            flags.append(none_words(self._found))
            flags.append(self.tr("Changed since: search again.") if self._stale else "")
        if looked and self._searched and looked.place.reached.built:
            built, lengths = looked.place.reached.built, self._session.lengths
            flags.append(caution(built, self._searched.setup, lengths))
        return "\n".join(filter(None, flags))

    @property
    def _stale(self) -> bool:
        return (
            self._setup is not None
            and self._wishes is not None
            and self._found_for != depends_on(self._setup, self._wishes, self._limits)
        )

    def _html(self, looked: _Looked | None) -> Markup:
        """What the stance looked at brings, and what to set for it."""
        if looked is None or self._searched is None:
            return markup(
                "{words}",
                words=self.tr(
                    "Say how far you would go from your stance, and search for the stances and "
                    "parts with which boots stay in range and knees in plane."
                ),
            )
        about = (self.table.same_words, limits_words(self._searched.setup))
        said = paragraphs([looked.brings]), feet_html(looked.settings), paragraphs(about)
        return joined(said)

    def _offer(self) -> None:
        if not self._places or self._stale or self._setup is None:
            self.put.setEnabled(False)
            show_tip(self.put)
            return
        reached = self._places[self._which].reached
        reason = why_not(self._setup, reached)
        words = reason or stance_words(reached, self._session.lengths)
        self.put.setEnabled(not reason)
        show_tip(self.put, words)
        say_about(self.put, words)

    # Asking

    def _wish(self, name: str, value: float) -> None:
        if self._wishes is not None:
            self._show_wishes(replace(self._wishes, **{name: value}))
            self._again()

    def _wish_round_present(self) -> None:
        self._show_wishes(usual_wishes(self._session.inputs))
        self._again()

    def _again(self) -> None:
        if self._setup is not None:
            self.show_setup(self._setup, self._limits, dragging=self._session.dragging)

    def _start_or_stop(self) -> None:
        if self._search.busy:
            self._search.stop()
            return
        if self._setup is not None and self._wishes is not None:
            self._searched = _Searched(self._setup, self._wishes, self._limits)
            self._search.start(partial(search, *self._searched))
            self._say()

    def _take(self, found: Reachable) -> None:
        """Show what was found; it may be that of a set-up that has changed meanwhile."""
        if self._searched is not None:
            self._found, self._places, self._which = found, ranked_stances(found), 0
            self._found_for = depends_on(*self._searched)
        self._say()

    def _fail(self, why: ValueError) -> None:
        self._problem = why
        self._say()

    def _look_at(self, row: int) -> None:
        self._which = row
        self._say()

    def _put(self) -> None:
        if self._places:
            reached = self._places[self._which].reached
            what = self.tr("Within your limits: {}").format(
                stance_words(reached, self._session.lengths)
            )
            after = with_stance(self._session.setup, reached)
            put_on(self, self._session, what, after, mounts_on(reached))

    def _tell(self, why: str) -> None:
        self._refusal = why
        self._say()

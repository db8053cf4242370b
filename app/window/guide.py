"""Does the next step when it is asked for, and asks at the first start who is riding."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, Qt

from app.rider.inputs import InputError
from app.rider.setup import estimated, somebody
from app.session import Session
from app.window.next_steps import CARD
from app.words.reasons import reason_sentence
from geometry.reasons import ImpossibleError

CARD_PLACE: Final = "who"
"""The name of the card, in the places of what is typed on it."""

if TYPE_CHECKING:
    from app.window.who_card import WhoCard
    from app.window.window import Window


class Guide(QObject):
    """Leads through the window.

    Args:
        window: in which it leads.
        session: takes what the card was told.
    """

    def __init__(self, window: Window, session: Session) -> None:
        super().__init__(window)
        self._window = window
        self._session = session
        self.card: WhoCard | None = None
        self._follow_file()
        session.changed.connect(self._follow_file)
        window.documents.saved.connect(self._follow_file)

    def ask_at_first(self) -> None:
        """Ask who is riding, where nobody has answered yet and the demo rider is in hand."""
        if not self._window.documents.settings.now.welcomed and not somebody(self._session.setup):
            self.ask()

    def take(self, page: str, field: str) -> None:
        """Lead to where a step is done.

        Args:
            page: title of its page; :data:`~app.window.next_steps.CARD`; "" for none.
            field: the input to begin with; "" for none, which without a page means saving.
        """
        if page == CARD:
            self.ask()
        elif page:
            shown = self._window.tray.open_page(page)
            go = getattr(shown, "go_to_open", None)
            go() if go is not None else shown.setFocus(Qt.FocusReason.OtherFocusReason)
        elif field:
            self._window.panel.go_to(field)
        else:
            self._window.documents.save()

    def ask(self) -> None:
        """Ask who is riding, on a card over the drawings."""
        if self.card is None:
            self.card = self._made_card()
        self.card.ask(self._session.setup.known.stature_mm, self._session.lengths)
        if self.card.height() > self._window.sheet.height():
            # With large letters it has no room beside a page.
            self._window.tray.close_page()
            self.card.ask(self._session.setup.known.stature_mm, self._session.lengths)

    def rest(self) -> None:
        """Do not stand over what is shown to somebody, unless an answer is being typed."""
        drafts = self._window.documents.desk.drafts
        if self.card is not None and not any(_is_on_card(draft.place) for draft in drafts):
            self.card.hide()

    def make_room_for(self, place: str) -> None:
        """Ask who is riding, where a place is on the card that asks it."""
        if _is_on_card(place):
            self.ask()

    def _made_card(self) -> WhoCard:
        from app.window.who_card import WhoCard  # noqa: PLC0415

        card, settings = WhoCard(self._window.sheet), self._window.documents.settings
        card.known.connect(self._estimate)
        card.measure.connect(lambda: self.take("Measuring", ""))
        card.answered.connect(lambda: settings.change(welcomed=True))
        return card

    def _estimate(self, name: str, value: object) -> None:
        session = self._session
        try:
            setup = estimated(session.setup, session.start, **{name: value})
        except (InputError, ImpossibleError) as error:
            if self.card is not None:
                self.card.refuse(reason_sentence(error, session.lengths))
            return
        if self.card is not None:
            self.card.put_away()
        before = session.setup
        session.take(self.tr("Estimates"), setup)
        self._window.panel.show_changes(before)

    def _follow_file(self) -> None:
        work = self._window.documents.work
        self._window.steps.show_saved(saved=work.is_kept)


def _is_on_card(place: str) -> bool:
    return CARD_PLACE in place.split("/")

"""What the drawings show for a while in place of the set-up in hand."""

from __future__ import annotations

from app.frame import Frame
from app.rider.instead import Instead
from app.window.sheet import Sheet


def drawn_instead(instead: Instead, live: Frame, look: str) -> tuple[Frame, Frame]:
    """The frame of what is shown, as it is told and as it is drawn: with its outline behind it.

    Args:
        instead: what is shown.
        live: of the set-up in hand, whose limits and lengths hold here too.
        look: how the front view looks where nothing else is said.
    """
    from app.features.compare.model import shown_instead  # noqa: PLC0415

    return shown_instead(instead, look, live.limits, live.lengths)


def lit_instead(sheet: Sheet, instead: Instead | None, before: frozenset[str]) -> frozenset[str]:
    """Make marks stand out that nobody points at, and no others go dark afterwards; which."""
    marks = instead.marks if instead else frozenset[str]()
    if marks != before:
        sheet.light(marks)
    return marks

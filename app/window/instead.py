"""What the drawings show for a while in place of the set-up in hand."""

from __future__ import annotations

from app.frame import Frame, frame
from app.rider.instead import Instead
from app.window.sheet import Sheet


def drawn_instead(instead: Instead, live: Frame, look: str) -> tuple[Frame, Frame]:
    """The frame of what is shown, as it is told and as it is drawn: with its outline behind it.

    Args:
        instead: what is shown.
        live: of the set-up in hand, whose limits and lengths hold here too.
        look: how the front view looks where nothing else is said.
    """
    asked = instead.look or look, live.limits, live.lengths
    told = frame(instead.setup, *asked)
    if instead.behind is None:
        return told, told
    from app.features.compare.model import ghosted  # noqa: PLC0415

    return told, ghosted(told, frame(instead.behind, *asked))


def lit_instead(sheet: Sheet, instead: Instead | None, before: frozenset[str]) -> frozenset[str]:
    """Make marks stand out that nobody points at, and no others go dark afterwards; which."""
    marks = instead.marks if instead else frozenset[str]()
    if marks != before:
        sheet.light(marks)
    return marks

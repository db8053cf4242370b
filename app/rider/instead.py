"""What is shown for a while in place of the set-up in hand."""

from __future__ import annotations

from typing import NamedTuple

from app.rider.setup import Setup


class Instead(NamedTuple):
    """What the drawings show for a while in place of the set-up in hand, which stays as it is.

    Attributes:
        setup: that is drawn, and shown by the controls, which rest meanwhile.
        behind: whose outline stands behind it.
        look: how the front view looks; "" for the look in force.
        marks: keys of the marks that stand out.
    """

    setup: Setup
    behind: Setup | None = None
    look: str = ""
    marks: frozenset[str] = frozenset()

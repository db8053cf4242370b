"""The boots' cuffs: whether they fit the rider's legs, which every cant rests on."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from app.rider.setup import CUFFS, Setup
from app.words.language import msgid, tr

STATES: Final = dict(
    zip(
        CUFFS,
        (
            msgid("not yet looked at"),
            msgid("adjusted: both soles lie flat"),
            msgid("left as they are"),
        ),
        strict=True,
    )
)
"""What was done about the cuffs, in words."""


def cuff_state_words(cuffs: str) -> str:
    """What was done about the cuffs, one of :data:`CUFFS`, in the user's language."""
    return tr(STATES[cuffs])


def cuff_words(setup: Setup) -> str:
    """That an answer waits for a look at the cuffs; empty once somebody has looked."""
    if setup.cuffs:
        return ""
    return tr(
        "This waits for the boots’ cuffs: whether they were adjusted stands first under Measuring."
    )


def cuff_advice(setup: Setup) -> str:
    """What is to be done next about the cuffs, or what they mean for the answers."""
    if not setup.cuffs:
        return tr("Every cant waits for this; until then its margin is wider.")
    if setup.cuffs == "adjusted":
        return tr("A cuff offset of 0 is right then.")
    return tr("Measure the cuff offset then, the next entry: every cant counts with it.")


def with_cuffs(setup: Setup, cuffs: str) -> Setup:
    """The set-up with something said about the cuffs, one of :data:`CUFFS`."""
    return replace(setup, cuffs=cuffs)

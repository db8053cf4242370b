"""What of a set-up tells of a person, and the set-up without it."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from app.rider.inputs import changed
from app.rider.lessons import NO_LESSON
from app.rider.setup import DEMO, Known, Setup, somebody, with_stance_of
from app.words.language import msgid, tr

_CALLED: Final = msgid("Stance without its rider")


def tells_of_rider(setup: Setup, start: Setup = DEMO) -> bool:
    """Whether a set-up holds a name, notes, trials, a lesson or measures of a body.

    A lesson has words of its own and the measures of whoever was in hand when it was recorded.

    Args:
        setup: the set-up.
        start: what it was started from, whose name and notes are nobody's.
    """
    own_words = {setup.name, setup.notes} - {"", tr(_CALLED)}
    nobodys = {each for point in (DEMO, start) for each in (point.name, point.notes)}
    body = setup.known != Known() or somebody(setup)
    told = setup.trials or setup.repeats or own_words - nobodys
    return body or bool(told) or setup.lesson != NO_LESSON


def without_rider(setup: Setup) -> Setup:
    """The stance with boots, board and parts, on the demo rider's legs, and of nobody."""
    stance = with_stance_of(DEMO, setup)
    inputs = changed(stance.inputs, lead_foot=setup.inputs.lead_foot)
    return replace(
        stance,
        inputs=inputs,
        name=tr(_CALLED),
        board=setup.board,
        wedge=setup.wedge,
        parts=setup.parts,
    )

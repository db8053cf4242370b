"""All results for one set-up as plain values under fixed names, for programs to read.

Lengths are mm and angles degrees, as the ends of the names say, and unrounded, but for
what is proposed and for the ranks of parts, which compare what is shown.  Points
are [x, y, z] in the axes of the geometry: x to the nose, y to the toe side, z up,
from midway between the binding centres.  Cants are positive inward, lifts toe up,
off-plane angles knock-kneed; a margin or an error is the standard error of the value
that it is named after.  What there is no answer for is null, and "reason" says why.

Each further module tells some of the groups, and is loaded when one of them is asked
for; :mod:`app.numbers.question` says what can be asked beside the set-up.
"""

from __future__ import annotations

import json
from typing import Any, Final

from app.numbers.groups import Asked, Searching, group_of
from app.numbers.question import Question
from app.rider.setup import Setup

USUAL: Final = Question()
"""Nothing is asked beside the set-up."""


def _in_silence(done: float) -> None:
    """Nobody wants to know how far a search is."""


def numbers(
    setup: Setup, question: Question = USUAL, searching: Searching = _in_silence
) -> dict[str, Any]:
    """The groups of results that are asked for, ready for JSON; None where there is no answer.

    Args:
        setup: the set-up.
        question: which groups, and what they have to know beside the set-up.
        searching: is told how far a search is that takes seconds, from 0 to 1.

    Raises:
        ImpossibleError: what is asked contradicts itself.
        ValueError: the leg dimensions contradict each other.
    """
    asked = Asked(setup, question, searching)
    return {name: group_of(name, asked) for name in question.groups}


def as_json(setup: Setup, question: Question = USUAL, searching: Searching = _in_silence) -> str:
    """The numbers as JSON text of several lines; arguments as in :func:`numbers`.

    Raises:
        ImpossibleError: what is asked contradicts itself.
        ValueError: the leg dimensions contradict each other.
    """
    return written(numbers(setup, question, searching), indent=2)


def written(told: dict[str, Any], indent: int | None = None) -> str:
    """What is told as JSON text, which every encoding of Unicode can hold."""
    text = json.dumps(told, indent=indent, ensure_ascii=False, allow_nan=False)
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:
        # A name with half of a character in it, as a file's may have: JSON can spell it.
        text = json.dumps(told, indent=indent, allow_nan=False)
    return text

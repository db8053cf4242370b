"""Phrases that come from the geometry, which knows no language, in the user's own."""

from __future__ import annotations

from typing import Final

from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.refusals import refusal
from app.words.sentences import as_sentence, retold

REASONS: Final = (
    msgid("the front leg cannot reach"),
    msgid("the rear leg cannot reach"),
    msgid("the front leg cannot reach, so no posture settles"),
    msgid("the rear leg cannot reach, so no posture settles"),
    msgid("more than 60° would be needed"),
    msgid("no posture settles on soles without lift"),
    msgid("no posture settles in any of them without bending a boot too far"),
    msgid("part of the sole would lie below the top of the board"),
    msgid("the sole is wider than it is long; turn its two sizes round"),
)
"""Why there is no answer, as the geometry puts it."""

NEXT_CANTS: Final = (
    msgid("there is no full cant in this stance"),
    msgid("this stance needs next to no cant"),
    msgid("start at the least end"),
    msgid("this felt even: the cant is found"),
    msgid("the trials contradict each other: try between them"),
    msgid("the middle between too little and too much"),
    msgid("the next step towards full cant"),
    msgid("the smallest step felt too much: try none"),
    msgid("no step of the parts lies between too little and too much: it is found"),
    msgid("full cant felt too little: going on needs your consent"),
    msgid("full cant felt too little: one step further, as you agreed"),
    msgid("the last step before full cant felt too little: going on needs your consent"),
    msgid("the last step before full cant felt too little: one step further, as you agreed"),
    msgid("a flat sole felt too much: going on needs your consent"),
    msgid("a flat sole felt too much: one step further, as you agreed"),
)
"""Why a cant is to be tried next, as :func:`geometry.fitting.trials.next_cant` puts it."""

MOVEMENTS: Final = (
    msgid("flexion"),
    msgid("extension"),
    msgid("abduction"),
    msgid("adduction"),
    msgid("internal rotation"),
    msgid("external rotation"),
    msgid("dorsiflexion"),
    msgid("plantarflexion"),
)
"""The names of :data:`geometry.joints.AAOS_MOVEMENTS`."""

WEDGE_PROBLEMS: Final = (
    msgid(
        "the wedge would be {found} thin at its lowest place, less than the smallest "
        "thickness of {smallest}: make its centre {needed} high or more"
    ),
    msgid(
        "the wedge would end in nothing at its lowest place, less than the smallest "
        "thickness of {smallest}: make its centre {needed} high or more"
    ),
    msgid(
        "the wedge is too thin for the head of screw {number}: only {found} would be left "
        "under it, less than the smallest thickness of {smallest}: make its centre {needed} high "
        "or more, or leave the heads on top"
    ),
    msgid(
        "the wedge is too thin for the head of screw {number}: nothing would be "
        "left under it, less than the smallest thickness of {smallest}: make its centre {needed} "
        "high or more, or leave the heads on top"
    ),
    msgid("hole {number} lies outside the footprint: move it in or leave it out"),
    msgid(
        "hole {number} breaks through the outline of the footprint: move it in by {needed} or more"
    ),
    msgid(
        "hole {number} leaves {found} of wall to the outside, and it needs {least}: "
        "move it in by {needed} or more"
    ),
    msgid("holes {number} and {other} are in the same place: leave one out"),
    msgid(
        "holes {number} and {other} stand {apart} apart and leave {found} of wall "
        "between them: at {across} across they need {needed} from centre to centre"
    ),
    msgid(
        "holes {number} and {other} stand {apart} apart and cut each other: at {across} "
        "across they need {needed} from centre to centre"
    ),
)
"""The sentences of :data:`geometry.hardware.wedge_problems.PROBLEMS`."""


def in_own_words(phrase: str) -> str:
    """A phrase of the geometry in the user's language; what is not known stays English."""
    said = tr(phrase)
    return refusal(phrase) if said == phrase else said


def told(phrase: str, lengths: Lengths = IN_MM) -> str:
    """A phrase of the geometry as a sentence, in the user's language and unit; "" for none."""
    return as_sentence(in_own_words(retold(phrase, lengths)))

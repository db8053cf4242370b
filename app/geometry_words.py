"""Phrases that come from the geometry, which knows no language, in the user's own."""

from __future__ import annotations

from typing import Final

from app.language import msgid, tr

REASONS: Final = (
    msgid("the front leg cannot reach"),
    msgid("the rear leg cannot reach"),
    msgid("the front leg cannot reach, so no posture settles"),
    msgid("the rear leg cannot reach, so no posture settles"),
    msgid("more than 60° would be needed"),
    msgid("no posture settles on soles without lift"),
    msgid("no posture settles in any of them without bending a boot too far"),
    msgid("part of the sole would lie below the top of the board"),
)
"""Why there is no answer, as the geometry puts it."""

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


def in_own_words(phrase: str) -> str:
    """A phrase of the geometry in the user's language; what is not known stays English.

    Messages that the geometry puts together with figures stay English.
    """
    return tr(phrase)

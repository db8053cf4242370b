"""Numbers as people say them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Final

from app.words.field import (
    CUFF_IN_OUT,
    IN_OUT,
    KNEE_INSIDE_OUTSIDE,
    TO_FRONT_REAR_LEG,
    TO_NOSE_TAIL,
    TO_TOES_HEELS,
    TOE_HEEL,
    Field,
)
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.units import DEGREES, MINUS, amount, figure, shortest, unit_of

_AT_ZERO: Final = {
    TOE_HEEL: msgid("no lift"),
    IN_OUT: msgid("no cant"),
    KNEE_INSIDE_OUTSIDE: msgid("over the toes"),
    TO_NOSE_TAIL: msgid("with the feet"),
    TO_FRONT_REAR_LEG: msgid("in the middle"),
    TO_TOES_HEELS: msgid("over the middle"),
    CUFF_IN_OUT: msgid("as fitted"),
}
"""What a value of zero is called, by the words for its signs."""

_SHORT: Final = {
    TOE_HEEL: (msgid("{angle} toe"), msgid("{angle} heel")),
    IN_OUT: (msgid("{angle} in"), msgid("{angle} out")),
}
"""A lift and a cant as short as a cell asks for, by the words for its signs."""


def plain(value: float, decimals: int = 1) -> str:
    """A number without needless decimals, with a proper minus sign.

    Never "−0": what rounds to nothing is 0.
    """
    return shortest(value, 0, decimals)


def in_words(field: Field, value: float) -> str:
    """What the sign of a value means, without the figure; "" where it needs no word."""
    if field.signs is None:
        return ""
    if shown_as_zero(field, value):
        return tr(_AT_ZERO[field.signs])
    return tr(field.signs[value < 0.0])


def shown_as_zero(field: Field, value: float) -> bool:
    """Whether a value is written as zero in the field's own unit."""
    return not figure(value, unit_of(field.unit)).strip(f"{MINUS}0.,")


def spoken(field: Field, value: float, lengths: Lengths = IN_MM) -> str:
    """A value with the word that its sign stands for: "6.0° heel lift", "flat".

    Fields whose sign needs no word are given as number and unit.  The words follow
    the figure shown, so what rounds to zero is called zero.
    """
    unit, word = lengths.unit_of(field.unit), in_words(field, value)
    if not word:
        return amount(value, unit)
    if shown_as_zero(field, value):
        return word
    return tr("{amount} {side}", amount=amount(abs(value), unit), side=word)


def tilt_words(signs: tuple[str, str], angle_deg: float) -> str:
    """A lift or a cant without any word that its heading has: "3.0° toe", "4.0° in".

    Args:
        signs: :data:`app.words.field.TOE_HEEL` for a lift,
            :data:`app.words.field.IN_OUT` for a cant.
        angle_deg: the angle; what is flat is for the caller to say.
    """
    return tr(_SHORT[signs][angle_deg < 0.0], angle=amount(abs(angle_deg), DEGREES))


def as_sentence(text: str) -> str:
    """A text that begins and ends as a sentence does, whatever it began and ended with."""
    end = "" if not text or text[-1] in ".?!…" else "."
    return text[:1].upper() + text[1:] + end


def day_and_time(seconds: float) -> str:
    """A moment (seconds since 1970) as "2026-01-31 14:05", or that it cannot be one."""
    try:
        return datetime.fromtimestamp(seconds).strftime("%Y-%m-%d\u00a0%H:%M")
    except (ValueError, OverflowError, OSError):  # a clock that was wrong, or a year beyond 9999
        return tr("an unknown time")


def listed(words: Sequence[str]) -> str:
    """Words as one says them in a row: "neutral spacing, hip spacing and knee tracking"."""
    *most, last = words
    return tr("{most} and {last}", most=", ".join(most), last=last) if most else last

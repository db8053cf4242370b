"""Numbers as people say them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from app.words.field import (
    IN_OUT,
    KNEE_INSIDE_OUTSIDE,
    TO_FRONT_REAR_LEG,
    TO_NOSE_TAIL,
    TOE_HEEL,
    Field,
)
from app.words.language import msgid, tr, with_decimal_mark
from app.words.units import DEGREES, MINUS, amount, figure, unit_of

_AT_ZERO: Final = {
    TOE_HEEL: msgid("flat"),
    IN_OUT: msgid("flat"),
    KNEE_INSIDE_OUTSIDE: msgid("over the toes"),
    TO_NOSE_TAIL: msgid("with the feet"),
    TO_FRONT_REAR_LEG: msgid("in the middle"),
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
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else with_decimal_mark(text.replace("-", MINUS))


def in_words(field: Field, value: float) -> str:
    """What the sign of a value means, without the figure; "" where it needs no word."""
    if field.signs is None:
        return ""
    if _shown_as_zero(field, value):
        return tr(_AT_ZERO[field.signs])
    return tr(field.signs[value < 0.0])


def _shown_as_zero(field: Field, value: float) -> bool:
    return not figure(value, unit_of(field.unit)).strip(f"{MINUS}0.,")


def spoken(field: Field, value: float, length_unit: str = "mm") -> str:
    """A value with the word that its sign stands for: "6.0° heel lift", "flat".

    Fields whose sign needs no word are given as number and unit.  The words follow
    the figure shown, so what rounds to zero is called zero.
    """
    unit, word = unit_of(field.unit, length_unit), in_words(field, value)
    if not word:
        return amount(value, unit)
    if _shown_as_zero(field, value):
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


def listed(words: Sequence[str]) -> str:
    """Words as one says them in a row: "neutral spacing, hip spacing and knee tracking"."""
    *most, last = words
    return tr("{most} and {last}", most=", ".join(most), last=last) if most else last


def dimension(length_mm: float, length_unit: str) -> str:
    """A length as a dimension figure: bare in millimetres, as drawings have it."""
    if length_unit == "mm":
        return plain(length_mm, 0)
    return f"{plain(length_mm / unit_of('mm', length_unit).size)} {length_unit}"


def roughly(length_mm: float, length_unit: str) -> str:
    """A length in a sentence: whole centimetres, or inches to a tenth."""
    if length_unit == "in":
        return dimension(length_mm, "in")
    return f"{plain(length_mm / 10.0, 0)} cm"


def length_words(length_mm: float, length_unit: str = "mm", decimals: int = 1) -> str:
    """A length with its unit, as "497 mm", "49.7 cm", "19.57 in".

    Args:
        length_mm: the length.
        length_unit: "mm", "cm" or "in".
        decimals: of a millimetre that are known.
    """
    return amount(round(length_mm, decimals), unit_of("mm", length_unit))


def length_pair(
    one_mm: float, between: str, other_mm: float, length_unit: str = "mm", decimals: int = 1
) -> str:
    """Two lengths with their unit once, as "497 ± 5 mm"."""
    one = figure(round(one_mm, decimals), unit_of("mm", length_unit))
    return one + between + length_words(other_mm, length_unit, decimals)

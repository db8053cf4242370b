"""Units as people write and read them: every amount on screen passes through here.

Stored values are millimetres and degrees.  A :class:`Unit` says how such a value
is shown; :func:`amount` writes it, :func:`reading` takes what was typed, in this
or any other unit of the same kind.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import partial
from math import isfinite, isnan
from typing import Final

from app.words.language import msgid, tr, with_decimal_mark, with_grouping_mark
from app.words.sums import OPERATORS, Quantity, SumError, terms_of

MM_PER_INCH: Final = 25.4
MM_PER_FOOT: Final = 304.8

LENGTH_UNITS: Final = ("mm", "cm", "in")
"""The units in which lengths can be shown."""

MINUS: Final = "−"


class ReadingError(ValueError):
    """Typed text that cannot be taken; the message is why, in a few words."""


@dataclass(frozen=True, slots=True)
class Unit:
    """How a stored value is written.

    Attributes:
        kind: "length", "angle", "time", "duration" or "count".
        suffix: what follows the number.
        word: the unit spelled out in English, in the plural; shown as :attr:`words`.
        size: one of it in the stored unit (mm, degrees, years or seconds).
        decimals: fewest and most decimals; between them only as many as needed.
        steps: fine, plain and coarse steps in this unit by the plain step of
            the stored value, where round numbers need their own.
    """

    kind: str
    suffix: str
    word: str
    size: float
    decimals: tuple[int, int]
    steps: tuple[tuple[float, tuple[float, float, float]], ...] = ()

    @property
    def words(self) -> str:
        """The unit spelled out in the user's language."""
        return tr(self.word)


DEGREES: Final = Unit("angle", "°", msgid("degrees"), 1.0, (1, 2))
YEARS: Final = Unit("time", "", msgid("years"), 1.0, (0, 1))
COUNTS: Final = Unit("count", "", "", 1.0, (0, 0))
SECONDS: Final = Unit("duration", " s", msgid("seconds"), 1.0, (1, 2))
_LENGTHS: Final = {
    "mm": Unit("length", " mm", msgid("millimetres"), 1.0, (0, 2)),
    "cm": Unit("length", " cm", msgid("centimetres"), 10.0, (1, 3)),
    "in": Unit(
        "length",
        " in",
        msgid("inches"),
        MM_PER_INCH,
        (2, 2),
        (
            (0.5, (0.01, 0.02, 0.10)),
            (1.0, (0.01, 0.05, 0.25)),
            (5.0, (0.02, 0.20, 1.00)),
        ),
    ),
}
SIZES: Final = {
    "size": _LENGTHS["mm"],
    "radius": Unit("length", " m", msgid("metres"), 1000.0, (0, 3)),
}
"""Units of what is sold by its size, whichever unit a rider measures in.

An insert grid of 20 mm and a plate of 10 mm bear these figures wherever they are
sold; 0.79 in is not in their names, and typed it would put the fifth insert a third
of a millimetre off.  Side-cut radii are printed in metres (common practice, no source).
"""
_OTHERS: Final = {"deg": DEGREES, "s": SECONDS}

# Whichever language is spoken, a unit is understood in all of them.
_SPELT: Final = {
    "length": {
        **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeters", "millimeter"), 1.0),
        **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeters", "zentimeter"), 10.0),
        **dict.fromkeys(("m", "metre", "metres", "meters", "meter"), 1000.0),
        **dict.fromkeys(("in", "inch", "inches", "zoll", '"', "″", "”"), MM_PER_INCH),
    },
    "angle": dict.fromkeys(("°", "º", "deg", "degree", "degrees", "grad"), 1.0),
    "count": {},
    "time": dict.fromkeys(("a", "y", "year", "years", "jahr", "jahre"), 1.0),
    "duration": dict.fromkeys(("s", "sec", "second", "seconds", "sekunde", "sekunden"), 1.0),
}

_NUMBER = r"(?:\d+(?:[.,]\d*)?|[.,]\d+)"
_AMOUNT: Final = re.compile(rf"({_NUMBER})\s*([^\d\s.,{re.escape(OPERATORS)}]*)")
_FEET: Final = re.compile(
    rf"({_NUMBER})\s*(?:ft|feet|foot|['′’])\s*(?:({_NUMBER})\s*(?:in|inch|inches|[\"″”])?)?"
)
_FEET_DASH_INCHES: Final = re.compile(rf"-{_NUMBER}")
_MINUS_SIGNS: Final = str.maketrans(dict.fromkeys("−–—‐‑‒﹣－", "-"))


def unit_of(kind: str, length_unit: str = "mm") -> Unit:
    """The unit in which a stored value is shown.

    Args:
        kind: "mm" for what is measured, "deg", "s", or one of :data:`SIZES`.
        length_unit: in which lengths that are measured are shown.

    Raises:
        ValueError: the length unit is not one of :data:`LENGTH_UNITS`.
    """
    if length_unit not in _LENGTHS:
        raise ValueError(f"length unit is {length_unit!r}; it must be mm, cm or in")
    return SIZES.get(kind) or _OTHERS.get(kind) or _LENGTHS[length_unit]


def figure(value: float, unit: Unit) -> str:
    """The number alone, with as few decimals as tell it, and a true minus sign."""
    return shortest(value / unit.size, *unit.decimals)


def shortest(value: float, least: int, most: int) -> str:
    """A number with as few decimals as tell it, from the least to the most, and a true minus sign.

    Never "−0": what rounds to nothing is 0.
    """
    whole, _, decimals = f"{abs(value):.{most}f}".partition(".")
    decimals = decimals.rstrip("0").ljust(least, "0")
    text = with_decimal_mark(f"{whole}.{decimals}") if decimals else whole
    return MINUS + text if value < 0.0 and text.strip("0.,") else text


def fixed(value: float, decimals: int) -> str:
    """A number with just so many decimals and a true minus sign, as "−0.50"."""
    return with_decimal_mark(f"{value:.{decimals}f}".replace("-", MINUS))


def degrees_or_dash(value: float) -> str:
    """An angle to a tenth of a degree, as "2.5°"; a dash where there is none."""
    return f"{fixed(value, 1)}°" if isfinite(value) else "–"


def counted(number: int) -> str:
    """A count, its thousands set apart: "12,480"."""
    return with_grouping_mark(f"{number:,}")


def amount(value: float, unit: Unit) -> str:
    """A value with its unit, as "45.0°" or "500 mm"."""
    return figure(value, unit) + unit.suffix


def span(low: float, high: float, unit: Unit) -> str:
    """A range in words, as "−60 to 90°"."""
    ends = (figure(value, unit) for value in (low, high))
    least, most = (end.rstrip("0").rstrip(".,") if {".", ","} & {*end} else end for end in ends)
    return tr("{low} to {high}", low=least, high=most + unit.suffix)


def reading(text: str, unit: Unit) -> float:
    """The stored value that typed text means.

    Takes 7.5 and 7,5 alike whatever the locale, every kind of minus sign, a unit of
    the same kind, and sums ("480+20"); a number alone counts in the unit shown.

    Raises:
        ReadingError: the text is no number, its unit is of another kind, or it cannot be
            told in which unit a number of a sum counts.
    """
    plain = " ".join(text.translate(_MINUS_SIGNS).casefold().split())
    try:
        terms = terms_of(plain, partial(_quantity, unit=unit))
    except SumError as error:
        raise ReadingError(tr("not a number")) from error
    sizes = {term.size for term in terms}
    # Five centimetres and three: of what?
    if None in sizes and sizes - {None, unit.size}:
        raise ReadingError(tr("type a unit with each number"))
    value = sum(term.value * (unit.size if term.size is None else term.size) for term in terms)
    if isnan(value):
        raise ReadingError(tr("not a number"))
    return round(value, 6) + 0.0  # no minus before nothing


def _quantity(text: str, at: int, unit: Unit) -> tuple[Quantity, int]:
    """The number at a place of a text with its unit, and where what follows begins."""
    feet = _FEET.match(text, at) if unit.kind == "length" else None
    if feet:
        if _FEET_DASH_INCHES.match(text, feet.end()):
            raise SumError  # 5'-10" is a height to some, and to others a sum
        length = _number(feet[1]) * MM_PER_FOOT + _number(feet[2] or "0") * MM_PER_INCH
        return Quantity(length, 1.0), feet.end()
    match = _AMOUNT.match(text, at)
    if match is None or text[match.end() : match.end() + 1].isdigit():
        raise SumError
    size = _SPELT[unit.kind].get(match[2]) if match[2] else None
    if match[2] and size is None:
        raise ReadingError(tr("not in {units}", units=unit.words))
    return Quantity(_number(match[1]), size), match.end()


def _number(text: str) -> float:
    return float(text.replace(",", "."))

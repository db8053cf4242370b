"""Places of holes as people type them, a line for each hole.

A line holds two lengths: ahead of the binding's centre and out to the
little-toe side.  Blanks part them, or a semicolon, or a comma with a blank after
it; a comma between two digits is a decimal sign, wherever the program runs.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any, Final

from app.rider.wedge import HOLE_SPOT, MOST_HOLES
from app.words.language import msgid, tr, with_decimal_mark
from app.words.units import ReadingError, Unit, amount, figure, reading, span
from geometry.hardware.plane import Spot

_BETWEEN: Final = re.compile(r",?[\s;]+")
_BRACKETS: Final = str.maketrans(dict.fromkeys("()[]{}", " "))
_SIGNS: Final = frozenset("+-−–—")


class SpotError(ValueError):
    """Typed holes that cannot be taken; the message says which, why, and what to do."""


def spots_text(spots: Sequence[Spot], unit: Unit) -> str:
    """Places of holes in lines that :func:`spots_in` reads, as "20, −20" or "20,5; −20"."""
    pairs = [(figure(ahead, unit), figure(outer, unit)) for ahead, outer in spots]
    between = "; " if any("," in each for pair in pairs for each in pair) else ", "
    return "\n".join(between.join(pair) for pair in pairs)


def spots_in(text: str, unit: Unit, before: Sequence[Spot] = ()) -> tuple[Spot, ...]:
    """The places of holes that a text means (mm).

    Args:
        text: a hole on each line; empty lines count for nothing.
        unit: of numbers that bring none along.
        before: the places last shown.  What still reads as one of them was keeps its
            exact value, which the text shows rounded.

    Raises:
        SpotError: a line is no pair of lengths, or there are too many.
    """
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    if len(lines) > MOST_HOLES:
        words = msgid("{count} holes are too many: leave some out, {most} at most")
        raise SpotError(tr(words, count=len(lines), most=MOST_HOLES))
    # Most likely a line is the hole that stood in it.
    likely = [(*before[i : i + 1], *before) for i in range(len(lines))]
    return tuple(_spot(i, line, unit, likely[i]) for i, line in enumerate(lines))


def _spot(i: int, line: str, unit: Unit, before: Sequence[Spot]) -> Spot:
    """One hole; what is written as it was shown keeps its exact value, whole or by numbers."""
    for spot in before:
        if line == spots_text((spot,), unit):
            return spot
    words = _numbers(line)
    if len(words) != 2:
        raise _miscounted(i + 1, line, words)
    shown = [{figure(spot[k], unit): spot[k] for spot in reversed(before)} for k in (0, 1)]
    ahead, outer = (
        known[word] if word in known else _place(i + 1, line, word, unit)
        for word, known in zip(words, shown, strict=True)
    )
    return ahead, outer


def _numbers(line: str) -> list[str]:
    """The numbers of a line as typed; a sign or a unit that stands alone goes with its number."""
    found: list[str] = []
    for word in filter(None, _BETWEEN.split(line.translate(_BRACKETS))):
        signed = bool(found) and found[-1] in _SIGNS
        if found and (signed or not (any(map(str.isdigit, word)) or word in _SIGNS)):
            found[-1] += word if signed else f" {word}"
        else:
            found.append(word)
    return found


def _miscounted(number: int, line: str, words: list[str]) -> SpotError:
    if len(words) > 2:
        return _refused(number, line, _TOO_MANY, count=len(words))
    return _refused(number, line, _COMMA if "," in words[0] else _TOO_FEW)


_TOO_MANY: Final = msgid(
    "hole {number}, “{line}”, has {count} numbers: type two, and every hole on a line of its own"
)
_COMMA: Final = msgid(
    "hole {number}, “{line}”, has one number, for its comma is a decimal sign: "
    "type two with a blank between, as 20 −20"
)
_TOO_FEW: Final = msgid(
    "hole {number}, “{line}”, has one number only: type two with a blank between, as 20 −20"
)
_EITHER: Final = msgid("hole {number}, “{line}”, can mean {one} or {other}: type one of them")
_UNREADABLE: Final = msgid(
    "hole {number}, “{line}”, cannot be read: “{word}” is {reason}; type a number in {units}"
)
_FAR_OUT: Final = msgid(
    "hole {number}, “{line}”, is too far out with {length}: from the binding's centre it is {range}"
)


def _refused(number: int, line: str, why: str, **values: Any) -> SpotError:
    """The error of a hole, by its number and its line."""
    return SpotError(tr(why, number=number, line=line, **values))


def _place(number: int, line: str, word: str, unit: Unit) -> float:
    """A length that was typed in the line of a hole.

    Raises:
        SpotError: it cannot be taken.
    """
    if word.lstrip("".join(_SIGNS)).startswith(","):
        one, other = with_decimal_mark(word.replace(",", "0.")), word.replace(",", "")
        raise _refused(number, line, _EITHER, one=one, other=other)
    try:
        value = reading(word, unit)
    except ReadingError as error:
        units = unit.words
        raise _refused(number, line, _UNREADABLE, word=word, reason=error, units=units) from error
    low, high = HOLE_SPOT.low, HOLE_SPOT.high
    if not low <= value <= high:
        length, reach = amount(value, unit), span(low, high, unit)
        raise _refused(number, line, _FAR_OUT, length=length, range=reach)
    return value

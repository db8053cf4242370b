"""Sums as people type them: "480+20", "500 − 12,5", "2 × 240 mm", "3/4 in".

Numbers are added, taken away, multiplied and divided, in the order known from school and
without brackets.  What a single number looks like, and in which unit it counts, is for
:mod:`app.words.units` to say.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final, NamedTuple

OPERATORS: Final = "+-*/×÷"
"""What may stand between two numbers, of which none may be part of a unit."""
_SIGN: Final = re.compile(r"\s*([-+]?)\s*")
_BETWEEN: Final = re.compile(r"\s*([-+*/×÷])")


class SumError(ValueError):
    """The text is no sum of numbers."""


class Quantity(NamedTuple):
    """A number, and the size of the unit that was typed with it; None for a number alone."""

    value: float
    size: float | None


Read = Callable[[str, int], tuple[Quantity, int]]
"""Gives the quantity at a place of a text, and where what follows it begins."""


def terms_of(text: str, read: Read) -> list[Quantity]:
    """What is to be added up: numbers, and products of them, each with its sign.

    A product counts in the one unit that is typed in it, wherever that stands: "3/4 in" are
    three quarters of an inch.

    Args:
        text: what was typed.
        read: reads one number with its unit; raises :class:`SumError` where there is none.

    Raises:
        SumError: it is no sum, a product has two units, or something is divided by nothing.
    """
    terms, at, operator = [Quantity(0.0, None)], 0, "+"
    while True:
        sign = _SIGN.match(text, at)
        quantity, at = read(text, sign.end() if sign else at)
        if sign and sign[1] == "-":
            quantity = quantity._replace(value=-quantity.value)
        if operator in "+-":
            value = -quantity.value if operator == "-" else quantity.value
            terms.append(quantity._replace(value=value))
        else:
            terms[-1] = _product(terms[-1], operator, quantity)
        if not text[at:].strip():
            return terms[1:]
        between = _BETWEEN.match(text, at)
        if between is None:
            raise SumError
        operator, at = between[1], between.end()


def _product(one: Quantity, operator: str, other: Quantity) -> Quantity:
    if one.size is not None and other.size is not None:
        raise SumError
    if operator not in "/÷":
        value = one.value * other.value
    elif other.value:
        value = one.value / other.value
    else:
        raise SumError
    return Quantity(value, one.size if other.size is None else other.size)

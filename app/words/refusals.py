"""What the geometry refuses, in the user's language.

The geometry knows no language and puts such sentences together with figures.  They
are taken apart by the templates that they were made by, and made anew.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Final

from app.words.language import msgid, tr, with_decimal_mark, with_grouping_mark

TEMPLATES: Final = (
    msgid("{refused}; the {name} is not measured yet, so begin with it"),
    msgid("{name} is {value}; it must lie between {range}"),
    msgid("{name} is {value}; it must be less than the {other}, {limit}"),
    msgid("{name} is {value}; it must be a whole number from {range}"),
    msgid("{name} is {value}; a full turn must be a whole number of steps"),
    msgid("two parts are called {part} and slope {slope}; give each its own name"),
    msgid("the least {name}, {least}, is more than the most, {most}"),
    msgid(
        "the inserts allow no stance length from {range}; they allow {allowed}, one every {grid}"
    ),
    msgid(
        "no pair of binding angles in steps of {step} lies within the limits of front angle, "
        "rear angle and splay"
    ),
    msgid(
        "there are {many} candidates, more than the {enough} that can be gone through; "
        "set closer limits, or take a wider step of bearing or a lower stack"
    ),
    msgid(
        "the parts can be stacked in more than the {enough} ways that can be gone through; "
        "take a wider step of bearing, fewer parts or a lower stack"
    ),
    msgid(
        "the repeats lie {gap} apart, more than {widest}: "
        "find the landmark again and repeat the measurement"
    ),
    msgid("forecast for the age of {age}: measure before mounting"),
)
"""Whole sentences."""

NAMES: Final = (
    msgid("hip height", "refused"),
    msgid("knee height", "refused"),
    msgid("ankle height", "refused"),
    msgid("hip spacing", "refused"),
    msgid("neutral spacing", "refused"),
    msgid("foot length", "refused"),
    msgid("knee tracking", "refused"),
    msgid("stature", "refused"),
    msgid("inseam", "refused"),
    msgid("sitting knee height", "refused"),
    msgid("age", "refused"),
    msgid("years ahead", "refused"),
    msgid("front binding angle", "refused"),
    msgid("rear binding angle", "refused"),
    msgid("stance length", "refused"),
    msgid("splay", "refused"),
    msgid("insert grid", "refused"),
    msgid("shortest stance length", "refused"),
    msgid("longest stance length", "refused"),
    msgid("number of insert positions", "refused"),
    msgid("largest stack", "refused"),
    msgid("step of the binding angles", "refused"),
    msgid("sole length", "refused"),
    msgid("sole width", "refused"),
    msgid("slope of {part}", "refused"),
    msgid("thickness of {part}", "refused"),
    msgid("count of {part}", "refused"),
    msgid("step of bearing of {part}", "refused"),
)
"""What may be refused, as the geometry calls it."""

_FIGURE: Final = r"[-−]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?"
_RANGE: Final = re.compile(rf"({_FIGURE}) (?:to|and) ({_FIGURE}.*)")
_UNIT: Final = re.compile(r"(?<=\d) (deg|years)\b")
_UNITS: Final = {
    "deg": msgid("deg", "after a figure"),
    "years": msgid("years", "after a figure"),
}


@cache
def _pattern(template: str) -> re.Pattern[str]:
    """What a template looks like once its places are filled."""
    return re.compile(re.sub(r"\\\{(\w+)\\\}", r"(?P<\1>.+?)", re.escape(template)))


def refusal(sentence: str) -> str:
    """A sentence of the geometry in the user's language; as it is where none is like it."""
    for template in TEMPLATES:
        found = _pattern(template).fullmatch(sentence)
        if found:
            filled = {place: _own(place, said) for place, said in found.groupdict().items()}
            return tr(template, **filled)
    return sentence


def _own(place: str, said: str) -> str:
    """What fills a place, in the user's language."""
    if place == "refused":
        return refusal(said)
    if place in {"name", "other"}:
        return _name(said)
    if place in {"many", "enough"}:
        return with_grouping_mark(said)
    return said if place == "part" else _value(said)


def _name(said: str) -> str:
    for name in NAMES:
        found = _pattern(name).fullmatch(said)
        if found:
            return tr(name, "refused", **found.groupdict())
    one, both, other = said.partition(" and ")
    return tr("{most} and {last}", most=_name(one), last=_name(other)) if both else said


def _value(said: str) -> str:
    """An amount or a range of amounts."""
    ends = _RANGE.fullmatch(said)
    if ends:
        low, high = (_value(end) for end in ends.groups())
        between = msgid("{low} and {high}") if " and " in said else msgid("{low} to {high}")
        return tr(between, low=low, high=high)
    return _UNIT.sub(
        lambda found: f" {tr(_UNITS[found[1]], 'after a figure')}", with_decimal_mark(said)
    )

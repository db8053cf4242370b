"""NAME=VALUE on the command line: numbers within their ranges, and words out of a few."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final

from app.rider.inputs import InputError
from app.words.field import Field

_NUMBER: Final = re.compile(r"[+-]?(?:[0-9]+[.,]?[0-9]*|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?")


def number(text: str) -> float:
    """The number that a text stands for, with a decimal point or a decimal comma.

    Raises:
        ValueError: it is not a plain number.
    """
    plain = text.strip().replace("\N{MINUS SIGN}", "-")
    if not _NUMBER.fullmatch(plain):
        raise ValueError(f"{text!r} is not a number")
    return float(plain.replace(",", "."))


@dataclass(frozen=True, slots=True)
class NamedValues:
    """What one option takes.

    Attributes:
        option: the option, as "--set".
        kind: what is named, as "input".
        choices: the words that a name may stand for.
        numbers: the range that a named number must lie in.
        texts: names of whole lines, and what stands in them.
    """

    option: str
    kind: str
    choices: Mapping[str, tuple[str, ...]]
    numbers: Mapping[str, Field]
    texts: Mapping[str, str] = field(default_factory=dict)

    @property
    def names(self) -> tuple[str, ...]:
        """Every name that the option takes."""
        return (*self.choices, *self.numbers, *self.texts)

    def read(self, texts: Iterable[str]) -> dict[str, float | str]:
        """What texts like "knee_bend_deg=40" stand for; of a name given twice the last counts.

        Raises:
            InputError: a text is not of that form, or there is no such name or no such value.
        """
        return dict(self._value(text) for text in texts)

    def read_span(self, text: str) -> tuple[str, float, float]:
        """The name and both ends that a text like "knee_bend_deg=30:60" stands for.

        Raises:
            InputError: it is not of that form, or there is no such name or no such value.
        """
        name, equals, ends = (part.strip() for part in text.partition("="))
        start, colon, end = (part.strip() for part in ends.partition(":"))
        if not (name and equals and start and colon and end):
            raise InputError(f"{self.option} {text!r} is not of the form NAME=FROM:TO")
        if name not in self.numbers:
            raise self._unknown(name)
        return name, self._in_range(name, start), self._in_range(name, end)

    def _unknown(self, name: str) -> InputError:
        advice = likeliest(name, self.names) or "kneeline --help lists them"
        return InputError(f"there is no {self.kind} named {name!r}; {advice}")

    def _value(self, text: str) -> tuple[str, float | str]:
        name, equals, value = (part.strip() for part in text.partition("="))
        if not (name and equals):
            raise InputError(f"{self.option} {text!r} is not of the form NAME=VALUE")
        if name in self.choices:
            return name, self._chosen(name, value)
        if name in self.numbers:
            return name, self._in_range(name, value)
        if name in self.texts:
            return name, value
        raise self._unknown(name)

    def _chosen(self, name: str, value: str) -> str:
        if value not in self.choices[name]:
            *others, last = self.choices[name]
            raise InputError(f"{name} is {value!r}; it must be {', '.join(others)} or {last}")
        return value

    def _in_range(self, name: str, text: str) -> float:
        try:
            value = number(text)
        except ValueError as error:
            raise InputError(f"{name} is {text!r}; it must be a number") from error
        low, high = self.numbers[name].low, self.numbers[name].high
        if not low <= value <= high:
            raise InputError(f"{name} is {value:g}; it must lie between {low:g} and {high:g}")
        return value


def likeliest(name: str, names: Iterable[str]) -> str:
    """The name that was probably meant, as "did you mean ...?"; "" where none comes near."""
    # Needed for a mistake only, and slow to import.
    from difflib import get_close_matches  # noqa: PLC0415

    near = get_close_matches(name, names, n=1)
    return f"did you mean {near[0]}?" if near else ""

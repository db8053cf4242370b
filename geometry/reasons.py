"""Why an input is refused, or why there is no answer: a key and its values.

No sentence is made here.  Who tells people of a reason makes one from its key, in
their language and with lengths in their unit; whatever they typed themselves
stands among the values as it is, so that nothing rewrites it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, TypeAlias, Union

_IN_RADIANS: Final = frozenset({"deg", "°"})
_SUFFIXES: Final = {"size": " mm", "°": "°", "": ""}


@dataclass(frozen=True, slots=True)
class Amount:
    """A length, an angle, a time or a number of things.

    Attributes:
        value: in mm for lengths, rad for angles, years for times.
        unit: "mm" for what is measured; "size" for mm of what is sold by its size;
            "deg", or "°" where the sign stands at the figure; "years"; "" for none.
        toward: for a length that was worked out: +1 for one that is enough, to be
            rounded up; -1 for all there is, to be rounded down; 0 for the nearest.
            None for one that was said, which is told as it is.
        bare: whether the unit is left out, since the next amount has the same.
    """

    value: float
    unit: str = ""
    toward: int | None = None
    bare: bool = False

    @property
    def figure(self) -> float:
        """The value as people say it: angles in degrees."""
        return math.degrees(self.value) if self.unit in _IN_RADIANS else self.value

    @property
    def suffix(self) -> str:
        """What follows the figure."""
        return "" if self.bare else _SUFFIXES.get(self.unit, f" {self.unit}")

    def __str__(self) -> str:
        return f"{self.figure:.6g}{self.suffix}"


@dataclass(frozen=True, slots=True)
class Span:
    """From one amount to another.

    Attributes:
        low: the lower end.
        high: the upper end.
        unit: of both, as in :class:`Amount`.
        between: whether it is "between 3 and 5 mm" rather than "from 3 to 5 mm".
    """

    low: float
    high: float
    unit: str = ""
    between: bool = False

    @property
    def ends(self) -> tuple[Amount, Amount]:
        """Both ends, the unit at the upper one."""
        return Amount(self.low, self.unit, bare=True), Amount(self.high, self.unit)

    def __str__(self) -> str:
        low, high = self.ends
        return f"{low} to {high}"


@dataclass(frozen=True, slots=True)
class Name:
    """What an input is called, in English; "slope of {part}" where it is that of a part.

    Attributes:
        words: the name, with a place for the part if it has one.
        part: what the part's owner calls it.
    """

    words: str
    part: str = ""

    def __str__(self) -> str:
        return self.words.format(part=self.part)


Value: TypeAlias = Union[Amount, Span, Name, int, str, "Reason", tuple[Name, ...]]
"""What a reason can hold: a whole number counts things, a text is somebody's own."""


@dataclass(frozen=True, init=False, slots=True)
class Reason:
    """Why something cannot be.

    Attributes:
        key: says which reason it is, in a few English words.
        values: what the sentence of that key has places for, by their names.
    """

    key: str
    values: Mapping[str, Value]

    def __init__(self, key: str, /, **values: Value) -> None:
        object.__setattr__(self, "key", key)
        object.__setattr__(self, "values", values)

    def __str__(self) -> str:
        """A line for who writes programs: "out of range: name hip height, value 9 mm, ..."."""
        values = ", ".join(f"{name} {value}" for name, value in self.values.items())
        return f"{self.key}: {values}" if values else self.key


class ImpossibleError(ValueError):
    """Input that cannot be taken, for one reason or several."""

    def __init__(self, *reasons: Reason) -> None:
        super().__init__(*reasons)

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """Why it cannot be taken."""
        return self.args

    def __str__(self) -> str:
        return "; ".join(map(str, self.args))


def impossible(key: str, /, **values: Value) -> ImpossibleError:
    """What to raise for one reason."""
    return ImpossibleError(Reason(key, **values))

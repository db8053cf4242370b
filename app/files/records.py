"""Records in files: tables of what each value must be, by which they are read and written.

A reader takes what a value is called, for messages, and what stands in the file; it gives
the value as the program holds it, or says why it is refused.  A :class:`Record` is a table
of readers by their keys and is a reader itself, so records nest.  Keys that a table does not
know are found, and put back in their places, at every level.

Every reader raises :class:`~app.files.safe_files.RefusalError` for what it refuses: what is
wrong, where, and what it must be.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from sys import maxsize
from typing import Any, Final, Generic, TypeAlias, TypeVar

from app.files.safe_files import RefusalError
from app.files.strict_json import brief, on_one_line
from app.words.field import Field
from app.words.language import msgid, tr
from app.words.reasons import reason_phrase

Reader: TypeAlias = Callable[[str, Any], Any]

_T = TypeVar("_T")

_ONE_OF: Final = msgid("{name} is {value}; it must be one of {words}")


def refusal(message: str, name: str, value: Any, **figures: str) -> RefusalError:
    """Why a value is not taken, by a message with places for its name and for itself."""
    return RefusalError(tr(message, name=name, value=brief(value), **figures))


def dotted(group: str, key: str) -> str:
    """What messages call a value: "inputs.hip_height_mm"; without a key, what they call a group."""
    return f"{group}.{key}" if group and key else group or key


@dataclass(frozen=True)
class Record(Generic[_T]):
    """A group of values in a file.

    Attributes:
        make: makes what the group stands for of the values by their keys; it knows what
            stands for each that may be missing.
        readers: what each value must be, by its key, in the order in which they are written.
        required: keys that may not be missing.
        called: what messages call a value, by the group's name and the value's key; by the
            name and "", what they call the group.
    """

    make: Callable[..., _T]
    readers: Mapping[str, Reader]
    required: Collection[str] = ()
    called: Callable[[str, str], str] = dotted

    def __call__(self, name: str, raw: Any) -> _T:
        """What the group of this name stands for.

        Raises:
            RefusalError: says what is wrong, where, and what it must be.
        """
        # What comes first in the file is complained of first.
        given = {**group(self.called(name, ""), raw)}
        given |= {key: {} for key in self.groups if key not in given}
        for key in self.required:
            if key not in given:
                raise RefusalError(tr("{name} is missing", name=self.called(name, key)))
        return self.make(
            **{
                key: self.readers[key](self.called(name, key), value)
                for key, value in given.items()
                if key in self.readers
            }
        )

    def unknown_keys(self, raw: Mapping[str, Any]) -> dict[str, Any]:
        """What no table knows of a group that can be read, in its places."""
        unknown = {key: value for key, value in raw.items() if key not in self.readers}
        inner = {key: each.unknown_keys(raw.get(key, {})) for key, each in self.groups.items()}
        return unknown | {key: keys for key, keys in inner.items() if keys}

    def as_json(self, thing: _T, unknown_keys: Mapping[str, Any]) -> dict[str, Any]:
        """The group that stands for a thing, with the unknown keys in their places."""
        known = {key: getattr(thing, key) for key in self.readers}
        for key, each in self.groups.items():
            known[key] = each.as_json(known[key], unknown_keys.get(key, {}))
        return known | {key: unknown_keys[key] for key in unknown_keys if key not in known}

    @cached_property
    def groups(self) -> dict[str, Record[Any]]:
        """The readers that are records; a group that is missing counts as empty."""
        return {key: each for key, each in self.readers.items() if isinstance(each, Record)}


class Pairs(Record[tuple[tuple[str, Any], ...]]):
    """A group of values that is held as pairs of key and value, in the order of the file."""

    def __init__(self, readers: Mapping[str, Reader]) -> None:
        super().__init__(lambda **values: tuple(values.items()), readers)

    def as_json(
        self, thing: Iterable[tuple[str, Any]], unknown_keys: Mapping[str, Any]
    ) -> dict[str, Any]:
        """The group that stands for the pairs, with the unknown keys behind them."""
        return {**dict(thing), **unknown_keys}


def _just(kind: type[_T], no_such: str) -> Callable[[str, Any], _T]:
    """The reader of any value of a kind; ``no_such`` is what is said of anything else."""

    def read(name: str, value: Any) -> _T:
        if not isinstance(value, kind):
            raise refusal(no_such, name, value)
        return value

    return read


group: Final = _just(dict, msgid("{name} is {value}; it must be a group of values in braces"))
"""The reader of a group of values, whatever they are."""
text: Final = _just(str, msgid("{name} is {value}; it must be text in quotes"))
truth: Final = _just(bool, msgid("{name} is {value}; it must be true or false"))


def possible(make: Callable[..., _T], used: Callable[[_T], object]) -> Callable[..., _T]:
    """Makes a thing of its values, and refuses one that cannot be used."""

    def made(**values: Any) -> _T:
        thing = make(**values)
        try:
            used(thing)
        except ValueError as error:
            # It may name a part, and a file can call a part anything.
            raise RefusalError(on_one_line(reason_phrase(error))) from error
        return thing

    return made


def one_of(words: Collection[str], no_word: str = _ONE_OF) -> Reader:
    """The reader of one of some words; ``no_word`` is what is said of anything else."""

    def read(name: str, value: Any) -> Any:
        # A list stands in no mapping, and cannot even be looked for there.
        if value not in tuple(words):
            raise refusal(no_word, name, value, words=", ".join(words))
        return value

    return read


def number(low: float, high: float) -> Reader:
    """The reader of a number from a lowest to a highest one."""

    def read(name: str, value: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise refusal(msgid("{name} is {value}; it must be a number"), name, value)
        if not low <= value <= high:
            message = msgid("{name} is {value}; it must lie between {low} and {high}")
            # Figures as they stand in the file, in every language.
            raise refusal(message, name, value, low=f"{low:g}", high=f"{high:g}")
        return float(value)

    return read


def whole_number(low: float, high: float) -> Reader:
    """The reader of a whole number from a lowest to a highest one; 2.0 is one too."""

    def read(name: str, value: Any) -> int:
        found: float = number(low, high)(name, value)
        if not found.is_integer():
            raise refusal(msgid("{name} is {value}; it must be a whole number"), name, value)
        return int(found)

    return read


def number_of(field: Field) -> Reader:
    """The reader of a number that is set by hand: a whole one where it has no unit."""
    if not field.unit:
        return whole_number(field.low, field.high)
    in_range = number(field.low, field.high)
    if not field.zero_allowed:
        return in_range
    from_zero = number(0.0, field.high)
    return lambda name, value: in_range(name, value) if from_zero(name, value) else 0.0


def numbers(fields: Iterable[Field]) -> dict[str, Reader]:
    """The readers of numbers that are set by hand, by their names."""
    return {field.name: number_of(field) for field in fields}


def list_of(
    reader: Reader,
    no_list: str,
    *,
    fewest: int = 0,
    most: int = maxsize,
    too_many: str = "",
    called: Callable[[str, int], str] = lambda name, place: name,  # noqa: ARG005
    make: Callable[[Iterable[Any]], Any] = tuple,
) -> Reader:
    """The reader of a list of things alike.

    Args:
        reader: of one of them.
        no_list: what is said of anything else, and of fewer.
        fewest: how many there must be.
        most: how many there may be.
        too_many: what is said of more.
        called: what messages call one, by the name of the list and its place from 1 up.
        make: makes what the list stands for.
    """

    def read(name: str, value: Any) -> Any:
        if not isinstance(value, list) or len(value) < fewest:
            raise refusal(no_list, name, value)
        if len(value) > most:
            count = {"count": str(len(value)), "most": str(most)}
            raise refusal(too_many or no_list, name, value, **count)
        return make(reader(called(name, i), each) for i, each in enumerate(value, 1))

    return read

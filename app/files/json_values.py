"""Values taken out of a file's JSON, each refused in words where it cannot be what it must."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from app.files.safe_files import RefusalError
from app.files.strict_json import brief
from app.words.language import tr


def section(raw: dict[str, Any], key: str) -> dict[str, Any]:
    """A group of values; empty where there is none.

    Raises:
        RefusalError: something else stands there.
    """
    values = raw.get(key, {})
    if not isinstance(values, dict):
        raise RefusalError(no_group(key, values))
    return values


def text(raw: dict[str, Any], key: str) -> str:
    """A text; empty where there is none.

    Raises:
        RefusalError: something else stands there.
    """
    value = raw.get(key, "")
    if not isinstance(value, str):
        raise RefusalError(no_text(key, value))
    return value


def number(where: str, value: Any, low: float, high: float) -> float:
    """A number in its range.

    Raises:
        RefusalError: it is something else, or out of its range.
    """
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise RefusalError(
            tr("{name} is {value}; it must be a number", name=where, value=brief(value))
        )
    if not low <= value <= high:
        # Figures as they stand in the file, in every language.
        raise RefusalError(
            tr(
                "{name} is {value}; it must lie between {low} and {high}",
                name=where,
                value=brief(value),
                low=f"{low:g}",
                high=f"{high:g}",
            )
        )
    return float(value)


def whole_number(where: str, value: Any, low: int, high: int) -> int:
    """A whole number in its range; 2.0 is one too.

    Raises:
        RefusalError: it is something else, or out of its range.
    """
    found = number(where, value, low, high)
    if not found.is_integer():
        raise RefusalError(
            tr("{name} is {value}; it must be a whole number", name=where, value=brief(value))
        )
    return int(found)


def truth(where: str, value: Any) -> bool:
    """Yes or no.

    Raises:
        RefusalError: it is something else.
    """
    if not isinstance(value, bool):
        raise RefusalError(
            tr("{name} is {value}; it must be true or false", name=where, value=brief(value))
        )
    return value


def one_of(where: str, value: Any, words: Sequence[str]) -> str:
    """One of some words.

    Raises:
        RefusalError: it is something else.
    """
    if value not in words:
        raise RefusalError(
            tr(
                "{name} is {value}; it must be one of {words}",
                name=where,
                value=brief(value),
                words=", ".join(words),
            )
        )
    return str(value)


def no_group(where: str, value: Any) -> str:
    """Why something is refused that is no group of values."""
    return tr(
        "{name} is {value}; it must be a group of values in braces", name=where, value=brief(value)
    )


def no_text(where: str, value: Any) -> str:
    """Why something is refused that is no text."""
    return tr("{name} is {value}; it must be text in quotes", name=where, value=brief(value))

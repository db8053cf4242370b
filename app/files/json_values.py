"""Values taken out of a file's JSON, each refused in words where it cannot be what it must."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from app.files.safe_files import RefusalError
from app.files.strict_json import brief


def schema_of(raw: dict[str, Any], what: str) -> int:
    """The number of the layout in which a file is written.

    Args:
        raw: all that the file holds.
        what: what it should hold, as "a set-up".

    Raises:
        RefusalError: there is none.
    """
    if "schema" not in raw:
        raise RefusalError(f"it is not {what}: it has no schema number")
    schema = raw["schema"]
    if isinstance(schema, bool) or not isinstance(schema, int) or schema < 1:
        raise RefusalError(f"schema is {brief(schema)}; it must be a whole number from 1 up")
    return schema


def section(raw: dict[str, Any], key: str) -> dict[str, Any]:
    """A group of values; empty where there is none.

    Raises:
        RefusalError: something else stands there.
    """
    values = raw.get(key, {})
    if not isinstance(values, dict):
        raise RefusalError(f"{key} is {brief(values)}; it must be a group of values in braces")
    return values


def text(raw: dict[str, Any], key: str) -> str:
    """A text; empty where there is none.

    Raises:
        RefusalError: something else stands there.
    """
    value = raw.get(key, "")
    if not isinstance(value, str):
        raise RefusalError(f"{key} is {brief(value)}; it must be text in quotes")
    return value


def number(where: str, value: Any, low: float, high: float) -> float:
    """A number in its range.

    Raises:
        RefusalError: it is something else, or out of its range.
    """
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise RefusalError(f"{where} is {brief(value)}; it must be a number")
    if not low <= value <= high:
        raise RefusalError(f"{where} is {brief(value)}; it must lie between {low:g} and {high:g}")
    return float(value)


def whole_number(where: str, value: Any, low: int, high: int) -> int:
    """A whole number in its range; 2.0 is one too.

    Raises:
        RefusalError: it is something else, or out of its range.
    """
    found = number(where, value, low, high)
    if not found.is_integer():
        raise RefusalError(f"{where} is {brief(value)}; it must be a whole number")
    return int(found)


def truth(where: str, value: Any) -> bool:
    """Yes or no.

    Raises:
        RefusalError: it is something else.
    """
    if not isinstance(value, bool):
        raise RefusalError(f"{where} is {brief(value)}; it must be true or false")
    return value


def one_of(where: str, value: Any, words: Sequence[str]) -> str:
    """One of some words.

    Raises:
        RefusalError: it is something else.
    """
    if value not in words:
        raise RefusalError(f"{where} is {brief(value)}; it must be one of {', '.join(words)}")
    return str(value)

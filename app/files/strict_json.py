"""JSON that means one thing only: finite numbers, each key once, no abyss.

The standard parser takes NaN, 1e999, duplicate keys and any depth that its
stack survives.  A set-up must be readable by every other program too, so each
of these is refused here with its reason.
"""

from __future__ import annotations

import json
import math
import re
from typing import Any, Final

from app.files.safe_files import RefusalError
from app.words.language import tr

DEEPEST: Final = 40
"""Brackets within brackets; a set-up has two."""

LONGEST_NUMBER: Final = 400
"""Digits of a whole number; no float has more than 309 before its point."""

# A whole string, closed or not, or one bracket: what decides the depth.
_STRING_OR_BRACKET: Final = re.compile(r'"[^"\\]*+(?:\\.[^"\\]*+)*+"?|[\[{]|[\]}]', re.DOTALL)


def parsed(data: bytes) -> Any:
    """The value that JSON text stands for.

    A byte order mark at the start is skipped: some editors add one to UTF-8.

    Raises:
        RefusalError: the text is empty, not UTF-8, not JSON, or holds something
            that JSON programs read differently.
    """
    text = _decoded(data)
    _require_shallow(text)
    try:
        return json.loads(
            text,
            parse_constant=_refuse_constant,
            parse_float=_finite,
            parse_int=_whole,
            object_pairs_hook=_reject_duplicate_keys,
        )
    except json.JSONDecodeError as error:
        # The column depends on the version of Python.
        raise RefusalError(
            tr("it is not valid JSON; look at line {line}", line=error.lineno)
        ) from error


def written(value: Any, *, dense: bool = False) -> bytes:
    """JSON text of a value, UTF-8, with a final line end.

    It is indented, or without any space where it has to be short.

    Half a surrogate pair, which UTF-8 cannot hold, is written as the escape it
    was read from.

    Raises:
        ValueError: a number is not finite.
    """
    style: dict[str, Any] = {"separators": (",", ":")} if dense else {"indent": 2}
    text = json.dumps(value, ensure_ascii=False, allow_nan=False, **style) + "\n"
    return text.encode("utf-8", "backslashreplace")


def on_one_line(text: str) -> str:
    """A text fit for one line of a message: what cannot be printed as JSON would write it."""
    return "".join(each if each.isprintable() else json.dumps(each)[1:-1] for each in text)


def brief(value: Any) -> str:
    """A value as it stands in the file, cut short for a message of one line."""
    text = json.dumps(value)
    return text if len(text) <= 40 else text[:37] + "..."


def _decoded(data: bytes) -> str:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise RefusalError(
            tr("it is not UTF-8 text from byte {place} on", place=error.start + 1)
        ) from error
    if not text.strip():
        raise RefusalError(tr("it is empty"))
    return text


def _require_shallow(text: str) -> None:
    depth = 0
    for match in _STRING_OR_BRACKET.finditer(text):
        first = match[0][0]
        if first != '"':
            depth += 1 if first in "[{" else -1
        if depth > DEEPEST:
            raise RefusalError(tr("its brackets are nested more than {most} deep", most=DEEPEST))


def _refuse_constant(word: str) -> float:
    raise RefusalError(tr("{word} is not a number that JSON knows", word=word))


def _finite(digits: str) -> float:
    value = float(digits)
    if math.isinf(value):
        raise RefusalError(tr("the number {number} is too large", number=digits[:20]))
    return value


def _whole(digits: str) -> int:
    if len(digits) > LONGEST_NUMBER:
        raise RefusalError(tr("a number with {count} digits is too large", count=len(digits)))
    return int(digits)


def _reject_duplicate_keys(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    whole: dict[str, Any] = {}
    for key, value in pairs:
        if key in whole:
            raise RefusalError(tr("the key {key} stands in it twice", key=brief(key)))
        whole[key] = value
    return whole

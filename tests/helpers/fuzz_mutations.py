"""Spoils files as people and programs do: by their values, or by their bytes."""

from __future__ import annotations

import json
from copy import deepcopy
from random import Random
from typing import Any

ODD: tuple[Any, ...] = (
    None, True, False, 0, -0.0, 1, -1, 0.5, 1e-300, 1e300, 10**30, 90, 880.0, 3, "", "a", "left",
    "\ud800", "<b>", "\n", "2026-02-30", "2026-01-31", "even", [], {}, [[]], [1, 2], {"": 1},
    {"a": {"b": 1}}, ["left", "right"], "x" * 300,
)  # fmt: skip
TOKENS = (
    b'"',
    b"{",
    b"}",
    b"[",
    b"]",
    b",",
    b":",
    b"\\",
    b"\0",
    b"\xff",
    b"1e999",
    b"NaN",
    b"\xef\xbb\xbf",
)


def mutated(data: bytes, random: Random) -> bytes:
    """Another file: sound JSON with other values where it was sound, else other bytes."""
    head, body = (data[:1], data[1:]) if data[:1] < b"\4" else (b"", data)
    try:
        whole = json.loads(body)
    except (ValueError, RecursionError):
        return _other_bytes(data, random)
    if random.random() < 0.15:
        return _other_bytes(data, random)
    for _ in range(random.choice((1, 1, 1, 2, 5))):
        whole = _other_values(whole, random)
    text = json.dumps(whole, ensure_ascii=random.random() < 0.5)
    return head + text.encode("utf-8", "backslashreplace")


def _other_values(whole: Any, random: Random) -> Any:
    places = _places(whole)
    if not places:
        return deepcopy(random.choice(ODD))
    inside, key = random.choice(places)
    how = random.randrange(6)
    if how == 0:
        del inside[key]
    elif how == 1 and isinstance(inside, dict):
        inside[random.choice((key + "x", "later", "", "schema", "notes", "parts"))] = inside[key]
    elif how == 1:
        inside.insert(key, inside[key])
    elif how == 2:
        other, place = random.choice(places)
        inside[key] = json.loads(json.dumps(other[place])) if place in _keys(other) else None
    elif how == 3 and isinstance(inside[key], int | float):
        inside[key] = inside[key] * random.choice((-1, 10, 0.1, 1.001)) + random.choice((0, 1))
    else:
        inside[key] = deepcopy(random.choice(ODD))
    return whole


def _places(whole: Any) -> list[tuple[Any, Any]]:
    """Every value that stands in another, by that one and its key."""
    found, left = [], [whole]
    while left:
        inside = left.pop()
        for key in _keys(inside):
            found.append((inside, key))
            left.append(inside[key])
    return found


def _keys(inside: Any) -> list[Any]:
    if isinstance(inside, dict):
        return list(inside)
    return list(range(len(inside))) if isinstance(inside, list) else []


def _other_bytes(data: bytes, random: Random) -> bytes:
    at = random.randrange(len(data) + 1)
    to = min(len(data), at + random.choice((0, 1, 1, 4, 40)))
    new = random.choice((b"", random.choice(TOKENS), random.randbytes(random.randrange(5))))
    return data[:at] + new + data[to:]

"""What is typed in a window and not entered yet, as it is kept against a crash."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final, NamedTuple

LONGEST: Final = 20_000
"""Letters of a text that are kept; more than any field holds but those that are kept anyhow."""
MOST: Final = 200
"""Texts that are kept: more than there are fields."""


class Draft(NamedTuple):
    """A text that stands in a field, while something else or nothing is in force.

    Attributes:
        place: of the field within the window, the same at every start and in every language.
        label: what the field is called.
        text: what is typed.
        why: why it cannot be taken, in a few words; "" where nobody has tried.
        detail: what else the field has to know to go on with it.
    """

    place: str
    label: str
    text: str
    why: str = ""
    detail: str = ""


def drafts_as_json(drafts: Sequence[Draft]) -> list[dict[str, str]]:
    """Drafts as a file holds them."""
    return [
        {name: _whole(value[:LONGEST]) for name, value in draft._asdict().items()}
        for draft in drafts[:MOST]
    ]


def drafts_in(raw: Any) -> tuple[Draft, ...]:
    """The drafts that a file holds; what is none is passed over."""
    listed = raw if isinstance(raw, list) else []
    return tuple(
        Draft(**{name: each[name] for name in Draft._fields})
        for each in listed[:MOST]
        if isinstance(each, dict) and all(isinstance(each.get(n), str) for n in Draft._fields)
    )


def _whole(text: str) -> str:
    """A text without halves of letters, which no file can hold."""
    return text.encode("utf-8", "ignore").decode()

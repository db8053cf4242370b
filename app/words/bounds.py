"""Texts that stand in files in any length, and as much of them as can be read in one place.

What is left out stays in the file; how much it is, is said where the text ends.
"""

from __future__ import annotations

from typing import Final

from app.words.language import tr
from app.words.units import counted

LINE: Final = 200
"""Letters of a text in a line: a title, an entry of a menu, a cell."""
PASSAGE: Final = 2000
"""Letters of a text that wraps: a tool tip, a message."""


def shortened(text: str, most: int = PASSAGE) -> str:
    """A text of any length, with at most so many of its letters."""
    if len(text) <= most:
        return text
    return tr("{text}… ({count} more letters)", text=text[:most], count=counted(len(text) - most))


def in_one_line(text: str, most: int = LINE) -> str:
    """A text of any length with its lines behind one another, and no more blanks than it needs."""
    if len(text) > most:
        # Of a very long text only what can be shown is looked at.
        return shortened(" ".join(text[:most].split()) + text[most:], most)
    return " ".join(text.split())

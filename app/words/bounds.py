"""Texts that stand in files in any length, and as much of them as can be read in one place.

What is left out stays in the file; how much it is, is said where the text ends.
"""

from __future__ import annotations

from typing import Final

from app.words.language import msgid, tr
from app.words.units import counted

LINE: Final = 200
"""Letters of a text in a line: a title, an entry of a menu, a cell."""
PASSAGE: Final = 2000
"""Letters of a text that wraps: a tool tip, a message."""
_LOOKED_AT: Final = 10
"""Times as many letters as can be shown, up to which blanks are taken out of a whole text."""


def shortened(text: str, most: int = PASSAGE) -> str:
    """A text of any length, with at most so many of its letters."""
    if len(text) <= most:
        return text
    return _cut(text[:most], len(text) - most)


def in_one_line(text: str, most: int = LINE) -> str:
    """A text of any length with its lines behind one another, and no more blanks than it needs."""
    if len(text) > _LOOKED_AT * most:  # what cannot be shown anyway is not gone through
        return _cut(" ".join(text[:most].split()), len(text) - most)
    return shortened(" ".join(text.split()), most)


def beginning_words(most: int) -> str:
    """What is said of a field that shows so many letters of a longer text."""
    words = msgid("The first {count} letters stand here; all the others stay in the file.")
    return tr(words, count=counted(most))


def _cut(shown: str, left: int) -> str:
    return tr("{text}… ({count} more letters)", text=shown, count=counted(left))

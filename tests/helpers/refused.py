"""Refusals in the words in which a rider reads them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from app.words.reasons import reason_phrase


@contextmanager
def refused(words: str) -> Iterator[None]:
    """What is done within is refused, in words among which a pattern is found."""
    with pytest.raises(ValueError) as caught:  # noqa: PT011
        yield
    assert re.search(words, reason_phrase(caught.value))

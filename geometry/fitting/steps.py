"""Long computations cut into short steps, for callers who must not stand still."""

from __future__ import annotations

from collections.abc import Generator
from typing import TypeAlias, TypeVar

Answer = TypeVar("Answer")
Steps: TypeAlias = Generator[None, None, Answer]
"""A computation that stops after every step, and returns its answer at the end."""


def finished(steps: Steps[Answer]) -> Answer:
    """The answer of a computation in steps, all of them done at once."""
    while True:
        try:
            next(steps)
        except StopIteration as end:
            answer: Answer = end.value
            return answer

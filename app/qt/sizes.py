"""How large letters are, and with them all that has to hold letters.

There is one size for the whole program, in percent of the usual one.  Whatever belongs to
type asks :func:`px` when it is made or painted, and keeps no answer beyond that: the window
is made anew where the size changes.  What leaves the program, on paper or as a picture, has
its own size.
"""

from __future__ import annotations

from typing import Final

USUAL_PERCENT: Final = 100
STEP_PERCENT: Final = 10
"""By how much the keys change it."""
_STACKS_FROM: Final = 130
"""Percent from which a label stands over its field, where both stand beside each other else."""


class _InForce:
    """Holds the size of letters (percent), and whether it may be less where room is short."""

    percent = USUAL_PERCENT
    held = False


def set_text_percent(percent: int, *, held: bool = False) -> None:
    """Put a size of letters in force, for all that is made from now on (percent).

    Args:
        percent: of the usual size.
        held: whether drawings without room for such letters have them nevertheless, since
            they are read from afar.
    """
    _InForce.percent, _InForce.held = percent, held


def is_held() -> bool:
    """Whether drawings have letters of the size in force, whatever room there is for them."""
    return _InForce.held


def text_percent() -> int:
    """The size of letters in force (percent of the usual one)."""
    return _InForce.percent


def text_scale() -> float:
    """The same as a factor."""
    return _InForce.percent / USUAL_PERCENT


def px(size: float) -> int:
    """A length that belongs to type, at the size of letters in force (logical px).

    What is pressed does not become smaller with its letters: see :func:`target_px`.
    """
    return round(size * _InForce.percent / USUAL_PERCENT)


def target_px(size: float) -> int:
    """The same of something that is pressed: never under the size that it has at 100 %."""
    return max(px(size), round(size))


def stacked() -> bool:
    """Whether labels stand over their fields, since both have no room beside each other."""
    return _InForce.percent >= _STACKS_FROM

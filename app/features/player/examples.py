"""Movements to begin with: examples that nobody measured on a snowboard.

No series of snowboarders' knee angles was found.  Times and bends of the two turns are
those of giant slalom on skis: movement cycles of left and right turn 3.5 s, knee angle
66 to 114 degrees where 180 is a straight leg, 1.0 s of bending and 0.5 s of extending
(Berg, Eiken & Tesch 1995, Med Sci Sports Exerc 27:1666-1670).  A straight knee is 0 here, so
that the bend too runs through 66 to 114 degrees: 180 less the one is the other.  What rests
over of the cycle is spent tall, between the turns.  All else (hips and back, and the
whole of the other two but for those two times) is an engineering choice without a source.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from app.rider.movement import KeyPosture, Movement
from app.words.language import msgid

CYCLE_S, BENDING_S, EXTENDING_S = 3.5, 1.0, 0.5
TALLEST_DEG, DEEPEST_DEG = 66.0, 114.0
_TURN_S: Final = 0.5 * CYCLE_S
_TALL_S: Final = _TURN_S - BENDING_S - EXTENDING_S


class Example(NamedTuple):
    """A movement that comes with the program.

    Attributes:
        title: in English.
        movement: its key postures.
    """

    title: str
    movement: Movement


def _posture(at_s: float, bend: float, lean: float, turned: float = 0.0) -> KeyPosture:
    return KeyPosture(round(at_s, 6), bend, turned, 0.0, lean)


def _turn(start_s: float, turned: float) -> tuple[KeyPosture, ...]:
    """One turn from the change of edges on: tall, bent, and tall again where the next begins."""
    deep = start_s + _TALL_S + BENDING_S
    return (
        _posture(start_s + _TALL_S, TALLEST_DEG, 40.0),
        _posture(deep, DEEPEST_DEG, 65.0, turned),
        _posture(deep + EXTENDING_S, TALLEST_DEG, 40.0),
    )


EXAMPLES: Final = {
    "crouch": Example(
        msgid("Stand to crouch"),
        Movement((_posture(0.0, 25.0, 18.0), _posture(BENDING_S, 80.0, 45.0))),
    ),
    "bump": Example(
        msgid("Absorb a bump"),
        Movement((
            _posture(0.0, 40.0, 28.0),
            _posture(0.5, 85.0, 50.0),
            _posture(0.5 + EXTENDING_S, 40.0, 28.0),
        )),
    ),
    "turns": Example(
        msgid("Two linked turns"),
        Movement((
            _posture(0.0, TALLEST_DEG, 40.0),
            *_turn(0.0, -5.0),
            *_turn(_TURN_S, 15.0),
        )),
    ),
}  # fmt: skip
"""By their keys, the shortest first."""

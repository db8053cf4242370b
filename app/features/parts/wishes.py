"""What a rider is ready to stand in: the limits of a search, as they are set."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.rider.inputs import FIELD
from app.words.field import Field
from app.words.language import msgid


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the rider is ready to stand in: least and most of each."""

    front_angle_least: float
    front_angle_most: float
    rear_angle_least: float
    rear_angle_most: float
    stance_length_least: float
    stance_length_most: float
    splay_least: float
    splay_most: float


ANGLES: Final = (FIELD["front_angle_deg"].low, FIELD["front_angle_deg"].high)
LENGTHS: Final = (FIELD["stance_length_mm"].low, FIELD["stance_length_mm"].high)
"""Least and most of what can be set (degrees, mm)."""

SPANS: Final = {
    "front_angle": msgid("Front angle", "as a limit"),
    "rear_angle": msgid("Rear angle", "as a limit"),
    "stance_length": msgid("Length", "as a limit"),
    "splay": msgid("Splay", "as a limit"),
}
"""What is limited: labels by name."""

_ANGLE: Final = ("deg", *ANGLES, 1.0)
_LENGTH: Final = ("mm", *LENGTHS, 5.0)
_SPLAY: Final = ("deg", -180.0, 180.0, 1.0)


def _end(name: str, title: str, span: tuple[str, float, float, float], about: str) -> Field:
    unit, low, high, step = span
    return Field(name, "wishes", title, unit, low, high, step, about)


WISH_FIELDS: Final = {
    "front_angle": (
        _end(
            "front_angle_least", msgid("Front angle, least"), _ANGLE,
            msgid("Binding angle of the front foot: the least that you are ready to ride."),
        ),
        _end(
            "front_angle_most", msgid("Front angle, most"), _ANGLE,
            msgid("Binding angle of the front foot: the most that you are ready to ride."),
        ),
    ),
    "rear_angle": (
        _end(
            "rear_angle_least", msgid("Rear angle, least"), _ANGLE,
            msgid("Binding angle of the rear foot: the least that you are ready to ride."),
        ),
        _end(
            "rear_angle_most", msgid("Rear angle, most"), _ANGLE,
            msgid("Binding angle of the rear foot: the most that you are ready to ride."),
        ),
    ),
    "stance_length": (
        _end(
            "stance_length_least", msgid("Length, least"), _LENGTH,
            msgid("Stance length: the least that you are ready to ride."),
        ),
        _end(
            "stance_length_most", msgid("Length, most"), _LENGTH,
            msgid("Stance length: the most that you are ready to ride."),
        ),
    ),
    "splay": (
        _end(
            "splay_least", msgid("Splay, least"), _SPLAY,
            msgid("Front less rear binding angle: the least that you are ready to ride."),
        ),
        _end(
            "splay_most", msgid("Splay, most"), _SPLAY,
            msgid("Front less rear binding angle: the most that you are ready to ride."),
        ),
    ),
}  # fmt: skip
"""The two ends of each limit, as controls take them."""

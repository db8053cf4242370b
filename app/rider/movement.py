"""A movement as typed: key postures, and when the rider comes through each of them."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Final

from app.rider.inputs import FIELD
from app.words.field import Field, adjustable, fields_of

MOST_POSTURES: Final = 12
"""As many as a table shows and a coach can tell apart (engineering choice, no source)."""
LEAST_GAP_S: Final = 0.1
"""Between two postures (s): nobody moves faster from one to the next."""


def _of_posture(name: str, default: float) -> float:
    """A number of the posture as its input describes it."""
    described = {Field.__name__: FIELD[name]}
    number: float = field(default=default, metadata=described)
    return number


@dataclass(frozen=True, slots=True)
class KeyPosture:
    """One posture that a movement comes through; the rest of the inputs stays as it is.

    Attributes:
        unknown_keys: what else a file holds of it that this version does not know, as JSON
            text; written back as it was.
    """

    at_s: float = adjustable(
        0.0, "movement", "Time", "s", 0.0, 60.0, 0.1,
        "When the rider comes through this posture, from the beginning of the movement.",
    )  # fmt: skip
    knee_bend_deg: float = _of_posture("knee_bend_deg", 45.0)
    hips_turned_deg: float = _of_posture("hips_turned_deg", 0.0)
    hip_shift_mm: float = _of_posture("hip_shift_mm", 0.0)
    back_lean_deg: float = _of_posture("back_lean_deg", 28.0)
    unknown_keys: str = ""


POSTURE_FIELDS: Final = fields_of(KeyPosture)
"""What can be typed of a key posture."""
MOVED: Final = tuple(each.name for each in POSTURE_FIELDS if each.name in FIELD)
"""Names of the inputs that a movement moves."""


@dataclass(frozen=True, slots=True)
class Movement:
    """Key postures in the order of their times; none where no movement was made yet."""

    postures: tuple[KeyPosture, ...] = ()

    @property
    def seconds(self) -> float:
        """How long it takes from the first posture to the last."""
        return self.postures[-1].at_s - self.postures[0].at_s if self.postures else 0.0


NO_MOVEMENT: Final = Movement()


def with_posture(movement: Movement, place: int, posture: KeyPosture) -> Movement:
    """The movement with another posture in a place, its time kept between its neighbours'."""
    given = list(movement.postures)
    low, high = time_range(movement, place)
    given[place] = replace(posture, at_s=min(max(posture.at_s, low), high))
    return Movement(tuple(given))


def time_range(movement: Movement, place: int) -> tuple[float, float]:
    """Between which times (s) the posture in a place may come."""
    given, field_of_time = movement.postures, POSTURE_FIELDS[0]
    low = given[place - 1].at_s + LEAST_GAP_S if place else field_of_time.low
    high = given[place + 1].at_s - LEAST_GAP_S if place + 1 < len(given) else field_of_time.high
    return round(low, 6), round(high, 6)


def with_one_more(movement: Movement) -> Movement:
    """The movement with its last posture once more, half a second later.

    It stays as it is where there is no room for another one.
    """
    last = movement.postures[-1] if movement.postures else KeyPosture()
    later = min(round(last.at_s + 0.5, 6), POSTURE_FIELDS[0].high)
    if len(movement.postures) >= MOST_POSTURES or later - last.at_s < LEAST_GAP_S:
        return movement
    more = replace(last, at_s=later, unknown_keys="")
    return Movement((*movement.postures, more))


def without(movement: Movement, place: int) -> Movement:
    """The movement without the posture in a place; two are the fewest that can be joined."""
    given = movement.postures
    return movement if len(given) <= 2 else Movement((*given[:place], *given[place + 1 :]))

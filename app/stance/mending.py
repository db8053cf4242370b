"""What would bring a knee back into its plane, or a boot off its stop, where no mount can."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, replace
from math import ceil, floor, isfinite, nan
from typing import Final, NamedTuple

import numpy as np

from app.rider.inputs import FIELD, Inputs, changed
from app.rider.setup import Setup
from app.stance.answer import Answer, FootAnswer
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.through import straight, terms_of
from geometry.fitting.answer import Terms
from geometry.fitting.proposal import begun_with, proposal_of
from geometry.stance import Mount as StanceMount

LENGTHS_MM: Final = tuple(float(by) for by in range(-100, 101, 10) if by)
TURNS_DEG: Final = tuple(float(by) for by in range(-20, 21, 2) if by)
"""Changes of the stance that are tried: longer or shorter, both feet turned to nose or tail."""
LEAST_BEND_DEG: Final = 5.0
"""Less of a riding bend is none (degrees; engineering choice)."""


class Mend(NamedTuple):
    """The smallest changes after which a foot is well, each by itself; nan where none is.

    Attributes:
        length_mm: added to the stance length.
        turn_deg: added to both binding angles.
        deepest_deg: no deeper than this bend.
        tallest_deg: no taller than this bend.
    """

    length_mm: float = nan
    turn_deg: float = nan
    deepest_deg: float = nan
    tallest_deg: float = nan

    @property
    def exists(self) -> bool:
        """Whether anything is known that would help."""
        return any(isfinite(each) for each in self)


def is_at_fault(foot: FootAnswer) -> bool:
    """Whether a knee stays out, or a boot at its stop, and no further step mends that."""
    return foot.exists and not foot.is_well and not foot.is_well_in_the_end


def mending_of(setup: Setup, answer: Answer, limits: Limits = USUAL_LIMITS) -> dict[str, Mend]:
    """What would mend each foot at fault, by "front" and "rear"; nothing for the others.

    Where a step is still to come, that is what makes the foot well after it: with all that
    is allowed, not only with what one begins with.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    feet = [foot for foot in answer.feet if is_at_fault(foot)]
    if not feet:
        return {}
    asked = {foot.name: _Asked(setup, limits, grown=foot.goes_on) for foot in feet}
    well = {each: _well(each) for each in set(asked.values())}
    found = {}
    for foot in feet:
        which = 0 if foot.name == "front" else 1
        fine = well[asked[foot.name]][which]
        deepest, tallest = _less_bend(asked[foot.name], foot)
        found[foot.name] = Mend(
            _smallest(LENGTHS_MM, fine[: len(LENGTHS_MM)]),
            _smallest(TURNS_DEG, fine[len(LENGTHS_MM) :]),
            deepest,
            tallest,
        )
    return found


@dataclass(frozen=True, slots=True)
class _Asked:
    """For whom it is sought, and whether with all that is allowed or what one begins with."""

    setup: Setup
    limits: Limits
    grown: bool

    def terms(self, inputs: Inputs) -> Terms:
        """What is asked of a stance."""
        allowed = terms_of(inputs, self.limits)
        return allowed if self.grown else begun_with(allowed, growing=self.setup.growing)


def _well(each: _Asked) -> np.ndarray:
    """Whether each foot is well with each change, lengths first, shape (2, changes)."""
    inputs = each.setup.inputs
    asked = straight(inputs)
    none = [0.0] * len(TURNS_DEG), [0.0] * len(LENGTHS_MM)
    by_length, by_turn = np.array([*LENGTHS_MM, *none[0]]), np.array([*none[1], *TURNS_DEG])
    length = inputs.stance_length_mm + by_length
    angles = [angle + by_turn for angle in (inputs.front_angle_deg, inputs.rear_angle_deg)]
    allowed = _in_range("stance_length_mm", length) & np.logical_and(
        *map(_in_range, ("front_angle_deg", "rear_angle_deg"), angles)
    )
    stance = replace(
        asked.stance,
        front=StanceMount(_held_in_range("front_angle_deg", angles[0])),
        rear=StanceMount(_held_in_range("rear_angle_deg", angles[1])),
        length=np.maximum(length, 0.0),
    )
    made = proposal_of(asked._replace(stance=stance), each.terms(inputs))
    return np.asarray(made.cant_is_enough & made.lift_is_enough & allowed)


def _in_range(name: str, values: np.ndarray) -> np.ndarray:
    return np.asarray((values >= FIELD[name].low) & (values <= FIELD[name].high))


def _held_in_range(name: str, values: np.ndarray) -> np.ndarray:
    """Angles (degrees) as far as they can be set, in rad."""
    return np.asarray(np.radians(np.clip(values, FIELD[name].low, FIELD[name].high)))


def _smallest(changes: tuple[float, ...], well: np.ndarray) -> float:
    """The smallest change with which a foot is well; nan if none is."""
    able = [by for by, fine in zip(changes, well, strict=True) if fine]
    return min(able, key=abs, default=nan)


def _less_bend(asked: _Asked, foot: FootAnswer) -> tuple[float, float]:
    """Deepest and tallest bend between which the foot is well; nan where that is no help.

    With less of the bend its middle and so the lifts are others, so each is asked anew.
    """
    inputs = asked.setup.inputs
    low, high = inputs.bend_from_deg, inputs.bend_to_deg
    through = foot.in_the_end if asked.grown else foot.then
    (start, end), *more = through.out or ((nan, nan),)
    if more or not isfinite(start):
        return nan, nan
    if end >= high - 1e-6:
        depths = range(floor(start + 1e-6), ceil(low + LEAST_BEND_DEG) - 1, -1)
        return _first_well(asked, foot, "bend_to_deg", depths), nan
    if start <= low + 1e-6:
        depths = range(ceil(end - 1e-6), floor(high - LEAST_BEND_DEG) + 1)
        return nan, _first_well(asked, foot, "bend_from_deg", depths)
    return nan, nan


def _first_well(asked: _Asked, foot: FootAnswer, name: str, depths: range) -> float:
    """The first of some ends of the bend from which on the foot is well; nan if none is."""
    inputs = asked.setup.inputs
    stance, which = straight(inputs), 0 if foot.name == "front" else 1

    def is_well(depth: int) -> bool:
        made = proposal_of(stance, asked.terms(changed(inputs, **{name: float(depth)})))
        return bool(made.cant_is_enough[which, 0] and made.lift_is_enough[which, 0])

    first = bisect_left(depths, True, key=is_well)
    return float(depths[first]) if first < len(depths) else nan

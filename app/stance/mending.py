"""What would bring a knee back into its plane, or a boot off its stop, where no mount can."""

from __future__ import annotations

from dataclasses import replace
from math import inf, isfinite, nan
from typing import Final, NamedTuple

import numpy as np

from app.rider.inputs import FIELD
from app.rider.setup import Setup
from app.stance.answer import ALLOWED, NO_MORE, Answer, FootAnswer
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.through import straight, terms_of
from geometry.fitting.proposal import begun_with, proposal_of
from geometry.stance import Mount as StanceMount

LENGTHS_MM: Final = tuple(float(by) for by in range(-100, 101, 10) if by)
TURNS_DEG: Final = tuple(float(by) for by in range(-20, 21, 2) if by)
"""Changes of the stance that are tried: longer or shorter, both feet turned to nose or tail."""


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
    return foot.exists and {ALLOWED, NO_MORE} & {foot.cant_held, foot.lift_held} != set()


def mending_of(setup: Setup, answer: Answer, limits: Limits = USUAL_LIMITS) -> dict[str, Mend]:
    """What would mend each foot at fault, by "front" and "rear"; nothing for the others.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    feet = [foot for foot in answer.feet if is_at_fault(foot)]
    if not feet:
        return {}
    well = _well(setup, limits)
    lengths, turns = well[:, : len(LENGTHS_MM)], well[:, len(LENGTHS_MM) :]
    found = {}
    for foot in feet:
        which = 0 if foot.name == "front" else 1
        deepest, tallest = _less_bend(foot, answer)
        found[foot.name] = Mend(
            _smallest(LENGTHS_MM, lengths[which]),
            _smallest(TURNS_DEG, turns[which]),
            deepest,
            tallest,
        )
    return found


def _well(setup: Setup, limits: Limits) -> np.ndarray:
    """Whether each foot is well with each change, lengths first, shape (2, changes)."""
    inputs, asked = setup.inputs, straight(setup.inputs)
    begin = begun_with(terms_of(inputs, limits), growing=setup.growing)
    none = [0.0] * len(TURNS_DEG), [0.0] * len(LENGTHS_MM)
    by_length, by_turn = np.array([*LENGTHS_MM, *none[0]]), np.array([*none[1], *TURNS_DEG])
    length = inputs.stance_length_mm + by_length
    angles = [angle + by_turn for angle in (inputs.front_angle_deg, inputs.rear_angle_deg)]
    allowed = _in_range("stance_length_mm", length) & np.logical_and(
        *(_in_range("front_angle_deg", angle) for angle in angles)
    )
    stance = replace(
        asked.stance,
        front=StanceMount(np.radians(np.clip(angles[0], -60.0, 90.0))),
        rear=StanceMount(np.radians(np.clip(angles[1], -60.0, 90.0))),
        length=np.maximum(length, 0.0),
    )
    made = proposal_of(asked._replace(stance=stance), begin)
    return np.asarray(made.cant_is_enough & made.lift_is_enough & allowed)


def _in_range(name: str, values: np.ndarray) -> np.ndarray:
    return np.asarray((values >= FIELD[name].low) & (values <= FIELD[name].high))


def _smallest(changes: tuple[float, ...], well: np.ndarray) -> float:
    """The smallest change with which a foot is well; nan if none is."""
    able = [by for by, fine in zip(changes, well, strict=True) if fine]
    return min(able, key=abs, default=nan)


def _less_bend(foot: FootAnswer, answer: Answer) -> tuple[float, float]:
    """Ends of the bend within which the knee stays in its plane; nan where they are its own."""
    low, high = answer.bend
    (start, end), *more = foot.then.out or ((inf, inf),)
    if more or not isfinite(start):
        return nan, nan
    if end >= high - 1e-6 and start > low + 1.0:
        return float(np.floor(start + 1e-6)), nan
    if start <= low + 1e-6 and end < high - 1.0:
        return nan, float(np.ceil(end - 1e-6))
    return nan, nan

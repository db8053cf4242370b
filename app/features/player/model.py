"""What is played, and how both legs fare along it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, is_dataclass
from typing import Any, Final, NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from app.features.bend.model import Curves
from app.features.player.frames import Course, Moment, moved, swept
from app.rider.inputs import Inputs, model
from app.rider.movement import MOVED, Movement
from app.stance.findings import Limits
from geometry import PostureInputs, solve

SWEEP_S: Final = 4.0
"""How long a sweep takes at full speed (s; engineering choice, no source)."""
FRAMES_PER_S: Final = 30
"""How many frames the arrow keys find in a second."""
LOOKED_AT: Final = 121
"""Moments at which both legs are solved, for the plots and for the worst of them."""
NO_POSTURE, KNEE, BOOT = "no posture", "knee", "boot"
"""What can be worst about a moment."""


class Sweep(NamedTuple):
    """One input from a value to another.

    Attributes:
        name: of the input.
        start: where it begins.
        end: where it ends.
        steps: in how many steps; 0 for a smooth sweep.
    """

    name: str
    start: float
    end: float
    steps: int = 0


Played: TypeAlias = Sweep | Movement


def course_of(inputs: Inputs, played: Played) -> Course:
    """The course of what is played with these inputs.

    Raises:
        ValueError: it cannot be played.
    """
    if isinstance(played, Sweep):
        return swept(inputs, *played)
    return moved(inputs, played.postures)


def seconds_of(played: Played) -> float:
    """How long it takes at full speed."""
    return SWEEP_S if isinstance(played, Sweep) else played.seconds


def frames_of(played: Played) -> int:
    """How many frames the arrow keys find: in a stepped sweep one for each value."""
    if isinstance(played, Sweep) and played.steps:
        return played.steps + 1
    return max(2, round(seconds_of(played) * FRAMES_PER_S) + 1)


def comes_back(played: Played) -> bool:
    """Whether it ends as it begins, so that it can go on and on."""
    if isinstance(played, Sweep):
        return False
    first, last = played.postures[0], played.postures[-1]
    return all(getattr(first, name) == getattr(last, name) for name in MOVED)


class Worst(NamedTuple):
    """The worst moment of one kind.

    Attributes:
        what: one of the keys above.
        end: of which leg, "front" or "rear"; "" where no posture settles.
        phase: when.
        share: how large the fault is for what counts as one: 1 at the limit.
    """

    what: str
    end: str
    phase: float
    share: float


@dataclass(frozen=True, eq=False)
class Track:
    """What is played, looked through from its beginning to its end.

    Attributes:
        played: what is played.
        moments: at which the legs were solved.
        curves: both legs there, over seconds or over the value that is swept.
        worst: the worst moments, the gravest first: what shows no posture, else of the
            knees and of the boots.
    """

    played: Played
    moments: list[Moment]
    curves: Curves
    worst: tuple[Worst, ...]

    def along(self, phase: float, inputs: Inputs) -> float:
        """Where a moment stands along the plots: in seconds, or by the value swept."""
        if isinstance(self.played, Sweep):
            return inputs.value(self.played.name)
        return phase * self.played.seconds

    def phase_at(self, x: float) -> float:
        """The phase of a place along the plots; at the nearer end beyond them."""
        places, phases = self.curves.x, np.array([each.phase for each in self.moments])
        if places[-1] < places[0]:
            places, phases = places[::-1], phases[::-1]
        return float(np.interp(x, places, phases))

    def at(self, phase: float, what: str) -> tuple[float, float]:
        """The angle of the front and of the rear leg at a phase (degrees).

        Args:
            phase: when.
            what: "off_plane" or "boot_flex".
        """
        phases = [each.phase for each in self.moments]
        front, rear = (float(np.interp(phase, phases, each)) for each in getattr(self.curves, what))
        return front, rear


def track_of(inputs: Inputs, played: Played, limits: Limits) -> Track:
    """What is played with these inputs, looked through.

    Raises:
        ValueError: it cannot be played, or the leg dimensions contradict each other on
            the way.
    """
    course = course_of(inputs, played)
    made = [Moment(phase, course(phase)) for phase in _phases_looked_at(played)]
    legs = solve(*_stacked([model(each.inputs) for each in made])).legs
    shape = (len(made),)
    off, flex = (
        np.degrees(np.array([np.broadcast_to(getattr(leg, what), shape) for leg in legs]))
        for what in ("off_plane", "boot_flex")
    )
    phases = np.array([each.phase for each in made])
    if isinstance(played, Sweep):
        x = np.array([each.inputs.value(played.name) for each in made])
    else:
        x = phases * played.seconds
    return Track(played, made, Curves(x, off, flex), _worst(made, off, flex, limits))


def _phases_looked_at(played: Played) -> list[float]:
    """Even phases, and those of the key postures themselves."""
    count = LOOKED_AT
    if isinstance(played, Sweep):
        count = played.steps + 1 if played.steps else LOOKED_AT
    even = [i / (count - 1) for i in range(count)]
    if isinstance(played, Sweep):
        return even
    first = played.postures[0].at_s
    return sorted({*even, *((each.at_s - first) / played.seconds for each in played.postures)})


def _stacked(given: list[PostureInputs]) -> PostureInputs:
    """Many inputs of the geometry as one of arrays; what is the same in all stays a number."""
    columns = (_column(list(each)) for each in zip(*given, strict=True))
    return PostureInputs(*columns)


def _column(things: list[Any]) -> Any:
    """Many things of one kind as one whose numbers are arrays."""
    first = things[0]
    if is_dataclass(first):
        names = [each.name for each in fields(first)]
        make: Callable[..., Any] = type(first)
        return make(**{name: _column([getattr(each, name) for each in things]) for name in names})
    return first if all(each == first for each in things) else np.array(things)


def _worst(
    made: list[Moment], off: NDArray[Any], flex: NDArray[Any], limits: Limits
) -> tuple[Worst, ...]:
    """The worst moments, the gravest first.

    Knees and boots are weighed by what counts as out: the limit of drifting, and the
    flex from rest to a stop (engineering choice, no source).
    """
    nowhere = np.flatnonzero(~np.isfinite(off[0]))
    if len(nowhere):
        return (Worst(NO_POSTURE, "", made[int(nowhere[0])].phase, np.inf),)
    legs = [[each.inputs.front for each in made], [each.inputs.rear for each in made]]
    rest = np.array([[leg.forward_lean_deg for leg in side] for side in legs])
    give = np.array([[max(leg.flex_range_deg, 0.1) for leg in side] for side in legs])
    shares = {KNEE: np.abs(off) / limits.drifting_deg, BOOT: np.abs(flex - rest) / give}
    found = []
    for what, share in shares.items():
        # Without the dust that would make one of two like turns the worse.
        end, at = np.unravel_index(int(np.argmax(share.round(6))), share.shape)
        phase = made[int(at)].phase
        found.append(Worst(what, ("front", "rear")[int(end)], phase, float(share[end, at])))
    return tuple(sorted(found, key=lambda each: -each.share))

"""The legs through the whole bend and over turned hips, as curves to be plotted.

Both plots come from one solve: the bends with the hips turned as they are, and
the turns at the bend in hand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from math import ceil, degrees, floor, isfinite, nan
from typing import Any, Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.rider.inputs import Inputs, flex_range, model
from app.stance.findings import DRIFTING, IN_PLANE, Limits
from app.stance.through import as_it_stands
from app.words.language import msgid, tr
from app.words.sentences import as_sentence, plain
from app.words.units import fixed
from geometry import PostureInputs, solve
from geometry.fitting.sweep import DEEPEST, TURN, riding_range

BENDS: Final = 61
TURNS: Final = 41
"""Postures along each curve."""
STEPS: Final = (0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 50.0, 100.0, 200.0)
"""Between two figures at an axis."""
OFF_PLANE_SPANS: Final = (6.0, 8.0, 12.0, 16.0, 24.0, 32.0, 48.0, 90.0)
"""How far up and down the plot of off-plane angles may reach (degrees)."""


class Curves(NamedTuple):
    """Both legs along one movement (degrees); nan where no posture settles.

    Attributes:
        x: knee bend, or how far the hips are turned; rising.
        off_plane: of front and rear knee, positive knock-kneed; shape (2, n).
        boot_flex: of front and rear boot, positive forward; shape (2, n).
    """

    x: NDArray[Any]
    off_plane: NDArray[Any]
    boot_flex: NDArray[Any]

    @property
    def settled(self) -> tuple[float, float]:
        """From which x to which a posture settles; nan where none does."""
        there = self.x[np.isfinite(self.off_plane[0])]
        return (float(there[0]), float(there[-1])) if len(there) else (nan, nan)


class Bend(NamedTuple):
    """What the two plots show.

    Attributes:
        over_bend: from standing tall to the deepest crouch.
        over_turn: with the hips turned to the tail and to the nose.
    """

    over_bend: Curves
    over_turn: Curves


def bend_of(inputs: Inputs) -> Bend:
    """The legs through the whole bend and over turned hips.

    The bend reaches to the deepest crouch, or to the bend in hand where that is
    deeper; the turn likewise.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    turn = widest_turn_deg(inputs)
    turns = np.linspace(-turn, turn, TURNS)
    given = model(inputs)
    bends = np.degrees(_bends(given))
    points = replace(
        given.crouch,
        knee_bend=np.radians(np.append(bends, np.full(TURNS, inputs.knee_bend_deg))),
        hips_turned=np.radians(np.append(np.full(BENDS, inputs.hips_turned_deg), turns)),
    )
    legs = solve(*given._replace(crouch=points)).legs
    off_plane = np.degrees(np.array([leg.off_plane for leg in legs]))
    flex = np.degrees(np.array([leg.boot_flex for leg in legs]))
    over_bend = Curves(bends, off_plane[:, :BENDS], flex[:, :BENDS])
    return Bend(over_bend, Curves(turns, off_plane[:, BENDS:], flex[:, BENDS:]))


def _bends(given: PostureInputs) -> NDArray[Any]:
    """Bends from standing tall to the deepest crouch (rad).

    Where no posture settles at all any bends will do to show it.
    """
    over = riding_range(
        *given,
        deepest=max(DEEPEST, float(given.crouch.knee_bend)),
        points=(BENDS, 1),
        turned=float(given.crouch.hips_turned),
    )
    nowhere = np.linspace(0.0, DEEPEST, BENDS)
    return np.where(np.isnan(over.bends), nowhere, over.bends)


def deepest_deg(inputs: Inputs) -> float:
    """The deepest bend shown (degrees)."""
    return max(degrees(DEEPEST), inputs.knee_bend_deg)


def widest_turn_deg(inputs: Inputs) -> float:
    """The widest turn shown, either way (degrees)."""
    return max(degrees(TURN), abs(inputs.hips_turned_deg))


def off_plane_span(bend: Iterable[Curves]) -> float:
    """How far up and down a plot reaches that holds all curves of off-plane angles (degrees)."""
    most = max(largest_of(curves.off_plane) for curves in bend)
    # No curve runs along the frame.
    return next((span for span in OFF_PLANE_SPANS if span >= 1.05 * most), OFF_PLANE_SPANS[-1])


def largest_of(angles: NDArray[Any]) -> float:
    """The largest angle, whatever its sign; 0 where there is none."""
    return float(np.fmax.reduce(np.abs(angles), axis=None, initial=0.0))


def flex_span(bend: Sequence[Curves], inputs: Inputs) -> tuple[float, float]:
    """Least and largest flex of a plot that holds all curves and the boots' range (degrees)."""
    ranges = [flex_range(leg) for leg in (inputs.front, inputs.rear)]
    low, high = min(low for low, _ in ranges), max(high for _, high in ranges)
    lows = [low, *(np.fmin.reduce(curves.boot_flex, axis=None) for curves in bend)]
    highs = [high, *(np.fmax.reduce(curves.boot_flex, axis=None) for curves in bend)]
    least, most = np.fmin.reduce(lows), np.fmax.reduce(highs)
    return 10.0 * floor((least - 2.0) / 10.0), 10.0 * ceil((most + 2.0) / 10.0)


def bend_words(bend: Bend, inputs: Inputs, limits: Limits) -> str:
    """Both plots in words, for those who cannot see them."""
    if np.isnan(bend.over_bend.settled[0]):
        return tr("No posture settles at any bend.")
    tall, deep = (plain(end, 0) for end in bend.over_bend.settled)
    over_bend, over_turn = (_told(curves, inputs, limits) for curves in bend)
    worst = as_sentence(most_words(inputs, limits))
    said = f"{worst} {tr(_OVER_BEND, tall=tall, deep=deep, **over_bend)}"
    return f"{said} {tr(_OVER_TURN, turn=plain(widest_turn_deg(inputs), 0), **over_turn)}"


_OVER_BEND: Final = msgid(
    "From {tall}° to {deep}° of knee bend: the front knee {front}; the rear knee {rear}; {boots}."
)
_OVER_TURN: Final = msgid(
    "With the hips turned up to {turn}° either way: the front knee {front}; "
    "the rear knee {rear}; {boots}."
)


def _told(curves: Curves, inputs: Inputs, limits: Limits) -> dict[str, str]:
    """What is said of both knees and of the boots along one movement."""
    front, rear = (_leg_words(curves, i, limits) for i in range(2))
    return {"front": front, "rear": rear, "boots": _boot_words(curves, inputs)}


def off_plane_readings(curves: Curves) -> list[str]:
    """Both knees at round angles along a movement, for those who cannot see the plot."""
    return _readings(curves, curves.off_plane, _signed)


def flex_readings(curves: Curves) -> list[str]:
    """Both boots at round angles along a movement."""
    return _readings(curves, curves.boot_flex, lambda flex: f"{plain(flex, 0)}°")


def _readings(curves: Curves, angles: NDArray[Any], worded: Callable[[float], str]) -> list[str]:
    said = []
    for x in ticks(float(curves.x[0]), float(curves.x[-1])):
        front, rear = (float(np.interp(x, curves.x, leg)) for leg in angles)
        if isfinite(front) and isfinite(rear):
            words = {"at": plain(x, 0), "front": worded(front), "rear": worded(rear)}
            said.append(tr("At {at}°: front {front}, rear {rear}.", **words))
    return said


def most_words(inputs: Inputs, limits: Limits) -> str:
    """How far each knee is out at most over the riding bend, in a phrase: the answer's worst."""
    low, high = (plain(end, 0) for end in (inputs.bend_from_deg, inputs.bend_to_deg))
    front, rear = (leg.worst_deg for leg in as_it_stands(inputs, limits))
    if np.isnan(front):
        return tr("no posture settles from {low}° to {high}°", low=low, high=high)
    return tr(
        "at most as you ride, from {low}° to {high}°: front {front}, rear {rear}",
        low=low,
        high=high,
        front=_signed(front),
        rear=_signed(rear),
    )


def flex_words(bend: Bend) -> str:
    """How far each boot flexes over the bend, in a phrase."""
    ends = []
    for flex in bend.over_bend.boot_flex:
        there = flex[np.isfinite(flex)]
        if not len(there):
            return tr("no posture settles")
        least, most = plain(there.min(), 0), plain(there.max(), 0)
        ends.append(tr("{least}° to {most}°", least=least, most=most))
    front, rear = ends
    return tr("boot flex over the bend: front {front}, rear {rear}", front=front, rear=rear)


def _signed(angle: float) -> str:
    if round(abs(angle), 1) == 0.0:
        return tr("in its plane")
    way = tr("knock-kneed") if angle > 0.0 else tr("bow-legged")
    return f"{fixed(abs(angle), 1)}° {way}"


def _leg_words(curves: Curves, i: int, limits: Limits) -> str:
    settled = np.isfinite(curves.off_plane[i])
    if not settled.any():
        return tr("has no posture")
    there = curves.off_plane[i][settled]
    farthest = np.argmax(np.abs(there))
    most, at = float(there[farthest]), plain(float(curves.x[settled][farthest]), 0)
    share = plain(100.0 * float(np.mean(np.abs(there) <= limits.in_plane_deg)), 0)
    state = limits.state(most)
    if state == IN_PLANE:
        return tr("stays in its plane")
    return tr(_DRIFTS if state == DRIFTING else _LEAVES, most=_signed(most), at=at, share=share)


_DRIFTS: Final = msgid("is a little out, {most} at {at}°, and in its plane over {share} %")
_LEAVES: Final = msgid("is out of its plane, {most} at {at}°, and in it over {share} %")


def _boot_words(curves: Curves, inputs: Inputs) -> str:
    there = curves.boot_flex[:, np.isfinite(curves.off_plane[0])]
    if not there.size:
        return tr("the boots have no posture")
    for flex, leg in zip(there, (inputs.front, inputs.rear), strict=True):
        low, high = flex_range(leg)
        if not (flex.min() >= low - 1e-9 and flex.max() <= high + 1e-9):
            return tr("a boot leaves its range")
    return tr("both boots stay in their range")


def ticks(low: float, high: float) -> list[float]:
    """Round angles from low to high, seven at most where a step allows it."""
    step = next((each for each in STEPS if (high - low) / each <= 7.0), STEPS[-1])
    first, last = ceil(low / step - 1e-9), floor(high / step + 1e-9)
    return [step * i for i in range(first, last + 1)]

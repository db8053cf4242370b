"""What suits the whole bend rather than one posture, in the rider's units."""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees, isnan, nan

from app.rider.inputs import Inputs, model
from app.rider.setup import Setup
from app.stance.needs import Mounts, grid_mounts
from geometry.fitting.inputs import Setup as PostureInputs
from geometry.fitting.range_best import RangeBest, range_best_steps
from geometry.fitting.steps import Steps, finished
from geometry.fitting.sweep import TURN, sweep_of


@dataclass(frozen=True, slots=True)
class RangeNeeds:
    """The lift and cants that keep the worst of the whole bend smallest (degrees).

    Attributes:
        best: the mounts, unrounded; nan where there are none.
        mounts: the same in half degrees, to be set.
        tallest_deg: least knee bend of the range.
        deepest_deg: largest knee bend of the range.
        turn_deg: how far the hips turn either way; 0 for the bend alone.
        worst_now_deg: largest off-plane angle of front and rear knee over the
            range with the mounts in hand.
        worst_then_deg: the same with the best mounts.
    """

    best: Mounts
    mounts: Mounts
    tallest_deg: float
    deepest_deg: float
    turn_deg: float
    worst_now_deg: tuple[float, float]
    worst_then_deg: tuple[float, float]


def range_needs_of(setup: Setup, *, turning: bool = True) -> RangeNeeds:
    """What suits the whole bend.

    Args:
        setup: of the rider.
        turning: whether the hips turn either way at every bend, or stay as
            they are turned in the set-up.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    return finished(range_needs_steps(setup, turning=turning))


def range_needs_steps(setup: Setup, *, turning: bool = True) -> Steps[RangeNeeds]:
    """:func:`range_needs_of` in short steps, for a window that must not stand still.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    solved = model(setup.inputs)
    turn, turned = (TURN, 0.0) if turning else (0.0, float(solved.crouch.hips_turned))
    best = yield from range_best_steps(*solved, turn=turn, turned=turned)
    yield
    return _needs(setup.inputs, solved, best, degrees(turn))


def _needs(inputs: Inputs, solved: PostureInputs, best: RangeBest, turn_deg: float) -> RangeNeeds:
    front, rear = (degrees(cant) for cant in best.cants)
    lift = degrees(best.lift)
    then = solved._replace(stance=best.stance)
    return RangeNeeds(
        best=Mounts(lift, front, 0.0 - lift, rear),
        mounts=grid_mounts(inputs, best.lift, best.cants),
        tallest_deg=degrees(float(best.over.bends[0])),
        deepest_deg=degrees(float(best.over.bends[-1])),
        turn_deg=turn_deg,
        worst_now_deg=_worst(solved, best),
        worst_then_deg=(nan, nan) if isnan(lift) else _worst(then, best),
    )


def _worst(solved: PostureInputs, best: RangeBest) -> tuple[float, float]:
    front, rear = sweep_of(*solved, best.over).worst_off_plane
    return degrees(front), degrees(rear)

"""Simulated riders who follow the advice from trial to trial until it is settled.

Cants first, and lifts by riders who feel those half as finely.

The bounds are those that the program sets itself.  Of riders drawn by chance some
samples lie above a bound that all riders together keep, so each bound has the slack
of two standard errors of a sample of its size.
"""

from __future__ import annotations

import math
from functools import cache
from typing import Final, NamedTuple

import numpy as np
import pytest
from fit_riders import rad

from geometry.fitting.next_angle import NextAngle, next_angle
from geometry.fitting.shares import OF_CANT, OF_LIFT, Sense, settled_share
from geometry.fitting.trials import Tried, Verdict

RIDERS: Final = 300
MOST: Final = 40
"""Who is not settled by then is led around for ever."""


class Kind(NamedTuple):
    """Riders of one kind, and how far off their cants may be.

    Attributes:
        even: how near to comfortable still feels even (rad).
        slips: chance of a verdict that says nothing.
        rms: largest root mean square error (deg).
        far: largest part of the riders more than ``off`` off.
        off: what is far off (deg).
        sense: with which the riders are asked.
        most: full angles of the riders reach this far (deg).
        trials: that half of the riders need at most.
    """

    even: float
    slips: float
    rms: float
    far: float
    off: float = 1.5
    sense: Sense = OF_CANT
    most: float = 12.0
    trials: int = 5


KINDS: Final = {
    "as assumed": Kind(rad(0.5), 0.02, 0.5, 0.005),
    "slipping": Kind(rad(0.5), 0.10, 0.95, 0.07),
    "numb": Kind(rad(1.5), 0.02, 0.7, 0.02),
    "lift": Kind(rad(1.0), 0.02, 1.0, 0.01, 3.0, OF_LIFT, 20.0, 6),
    "lift, slipping": Kind(rad(1.0), 0.10, 1.9, 0.07, 3.0, OF_LIFT, 20.0, 6),
    "lift, numb": Kind(rad(3.0), 0.02, 1.4, 0.02, 3.0, OF_LIFT, 20.0, 6),
}


class Rider(NamedTuple):
    """A simulated leg: full cant and the comfortable one (rad), and how it is tried."""

    full: float
    comfortable: float
    start: float
    step: float


class Led(NamedTuple):
    """Where the advice led a rider: angles in degrees, trials, and whether it asked."""

    off: float
    error: float
    trials: int
    settled: bool
    asked: bool


def drawn_rider(draws: np.random.Generator, kind: Kind) -> Rider:
    """Full angles of 2 to 12 (cants) or 20 degrees (lifts), any share of them comfortable.

    The start of a cant lies short of full cant by what boot, ankle and knee take (3.5 to
    8 degrees, hard to soft boots), in half degrees and at most 6: as a cant to begin with
    is proposed.  That of a lift lies short by the boot's range less a degree (14 to 19).
    """
    full = draws.uniform(2.0, kind.most)
    taken = (3.5, 8.0) if kind.sense is OF_CANT else (14.0, 19.0)
    start = round(2.0 * min(max(full - draws.uniform(*taken), 0.0), 6.0)) / 2.0
    way, step = draws.choice([-1.0, 1.0]), draws.choice([0.5, 1.0, 2.0])
    comfortable = draws.uniform(0.0, full)
    return Rider(way * rad(full), way * rad(comfortable), way * rad(start), rad(step))


def felt(rider: Rider, kind: Kind, cant: float, draws: np.random.Generator) -> Verdict:
    if draws.random() < kind.slips:
        return list(Verdict)[draws.integers(3)]
    lacking = rider.comfortable - cant + draws.normal(0.0, kind.sense.blur)
    if abs(lacking) <= kind.even:
        return Verdict.EVEN
    # What a leg says of a lift is taken in the same way: see geometry.fitting.trials.
    return Verdict.BOW_LEGGED if lacking > 0.0 else Verdict.KNOCK_KNEED


def led(rider: Rider, kind: Kind, draws: np.random.Generator) -> Led:
    """A rider follows the advice and agrees to all that it asks."""
    tried: list[Tried] = []
    asked = False
    advice = advised(rider, kind, tried)
    while not advice.settled and len(tried) < MOST:
        verdict = felt(rider, kind, advice.angle, draws)
        tried.append(Tried(advice.angle, rider.full, verdict))
        advice = advised(rider, kind, tried)
        asked = asked or advice.asks
    found = settled_share(tried, kind.sense)
    off = abs(found.share * rider.full - rider.comfortable)
    error = found.error * abs(rider.full)
    return Led(math.degrees(off), math.degrees(error), len(tried), advice.settled, asked)


def advised(rider: Rider, kind: Kind, tried: list[Tried]) -> NextAngle:
    return next_angle(
        tried, rider.full, rider.step, start=rider.start, beyond=True, sense=kind.sense
    )


@cache
def all_led(name: str) -> tuple[Led, ...]:
    draws = np.random.default_rng(1966)
    return tuple(led(drawn_rider(draws, KINDS[name]), KINDS[name], draws) for _ in range(RIDERS))


def column(name: str, which: str) -> np.ndarray:
    return np.array([getattr(one, which) for one in all_led(name)], dtype=float)


@pytest.mark.parametrize("name", KINDS)
def test_the_cant_is_found_as_well_as_promised(name: str) -> None:
    off, kind = column(name, "off"), KINDS[name]
    # A root mean square of n errors has a standard error of 1 / sqrt(2 n) of itself.
    assert np.sqrt(np.mean(off**2)) <= kind.rms * (1.0 + 2.0 / math.sqrt(2.0 * RIDERS))
    slack = 2.0 * math.sqrt(kind.far * (1.0 - kind.far) / RIDERS)
    assert np.mean(off > kind.off) <= kind.far + slack


@pytest.mark.parametrize("name", KINDS)
@pytest.mark.parametrize(("errors", "within"), [(1.0, 0.683), (2.0, 0.954)])
def test_what_stands_behind_plus_or_minus_is_true(name: str, errors: float, within: float) -> None:
    off, error = column(name, "off"), column(name, "error")
    slack = 2.0 * math.sqrt(within * (1.0 - within) / RIDERS)
    assert np.mean(off <= errors * error) >= within - slack
    # Nor is it wider than it need be by more than a fourth.
    assert np.sqrt(np.mean((off / error) ** 2)) >= 0.75


@pytest.mark.parametrize("name", KINDS)
def test_nobody_is_led_around_for_ever_and_half_are_through_after_a_few_trials(name: str) -> None:
    assert column(name, "settled").all()
    assert column(name, "trials").min() >= 3
    assert np.median(column(name, "trials")) <= KINDS[name].trials


@pytest.mark.parametrize("name", KINDS)
def test_hardly_anybody_within_full_cant_is_asked_to_go_beyond(name: str) -> None:
    assert np.mean(column(name, "asked")) <= 0.03


def test_riders_comfortable_beyond_full_cant_are_asked_and_led_there() -> None:
    draws = np.random.default_rng(1967)
    full = rad(8.0)
    beyond = [Rider(full, 1.2 * full, 0.5 * full, rad(1.0)) for _ in range(60)]
    found = [led(one, KINDS["as assumed"], draws) for one in beyond]
    assert all(one.settled for one in found)
    # A share of 1.2 is held to be unlikely, so some stop at full cant; none stops far below.
    assert np.mean([one.asked for one in found]) >= 0.5
    assert np.median([one.off for one in found]) <= 1.0

"""Cants and lifts against a root-finder on a physics engine's hinge chain.

The engine is MuJoCo, the root-finder scipy's; neither knows the package's closed
forms, and the package's solver is not asked where to start.  Legs and boots are of
their own, hips turned, and the engine says where the weight of the legs is.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from fit_chain import Chain
from fit_riders import random_setups

from geometry.fitting.inputs import PostureInputs
from geometry.fitting.smallest_mounts import full_cants, full_lifts, least_cants, least_lifts

RIDERS = random_setups(100, seed=20240201)
CLOSE = math.radians(0.01)


def fixed_of(chain: Chain, *, cants: bool) -> list[dict[str, float]]:
    """Both legs as they stand, on their own cants or on none."""
    legs = []
    for which in (0, 1):
        _, _, mount = chain.side(which)
        held = chain.held(which)
        legs.append({"lift": mount.lift, "cant": mount.cant * cants, "lean": held, "off": 0.0})
    return legs


def cants_by_chain(setup: PostureInputs, share: float) -> list[float]:
    """Cants of both feet: flat where the lean stays within a share of the give, else as needed."""
    chain = Chain(setup)
    gives = [share * boot.side_give for boot in setup.boots.both]
    free, fixed = ["lean", "lean"], fixed_of(chain, cants=False)
    for _ in range(4):
        legs = chain.closed(tuple(free), fixed)
        past = [leg["lean"] - chain.held(i) for i, leg in enumerate(legs)]
        beyond = [i for i in (0, 1) if abs(past[i]) > gives[i] + 1e-12]
        if not beyond:
            return [leg["cant"] for leg in legs]
        for i in beyond:
            free[i] = "cant"
            fixed[i]["lean"] = chain.held(i) + math.copysign(gives[i], past[i])
    raise ArithmeticError("the legs do not agree on who needs a cant")


def legs_by_chain(chain: Chain, flexes: list[float | None]) -> list[dict[str, float]]:
    """Both legs on their cants, without lift or with lifts that give the boots their flex."""
    free, fixed = ["lean", "lean"], fixed_of(chain, cants=True)
    for leg, flex in zip(fixed, flexes, strict=True):
        leg["lift"], leg["flex"] = 0.0, 0.0 if flex is None else flex
    for _ in range(6):
        legs = chain.closed(tuple(free), fixed, tuple(flex is not None for flex in flexes))
        past = [leg["lean"] - chain.held(i) for i, leg in enumerate(legs)]
        gives = [boot.side_give for boot in chain.setup.boots.both]
        beyond = [i for i in (0, 1) if abs(past[i]) > gives[i] + 1e-12]
        wrong = [i for i in (0, 1) if legs[i]["off"] * past[i] > 1e-12]
        if not beyond and not wrong:
            return legs
        for i in beyond:
            free[i] = "off"
            fixed[i]["lean"] = chain.held(i) + math.copysign(gives[i], past[i])
        for i in wrong:
            free[i], fixed[i]["off"] = "lean", 0.0
    raise ArithmeticError("the legs do not agree on who leaves the plane")


def lifts_by_chain(setup: PostureInputs, share: float) -> list[float]:
    """Lifts that leave each boot a share of its range: who needs one is tried out."""
    chain = Chain(setup)
    rests = [boot.forward_lean for boot in setup.boots.both]
    ranges = [share * boot.flex_range for boot in setup.boots.both]
    flexes: list[float | None] = [None, None]
    for _ in range(6):
        legs = legs_by_chain(chain, flexes)
        off = [leg["flex"] - rest for leg, rest in zip(legs, rests, strict=True)]
        wanting = [i for i in (0, 1) if flexes[i] is None and abs(off[i]) > ranges[i] + 1e-12]
        needless = [i for i in (0, 1) if flexes[i] is not None and legs[i]["lift"] * off[i] > 0.0]
        if not wanting and not (share and needless):
            return [leg["lift"] for leg in legs]
        for i in wanting:
            flexes[i] = rests[i] + math.copysign(ranges[i], off[i])
        for i in needless if share else []:
            flexes[i] = None
    raise ArithmeticError("the boots do not agree on who needs a lift")


@pytest.mark.parametrize(("share", "ours"), [(0.0, full_cants), (1.0, least_cants)])
def test_cants_of_a_hundred_riders_agree_with_the_chain(share: float, ours: Callable) -> None:
    for setup in RIDERS:
        found = ours(*setup)
        assert [found.front, found.rear] == pytest.approx(cants_by_chain(setup, share), abs=CLOSE)


@pytest.mark.parametrize(("share", "ours"), [(0.0, full_lifts), (1.0, least_lifts)])
def test_lifts_of_a_hundred_riders_agree_with_the_chain(share: float, ours: Callable) -> None:
    for setup in RIDERS:
        found = ours(*setup)
        assert [found.front, found.rear] == pytest.approx(lifts_by_chain(setup, share), abs=CLOSE)


def test_the_hundred_riders_are_a_mixed_lot() -> None:
    cants = [least_cants(*setup).front for setup in RIDERS]
    assert sum(cant == 0.0 for cant in cants) > 10
    assert sum(cant > 0.0 for cant in cants) > 10
    assert sum(cant < 0.0 for cant in cants) > 10
    lifts = [least_lifts(*setup) for setup in RIDERS]
    assert sum(pair.front == pair.rear == 0.0 for pair in lifts) > 10
    assert sum(pair.front > 0.0 > pair.rear for pair in lifts) > 5
    assert sum((pair.front == 0.0) != (pair.rear == 0.0) for pair in lifts) > 5
